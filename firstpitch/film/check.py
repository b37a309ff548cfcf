"""One film of one van checked: what is said, missing, wrong, late or out of order, and why."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from firstpitch.film.act_evidence import acts_weighed
from firstpitch.film.act_weights import ACT_WEIGHTS, CAUTION_WEIGHTS
from firstpitch.film.acts import acts_of
from firstpitch.film.cautions import cautions_heard
from firstpitch.film.evidence import weighed
from firstpitch.film.faults import faults_of
from firstpitch.film.figures import figures_of
from firstpitch.film.fitted import PLAIN, Names, claims_in, not_fitted_in
from firstpitch.film.ground import Ground, acts_as_items, fit_of, ground_of, items_of, vocabulary_for
from firstpitch.film.matching import Like, Speech, made_ready
from firstpitch.film.order import SURE, Act
from firstpitch.film.pace import pace_of
from firstpitch.film.padding import padding_of
from firstpitch.film.points import points_found
from firstpitch.film.score import score_of
from firstpitch.film.speech import breaths_of, heard_words
from firstpitch.film.types import Coverage, FilmBrief, NotFitted, Recording, Stretch
from firstpitch.film.weights import POINT_WEIGHTS
from firstpitch.film.where import Where, where_of
from firstpitch.film.words import Vocabulary
from firstpitch.sheet.errors import FirstpitchError

STRANGE = 4  # kinds spoken of as fitted that the sheet lacks, from which the film may be of another van
MOST_WORDS = 60_000  # six hours of talk


class CheckFault(FirstpitchError):
    """The recording cannot be checked; the message says why and what to do."""


@dataclass(frozen=True)
class Prepared:
    """A brief with its wordings made ready; it may be kept and used for every film of the van."""

    brief: FilmBrief
    vocabulary: Vocabulary
    points: Ground
    cautions: Ground
    acts: Ground
    names: Names


def prepared(brief: FilmBrief, like: Like) -> Prepared:
    """``brief`` made ready for checking films: its wordings' vectors and words. Takes about a second; keep it for the next film."""
    vocabulary = vocabulary_for(brief)
    points, cautions = items_of(brief)
    told, warned, done = (ground_of(items, vocabulary, like) for items in (points, cautions, acts_as_items(brief)))
    return Prepared(brief, vocabulary, told, warned, done, Names(brief))


def check_film(brief: FilmBrief, recording: Recording, like: Like) -> Coverage:
    """Everything found in ``recording`` against ``brief``. ``like`` gives a unit row for each text, as ``media.sentences`` does.

    Raises CheckFault when the recording holds more than ``MOST_WORDS`` words.
    """
    return check_prepared(prepared(brief, like), recording, like)


def check_prepared(ready: Prepared, recording: Recording, like: Like) -> Coverage:
    """As ``check_film``, with a brief made ready before."""
    words = heard_words(recording)
    if len(words) > MOST_WORDS:
        raise CheckFault(
            f"the captions hold {len(words):,} words; at most {MOST_WORDS:,} can be checked: cut the film into parts"
        )
    brief = ready.brief
    speech = made_ready(breaths_of(recording), ready.vocabulary, like)
    fit, warned = fit_of(ready.points, speech), fit_of(ready.cautions, speech)
    where = where_of(brief, speech, fit)
    told, told_cautions = weighed(fit, speech, where, POINT_WEIGHTS), weighed(warned, speech, where, CAUTION_WEIGHTS)
    points = points_found(brief, told, told_cautions)
    done = acts_weighed(brief, fit_of(ready.acts, speech), (told, told_cautions), where, ACT_WEIGHTS)
    acts = acts_of(brief, told, done)
    cautions = cautions_heard(brief, told_cautions, acts)
    claims = claims_in(ready.names, speech)
    figures = figures_of(brief, speech, where, claims)
    order, silent = faults_of(brief.problem, acts, speech)
    plain = [act for act in acts if act.sure >= SURE]
    strange = not_fitted_in(claims, speech)
    stop = {due.key for due in brief.cautions if due.level == "stop"}
    return Coverage(
        van=brief.van,
        length=recording.length,
        points=points,
        figures=figures,
        cautions=cautions,
        order=order,
        not_fitted=strange,
        stretches=stretches_of(brief, speech, where, plain),
        padding=padding_of(speech, (told.chance, told_cautions.chance), done.chance, figures),
        pace=pace_of(words),
        score=score_of(brief, points, cautions, figures, order),
        blocking=tuple(c.caution for c in cautions if c.caution in stop and c.state != "said"),
        notes=(*notes_on(recording, speech, silent), *of_another_van(where, strange)),
    )


def stretches_of(brief: FilmBrief, speech: Speech, where: Where, acts: Sequence[Act]) -> tuple[Stretch, ...]:
    """The film in stretches of talk about one kind of kit, with the acts in each."""
    kits = {subject.kind: subject.kits for subject in brief.subjects}
    found: list[Stretch] = []
    most = where.chance.argmax(axis=0) if len(speech.breaths) else []
    for at, breath in enumerate(speech.breaths):
        kind = where.kinds[int(most[at])]
        if found and found[-1].kind == kind:
            found[-1] = Stretch(kind, found[-1].kits, found[-1].start, breath.end, ())
        else:
            found.append(Stretch(kind, kits.get(kind, ()), breath.start, breath.end, ()))
    ends = [*(after.start for after in found[1:]), float("inf")][: len(found)]
    return tuple(
        Stretch(s.kind, s.kits, s.start, s.end, tuple(a.step for a in acts if s.start <= a.at < end))
        for s, end in zip(found, ends, strict=True)
    )


ENGLISH = frozenset(
    ["the", "and", "you", "it", "that", "is", "to", "of", "a", "in", "this", "on", "so", "for", "what", "i"]
)


def notes_on(recording: Recording, speech: Speech, silent: Sequence[str]) -> tuple[str, ...]:
    """What the reader of the findings should know about the recording as a whole."""
    words = [word.text.lower().strip(".,!?") for breath in speech.breaths for word in breath.words]
    notes = list(recording.mended)
    if not words:
        return (*notes, "Nothing is spoken in this recording, so everything is missing.")
    english = sum(word in ENGLISH for word in words) / len(words)
    if len(words) >= 40 and english < 0.08:  # noqa: PLR2004
        notes.append("This does not read like English. The check only knows English, so take none of its findings.")
    if silent:
        notes.append(f"Taken as done off camera: {'; '.join(dict.fromkeys(silent))}.")
    return tuple(notes)


def of_another_van(where: Where, strange: Sequence[NotFitted]) -> tuple[str, ...]:
    """A note when much of the kit spoken of as fitted is not on this sheet: the film may be of another van."""
    named = int((where.named.max(axis=1, initial=0.0) >= PLAIN).sum()) if where.named.size else 0
    if len(strange) < STRANGE or len(strange) * 2 < named:
        return ()
    return (
        f"Much of what is spoken of is not on this sheet ({', '.join(one.title.lower() for one in strange)}): is this another van's film?",
    )
