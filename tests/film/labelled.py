"""Reads the recordings labelled by hand: what is spoken in them, and what a check of each film should find.

``recordings/<id>/spoken.txt`` is written before any tuning. Header lines ``# speaker: …`` come first (speaker, style, noise, half, format),
then one utterance a line: ``m:ss | the words | labels``. Labels, parted by spaces:

``hob.light#2`` this point is said here, ``~hob.light#2`` half of it; ``hob!1`` this caution is spoken here; ``fridge=volume:agrees``,
``fridge=volume:differs``, ``:none`` (or ``fridge=volume:none`` where the sheet does not know it), one for each figure of the line, in
order; ``>hob.light`` the act of this step is done here; ``X:hob.light`` the same, and an order fault shows at it; ``%motor_mover`` a kit
is spoken of as fitted that the sheet lacks; ``pad`` tells nothing; ``again`` says again what was said.

How we label:

- An act is where the hands do it or the words say that it is done now. Talk of it ("later you would…", "never…") is no act.
- Of a step that only shows or explains, or is only told and not done, the act is the last line of the talk about it; a caution within
  that talk is thus in time, one that comes when the talk has gone on to something else is late. What is only described (what a hot-plate
  takes, that it stays hot) is no act.
- A caution in the same line as the act is in time. A caution without steps of its own is due before the first act with its kit.
- What two steps ask for alike (the towbar's own point, shown and then clipped to) is said for both; so is a caution that two kits share
  in the same words (smelling gas; the flue cover before gas). A caution counts when its danger or its rule is spoken, not a hint of it.
- Kit that is alike shares its labels: any of them may be named, the first on the sheet is meant.
- A thing said in two halves on two lines is ``~`` on the first and whole on the second.
- A figure is a number of this van or of how to use it, with its unit or counting its parts: volts, minutes to wait and miles to the
  next check as well. Names ("thirteen-pin plug"), "two ways out", counts of what is told and the times of small talk are none.
- What was never shown is taken as done silently. An order fault is an act whose need is shown only later, or one that completes a
  guard's combination of which the film shows every part, or shows the remedy only later.
- What no label names is missing.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from functools import cache
from pathlib import Path

from firstpitch.catalogue import load
from firstpitch.catalogue.types import Catalogue
from firstpitch.film.brief import brief_of
from firstpitch.film.types import CautionDue, CautionState, FigureState, FilmBrief, PointState
from firstpitch.rounds import RoundOptions, build_problem
from firstpitch.sheet import read_sheet_text, resolve_links

RECORDINGS = Path(__file__).parent / "recordings"
TODAY = date(2026, 11, 1)
HEADERS = ("speaker", "style", "noise", "half", "format")
FORMATS = {"vtt": "captions.vtt", "srt": "captions.srt", "timed": "captions.txt", "json": "captions.json"}
FIGURE_STATES: Mapping[str, FigureState] = {"agrees": "agrees", "differs": "differs", "none": "not on the sheet"}


@dataclass(frozen=True)
class Utterance:
    """One line of ``spoken.txt``; ``at`` is in seconds."""

    at: int
    text: str
    labels: tuple[str, ...]


@dataclass(frozen=True)
class Spoken:
    """What is spoken in one recording, with its headers."""

    id: str
    headers: Mapping[str, str]
    utterances: tuple[Utterance, ...]

    @property
    def half(self) -> str:
        """Which half of the set it belongs to: ``tuning`` or ``final``."""
        return self.headers["half"]

    @property
    def captions(self) -> Path:
        """Where its captions lie."""
        return RECORDINGS / self.id / FORMATS[self.headers["format"]]

    @property
    def words(self) -> int:
        """How many words are spoken."""
        return sum(len(utterance.text.split()) for utterance in self.utterances)


@dataclass(frozen=True)
class TruePoint:
    """Whether a point is said, and when first; ``at`` is None when it is missing."""

    state: PointState
    at: int | None


@dataclass(frozen=True)
class TrueCaution:
    """Whether a caution is spoken in time; ``act`` is when the act it warns of begins, None when the film never comes to it."""

    state: CautionState
    at: int | None
    act: int | None


@dataclass(frozen=True)
class TrueFigure:
    """A figure that is spoken; ``key`` is empty when the sheet has nothing like it."""

    at: int
    key: str
    state: FigureState


@dataclass(frozen=True)
class TrueFault:
    """An order fault, at the act of ``step``."""

    at: int
    step: str


@dataclass(frozen=True)
class TrueNotFitted:
    """A kit of ``kind`` is spoken of as fitted, which the sheet lacks."""

    kind: str
    at: int


@dataclass(frozen=True)
class TruePad:
    """A line that tells nothing, or (``again``) what was said before."""

    at: int
    again: bool


@dataclass(frozen=True)
class Truth:
    """What a check of the film should find. Every point and caution of the van is in it."""

    points: Mapping[str, TruePoint]
    cautions: Mapping[str, TrueCaution]
    figures: tuple[TrueFigure, ...]
    faults: tuple[TrueFault, ...]
    not_fitted: tuple[TrueNotFitted, ...]
    acts: tuple[TrueFault, ...]
    pads: tuple[TruePad, ...]


@dataclass(frozen=True)
class Labelled:
    """One recording with its van's brief and its truth."""

    spoken: Spoken
    brief: FilmBrief
    truth: Truth


