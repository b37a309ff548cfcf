"""Sending what the tablet owes: every way it can go wrong, and each event at the desk once in the end."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import Page, Response, Route

from tests.browser.conftest import OpenPage
from tests.browser.running import Desk
from tests.browser.tablet import Tablet, cut_off, photos_at_desk, sign_in, told_to_desk

HANDOVER = 1
EVENTS = "**/live/*/events/"


@pytest.fixture
def tablet(open_page: OpenPage) -> Tablet:
    """A signed-in tablet; the worker is left out so that a test can stand on the line."""
    made = Tablet(open_page("specialist", offline_app=False))
    made.page.goto("/tablet/")
    made.wait_for(lambda: made.does("return db.meta('person');", "db"))
    return made


def note_offline(tablet: Tablet, count: int) -> list[str]:
    """Note so many things without a network; gives their ids in order."""
    cut_off(tablet.page)
    return [tablet.append(HANDOVER, "note", words=f"note {number}")["id"] for number in range(count)]


def seen_here(desk: Desk, tablet: Tablet) -> list[dict[str, Any]]:
    """What the desk has from this tablet, in the order of its numbers."""
    device = tablet.does("return db.meta('device');", "db")
    return [event for event in told_to_desk(desk, HANDOVER) if event["device"] == device]


def at_desk(desk: Desk, tablet: Tablet) -> list[str]:
    """Ids of what the desk has from this tablet."""
    return [event["id"] for event in seen_here(desk, tablet)]


def test_cut_inside_a_batch(tablet: Tablet, desk: Desk) -> None:
    """The desk applied a batch but its answer was lost: the tablet keeps it, sends it again, and nothing is doubled."""
    cuts = []

    def apply_and_cut(route: Route) -> None:
        route.fetch()
        cuts.append(json.loads(route.request.post_data or "{}")["events"])
        route.abort("connectionreset")

    ids = note_offline(tablet, 120)
    tablet.page.route(EVENTS, apply_and_cut)
    tablet.page.context.set_offline(False)
    tablet.wait_for(lambda: cuts)
    assert tablet.unsent()["events"] == 120
    assert "not sent yet" in tablet.line()
    tablet.page.unroute(EVENTS)
    tablet.send_now()
    tablet.wait_until_sent()
    assert at_desk(desk, tablet) == ids
    assert [event["id"] for event in cuts[0]] == ids[: len(cuts[0])]


def test_batches_go_in_order(tablet: Tablet, desk: Desk) -> None:
    """Events of a handover are sent in the order in which they were noted, and no event is sent again after its answer."""
    sent: list[int] = []
    tablet.page.on("response", lambda response: sent.extend(numbers_in(response)))
    ids = note_offline(tablet, 130)
    tablet.page.context.set_offline(False)
    tablet.wait_until_sent()
    assert sent == sorted(sent)
    assert len(sent) == len(set(sent)) == 130
    assert at_desk(desk, tablet) == ids
    assert "is with the desk" in tablet.line()


def numbers_in(response: Response) -> list[int]:
    """The numbers of the events in a batch that was answered."""
    if not response.url.endswith("/events/"):
        return []
    return [event["number"] for event in json.loads(response.request.post_data or "{}")["events"]]


@pytest.mark.parametrize(
    ("status", "sort", "body"),
    [
        (200, "text/html", "<h1>Welcome to the guest network</h1>"),
        (200, "application/json", '{"answers": []}'),
        (200, "application/json", '{"answers": [{"id": "00000000-0000-4000-8000-000000000000", "answer": "applied"}]}'),
        (200, "application/json", '"fine"'),
        (200, "application/json", "{broken"),
        (302, "text/html", ""),
        (403, "text/html", "no"),
        (404, "text/html", "no"),
        (429, "text/html", "too often"),
        (500, "text/html", "broken"),
        (502, "text/html", "nobody there"),
    ],
)
def test_only_the_desks_answer_clears(tablet: Tablet, status: int, sort: str, body: str) -> None:
    """Whatever comes back that is not the desk's answer for that very event, the event stays owed and the line says so."""
    seen = []

    def answer(route: Route) -> None:
        seen.append(route.request.url)
        route.fulfill(
            status=status, content_type=sort, body=body, headers={"Location": "/sign-in/"} if status == 302 else {}
        )

    note_offline(tablet, 3)
    tablet.page.route(EVENTS, answer)
    tablet.page.context.set_offline(False)
    tablet.wait_for(lambda: seen)
    tablet.wait_for(lambda: tablet.does("return outbox.standing();", "outbox")["trouble"])
    assert [line["state"] for line in tablet.outbox()] == ["waiting"] * 3
    assert "not sent yet" in tablet.line()


