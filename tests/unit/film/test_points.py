"""Points found: likeness with the manner of speaking taken out, and what the rest of the film says of a point."""

from __future__ import annotations

import numpy as np
import pytest

from firstpitch.film.check import check_prepared
from firstpitch.film.context import CONTEXT, LEAST, chances_in_context
from firstpitch.film.evidence import FEATURES, Weights
from firstpitch.film.ground import SAY
from firstpitch.film.matching import Speech, made_ready, others_best, over_breaths
from firstpitch.film.point_weights import ALONE_WEIGHTS, CONTEXT_WEIGHTS, MIDDLE
from firstpitch.film.pure import pure_of, share_of, unit
from firstpitch.film.speech import breaths_of
from firstpitch.film.types import PointFound
from firstpitch.media.sentences import remembered
from tests.unit.film.vans import small_van, spoken


def point(key: str, *lines: tuple[float, str]) -> PointFound:
    """What is found of one point in these timed lines."""
    return next(p for p in check_prepared(small_van(), spoken(*lines), remembered()).points if p.point == key)


def speech_of(text: str) -> Speech:
    """A few breaths made ready."""
    return made_ready(breaths_of(spoken((0, text))), small_van().vocabulary, remembered())


def test_the_manner_of_speaking_is_taken_out() -> None:
    """Two sentences that differ only as ways of saying one thing differ are more alike in the pure space than before."""
    rng = np.random.default_rng(5)
    things, manner = rng.normal(size=(30, 40)), rng.normal(size=40)
    item = np.repeat(np.arange(30), 6)
    rows = things[item] + 4.0 * rng.normal(size=(180, 1)) * manner + 0.1 * rng.normal(size=(180, 40))
    pure = pure_of(unit(rows.astype(np.float32)), item, np.ones((180, 3), np.float32), 30)
    two = unit(np.array([things[0] + 4.0 * manner, things[0] - 4.0 * manner], np.float32))
    before, after = float(two[0] @ two[1]), float(np.prod(pure.of(two), axis=0).sum())
    assert after > before + 0.5


def test_every_wording_of_the_van_lies_nearest_its_own_point() -> None:
    """Of the van's own wordings more than nine in ten are likest to the mean of the point that they word."""
    ground = small_van().points
    own = ground.sort != SAY
    nearest = (ground.pure.of(ground.vectors[own]) @ ground.pure.centres.T).argmax(axis=1)
    assert float((nearest == ground.item[own]).mean()) > 0.9


def test_shares_are_of_one_whole() -> None:
    """The shares of all points in a window come to one, and so do those of each kind."""
    scores = np.random.default_rng(2).normal(size=(6, 4)).astype(np.float32)
    groups = np.array([0, 0, 1, 1, 1, 2])
    assert np.exp(share_of(scores)).sum(axis=0) == pytest.approx(np.ones(4), abs=1e-5)
    assert np.exp(share_of(scores, groups))[groups == 1].sum(axis=0) == pytest.approx(np.ones(4), abs=1e-5)


def test_a_breath_has_the_best_of_the_windows_that_hold_it() -> None:
    """What is found in two breaths together counts for both of them, and not for the third."""
    speech = speech_of("This is the handbrake here. Lovely weather we are having. Shall we have some tea now?")
    assert len(speech.breaths) == 3
    rows = np.full((1, len(speech.windows)), -3.0, np.float32)
    rows[0, speech.windows.index((0, 2))] = 2.0
    assert over_breaths(rows, speech, LEAST)[0].tolist() == [2.0, 2.0, -3.0]


def test_a_point_is_no_rival_of_itself() -> None:
    """The best of the others of a group leaves the point itself out; alone, it has none."""
    rows = np.array([[5.0], [1.0], [2.0]], np.float32)
    assert others_best(rows, np.array([0, 0, 1]), -4.0).ravel().tolist() == [1.0, 5.0, -4.0]


def test_the_rest_of_its_step_lifts_a_point() -> None:
    """A few words that say little by themselves are surer when the step's other points are told around them."""
    few = "Tug it after."
    alone = point("front-locker.shut#2", (0, few))
    along = point(
        "front-locker.shut#2", (0, f"Close the front locker, nothing loose under the lid. Lock the lid. {few}")
    )
    assert alone.state == "missing"
    assert along.state != "missing"


def test_every_weight_is_of_evidence_there_is() -> None:
    """No weight has a name that nothing is reckoned for, and each half of a product has its middle."""
    known = {*CONTEXT, *FEATURES}
    assert len(known) == len(CONTEXT) + len(FEATURES)
    assert set(ALONE_WEIGHTS.by_feature) <= set(FEATURES)
    for name in CONTEXT_WEIGHTS.by_feature:
        parts = name.split("*")
        assert set(parts) <= known
        assert len(parts) == 1 or set(parts) <= set(MIDDLE)


def test_a_product_counts_from_its_middle() -> None:
    """A product of two inputs says nothing where one of them is at its middle, and never more than its widest."""
    inputs = np.zeros((1, 3, len(CONTEXT) + len(FEATURES)), np.float32)
    must, share = CONTEXT.index("must"), CONTEXT.index("share")
    inputs[0, :, must] = [1.0, 2.0, 2.0]
    inputs[0, :, share] = [9.0, 1.0, 100.0]
    weights = Weights(0.0, {"must*share": 1.0})
    found = chances_in_context(inputs, weights, {"must": (1.0, 1.0), "share": (0.0, 1.0)})
    assert found[0] == pytest.approx([0.5, 1 / (1 + np.exp(-1.0)), 1 / (1 + np.exp(-2.5))], abs=1e-6)
