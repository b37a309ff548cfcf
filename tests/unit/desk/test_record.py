"""The record of a handover: what it says, and that it stays as it was signed."""

from __future__ import annotations

import json
import uuid
from datetime import datetime, timedelta
from typing import Any

import pytest
from django.db import IntegrityError, transaction
from django.test import Client

from firstpitch.desk.actions.handovers import SignedError, change_handover, keep_plan
from firstpitch.desk.actions.live import take_events
from firstpitch.desk.actions.photos import add_photo
from firstpitch.desk.actions.records import Override, Signature, UnsignableError, sign_record
from firstpitch.desk.actions.snags import SnagError, raise_snag
from firstpitch.desk.inputs import problem_of
from firstpitch.desk.models import Event, Handover, Person, Van
from firstpitch.desk.record_data import digest_of, open_stops
from firstpitch.desk.record_rows import record_kept, record_now
from firstpitch.desk.uploads import UploadError
from tests.unit.desk.live import Device

DRAWN = Signature("Rowan Pell", "drawn", "M10 100L40 60L70 120L100 60L130 120L160 60L190 120L220 90")
TYPED = Signature("Rowan Pell", "typed")


@pytest.fixture
def tablet(own: Client, handover: Handover) -> Device:
    """A tablet of the specialist."""
    return Device(own, handover)


@pytest.fixture
def steps(handover: Handover) -> list[str]:
    """The ids of the van's steps, as the sheet has them."""
    return [step.id for step in problem_of(handover).steps]


@pytest.fixture
def shown(tablet: Device, steps: list[str], handover: Handover) -> Handover:
    """A handover of which one step was shown and tried, one shown only and one left out."""
    tablet.tell("step.begun", 0, step=steps[0])
    tablet.tell("step.done", 90, step=steps[0], tried=True)
    tablet.tell("step.begun", 100, step=steps[1])
    tablet.tell("step.done", 130, step=steps[1], tried=False)
    tablet.tell("step.left", 140, step=steps[2], reason="The owner knows it.")
    return handover


def sign(by: Person, handover: Handover, **more: Any) -> Handover:
    """Sign it as it is now."""
    given = {"seen": digest_of(record_now(handover)), "signature": DRAWN, "confirmed": True, **more}
    return sign_record(by=by, handover=handover, **given)


def test_record_tells_what_was_shown_and_tried(shown: Handover, steps: list[str], specialist: Person) -> None:
    """A record has each step that was shown with its real times and who showed it, and whether the owner tried it."""
    record = record_now(shown)
    rows = [(r["id"], r["took_s"], r["tried"], r["by"]) for r in record["shown"]]
    assert rows == [(steps[0], 90, True, specialist.shown_name), (steps[1], 30, False, specialist.shown_name)]
    length = datetime.fromisoformat(record["ended"]) - datetime.fromisoformat(record["began"])
    assert (record["took_s"], length) == (130, timedelta(seconds=130))
    assert record["people"] == [specialist.shown_name]


def test_record_tells_what_was_not_shown(shown: Handover, steps: list[str]) -> None:
    """What was left out stands there with its reason; everything else of the van that nobody spoke of stands there too."""
    record = record_now(shown)
    assert [(r["id"], r["reason"]) for r in record["left_out"]] == [(steps[2], "The owner knows it.")]
    assert {r["id"] for r in record["not_shown"]} == set(steps[3:])
    assert any(r["must"] for r in record["not_shown"])


def test_record_tells_planned_times(shown: Handover, steps: list[str], specialist: Person) -> None:
    """Beside the real length of a step stands the planned one, and what the plan left out has the plan's reason."""
    plan = {
        "total_s": 300,
        "bound_s": 280,
        "steps": [{"id": steps[0], "start_s": 20, "end_s": 80}],
        "left_out": [{"id": steps[3], "reason": "no time"}],
    }
    keep_plan(by=specialist, handover=shown, plan=plan, options={})
    record = record_now(Handover.objects.get(pk=shown.pk))
    assert (record["planned_s"], record["shown"][0]["planned_s"], record["shown"][0]["planned_at_s"]) == (300, 60, 20)
    assert record["shown"][1]["planned_s"] is None
    assert [(r["id"], r["by"]) for r in record["left_out"]] == [(steps[2], "ada"), (steps[3], "the plan")]