def recordings(half: str | None = None) -> tuple[Labelled, ...]:
    """All labelled recordings by name, or those of one half: ``tuning`` or ``final``."""
    found = (recording(folder.parent.name) for folder in sorted(RECORDINGS.glob("*/spoken.txt")))
    return tuple(one for one in found if half in (None, one.spoken.half))


@cache
def recording(name: str) -> Labelled:
    """The labelled recording of this name. Raises ValueError naming the line where a label is wrong."""
    spoken, brief = read_spoken(name), van_brief(RECORDINGS / name / "van.yaml")
    return Labelled(spoken, brief, truth_of(spoken, brief))


@cache
def catalogue() -> Catalogue:
    """The shipped catalogue."""
    return load()


def van_brief(path: Path) -> FilmBrief:
    """What a film of the van of this sheet should contain."""
    kinds = catalogue().kinds
    sheet = read_sheet_text(path.read_text("utf-8"), kinds, today=TODAY, file=str(path))
    problem = build_problem(sheet, catalogue(), resolve_links(sheet.kit, kinds).filled, RoundOptions(mode="film"))
    return brief_of(sheet, catalogue(), problem)


def read_spoken(name: str) -> Spoken:
    """The lines of one ``spoken.txt``. Raises ValueError naming file and line for a bad one."""
    path = RECORDINGS / name / "spoken.txt"
    headers: dict[str, str] = {}
    utterances: list[Utterance] = []
    for number, line in enumerate(path.read_text("utf-8").splitlines(), start=1):
        if header := re.fullmatch(r"#\s*(\w+):\s*(.*)", line):
            headers[header[1]] = header[2].strip()
        elif line.strip() and not line.startswith("#"):
            found = re.fullmatch(r"(\d+):([0-5]\d) \| (.+?) \|(.*)", line)
            if not found:
                raise ValueError(f"{name}, line {number}: not 'm:ss | words | labels': {line!r}")
            at = 60 * int(found[1]) + int(found[2])
            utterances.append(Utterance(at, found[3], tuple(found[4].split())))
    if missing := [key for key in HEADERS if key not in headers]:
        raise ValueError(f"{name}: no header {missing}")
    return Spoken(name, headers, tuple(utterances))


@dataclass(frozen=True)
class Label:
    """One label, read: ``sort`` is point, partly, caution, figure, act, fault, not_fitted, pad or again."""

    line: int
    at: int
    sort: str
    key: str
    state: str = ""


