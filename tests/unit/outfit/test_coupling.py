"""The coupling: ruling limit, least noseweight, guideline, D value."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstpitch.outfit import Load, Towbar, check_outfit, nose_scale
from firstpitch.outfit.coupling import d_value, largest_trailer, nose_band, nose_limits
from firstpitch.outfit.masses import laden
from firstpitch.outfit.objects import outfit_object
from firstpitch.sheet.types import Masses
from tests.unit.outfit.vans import CAR, JOURNEY, kit, outfit, quantity, van

limit = st.one_of(st.none(), st.floats(20, 200))


@given(car=limit, bar=limit, head=limit, plate=limit)
def test_ruling_limit_is_the_least_known(car, bar, head, plate) -> None:  # type: ignore[no-untyped-def]
    """Car, towbar, hitch and caravan: the least limit rules, and one that is unknown is named, never taken for none."""
    coupling = kit("coupling", "coupling", 0.1, **({"s_value": quantity(head, "kg")} if head else {}))
    made = outfit(
        van=replace(van(masses=Masses(1200.0, 1450.0, plate, 1450.0, 1200.0, 72.0)), kit=(coupling,)),
        car=replace(CAR, noseweight_limit=car, towbar=Towbar(bar, 11e3)),
    )
    band = nose_band(made, 1235.0)
    known = [value for value in (car, bar, head, plate) if value is not None]
    assert band.ruling == (min(known) if known else None)
    assert len(band.unknown) == 4 - len(known)
    verdict = check_outfit(made).verdict("noseweight")
    nose = laden(made).nose.low
    if known and nose > min(known) + 1e-6:
        assert verdict.word == "does not fit"
    elif band.unknown:
        assert verdict.word == "cannot say"
        assert verdict.unknown
    else:
        assert verdict.word in ("fits", "tight")


def test_no_hitch_on_the_sheet_is_an_unknown_limit() -> None:
    """A van whose sheet lists no hitch has a hitch of unknown limit."""
    bare = outfit(van=replace(van(), kit=()))
    assert "the caravan's hitch" in [one.part for one in nose_limits(bare) if one.limit is None]


def test_least_noseweight_only_where_a_rule_is_held() -> None:
    """Germany has a rule, Great Britain none that is held, and of other countries nothing is claimed."""

    def at(country: str | None) -> str:
        return check_outfit(outfit(journey=replace(JOURNEY, country=country))).verdict("noseweight-least").word

    assert at("DE") == "fits"
    assert at("GB") == "fits"
    assert at("FR") == "cannot say"
    assert at(None) == "cannot say"


def test_least_noseweight_fails_when_tail_heavy() -> None:
    """A van with 10 kg on the ball breaks the German rule."""
    light = van(masses=Masses(1200.0, 1450.0, 100.0, 1450.0, 1200.0, 5.0))
    verdict = check_outfit(outfit(van=light, journey=replace(JOURNEY, country="DE"))).verdict("noseweight-least")
    assert verdict.word == "does not fit"


def test_guideline_is_marked_and_never_law() -> None:
    """Too little by the guideline advises more, too much is no harm by itself; neither binds."""
    low = outfit(van=van(masses=Masses(1200.0, 1450.0, 100.0, 1450.0, 1200.0, 30.0)))
    verdict = check_outfit(low).verdict("noseweight-guideline")
    assert verdict.word == "does not fit"
    assert not verdict.binding
    assert "steadier" in verdict.sentence
    high = outfit(van=van(masses=Masses(1200.0, 1450.0, 200.0, 1450.0, 1200.0, 95.0)))
    assert check_outfit(high).verdict("noseweight-guideline").word == "tight"


def test_preferred_band_stays_clear_of_the_ruling_limit() -> None:
    """What is aimed at is the guideline, but never so near the ruling limit that it would be called tight."""
    band = nose_band(outfit(), 1400.0)
    assert band.guideline == pytest.approx((70.0, 98.0))
    assert band.preferred == pytest.approx((70.0, 0.97 * 90.0))


@given(car=st.floats(500, 5000), trailer=st.floats(200, 3500))
def test_d_value_grows_with_both_masses(car: float, trailer: float) -> None:
    """A heavier car or a heavier caravan never asks for a weaker coupling, and both masses count alike."""
    assert d_value(car + 100, trailer) > d_value(car, trailer)
    assert d_value(car, trailer + 100) > d_value(car, trailer)
    assert d_value(car, trailer) == pytest.approx(d_value(trailer, car))


def test_largest_trailer_without_bound() -> None:
    """A coupling stronger than the car could ever pull allows any trailer."""
    assert largest_trailer(30_000, 2000) == float("inf")
    with pytest.raises(ValueError, match="above zero"):
        d_value(0, 1000)


def test_d_value_unknown_blocks() -> None:
    """A towbar whose plate cannot be read gives no verdict."""
    found = check_outfit(outfit(car=replace(CAR, towbar=Towbar(100.0, None))))
    assert found.verdict("d-value-towbar").word == "cannot say"
    assert found.verdict("d-value-hitch").word == "fits"


def test_d_value_too_weak() -> None:
    """A hitch stamped 6 kN is too weak for this outfit's 8.7 kN."""
    weak = kit("coupling", "coupling", 0.1, s_value=quantity(120.0, "kg"), d_value=quantity(6_000.0, "N"))
    assert check_outfit(outfit(van=replace(van(), kit=(weak,)))).verdict("d-value-hitch").word == "does not fit"


def test_nose_scale_holds_every_limit() -> None:
    """The drawing's scale marks every known limit once, the ruling one as such, and names the unknown ones."""
    made = outfit(car=replace(CAR, towbar=Towbar(None, 11e3)))
    scale = nose_scale(nose_band(made, 1235.0), laden(made).nose)
    assert {mark.low for mark in scale.marks if mark.role in ("limit", "ruling")} == {90.0, 100.0, 120.0}
    assert [mark.low for mark in scale.marks if mark.role == "ruling"] == [90.0]
    assert scale.unknown == ("the towbar",)
    assert all(0 <= mark.high <= scale.top for mark in scale.marks)


@pytest.mark.parametrize(("nose", "word"), [(40.0, "does not fit"), (75.0, "fits"), (80.0, "fits"), (110.0, "tight")])
def test_guideline_carries_its_band(nose: float, word: str) -> None:
    """The guideline's band is a figure of its own, 5 and 7 % of the laden mass, whatever the word; the limit is its nearer end."""
    masses = replace(van().masses, measured_noseweight=nose, noseweight_limit=150.0)
    empty = outfit(van=replace(van(), masses=masses), load=Load(), stow=None)
    check = check_outfit(empty)
    verdict = check.verdict("noseweight-guideline")
    assert verdict.word == word
    assert verdict.standing == "guideline"
    assert not verdict.binding
    assert verdict.band == pytest.approx((0.05 * 1200.0, 0.07 * 1200.0))
    assert verdict.limit in verdict.band
    assert next(v for v in outfit_object(check)["verdicts"] if v["id"] == verdict.id)["band"] == list(verdict.band)
