"""Order faults that are sure enough to be told: the acts judged in several readings, from all that may have been done to the plain ones."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from firstpitch.film.act_weights import FAULT_WEIGHTS, surety
from firstpitch.film.acts import by_hand, plain
from firstpitch.film.matching import Speech
from firstpitch.film.order import SURE, Act, order_of
from firstpitch.film.types import OrderFault
from firstpitch.rounds import Problem

READINGS = (0.2, 0.4, 0.6)  # how sure a step of the hands must be in each reading of the film
TOLD_FROM = 0.15  # the surety from which a fault is told: left out, two in five of those told are faults, and three in five are found
BEFORE, AFTER, MOST = (
    3.0,
    45.0,
    3,
)  # [s] round a fault where words that own up to it count, and how many breaths of them at most
_OWNED = re.compile(
    r"\b(oops|whoops|sorry|forgot|forgotten|should(?:'ve| have)|shouldn'?t|ought|hang on|hold on|wait|blow|one (?:sec|second|moment|minute)"
    r"|before i|haven'?t|hasn'?t|ain'?t|not (?:shut|done|put|connected|plugged|on|open)|never (?:took|put|did|shut|opened)"
    r"|still (?:on|open|down|up|in|out|shut|connected|plugged)|left (?:the|it|them|my)|wrong way|out of order|first off|needed to|was meant"
    r"|supposed to|oh)\b"
)


def faults_of(problem: Problem, acts: Sequence[Act], speech: Speech) -> tuple[tuple[OrderFault, ...], tuple[str, ...]]:
    """The faults of ``acts`` that are sure enough, and in words what was taken as done silently in the plainest reading.

    One act wrongly taken as done makes faults that are none, and one missed hides some. So the acts are judged once with all that may have
    been done, and again with only those that are surer: a fault found in every reading leans on nothing doubtful.
    """
    steps = {step.id: step for step in problem.steps}
    told = [act for act in acts if act.step in steps and not by_hand(steps[act.step]) and act.sure >= SURE]
    readings: list[tuple[OrderFault, ...]] = []
    silent: tuple[str, ...] = ()
    for least in READINGS:
        done = [a for a in acts if a.step in steps and by_hand(steps[a.step]) and a.sure >= least]
        found, silent = order_of(problem, [*told, *(replace(a, sure=max(a.sure, SURE)) for a in done)])
        readings.append(found)
    plainest = {(f.step, f.rule, f.what): f for found in readings for f in found}
    share = {
        step: sum(any(f.step == step for f in found) for found in readings) / len(readings)
        for step in {f.step for f in plainest.values()}
    }
    sure = {
        f: _surety(f, share[f.step], by_hands=by_hand(steps[f.step]), owned=owned_up(speech, f.at))
        for f in plainest.values()
    }
    kept = (replace(f, sure=round(s, 2)) for f, s in sure.items() if s >= TOLD_FROM)
    return _once(sorted(kept, key=lambda f: (f.at, f.step, f.rule == "guard"))), silent


def _once(faults: Sequence[OrderFault]) -> tuple[OrderFault, ...]:
    """The faults without those that name a harm which the same act was told to do already."""
    told: dict[tuple[float, str], set[str]] = {}
    kept = []
    for fault in faults:
        known = told.setdefault((fault.at, fault.step), set())
        if not fault.harm or fault.harm not in known:
            kept.append(fault)
        known.add(fault.harm)
    return tuple(kept)


def owned_up(speech: Speech, at: float) -> float:
    """How much the words round a moment own up to a slip ("oh, I haven't…"): 0 to 1."""
    near = (b for b in speech.breaths if at - BEFORE < b.start < at + AFTER)
    return min(sum(bool(_OWNED.search(plain(b.text))) for b in near), MOST) / MOST


def _surety(fault: OrderFault, readings: float, *, by_hands: bool, owned: float) -> float:
    values = {
        "constant": 1.0,
        "readings": readings,
        "only_talk": float(not by_hands),
        "owned": owned,
        "harm": float(bool(fault.harm)),
    }
    return surety(FAULT_WEIGHTS, values)
