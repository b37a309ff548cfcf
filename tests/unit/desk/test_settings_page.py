"""Settings of the branch."""

from __future__ import annotations

import pytest
from django.test import Client

from firstpitch.desk.guidelines import Guidelines, guidelines_of
from firstpitch.desk.inputs import round_options
from firstpitch.desk.models import Branch, BranchEvent, Person

GOOD = {
    "name": "Test Yard",
    "telephone": "01632 960777",
    "words_per_minute": "140",
    "metres_per_second": "0.8",
    "towed_mass": "actual",
}


@pytest.fixture
def boss(manager: Person) -> Client:
    """A browser signed in as the manager."""
    client = Client()
    client.force_login(manager)
    return client


def test_settings_are_kept_and_used(boss: Client, branch: Branch, manager: Person) -> None:
    """What a manager sets is kept, used for rounds of the branch, and told in its history with who did it."""
    boss.post("/settings/", GOOD)
    branch.refresh_from_db()
    assert (branch.telephone, branch.words_per_minute, branch.metres_per_second) == ("01632 960777", 140, 0.8)
    assert guidelines_of(branch) == Guidelines("actual", newcomers=False)
    options = round_options(branch, {})
    assert (options.words_per_minute, options.rates.pace) == (140.0, 0.8)
    event = BranchEvent.objects.get(what="branch.changed")
    assert event.by == manager
    assert event.data["changed"]["words_per_minute"] == [150, 140]
    assert "name" not in event.data["changed"]


@pytest.mark.parametrize(
    ("sent", "words"),
    [
        ({"name": ""}, "Write the branch&#x27;s name."),
        ({"name": "Far Yard"}, "Another branch has this name"),
        ({"words_per_minute": "fast"}, "Write a whole number, such as 150."),
        ({"words_per_minute": "900"}, "less than or equal to 260"),
        ({"metres_per_second": "0"}, "greater than or equal to 0.2"),
        ({"towed_mass": "none"}, "none"),
    ],
)
def test_wrong_setting(boss: Client, branch: Branch, other_branch: Branch, sent: dict[str, str], words: str) -> None:
    """What is wrong is said beside its field, what was typed stays, and nothing is kept."""
    assert other_branch.name == "Far Yard"
    answer = boss.post("/settings/", {**GOOD, **sent})
    assert answer.status_code == 422
    assert words in answer.content.decode()
    branch.refresh_from_db()
    assert branch.words_per_minute == 150
    assert not BranchEvent.objects.filter(what="branch.changed").exists()


def test_same_settings_write_nothing(boss: Client, branch: Branch) -> None:
    """Keeping the settings as they are adds nothing to the history."""
    boss.post("/settings/", GOOD)
    boss.post("/settings/", GOOD)
    assert branch.events.filter(what="branch.changed").count() == 1


def test_settings_are_the_managers(own: Client, branch: Branch) -> None:
    """Whoever is no manager has no link to the settings and cannot change them."""
    assert "/settings/" not in own.get("/").content.decode()
    assert own.post("/settings/", GOOD).status_code == 403
    branch.refresh_from_db()
    assert branch.words_per_minute == 150


def test_careful_guidelines_where_none_are_chosen() -> None:
    """A branch that has chosen nothing, or something unknown, goes by the careful guidelines."""
    assert guidelines_of(Branch(choices={})) == Guidelines("mtplm", newcomers=True)
    assert guidelines_of(Branch(choices={"towed_mass": "half"})).towed_mass == "mtplm"
