"""What several verbs share: reading a van, its catalogue and its round options, and turning faults into exit code 2."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

from firstpitch.cli.number import Number
from firstpitch.sheet.errors import FirstpitchError

if TYPE_CHECKING:
    from firstpitch.catalogue import Catalogue
    from firstpitch.rounds import Problem
    from firstpitch.sheet import BuildSheet, Links

BAD_INPUT = 2
NO = 1

F = TypeVar("F", bound=Callable[..., Any])


@dataclass(frozen=True)
class OpenVan:
    """A sheet that was read, with its catalogue and its links."""

    sheet: BuildSheet
    catalogue: Catalogue
    links: Links


@contextmanager
def faults_as_exit_codes() -> Iterator[None]:
    """Print what a user did wrong, one sentence a line, and leave with exit code 2."""
    try:
        yield
    except FirstpitchError as fault:
        for sentence in str(fault).splitlines():
            click.echo(sentence, err=True)
        sys.exit(BAD_INPUT)
    except BrokenPipeError:
        sys.stderr.close()
        sys.exit(0)
    except OSError as fault:
        where = f" “{fault.filename}”" if fault.filename else ""
        click.echo(f"The file{where} could not be written or read: {fault.strerror}.", err=True)
        sys.exit(BAD_INPUT)


def open_van(sheet: str, catalogue: str | None) -> OpenVan:
    """Read a build sheet against the catalogue (with a dealership's folder on top, where one is given)."""
    from firstpitch.catalogue import load
    from firstpitch.sheet import read_sheet, resolve_links

    kinds = load(Path(catalogue) if catalogue else None)
    read = read_sheet(sheet, kinds.kinds, today=date.today())
    return OpenVan(read, kinds, resolve_links(read.kit, kinds.kinds))


def sheet_argument(command: F) -> F:
    """The build sheet to work on."""
    return click.argument("sheet", type=click.Path())(command)


def catalogue_option(command: F) -> F:
    """A dealership's own kinds."""
    return click.option(
        "--catalogue",
        metavar="DIR",
        type=click.Path(),
        help="A folder of your own kind files: adds and replaces kinds.",
    )(command)


def round_options(command: F) -> F:
    """How the round is to be held."""
    options = [
        click.option(
            "--mode",
            type=click.Choice(["handover", "film"]),
            default="handover",
            show_default=True,
            help="handover: the owner tries things too. film: the speaker alone.",
        ),
        click.option(
            "--minutes",
            type=Number(0, 24 * 60),
            help="The time there is. Left out: as long as it takes.",
        ),
        click.option(
            "--start",
            metavar="S",
            default="from-store",
            show_default=True,
            help="from-store, on-hook-up, or a file that says how the van stands.",
        ),
        click.option(
            "--water",
            type=click.Choice(["drained", "kept"]),
            default="drained",
            show_default=True,
            help="How the owner wants the water left.",
        ),
        click.option(
            "--pace",
            type=Number(60, 300),
            default=150,
            show_default=True,
            help="The speaker's words a minute.",
        ),
    ]
    for option in reversed(options):
        command = option(command)
    return command


def make_problem(
    van: OpenVan, *, mode: str, minutes: float | None, start: str, water: str, pace: float, **more: Any
) -> Problem:
    """The planning problem for these options; SheetError where the start file names what the van does not have."""
    from typing import cast

    from firstpitch.catalogue.types import StartName
    from firstpitch.cli.start_file import read_start
    from firstpitch.rounds import RoundOptions, build_problem
    from firstpitch.rounds.types import Mode
    from firstpitch.sheet import SheetError

    name, values = read_start(start)
    options = RoundOptions(
        mode=cast(Mode, mode),
        minutes=minutes,
        start=cast(StartName, name),
        start_values=values,
        water="kept" if water == "kept" else "drained",
        words_per_minute=pace,
        **more,
    )
    try:
        return build_problem(van.sheet, van.catalogue, van.links.filled, options)
    except ValueError as fault:
        raise SheetError(f"{start}: {fault}.") from None


def progress(stage: str, total: int | None, bound: int | None) -> None:
    """One line on the error stream that tells how far the planner is; nothing when that is not a terminal."""
    if sys.stderr.isatty():
        from firstpitch.rounds.wording import clock

        click.echo(f"\r{stage}: {clock(total or 0)}, at least {clock(bound or 0)}".ljust(60), nl=False, err=True)


def stage(words: str) -> None:
    """What long work is about now, on the same line as ``progress``."""
    if sys.stderr.isatty():
        click.echo(f"\r{words} …".ljust(60), nl=False, err=True)


def end_progress() -> None:
    """Clear the progress line."""
    if sys.stderr.isatty():
        click.echo("\r" + " " * 60 + "\r", nl=False, err=True)
