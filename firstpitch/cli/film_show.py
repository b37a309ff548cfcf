"""How the film's script and findings are printed."""

from __future__ import annotations

import dataclasses
import json
from collections import Counter
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from firstpitch.film.captions.write import clock

if TYPE_CHECKING:
    from firstpitch.film.types import Coverage, FilmBrief, Script


def echo_object(found: Any) -> None:
    """One JSON object (or a list of them) on the output."""

    def plain(value: Any) -> Any:
        return (
            dataclasses.asdict(value) if dataclasses.is_dataclass(value) and not isinstance(value, type) else str(value)
        )

    click.echo(json.dumps(found, default=plain, ensure_ascii=False, indent=1))


def write_script(out: Path, script: Script, stem: str) -> list[Path]:
    """Write the shot list (PDF) and the prompter with the shot list (a page) to the folder ``out``."""
    from firstpitch.papers.film_script import script_html, script_pdf

    out.mkdir(parents=True, exist_ok=True)
    files = {f"{stem}-script.html": script_html(script).encode(), f"{stem}-shots.pdf": script_pdf(script)}
    for name, data in files.items():
        (out / name).write_bytes(data)
    return [out / name for name in files]


def print_script(script: Script) -> None:
    """The shots in order."""
    from rich.console import Console

    console = Console(highlight=False)
    console.print(
        f"[bold]{script.van}[/bold]: {len(script.shots)} shots, {clock(script.total)} at {script.words_per_minute:.0f} words a minute\n"
    )
    for shot in script.shots:
        console.print(
            f"[bold]{shot.number}. {clock(shot.start)} {shot.title}[/bold] ({shot.seconds} s; {shot.place})",
            markup=True,
        )
        console.print(f"   See: {shot.sees}", markup=False)
        for caution in shot.cautions:
            console.print(f"   ! First say: {caution}", markup=False)
        console.print(f"   Say: {shot.say}", markup=False)
        for what, value in shot.figures.items():
            console.print(f"   {what}: {value}", markup=False, style="dim")
        for wait in shot.waits:
            console.print(f"   Runs on from here: {wait}", markup=False, style="dim")
    _listed(console, "Left out for want of time", script.left_out)
    _caution(console)


def print_coverage(brief: FilmBrief, found: Coverage, *, every: bool) -> None:
    """The findings, the gravest first."""
    from rich.console import Console

    console = Console(highlight=False)
    console.print(f"[bold]{found.van}: {found.score.total:.0f} of 100[/bold], film of {clock(found.length)}")
    for what, given, most, why in found.score.parts:
        console.print(f"  {given:5.1f} of {most:g}  {what}: {why}", markup=False)
    for note in found.notes:
        console.print(f"Note: {note}", markup=False)
    cautions = {due.key: due for due in brief.cautions}
    _listed(
        console,
        "Stop cautions missing or late: do not publish",
        [
            _caution_line(cautions[c.caution].text, c.state, c.at, c.act)
            for c in found.cautions
            if c.caution in found.blocking
        ],
    )
    _listed(
        console,
        "Perhaps done in an unsafe order: watch these",
        [f"{clock(f.at)} {f.what} {f.harm} (“{f.quote}”)" for f in found.order],
    )
    _figures(console, found)
    _listed(
        console, "Spoken of, but not on the sheet", [f"{clock(n.at)} {n.title} (“{n.quote}”)" for n in found.not_fitted]
    )
    _points(console, brief, found, every)
    wordy = sum(p.end - p.at for p in found.padding)
    fast = len(found.pace.fast)
    console.print(
        f"\nPace {found.pace.words_per_minute:.0f} words a minute"
        + (f", too fast to follow in {fast} places" if fast else "")
        + (f"; padding and repeats {clock(wordy)}" if wordy else ""),
        markup=False,
    )
    _caution(console)


def _caution_line(text: str, state: str, at: float | None, act: float | None) -> str:
    if state == "late" and at is not None and act is not None:
        return f"Late, at {clock(at)} after the act at {clock(act)}: {text}"
    return f"Missing: {text}"


def _figures(console: Any, found: Coverage) -> None:
    for state, title in (
        ("differs", "Figures that differ from the sheet"),
        ("not on the sheet", "Figures the sheet does not know"),
    ):
        lines = [
            f"{clock(f.at)} said “{f.said}”" + (f", the sheet has {f.sheet} ({f.figure})" if f.sheet else "")
            for f in found.figures
            if f.state == state
        ]
        _listed(console, title, lines)
    agree = sum(1 for f in found.figures if f.state == "agrees")
    if agree:
        console.print(f"\n{agree} figures agree with the sheet.")


def _points(console: Any, brief: FilmBrief, found: Coverage, every: bool) -> None:
    points = {point.key: point for point in brief.points}
    states = Counter(p.state for p in found.points)
    console.print(
        f"\n[bold]Points[/bold]: {states['said']} said, {states['partly']} partly, {states['missing']} missing"
    )
    titles = {subject.kind: subject.title for subject in brief.subjects}
    by_kind: dict[str, list[str]] = {}
    for p in found.points:
        point = points[p.point]
        if p.state != "said" and (every or point.level == "must"):
            line = point.text if p.state == "missing" or p.at is None else f"{point.text} (partly, {clock(p.at)})"
            by_kind.setdefault(point.kind, []).append(line)
    for kind, lines in by_kind.items():
        console.print(f"  {titles[kind]}: {'; '.join(lines)}", markup=False)


def _listed(console: Any, title: str, lines: Iterable[str]) -> None:
    lines = list(lines)
    if lines:
        console.print(f"\n[bold]{title}[/bold]")
    for line in lines:
        console.print(f"  · {line}", markup=False)


def _caution(console: Any) -> None:
    from firstpitch.cli.main import CAUTION

    console.print(f"\n{CAUTION}", style="dim", markup=False)
