"""What was found in a film, in the order in which somebody looks at it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from firstpitch.desk.actions.film import ACCEPTED, DISMISSED
from firstpitch.desk.models import Event, Film
from firstpitch.film.captions.write import clock

Found = Mapping[str, Any]
_LEVELS = ("must", "should", "may")
_LEAST = 0.5


@dataclass(frozen=True)
class Decision:
    """What somebody said of a finding."""

    verdict: str
    reason: str
    by: str


@dataclass(frozen=True)
class Finding:
    """One finding. ``at`` is where the film plays [s], None where there is nothing to see; ``steps`` are those to film again for it."""

    key: str
    head: str
    words: str
    at: float | None = None
    quote: str = ""
    why: tuple[str, ...] = ()
    harm: str = ""
    kit: str = ""
    level: str = ""
    steps: tuple[str, ...] = ()
    decision: Decision | None = None

    @property
    def clock(self) -> str:
        """When, as people read it."""
        return "" if self.at is None else clock(self.at)

    @property
    def seek(self) -> str:
        """When, for the player: a moment before, so that the sentence is heard from its beginning."""
        return "" if self.at is None else f"{max(0.0, self.at - _LEAST):.1f}"

    @property
    def dismissed(self) -> bool:
        """Whether somebody said that it is no fault."""
        return bool(self.decision and self.decision.verdict == DISMISSED)

    @property
    def accepted(self) -> bool:
        """Whether somebody said that it is so."""
        return bool(self.decision and self.decision.verdict == ACCEPTED)


@dataclass(frozen=True)
class Findings:
    """All findings of a film, by what they are. ``stops`` block showing it to the owner and are about what it shows;
    ``never`` block it too, and are about what it never shows.
    """

    stops: tuple[Finding, ...]
    never: tuple[Finding, ...]
    order: tuple[Finding, ...]
    figures: tuple[Finding, ...]
    not_fitted: tuple[Finding, ...]
    cautions: tuple[Finding, ...]
    points: tuple[tuple[str, tuple[Finding, ...]], ...]
    unknown_figures: tuple[Finding, ...]
    padding: tuple[Finding, ...]

    @property
    def blocking(self) -> int:
        """How many cautions keep it from being shown."""
        return len(self.stops) + len(self.never)

    def all(self) -> tuple[Finding, ...]:
        """Every one of them, in order."""
        points = tuple(one for _, group in self.points for one in group)
        rest = (*self.not_fitted, *self.cautions, *points, *self.unknown_figures, *self.padding)
        return (*self.stops, *self.never, *self.order, *self.figures, *rest)


def decisions_of(events: Iterable[Event], film: Film) -> dict[str, Decision]:
    """The last word on each finding of a film; ``events`` in order of time."""
    found: dict[str, Decision] = {}
    for event in events:
        data = event.data
        if data.get("film") == str(film.pk):
            by = event.by.shown_name if event.by else ""
            found[data["finding"]] = Decision(data["verdict"], data["reason"], by)
    return {key: one for key, one in found.items() if one.verdict}


def findings_of(found: Found, decisions: Mapping[str, Decision]) -> Findings:
    """The findings of a check as the page shows them."""
    coverage, labels = found["coverage"], found["labels"]
    make = _Maker(labels, decisions)
    blocking = set(coverage["blocking"])
    wanting = [c for c in coverage["cautions"] if c["state"] != "said"]
    return Findings(
        stops=tuple(make.caution(c) for c in wanting if c["caution"] in blocking and c["act"] is not None),
        never=tuple(make.caution(c) for c in wanting if c["caution"] in blocking and c["act"] is None),
        order=tuple(make.order(o) for o in coverage["order"]),
        figures=tuple(make.figure(f) for f in coverage["figures"] if f["state"] == "differs"),
        not_fitted=tuple(make.not_fitted(n) for n in coverage["not_fitted"]),
        cautions=tuple(make.caution(c) for c in wanting if c["caution"] not in blocking),
        points=make.by_kit([p for p in coverage["points"] if p["state"] != "said"]),
        unknown_figures=tuple(make.figure(f) for f in coverage["figures"] if f["state"] == "not on the sheet"),
        padding=tuple(make.padding(p) for p in coverage["padding"]),
    )


@dataclass(frozen=True)
class _Maker:
    """Makes findings with the words their keys stand for."""

    labels: Mapping[str, Any]
    decisions: Mapping[str, Decision]

    def _made(self, key: str, head: str, words: str, **more: Any) -> Finding:
        return Finding(key, head, words, decision=self.decisions.get(key), **more)

    def _kit(self, kits: Sequence[str]) -> str:
        names = [self.labels["kits"].get(kit, kit) for kit in kits[:1]]
        return f"{names[0]} and {len(kits) - 1} alike" if len(kits) > 1 else "".join(names)

    def caution(self, one: Mapping[str, Any]) -> Finding:
        label = self.labels["cautions"].get(
            one["caution"], {"text": one["caution"], "level": "care", "kits": [], "steps": []}
        )
        late = one["state"] == "late"
        head = "Said too late" if late else "Not said"
        if late and one["act"] is not None:
            head = f"Said too late: the act begins at {clock(one['act'])}"
        return self._made(
            f"caution:{one['caution']}",
            head,
            label["text"],
            at=one["at"] if one["at"] is not None else one["act"],  # where it should have been said
            quote=one["quote"],
            why=tuple(one["why"]),
            kit=self._kit(label["kits"]),
            level=label["level"],
            steps=tuple(label["steps"]) or self._steps(label["kits"]),
        )

    def _steps(self, kits: Sequence[str]) -> tuple[str, ...]:
        """The first step of a kit, for a caution that stands for the whole of it."""
        return tuple(key for key, step in self.labels["steps"].items() if step["kit"] in kits)[:1]

    def order(self, one: Mapping[str, Any]) -> Finding:
        step = self.labels["steps"].get(one["step"], {"title": one["step"], "kit": ""})
        key = f"order:{one['step']}@{int(one['at'])}"
        why = (f"Rule: {one['rule']}",) if one["rule"] else ()
        kit = self._kit([step["kit"]])
        return self._made(
            key,
            step["title"],
            one["what"],
            at=one["at"],
            quote=one["quote"],
            harm=one["harm"],
            why=why,
            kit=kit,
            steps=(one["step"],),
        )

    def figure(self, one: Mapping[str, Any]) -> Finding:
        label = self.labels["figures"].get(one["figure"], {"what": "", "kits": []})
        head = f"Said: {one['said']}. On the sheet: {one['sheet']}" if one["sheet"] else f"Said: {one['said']}"
        words = label["what"] or "The sheet has no such figure."
        return self._made(
            f"figure:{one['figure']}@{int(one['at'])}",
            head,
            words[:1].upper() + words[1:],
            at=one["at"],
            quote=one["quote"],
            why=tuple(one["why"]),
            kit=self._kit(label["kits"]),
            steps=self._steps(label["kits"]) if one["figure"] else (),
        )

    def not_fitted(self, one: Mapping[str, Any]) -> Finding:
        words = "Spoken of as if it were there, and this van's sheet lists none."
        key = f"not-fitted:{one['kind']}@{int(one['at'])}"
        return self._made(key, one["title"], words, at=one["at"], quote=one["quote"], why=tuple(one["why"]))

    def padding(self, one: Mapping[str, Any]) -> Finding:
        again = one["again"]
        head = "Tells the owner nothing" if again is None else f"Said already at {clock(again)}"
        return self._made(f"padding@{int(one['at'])}", head, "", at=one["at"], quote=one["quote"])

    def point(self, one: Mapping[str, Any]) -> Finding:
        label = self.labels["points"].get(one["point"], {"text": one["point"], "level": "may", "kits": [], "steps": []})
        return self._made(
            f"point:{one['point']}",
            "Half of it is said" if one["state"] == "partly" else "Not said",
            label["text"],
            at=one["at"],
            quote=one["quote"],
            why=tuple(one["why"]),
            kit=self._kit(label["kits"]),
            level=label["level"],
            steps=tuple(label["steps"]),
        )

    def by_kit(self, points: Sequence[Mapping[str, Any]]) -> tuple[tuple[str, tuple[Finding, ...]], ...]:
        groups: dict[str, list[Finding]] = {}
        for one in points:
            made = self.point(one)
            groups.setdefault(made.kit, []).append(made)
        rank = {level: number for number, level in enumerate(_LEVELS)}
        return tuple(
            (kit, tuple(sorted(group, key=lambda f: rank.get(f.level, len(rank))))) for kit, group in groups.items()
        )