def test_record_tells_overrides_finds_notes_and_what_was_taken_back(
    tablet: Device, shown: Handover, steps: list[str]
) -> None:
    """An override is told with its harm and reason, a note in its words; what was taken back is counted and not told."""
    tablet.tell("guard.overridden", 150, step=steps[3], guard="g", harm="The pump runs dry.", reason="One second only.")
    tablet.tell("note", 160, words="Asked about the awning.", step=steps[0])
    gone = tablet.tell("note", 170, words="Meant for another van.")
    tablet.tell("undone", 180, event=gone["id"])
    record = record_now(shown)
    assert [(r["harm"], r["reason"]) for r in record["overridden"]] == [("The pump runs dry.", "One second only.")]
    assert [note["words"] for note in record["notes"]] == ["Asked about the awning."]
    assert record["taken_back"] == 1


def test_record_tells_snags_open_and_mended(tablet: Device, shown: Handover, specialist: Person, van: Van) -> None:
    """Snags of the day stand there, mended or not; an open one from before stands there too."""
    raise_snag(by=specialist, van=van, words="A blind sticks.", severity="note")
    key = str(uuid.uuid4())
    raised = {**tablet.event("snag.raised", 200, snag=key, words="A lamp is out.", severity="care"), "id": key}
    assert tablet.send(raised) == [("applied", "")]
    tablet.tell("snag.mended", 260, snag=key, words="New bulb.")
    rows = {s["words"]: (bool(s["mended"]), s["mended_words"]) for s in record_now(shown)["snags"]}
    assert rows == {"A blind sticks.": (False, ""), "A lamp is out.": (True, "New bulb.")}


def test_same_events_give_the_same_record(shown: Handover) -> None:
    """Read twice, the record is the same to the letter, and it survives being kept as JSON."""
    once, twice = record_now(shown), record_now(Handover.objects.get(pk=shown.pk))
    assert digest_of(once) == digest_of(twice) == digest_of(json.loads(json.dumps(once)))


@pytest.mark.parametrize("signature", [DRAWN, TYPED], ids=["drawn", "typed"])
def test_signing_freezes_the_record(shown: Handover, specialist: Person, signature: Signature) -> None:
    """Signing keeps record, digest and time together, with both names, and is told in the history."""
    signed = sign(specialist, shown, signature=signature)
    kept = Handover.objects.get(pk=signed.pk)
    assert kept.signed is not None
    assert kept.record is not None
    assert kept.record_digest == digest_of(kept.record)
    assert kept.record["owner_signature"] == {"name": "Rowan Pell", "how": signature.how, "path": signature.path}
    assert kept.record["confirmed_by"] == specialist.shown_name
    assert record_kept(kept) == kept.record
    assert Event.objects.get(what="record.signed").data["digest"] == kept.record_digest


def test_signed_once(shown: Handover, specialist: Person) -> None:
    """A signed record cannot be signed again and stays as it is."""
    before = sign(specialist, shown).record_digest
    with pytest.raises(SignedError, match="already"):
        sign(specialist, shown, signature=TYPED)
    assert Handover.objects.get(pk=shown.pk).record_digest == before


def test_what_was_not_read_is_not_signed(tablet: Device, shown: Handover, specialist: Person) -> None:
    """When something was added after the record was read, nothing is signed."""
    seen = digest_of(record_now(shown))
    tablet.tell("note", 300, words="Came in late.")
    with pytest.raises(UnsignableError, match="Read it again"):
        sign(specialist, shown, seen=seen)
    assert Handover.objects.get(pk=shown.pk).signed is None


def test_nothing_shown_nothing_signed(handover: Handover, specialist: Person) -> None:
    """A handover of which nothing was shown has nothing to sign."""
    with pytest.raises(UnsignableError, match="Nothing has been shown"):
        sign(specialist, handover)


WRONG: list[tuple[dict[str, Any], str]] = [
    ({"confirmed": False}, "confirmed"),
    ({"signature": Signature(" ", "typed")}, "name"),
    ({"signature": Signature("x" * 121, "typed")}, "name"),
    ({"signature": Signature("Rowan Pell", "drawn", "")}, "path"),
    ({"signature": Signature("Rowan Pell", "drawn", "M1 1L2 2")}, "path"),
    ({"signature": Signature("Rowan Pell", "drawn", "M1 1" + "L2 2" * 20 + '"/><script>')}, "path"),
    ({"signature": Signature("Rowan Pell", "drawn", "M1 1" + "L601 2" * 20)}, "path"),
    ({"signature": Signature("Rowan Pell", "drawn", "M1 1" + "L2 2" * 20_000)}, "path"),
]


