"""The catalogue's pages, and a branch's own texts for kinds."""

from __future__ import annotations

from typing import Any

import pytest
from django.test import Client

from firstpitch.catalogue import load
from firstpitch.demo import sheets
from firstpitch.desk.actions.own_kinds import drop_own_kind, keep_own_kind, shipped_text
from firstpitch.desk.actions.vans import add_van
from firstpitch.desk.inputs import catalogue_of, open_van
from firstpitch.desk.models import Branch, BranchEvent, OwnKind, Person, Van
from firstpitch.sheet.errors import CatalogueError
from tests.unit.desk.conftest import TODAY

TAP = shipped_text("tap")
OURS = TAP.replace('about = "', 'about = "At Larkrise we say: ', 1)


@pytest.fixture
def boss(manager: Person) -> Client:
    """A browser signed in as the manager."""
    client = Client()
    client.force_login(manager)
    return client


def text_of(client: Client, path: str) -> str:
    """A page as a browser gets it."""
    answer = client.get(path)
    assert answer.status_code == 200, path
    return str(answer.content.decode())


def test_every_kind_is_listed_and_opens(own: Client) -> None:
    """The catalogue lists every kind, and each opens whole."""
    text = text_of(own, "/catalogue/")
    for key, kind in load().kinds.items():
        assert f'href="/catalogue/{key}/"' in text
        page = text_of(own, f"/catalogue/{key}/")
        assert kind.steps[0].title in page if kind.steps else True
        assert "{" not in page.partition("<main")[2].replace("{% ", ""), key


def test_search(own: Client) -> None:
    """A kind is found by the words people use for it."""
    text = text_of(own, "/catalogue/?q=pigtail")
    assert "/catalogue/gas_regulator/" in text
    assert "/catalogue/tap/" not in text


def test_kind_names_the_vans_that_have_it(own: Client, far: Client, van: Van) -> None:
    """A kind's page names the vans of the branch that have it, and none of another branch."""
    assert f'href="/vans/{van.pk}/"' in text_of(own, "/catalogue/space_heater/")
    assert f'href="/vans/{van.pk}/"' not in text_of(own, "/catalogue/wet_heating/")
    assert f'href="/vans/{van.pk}/"' not in text_of(far, "/catalogue/space_heater/")


def test_own_text_is_used(boss: Client, own: Client, far: Client, manager: Person, van: Van) -> None:
    """A manager's own text is used in the branch at once, in no other branch, and the branch's history tells who changed what."""
    boss.post("/catalogue/tap/own/", {"text": OURS})
    assert "At Larkrise we say" in text_of(own, "/catalogue/tap/")
    assert "own text" in text_of(own, "/catalogue/")
    assert "At Larkrise we say" in text_of(own, f"/vans/{van.pk}/kit/kitchen-tap/")
    assert "At Larkrise we say" not in text_of(far, "/catalogue/tap/")
    event = BranchEvent.objects.get(what="kind.changed")
    assert (event.by, event.data["key"]) == (manager, "tap")
    assert any("At Larkrise we say" in line for line in event.data["lines"])


def test_going_back_to_the_catalogue(boss: Client, own: Client) -> None:
    """Going back uses the catalogue's text again and keeps the own one in the history."""
    boss.post("/catalogue/tap/own/", {"text": OURS})
    boss.post("/catalogue/tap/own/drop/")
    assert "At Larkrise we say" not in text_of(own, "/catalogue/tap/")
    assert BranchEvent.objects.get(what="kind.dropped").data["before"] == OURS
    assert "Went back" in text_of(boss, "/catalogue/tap/own/")


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("title = ", "this is not TOML"),
        (TAP.replace('kind = "tap"', 'kind = "tup"'), "tap.toml"),
        (TAP + '\n[colour]\nx = "y"\n', "colour"),
        ("x" * 300_000, "larger than 256 kB"),
    ],
    ids=["no toml", "other key", "unknown key", "large"],
)
def test_wrong_text_is_said_and_stays(boss: Client, text: str, words: str) -> None:
    """A text with a fault is not used; one sentence says what is wrong, without a path of the machine, and the text stays."""
    answer = boss.post("/catalogue/tap/own/", {"text": text})
    page = answer.content.decode()
    assert answer.status_code == 422
    assert words in page
    assert "/tmp" not in page
    assert text[:60].replace('"', "&quot;") in page
    assert not OwnKind.objects.exists()


