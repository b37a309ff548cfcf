"""The build sheet's form: its sections and keys, what each is, its unit and its bounds.

The bounds catch slips of the pen (a lost point, a wrong unit). They are common practice without a source and no legal limits.
"""

from __future__ import annotations

from firstpitch.sheet.form import Free, Listing, Row, Section, choice, count, identifier, quantity, simple, text

VERSION = 1
MOST_KITS = 1000
# ISO 3779 shape of a chassis number: 17 characters, digits and capitals without I, O and Q (from memory).
CHASSIS = r"[A-HJ-NPR-Za-hj-npr-z0-9]{17}"
CHASSIS_WORDS = "the 17 characters stamped on the chassis: digits and letters, never I, O or Q"
DATE_CODE = r"(?:0[1-9]|[1-4][0-9]|5[0-3])[0-9]{2}"
KIND_WORDS = "a key of the catalogue, such as “water_heater”"
COORDINATES = (-5.0, 20.0)


def _point(name: str, what: str, *, required: bool = True) -> Row:
    return Row(name, what, "m", ("x from the towball", "y from the centre line"), required, bounds=COORDINATES)


VAN = Section(
    "van",
    "name, chassis number and dates",
    (
        text("name", "name of the van", required=True),
        text("chassis_number", "chassis number", CHASSIS, CHASSIS_WORDS, need="must"),
        count("model_year", "model year", 1950, 2200, need="may"),
        simple("built", "day it was built", "date", need="may"),
        text("dealer", "dealership that hands it over"),
        text("contact", "whom the owner asks"),
    ),
    required=True,
)
MASSES = Section(
    "masses",
    "plated masses and limits",
    (
        quantity("miro", "mass in running order (MiRO)", "kg", 200, 5000, required=True),
        quantity("mtplm", "greatest laden mass (MTPLM)", "kg", 200, 5000, required=True),
        quantity("noseweight_limit", "noseweight limit of the van", "kg", 10, 500),
        quantity("axle_limit", "limit of each axle", "kg", 200, 5000),
        quantity("measured_mass", "mass on a weighbridge", "kg", 200, 6000, need="may"),
        quantity("measured_noseweight", "noseweight as measured", "kg", 0, 1000, need="may"),
    ),
    required=True,
)
INSULATION = Section(
    "insulation",
    "heat transmission of each surface",
    tuple(
        quantity(name, f"heat transmission of the {name}", "W/m2K", 0.1, 10)
        for name in ("wall", "roof", "floor", "window")
    ),
)
BODY = Section(
    "body",
    "body shell",
    (
        quantity("front", "distance from the towball to the front wall", "m", 0.2, 5, required=True),
        quantity("length", "length of the body without the A-frame", "m", 1.5, 12, required=True),
        quantity("width", "width of the body", "m", 1.2, 3, required=True),
        quantity("height", "height of the roof above the ground", "m", 1, 4.5, required=True),
        quantity("headroom", "headroom inside", "m", 0.8, 3, need="may"),
        quantity("floor_area", "floor area", "m2", 1, 40),
        quantity("window_area", "area of all windows", "m2", 0, 20),
        count("berths", "number of berths", 1, 12, required=True),
        INSULATION,
    ),
    required=True,
)
TYRE = Section(
    "tyre",
    "tyres as plated",
    (
        count("per_axle", "number of tyres on each axle", 1, 4, required=True),
        text("size", "tyre size as moulded", need="must"),
        count("load_index", "load index of the tyres", 40, 150),
        text(
            "speed_symbol",
            "speed symbol of the tyres",
            "[A-Z][1-8]?",
            "the letter after the load index, such as “N”",
            need="must",
        ),
        text(
            "date_code",
            "date code of the tyres",
            DATE_CODE,
            "week and year as moulded, four digits, such as “3525”",
            need="must",
        ),
        quantity("pressure", "plated tyre pressure", "bar", 0.5, 12),
        quantity("reference_pressure", "pressure at which the load index is stated", "bar", 0.5, 12, need="may"),
        quantity("wheel_torque", "tightening torque of the wheel fixings", "N·m", 20, 500),
        choice("wheel_material", "what the wheels are made of", ("steel", "alloy"), need="may"),
    ),
    required=True,
)
GEAR = Section(
    "running_gear",
    "axles, suspension and tyres",
    (
        Row(
            "axles",
            "distance of each axle from the towball, front to rear",
            "m",
            ("axle",),
            True,
            most=3,
            bounds=(0.5, 17),
        ),
        simple("equalised", "whether the axles share the load between them", "yes-no"),
        quantity("track", "distance between the middles of the left and right tyres", "m", 0.8, 3),
        TYRE,
    ),
    required=True,
)
DOOR = Section(
    "door",
    "entrance door",
    (
        choice("side", "side the door is on", ("nearside", "offside"), required=True),
        quantity("at", "distance from the towball to the middle of the door", "m", 0.2, 17, required=True),
        quantity("width", "width of the door", "m", 0.3, 2, required=True),
        quantity("step_up", "height to climb from the ground to the floor", "m", 0, 1.5, required=True),
    ),
    required=True,
)
LOCKER = Section(
    "locker",
    "place for load",
    (
        identifier("id of the locker"),
        text("name", "name of the locker", required=True),
        _point("at", "middle of the locker, seen from above"),
        quantity("height", "height of the locker's floor above the ground", "m", 0, 4, required=True),
        Row(
            "size", "inside size of the locker", "m", ("along the van", "across the van", "up"), True, bounds=(0.02, 5)
        ),
        quantity("limit", "most mass the locker may hold", "kg", 0.1, 500),
        simple("inside", "whether it is reached from inside the van", "yes-no", required=True),
    ),
)
FURNITURE = Section(
    "piece",
    "rectangle on the plan",
    (
        text("name", "name of the piece", required=True),
        _point("from", "one corner"),
        _point("to", "opposite corner"),
    ),
)
PLAN = Section(
    "plan",
    "floor plan",
    (
        DOOR,
        Listing(
            "aisle",
            "line that a person walks inside, point by point",
            _point("point", "point"),
            True,
            least=2,
            most=100,
        ),
        Listing("lockers", "places for load", LOCKER, most=200),
        Listing("furniture", "pieces to draw on the plan", FURNITURE, most=200),
    ),
    required=True,
)
KIT = Section(
    "kit",
    "thing fitted to the van",
    (
        identifier("id of this kit"),
        text("kind", "kind of this kit", allowed=KIND_WORDS, required=True),
        text("name", "name of this kit, as the owner reads it", required=True),
        _point("at", "middle of this kit, seen from above"),
        quantity("height", "height above the ground", "m", 0, 5, need="may"),
        Free("facts", "figures and details that its kind asks for"),
        Free("links", "other kit it belongs with, link: id"),
        text("note", "remark", reported=False),
    ),
)
BUILD_SHEET = Section(
    "build sheet",
    "one van as sold",
    (
        count("firstpitch", "number of this file format", VERSION, VERSION, required=True),
        VAN,
        quantity("cold_water", "temperature of the mains water", "°C", 0, 40),
        MASSES,
        BODY,
        GEAR,
        PLAN,
        Listing("kit", "everything fitted to the van", KIT, True, least=1, most=MOST_KITS),
    ),
)
