"""Today: who collects when, what each van waits for, what is late."""

from __future__ import annotations

import re
from datetime import date, datetime, time, timedelta
from typing import Any

import pytest
from django.test import Client
from django.utils import timezone

from firstpitch.demo import sheets
from firstpitch.desk.actions.handovers import SignedError, add_handover, change_handover, keep_plan
from firstpitch.desk.actions.snags import mend_snag, raise_snag
from firstpitch.desk.actions.vans import add_van
from firstpitch.desk.inputs import Lacks
from firstpitch.desk.models import Event, Handover, Person, Van
from firstpitch.desk.pages.today.dayline import dayline
from firstpitch.desk.snags import snags_of
from firstpitch.desk.waiting import waiting_for

TODAY = date(2026, 11, 25)
NONE = Lacks(0, (), 0)
PLAN = {"total_s": 3600, "bound_s": 3500, "steps": [{}]}


def at(day: int, hour: int) -> datetime:
    """So many days from today at an hour, in the desk's zone."""
    return timezone.make_aware(datetime.combine(timezone.localdate() + timedelta(days=day), time(hour)))


def page(client: Client) -> str:
    """Today as a browser gets it."""
    answer = client.get("/")
    assert answer.status_code == 200
    return str(answer.content.decode())


def test_ready(handover: Handover) -> None:
    """A handover with a planned round, a full sheet, no open snag and somebody to do it waits for nothing."""
    assert waiting_for(handover, NONE, [], timezone.now(), planned=True).ready


def test_waits_for_everything(handover: Handover, specialist: Person, van: Van) -> None:
    """Snags come first, then figures, then the round, then who does it; a stop snag says that the van does not go."""
    raise_snag(by=specialist, van=van, words="Step loose", severity="note")
    raise_snag(by=specialist, van=van, words="Gas smells", severity="stop")
    handover.specialist = None
    snags = snags_of(Event.objects.filter(van=van).select_related("by"))
    waiting = waiting_for(handover, Lacks(4, ("a", "b", "c"), 9), snags, timezone.now(), planned=False)
    assert [reason.words for reason in waiting.reasons] == [
        "1 snag to mend before it goes",
        "4 figures missing",
        "No round planned yet",
        "Nobody is down to hand it over",
    ]
    assert waiting.reasons[0].state == "cannot"
    assert waiting.reasons[0].more == "Gas smells"
    assert waiting.reasons[1].more == "a; b; c; …"


def test_mended_snag_is_waited_for_no_more(handover: Handover, specialist: Person, van: Van) -> None:
    """Once a snag is mended nothing waits for it."""
    raised = raise_snag(by=specialist, van=van, words="Step loose", severity="stop")
    mend_snag(by=specialist, van=van, snag=raised.pk)
    snags = snags_of(Event.objects.filter(van=van).select_related("by"))
    assert waiting_for(handover, NONE, snags, timezone.now(), planned=True).ready


@pytest.mark.parametrize(
    ("late", "words"), [(-60, ""), (600, "10 min late"), (7200, "2 h late"), (2 * 86400, "2 days late")]
)
def test_late(handover: Handover, late: int, words: str) -> None:
    """What is past its time and not signed is late, and says by how much."""
    now = handover.due + timedelta(seconds=late)
    assert waiting_for(handover, NONE, [], now, planned=True).late == words


def test_signed_is_over(handover: Handover) -> None:
    """A signed handover waits for nothing and is never late."""
    handover.signed = timezone.now()
    waiting = waiting_for(handover, Lacks(4, (), 0), [], handover.due + timedelta(days=2), planned=False)
    assert (waiting.reasons, waiting.late) == ((), "")


def test_page_tells(own: Client, handover: Handover, van: Van, specialist: Person) -> None:
    """The page names owner, van and what it waits for, and leads to the van."""
    raise_snag(by=specialist, van=van, words="The <step> is loose", severity="care")
    text = page(own)
    for words in (handover.owner_name, van.name, "No round planned yet", "1 snag open", "The &lt;step&gt; is loose"):
        assert words in text
    assert f'href="/vans/{van.pk}/"' in text


def test_page_without_plan_words_when_planned(own: Client, handover: Handover, specialist: Person) -> None:
    """Once its round is planned a handover is ready."""
    keep_plan(by=specialist, handover=handover, plan=PLAN, options={})
    text = page(own)
    assert "No round planned yet" not in text
    assert "Ready" in text


def test_page_keeps_late_ones(own: Client, van: Van, specialist: Person) -> None:
    """An unsigned handover of a day before stays on the page until it is signed."""
    add_handover(by=specialist, van=van, owner_name="Late Lodger", due=at(-3, 10), specialist=specialist)
    text = page(own)
    assert "Late from before" in text
    assert "days late" in text


def test_page_of_another_branch(far: Client, handover: Handover) -> None:
    """Another branch sees nothing of it."""
    text = page(far)
    assert handover.owner_name not in text
    assert "Nobody collects a van today." in text


def test_missing_figures_are_counted_when_the_sheet_changes(specialist: Person, own: Client) -> None:
    """What a sheet lacks is told on Today without reading the sheet again."""
    van = add_van(by=specialist, sheet=sheets()["plover"].read_text("utf-8"), today=TODAY)
    add_handover(by=specialist, van=van, owner_name="Rowan Pell", due=at(1, 10), specialist=specialist)
    assert van.lacks["must"] == 2
    assert "2 figures missing" in page(own)


