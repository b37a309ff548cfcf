"""``firstpitch film``: script a film of the walk-round, check one, chapter it and caption it."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from firstpitch.cli import van as shared
from firstpitch.cli.number import Number

if TYPE_CHECKING:
    from firstpitch.catalogue.types import CautionLevel
    from firstpitch.cli.van import OpenVan
    from firstpitch.film.types import Chapter, Coverage, FilmBrief, Recording

MODEL = click.option(
    "--model",
    metavar="DIR",
    type=click.Path(path_type=Path),
    help="The folder of a speech model, for a film without captions.",
)
RECORDING = click.argument("recording", type=click.Path(path_type=Path))
JSON = click.option("--json", "as_json", is_flag=True, help="One JSON object, for machines.")


@click.group(
    epilog="\b\nExamples:\n  firstpitch film script van.yaml --minutes 20\n  firstpitch film check van.yaml walk-round.vtt\n"
    "  firstpitch film mux van.yaml walk-round.mp4 --captions walk-round.vtt --out film.mp4"
)
def command() -> None:
    """Script a film of the walk-round, check what it says, chapter and caption it.

    A RECORDING is a caption file (WebVTT, SRT, timed text, word-level JSON) or a film, which is then heard by a speech model on this
    machine.
    """


@command.command(
    epilog="\b\nExample:\n  firstpitch film script van.yaml --minutes 20 --learn-from last-film.vtt --out film"
)
@shared.sheet_argument
@click.option("--minutes", type=Number(1, 240), help="The time there is. Left out: as long as it takes.")
@click.option("--pace", type=Number(60, 300), help="The speaker's words a minute.  [default: learned, or 150]")
@click.option(
    "--learn-from",
    metavar="FILE",
    multiple=True,
    type=click.Path(path_type=Path),
    help="Captions of an earlier film of this speaker, to learn the pace from; may be given again.",
)
@click.option("--brief", is_flag=True, help="Speak the points and the cautions to stop for, not the words in full.")
@click.option(
    "--start",
    metavar="S",
    default="from-store",
    show_default=True,
    help="How the van stands: from-store, on-hook-up, or a file.",
)
@click.option(
    "--out", metavar="DIR", type=click.Path(path_type=Path), help="Write the shot list and the prompter to this folder."
)
@shared.catalogue_option
@JSON
def script(
    *, sheet: str, minutes: float | None, pace: float | None, learn_from: tuple[Path, ...], start: str, out: Path | None, brief: bool,
    catalogue: str | None, as_json: bool,
) -> None:  # fmt: skip
    """The film's script, shot by shot in a safe order: what to show, what must be said before the act, the figures."""
    with shared.faults_as_exit_codes():
        from firstpitch.film.script import script_of
        from firstpitch.film.speaker import learned_pace
        from firstpitch.media.recordings import open_recording
        from firstpitch.rounds import Clash, plan_round

        learned = learned_pace([open_recording(path) for path in learn_from])
        words = pace or (min(300.0, max(60.0, learned)) if learned else 150.0)
        van = shared.open_van(sheet, catalogue)
        warn: tuple[CautionLevel, ...] = ("stop",) if brief else ("stop", "care")
        problem = shared.make_problem(
            van, mode="film", minutes=minutes, start=start, water="drained", pace=words, brief=brief, warn=warn
        )
        plan = plan_round(problem, tell=shared.progress)
        shared.end_progress()
        if isinstance(plan, Clash):
            click.echo("There is no such film. These cannot all be true:")
            for fact in plan.facts:
                click.echo(f"  · {fact}")
            if not brief:
                click.echo("With --brief only the points and the cautions to stop for are spoken; or film it in parts.")
            sys.exit(shared.NO)
        made = script_of(van.sheet, van.catalogue.kinds, problem, plan, words, warn=warn)
        from firstpitch.cli.film_show import echo_object, print_script, write_script

        if as_json:
            echo_object(made)
        else:
            print_script(made)
        for file in write_script(out, made, Path(sheet).stem) if out else ():
            click.echo(f"Written: {file}", err=as_json)


@command.command(epilog="\b\nExample:\n  firstpitch film check van.yaml walk-round.vtt --missing")
@shared.sheet_argument
@RECORDING
@MODEL
@click.option("--missing", is_flag=True, help="List every point that is missing, not only the musts.")
@shared.catalogue_option
@JSON
def check(
    *, sheet: str, recording: Path, model: Path | None, missing: bool, catalogue: str | None, as_json: bool
) -> None:
    """What the film says, misses, gets wrong or warns of too late, held against this van's sheet.

    Exit code 0: nothing grave. 1: a stop caution is missing or late, or something is done in an unsafe order. 2: bad input.
    """
    with shared.faults_as_exit_codes():
        from firstpitch.cli.film_show import echo_object, print_coverage

        _, brief, _, found = _checked(sheet, catalogue, recording, model)
        if as_json:
            echo_object(found)
        else:
            print_coverage(brief, found, every=missing)
        if found.blocking or found.order:
            sys.exit(shared.NO)


