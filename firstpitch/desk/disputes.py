"""Events of two devices that do not go together, as docs/live-round.md says. Nobody's word is dropped: a person settles it."""

from __future__ import annotations

import uuid
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

from firstpitch.desk.so_far import Seen, in_order, taken_back
from firstpitch.rounds import Problem, Step

SEEN, SETTLED = "conflict.seen", "conflict.settled"
ABOUT = ("step.done", "step.left", "state.set", "undone", SETTLED, SEEN)
_NAMES = uuid.UUID("5f0c3f0a-6c55-4d1c-9a0e-1c7b0f7f5d11")


@dataclass(frozen=True)
class Dispute:
    """Events that do not go together, and why, in words."""

    events: frozenset[str]
    why: str

    @property
    def id(self) -> uuid.UUID:
        """The id of its marker: the same events have the same one."""
        return uuid.uuid5(_NAMES, " ".join(sorted(self.events)))


def disputes(problem: Problem, events: Iterable[Seen]) -> list[Dispute]:
    """All disputes among these events of one handover, settled ones left away."""
    ordered = in_order(events)
    gone = taken_back(ordered)
    count = [e for e in ordered if str(e.pk) not in gone]
    steps = {step.id: step for step in problem.steps}
    found = [*_of_steps(count, steps), *_of_finds(count, problem), *_of_undone(ordered, count, problem, steps)]
    settled = [frozenset(map(str, e.data.get("events", ()))) for e in count if e.what == SETTLED]
    return [dispute for dispute in found if not any(dispute.events <= over for over in settled)]


def _pair(one: Seen, other: Seen, why: str) -> Dispute:
    return Dispute(frozenset({str(one.pk), str(other.pk)}), why)


def _of_steps(count: Sequence[Seen], steps: dict[str, Step]) -> Iterator[Dispute]:
    done = [e for e in count if e.what == "step.done"]
    for left in (e for e in count if e.what == "step.left"):
        for other in done:
            if other.device != left.device and other.data.get("step") == left.data.get("step"):
                title = steps[left.data["step"]].title if left.data.get("step") in steps else left.data.get("step")
                yield _pair(left, other, f"One tablet says that “{title}” was done, another that it was left out.")


def _of_finds(count: Sequence[Seen], problem: Problem) -> Iterator[Dispute]:
    finds = [e for e in count if e.what == "state.set"]
    replaced = {str(e.data.get("over", "")) for e in finds}
    for one, other in combinations([e for e in finds if str(e.pk) not in replaced], 2):
        same = one.data.get("condition") == other.data.get("condition")
        if same and one.device != other.device and one.data.get("value") != other.data.get("value"):
            name = problem.labels.get(str(one.data.get("condition")), str(one.data.get("condition")))
            said = " and ".join(str(e.data.get("value")).replace("-", " ") for e in (one, other))
            yield _pair(one, other, f"Two tablets found two things of “{name}”: {said}.")


def _of_undone(
    ordered: Sequence[Seen], count: Sequence[Seen], problem: Problem, steps: dict[str, Step]
) -> Iterator[Dispute]:
    place = {str(e.pk): number for number, e in enumerate(ordered)}
    done = {str(e.pk): e for e in ordered if e.what == "step.done"}
    again = {e.data.get("step") for e in count if e.what == "step.done"}
    for undone in (e for e in count if e.what == "undone"):
        was = done.get(str(undone.data.get("event", "")))
        step = steps.get(str(was.data.get("step"))) if was else None
        if was is None or step is None or step.id in again:
            continue
        for later in (e for e in count if e.what == "step.done" and e.device != undone.device):
            other = steps.get(str(later.data.get("step")))
            if other and place[str(later.pk)] > place[str(was.pk)] and _rests_on(problem, other, step):
                why = f"“{step.title}” was taken back on one tablet; “{other.title}”, done on another, rests on it."
                yield _pair(undone, later, why)


def _rests_on(problem: Problem, later: Step, earlier: Step) -> bool:
    """Whether ``later`` needs what ``earlier`` or a wait it starts brings about, or awaits such a wait."""
    started = [w for w in problem.waits if w.id in earlier.starts]
    sets = [*earlier.sets, *(e for w in started for e in w.sets)]
    needs = any(n.condition == e.condition and e.value in n.values for n in later.requires for e in sets)
    return needs or any(w.id in later.awaits for w in started)
