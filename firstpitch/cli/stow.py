"""``firstpitch stow``: where does each item of load go, and what would make today's stow better?"""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from firstpitch.cli import van as shared
from firstpitch.cli.files import check_file
from firstpitch.cli.number import Number
from firstpitch.cli.outfit_inputs import echo_json, open_outfit

if TYPE_CHECKING:
    from firstpitch.outfit import Outfit, StowPlan
    from firstpitch.outfit.stow import Move, StowFigures, StowJudgement


@click.command(
    epilog="\b\nExamples:\n  firstpitch stow van.yaml load.yaml --car car.yaml --save stow.yaml\n"
    "  firstpitch stow van.yaml load.yaml --car car.yaml --from stow.yaml --judge"
)
@shared.sheet_argument
@click.argument("load", type=click.Path())
@click.option(
    "--car", metavar="CAR", type=click.Path(), help="The towing car, for its noseweight limits (a car sheet)."
)
@click.option("--from", "stow", metavar="STOW", type=click.Path(), help="Today's stow: as little as possible is moved.")
@click.option("--judge", is_flag=True, help="Plan nothing: judge the stow of --from and say what to move next.")
@click.option("--country", metavar="CC", help="Country of the journey, over the car sheet's.")
@click.option(
    "--seconds",
    type=Number(0.1, 600),
    default=10.0,
    show_default=True,
    help="At most so long to look for a proof.",
)
@click.option("--save", metavar="FILE", type=click.Path(), help="Write the stow to FILE, to be read again by --from.")
@click.option("--svg", metavar="FILE", type=click.Path(), help="Write a drawing of the loaded van to FILE.")
@shared.catalogue_option
@click.option("--json", "as_json", is_flag=True, help="One JSON object, for machines.")
def command(
    *,
    sheet: str,
    load: str,
    car: str | None,
    stow: str | None,
    judge: bool,
    country: str | None,
    seconds: float,
    **more: Any,
) -> None:
    """Say where each item of load goes.

    Noseweight within every limit and its best band, lockers within theirs, heavy things low and by the axle, level from side to
    side. Exit code 0: everything has its place. 1: something must stay at home or breaks a limit. 2: bad input.
    """
    with shared.faults_as_exit_codes():
        for option in ("save", "svg"):
            if more[option] is not None:
                check_file(more[option])
        outfit = open_outfit(sheet, more["catalogue"], car=car, load=load, stow=stow, country=country)
        if judge:
            if stow is None:
                raise click.UsageError("--judge needs the stow to judge: give it with --from STOW.")
            word = _judge(outfit, more)
        else:
            word = _plan(outfit, seconds, more)
        if word == "does not fit":
            sys.exit(shared.NO)


def _plan(outfit: Outfit, seconds: float, more: dict[str, Any]) -> str:
    from firstpitch.outfit import plan_stow, stow_text

    plan = plan_stow(outfit, seconds=seconds)
    if more["save"]:
        Path(more["save"]).write_text(stow_text(plan.stow), encoding="utf-8")
    if more["svg"]:
        _draw(outfit, plan.figures, more["svg"])
    if more["as_json"]:
        from firstpitch.outfit.objects import plan_object

        echo_json(plan_object(plan))
        return plan.word
    _print_plan(plan)
    for option in ("save", "svg"):
        if more[option]:
            click.echo(f"Written: {more[option]}")
    return plan.word


def _judge(outfit: Outfit, more: dict[str, Any]) -> str:
    from firstpitch.outfit import judge_stow
    from firstpitch.outfit.stow import improve, stow_problem

    judgement = judge_stow(outfit)
    problem = stow_problem(outfit)
    moves = improve(problem, problem.counts(outfit.stow)) if outfit.stow else ()
    if more["svg"]:
        _draw(outfit, judgement.figures, more["svg"])
    if more["as_json"]:
        from firstpitch.outfit.objects import judgement_object

        echo_json(judgement_object(judgement, moves))
        return judgement.word
    _print_judgement(judgement, moves)
    return judgement.word


def _draw(outfit: Outfit, figures: StowFigures, file: str) -> None:
    from firstpitch.papers.drawing.load import draw_load

    Path(file).write_text(draw_load(outfit, figures), encoding="utf-8")


def _print_plan(plan: StowPlan) -> None:
    from rich.console import Console

    from firstpitch.outfit.stow.plan import TOLERANCE

    console = Console(highlight=False)
    console.print(f"[bold]{plan.word}[/bold]")
    console.print(plan.sentence, markup=False)
    _print_lockers(console, plan.figures)
    for way in plan.ways:
        if way.sentence not in plan.sentence:
            console.print(f"  · {way.sentence}", markup=False)
    if plan.holds_up:
        console.print(f"What keeps the rest out: {', '.join(plan.holds_up)}.", markup=False)
    elif plan.left:
        console.print("No single limit keeps the rest out: several do together, or it fits no locker.", markup=False)
    if plan.carried:
        console.print(f"\n[bold]{plan.figures.moved} pieces move from today's stow[/bold]")
        for move in plan.carried:
            where = f"{move.origin or 'outside'} to {move.to}"
            console.print(f"  {move.number} × {move.name}: {where}", markup=False)
    for near in plan.near:
        console.print(f"  note: {near}", markup=False)
    proof = (
        f"No other stow is better by more than {TOLERANCE:g} points."
        if plan.proven
        else f"There may be a stow better by {plan.points - plan.bound:.0f} points; more --seconds would tell."
    )
    console.print(f"\n{proof} A point is one kg·m² of yaw inertia.", markup=False)
    console.print(plan.caution, style="dim", markup=False)


def _print_lockers(console: Any, figures: StowFigures) -> None:
    from rich.table import Table

    table = Table(box=None, pad_edge=False, header_style="bold")
    table.add_column("locker")
    table.add_column("kg", justify="right")
    table.add_column("limit", justify="right")
    table.add_column("full", justify="right")
    table.add_column("what")
    for locker in figures.lockers:
        limit = f"{locker.limit:g}" if locker.limit is not None else "?"
        what = ", ".join(f"{number} × {name}" if number > 1 else name for name, number in locker.pieces)
        table.add_row(locker.name, f"{locker.mass:.1f}", limit, f"{locker.filled:.0%}", what)
    console.print(table)


def _print_judgement(judgement: StowJudgement, moves: tuple[Move, ...]) -> None:
    from rich.console import Console

    console = Console(highlight=False)
    console.print(f"[bold]{judgement.word}[/bold]")
    for breach in judgement.figures.breaches:
        console.print(f"  {breach.sentence}", markup=False)
    _print_lockers(console, judgement.figures)
    if not moves:
        console.print("No single move makes it better.")
        return
    console.print("\n[bold]What to do, one move at a time[/bold]")
    for number, move in enumerate(moves, 1):
        console.print(f"  {number}. {move.sentence}", markup=False)
