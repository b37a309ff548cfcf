"""``firstpitch replay``: check any order of steps against the rules."""

from __future__ import annotations

import sys
from typing import Any

import click

from firstpitch.cli import van as shared
from firstpitch.cli.files import read_text


@click.command(
    epilog="\b\nExamples:\n  firstpitch round van.yaml --json > round.json\n  firstpitch replay van.yaml round.json\n"
    "  firstpitch replay van.yaml half.json --part"
)
@shared.sheet_argument
@click.argument("sequence", type=click.Path())
@shared.round_options
@shared.catalogue_option
@click.option("--part", is_flag=True, help="Judge a part of a round: it need not be complete nor end road-ready.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object, for machines.")
def command(sheet: str, sequence: str, catalogue: str | None, part: bool, as_json: bool, **options: Any) -> None:
    """Check any order of steps against the rules, without the planner.

    SEQUENCE is a file that “firstpitch round --json” wrote, or a JSON list of steps with id, start_s and end_s. Exit code 0: clean.
    1: rules are broken, each with its step, condition and harm. 2: bad input.
    """
    with shared.faults_as_exit_codes():
        from firstpitch.rounds import read_sequence, replay
        from firstpitch.rounds.wording import clock

        van = shared.open_van(sheet, catalogue)
        problem = shared.make_problem(van, **options)
        found = replay(
            problem, read_sequence(read_text(sequence, "a sequence of steps", _LARGEST), sequence), whole=not part
        )
        if as_json:
            import json

            rows = [
                {"rule": b.rule, "step": b.step, "at_s": b.at, "condition": b.condition, "text": b.text, "harm": b.harm}
                for b in found
            ]
            click.echo(json.dumps({"clean": not found, "broken": rows}, ensure_ascii=False, indent=1))
        elif not found:
            click.echo("Clean: no rule is broken.")
        else:
            for b in found:
                harm = f" Harm: {b.harm}" if b.harm and b.harm not in b.text else ""
                click.echo(f"{clock(b.at):>6}  {b.rule}: {b.text}{harm}")
        if found:
            sys.exit(shared.NO)


_LARGEST = 5_000_000
