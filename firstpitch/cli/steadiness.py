"""``firstpitch steadiness``: how steady does each loading tow beside the others?"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from firstpitch.cli import van as shared
from firstpitch.cli.files import check_file
from firstpitch.cli.number import Number
from firstpitch.cli.outfit_inputs import echo_json, open_outfit

if TYPE_CHECKING:
    from firstpitch.outfit import Outfit, SteadinessComparison


@click.command(
    epilog="\b\nExamples:\n  firstpitch steadiness van.yaml car.yaml load.yaml\n"
    "  firstpitch steadiness van.yaml car.yaml load.yaml --stow today.yaml --stow better.yaml --speed 100"
)
@shared.sheet_argument
@click.argument("car", type=click.Path())
@click.argument("load", type=click.Path())
@click.option(
    "--stow",
    "stows",
    metavar="STOW",
    type=click.Path(),
    multiple=True,
    help="A stow to compare; may be given several times.",
)
@click.option("--planned", is_flag=True, help="Compare a planned stow too (always, where no stow is given).")
@click.option("--speed", type=Number(20, 200), default=80.0, show_default=True, help="km/h at which damping is given.")
@click.option("--samples", type=click.IntRange(100, 100_000), default=10_000, show_default=True, help="Outfits drawn.")
@click.option(
    "--seed", type=click.IntRange(0, 2**31 - 1), default=0, show_default=True, help="The same seed, the same draws."
)
@shared.catalogue_option
@click.option("--svg", metavar="FILE", type=click.Path(), help="Write damping over speed as a drawing to FILE.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object, for machines.")
def command(
    *,
    sheet: str,
    car: str,
    load: str,
    stows: tuple[str, ...],
    planned: bool,
    speed: float,
    samples: int,
    seed: int,
    catalogue: str | None,
    svg: str | None,
    as_json: bool,
) -> None:
    """Compare how steadily loadings tow: the empty van, each stow, a planned one.

    A linear model of car and caravan, over many outfits drawn for what the sheets do not give. It compares; it certifies no speed.
    Exit code 0: compared. 2: bad input.
    """
    with shared.faults_as_exit_codes():
        from firstpitch.outfit import compare_steadiness

        if svg is not None:
            check_file(svg)
        empty = open_outfit(sheet, catalogue, car=car, load=load)
        loadings = _loadings(
            empty, [open_outfit(sheet, catalogue, car=car, load=load, stow=stow) for stow in stows], stows
        )
        if planned or not stows:
            loadings.update(_planned(empty))
        found = compare_steadiness(loadings, speed=speed / 3.6, samples=samples, seed=seed)
        if svg:
            from firstpitch.papers.drawing.scales import draw_steadiness

            Path(svg).write_text(draw_steadiness(found, mode="alone"), encoding="utf-8")
        if as_json:
            from firstpitch.outfit.objects import steadiness_object

            echo_json(steadiness_object(found))
            return
        _print(found)


def _loadings(outfit: Outfit, stowed: list[Outfit], files: tuple[str, ...]) -> dict[str, Outfit]:
    from dataclasses import replace

    from firstpitch.outfit import Load

    found = {"Without load": replace(outfit, load=Load("no load", (), outfit.load.water))}
    for file, one in zip(files, stowed, strict=True):
        name = Path(file).stem
        found[name if name not in found else file] = one
    return found


def _planned(outfit: Outfit) -> dict[str, Outfit]:
    from dataclasses import replace

    from firstpitch.outfit import plan_stow

    plan = plan_stow(outfit)
    name = "As planned" if not plan.left else "As planned, with things left at home"
    return {name: replace(outfit, load=plan.aboard, stow=plan.stow)}


def _print(found: SteadinessComparison) -> None:
    from rich.console import Console

    console = Console(highlight=False)
    console.print("[bold]A comparison of loadings. It certifies no speed.[/bold]")
    for one in found.loadings:
        console.print(f"\n{one.sentence}", markup=False)
        console.print(
            f"  noseweight {one.nose:.0f} kg of {one.mass:.0f} kg · yaw inertia {one.inertia:.0f} kg·m² · "
            f"damping {one.damping.middle:.2f} ({one.damping.low:.2f} to {one.damping.high:.2f}) · "
            f"a swing takes {_period(one.frequency.middle)}",
            markup=False,
        )
    for other in found.compared:
        console.print(f"\n{other.sentence}", markup=False)
    if found.unknown:
        console.print(f"\nNot known, and so assumed or left out: {', '.join(found.unknown)}.", markup=False)
    drawn = ", ".join(one.what for one in found.drawn)
    console.print(f"\nDrawn {found.samples} times, seed {found.seed}: {drawn}.", style="dim", markup=False)
    console.print(found.caution, markup=False)


def _period(frequency: float) -> str:
    return f"{1 / frequency:.1f} s" if frequency > 0 else "no time: nothing swings"
