"""A tablet in the hands of a test: the modules that its page has loaded, used as the live round uses them."""

from __future__ import annotations

import json
import os
import signal
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, BrowserContext, Error, Page

from tests.browser.running import NAMES, Desk, chromium

_ADDRESS = """name => performance.getEntriesByType("resource").map(entry => entry.name)
  .find(address => new RegExp(`/tablet/${name}[.][0-9a-f]{12}[.]js$`).test(address)) ?? null"""
_WAIT_S = 30.0
_REACHES_NOBODY = """() => fetch("/tablet/here/", {cache: "no-store"}).then(() => false, () => true)"""


@dataclass
class Tablet:
    """One tab on one tablet."""

    page: Page

    def does(self, code: str, *modules: str, **given: Any) -> Any:
        """Run ``code``, the body of an async function, with the named modules and values in scope."""
        addresses = {name: self.wait_for(lambda name=name: self.page.evaluate(_ADDRESS, name)) for name in modules}
        imports = "\n".join(f"const {name} = await import(addresses.{name});" for name in modules)
        inner = f"async ({{ {', '.join(given)} }}) => {{ {code} }}" if given else f"async () => {{ {code} }}"
        whole = f"async ({{ addresses, given }}) => {{ {imports}\n return await ({inner})(given); }}"
        return self.page.evaluate(whole, {"addresses": addresses, "given": given})

    def append(self, handover: int, what: str, **data: Any) -> dict[str, Any]:
        """Note something, as the live round does; it is on the disk when this ends."""
        kept: dict[str, Any] = self.does(
            "return store.append({handover, what, data});", "store", handover=handover, what=what, data=data
        )
        return kept

    def events(self, handover: int) -> list[dict[str, Any]]:
        """All this tablet knows of a handover."""
        known: list[dict[str, Any]] = self.does("return store.events(handover);", "store", handover=handover)
        return known

    def unsent(self) -> dict[str, int]:
        """What this tablet still owes the desk."""
        owed: dict[str, int] = self.does("return store.unsent();", "store")
        return owed

    def outbox(self) -> list[dict[str, Any]]:
        """Its lines."""
        lines: list[dict[str, Any]] = self.does("return store.outbox();", "store")
        return lines

    def take_photo(self, handover: int, width: int, height: int) -> dict[str, Any]:
        """Take a photo of this size: noise, which is the hardest to make small."""
        code = """
          const canvas = new OffscreenCanvas(width, height);
          const context = canvas.getContext("2d");
          const dots = context.createImageData(width, height);
          for (let i = 0; i < dots.data.length; i += 1) dots.data[i] = i % 4 === 3 ? 255 : (i * 2654435761) % 251;
          context.putImageData(dots, 0, 0);
          const blob = await canvas.convertToBlob({type: "image/png"});
          return store.addPhoto(blob, {handover, step: null});"""
        taken: dict[str, Any] = self.does(code, "store", handover=handover, width=width, height=height)
        return taken

    def steps(self, handover: int) -> list[str]:
        """The steps of a handover, by the desk's word or as they are carried."""
        code = "const kit = (await sync.fetchKit(handover)).kit ?? await store.kit(handover); return kit.problem.steps.map(s => s.id);"
        found: list[str] = self.does(code, "store", "sync", handover=handover)
        return found

    def send_now(self) -> None:
        """Send without waiting for the next try."""
        self.does("await outbox.wake({hurry: true});", "outbox")

    def wait_until_sent(self) -> None:
        """Wait until nothing is owed."""
        self.wait_for(lambda: self.unsent()["events"] + self.unsent()["photos"] == 0)

    def wait_for(self, what: Callable[[], Any]) -> Any:
        """Look again and again until ``what`` gives something true; gives that."""
        ends = time.monotonic() + _WAIT_S
        while not (found := what()):
            assert time.monotonic() < ends, "waited in vain"
            self.page.wait_for_timeout(100)
        return found

    def wait_for_worker(self) -> None:
        """Wait until this page's requests go through the worker."""
        self.wait_for(lambda: self.page.evaluate("navigator.serviceWorker.controller !== null"))

    def line(self) -> str:
        """What the line of the unsent says."""
        return self.page.locator(".unsent").first.inner_text()


def cut_off(page: Page) -> None:
    """Take the network away, and go on only when it is gone: the browser says "done" before its network process has heard."""
    page.context.set_offline(True)
    ends = time.monotonic() + _WAIT_S
    while not page.evaluate(_REACHES_NOBODY):
        assert time.monotonic() < ends, "the network did not go away"
        page.wait_for_timeout(20)


def told_to_desk(desk: Desk, handover: int) -> list[dict[str, Any]]:
    """The events of devices that the desk has of a handover, as stored: id, number, what, by."""
    code = f"""
import json
from firstpitch.desk.models import Event
rows = Event.objects.filter(handover={handover}).exclude(device="").order_by("device", "number").select_related("by")
print(json.dumps([dict(id=str(e.id), number=e.number, what=e.what, by=e.by.username, device=e.device, data=e.data) for e in rows]))"""
    found: list[dict[str, Any]] = json.loads(desk.python(code))
    return found


def photos_at_desk(desk: Desk, handover: int) -> list[str]:
    """Ids of the photos the desk has of a handover."""
    code = f"""
import json
from firstpitch.desk.models import Media
print(json.dumps([str(m.id) for m in Media.objects.filter(handover={handover})]))"""
    found: list[str] = json.loads(desk.python(code))
    return found


@contextmanager
def own_browser(browser: Browser, desk: Desk, profile: Path, *, offline: bool = False) -> Iterator[BrowserContext]:
    """A browser program of its own on a profile that stays: closing and opening it again is a cold start."""
    context = browser.browser_type.launch_persistent_context(
        profile,
        executable_path=chromium(),
        args=["--no-sandbox"],
        base_url=desk.address,
        viewport={"width": 1180, "height": 820},
        locale="en-GB",
        timezone_id="Europe/London",
        has_touch=True,
    )
    context.set_offline(offline)
    try:
        yield context
    finally:
        with suppress(Error):  # it may have been killed
            context.close()


def kill_browser(profile: Path) -> None:
    """Kill the browser program that runs on this profile, as a flat battery would."""
    program = int(str((profile / "SingletonLock").readlink()).rpartition("-")[2])
    os.kill(program, signal.SIGKILL)


def sign_in(page: Page, desk: Desk, role: str = "specialist") -> None:
    """Sign in by the form; also back again on a page that asked for it."""
    if "/sign-in" not in page.url:
        page.goto(f"{desk.address}/sign-in/")
    page.get_by_label("Name", exact=True).fill(NAMES[role])
    page.get_by_label("Password", exact=True).fill(desk.password)
    page.get_by_role("button", name="Sign in").click()
    page.wait_for_url(lambda url: "/sign-in" not in url)
