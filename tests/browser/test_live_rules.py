"""The tablet's rules (static/desk/tablet/*.js) run in real Chromium and held to the desk's, on hundreds of random rounds."""

from __future__ import annotations

import math
import random
from collections.abc import Iterator
from datetime import timedelta
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from firstpitch.desk.live_kit import problem_json
from firstpitch.desk.so_far import Act, SoFar, as_sequence, so_far
from firstpitch.papers import way
from firstpitch.papers.route import spot_of
from firstpitch.rounds import TimedStep, replay
from firstpitch.rounds.replan import running_at, state_at
from firstpitch.rounds.walking import lay_ground
from tests.browser.live_cases import BEGAN, Case, any_events, any_sequence, cases, told, verdict
from tests.browser.modules import modules_alone
from tests.demo_rounds import NAMES, demo_round


@pytest.fixture(scope="module")
def rules(browser: Browser) -> Iterator[Page]:
    """A page with the tablet's pure modules and nothing else."""
    with modules_alone(browser) as page:
        names = ("replay", "state", "next", "course", "way")
        page.evaluate(
            "async (names) => { window.r = {}; "
            "for (const name of names) Object.assign(window.r, await import(`/tablet/${name}.js`)); }",
            list(names),
        )
        yield page


def sequence_json(sequence: list[TimedStep]) -> list[dict[str, Any]]:
    """Timed steps as the tablet has them."""
    return [{"step": t.step, "start": t.start, "end": t.end} for t in sequence]


def test_the_tablets_checker_is_the_desks(rules: Page) -> None:
    """On more than 300 random and planned parts of rounds the tablet's checker says what the desk's says, word for word."""
    pairs = [(case, any_sequence(case, seed)) for seed, case in enumerate(cases())]
    given = [{"problem": problem_json(c.problem), "sequence": sequence_json(s)} for c, s in pairs]
    answers = rules.evaluate("(all) => all.map(({problem, sequence}) => r.replay(problem, sequence))", given)
    bad = clean = 0
    for (case, sequence), answer in zip(pairs, answers, strict=True):
        mine = [told(b) for b in replay(case.problem, sequence, whole=False)]
        theirs = [tuple(b[k] for k in ("rule", "step", "at", "condition", "text", "harm")) for b in answer]
        assert theirs == mine
        bad, clean = bad + bool(mine), clean + (not mine)
    assert len(pairs) >= 300
    assert bad > 50
    assert clean > 50


def past_json(past: SoFar) -> dict[str, Any]:
    """What was read, in a form that both sides can give."""
    return {
        "changes": [
            ["act", c.step, c.begun, c.at, c.tried] if isinstance(c, Act) else ["found", c.condition, c.value, c.at]
            for c in past.changes
        ],
        "left": dict(past.left),
        "order": list(past.order) if past.order is not None else None,
        "current": past.current,
        "last": past.last,
    }


READ = """(all) => all.map(({problem, events, now, steps}) => {
  const past = r.soFar(events);
  const second = r.secondOf(past, now);
  const {problem: whole, done} = r.asSequence(problem, past);
  return {
    past: {
      changes: past.changes.map((c) => c.sort === "act" ? ["act", c.step, c.begun, c.at, c.tried] : ["found", c.condition, c.value, c.at]),
      left: Object.fromEntries([...past.left].map(([step, {reason}]) => [step, reason])),
      order: past.order, current: past.current, last: past.last,
    },
    second,
    state: r.stateAt(whole, done, second),
    running: r.runningAt(whole, done, second).map(({wait, left}) => [wait.id, left]),
    verdicts: steps.map((step) => r.verdict(problem, past, step, now)),
  };
})"""


def test_the_tablet_reads_what_happened_as_the_desk_does(rules: Page) -> None:
    """From the same events of one or two tablets both read the same past, the same state of the van, the same waits under way, and
    both say the same of every step: what pressing "done" on it now would break, with the harm."""
    rng = random.Random(4)
    given, known = [], []
    for seed, case in enumerate(cases()):
        events = any_events(case, seed)
        now = max((e.at for e in events), default=BEGAN) + timedelta(milliseconds=rng.choice((0, 700, 5000, 300_000)))
        steps = [s.id for s in rng.sample(case.problem.steps, min(8, len(case.problem.steps)))]
        known.append((case, events, now, steps))
        given.append(
            {
                "problem": problem_json(case.problem),
                "events": [e.as_json() for e in events],
                "now": round(now.timestamp() * 1000),
                "steps": steps,
            }
        )
    stopped = let = 0
    for (case, events, now, steps), answer in zip(known, rules.evaluate(READ, given), strict=True):
        past = so_far(events)
        second = past.second(now)
        whole, done = as_sequence(case.problem, past)
        assert answer["past"] == past_json(past)
        assert answer["second"] == second
        assert answer["state"] == state_at(whole, done, second)
        assert answer["running"] == [[wait.id, left] for wait, left in running_at(whole, done, second)]
        for step, said in zip(steps, answer["verdicts"], strict=True):
            mine = verdict(case.problem, past, step, now)
            assert {tuple(b[k] for k in ("rule", "step", "at", "condition", "text", "harm")) for b in said} == mine
            stopped, let = stopped + bool(mine), let + (not mine)
    assert stopped > 200
    assert let > 200


