"""A page that holds the desk's pure modules and nothing else, so that their sums and rules are tried in a real browser."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from playwright.sync_api import Browser, Page, Route

from firstpitch import desk

STATIC = Path(desk.__file__).parent / "static" / "desk"
HERE = "http://modules.test"


@contextmanager
def modules_alone(browser: Browser) -> Iterator[Page]:
    """An empty page whose address serves the desk's modules by their paths below ``static/desk``."""
    page = browser.new_page()

    def serve(route: Route) -> None:
        path = STATIC / route.request.url.removeprefix(f"{HERE}/")
        if path.suffix == ".js":
            route.fulfill(body=path.read_text("utf-8"), content_type="text/javascript")
        else:
            route.fulfill(body="<!doctype html><title>modules</title>", content_type="text/html")

    page.route(f"{HERE}/**", serve)
    page.goto(f"{HERE}/")
    yield page
    page.close()