class _Keys:
    """The keys of one van: any kit's own key leads to the one it shares with those alike."""

    def __init__(self, brief: FilmBrief) -> None:
        self.steps = {step.id for step in brief.problem.steps}
        self.points = {f"{s}#{p.key.rsplit('#', 1)[1]}": p.key for p in brief.points for s in p.steps}
        self.cautions = {f"{k}!{c.key.rsplit('!', 1)[1]}": c.key for c in brief.cautions for k in c.kits}
        self.figures = {f"{k}={f.key.split('=', 1)[1]}": f.key for f in brief.figures for k in f.kits}
        self.unknown = {f.key for f in brief.figures if f.value is None}
        self.not_fitted = {s.kind for s in brief.subjects if not s.kits}

    def read(self, line: int, at: int, label: str) -> Label:
        """The label, with its key checked. Raises KeyError when there is no such key, ValueError when it makes no sense."""
        if label in ("pad", "again"):
            return Label(line, at, label, "")
        if label[0] == ">" or label.startswith("X:"):
            step = label.removeprefix(">").removeprefix("X:")
            return Label(line, at, "act" if label[0] == ">" else "fault", _known(step, self.steps))
        if label[0] == "%":
            return Label(line, at, "not_fitted", _known(label[1:], self.not_fitted))
        if ":" in label:
            return self._figure(line, at, *label.split(":", 1))
        if "!" in label:
            return Label(line, at, "caution", self.cautions[label])
        return Label(line, at, "partly" if label[0] == "~" else "point", self.points[label.removeprefix("~")])

    def _figure(self, line: int, at: int, key: str, state: str) -> Label:
        if state not in FIGURE_STATES or (not key and state != "none"):
            raise ValueError("a figure agrees, differs or is none")
        full = self.figures[key] if key else ""
        if full and (full in self.unknown) != (state == "none"):
            raise ValueError("only a figure that the sheet does not know is none")
        return Label(line, at, "figure", full, state)


def _known(key: str, keys: set[str]) -> str:
    if key not in keys:
        raise KeyError(key)
    return key


def labels_of(spoken: Spoken, brief: FilmBrief) -> tuple[Label, ...]:
    """Every label of the recording, in order. Raises ValueError naming the utterance for one that is wrong."""
    keys = _Keys(brief)
    found: list[Label] = []
    for line, utterance in enumerate(spoken.utterances):
        for label in utterance.labels:
            try:
                found.append(keys.read(line, utterance.at, label))
            except (KeyError, ValueError) as error:
                when = f"{utterance.at // 60}:{utterance.at % 60:02}"
                raise ValueError(f"{spoken.id} {when} {utterance.text[:40]!r}: label {label!r}: {error!r}") from error
    return tuple(found)


def truth_of(spoken: Spoken, brief: FilmBrief) -> Truth:
    """What a check of this film should find, from its labels."""
    labels = labels_of(spoken, brief)

    def of(*sorts: str) -> list[Label]:
        return [label for label in labels if label.sort in sorts]

    return Truth(
        points={point.key: _point(point.key, labels) for point in brief.points},
        cautions={due.key: _caution(due, labels) for due in brief.cautions},
        figures=tuple(TrueFigure(one.at, one.key, FIGURE_STATES[one.state]) for one in of("figure")),
        faults=tuple(TrueFault(one.at, one.key) for one in of("fault")),
        not_fitted=tuple(TrueNotFitted(one.key, one.at) for one in of("not_fitted")),
        acts=tuple(TrueFault(one.at, one.key) for one in of("act", "fault")),
        pads=tuple(TruePad(one.at, one.sort == "again") for one in of("pad", "again")),
    )


def _point(key: str, labels: tuple[Label, ...]) -> TruePoint:
    for sort, state in (("point", "said"), ("partly", "partly")):
        for label in labels:
            if label.sort == sort and label.key == key:
                return TruePoint("said" if state == "said" else "partly", label.at)
    return TruePoint("missing", None)


def _caution(due: CautionDue, labels: tuple[Label, ...]) -> TrueCaution:
    acts = [one for one in labels if one.sort in ("act", "fault") and _is_act_of(one.key, due)]
    spoken = [one for one in labels if one.sort == "caution" and one.key == due.key]
    act = acts[0].at if acts else None
    if not spoken:
        return TrueCaution("missing", None, act)
    late = bool(acts) and acts[0].line < spoken[0].line
    return TrueCaution("late" if late else "said", spoken[0].at, act)


def _is_act_of(step: str, due: CautionDue) -> bool:
    return step in due.steps if due.steps else step.split(".", 1)[0] in due.kits