FOLLOW = """(all) => all.map(({problem, order}) => {
  const past = r.soFar([]);
  const may = r.allowed(problem, past, {});
  const from = r.courseAt(problem, past, 0, 0);
  const steps = r.remaining(problem, past, order, may).filter(({id}) => order.includes(id));
  return r.forecast(from, steps);
})"""


def test_a_plan_followed_on_the_tablet_comes_out_as_planned(rules: Page) -> None:
    """The planned order, reckoned on the tablet with each step as soon as it can be, keeps every rule and is over no later than planned.

    Where the plan rests on standing idle for the sake of a later step the tablet may lose a step: in few random rounds, in no van.
    """
    planned = [case for case in cases() if case.plan]
    given = [{"problem": problem_json(c.problem), "order": [t.step for t in c.plan.steps]} for c in planned if c.plan]
    lost = 0
    for case, answer in zip(planned, rules.evaluate(FOLLOW, given), strict=True):
        assert case.plan
        sequence = [TimedStep(t["step"], t["start"], t["end"]) for t in answer["timed"]]
        if answer["lost"] or answer["finish"]:
            lost += 1
            assert replay(case.problem, sequence, whole=False) == ()
            assert len(case.problem.steps) < 20, "on a real van nothing may be lost"
        else:
            assert answer["end"] <= case.plan.total
            assert replay(case.problem, sequence) == ()
    assert len(planned) > 100
    assert lost <= 0.03 * len(planned)


WALK = """(all) => all.map(({problem, order, skip}) => {
  const past = r.soFar([]);
  const may = r.allowed(problem, past, {});
  for (const id of skip) may.without.add(id);
  const from = r.courseAt(problem, past, 0, 0);
  let left = r.remaining(problem, past, order, may);
  const timed = [];
  for (;;) {
    const next = r.chooseNext(from, left);
    if (next === null) break;
    r.take(from, next.step, next.start);
    timed.push({step: next.step.id, start: next.start, end: from.now});
    left = left.filter(({id}) => id !== next.step.id);
  }
  return timed;
})"""


def _walks() -> list[tuple[Case, list[str], list[str]]]:
    """A case, an order (the plan's, or at random) and steps ruled out."""
    rng = random.Random(9)
    found = []
    for number, case in enumerate(cases()):
        order = [t.step for t in case.plan.steps] if case.plan and number % 3 else [s.id for s in case.problem.steps]
        if number % 3 == 2:
            rng.shuffle(order)
        small = [s.id for s in case.problem.steps if rng.random() < 0.1]
        found.append((case, order, small))
    return found


def test_steps_chosen_on_the_tablet_break_nothing(rules: Page) -> None:
    """A whole round chosen step by step on the tablet, in a good or a bad order and with steps ruled out, breaks no rule."""
    walks = _walks()
    given = [{"problem": problem_json(c.problem), "order": order, "skip": skip} for c, order, skip in walks]
    steps = 0
    for (case, _, skip), answer in zip(walks, rules.evaluate(WALK, given), strict=True):
        sequence = [TimedStep(t["step"], t["start"], t["end"]) for t in answer]
        from_the_start = replay(case.problem, [], whole=False)
        assert set(replay(case.problem, sequence, whole=False)) <= set(from_the_start)
        assert not set(skip) & {t.step for t in sequence}
        steps += len(sequence)
    assert steps > 600


@pytest.mark.parametrize("name", NAMES)
def test_the_way_is_the_papers_way(rules: Page, name: str) -> None:
    """Between every two places of a demo van the tablet draws the walk that the papers draw, to the millimetre."""
    van = demo_round(name)
    ground = lay_ground(van.sheet.body, van.sheet.plan)
    places = van.problem.places
    given = {
        "ground": {
            "outline": ground.outline,
            "aisle": ground.aisle,
            "door_outside": ground.door_outside,
            "door_inside": ground.door_inside,
            "along": {p.id: spot_of(ground, p).along for p in places},
        },
        "places": {p.id: {"inside": p.inside} for p in places},
        "pairs": [[a.id, b.id] for a in places for b in places],
    }
    answers = rules.evaluate("({ground, places, pairs}) => pairs.map(([a, b]) => r.way(ground, places, a, b))", given)
    by_id = {p.id: p for p in places}
    for (a, b), points in zip(given["pairs"], answers, strict=True):
        whole = way(van.sheet, by_id[a], by_id[b])
        mine = [p for i, p in enumerate(whole) if i == 0 or math.dist(p, whole[i - 1]) > 0.001]
        assert len(points) == len(mine)
        for one, other in zip(points, mine, strict=True):
            assert one == pytest.approx(other, abs=0.001)
