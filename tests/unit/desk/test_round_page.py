"""Planning a round: at once, better in peace, wishes and what they cost, print."""

from __future__ import annotations

import json
import time
from typing import Any

import pytest
from django.core.cache import caches
from django.test import Client
from django.utils import timezone

from firstpitch.desk.actions.handovers import keep_plan
from firstpitch.desk.actions.vans import edit_sheet
from firstpitch.desk.inputs import problem_of
from firstpitch.desk.kit_mark import mark_of
from firstpitch.desk.models import Event, Handover, Person
from firstpitch.desk.pages.round.forms import PlanForm
from firstpitch.desk.planning import at_once, kept_round, price, to_keep
from firstpitch.rounds import Plan, replay
from tests.unit.desk.conftest import TODAY

FORM = {"minutes": "", "mode": "handover", "start": "from-store", "water": "drained"}


def plan(client: Client, handover: Handover, **form: str) -> Any:
    """Press "Plan the round"."""
    return client.post(f"/round/{handover.pk}/plan/", {**FORM, **form})


@pytest.fixture
def planned(own: Client, handover: Handover) -> Handover:
    """The handover with a round."""
    assert plan(own, handover).status_code == 302
    handover.refresh_from_db()
    return handover


def test_first_answer_is_sound_and_quick(own: Client, handover: Handover) -> None:
    """One press gives a round that keeps every rule, with the musts, kept with its options; the second press takes about a second."""
    plan(own, handover)
    began = time.perf_counter()
    answer = plan(own, handover, water="kept")
    took = time.perf_counter() - began
    assert answer.headers["Location"] == f"/round/{handover.pk}/?look=better"
    handover.refresh_from_db()
    kept = kept_round(handover)
    assert kept is not None
    assert kept.sound
    assert replay(kept.problem, kept.plan.steps) == ()
    assert handover.options["water"] == "kept"
    assert took < 3.0
    assert Event.objects.filter(what="round.planned").count() == 2


def test_what_tablets_fetch_is_made_with_the_round(planned: Handover) -> None:
    """Once a round is kept, all that a tablet fetches for it lies ready, so that nobody waits for it in the yard."""
    found = Handover.objects.select_related("van__branch").get(pk=planned.pk)
    ready = caches["kits"].get(mark_of(found))
    assert ready is not None
    assert json.loads(ready[0] + b"}")["plan"]["total"] == planned.plan["total_s"]


def test_page_shows_the_round(own: Client, planned: Handover) -> None:
    """The page shows each step once with its time, the round in time, the walk by parts, and the proof of how good it is."""
    page = own.get(f"/round/{planned.pk}/").content.decode()
    assert page.count("data-step>") == len(planned.plan["steps"]) + len(planned.plan["left_out"])
    assert "The round of" in page
    assert "No order is quicker than" in page
    assert page.count('class="fp-walk"') >= 4


@pytest.mark.parametrize(
    ("text", "minutes"),
    [("90", 90), ("90 min", 90), ("1 h 30", 90), ("2h", 120), ("1 hour 15 minutes", 75), ("", None), (" 45 ", 45)],
)
def test_minutes_as_people_write_them(text: str, minutes: int | None) -> None:
    """Minutes are read as people write them; nothing is no limit."""
    form = PlanForm({**FORM, "minutes": text})
    assert form.is_valid(), form.errors
    assert form.cleaned_data["minutes"] == minutes


@pytest.mark.parametrize("text", ["soon", "2", "1 h 75 x", "99 h"])
def test_minutes_that_are_none(own: Client, handover: Handover, text: str) -> None:
    """What is no length of time is said beside the field, and what was typed stays."""
    answer = plan(own, handover, minutes=text)
    assert answer.status_code == 422
    assert f'value="{text}"' in answer.content.decode()
    handover.refresh_from_db()
    assert handover.plan is None


