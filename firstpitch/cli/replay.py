"""``firstpitch replay``: check any order of steps against the rules."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Any

import click

from firstpitch.cli import van as shared


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
        found = replay(problem, read_sequence(_text(sequence), sequence), whole=not part)
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


def _text(path: str) -> str:
    from firstpitch.sheet.errors import SheetError

    file = Path(path)
    if file.is_dir():
        raise SheetError(f"{path}: this is a folder; name a file with a sequence of steps.")
    if not file.exists():
        raise SheetError(f"{path}: there is no such file.")
    if file.stat().st_size > _LARGEST:
        raise SheetError(
            f"{path}: the file has {file.stat().st_size:,} bytes; a sequence of steps has at most {_LARGEST:,}."
        )
    try:
        return file.read_text("utf-8")
    except UnicodeDecodeError:
        raise SheetError(f"{path}: the file is not UTF-8 text; save it as UTF-8.") from None


_LARGEST = 5_000_000
