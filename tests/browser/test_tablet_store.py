"""What the tablet keeps, in a real browser's own database."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from tests.browser.conftest import OpenPage
from tests.browser.running import Desk
from tests.browser.tablet import Tablet, cut_off, kill_browser, own_browser, sign_in

HANDOVER = 1
_LONGEST = 1600
_MOST_BYTES = 400_000


@pytest.fixture
def tablet(open_page: OpenPage) -> Tablet:
    """A signed-in tablet without a network, so that nothing leaves it."""
    made = Tablet(open_page("specialist"))
    made.wait_for(lambda: made.does("return db.meta('person');", "db"))
    made.wait_for_worker()
    cut_off(made.page)
    return made


def test_numbers_count_up_across_tabs(tablet: Tablet) -> None:
    """Two tabs of one tablet that note things at the same moment give every event a number of its own, without a gap."""
    other = Tablet(tablet.page.context.new_page())
    tablet.page.context.set_offline(False)
    other.page.goto("/tablet/")
    cut_off(tablet.page)
    code = """
      const one = number => store.append({handover: 1, what: "note", data: {words: `${number}`}});
      globalThis.noted = Promise.all(Array.from({length: 40}, (_, number) => one(number)));"""
    for one in (tablet, other):
        one.does(code, "store")
    for one in (tablet, other):
        one.page.evaluate("() => globalThis.noted.then(() => null)")
    numbers = [event["number"] for event in tablet.events(HANDOVER)]
    assert sorted(numbers) == list(range(1, 81))
    assert len({event["device"] for event in tablet.events(HANDOVER)}) == 1


def test_an_event_cannot_be_written_twice(tablet: Tablet) -> None:
    """The same id is kept once: a second write of it fails as a whole and changes neither event nor outbox."""
    code = """
      const first = await store.append({handover: 1, what: "note", data: {words: "once"}});
      const again = await store.append({handover: 1, id: first.id, what: "note", data: {words: "twice"}}).catch(fault => fault.name);
      const next = await store.append({handover: 1, what: "note", data: {words: "next"}});
      return {again, first: first.number, next: next.number};"""
    found = tablet.does(code, "store")
    assert found["again"] == "Fault"
    assert found["next"] == found["first"] + 1
    assert [event["data"]["words"] for event in tablet.events(HANDOVER)] == ["once", "next"]


def test_kept_when_the_browser_is_killed(desk: Desk, browser: Browser, tmp_path: Path) -> None:
    """What `append` said is kept is there after the browser's program was killed the moment it said so."""
    with own_browser(browser, desk, tmp_path) as context:
        page = context.pages[0]
        sign_in(page, desk)
        tablet = Tablet(page)
        tablet.wait_for_worker()
        cut_off(page)
        for number in range(5):
            tablet.append(HANDOVER, "note", words=f"before the end {number}")
        kill_browser(tmp_path)
    with own_browser(browser, desk, tmp_path, offline=True) as context:
        page = context.pages[0]
        page.goto("/tablet/")
        words = [event["data"]["words"] for event in Tablet(page).events(HANDOVER)]
        assert words == [f"before the end {number}" for number in range(5)]
        assert Tablet(page).unsent()["events"] == 5


def test_photos_are_made_small(tablet: Tablet) -> None:
    """A photo is kept as JPEG, longest side at most 1600 px, at most 400 kB unless noise; its event is kept with it."""
    taken = tablet.take_photo(HANDOVER, 3200, 1000)
    kept = tablet.does(
        "return (await store.unsentPhotos()).map(p => [p.id, p.width, p.height, p.type, p.bytes.byteLength]);", "store"
    )
    ((key, width, height, sort, size),) = kept
    assert key == taken["id"] == taken["event"]["data"]["media"]
    assert max(width, height) <= _LONGEST
    assert abs(width / height - 3.2) < 0.02
    assert sort == "image/jpeg"
    assert size < _MOST_BYTES
    assert tablet.unsent() == {"events": 1, "photos": 1, "refused": 0, "conflicts": 0}


def test_a_file_that_is_no_photo(tablet: Tablet) -> None:
    """What cannot be read as a picture is refused in words and leaves nothing behind."""
    code = "return store.addPhoto(new Blob(['no picture'], {type: 'image/jpeg'}), {handover: 1}).catch(fault => fault.message);"
    assert "Take it again" in tablet.does(code, "store")
    assert tablet.unsent()["events"] == 0


def test_full_tablet(open_page: OpenPage, desk: Desk) -> None:
    """On a full tablet the write fails in words that say what to do; nothing half is kept; with room again the same write goes."""
    page = open_page()
    devtools = page.context.new_cdp_session(page)
    devtools.send("Storage.overrideQuotaForOrigin", {"origin": desk.address, "quotaSize": 4_000_000})
    sign_in(page, desk)
    tablet = Tablet(page)
    tablet.wait_for_worker()
    cut_off(page)
    code = """
      const write = words => store.append({handover: 1, what: "note", data: {words}});
      const big = () => Array.from({length: 300_000}, () => String.fromCharCode(33 + Math.random() * 90)).join("");
      for (let number = 1; number < 40; number += 1) {
        const words = big();
        try {
          await write(words);
        } catch (fault) {
          globalThis.again = () => write(words);
          return {sort: fault.sort, words: fault.message, before: number - 1};
        }
      }
      return {sort: "never full"};"""
    full = tablet.does(code, "store")
    assert full["sort"] == "full"
    assert "what you typed is still here" in full["words"]
    assert len(tablet.events(HANDOVER)) == tablet.unsent()["events"] == full["before"]
    devtools.send("Storage.overrideQuotaForOrigin", {"origin": desk.address})
    assert page.evaluate("async () => (await globalThis.again()).number") == full["before"] + 1


def test_a_full_tablet_lets_go_of_sent_photos_first(tablet: Tablet) -> None:
    """Where room is short, pictures that the desk has are let go before anything is refused; those it has not are held."""
    first, second = (tablet.take_photo(HANDOVER, 900, 700)["id"] for _ in range(2))
    mark = """
      await db.change(["media"], async store => {
        const photo = await db.asked(store("media").get(id));
        store("media").put({...photo, state: "sent"});
      });"""
    tablet.does(mark, "db", id=first)
    assert tablet.does("return store.makeRoom();", "store") == 1
    held = tablet.does(
        "return [await store.photo(a), await store.photo(b)].map(p => p !== null);", "store", a=first, b=second
    )
    assert held == [False, True]


def test_order_whatever_the_clocks_say(tablet: Tablet) -> None:
    """What one device saw keeps its own order though its clock jumped back, and the one order does not depend on how events came."""
    code = """
      const at = minute => new Date(Date.UTC(2026, 10, 25, 10, minute)).toISOString();
      const seen = ([device, number, minute]) => ({id: `${device}${number}${minute}`, device, number, at: at(minute)});
      const rows = [["a", 1, 10], ["a", 2, 20], ["a", 3, 5], ["a", 4, 6], ["b", 1, 12], ["b", 2, 30], ["", 0, 11], ["", 0, 1]];
      const all = rows.map(seen);
      const told = [];
      for (let turn = 0; turn < 50; turn += 1) {
        const mixed = all.map(e => [Math.random(), e]).sort((x, y) => x[0] - y[0]).map(([, e]) => e);
        told.push(order.inOrder(mixed).map(e => `${e.device}${e.number}`).join(" "));
      }
      return [...new Set(told)];"""
    (only,) = tablet.does(code, "order")
    assert [name for name in only.split() if name.startswith("a")] == ["a1", "a2", "a3", "a4"]
    assert Counter(only.split())["0"] == 2
