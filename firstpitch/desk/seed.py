"""The demo: an invented dealership with people, vans and handovers."""

from __future__ import annotations

import secrets
from datetime import date, datetime, time, timedelta
from importlib.resources import files

from django.db import transaction
from django.utils import timezone

from firstpitch.demo import sheets
from firstpitch.desk.actions.film import keep_found
from firstpitch.desk.actions.handovers import add_handover
from firstpitch.desk.actions.outfit import keep_car, keep_load
from firstpitch.desk.actions.vans import add_van
from firstpitch.desk.models import Branch, Handover, Person, Role, Van
from firstpitch.desk.seed_film import demo_film

PEOPLE = (
    ("maud", "Maud", "Tarrant", Role.SPECIALIST),
    ("idris", "Idris", "Venn", Role.TECHNICIAN),
    ("sorrel", "Sorrel", "Quayle", Role.MANAGER),
)
OUTFITS = {"heron": ("tow-car", "heron-summer"), "plover": ("estate", "plover-family")}  # the third is left to fill in
FILMED = "wren"
OWNERS = ("Beatrix and Amos Lyle", "Tobias Fenwright", "The Oduya-Marsh family")


@transaction.atomic
def seed(today: date) -> str | None:
    """Fill an empty desk with the demo and give the password of its people; None when there is anything in it already."""
    if Branch.objects.exists():
        return None
    password = secrets.token_urlsafe(9)
    branch = Branch.objects.create(name="Larkrise Yard (demo)", telephone="(invented) 01632 960000")
    for username, first, last, role in PEOPLE:
        Person.objects.create_user(
            username, password=password, first_name=first, last_name=last, role=role, branch=branch
        )
    specialist = Person.objects.get(username="maud")
    for number, ((name, text), owner) in enumerate(zip(sheets().items(), OWNERS, strict=True)):
        van = add_van(by=specialist, sheet=text.read_text("utf-8"), stock_number=f"D{number + 101}", today=today)
        due = timezone.make_aware(datetime.combine(today + timedelta(days=number), time(10 + 2 * number, 0)))
        handover = add_handover(by=specialist, van=van, owner_name=owner, due=due, specialist=specialist)
        if name in OUTFITS:
            _outfit(specialist, handover, *OUTFITS[name], today)
        if name == FILMED:
            _film(specialist, van)
    return password


def _film(by: Person, van: Van) -> None:
    made = demo_film(van, by)
    if made:
        film, checked = made
        film.save()
        keep_found(by=by, film=film, made=checked)


def _outfit(by: Person, handover: Handover, car: str, load: str, today: date) -> None:
    demo = files("firstpitch.demo")
    keep_car(by=by, handover=handover, car=(demo / "cars" / f"{car}.yaml").read_text("utf-8"), today=today)
    keep_load(by=by, handover=handover, load=(demo / "loads" / f"{load}.yaml").read_text("utf-8"), today=today)


def count() -> tuple[int, int]:
    """How many vans and handovers the desk holds."""
    return Van.objects.count(), Handover.objects.count()
