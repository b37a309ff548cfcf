"""What must be true across the figures of a build sheet: masses, places inside the body, ids, dates."""

from __future__ import annotations

from datetime import date, timedelta

from firstpitch.sheet.errors import quoted
from firstpitch.sheet.reading import Draft, Reading

GRACE = 0.02  # m; measured with a tape
REACH = 1.5  # m; kit may stand so far outside body and A-frame (waste container, lead), common practice, no source


def check(draft: Draft) -> None:
    """Add every fault across figures to ``draft``; a figure that is missing or at fault itself is passed over."""
    _masses(draft)
    _dates(draft)
    body = draft.top.section("body")
    _areas(draft, body)
    space = Space.of(body)
    if space is not None:
        _gear(draft, space)
        _door(draft, space)
        _aisle(draft, space)
        _lockers(draft, space)
        _furniture(draft, space)
        _kit(draft, space)
    _locker_ids(draft)


class Space:
    """The body as a box [m]: x from ``front`` to ``rear``, y up to ``half`` either way, z from the ground to ``top``."""

    def __init__(self, front: float, rear: float, half: float, top: float) -> None:
        self.front, self.rear, self.half, self.top = front, rear, half, top

    @classmethod
    def of(cls, body: Reading) -> Space | None:
        """The box of a body, or None where one of its sides is missing."""
        front, length, width, height = (body.si(name) for name in ("front", "length", "width", "height"))
        if front is None or length is None or width is None or height is None:
            return None
        return cls(front, front + length, width / 2, height)

    def along(self, low: float, high: float, grace: float = GRACE) -> str:
        """What is wrong with a stretch along the van, in words, or nothing."""
        if low >= self.front - grace and high <= self.rear + grace:
            return ""
        return f"{_reach('x', low, high)}, but the body reaches from {_m(self.front)} to {_m(self.rear)} behind the towball"

    def across(self, low: float, high: float, grace: float = GRACE) -> str:
        """What is wrong with a stretch across the van, in words, or nothing."""
        if low >= -self.half - grace and high <= self.half + grace:
            return ""
        return f"{_reach('y', low, high)}, but the body reaches {_m(self.half)} either side of the centre line"


def _m(figure: float) -> str:
    return f"{figure:.2f} m"


def _reach(axis: str, low: float, high: float) -> str:
    return f"{axis} is {_m(low)}" if low == high else f"{axis} reaches from {_m(low)} to {_m(high)}"


def _masses(draft: Draft) -> None:
    masses = draft.top.section("masses")
    miro, mtplm = masses.quantity("miro"), masses.quantity("mtplm")
    if miro and mtplm and mtplm.si < miro.si:
        sentence = (
            f"the greatest laden mass {quoted(mtplm.written)} is below the mass in running order {quoted(miro.written)} "
            "(masses.miro); check both against the plate"
        )
        draft.faults.add(masses.line("mtplm"), masses.field("mtplm"), sentence)


def _dates(draft: Draft) -> None:
    van, tyre = draft.top.section("van"), draft.top.section("running_gear").section("tyre")
    built, year, code = van.day("built"), van.count("model_year"), tyre.text("date_code")
    today = draft.today
    if built and built > today:
        sentence = f"{quoted(built.isoformat())} is in the future; it must not be after today ({today.isoformat()})"
        draft.faults.add(van.line("built"), van.field("built"), sentence)
    if year and year > today.year + 1:
        sentence = f"{quoted(year)} is in the future; a model year is at most next year ({today.year + 1})"
        draft.faults.add(van.line("model_year"), van.field("model_year"), sentence)
    if code and date_of_code(code) > today:
        sentence = (
            f"{quoted(code)} is week {code[:2]} of 20{code[2:]}, which is in the future; read it off the tyre again"
        )
        draft.faults.add(tyre.line("date_code"), tyre.field("date_code"), sentence)


def date_of_code(code: str) -> date:
    """The first day of the week a tyre's WWYY code means; the four-digit code began in 2000 (from memory).

    >>> date_of_code("0226")
    datetime.date(2026, 1, 8)
    """
    return date(2000 + int(code[2:]), 1, 1) + timedelta(weeks=int(code[:2]) - 1)


def _areas(draft: Draft, body: Reading) -> None:
    length, width, height = body.si("length"), body.si("width"), body.si("height")
    floor, headroom = body.quantity("floor_area"), body.quantity("headroom")
    if floor and length and width and floor.si > length * width * (1 + GRACE):
        sentence = f"{quoted(floor.written)} is more than length times width ({length * width:.1f} m²); check all three"
        draft.faults.add(body.line("floor_area"), body.field("floor_area"), sentence)
    if headroom and height and headroom.si >= height:
        sentence = f"{quoted(headroom.written)} is not below the height of the roof ({_m(height)}); check both"
        draft.faults.add(body.line("headroom"), body.field("headroom"), sentence)