def test_a_batch_the_desk_cannot_read(tablet: Tablet, desk: Desk) -> None:
    """Where a batch is turned away whole, its events go singly; the one that is at fault is set aside, the others arrive."""
    ids = note_offline(tablet, 5)

    def picky(route: Route) -> None:
        if ids[2] in (route.request.post_data or ""):
            route.fulfill(status=400, content_type="application/json", body='{"error": "no"}')
        else:
            route.continue_()

    tablet.page.route(EVENTS, picky)
    tablet.page.context.set_offline(False)
    tablet.wait_until_sent()
    assert at_desk(desk, tablet) == [key for key in ids if key != ids[2]]
    assert [(line["id"], line["state"]) for line in tablet.outbox()] == [(ids[2], "refused")]


def test_one_event_cannot_hold_up_the_rest(tablet: Tablet, desk: Desk) -> None:
    """An event that breaks the desk each time stays owed and is tried again; what was noted after it arrives all the same."""
    ids = note_offline(tablet, 5)

    def breaks(route: Route) -> None:
        if ids[2] in (route.request.post_data or ""):
            route.fulfill(status=500, content_type="text/html", body="broken")
        else:
            route.continue_()

    tablet.page.route(EVENTS, breaks)
    tablet.page.context.set_offline(False)
    tablet.wait_for(lambda: tablet.unsent()["events"] == 1)
    assert at_desk(desk, tablet) == [key for key in ids if key != ids[2]]
    assert [(line["id"], line["state"]) for line in tablet.outbox()] == [(ids[2], "waiting")]
    tablet.page.unroute(EVENTS)
    tablet.wait_until_sent()
    assert at_desk(desk, tablet) == ids


def test_refused_is_set_aside(tablet: Tablet, desk: Desk, look: Callable[[Page, str], None]) -> None:
    """What the desk refuses is set aside with its words for a person, who may try again or put it away; the rest goes on."""
    ids = note_offline(tablet, 2)
    bad = tablet.append(HANDOVER, "step.done", step="no-such-step", tried=False)["id"]
    ids.append(tablet.append(HANDOVER, "note", words="after it")["id"])
    tablet.page.context.set_offline(False)
    tablet.wait_until_sent()
    assert at_desk(desk, tablet) == ids
    (line,) = tablet.outbox()
    assert (line["id"], line["state"]) == (bad, "refused")
    assert line["why"]
    page = tablet.page
    page.get_by_text(line["why"]).wait_for()
    assert "would not take" in tablet.line()
    look(page, "tablet-set-aside")
    page.get_by_role("button", name="Try it again").click()
    tablet.wait_for(lambda: [line["state"] for line in tablet.outbox()] == ["refused"])
    page.get_by_role("button", name="put it away").click()
    page.get_by_text("Set aside").wait_for(state="detached")
    assert [line["state"] for line in tablet.outbox()] == ["put-away"]
    assert bad in [event["id"] for event in tablet.events(HANDOVER)]


def test_desk_killed_and_back(tablet: Tablet, desk: Desk) -> None:
    """The desk dies while events are noted and comes back: all arrive, once, without anybody pressing anything."""
    ids = [tablet.append(HANDOVER, "note", words="before")["id"]]
    tablet.wait_until_sent()
    desk.stop(at_once=True)
    ids += [tablet.append(HANDOVER, "note", words=f"meanwhile {number}")["id"] for number in range(5)]
    tablet.wait_for(lambda: tablet.does("return outbox.standing();", "outbox")["trouble"] == "network")
    assert "5 notes not sent yet. No network" in tablet.line()
    desk.start()
    tablet.wait_until_sent()
    assert at_desk(desk, tablet) == ids


def test_signed_out_meanwhile(tablet: Tablet, desk: Desk, look: Callable[[Page, str], None]) -> None:
    """Signed out meanwhile: noting goes on, the line says to sign in again, and after it all goes."""
    tablet.page.context.clear_cookies()
    ids = [tablet.append(HANDOVER, "note", words=f"signed out {number}")["id"] for number in range(3)]
    tablet.wait_for(lambda: "You have been signed out" in tablet.line())
    assert tablet.unsent()["events"] == 3
    assert at_desk(desk, tablet) == []
    look(tablet.page, "tablet-signed-out")
    tablet.page.locator(".unsent").get_by_role("link", name="Sign in").click()
    tablet.page.wait_for_url("**/sign-in/**")
    tablet.wait_for(lambda: "3 notes not sent yet" in tablet.line())
    sign_in(tablet.page, desk)
    tablet.wait_until_sent()
    assert at_desk(desk, tablet) == ids
    assert tablet.page.url.endswith("/tablet/")


def test_what_one_person_saw_is_not_sent_by_another(tablet: Tablet, desk: Desk) -> None:
    """Somebody else signs in on the tablet: what the first one noted waits for them, and what each noted is told as theirs."""
    tablet.page.context.clear_cookies()
    maud = tablet.append(HANDOVER, "note", words="seen by Maud")["id"]
    sign_in(tablet.page, desk, "technician")
    tablet.page.goto("/tablet/")
    tablet.wait_for(lambda: tablet.does("return db.meta('person');", "db")["name"].startswith("Idris"))
    idris = tablet.append(HANDOVER, "note", words="seen by Idris")["id"]
    tablet.wait_for(lambda: tablet.unsent()["events"] == 1)
    tablet.wait_for(lambda: "until Maud Tarrant signs in" in tablet.line())
    assert {event["id"]: event["by"] for event in seen_here(desk, tablet)} == {idris: "idris"}
    tablet.page.context.clear_cookies()
    sign_in(tablet.page, desk)
    tablet.wait_until_sent()
    assert {event["id"]: event["by"] for event in seen_here(desk, tablet)} == {idris: "idris", maud: "maud"}


