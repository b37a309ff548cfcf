"""Small random planning problems: places on a line, switches that are set and unset, waits and guards."""

from __future__ import annotations

import random

from firstpitch.rounds import Effect, Guard, Literally, Place, Problem, Step, Wait

VALUES = ("no", "yes")


def _literal(rng: random.Random, conditions: list[str]) -> Literally:
    return Literally(rng.choice(conditions), frozenset({rng.choice(VALUES)}))


def random_problem(seed: int, most_steps: int = 8) -> Problem:
    """A problem of 3 to ``most_steps`` steps over a few on/off conditions; about half of them have a round."""
    rng = random.Random(seed)
    conditions = [f"c{n}" for n in range(rng.randint(2, 4))]
    places = [Place(f"p{n}", float(n * 2), 0.0, inside=False) for n in range(rng.randint(1, 4))]
    walks = {a.id: {b.id: int(abs(a.x - b.x)) for b in places} for a in places}
    waits = tuple(
        Wait(
            id=f"w{n}",
            kit="k",
            title=f"wait {n}",
            seconds=rng.randint(2, 9),
            sustains=tuple(_literal(rng, conditions) for _ in range(rng.randint(0, 1))),
            sets=(Effect(rng.choice(conditions), rng.choice(VALUES)),) if rng.random() < 0.7 else (),
        )
        for n in range(rng.randint(0, 2))
    )
    count = rng.randint(3, most_steps)
    starter = {rng.randrange(count): w.id for w in waits}
    started = {w: i for i, w in starter.items()}
    steps = tuple(_step(rng, n, conditions, places, starter) for n in range(count))
    guards = tuple(
        Guard(f"g{n}", "k", tuple({_literal(rng, conditions) for _ in range(rng.randint(2, 3))}), "harm")
        for n in range(rng.choice((0, 0, 1, 2)))
    )
    return Problem(
        van="random",
        mode="handover",
        start_name="random",
        start={c: rng.choice(VALUES) for c in conditions},
        finish=tuple(_literal(rng, conditions) for _ in range(rng.choice((0, 0, 1)))),
        places=tuple(places),
        walks=walks,
        start_place=places[0].id,
        steps=steps,
        waits=tuple(w for w in waits if w.id in started),
        guards=guards,
        minutes=rng.choice([None, None, rng.randint(8, 40) / 60]),
    )


def _step(rng: random.Random, number: int, conditions: list[str], places: list[Place], starter: dict[int, str]) -> Step:
    starts, others = starter.get(number), [w for i, w in starter.items() if i != number]
    return Step(
        id=f"s{number}",
        kit="k",
        kit_name="kit",
        topic=rng.choice(("gas", "water")),
        title=f"step {number}",
        place=rng.choice(places).id,
        seconds=rng.randint(1, 6),
        level=rng.choice(("must", "should", "should", "may")),
        worth=rng.randint(1, 5),
        requires=tuple(_literal(rng, conditions) for _ in range(rng.choice((0, 0, 1, 1, 2)))),
        sets=tuple(Effect(c, rng.choice(VALUES)) for c in rng.sample(conditions, rng.choice((0, 1, 1)))),
        starts=(starts,) if starts else (),
        awaits=(rng.choice(others),) if others and rng.random() < 0.3 else (),
    )
