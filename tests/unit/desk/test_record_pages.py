"""The pages of a record: read, signed, kept."""

from __future__ import annotations

import html
import re

import pytest
from django.test import Client
from django.urls import reverse

from firstpitch.desk.actions.snags import raise_snag
from firstpitch.desk.actions.vans import edit_sheet
from firstpitch.desk.inputs import open_van, problem_of
from firstpitch.desk.models import Handover, Person, Van
from tests.unit.desk.conftest import TODAY
from tests.unit.desk.live import Device

PATH = "M10 100L40 60L70 120L100 60L130 120L160 60L190 120L220 90"


@pytest.fixture
def shown(own: Client, handover: Handover) -> Handover:
    """A handover of which one step was shown and tried."""
    step = problem_of(handover).steps[0].id
    Device(own, handover).tell("step.done", 90, step=step, tried=True)
    return handover


def seen(client: Client, handover: Handover) -> str:
    """The digest that stands in the form."""
    page = client.get(reverse("record", args=[handover.pk])).content.decode()
    found = re.search(r'name="seen" value="([0-9a-f]{64})"', page)
    assert found
    return found[1]


def sign(client: Client, handover: Handover, *, accept: str = "text/html", **more: str) -> tuple[int, str]:
    """Send the form with a drawn signature; status and text."""
    sent = {"name": "Rowan Pell", "path": PATH, "confirmed": "on", "seen": seen(client, handover), **more}
    answer = client.post(reverse("record-sign", args=[handover.pk]), sent, HTTP_ACCEPT=accept)
    return answer.status_code, answer.content.decode()


def test_record_page_shows_what_was_shown(own: Client, shown: Handover) -> None:
    """The page names the step that was shown and tried, says that it certifies nothing, and offers to sign."""
    page = own.get(reverse("record", args=[shown.pk])).content.decode()
    assert problem_of(shown).steps[0].kit_name in page
    assert "certifies nothing" in page
    assert "Sign the record" in page


def test_nothing_shown_nothing_to_sign(own: Client, handover: Handover) -> None:
    """Before anything was shown there is no form, and the page says why."""
    page = own.get(reverse("record", args=[handover.pk])).content.decode()
    assert "nothing to sign" in page
    assert "Sign the record" not in page


def test_signed_record_shows_both_and_offers_no_more(own: Client, shown: Handover) -> None:
    """After signing the page shows both signatures and has no form; the file is a PDF."""
    assert sign(own, shown)[0] == 302
    page = own.get(reverse("record", args=[shown.pk])).content.decode()
    assert PATH in page
    assert "Sign the record" not in page
    file = own.get(reverse("record-file", args=[shown.pk]))
    assert (file["Content-Type"], file.content[:5]) == ("application/pdf", b"%PDF-")


def test_typed_name_counts_before_a_line(own: Client, shown: Handover) -> None:
    """Somebody who cannot draw signs by the typed name and a tick."""
    assert sign(own, shown, typed="on", path="")[0] == 302
    record = Handover.objects.get(pk=shown.pk).record
    assert record is not None
    assert record["owner_signature"] == {"name": "Rowan Pell", "how": "typed", "path": ""}


@pytest.mark.parametrize("accept", ["text/html", "application/json"])
def test_what_is_missing_is_said_and_what_was_drawn_stays(own: Client, shown: Handover, accept: str) -> None:
    """A form that lacks the specialist's word comes back with a sentence; the page keeps the drawn line."""
    status, text = sign(own, shown, accept=accept, confirmed="")
    assert status == 422
    assert "Confirm that you showed" in text
    assert accept == "application/json" or f'name="path" value="{PATH}"' in text
    assert Handover.objects.get(pk=shown.pk).signed is None


def test_record_that_grew_is_read_again(own: Client, shown: Handover) -> None:
    """When something came in meanwhile the page comes back as it is now, and then it can be signed."""
    old = seen(own, shown)
    Device(own, shown, "tablet-b").tell("note", 300, words="Came in late.")
    status, text = sign(own, shown, seen=old)
    assert status == 422
    assert "Came in late." in text
    assert old not in text
    assert sign(own, shown)[0] == 302


def test_open_stop_snag_asks_who_answers(own: Client, shown: Handover, specialist: Person, van: Van) -> None:
    """With a snag to stop for open, the page asks who answers and why; both stand on the signed page."""
    raise_snag(by=specialist, van=van, words="The hitch does not lock.", severity="stop")
    status, text = sign(own, shown)
    assert status == 422
    assert "Who answers for that" in text
    assert sign(own, shown, override_name="Max Orme", override_reason="Our own lorry.")[0] == 302
    page = own.get(reverse("record", args=[shown.pk])).content.decode()
    assert "Max Orme" in page
    assert "Our own lorry." in page


def test_changed_record_is_called_so(own: Client, shown: Handover) -> None:
    """When what is kept no longer fits its digest, the page says so."""
    sign(own, shown)
    kept = Handover.objects.get(pk=shown.pk)
    Handover.objects.filter(pk=shown.pk).update(record={**(kept.record or {}), "owner": "Somebody Else"})
    assert "not as it was signed" in own.get(reverse("record", args=[shown.pk])).content.decode()


def test_record_of_another_branch_is_not_there(far: Client, shown: Handover) -> None:
    """Nobody of another branch reads, signs or fetches it; nobody at all without signing in."""
    for name in ("record", "record-file"):
        assert far.get(reverse(name, args=[shown.pk])).status_code == 404
        assert Client().get(reverse(name, args=[shown.pk])).status_code == 302
    assert far.post(reverse("record-sign", args=[shown.pk])).status_code == 404


def struck(own: Client, handover: Handover) -> dict[str, str]:
    """Each kit on the drawing of a record, with how it is struck."""
    page = own.get(reverse("record", args=[handover.pk])).content.decode()
    labels = re.findall(r"<title>(?:\d+) ([^<]+?)(, not shown|, not all shown)?</title>", page)
    return {html.unescape(name): how for name, how in labels}


def test_drawing_strikes_through_what_was_not_shown(own: Client, handover: Handover) -> None:
    """On the record's drawing a kit is struck through where nothing of it was shown, half where something was left out, else not."""
    steps = problem_of(handover).steps
    pinned = {kit.id for kit in open_van(handover.van).sheet.kit}
    several = [s for s in steps if sum(other.kit == s.kit for other in steps) > 1]
    part = next(s for s in several if s.kit in pinned)
    other = next(s for s in several if s.kit in pinned and s.kit != part.kit)
    tablet = Device(own, handover)
    tablet.tell("step.done", 90, step=part.id, tried=False)
    for second, step in enumerate(s for s in steps if s.kit == other.kit):
        tablet.tell("step.done", 100 + second, step=step.id, tried=False)
    found = struck(own, handover)
    assert found[part.kit_name] == ", not all shown"
    assert found[other.kit_name] == ""
    assert ", not shown" in found.values()


def test_drawing_is_of_the_sheet_that_was_handed_over(
    own: Client, shown: Handover, specialist: Person, van: Van
) -> None:
    """A kit renamed after the signing keeps its old name on the drawing of the signed record."""
    assert sign(own, shown)[0] == 302
    before = struck(own, shown)
    edit_sheet(
        by=specialist, van=van, edit=lambda text: text.replace("Front offside steady", "Other steady"), today=TODAY
    )
    assert "Front offside steady" in before
    assert struck(own, Handover.objects.get(pk=shown.pk)) == before
