"""``firstpitch outfit``: is this van legal and sound behind this car with this load?"""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from firstpitch.cli import van as shared
from firstpitch.cli.files import check_folder, write_files
from firstpitch.cli.outfit_inputs import DAY, echo_json, open_outfit, outfit_files

if TYPE_CHECKING:
    from firstpitch.outfit import OutfitCheck, Verdict

GROUPS = (
    ("Does not fit", "does not fit"),
    ("Cannot say", "cannot say"),
    ("Tight", "tight"),
    ("Fits", "fits"),
)


@click.command(
    epilog="\b\nExamples:\n  firstpitch outfit van.yaml car.yaml\n"
    "  firstpitch outfit van.yaml car.yaml --load load.yaml --stow stow.yaml --on 2027-05-29 --country DE\n"
    "  firstpitch outfit van.yaml car.yaml --load load.yaml --out sheets"
)
@shared.sheet_argument
@click.argument("car", type=click.Path())
@click.option("--load", metavar="LOAD", type=click.Path(), help="What the owner takes along (a load sheet).")
@click.option("--stow", metavar="STOW", type=click.Path(), help="Where it is (a stow sheet).")
@click.option("--on", metavar="DATE", type=DAY, help="Day of the journey, over the car sheet's: 2027-05-29.")
@click.option("--country", metavar="CC", help="Country of the journey, over the car sheet's: GB, DE or another code.")
@click.option(
    "--towed-mass",
    type=click.Choice(["mtplm", "actual", "axle"]),
    default="mtplm",
    show_default=True,
    help="What is held against the car's towing limit: the plate (safe side), the actual mass, or what the axles carry.",
)
@click.option("--brief", is_flag=True, help="Leave out where each figure comes from.")
@click.option(
    "--out",
    metavar="DIR",
    type=click.Path(),
    help="Write the outfit and stow sheet to this folder, as PDF and as a page; without --stow a stow is planned.",
)
@shared.catalogue_option
@click.option("--json", "as_json", is_flag=True, help="One JSON object, for machines.")
def command(
    *,
    sheet: str,
    car: str,
    load: str | None,
    stow: str | None,
    brief: bool,
    out: str | None,
    catalogue: str | None,
    as_json: bool,
    **changes: Any,
) -> None:
    """Judge a van behind a car: masses, coupling, licence, tyres, wheels, brake, speeds.

    Each verdict is "fits", "tight", "does not fit" or "cannot say", with its figure, limit and margin. Exit code 0: nothing that
    binds says "does not fit" (what cannot be said is listed). 1: something does. 2: bad input.
    """
    with shared.faults_as_exit_codes():
        from firstpitch.outfit import check_outfit

        folder = check_folder(out) if out is not None else None
        outfit = open_outfit(sheet, catalogue, car=car, load=load, stow=stow, **changes)
        found = check_outfit(outfit)
        files = write_files(folder, outfit_files(outfit, Path(sheet).stem)) if folder is not None else []
        if as_json:
            from firstpitch.outfit.objects import outfit_object

            echo_json(outfit_object(found))
        else:
            _print(f"{outfit.van.identity.name} behind {outfit.car.name}", found, not brief)
            for file in files:
                click.echo(f"Written: {file}" + ("" if stow is not None else ", with a stow that was planned"))
        if found.word == "does not fit":
            sys.exit(shared.NO)


def _print(title: str, found: OutfitCheck, sources: bool) -> None:
    from rich.console import Console

    console = Console(highlight=False, soft_wrap=False)
    console.print(f"[bold]{title}: {found.word}[/bold]")
    for heading, word in GROUPS:
        verdicts = [verdict for verdict in found.verdicts if verdict.word == word]
        if verdicts:
            console.print(f"\n[bold]{heading}[/bold]")
        for verdict in verdicts:
            _print_one(console, verdict, sources)
    if found.laden.correction:
        console.print(f"\n{found.laden.correction.sentence}", markup=False)
    console.print("\n[bold]Speed limits with a caravan[/bold]")
    for limit in found.speeds:
        when = f" ({limit.when})" if limit.when else ""
        console.print(
            f"  {limit.country}, {limit.road}: {limit.written}{when} · {limit.source}, {limit.status}", markup=False
        )
    console.print("\n[bold]Before you drive off[/bold]")
    for line in found.departure:
        console.print(f"  □ {line.text}", markup=False)
    console.print(f"\n{found.caution}", style="dim", markup=False)


def _print_one(console: Any, verdict: Verdict, sources: bool) -> None:
    standing = (
        "" if verdict.binding else " (guideline, no law)" if verdict.standing == "guideline" else " (not binding)"
    )
    console.print(f"  {verdict.title}{standing}. {verdict.sentence}", markup=False)
    if sources:
        console.print(f"    {verdict.standing}; {verdict.source}", style="dim", markup=False)
