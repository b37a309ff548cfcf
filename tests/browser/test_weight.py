"""How much comes over the line for a page, measured by the browser itself: bytes as sent, headers among them."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import Page

FIRST, AFTER = 150_000, 30_000
PATHS = {
    "today": "/",
    "vans": "/vans/",
    "van": "/vans/1/",
    "handover": "/handovers/1/",
    "outfit": "/outfit/1/",
    "round": "/round/1/",
    "live": "/live/1/",
    "record": "/handovers/1/record/",
    "catalogue": "/catalogue/",
    "questions": "/questions/",
}


def bytes_of(page: Page, path: str) -> int:
    """Open a page and add up what came."""
    line = page.context.new_cdp_session(page)
    line.send("Network.enable")
    came: list[float] = []
    line.on("Network.loadingFinished", lambda said: came.append(said["encodedDataLength"]))
    page.goto(path, wait_until="networkidle")
    line.detach()
    return int(sum(came))


@pytest.mark.parametrize("name", PATHS)
def test_weight(open_page: Callable[..., Page], name: str, record_property: Callable[[str, Any], None]) -> None:
    """A page weighs no more than 150 kB for a tablet that has nothing of the desk yet, and no more than 30 kB for one that was there."""
    signed_in = open_page("specialist", offline_app=False)
    fresh = signed_in.context.browser
    assert fresh is not None
    context = fresh.new_context(
        base_url=signed_in.url.rsplit("/", 1)[0],
        storage_state=signed_in.context.storage_state(),
        service_workers="block",
        viewport={"width": 1180, "height": 820},
    )
    page = context.new_page()
    first, after = bytes_of(page, PATHS[name]), bytes_of(page, PATHS[name])
    context.close()
    record_property("bytes", (first, after))
    print(f"{name}: {first} bytes at first, {after} after")
    assert first <= FIRST
    assert after <= AFTER
    assert 0 < after < first