@pytest.mark.parametrize(("more", "field"), WRONG)
def test_half_a_signature_signs_nothing(shown: Handover, specialist: Person, more: dict[str, Any], field: str) -> None:
    """Without a name, a line or confirmed name, and the specialist's word nothing is signed, and it is said what is missing."""
    with pytest.raises(UnsignableError) as found:
        sign(specialist, shown, **more)
    assert found.value.field == field
    assert Handover.objects.get(pk=shown.pk).signed is None


def test_open_stop_snag_stops_signing(shown: Handover, specialist: Person, van: Van) -> None:
    """With a snag to stop for still open nothing is signed, unless somebody is named who answers for it, with a reason."""
    raise_snag(by=specialist, van=van, words="The hitch does not lock.", severity="stop")
    for override in (None, Override("", "No time."), Override("Max Orme", " ")):
        with pytest.raises(UnsignableError, match="The hitch does not lock") as found:
            sign(specialist, shown, override=override)
        assert found.value.field == "override"
    assert len(open_stops(record_now(shown))) == 1
    record = sign(specialist, shown, override=Override("Max Orme", "Towed by our own lorry.")).record
    assert record is not None
    assert (record["let_go"]["name"], record["let_go"]["reason"]) == ("Max Orme", "Towed by our own lorry.")
    assert record["let_go"]["snags"] == ["The hitch does not lock."]


def test_manager_without_second_factor_lets_nothing_go(shown: Handover, manager: Person, van: Van) -> None:
    """A manager who signs in by password alone cannot let a van go with such a snag open."""
    raise_snag(by=manager, van=van, words="The hitch does not lock.", severity="stop")
    with pytest.raises(UnsignableError, match="second factor"):
        sign(manager, shown, override=Override("Max Orme", "Towed by our own lorry."))


def test_other_snags_do_not_stop_signing(shown: Handover, specialist: Person, van: Van) -> None:
    """A lesser snag is printed and does not stop anybody; nothing is said of an override."""
    raise_snag(by=specialist, van=van, words="A blind sticks.", severity="care")
    record = sign(specialist, shown, override=Override("Max Orme", "Why not.")).record
    assert record is not None
    assert record["let_go"] is None
    assert [snag["words"] for snag in record["snags"]] == ["A blind sticks."]


def test_after_signing_nothing_is_added(tablet: Device, shown: Handover, specialist: Person, van: Van) -> None:
    """After signing, events, plans, dates, photos and snags of this handover are refused; the van itself goes on."""
    signed = sign(specialist, shown)
    late = tablet.event("note", 900, words="Too late.")
    assert [a.answer for a in take_events(by=specialist, handover=signed, device="tablet-a", given=[late])] == [
        "refused"
    ]
    same: dict[str, Any] = {
        "owner_name": "Rowan Pell",
        "due": signed.due,
        "owner_contact": "new",
        "specialist": specialist,
    }
    with pytest.raises(SignedError):
        change_handover(by=specialist, handover=signed, **same)
    with pytest.raises(SignedError):
        keep_plan(by=specialist, handover=signed, plan={}, options={})
    with pytest.raises(UploadError, match="signed"):
        add_photo(by=specialist, van=van, data=b"", handover=signed)
    with pytest.raises(SnagError, match="signed"):
        raise_snag(by=specialist, van=van, words="A lamp is out.", severity="care", handover=signed)
    raise_snag(by=specialist, van=van, words="A lamp is out.", severity="care")
    kept = Handover.objects.get(pk=shown.pk)
    assert kept.record == signed.record
    assert kept.record_digest == digest_of(kept.record or {})


def test_database_keeps_time_record_and_digest_together(shown: Handover, specialist: Person) -> None:
    """Not even by hand can a signed record lose its time, its text or its digest alone."""
    signed = sign(specialist, shown)
    for hole in ({"signed": None}, {"record": None}, {"record_digest": ""}):
        with pytest.raises(IntegrityError), transaction.atomic():
            Handover.objects.filter(pk=signed.pk).update(**hole)
