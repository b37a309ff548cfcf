"""``firstpitch kinds``: the catalogue."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from firstpitch.cli import van as shared

if TYPE_CHECKING:
    from firstpitch.catalogue import Kind


@click.command(epilog="\b\nExamples:\n  firstpitch kinds\n  firstpitch kinds water_heater\n  firstpitch kinds --json")
@click.argument("kind", required=False)
@shared.catalogue_option
@click.option("--json", "as_json", is_flag=True, help="One JSON object, for machines.")
def command(kind: str | None, catalogue: str | None, as_json: bool) -> None:
    """List the kinds of kit, or show one whole: facts, steps, cautions, inspection points."""
    with shared.faults_as_exit_codes():
        from firstpitch.catalogue import load
        from firstpitch.sheet.errors import SheetError
        from firstpitch.sheet.faults import nearest

        kinds = load(Path(catalogue) if catalogue else None).kinds
        if kind is not None and kind not in kinds:
            raise SheetError(f"There is no kind “{kind}”{nearest(kind, kinds)}; “firstpitch kinds” lists them all.")
        chosen = [kinds[kind]] if kind else sorted(kinds.values(), key=lambda k: (_GROUPS[k.group], k.title))
        if as_json:
            import json

            click.echo(json.dumps({k.key: _plain(k) for k in chosen}, ensure_ascii=False, indent=1))
        elif kind:
            _print_one(chosen[0])
        else:
            _print_all(chosen)


_GROUPS = {"front": 0, "round": 1, "inside": 2}
_GROUP_WORDS = {"front": "outside, at the front", "round": "outside, round the van", "inside": "inside"}


def _plain(value: Any) -> Any:
    """Frozen records as plain objects, for JSON."""
    from collections.abc import Mapping
    from dataclasses import fields, is_dataclass

    if is_dataclass(value) and not isinstance(value, type):
        return {f.name: _plain(getattr(value, f.name)) for f in fields(value) if f.name != "file"}
    if isinstance(value, Mapping):
        return {str(key): _plain(inner) for key, inner in value.items()}
    if isinstance(value, tuple | list):
        return [_plain(inner) for inner in value]
    return value


def _print_all(kinds: list[Kind]) -> None:
    from rich.console import Console
    from rich.table import Table

    console = Console(highlight=False)
    for group, words in _GROUP_WORDS.items():
        table = Table(box=None, pad_edge=False, header_style="bold", title=words, title_justify="left")
        table.add_column("kind", no_wrap=True)
        table.add_column("what it is")
        table.add_column("steps", justify="right")
        for kind in kinds:
            if kind.group == group:
                table.add_row(kind.key, f"{kind.title}. {kind.about}", str(len(kind.steps)))
        console.print(table)
        console.print()


def _print_one(kind: Kind) -> None:
    from rich.console import Console

    console = Console(highlight=False)
    console.print(f"{kind.title} ({kind.key}, {_GROUP_WORDS[kind.group]})", style="bold")
    console.print(kind.about)
    parts: dict[str, list[str]] = {
        "Facts the sheet gives": [
            f"{f.name}: {f.what}{f' [{f.unit}]' if f.unit else ''}{'' if f.need == 'must' else ' (nice to know)'}"
            for f in kind.facts.values()
        ],
        "Cautions": [f"{c.level.upper()}: {c.text} ({c.source})" for c in kind.cautions],
        "Steps": [f"{s.title} ({s.level}): {', '.join(s.points)}" for s in kind.steps],
        "Waits": [w.title for w in kind.waits.values()],
        "Must never be": [f"{g.harm} ({g.source})" for g in kind.guards],
        "Inspection points": [f"{i.point} ({i.how}, {i.severity})" for i in kind.inspection],
    }
    for title, lines in parts.items():
        if lines:
            console.print(f"\n{title}", style="bold")
            for line in lines:
                console.print(f"  · {line}", markup=False)
