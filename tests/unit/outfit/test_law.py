"""Licence, size, badge and speed limits."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from importlib.resources import files

import pytest

from firstpitch.figures import get
from firstpitch.outfit import Driver, check_outfit
from firstpitch.outfit.law import Entitlement, badge, entitlement, speed_limits
from tests.unit.outfit.vans import CAR, DRIVER, JOURNEY, TYRE, outfit, van

NOW = date(2027, 5, 29)


def licence(driver: Driver, country: str = "GB", on: date | None = NOW, gross: float | None = 2300.0) -> str:
    """The word on a licence."""
    journey = replace(JOURNEY, country=country, on=on)
    made = outfit(driver=driver, journey=journey, car=replace(CAR, gross_vehicle_mass=gross))
    return check_outfit(made).verdict("licence").word


def test_british_car_licence_since_december_2021() -> None:
    """A car test passed after 1996 lets its holder tow 3,500 kg in Great Britain."""
    assert licence(DRIVER) == "fits"


def test_british_rule_is_not_held_for_earlier_days() -> None:
    """Of journeys before the rule came into force nothing is claimed."""
    assert licence(DRIVER, on=date(2021, 12, 15)) == "cannot say"
    assert licence(DRIVER, on=date(2021, 12, 16)) == "fits"


def test_british_licence_from_before_1997_counts_the_combination() -> None:
    """Car and caravan together up to 8,250 kg."""
    old = Driver("B", "GB", date(1996, 12, 31))
    right = entitlement(old, NOW)
    assert right is not None
    assert (right.trailer, right.combination) == (None, 8250.0)
    assert licence(old) == "fits"


@pytest.mark.parametrize(
    ("held", "gross", "word"),
    [
        ("B", 1900.0, "fits"),
        ("B", 2300.0, "does not fit"),
        ("B96", 2300.0, "fits"),
        ("B96", 2900.0, "does not fit"),
        ("BE", 2900.0, "fits"),
        ("B", None, "cannot say"),
    ],
)
def test_european_licences(held: str, gross: float | None, word: str) -> None:
    """Class B up to 3,500 kg together, B96 up to 4,250 kg, BE any trailer up to 3,500 kg; without the car's mass B cannot be judged."""
    assert licence(Driver(held, "EU", date(2005, 1, 1)), "DE", gross=gross) == word


def test_british_licence_abroad_is_not_claimed() -> None:
    """Whether a British entitlement holds abroad is not held here."""
    assert licence(DRIVER, "DE") == "cannot say"


def test_licence_of_elsewhere_is_not_claimed() -> None:
    """No rule is held for other classes and countries."""
    assert licence(Driver("B", "NI", date(2005, 1, 1))) == "cannot say"
    assert licence(Driver("other", "GB", date(2005, 1, 1))) == "cannot say"
    assert licence(Driver()) == "cannot say"


def test_entitlement_without_the_cars_mass() -> None:
    """A trailer that alone is over the combination is refused even when the car is unknown."""
    right = Entitlement(750.0, 3500.0, get("licence.eu"))
    assert right.allows(None, 700.0) is True
    assert right.allows(None, 1450.0) is None
    assert right.allows(None, 3600.0) is False


def test_size_limits() -> None:
    """2.55 m wide and a body of 7 m long are the limits; reaching them is no warning."""
    found = check_outfit(outfit(van=replace(van(), body=replace(van().body, width=2.54, length=6.99))))
    assert found.verdict("width").word == "fits"
    assert found.verdict("length").word == "fits"
    found = check_outfit(outfit(van=replace(van(), body=replace(van().body, width=2.56, length=7.2))))
    assert found.verdict("width").word == "does not fit"
    assert found.verdict("length").word == "does not fit"


def test_long_body_behind_a_heavy_car_is_not_claimed() -> None:
    """The 7 m limit is for cars up to 3,500 kg."""
    long = replace(van(), body=replace(van().body, length=7.2))
    assert (
        check_outfit(outfit(van=long, car=replace(CAR, gross_vehicle_mass=None))).verdict("length").word == "cannot say"
    )


def test_badge_needs_every_figure() -> None:
    """Mass, anti-lock brakes, young tyres and speed symbol: one missing and the badge is out, one unknown and nobody can say."""
    abroad = replace(JOURNEY, country="DE")
    assert badge(outfit(journey=abroad)).word == "fits"
    assert badge(outfit(journey=abroad, car=replace(CAR, anti_lock=False))).word == "does not fit"
    assert badge(outfit(journey=abroad, car=replace(CAR, anti_lock=None))).word == "cannot say"
    assert badge(outfit(journey=replace(abroad, dampers=False))).word == "does not fit"
    assert badge(outfit(journey=replace(abroad, dampers=None))).word == "cannot say"
    old = replace(van().gear, tyre=replace(TYRE, date_code="0119"))
    assert badge(outfit(journey=abroad, van=van(gear=old))).word == "does not fit"


def test_badge_is_no_demand() -> None:
    """An outfit without the badge is legal: 80 km/h holds."""
    verdict = badge(outfit(journey=replace(JOURNEY, country="DE"), car=replace(CAR, anti_lock=False)))
    assert not verdict.binding
    assert "80 km/h" in verdict.sentence


def test_speed_limits_say_where_they_are_from() -> None:
    """Home and Germany are held, each with source, day and standing; of other countries none is invented."""
    for country in ("GB", "DE"):
        limits = speed_limits(country)
        assert limits
        assert all(limit.source and limit.status and "20" in limit.source for limit in limits)
    assert speed_limits("FR") == ()
    kmh = {limit.written: limit.limit * 3.6 for limit in speed_limits("GB")}
    assert kmh["60 mph"] == pytest.approx(96.56, abs=0.01)


@pytest.mark.parametrize("dead", ["2.3 m", "110 %", "BS AU 50"])
def test_dead_rules_are_gone(dead: str) -> None:
    """Rules that no longer hold (2.3 m width, tyres a tenth over their index) stand in no figure."""
    for name in ("towing.toml", "tyres.toml", "licence.toml"):
        assert dead not in (files("firstpitch.figures") / name).read_text("utf-8")


def test_dead_licence_rules_are_gone() -> None:
    """In Great Britain no licence asks for a combination of 3,500 kg or a trailer below the car's unladen mass."""
    right = entitlement(DRIVER, NOW)
    assert right is not None
    assert right.combination is None
    assert licence(DRIVER, gross=3400.0) == "fits"
