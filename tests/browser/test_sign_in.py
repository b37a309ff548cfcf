"""Signing in with a real browser."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import Look, OpenPage


@pytest.mark.parametrize("role", ["specialist", "technician", "manager"])
def test_each_role_signs_in(open_page: OpenPage, role: str) -> None:
    """Each of the three people of the demo signs in with name and password and comes to today."""
    expect(open_page(role).get_by_role("heading", level=1)).to_be_visible()


def test_sign_in_page_fits_every_size(nobody_page: Page, look: Look) -> None:
    """The sign-in page fits the three sizes without sliding sideways."""
    nobody_page.goto("/sign-in/")
    look(nobody_page, "sign-in")
