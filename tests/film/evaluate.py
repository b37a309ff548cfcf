"""How well the check finds what the labels say: ``python -m tests.film.evaluate [tuning|final] [-v]``.

How each class is counted, fixed on 2026-11-25 before the final half was ever run:

- Points: a point labelled partly is left out on both sides. A point found said or partly counts as said. ``said`` and ``missing`` are
  the two classes; nothing is asked of the time.
- Figures: a labelled figure is found when one heard within its line (1.5 s to spare) has the same state and, unless the state is
  ``not on the sheet``, the same key. Every other figure heard is wrong.
- Cautions: ``late or missing`` is one class, as both call for a re-take; ``said``, ``late`` and ``missing`` are shown too.
- Order: a fault is found when one is told at the same step. Not fitted: the same kind.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from dataclasses import dataclass

from firstpitch.film.captions import read_captions
from firstpitch.film.check import Prepared, check_prepared, prepared
from firstpitch.film.types import Coverage, Recording
from firstpitch.media.sentences import remembered
from tests.film.labelled import Labelled, recordings

SPARE = 1.5


@dataclass
class Count:
    """Found rightly, found wrongly, not found."""

    right: int = 0
    wrong: int = 0
    lost: int = 0

    @property
    def precision(self) -> float:
        """The share of what was found that is right."""
        return self.right / max(self.right + self.wrong, 1)

    @property
    def recall(self) -> float:
        """The share of what there is that was found."""
        return self.right / max(self.right + self.lost, 1)

    @property
    def f1(self) -> float:
        """The harmonic mean of both."""
        return 2 * self.right / max(2 * self.right + self.wrong + self.lost, 1)


Counts = dict[str, Count]


def evaluate(half: str, *, told: bool = False) -> Counts:
    """The counts of every class over one half of the recordings."""
    counts: Counts = {}
    for one in recordings(half):
        coverage = check_prepared(_ready(one), heard(one), remembered())
        for name, right, wrong, lost in judged(one, coverage):
            count = counts.setdefault(name, Count())
            count.right, count.wrong, count.lost = count.right + right, count.wrong + wrong, count.lost + lost
            if told and (wrong or lost):
                print(f"{one.spoken.id}: {name}: {right} right, {wrong} wrong, {lost} lost")
    return counts


def _ready(one: Labelled) -> Prepared:
    return prepared(one.brief, remembered())


def heard(one: Labelled) -> Recording:
    """The recording as its caption file gives it."""
    return read_captions(one.spoken.captions.read_bytes(), one.spoken.captions.name)


def judged(one: Labelled, coverage: Coverage) -> Iterator[tuple[str, int, int, int]]:
    """Class, right, wrong, lost for one recording."""
    yield from _points(one, coverage)
    yield from _cautions(one, coverage)
    yield _figures(one, coverage)
    yield _sets("order faults", {f.step for f in one.truth.faults}, {f.step for f in coverage.order})
    yield _sets("not fitted", {f.kind for f in one.truth.not_fitted}, {f.kind for f in coverage.not_fitted})


def _sets(name: str, true: set[str], found: set[str]) -> tuple[str, int, int, int]:
    return name, len(true & found), len(found - true), len(true - found)


def _points(one: Labelled, coverage: Coverage) -> Iterator[tuple[str, int, int, int]]:
    pairs = [
        (one.truth.points[p.point].state, "missing" if p.state == "missing" else "said")
        for p in coverage.points
        if one.truth.points[p.point].state != "partly"
    ]
    for state in ("said", "missing"):
        yield f"points {state}", *_of(pairs, state)


def _cautions(one: Labelled, coverage: Coverage) -> Iterator[tuple[str, int, int, int]]:
    pairs = [(one.truth.cautions[c.caution].state, c.state) for c in coverage.cautions]
    yield "cautions late or missing", *_of([(_late(true), _late(found)) for true, found in pairs], "late or missing")
    for state in ("said", "late", "missing"):
        yield f"cautions {state}", *_of([(str(true), str(found)) for true, found in pairs], state)


def _late(state: str) -> str:
    return "said" if state == "said" else "late or missing"


def _of(pairs: list[tuple[str, str]], state: str) -> tuple[int, int, int]:
    right = sum(true == found == state for true, found in pairs)
    wrong = sum(found == state != true for true, found in pairs)
    return right, wrong, sum(true == state != found for true, found in pairs)


def _figures(one: Labelled, coverage: Coverage) -> tuple[str, int, int, int]:
    starts = [utterance.at for utterance in one.spoken.utterances]
    left = list(coverage.figures)
    right = 0
    for true in one.truth.figures:
        end = next((at for at in starts if at > true.at), float("inf"))
        for found in left:
            near = true.at - SPARE <= found.at <= end + SPARE
            if near and found.state == true.state and (true.state == "not on the sheet" or found.figure == true.key):
                left.remove(found)
                right += 1
                break
    return "figures", right, len(left), len(one.truth.figures) - right


def table(half: str, counts: Counts) -> str:
    """The counts as a Markdown table."""
    lines = [f"| {half} half | precision | recall | F1 | right | wrong | lost |", "|---|---|---|---|---|---|---|"]
    for name, c in counts.items():
        lines.append(f"| {name} | {c.precision:.2f} | {c.recall:.2f} | {c.f1:.2f} | {c.right} | {c.wrong} | {c.lost} |")
    return "\n".join(lines)


def main(words: list[str]) -> None:
    """Print the table of each half named."""
    for half in [word for word in words if not word.startswith("-")] or ["tuning"]:
        print(table(half, evaluate(half, told="-v" in words)))


if __name__ == "__main__":
    main(sys.argv[1:])
