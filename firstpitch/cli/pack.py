"""``firstpitch pack``: the owner's pack."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from firstpitch.cli import van as shared
from firstpitch.cli.files import check_folder, write_files
from firstpitch.cli.outfit_inputs import open_outfit

if TYPE_CHECKING:
    from firstpitch.outfit import Outfit


@click.command(
    epilog="\b\nExamples:\n  firstpitch pack van.yaml --out packs\n"
    "  firstpitch pack van.yaml --car car.yaml --load load.yaml --out packs"
)
@shared.sheet_argument
@shared.round_options
@shared.catalogue_option
@click.option("--car", metavar="CAR", type=click.Path(), help="The towing car: adds the outfit and stow sheet.")
@click.option("--load", metavar="LOAD", type=click.Path(), help="What the owner takes along, for that sheet.")
@click.option("--stow", metavar="STOW", type=click.Path(), help="Where it is, for that sheet; else a stow is planned.")
@click.option(
    "--out", metavar="DIR", type=click.Path(), default="out", show_default=True, help="The folder to write to."
)
@click.option(
    "--seed",
    type=click.IntRange(0, 2**31 - 1),
    default=0,
    show_default=True,
    help="The same seed gives the same round.",
)
def command(
    *,
    sheet: str,
    catalogue: str | None,
    out: str,
    seed: int,
    car: str | None,
    load: str | None,
    stow: str | None,
    **options: Any,
) -> None:
    """Make the owner's pack of one van, as PDF and as a page.

    Cover with the van drawn to scale, cards for arriving, leaving, towing and winter, a card per kit with its cautions and figures, the
    start-up list, and the round as a one-page programme. With --car the outfit and stow sheet has its
    pages in it; what it says is told, and does not change the exit code.
    """
    with shared.faults_as_exit_codes():
        if car is None and (load or stow):
            raise click.UsageError(
                "--load and --stow are for the outfit and stow sheet: give the car too, with --car CAR."
            )
        folder = check_folder(out)
        van, stem = shared.open_van(sheet, catalogue), Path(sheet).stem
        outfit = open_outfit(sheet, catalogue, car=car, load=load, stow=stow) if car is not None else None
        problem = shared.make_problem(van, **options)
        for path in write_pack(van, problem, folder, stem, seed, outfit=outfit):
            click.echo(path)


def write_pack(
    van: shared.OpenVan, problem: Any, out: Path, stem: str, seed: int, *, outfit: Outfit | None = None
) -> list[Path]:
    """Plan the round and write the pack's files, with the sheet of ``outfit`` in it; leaves with exit code 1 without a round."""
    from firstpitch.papers import outfit_data, pack_data, pack_document, pack_page, round_document, round_svg
    from firstpitch.rounds import Clash, plan_round

    plan = plan_round(problem, seed=seed, tell=shared.progress)
    shared.end_progress()
    if isinstance(plan, Clash):
        click.echo("There is no safe round of this van, so there is no pack. These cannot all be true:", err=True)
        for fact in plan.facts:
            click.echo(f"  · {fact}", err=True)
        sys.exit(shared.NO)
    shared.stage("Setting the pages")
    today = date.today()
    sheet = outfit_data(outfit, made=today) if outfit is not None else None
    data = pack_data(van.sheet, van.catalogue, problem, plan, made=today, outfit=sheet)
    assert data.round is not None
    files: dict[str, bytes] = {
        f"{stem}-pack.pdf": pack_document(data),
        f"{stem}-pack.html": pack_page(data).encode(),
        f"{stem}-round.pdf": round_document(data.round, data.van),
        f"{stem}-round.svg": round_svg(problem, plan).encode(),
    }
    shared.end_progress()
    if sheet is not None:
        click.echo(f"The outfit and stow sheet says: {sheet.word}.", err=True)
    return write_files(out, files)
