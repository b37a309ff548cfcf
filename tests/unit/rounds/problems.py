"""Small random problems with more in them than tests/random_rounds.py: three values, several waits to a step, odd guards, missing steps."""

from __future__ import annotations

import random
from dataclasses import replace

from firstpitch.rounds import Effect, Guard, Literally, Missing, Place, Problem, Step, Wait

VALUES = ("no", "yes", "half")


def rich_problem(seed: int, most_steps: int = 6) -> Problem:
    """A problem of 2 to ``most_steps`` steps; about half of them have a round."""
    rng = random.Random(seed)
    conditions = [f"c{n}" for n in range(rng.randint(1, 4))]
    places = [Place(f"p{n}", float(n * 2), 0.0, inside=False) for n in range(rng.randint(1, 4))]
    count = rng.randint(2, most_steps)
    waits = [_wait(rng, n, conditions) for n in range(rng.choice((0, 1, 1, 2, 2, 3)))]
    starters = {w.id: rng.randrange(count) for w in waits}
    steps = tuple(_step(rng, n, conditions, places, starters) for n in range(count))
    waits = [_resting(rng, w, steps[starters[w.id]]) for w in waits]
    guards = tuple(
        Guard(f"g{n}", "k", tuple(_literal(rng, conditions) for _ in range(rng.choice((1, 2, 2, 2, 3)))), "harm")
        for n in range(rng.choice((0, 0, 1, 2)))
    )
    return Problem(
        van="random",
        mode="handover",
        start_name="random",
        start={c: rng.choice(VALUES) for c in conditions},
        finish=tuple(_literal(rng, conditions) for _ in range(rng.choice((0, 0, 1, 2)))),
        places=tuple(places),
        walks={a.id: {b.id: int(abs(a.x - b.x)) for b in places} for a in places},
        start_place=rng.choice(places).id,
        steps=steps,
        waits=tuple(waits),
        guards=guards,
        minutes=rng.choice([None, None, rng.randint(4, 40) / 60]),
        missing=(Missing("s0", "Something is not on this van."),) if rng.random() < 0.1 else (),
    )


def waiting_problem(seed: int) -> Problem:
    """A problem of three short steps at one place, each of which starts a wait or two that need and set things."""
    rng = random.Random(seed)
    conditions = ["c0", "c1", "c2"][: rng.randint(1, 3)]
    places = [Place("p0", 0.0, 0.0, inside=False)]
    drafts = [(f"w{n}", rng.randrange(3)) for n in range(rng.randint(2, 4))]
    starters = dict(drafts)
    steps = tuple(_step(rng, n, conditions, places, starters) for n in range(3))
    steps = tuple(replace(s, seconds=rng.randint(1, 3), level="may", worth=1) for s in steps)
    waits = [
        replace(
            _resting(rng, _wait(rng, n, conditions), steps[starters[f"w{n}"]]),
            seconds=rng.randint(1, 6),
            sets=(Effect(rng.choice(conditions), rng.choice(VALUES)),),
        )
        for n in range(len(drafts))
    ]
    guards = [Guard("g", "k", tuple(_literal(rng, conditions) for _ in range(2)), "harm")] if rng.random() < 0.3 else []
    finish = (_literal(rng, conditions),) if rng.random() < 0.3 else ()
    return replace(
        rich_problem(seed),
        start={c: rng.choice(VALUES) for c in conditions},
        finish=finish,
        places=tuple(places),
        walks={"p0": {"p0": 0}},
        start_place="p0",
        steps=steps,
        waits=tuple(waits),
        guards=tuple(guards),
        minutes=None,
        missing=(),
    )


def _literal(rng: random.Random, conditions: list[str]) -> Literally:
    return Literally(rng.choice(conditions), frozenset(rng.sample(VALUES, rng.choice((1, 1, 2)))))


def _effects(rng: random.Random, conditions: list[str]) -> tuple[Effect, ...]:
    chosen = rng.sample(conditions, min(len(conditions), rng.choice((0, 1, 1, 2))))
    return tuple(Effect(c, rng.choice(VALUES)) for c in chosen)


def _wait(rng: random.Random, number: int, conditions: list[str]) -> Wait:
    return Wait(
        id=f"w{number}",
        kit="k",
        title=f"wait {number}",
        seconds=rng.randint(1, 9),
        sustains=tuple(_literal(rng, conditions) for _ in range(rng.choice((0, 0, 1, 2)))),
        sets=_effects(rng, conditions),
    )


def _resting(rng: random.Random, wait: Wait, starter: Step) -> Wait:
    """Half of the time the wait needs what its own step sets, as a heater that stays on; sometimes it then switches that off."""
    if not starter.sets or rng.random() < 0.5:
        return wait
    effect = rng.choice(starter.sets)
    needs = Literally(effect.condition, frozenset({effect.value}))
    over = (Effect(effect.condition, rng.choice(VALUES)),) if rng.random() < 0.4 else wait.sets
    return replace(wait, sustains=(needs, *wait.sustains[:1]), sets=over)


def _step(
    rng: random.Random, number: int, conditions: list[str], places: list[Place], starters: dict[str, int]
) -> Step:
    starts = tuple(w for w, i in starters.items() if i == number)
    others = [w for w, i in starters.items() if i != number]
    level = rng.choice(("must", "should", "should", "may"))
    return Step(
        id=f"s{number}",
        kit="k",
        kit_name="kit",
        topic=rng.choice(("gas", "water")),
        title=f"step {number}",
        place=rng.choice(places).id,
        seconds=rng.randint(1, 6),
        level=level,
        worth=0 if level == "must" else rng.randint(1, 5),
        requires=tuple(_literal(rng, conditions) for _ in range(rng.choice((0, 0, 1, 1, 2)))),
        sets=_effects(rng, conditions),
        starts=starts,
        awaits=(rng.choice(others),) if others and rng.random() < 0.3 else (),
    )
