"""What the outfit, stow and steadiness verbs share: reading car, load and stow beside the van."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Any

import click

from firstpitch.cli import van as shared

if TYPE_CHECKING:
    from firstpitch.outfit import Outfit

DAY = click.DateTime(["%Y-%m-%d"])


def open_outfit(
    sheet: str,
    catalogue: str | None,
    *,
    car: str | None = None,
    load: str | None = None,
    stow: str | None = None,
    **changes: Any,
) -> Outfit:
    """The outfit of these files. ``changes`` may set ``on``, ``country`` and ``towed_mass`` over what the car sheet says."""
    from dataclasses import replace

    from firstpitch.outfit import Journey, Load, Outfit, read_car, read_load, read_stow

    van = shared.open_van(sheet, catalogue)
    today = date.today()
    kinds = van.catalogue.kinds
    found = Outfit(van.sheet, kinds)
    if car is not None:
        read = read_car(car, today=today)
        found = replace(found, car=read.car, driver=read.driver, journey=read.journey)
    aboard = read_load(load, van.sheet, kinds, today=today) if load is not None else Load()
    there = read_stow(stow, aboard, van.sheet, today=today) if stow is not None else None
    on, country = changes.get("on"), changes.get("country")
    journey: Journey = replace(
        found.journey,
        on=on.date() if on is not None else found.journey.on,
        country=country.upper() if country is not None else found.journey.country,
    )
    return replace(found, load=aboard, stow=there, journey=journey, towed_mass=changes.get("towed_mass", "mtplm"))


def outfit_files(outfit: Outfit, stem: str) -> dict[str, bytes]:
    """The outfit and stow sheet, made today, as PDF and page by file name."""
    from firstpitch.papers import outfit_data, outfit_document, outfit_page

    data = outfit_data(outfit, made=date.today())
    return {f"{stem}-outfit.pdf": outfit_document(data), f"{stem}-outfit.html": outfit_page(data).encode()}


def echo_json(found: Any) -> None:
    """One JSON object on the output."""
    import json

    click.echo(json.dumps(found, ensure_ascii=False, indent=1, allow_nan=False))
