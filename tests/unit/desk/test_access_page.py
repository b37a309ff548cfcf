"""docs/access.md says what the code does."""

from __future__ import annotations

import re
from pathlib import Path

from django.conf import settings

from firstpitch.desk import limits, uploads
from firstpitch.desk.actions import owner_links, people, second_factor

PAGE = (Path(__file__).parents[3] / "docs" / "access.md").read_text("utf-8")


def test_limits_of_rate() -> None:
    """The limits in the table are those in the code."""
    rows = dict(re.findall(r"\| ([^|]+) \| ([^|]+) \| [^|]+ \|", PAGE))
    said = {
        "sign-in forms": ("sign-in",),
        "codes of the second factor": ("code",),
        "own password before something that matters": ("password",),
        "asking for a new password": ("reset", "reset-name"),
        "wrong links for a new password": ("reset-link",),
        "wrong or sent invitations": ("join", "invite"),
        "wrong owner's links": ("owner-link",),
    }
    spans = {300: "in 5 minutes", 600: "in 10 minutes", 3600: "an hour"}
    for name, keys in said.items():
        for part, key in zip(rows[name].split(";"), keys, strict=True):
            rule = limits.LIMITS[key]
            assert re.sub(r" mails", "", part).strip() == f"{rule.most} {spans[rule.seconds]}", name


def test_times_and_sizes() -> None:
    """The times, sizes and counts in words are those in the code."""
    assert people.INVITATION_LASTS.days == 7
    assert settings.PASSWORD_RESET_TIMEOUT == 3600
    assert (owner_links.USUAL.days, owner_links.LONGEST.days) == (90, 400)
    assert settings.SESSION_COOKIE_AGE == 14 * 24 * 3600
    assert (settings.AXES_FAILURE_LIMIT, settings.AXES_COOLOFF_TIME) == (6, 0.25)
    assert second_factor.CODES == 10
    assert (settings.MOST_UPLOAD, uploads.MOST_SHEET) == (20 * 1024 * 1024, 5 * 1024 * 1024)
    assert uploads.MOST_PIXELS == 50_000_000
    for words in (
        "| 7 days |",
        "| 1 hour |",
        "90 days, at most 400",
        "two weeks",
        "Six wrong",
        "quarter of an hour",
        "ten codes",
    ):
        assert words in PAGE