def test_queries_do_not_grow(own: Client, specialist: Person, django_assert_num_queries: Any, van: Van) -> None:
    """Today asks the database the same number of times for one handover as for many."""
    raise_snag(by=specialist, van=van, words="Snag", severity="care")
    add_handover(by=specialist, van=van, owner_name="Owner", due=at(0, 12), specialist=specialist)
    own.get("/")
    with django_assert_num_queries(QUERIES):
        own.get("/")
    for number in range(12):
        raise_snag(by=specialist, van=van, words=f"Snag {number}", severity="care")
        add_handover(
            by=specialist, van=van, owner_name=f"Owner {number}", due=at(number % 3, 12), specialist=specialist
        )
    with django_assert_num_queries(QUERIES):
        own.get("/")


QUERIES = 4  # session, person, handovers, snags


def test_dayline_marks_in_order() -> None:
    """The line of the day has a mark for each handover at its hour, one above the other where they meet, and now."""
    now = at(0, 13)
    line = dayline(timezone.localdate(), [(at(0, 10), ""), (at(0, 10), "late"), (at(0, 16), "done")], now)
    assert line is not None
    first, second, third = line.marks
    assert first.x == second.x < third.x
    assert (first.storey, second.storey, third.storey) == (0, 1, 0)
    assert line.now is not None
    assert first.x < line.now < third.x
    assert dayline(timezone.localdate(), [], now) is None


def test_dayline_long_day() -> None:
    """A handover before eight or after six still stands on the line."""
    line = dayline(timezone.localdate(), [(at(0, 6), ""), (at(0, 21), "")], at(1, 9))
    assert line is not None
    assert [hour for hour, _ in line.hours][:: len(line.hours) - 1] == ["6", "22"]
    assert all(0 <= mark.x <= 100 for mark in line.marks)
    assert line.now is None


def form(van: Van, **more: str) -> dict[str, str]:
    """A filled-in handover form."""
    return {
        "van": str(van.pk),
        "owner_name": "Rowan Pell",
        "due": "tomorrow 10:30",
        "owner_contact": "",
        "specialist": "",
        **more,
    }


def test_add_handover(own: Client, van: Van, specialist: Person) -> None:
    """A handover is put in the diary by a day as people say it, and the history tells who did it."""
    answer = own.post("/handovers/new/", form(van, specialist=str(specialist.pk)), follow=True)
    handover = Handover.objects.get()
    assert timezone.localtime(handover.due) == at(1, 10) + timedelta(minutes=30)
    assert handover.specialist == specialist
    assert re.search(r"Rowan Pell collects Wren on \w+ \d+ \w+ \d{4} at 10:30", answer.content.decode())
    event = Event.objects.get(what="handover.added")
    assert (event.by, event.handover) == (specialist, handover)


def test_add_handover_keeps_what_was_typed(own: Client, van: Van) -> None:
    """What is wrong is said beside its field, what was typed stays, and nothing is added."""
    answer = own.post("/handovers/new/", form(van, due="some day", owner_name=""))
    text = answer.content.decode()
    assert answer.status_code == 422
    assert "“some day” is not understood" in text
    assert "Write the owner&#x27;s name." in text
    assert 'value="some day"' in text
    assert not Handover.objects.exists()


def test_add_handover_finds_the_van(own: Client, van: Van, far: Client) -> None:
    """The van is found by name, stock or chassis number; vans of another branch are not there."""
    assert f"?van={van.pk}" in own.get("/handovers/new/?q=wre").content.decode()
    assert f"?van={van.pk}" in own.get(f"/handovers/new/?q={van.chassis_number[-6:]}").content.decode()
    assert "No van here is called" in own.get("/handovers/new/?q=zzz").content.decode()
    assert f"?van={van.pk}" not in far.get("/handovers/new/").content.decode()
    assert far.post("/handovers/new/", form(van)).status_code == 404


def test_specialist_of_another_branch_cannot_be_chosen(own: Client, van: Van, stranger: Person) -> None:
    """Only people of the branch can be down to hand a van over."""
    assert own.post("/handovers/new/", form(van, specialist=str(stranger.pk))).status_code == 422


def test_change_handover(own: Client, handover: Handover, specialist: Person) -> None:
    """Who, when and by whom can be changed; the history keeps what was before."""
    path = f"/handovers/{handover.pk}/change/"
    assert handover.owner_name in own.get(path).content.decode()
    own.post(path, form(handover.van, owner_name="Rowan Pell-Astin"))
    handover.refresh_from_db()
    assert (handover.owner_name, handover.specialist) == ("Rowan Pell-Astin", None)
    event = Event.objects.get(what="handover.changed")
    assert event.data["before"]["owner"] == "Rowan Pell"
    assert event.data["before"]["specialist"] == specialist.pk


def test_signed_handover_stays(handover: Handover, specialist: Person) -> None:
    """A handover whose record is signed is changed no more."""
    Handover.objects.filter(pk=handover.pk).update(signed=timezone.now(), record={}, record_digest="x")
    with pytest.raises(SignedError):
        change_handover(
            by=specialist, handover=handover, owner_name="x", due=handover.due, owner_contact="", specialist=None
        )
