"""``firstpitch round``: plan a safe, timed walk-round."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING, Any

import click

from firstpitch.cli import van as shared
from firstpitch.cli.files import check_file, write_files

if TYPE_CHECKING:
    from firstpitch.rounds import Clash, Plan, Problem


@click.command(
    epilog="\b\nExamples:\n  firstpitch round van.yaml\n  firstpitch round van.yaml --minutes 90 --water kept --why\n"
    "  firstpitch round van.yaml --mode film --json > round.json"
)
@shared.sheet_argument
@shared.round_options
@shared.catalogue_option
@click.option("--json", "as_json", is_flag=True, help="One JSON object, for machines.")
@click.option("--svg", metavar="FILE", type=click.Path(), help="Write the picture of the round in time to FILE.")
@click.option(
    "--seed",
    type=click.IntRange(0, 2**31 - 1),
    default=0,
    show_default=True,
    help="The same seed gives the same round.",
)
@click.option("--why", is_flag=True, help="Say of each step why it stands there.")
def command(
    *, sheet: str, catalogue: str | None, as_json: bool, svg: str | None, seed: int, why: bool, **options: Any
) -> None:
    """Plan a safe, timed walk-round of one van.

    Every must step is taken, then the most worth that fits the minutes, in the least time found, with a proven bound on how much less
    it could be. Exit code 0: a round. 1: there is none, and why. 2: bad input.
    """
    with shared.faults_as_exit_codes():
        from firstpitch.rounds import Clash, plan_round

        picture = check_file(svg) if svg is not None else None
        van = shared.open_van(sheet, catalogue)
        problem = shared.make_problem(van, **options)
        plan = plan_round(problem, seed=seed, tell=shared.progress)
        shared.end_progress()
        if isinstance(plan, Clash):
            _tell_clash(problem, plan, as_json)
            sys.exit(shared.NO)
        if picture is not None:
            from firstpitch.papers import round_svg

            write_files(picture.parent, {picture.name: round_svg(problem, plan).encode()})
        if as_json:
            import json

            from firstpitch.rounds import round_object

            click.echo(json.dumps(round_object(problem, plan), ensure_ascii=False, indent=1))
            return
        _print_round(problem, plan, why)
        if picture is not None:
            click.echo(f"The picture of the round is in {svg}.")


def _tell_clash(problem: Problem, clash: Clash, as_json: bool) -> None:
    if as_json:
        import json

        click.echo(
            json.dumps(
                {
                    "van": problem.van,
                    "mode": problem.mode,
                    "start_name": problem.start_name,
                    "clash": list(clash.facts),
                    "smallest": clash.smallest,
                    "least_s": clash.least_seconds,
                    "found_s": clash.found_seconds,
                },
                ensure_ascii=False,
                indent=1,
            )
        )
        return
    click.echo("There is no such round. These cannot all be true:")
    for fact in clash.facts:
        click.echo(f"  · {fact}")
    if not clash.smallest:
        click.echo("(A smaller set may clash too.)")


def _print_round(problem: Problem, plan: Plan, why: bool) -> None:
    from rich.console import Console
    from rich.table import Table

    from firstpitch.rounds.wording import clock

    console = Console(highlight=False)
    steps = {s.id: s for s in problem.steps}
    reasons = _reasons(problem, plan) if why else {}
    table = Table(box=None, pad_edge=False, header_style="bold", title_justify="left")
    for name, justify in (("from", "right"), ("to", "right"), ("where", "left"), ("kit", "left"), ("step", "left")):
        table.add_column(name, justify=justify, no_wrap=name != "step")  # type: ignore[arg-type]
    waits = {w.id: w for w in problem.waits}
    where = {p.id: p.words for p in problem.places}
    for timed in plan.steps:
        step = steps[timed.step]
        words = step.title if step.level == "must" else f"{step.title} ({step.level})"
        for wait in step.starts:
            words += f"\n  starts: {waits[wait].title}, {clock(waits[wait].seconds)}"
        for reason in reasons.get(timed.step, ()):
            words += f"\n  {reason}"
        table.add_row(clock(timed.start), clock(timed.end), where[step.place], step.kit_name, words)
    console.print(table)
    _print_left_out(problem, plan, console)
    shown = f"{len(plan.steps)} steps in {clock(plan.total)}"
    proof = (
        "no order of them is quicker"
        if plan.proven
        else f"no order of them takes less than {clock(plan.bound)} ({plan.gap:.1%} below)"
    )
    console.print(f"\n{shown}; {proof}. Seed {plan.seed}.")
    from firstpitch.cli.main import CAUTION

    console.print(CAUTION, style="dim")


def _reasons(problem: Problem, plan: Plan) -> dict[str, tuple[str, ...]]:
    from firstpitch.rounds import why as why_steps

    return dict(why_steps(problem, plan))


def _print_left_out(problem: Problem, plan: Plan, console: Any) -> None:
    if not plan.left_out:
        return
    steps = {s.id: s for s in problem.steps}
    console.print("\nLeft out:")
    for left in plan.left_out:
        step = steps[left.step]
        console.print(f"  · {step.title} ({step.kit_name}; {step.level}, worth {step.worth}). {left.reason}")