def test_too_few_minutes_are_explained(own: Client, planned: Handover) -> None:
    """Where the musts do not fit, the page says what they take, keeps the old round and what was typed."""
    answer = plan(own, planned, minutes="30")
    page = answer.content.decode()
    assert answer.status_code == 422
    assert "The musts alone take" in page
    assert 'value="30"' in page
    before = planned.plan
    planned.refresh_from_db()
    assert planned.plan == before


def test_fewer_minutes_leave_out_and_say_why(own: Client, handover: Handover) -> None:
    """A round within 75 minutes ends in time and lists what it leaves out."""
    assert plan(own, handover, minutes="75").status_code == 302
    handover.refresh_from_db()
    assert handover.plan["total_s"] <= 75 * 60
    assert handover.plan["left_out"]
    assert "Left out" in own.get(f"/round/{handover.pk}/").content.decode()


def test_better_order_is_looked_for_and_kept(own: Client, planned: Handover) -> None:
    """Looking in peace tells its progress line by line, and the kept round is at least as good afterwards."""
    before = planned.plan
    answer = own.post(f"/round/{planned.pk}/better/")
    text = b"".join(answer.streaming_content).decode()  # type: ignore[attr-defined]
    lines = [json.loads(line) for line in text.splitlines()]
    assert len(lines) > 1
    assert lines[-1]["over"] is True
    assert all(line["total"] >= line["bound"] for line in lines[:-1] if line["total"] and line["bound"])
    planned.refresh_from_db()
    assert planned.plan["total_s"] <= before["total_s"]
    assert planned.plan["bound_s"] >= before["bound_s"]
    kept = kept_round(planned)
    assert kept is not None
    assert kept.sound


def test_better_order_does_not_write_over_a_newer_plan(own: Client, planned: Handover, specialist: Person) -> None:
    """When somebody plans anew while a better order is looked for, theirs stays."""
    answer = own.post(f"/round/{planned.pk}/better/")
    options = {"mode": "handover", "water": "kept"}
    newer = at_once(planned, options)
    assert isinstance(newer, Plan)
    kept = to_keep(planned, options, newer)
    stream = iter(answer.streaming_content)  # type: ignore[attr-defined]
    next(stream)
    keep_plan(by=specialist, handover=planned, plan=kept, options=options)
    list(stream)
    planned.refresh_from_db()
    assert planned.options == options
    assert planned.plan["total_s"] == kept["total_s"]


def wish(client: Client, handover: Handover, step: str, asked: str, **more: str) -> Any:
    """Wish something for a step."""
    return client.post(f"/round/{handover.pk}/wish/", {"step": step, "wish": asked, **more})


def test_wishes_are_kept_with_the_round(own: Client, planned: Handover) -> None:
    """A step wished first comes first; wished last it comes after all that can come before; as it comes takes the wish away."""
    wish(own, planned, "handbrake.show", "first")
    planned.refresh_from_db()
    assert [s["id"] for s in planned.plan["steps"]].index("handbrake.show") <= 1
    wish(own, planned, "handbrake.show", "last")
    planned.refresh_from_db()
    assert planned.options["first"] == []
    assert [s["id"] for s in planned.plan["steps"]].index("handbrake.show") > 60
    wish(own, planned, "handbrake.show", "")
    planned.refresh_from_db()
    assert not any(planned.options[name] for name in ("first", "last", "without"))


def test_wishes_outlive_planning_anew(own: Client, planned: Handover) -> None:
    """Other minutes keep the wishes."""
    wish(own, planned, "awning-rail.show", "without")
    plan(own, planned, minutes="120")
    planned.refresh_from_db()
    assert planned.options["without"] == ["awning-rail.show"]
    assert "awning-rail.show" not in [s["id"] for s in planned.plan["steps"]]


def test_price_of_a_wish_writes_nothing(own: Client, planned: Handover) -> None:
    """What a wish costs is said in a sentence within about a second, and nothing is kept."""
    began = time.perf_counter()
    answer = wish(own, planned, "mains-inlet.unplug", "first", only="price").json()
    took = time.perf_counter() - began
    assert "later" in answer["words"]
    assert took < 3.0
    before = planned.plan
    planned.refresh_from_db()
    assert planned.plan == before


