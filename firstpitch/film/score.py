"""One mark out of a hundred for a film, with what each part gave and why."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from firstpitch.film.types import CautionHeard, FigureHeard, FilmBrief, OrderFault, PointFound, Score

# How the hundred is shared. Our own choice: what keeps people safe weighs most, then what they must know.
CAUTIONS, MUSTS, ORDER, FIGURES, SHOULDS = 40.0, 35.0, 10.0, 10.0, 5.0
LEVELS: Mapping[str, float] = {"stop": 5.0, "care": 2.0, "note": 1.0}
HALF = 0.5  # what a point that is partly said, a caution that comes late, gives
FAULT = 0.25  # of the order's share, lost for each fault


def score_of(
    brief: FilmBrief,
    points: Sequence[PointFound],
    cautions: Sequence[CautionHeard],
    figures: Sequence[FigureHeard],
    order: Sequence[OrderFault],
) -> Score:
    """The mark: cautions by their weight, must points, order, figures that agree, and the other points."""
    level = {point.key: point.level for point in brief.points}
    stop = {due.key for due in brief.cautions if due.level == "stop"}
    weight = {due.key: LEVELS[due.level] for due in brief.cautions}
    due = sum(weight.values())
    got = sum(weight[c.caution] * (1.0 if c.state == "said" else HALF if c.state == "late" else 0.0) for c in cautions)
    stops = tuple(c.caution for c in cautions if c.caution in stop and c.state != "said")
    doubts = {step: max(f.sure for f in order if f.step == step) for step in {f.step for f in order}}
    musts = [p for p in points if level[p.point] == "must"]
    others = [p for p in points if level[p.point] != "must"]
    held = [f for f in figures if f.figure and f.state != "not on the sheet"]
    rows = (
        (
            "cautions",
            _share(CAUTIONS, got, due),
            CAUTIONS,
            f"{len(cautions) - _lacking(cautions)} of {len(cautions)} in time; stops missing or late: {len(stops)}",
        ),
        ("what must be said", _share(MUSTS, _said(musts), len(musts)), MUSTS, _count(musts)),
        (
            "order",
            ORDER * max(1.0 - FAULT * sum(doubts.values()), 0.0),
            ORDER,
            f"{len(doubts)} acts perhaps out of order, each counted as far as it is sure",
        ),
        (
            "figures",
            _share(FIGURES, _right(held), len(held)),
            FIGURES,
            f"{_right(held)} of {len(held)} spoken figures agree with the sheet",
        ),
        ("what should be said", _share(SHOULDS, _said(others), len(others)), SHOULDS, _count(others)),
    )
    parts = tuple((what, round(given, 1), most, why) for what, given, most, why in rows)
    return Score(round(sum(given for _, given, _, _ in parts), 1), parts, stops)


def _lacking(cautions: Sequence[CautionHeard]) -> int:
    return sum(1 for c in cautions if c.state != "said")


def _right(figures: Sequence[FigureHeard]) -> int:
    return sum(1 for f in figures if f.state == "agrees")


def _share(most: float, got: float, due: float) -> float:
    return most * got / due if due else most


def _said(points: Sequence[PointFound]) -> float:
    return sum(1.0 if p.state == "said" else HALF if p.state == "partly" else 0.0 for p in points)


def _count(points: Sequence[PointFound]) -> str:
    said, partly = (sum(1 for p in points if p.state == state) for state in ("said", "partly"))
    return f"{said} of {len(points)} said, {partly} partly"
