"""Forty tablets and a desk that is killed while they post."""

from __future__ import annotations

import pytest

from bench.posting import KILLS, TABLETS, run

_SECONDS = 30.0
_ENOUGH = 500


@pytest.mark.slow
def test_nothing_lost_nothing_doubled() -> None:
    """Forty tablets post for half a minute, the desk is killed and started again twice: every event is there, and once."""
    outcome = run(_SECONDS)
    assert (outcome.tablets, outcome.kills) == (TABLETS, KILLS)
    assert outcome.noted > _ENOUGH
    assert outcome.failed_posts > 0, "no post met a dead desk or a broken line, so nothing was tried"
    assert (outcome.lost, outcome.doubled) == (0, 0)
    assert outcome.at_desk == outcome.noted