def test_two_tabs_send_once(tablet: Tablet, desk: Desk) -> None:
    """Two tabs of one tablet that come back to the network together send each event once between them."""
    sent: list[int] = []
    tablet.page.context.on("response", lambda response: sent.extend(numbers_in(response)))
    other = Tablet(tablet.page.context.new_page())
    other.page.goto("/tablet/")
    ids = note_offline(tablet, 70)
    ids += [other.append(HANDOVER, "note", words=f"other tab {number}")["id"] for number in range(30)]
    tablet.page.context.set_offline(False)
    for one in (tablet, other):
        one.page.evaluate("dispatchEvent(new Event('online'))")
    tablet.wait_until_sent()
    assert Counter(sent) == Counter(range(1, 101))
    assert at_desk(desk, tablet) == ids


def test_tab_killed_between_write_and_send(tablet: Tablet, desk: Desk) -> None:
    """A tab that is gone before it could send owes nothing less: the next page of the desk sends it."""
    tablet.page.route(EVENTS, lambda route: route.abort())
    kept = tablet.append(HANDOVER, "note", words="just before the end")["id"]
    context = tablet.page.context
    tablet.page.close()
    again = Tablet(context.new_page())
    again.page.goto("/")
    again.wait_until_sent()
    assert at_desk(desk, again) == [kept]


def test_photo_arrives_once(tablet: Tablet, desk: Desk) -> None:
    """A photo whose answer was lost is sent again under its own id and is at the desk once."""
    cuts = []

    def apply_and_cut(route: Route) -> None:
        route.fetch()
        cuts.append(1)
        route.abort("connectionreset")

    tablet.page.route("**/media/", apply_and_cut)
    taken = tablet.take_photo(HANDOVER, 640, 480)
    tablet.wait_for(lambda: cuts)
    assert tablet.unsent()["photos"] == 1
    assert "1 photo not sent yet" in tablet.line()
    tablet.page.unroute("**/media/")
    tablet.send_now()
    tablet.wait_until_sent()
    assert photos_at_desk(desk, HANDOVER).count(taken["id"]) == 1
    assert [event["data"].get("media") for event in seen_here(desk, tablet) if event["what"] == "photo"] == [
        taken["id"]
    ]


def test_desk_put_back_to_an_older_copy(tablet: Tablet, desk: Desk) -> None:
    """The desk's data is put back to a copy from before: what the tablet had sent since comes to it again, and nothing twice."""
    ids = [tablet.append(HANDOVER, "note", words=f"before the copy {number}")["id"] for number in range(3)]
    tablet.wait_until_sent()
    desk.stop()
    desk.copy_database()
    desk.start()
    tablet.send_now()
    ids += [tablet.append(HANDOVER, "note", words=f"after the copy {number}")["id"] for number in range(4)]
    photo = tablet.take_photo(HANDOVER, 300, 200)
    ids.append(photo["event"]["id"])
    tablet.wait_until_sent()
    desk.stop()
    desk.put_back_database()
    desk.start()
    assert at_desk(desk, tablet) == ids[:3]
    tablet.page.reload()
    ids.append(tablet.append(HANDOVER, "note", words="the next morning")["id"])
    tablet.wait_for(lambda: at_desk(desk, tablet) == ids)
    assert {event["by"] for event in seen_here(desk, tablet)} == {"maud"}
    tablet.wait_for(lambda: photos_at_desk(desk, HANDOVER).count(photo["id"]) == 1)


FAST = """
  const Right = Date;
  const ahead = 20 * 60 * 1000;
  globalThis.Date = class extends Right {
    constructor(...given) { given.length ? super(...given) : super(Right.now() + ahead); }
    static now() { return Right.now() + ahead; }
  };"""


def test_wrong_clock_is_said(tablet: Tablet, look: Callable[[Page, str], None]) -> None:
    """A tablet's clock that is wrong is told in words with how much, and no more once it was set right."""
    assert "clock" not in tablet.line()
    wrong = Tablet(tablet.page.context.new_page())
    wrong.page.add_init_script(FAST)
    wrong.page.goto("/tablet/")
    wrong.wait_for(lambda: "20 minutes fast" in wrong.line())
    assert "their order is kept" in wrong.line()
    look(wrong.page, "tablet-wrong-clock")
    wrong.page.close()
    tablet.page.reload()
    tablet.wait_for(lambda: "right" in tablet.page.locator("#itself").inner_text())
    tablet.wait_for(lambda: "clock" not in tablet.line())