def test_only_a_manager_changes_texts(own: Client) -> None:
    """Whoever is no manager sees no link to change texts and cannot."""
    assert "/own/" not in text_of(own, "/catalogue/tap/")
    assert own.post("/catalogue/tap/own/", {"text": OURS}).status_code == 403
    assert not OwnKind.objects.exists()


def test_text_that_a_van_does_not_fit(manager: Person, van: Van) -> None:
    """A text without a figure that a van of the branch carries is refused, and the van is named."""
    assert "fuse" in open_van(van).sheet.kit_by_id()["battery"].facts
    text = shipped_text("leisure_battery").replace("[facts.fuse]", "[facts.main_fuse]").replace("{fuse}", "{main_fuse}")
    with pytest.raises(CatalogueError, match=r"Wren would no longer fit|no fact"):
        keep_own_kind(by=manager, key="leisure_battery", text=text)
    assert not OwnKind.objects.exists()


def test_new_figure_is_missing_on_every_van(manager: Person, van: Van) -> None:
    """When an own text asks for one more figure, every van that has such kit lacks it from then on, and no longer once it is dropped."""
    before = van.lacks["must"]
    more = '\n[facts.colour]\nwhat = "colour of the lever"\ntype = "text"\nneed = "must"\n'
    said = TAP.replace('say = """', 'say = """Its lever is {colour}. ', 1)
    keep_own_kind(by=manager, key="tap", text=said + more)
    van.refresh_from_db()
    assert van.lacks["must"] == before + len(open_van(van).sheet.by_kind("tap"))
    drop_own_kind(by=manager, key="tap")
    van.refresh_from_db()
    assert van.lacks["must"] == before


def test_kind_of_ones_own(boss: Client, manager: Person, branch: Branch) -> None:
    """A manager can add a kind that the catalogue lacks; while a van has it, it cannot be dropped."""
    text = TAP.replace('kind = "tap"', 'kind = "tea_tap"').replace('title = "Tap"', 'title = "Tea tap"')
    answer = boss.post("/catalogue/new/", {"key": "tea_tap", "text": text})
    assert answer.headers["Location"] == "/catalogue/tea_tap/"
    assert "tea_tap" in catalogue_of(branch).kinds
    sheet = sheets()["wren"].read_text("utf-8").replace("kind: tap\n", "kind: tea_tap\n")
    add_van(by=manager, sheet=sheet, today=TODAY)
    with pytest.raises(CatalogueError, match="Wren would no longer fit"):
        drop_own_kind(by=manager, key="tea_tap")


@pytest.mark.parametrize("key", ["Tap", "../x", "a-b", ""])
def test_key_of_a_kind(boss: Client, key: str) -> None:
    """A key that could not stand on a sheet is refused in words."""
    answer = boss.post("/catalogue/new/", {"key": key, "text": TAP})
    assert answer.status_code == 422
    assert "A kind&#x27;s key has lower-case letters" in answer.content.decode()


def test_number_of_queries(own: Client, van: Van, django_assert_num_queries: Any) -> None:
    """The catalogue asks the database a fixed number of times."""
    assert van.pk
    own.get("/catalogue/tap/")
    with django_assert_num_queries(4):  # session, person, branch, own kinds
        own.get("/catalogue/")
    with django_assert_num_queries(5):  # and the vans that have it
        own.get("/catalogue/tap/")
