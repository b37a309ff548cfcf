"""What a film of one van should contain: drawn from its build sheet, the catalogue and its round."""

from __future__ import annotations

from collections.abc import Iterator

from firstpitch.catalogue.texts import fill
from firstpitch.catalogue.types import Catalogue, Kind, StepSpec
from firstpitch.film.types import CautionDue, FilmBrief, KnownFigure, Point, Subject
from firstpitch.rounds import Problem
from firstpitch.sheet.types import BuildSheet, FactValue, Kit, Quantity

VAN = "van"


def brief_of(sheet: BuildSheet, catalogue: Catalogue, problem: Problem) -> FilmBrief:
    """What a film of the van of ``sheet`` should contain; ``problem`` is its round in mode ``film``.

    Raises ValueError when ``problem`` is not in mode ``film``.
    """
    if problem.mode != "film":
        raise ValueError("a film is checked against the round in mode film")
    fitted = _fitted(sheet, catalogue)
    kinds = [(catalogue.kinds[key], kits) for key, kits in fitted.items()]
    doing = {f"{kit.id}.{step}": said for kind, kits in kinds for kit in kits for step, said in kind.film.doing.items()}
    return FilmBrief(
        van=sheet.identity.name,
        problem=problem,
        subjects=tuple(_subject(kind, fitted.get(kind.key, ())) for kind in catalogue.kinds.values()),
        points=tuple(point for kind, kits in kinds for point in _points(kind, kits, problem)),
        cautions=tuple(due for kind, kits in kinds for due in _cautions(kind, kits, problem)),
        figures=(*(f for kind, kits in kinds for f in _figures(kind, kits)), *_van_figures(sheet)),
        doing={step.id: doing[step.id] for step in problem.steps if step.id in doing},
    )


def _fitted(sheet: BuildSheet, catalogue: Catalogue) -> dict[str, tuple[Kit, ...]]:
    """Kit by kind in the order of the sheet; the van itself comes first."""
    whole = Kit(VAN, VAN, catalogue.kinds[VAN].title, 0.0, 0.0, None, {}, {})
    found: dict[str, tuple[Kit, ...]] = {}
    for kit in (whole, *sheet.kit):
        found[kit.kind] = (*found.get(kit.kind, ()), kit)
    return found


def _subject(kind: Kind, kits: tuple[Kit, ...]) -> Subject:
    own = [kit.name.lower() for kit in kits if kit.id != VAN]
    names = dict.fromkeys([*kind.film.names, kind.title.lower(), *own])
    return Subject(kind.key, kind.title, tuple(names), tuple(kit.id for kit in kits))


def _points(kind: Kind, kits: tuple[Kit, ...], problem: Problem) -> Iterator[Point]:
    says = {step.id: step.say for step in problem.steps}
    for spec in kind.steps:
        for number, text in enumerate(spec.points, start=1):
            for alike in _alike(kind, kits, text):
                steps = _steps(spec, alike, says)
                if steps:
                    yield Point(
                        key=f"{steps[0]}#{number}",
                        kind=kind.key,
                        kits=tuple(kit.id for kit in alike),
                        steps=steps,
                        level=spec.level,
                        text=fill(text, alike[0].facts, kind.facts),
                        say=says[steps[0]],
                        words=kind.film.words.get(spec.id, ()),
                        ways=next(iter(kind.film.ways.get(spec.id, ())[number - 1 : number]), ()),
                    )


def _steps(spec: StepSpec, kits: tuple[Kit, ...], says: dict[str, str]) -> tuple[str, ...]:
    """The round's steps of this sort; a step shown once a kind has one for all its kit."""
    return tuple(f"{kit.id}.{spec.id}" for kit in kits if f"{kit.id}.{spec.id}" in says)


def _alike(kind: Kind, kits: tuple[Kit, ...], text: str) -> list[tuple[Kit, ...]]:
    """Kit for which the text reads the same."""
    groups: dict[str, tuple[Kit, ...]] = {}
    for kit in kits:
        words = fill(text, kit.facts, kind.facts)
        groups[words] = (*groups.get(words, ()), kit)
    return list(groups.values())


def _cautions(kind: Kind, kits: tuple[Kit, ...], problem: Problem) -> Iterator[CautionDue]:
    known = {step.id for step in problem.steps}
    for number, caution in enumerate(kind.cautions, start=1):
        for alike in _alike(kind, kits, caution.text):
            steps = tuple(f"{kit.id}.{s}" for s in caution.steps for kit in alike if f"{kit.id}.{s}" in known)
            if steps or not caution.steps:
                yield CautionDue(
                    key=f"{alike[0].id}!{number}",
                    kind=kind.key,
                    kits=tuple(kit.id for kit in alike),
                    level=caution.level,
                    text=fill(caution.text, alike[0].facts, kind.facts),
                    steps=steps,
                    ways=caution.ways,
                )


def _figures(kind: Kind, kits: tuple[Kit, ...]) -> Iterator[KnownFigure]:
    for name, spec in kind.facts.items():
        if spec.type not in ("quantity", "count", "date"):
            continue
        groups: dict[FactValue | None, tuple[Kit, ...]] = {}
        for kit in kits:
            value = kit.facts.get(name)
            groups[value] = (*groups.get(value, ()), kit)
        for value, alike in groups.items():
            key = f"{alike[0].id}={name}"
            yield KnownFigure(key, kind.key, tuple(kit.id for kit in alike), spec.what, spec.unit, value)


def _van_figures(sheet: BuildSheet) -> Iterator[KnownFigure]:
    masses, body, tyre = sheet.masses, sheet.body, sheet.gear.tyre
    payload = masses.mtplm - masses.miro
    rows: tuple[tuple[str, str, str, str, float | None], ...] = (
        ("miro", "mass in running order", "kg", "kg", masses.miro),
        ("mtplm", "greatest laden mass (MTPLM)", "kg", "kg", masses.mtplm),
        ("payload", "user payload", "kg", "kg", payload),
        ("noseweight_limit", "noseweight limit", "kg", "kg", masses.noseweight_limit),
        ("axle_limit", "axle limit", "kg", "kg", masses.axle_limit),
        ("length", "body length", "m", "m", body.length),
        ("shipping_length", "length from the towball to the rear wall", "m", "m", body.rear),
        ("width", "body width", "m", "m", body.width),
        ("height", "height", "m", "m", body.height),
        ("headroom", "headroom", "m", "m", body.headroom),
        ("tyre_pressure", "tyre pressure", "bar", "Pa", tyre.pressure),
        ("wheel_torque", "wheel bolt torque", "N m", "N m", tyre.wheel_torque),
    )
    for name, what, unit, si_unit, si in rows:
        value = None if si is None else Quantity(si, si_unit, f"{si:g} {si_unit}")
        yield KnownFigure(f"{VAN}={name}", VAN, (VAN,), what, unit, value)
    yield KnownFigure(f"{VAN}=berths", VAN, (VAN,), "berths", "", body.berths)
