"""What the record of a handover says, read from its events: plain lists and words, the same for the same events."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from typing import Any, Protocol

from firstpitch.desk.disputes import disputes
from firstpitch.desk.snags import RAISED, Snag
from firstpitch.desk.so_far import Found, Seen, SoFar, clock, in_order, so_far, taken_back
from firstpitch.rounds import Problem, Step

FORMAT = 1
_SUPPLIES = {"12v": "12 V"}
Row = dict[str, Any]


class Named(Protocol):
    """Somebody with a name as it stands on records."""

    @property
    def shown_name(self) -> str: ...


class Told(Seen, Protocol):
    """An event that says who noted it."""

    @property
    def by(self) -> Named | None: ...


@dataclass(frozen=True)
class About:
    """Whose handover it is. ``plan`` is the round that was kept (docs/rounds.md), None where none was."""

    van: str
    chassis_number: str
    stock_number: str
    sheet_version: int
    dealership: str
    telephone: str
    owner: str
    specialist: str
    due: datetime
    plan: Mapping[str, Any] | None


def record_of(about: About, problem: Problem, events: Iterable[Told], snags: Iterable[Snag]) -> Row:
    """The record so far, of nothing but texts, whole numbers, lists and objects; times are ISO 8601 UTC, lengths seconds.

    ``events`` are those of this handover's tablets, ``snags`` all of the van.
    """
    return _Writer(about, problem, in_order(events)).record(tuple(snags))


def digest_of(record: Mapping[str, Any]) -> str:
    """The SHA-256 of a record: of its JSON with sorted keys, no blanks, UTF-8.

    >>> digest_of({"b": 1, "a": "é"})[:12]
    'aa58fba84836'
    """
    text = json.dumps(record, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return hashlib.sha256(text.encode()).hexdigest()


def _iso(when: datetime) -> str:
    return when.astimezone(UTC).isoformat(timespec="seconds")


class _Writer:
    """Writes the record of one handover, part by part."""

    def __init__(self, about: About, problem: Problem, ordered: Sequence[Told]) -> None:
        gone = taken_back(ordered)
        self.about, self.problem, self.ordered, self.gone = about, problem, ordered, gone
        self.count = [event for event in ordered if str(event.pk) not in gone]
        self.by_id = {str(event.pk): event for event in ordered}
        self.steps = {step.id: step for step in problem.steps}
        self.past: SoFar = so_far(ordered)
        self.planned = {str(s["id"]): s for s in (about.plan or {}).get("steps", ())}

    def record(self, snags: Sequence[Snag]) -> Row:
        """All of it."""
        about, shown = self.about, self._shown()
        return {
            "format": FORMAT,
            "van": about.van,
            "chassis_number": about.chassis_number,
            "stock_number": about.stock_number,
            "sheet_version": about.sheet_version,
            "dealership": about.dealership,
            "telephone": about.telephone,
            "owner": about.owner,
            "specialist": about.specialist,
            "people": list(dict.fromkeys(name for event in self.count if (name := _who(event)))),
            "due": _iso(about.due),
            "began": min((row["began"] for row in shown), default=""),
            "ended": max((row["ended"] for row in shown), default=""),
            "planned_s": (about.plan or {}).get("total_s"),
            "took_s": self._took(),
            "shown": shown,
            "left_out": self._left_out(),
            "not_shown": self._not_shown(),
            "overridden": self._overridden(),
            "found": self._found(),
            "changes": self._changes(),
            "snags": self._snags(snags),
            "notes": self._notes(),
            "photos": sum(event.what == "photo" for event in self.count),
            "taken_back": self._taken_back(),
            "unsettled": self._unsettled(),
        }

    def _when(self, second: int) -> str:
        return _iso((self.past.origin or self.about.due) + timedelta(seconds=second))

    def _took(self) -> int | None:
        acts = self.past.acts
        return acts[-1].at - min(act.begun for act in acts) if acts else None

    def _name(self, step: str) -> Row:
        """The step as it is called; one that the sheet has no longer keeps its id."""
        known = self.steps.get(step)
        return {"id": step, "kit": known.kit_name, "title": _short(known)} if known else _nameless(step)

    def _shown(self) -> list[Row]:
        rows = []
        for act in self.past.acts:
            plan = self.planned.get(act.step)
            rows.append(
                {
                    **self._name(act.step),
                    "began": self._when(act.begun),
                    "ended": self._when(act.at),
                    "took_s": act.at - act.begun,
                    "planned_s": int(plan["end_s"]) - int(plan["start_s"]) if plan else None,
                    "planned_at_s": int(plan["start_s"]) if plan else None,
                    "tried": act.tried,
                    "by": _who(self.by_id[act.event]),
                }
            )
        return rows

    def _left_out(self) -> list[Row]:
        """What somebody said is not for today, then what the plan had left out already."""
        done = {act.step for act in self.past.acts}
        rows = []
        for step, reason in self.past.left.items():
            said = next(e for e in self.count if e.what == "step.left" and e.data.get("step") == step)
            rows.append({**self._name(step), "reason": reason, "must": self._must(step), "by": _who(said)})
        for left in (self.about.plan or {}).get("left_out", ()):
            step = str(left["id"])
            if step not in done and step not in self.past.left:
                rows.append(
                    {**self._name(step), "reason": str(left["reason"]), "must": self._must(step), "by": "the plan"}
                )
        return rows

    def _not_shown(self) -> list[Row]:
        """What should have been shown, and nobody said why it was not."""
        spoken_of = {row["id"] for row in (*self._left_out(), *self._shown())}
        expected = [str(step) for step in self.planned] or list(self.steps)
        more = [step.id for step in self.problem.steps if step.level == "must" and step.id not in self.planned]
        wanted = dict.fromkeys([*expected, *more])
        return [{**self._name(step), "must": self._must(step)} for step in wanted if step not in spoken_of]

    def _must(self, step: str) -> bool:
        return step in self.steps and self.steps[step].level == "must"

    def _overridden(self) -> list[Row]:
        return [
            {
                **self._name(str(e.data.get("step", ""))),
                "harm": str(e.data.get("harm", "")),
                "reason": str(e.data.get("reason", "")),
                "at": _iso(clock(e)),
                "by": _who(e),
            }
            for e in self.count
            if e.what == "guard.overridden"
        ]

    def _found(self) -> list[Row]:
        labels = self.problem.labels
        return [
            {
                "what": labels.get(found.condition, found.condition),
                "value": found.value,
                "reason": found.reason,
                "at": self._when(found.at),
                "by": _who(self.by_id[found.event]),
            }
            for found in self.past.changes
            if isinstance(found, Found)
        ]

    def _changes(self) -> list[Row]:
        return [
            {
                "words": self._change(e.data),
                "at": _iso(clock(e)),
                "by": _who(e),
            }
            for e in self.count
            if e.what == "round.changed"
        ]

    def _change(self, data: Mapping[str, Any]) -> str:
        """What was different from the plan, and why."""
        kits = [self._kit(str(kit)) for kit in data.get("without_kit") or ()]
        parts = [
            f"{round(data['minutes_left'])} minutes left" if data.get("minutes_left") else "",
            *(f"no {_SUPPLIES.get(str(supply), str(supply))}" for supply in data.get("without_supply") or ()),
            f"nothing outside for {round(data['indoors_for'] / 60)} minutes" if data.get("indoors_for") else "",
            f"without {', '.join(kits)}" if kits else "",
        ]
        said = "; ".join(part for part in parts if part) or "as long as it takes"
        return f"Planned anew: {said}. {data.get('why') or ''}".strip()

    def _snags(self, snags: Sequence[Snag]) -> list[Row]:
        """Those that are open, and those raised or mended on the day: since this handover began."""
        raised = {str(e.pk) for e in self.count if e.what == RAISED}
        began = self.past.origin
        kept = [
            s for s in snags if s.open or str(s.id) in raised or (began is not None and s.mended and s.mended >= began)
        ]
        return [
            {
                "id": str(snag.id),
                "words": snag.words,
                "severity": snag.severity,
                "kit": self._kit(snag.kit),
                "at": _iso(snag.at),
                "by": snag.by,
                "mended": _iso(snag.mended) if snag.mended else "",
                "mended_by": snag.mended_by,
                "mended_words": snag.mended_words,
            }
            for snag in kept
        ]

    def _kit(self, kit: str) -> str:
        return next((step.kit_name for step in self.problem.steps if step.kit == kit), kit)

    def _notes(self) -> list[Row]:
        return [
            {
                "words": str(e.data.get("words", "")),
                "about": self._called(str(e.data.get("step") or "")),
                "at": _iso(clock(e)),
                "by": _who(e),
            }
            for e in self.count
            if e.what == "note"
        ]

    def _called(self, step: str) -> str:
        if not step:
            return ""
        name = self._name(step)
        return f"{name['kit']}: {name['title']}" if name["kit"] else str(name["title"])

    def _taken_back(self) -> int:
        """How many notes were taken back."""
        return sum(str(e.pk) in self.gone for e in self.ordered)

    def _unsettled(self) -> list[str]:
        """Where two tablets say different things, and nobody has said which counts."""
        return sorted(dispute.why for dispute in disputes(self.problem, self.ordered))


def _short(step: Step) -> str:
    """The title without the name of its kit in front."""
    rest = step.title.removeprefix(f"{step.kit_name}: ")
    return rest[:1].upper() + rest[1:]


def _nameless(step: str) -> Row:
    return {"id": step, "kit": "", "title": step}


def _who(event: Told) -> str:
    return event.by.shown_name if event.by else ""


def open_stops(record: Mapping[str, Any]) -> list[Row]:
    """The snags of a record with which the van must not go."""
    return [snag for snag in record["snags"] if snag["severity"] == "stop" and not snag["mended"]]
