"""The whole check."""

from __future__ import annotations

from dataclasses import replace

import pytest

from firstpitch.outfit import Car, Driver, Journey, Load, check_outfit
from firstpitch.outfit.objects import outfit_object
from tests.unit.outfit.vans import CAR, outfit, van


def test_good_outfit_fits() -> None:
    """A van, car and stow of which all is known and nothing is over: only the unmeasured brake is left open."""
    found = check_outfit(outfit())
    assert found.word == "fits"
    assert [verdict.id for verdict in found.verdicts if verdict.word == "cannot say"] == ["parking-brake"]


def test_nothing_known_says_so() -> None:
    """A car, driver and journey of which nothing is known give no yes anywhere they matter, and every missing figure is named."""
    found = check_outfit(outfit(car=Car("?"), driver=Driver(), journey=Journey()))
    assert found.word == "cannot say"
    assert len(found.unknown) > 10
    for key in ("car-mass", "gross-train", "towing-limit", "noseweight", "licence", "tyre-age", "d-value-towbar"):
        assert found.verdict(key).word == "cannot say", key


@pytest.mark.parametrize(
    "field", ["gross_vehicle_mass", "gross_train_mass", "towing_limit", "noseweight_limit", "wheelbase", "overhang"]
)
def test_taking_a_figure_away_never_helps(field: str) -> None:
    """Not knowing a figure of the car turns no verdict from a no into a yes, and no binding one from unknown into a yes."""
    order = ["does not fit", "cannot say", "tight", "fits"]
    full = {verdict.id: verdict for verdict in check_outfit(outfit()).verdicts}
    less = check_outfit(outfit(car=replace(CAR, **{field: None}))).verdicts
    for verdict in less:
        if verdict.id == "towing-limit" and field == "towing_limit":
            continue  # the plate's difference takes its place, and says so
        assert order.index(verdict.word) <= order.index(full[verdict.id].word), verdict.id


def test_every_verdict_has_its_parts() -> None:
    """Each has a sentence that ends as one, a standing and a source."""
    for verdict in check_outfit(outfit(journey=Journey(country="DE"))).verdicts:
        assert verdict.sentence.endswith("."), verdict.id
        assert verdict.source != "no source", verdict.id
        assert verdict.title


def test_no_load_is_judged_too() -> None:
    """The empty van behind the car can be judged before anybody packs."""
    assert check_outfit(outfit(load=Load(), stow=None)).word == "fits"


def test_unknown_key_is_a_slip() -> None:
    """There is no verdict of that name."""
    with pytest.raises(KeyError):
        check_outfit(outfit()).verdict("nothing")


def test_outfit_object_is_plain() -> None:
    """The machine-readable form holds no infinity and every verdict."""
    import json

    found = check_outfit(outfit(car=Car("?"), van=van(), stow=None))
    text = json.dumps(outfit_object(found), allow_nan=False)
    assert len(json.loads(text)["verdicts"]) == len(found.verdicts)