@command.command(epilog="\b\nExample:\n  firstpitch film chapters van.yaml walk-round.vtt > chapters.vtt")
@shared.sheet_argument
@RECORDING
@MODEL
@shared.catalogue_option
@JSON
def chapters(*, sheet: str, recording: Path, model: Path | None, catalogue: str | None, as_json: bool) -> None:
    """The film's chapters by kit, as a WebVTT track."""
    with shared.faults_as_exit_codes():
        from firstpitch.cli.film_show import echo_object
        from firstpitch.film.captions.write import chapters_vtt

        van, _, _, found = _checked(sheet, catalogue, recording, model)
        made = _chapters(van, found)
        if as_json:
            echo_object(made)
        else:
            click.echo(chapters_vtt(made), nl=False)


@command.command(epilog="\b\nExample:\n  firstpitch film captions rough.vtt --as srt > clean.srt")
@RECORDING
@MODEL
@click.option(
    "--as", "form", type=click.Choice(["vtt", "srt", "txt"]), default="vtt", show_default=True,
    help="WebVTT, SRT, or a transcript to read.",
)  # fmt: skip
def captions(*, recording: Path, model: Path | None, form: str) -> None:
    """Captions that can be read in time: cleaned, two short lines each, at most 17 characters a second."""
    with shared.faults_as_exit_codes():
        from firstpitch.film.captions import retimed, srt_text, transcript_text, vtt_text

        heard = _heard(recording, model)
        if form == "txt":
            click.echo(transcript_text(heard), nl=False)
            return
        made = retimed(heard)
        click.echo(vtt_text(made.cues) if form == "vtt" else srt_text(made.cues), nl=False)
        for note in heard.mended:
            click.echo(note, err=True)
        if made.hurried:
            click.echo(f"Too fast to read in {len(made.hurried)} places; speak slower there.", err=True)


@command.command(
    epilog="\b\nExample:\n  firstpitch film mux van.yaml walk-round.mp4 --captions walk-round.vtt --out film.mp4"
)
@shared.sheet_argument
@click.argument("film", type=click.Path(path_type=Path))
@click.option(
    "--captions", metavar="FILE", type=click.Path(path_type=Path), help="Its captions; left out, the film is heard."
)
@click.option("--out", metavar="FILE", required=True, type=click.Path(path_type=Path), help="The film to write (MP4).")
@MODEL
@shared.catalogue_option
def mux(*, sheet: str, film: Path, captions: Path | None, out: Path, model: Path | None, catalogue: str | None) -> None:
    """Put chapters and captions into the film, its picture and sound copied as they are."""
    with shared.faults_as_exit_codes():
        from firstpitch.film.captions import retimed
        from firstpitch.media.mux import mux as put_in
        from firstpitch.media.mux import room_for
        from firstpitch.media.probe import probe

        room_for(out, probe(film).size)
        van, _, heard, found = _checked(sheet, catalogue, captions or film, model)
        made = _chapters(van, found)
        put_in(film, out, chapters=made, captions=retimed(heard).cues, title=van.sheet.identity.name)
        click.echo(f"{out}: {len(made)} chapters and captions put in, nothing re-encoded.")


def _heard(recording: Path, model: Path | None) -> Recording:
    from firstpitch.media.recordings import is_film, open_recording

    def tell(share: float) -> bool:
        if sys.stderr.isatty() and is_film(recording):
            click.echo(f"\rHeard: {share:.0%}".ljust(60), nl=False, err=True)
        return True

    heard = open_recording(recording, model, tell)
    shared.end_progress()
    return heard


def _checked(
    sheet: str, catalogue: str | None, recording: Path, model: Path | None
) -> tuple[OpenVan, FilmBrief, Recording, Coverage]:
    from firstpitch.film.brief import brief_of
    from firstpitch.film.check import check_film
    from firstpitch.media.sentences import KeptSentences, cache_folder

    van = shared.open_van(sheet, catalogue)
    problem = shared.make_problem(van, mode="film", minutes=None, start="from-store", water="drained", pace=150)
    brief = brief_of(van.sheet, van.catalogue, problem)
    heard = _heard(recording, model)
    like = KeptSentences(cache_folder())
    found = check_film(brief, heard, like)
    like.keep()
    return van, brief, heard, found


def _chapters(van: OpenVan, found: Coverage) -> tuple[Chapter, ...]:
    from firstpitch.film.chapters import chapters_of

    return chapters_of(found, {kind.key: kind.title for kind in van.catalogue.kinds.values()})
