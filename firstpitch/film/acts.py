"""Which steps are done in the film, told from the talk: doing a thing, against warning of it, putting it off or supposing it."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

import numpy as np

from firstpitch.film.act_weights import SURETY
from firstpitch.film.evidence import FEATURES, Weighed
from firstpitch.film.ground import TOLD
from firstpitch.film.matching import Rows, Speech
from firstpitch.film.order import Act
from firstpitch.film.types import FilmBrief
from firstpitch.rounds.types import Step

TALKED = 0.18  # the chance of a point from which its step is talked of
DONE = 0.11  # the chance from which an act itself is told
NO_ACT = -2.0  # stands for the act of a step that the hands do not do
CLEAR = 0.6  # of the best chance: what is nearly as clear as the clearest talk, and earlier, is taken for the act
APART = 25.0  # [s] without a word of a step that part two talks about it
_OTHER_TIME = re.compile(
    r"\b(later|next time|when you (come|go|get|leave|pack)|if you (ever|were|want)|you('d| would)|we('ll| will|'d| would) not"
    r"|won'?t|not today|never|don'?t|do not|mustn'?t|before you|not going to|didn'?t|haven'?t|isn'?t|i'?d)\b"
)
_NOW = re.compile(
    r"\b(i'?m|i'?ll|we'?ll|let'?s|let me|i'?ve|there( we go| you go)?|like (so|that|this)|now|done|hear that|see that"
    r"|that'?s (on|off|it|in|out|up|down)|in it goes|off she goes|up she goes|here we go|look|hang on)\b"
)


def acts_of(brief: FilmBrief, told: Weighed, done: Weighed) -> tuple[Act, ...]:
    """The steps taken as done, in spoken order: those whose points are talked of, or whose act is told, in a way that does them.

    ``told`` weighs the points, ``done`` the steps themselves. A step that the hands do begins where it is first talked of as done now;
    one that only shows or explains is done when the talk of it ends.
    """
    talks, points = _talks(brief, told, done)
    found = []
    for step in brief.problem.steps:
        heard = talks.get(step.id)
        if heard:
            act = _act(step, heard, told.speech, _surety(step, heard, told, points.get(step.id, []), done))
            if act is not None:
                found.append(act)
    return tuple(sorted(found, key=lambda act: act.at))


Talks = Mapping[str, list[tuple[int, float]]]


def _talks(brief: FilmBrief, told: Weighed, done: Weighed) -> tuple[Talks, Mapping[str, list[int]]]:
    """For each step the windows where its points or its act are told, with their chance, in time order; and the rows of its points."""
    place = {item.key: number for number, item in enumerate(told.fit.ground.items)}
    found: dict[str, list[tuple[int, float]]] = {}
    points: dict[str, list[int]] = {}
    for point in brief.points:
        row = place[point.key]
        windows = _peaks(told.speech, told.chance[row], TALKED)
        for step in point.steps:
            found.setdefault(step, []).extend(windows)
            points.setdefault(step, []).append(row)
    for row, item in enumerate(done.fit.ground.items):
        found.setdefault(item.key, []).extend(_peaks(done.speech, done.chance[row], DONE))
    ordered = {s: sorted(w, key=lambda one: told.speech.windows[one[0]][0]) for s, w in found.items() if w}
    return ordered, points


def _surety(
    step: Step, heard: Sequence[tuple[int, float]], told: Weighed, points: Sequence[int], done: Weighed
) -> float:
    """How sure it is that the step is done, 0 to 1: a logistic weighing fitted on the tuning films."""
    row = next((n for n, item in enumerate(done.fit.ground.items) if item.key == step.id), None)
    best = told.chance[points].max(axis=1) if points else np.zeros(1, np.float32)
    by_hand = float(_by_hand(step))
    mean, share = float(best.mean()), float((best >= TALKED).mean())
    alike = (
        max(float(done.features[row, window, FEATURES.index("own_like")]) for window, _ in heard)
        if row is not None
        else 0.0
    )
    values = {
        "constant": 1.0,
        "best": float(np.log(best.max() + 1e-3)),
        "mean": mean,
        "share": share,
        "many": float(np.log(max(len(points), 1))),
        "title": alike,
        "now": float(any(_NOW.search(plain(told.speech.text(window))) for window, _ in heard)),
        "hand": by_hand,
        "hand_mean": by_hand * mean,
        "hand_title": by_hand * alike,
        "act": float(np.log(done.chance[row].max() + 1e-3)) if row is not None else NO_ACT,
    }
    return float(1.0 / (1.0 + np.exp(-sum(SURETY[name] * value for name, value in values.items()))))


def _by_hand(step: Step) -> bool:
    return any(effect.value not in TOLD for effect in step.sets)


def plain(text: str) -> str:
    """Lower case, with straight apostrophes."""
    return text.lower().replace("’", "'")


def _peaks(speech: Speech, row: Rows, least: float) -> list[tuple[int, float]]:
    """The windows where a point is said: the best, and any other high one that does not overlap it."""
    found: list[tuple[int, float]] = []
    taken: set[int] = set()
    for window in np.argsort(-row):
        if row[window] < least:
            break
        first, many = speech.windows[int(window)]
        if not taken & set(range(first - 1, first + many + 1)):
            found.append((int(window), float(row[window])))
            taken |= set(range(first, first + many))
        if len(found) >= 4:  # noqa: PLR2004
            break
    return found


def _act(step: Step, heard: Sequence[tuple[int, float]], speech: Speech, sure: float) -> Act | None:
    begins = speech.breaths[speech.windows[heard[0][0]][0]].start
    if _by_hand(step):
        doing = [(window, chance) for window, chance in heard if not _put_off(speech.text(window))]
        if not doing:
            return None
        best = max(chance for _, chance in doing)
        window = next(window for window, chance in doing if chance >= CLEAR * best)
        text = speech.text(window)
        return Act(step.id, speech.breaths[speech.windows[window][0]].start, text, sure, (_manner(text),), begins)
    last = heard[0][0]
    for other, _ in heard[1:]:
        if speech.breaths[speech.windows[other][0]].start - _end(speech, last) > APART:
            break
        last = other
    return Act(step.id, _end(speech, last), speech.text(last), sure, ("shown or explained",), begins)


def _end(speech: Speech, window: int) -> float:
    first, many = speech.windows[window]
    return speech.breaths[first + many - 1].start


def _put_off(text: str) -> bool:
    """Whether the words only speak of the act: another time, a warning, a supposition; words of doing it now overrule that."""
    return bool(_OTHER_TIME.search(plain(text))) and not _NOW.search(plain(text))


def _manner(text: str) -> str:
    now = _NOW.search(plain(text))
    return f"done now: “{now[0]}”" if now else "told as it is done"