def test_leaving_out_a_must_is_explained(own: Client, planned: Handover) -> None:
    """A must cannot be left out: the price says so, and the page keeps the round from before."""
    price_ = wish(own, planned, "co-alarm.test", "without", only="price").json()
    assert any("is a must" in fact for fact in price_["facts"])
    answer = wish(own, planned, "co-alarm.test", "without")
    assert answer.status_code == 422
    assert "that cannot be" in answer.content.decode()
    planned.refresh_from_db()
    assert not planned.options.get("without")


def test_price_is_the_difference_of_the_two_rounds(planned: Handover) -> None:
    """The price in words agrees with the lengths of the two rounds planned at once."""
    before, after = dict(planned.options), {**planned.options, "without": ["shower.show"]}
    old, new = at_once(planned, before), at_once(planned, after)
    assert isinstance(old, Plan)
    assert isinstance(new, Plan)
    said = price(planned, before, after).words
    assert ("earlier" in said) == (new.total < old.total)
    assert "step" in said


def test_step_says_why_it_stands_there(own: Client, planned: Handover) -> None:
    """A step's panel holds its words and why it stands where it stands; a step the van does not have is not found."""
    panel = own.get(f"/round/{planned.pk}/step/hob.light/?part=panel").content.decode()
    assert "Why it stands there" in panel
    assert "<html" not in panel
    assert "<html" in own.get(f"/round/{planned.pk}/step/hob.light/").content.decode()
    assert own.get(f"/round/{planned.pk}/step/no.such/").status_code == 404


def test_changed_sheet_makes_the_round_stale(own: Client, planned: Handover, specialist: Person) -> None:
    """When the van's sheet changes so that the kept round no longer holds, the page says to plan it again."""
    text = planned.van.sheet
    start = text.index("  - id: fire-blanket")
    end = text.index("  - id:", start + 5) if "  - id:" in text[start + 5 :] else len(text)
    edit_sheet(by=specialist, van=planned.van, edit=lambda _: text[:start] + text[end:], today=TODAY)
    page = own.get(f"/round/{planned.pk}/").content.decode()
    assert "has changed since this was planned" in page


def test_print_is_a_pdf(own: Client, handover: Handover) -> None:
    """The printed round is a PDF; without a round the page says to plan it first."""
    assert own.get(f"/round/{handover.pk}/round.pdf").status_code == 302
    plan(own, handover)
    answer = own.get(f"/round/{handover.pk}/round.pdf")
    assert answer.headers["Content-Type"] == "application/pdf"
    assert answer.content.startswith(b"%PDF")


def test_signed_handover_is_not_planned_anew(own: Client, planned: Handover) -> None:
    """Once the record is signed the round stays as it was, and the page offers no planning."""
    Handover.objects.filter(pk=planned.pk).update(signed=timezone.now(), record={}, record_digest="x")
    before = planned.plan
    assert plan(own, planned, water="kept").status_code == 302
    planned.refresh_from_db()
    assert planned.plan == before
    assert "Plan it differently" not in own.get(f"/round/{planned.pk}/").content.decode()


@pytest.mark.parametrize("path", ["", "plan/", "better/", "wish/", "step/hob.light/", "round.pdf"])
def test_another_branch_and_nobody(far: Client, handover: Handover, path: str) -> None:
    """Another branch finds nothing, nobody is asked to sign in."""
    address = f"/round/{handover.pk}/{path}"
    for method in ("get", "post"):
        assert getattr(far, method)(address).status_code in (404, 405)
        answer = getattr(Client(), method)(address)
        assert answer.status_code == 405 or "/sign-in/" in answer.headers["Location"]


def test_kept_round_needs_no_wishes(planned: Handover, own: Client) -> None:
    """The kept round is a round of the van itself: the conditions of wishes are not in it."""
    wish(own, planned, "handbrake.show", "first")
    planned.refresh_from_db()
    assert "wish." not in json.dumps(planned.plan)
    kept = kept_round(planned)
    assert kept is not None
    assert replay(problem_of(planned), kept.plan.steps) == ()
