"""Where people walk round and in a van, as a finely sampled graph laid from the sheet's figures alone.

Outside: once round the body at arm's length, and round the front of the towball. Inside: the line of the aisle. Between them: through the
doorway, from the outside line straight in to the nearest point of the aisle.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import networkx as nx

from firstpitch.rounds import WalkRates
from firstpitch.sheet.types import Body, VanPlan

Point = tuple[float, float]
Node = tuple[str, int]


@dataclass
class Ways:
    """The graph; ``points`` says where each node is [m], edges carry metres."""

    graph: nx.Graph = field(default_factory=nx.Graph)
    points: dict[Node, Point] = field(default_factory=dict)

    def draw(self, line: str, corners: list[Point], sample: float) -> None:
        """Add a line of points no further apart than ``sample``."""
        count, last = 0, corners[0]
        self.points[line, 0] = last
        for corner in corners[1:]:
            pieces = max(1, math.ceil(math.dist(last, corner) / sample))
            for piece in range(1, pieces + 1):
                share = piece / pieces
                here = (last[0] + share * (corner[0] - last[0]), last[1] + share * (corner[1] - last[1]))
                self.points[line, count + 1] = here
                self.graph.add_edge((line, count), (line, count + 1), metres=math.dist(self.points[line, count], here))
                count += 1
            last = corner

    def nearest(self, line: str, at: Point) -> tuple[Node, float]:
        """The node of a line nearest to a point, and how far away it is."""
        node = min((n for n in self.points if n[0] == line), key=lambda n: math.dist(self.points[n], at))
        return node, math.dist(self.points[node], at)

    def rivals(self, line: str, at: Point, apart: float, slack: float) -> bool:
        """Whether a second spot, further than ``apart`` from the nearest one, is nearly as near."""
        best, away = self.nearest(line, at)
        return any(
            n[0] == line and math.dist(p, self.points[best]) > apart and math.dist(p, at) < away + slack
            for n, p in self.points.items()
        )

    def metres_from(self, node: Node) -> dict[Node, float]:
        """How far every node is from one, by the library's shortest paths."""
        found: dict[Node, float] = nx.single_source_dijkstra_path_length(self.graph, node, weight="metres")
        return found


def doorway(body: Body, plan: VanPlan) -> Point:
    """The middle of the doorway, in the wall."""
    return plan.door.at, (1 if plan.door.side == "nearside" else -1) * body.width / 2


def ways(body: Body, plan: VanPlan, rates: WalkRates, sample: float) -> Ways:
    """The graph of one van."""
    side = body.width / 2 + rates.clearance
    behind = body.front + body.length + rates.clearance
    ring = [(-rates.clearance, 0.0), (body.front, side), (behind, side), (behind, -side), (body.front, -side)]
    found = Ways()
    found.draw("outside", [*ring, ring[0]], sample)
    last = max(n for line, n in found.points if line == "outside")
    found.graph.add_edge(("outside", last), ("outside", 0), metres=0.0)
    found.draw("aisle", list(plan.aisle), sample)
    across, wall = doorway(body, plan)
    step_off, _ = found.nearest("outside", (across, math.copysign(side, wall)))
    step_in, inwards = found.nearest("aisle", (across, wall))
    found.graph.add_edge(step_off, step_in, metres=rates.clearance + inwards)
    return found