def _gear(draft: Draft, space: Space) -> None:
    gear = draft.top.section("running_gear")
    axles = gear.row("axles") or ()
    line, field = gear.line("axles"), gear.field("axles")
    for axle in axles:
        if wrong := space.along(axle, axle):
            draft.faults.add(line, field, f"an axle lies outside the body: {wrong}; measure from the towball")
    if list(axles) != sorted(set(axles)):
        draft.faults.add(
            line, field, "the axles are not in order from front to rear, each at its own place; put them so"
        )
    if len(axles) == 1 and gear.yes("equalised"):
        sentence = (
            "“yes” stands here, but one axle has nothing to share its load with; write “no” or add the other axle"
        )
        draft.faults.add(gear.line("equalised"), gear.field("equalised"), sentence)
    track = gear.quantity("track")
    if track and track.si > 2 * space.half + GRACE:
        sentence = f"{quoted(track.written)} is wider than the body ({_m(2 * space.half)}); check both"
        draft.faults.add(gear.line("track"), gear.field("track"), sentence)


def _door(draft: Draft, space: Space) -> None:
    door = draft.top.section("plan").section("door")
    at, width = door.si("at"), door.si("width")
    if at is not None and width is not None and (wrong := space.along(at - width / 2, at + width / 2)):
        draft.faults.add(
            door.line("at"), door.field("at"), f"the door lies outside the body: {wrong}; measure to its middle"
        )


def _aisle(draft: Draft, space: Space) -> None:
    for point in draft.top.section("plan").rows("aisle"):
        x, y = point.si
        if wrong := space.along(x, x) or space.across(y, y):
            draft.faults.add(
                point.begins, point.at, f"this point of the aisle lies outside the body: {wrong}; put it inside"
            )


def _lockers(draft: Draft, space: Space) -> None:
    for locker in draft.top.section("plan").sections("lockers"):
        at, size, floor = locker.row("at"), locker.row("size"), locker.si("height")
        if at is None or size is None:
            continue
        wrong = space.along(at[0] - size[0] / 2, at[0] + size[0] / 2) or space.across(
            at[1] - size[1] / 2, at[1] + size[1] / 2
        )
        if not wrong and floor is not None and floor + size[2] > space.top + GRACE:
            wrong = f"its top is {_m(floor + size[2])} above the ground, but the roof is at {_m(space.top)}"
        if wrong:
            draft.faults.add(
                locker.line("at"), locker.at, f"the locker lies outside the body: {wrong}; check “at” and “size”"
            )


def _furniture(draft: Draft, space: Space) -> None:
    for piece in draft.top.section("plan").sections("furniture"):
        one, other = piece.row("from"), piece.row("to")
        if one is None or other is None:
            continue
        (x0, y0), (x1, y1) = one, other
        if wrong := space.along(min(x0, x1), max(x0, x1)) or space.across(min(y0, y1), max(y0, y1)):
            draft.faults.add(
                piece.line("from"), piece.at, f"the piece lies outside the body: {wrong}; check “from” and “to”"
            )
        elif x0 == x1 or y0 == y1:
            sentence = "the piece has no area; “from” and “to” are opposite corners of a rectangle"
            draft.faults.add(piece.line("from"), piece.at, sentence)


def _kit(draft: Draft, space: Space) -> None:
    whole = Space(0.0, space.rear, space.half, space.top)
    for one in draft.top.sections("kit"):
        at, height = one.row("at"), one.quantity("height")
        if at is not None and (wrong := whole.along(at[0], at[0], REACH) or whole.across(at[1], at[1], REACH)):
            sentence = f"this is more than {REACH} m outside the van: {wrong.replace('the body', 'the van')}; check it"
            draft.faults.add(one.line("at"), one.field("at"), sentence)
        if height and height.si > space.top + REACH:
            sentence = f"{quoted(height.written)} is more than {REACH} m above the roof ({_m(space.top)}); check it"
            draft.faults.add(one.line("height"), one.field("height"), sentence)


def _locker_ids(draft: Draft) -> None:
    seen: dict[str, int] = {}
    for locker in draft.top.section("plan").sections("lockers"):
        name, line = locker.text("id"), locker.line("id")
        if name and name in seen:
            sentence = (
                f"the id {quoted(name)} is taken by the locker on line {seen[name]}; give each locker an id of its own"
            )
            draft.faults.add(line, locker.field("id"), sentence)
        if name:
            seen.setdefault(name, line)
