"""The van's page: drawing, panel, figures filled in, snags, photos, history."""

from __future__ import annotations

import io
import re
import uuid
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from django.utils import timezone
from PIL import Image

from firstpitch.demo import sheets
from firstpitch.desk.actions.figures import FieldFaults, fill_in
from firstpitch.desk.actions.history import write
from firstpitch.desk.actions.snags import SnagError, mend_snag, raise_snag
from firstpitch.desk.actions.vans import ChangedMeanwhileError, add_van, change_sheet
from firstpitch.desk.inputs import open_van
from firstpitch.desk.models import Event, Media, Person, SheetBefore, Van
from firstpitch.desk.snags import snags_of
from firstpitch.papers.drawing import VIEWS
from firstpitch.sheet import SheetError
from tests.unit.desk.conftest import TODAY

HOSE = "kit.gas-regulator.facts.hose_date"
BED = "plan.lockers.under-bed-rear.limit"


@pytest.fixture
def plover(specialist: Person) -> Van:
    """A van whose sheet lacks two figures that results wait for."""
    return add_van(by=specialist, sheet=sheets()["plover"].read_text("utf-8"), today=TODAY)


def text_of(client: Client, path: str) -> str:
    """A page as a browser gets it."""
    answer = client.get(path)
    assert answer.status_code == 200, path
    return str(answer.content.decode())


def photo(name: str = "a.jpg", form: str = "JPEG") -> SimpleUploadedFile:
    """A picture as a camera sends it, with a note of where it was taken."""
    out = io.BytesIO()
    exif = Image.Exif()
    exif[0x010E] = "taken at home"
    Image.new("RGB", (900, 600), "white").save(out, form, exif=exif)
    return SimpleUploadedFile(name, out.getvalue(), "image/jpeg")


def test_every_kit_is_on_the_drawing_and_in_the_list(own: Client, plover: Van) -> None:
    """Each kit has one mark on the plan and one line in the list, and both lead to it."""
    text = text_of(own, f"/vans/{plover.pk}/")
    for kit in open_van(plover).sheet.kit:
        assert text.count(f'href="/vans/{plover.pk}/kit/{kit.id}/"') >= 2, kit.id


def test_every_view_of_every_kit_opens(own: Client, plover: Van) -> None:
    """The van opens seen from each side, and every kit with its panel."""
    for view in VIEWS:
        assert f'class="drawing{"" if view in ("front", "rear") else " wide"} {view}"' in text_of(
            own, f"/vans/{plover.pk}/?view={view}"
        )
    for kit in open_van(plover).sheet.kit:
        text = text_of(own, f"/vans/{plover.pk}/kit/{kit.id}/?part=panel")
        assert kit.name in text
        assert "<html" not in text


def test_panel_tells_figures_cautions_and_what_belongs(own: Client, plover: Van) -> None:
    """A kit's panel has its figures as written, its cautions with their signs, and the kit it goes with."""
    text = text_of(own, f"/vans/{plover.pk}/kit/gas-regulator/")
    assert "30 mbar" in text
    assert "Never look for a leak with a flame." in text
    assert 'class="fp-sign-stop"' in text
    assert f'href="/vans/{plover.pk}/kit/cylinder-valve/"' in text
    assert "Leak-finding fluid" in text


def test_missing_figure_is_hatched_and_asked_for(own: Client, plover: Van) -> None:
    """What nobody knows is marked as missing on the drawing and in the list, and has a field."""
    text = text_of(own, f"/vans/{plover.pk}/")
    assert "Gas regulator and hose, a figure is missing" in text
    assert '<span class="unknown"><span>1 missing</span></span>' in text
    assert f'name="value:{BED}"' in text
    assert f'name="value:{HOSE}"' in text_of(own, f"/vans/{plover.pk}/kit/gas-regulator/")


def test_filling_in_changes_one_line(own: Client, plover: Van, specialist: Person) -> None:
    """A figure filled in adds one line to the sheet, leaves every other one, and the history tells who, when and what."""
    before = plover.sheet
    answer = own.post(f"/vans/{plover.pk}/figures/", {"from": "gas-regulator", f"value:{HOSE}": "2026-02-03"})
    assert answer.headers["Location"] == f"/vans/{plover.pk}/kit/gas-regulator/#panel"
    plover.refresh_from_db()
    lines = [line for line in plover.sheet.splitlines() if line not in before.splitlines()]
    assert [line.strip() for line in lines] == ["hose_date: 2026-02-03"]
    assert (plover.version, plover.lacks["must"]) == (2, 1)
    event = Event.objects.get(what="van.sheet_changed")
    assert (event.by, event.data["kit"]) == (specialist, "gas-regulator")
    assert SheetBefore.objects.get(van=plover).text == before
    told = "Wrote 2026-02-03 for Gas regulator and hose: date on the gas hose"
    assert told in text_of(own, f"/vans/{plover.pk}/kit/gas-regulator/")


def test_plain_number_takes_the_unit_of_its_field(plover: Van, specialist: Person) -> None:
    """A number without a unit is read in the unit that stands in the field; another unit of the sort is kept as written."""
    fill_in(by=specialist, van=plover, values={BED: "25"}, today=TODAY)
    plover.refresh_from_db()
    assert "limit: 25 kg" in plover.sheet
    fill_in(by=specialist, van=plover, values={BED: "40 lb"}, today=TODAY)
    plover.refresh_from_db()
    assert "limit: 40 lb" in plover.sheet


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("heavy", "“heavy” is not a number with a unit"),
        ("25 litres", "which is not a unit of mass"),
        ("9000", "is too high"),
        ("unknown", "Write the figure, or leave the field empty."),
    ],
)
def test_wrong_figure_is_said_beside_its_field(own: Client, plover: Van, typed: str, words: str) -> None:
    """What is wrong with a figure is said beside its field, what was typed stays, and the sheet is as it was."""
    answer = own.post(f"/vans/{plover.pk}/figures/", {"from": "", f"value:{BED}": typed})
    text = answer.content.decode()
    assert answer.status_code == 422
    field = re.search(rf'<input[^>]*name="value:{re.escape(BED)}"[^>]*>', text)
    assert field
    assert typed in field[0]
    assert 'aria-invalid="true"' in field[0]
    assert words in text
    plover.refresh_from_db()
    assert plover.version == 1


def test_figures_that_do_not_go_together(own: Client, van: Van) -> None:
    """A figure that is right alone but wrong beside another is refused with the reason, and nothing is written."""
    answer = own.post(f"/vans/{van.pk}/figures/", {"from": "", "value:masses.mtplm": "300 kg"})
    assert answer.status_code == 422
    van.refresh_from_db()
    assert van.version == 1


def test_field_that_is_no_field(plover: Van, specialist: Person) -> None:
    """A field that the sheet does not have is refused in words."""
    with pytest.raises(FieldFaults, match="has no field"):
        fill_in(by=specialist, van=plover, values={"kit.nobody.facts.x": "1"}, today=TODAY)


def test_two_people_fill_in_at_once(plover: Van, specialist: Person, manager: Person) -> None:
    """Two figures filled in by two people who both opened the same page are both kept."""
    first, second = Van.objects.get(pk=plover.pk), Van.objects.get(pk=plover.pk)
    fill_in(by=specialist, van=first, values={BED: "25 kg"}, today=TODAY)
    fill_in(by=manager, van=second, values={HOSE: "2026-02-03"}, today=TODAY)
    plover.refresh_from_db()
    assert (plover.version, plover.lacks["must"]) == (3, 0)


def test_sheet_changed_meanwhile(own: Client, plover: Van, specialist: Person) -> None:
    """A whole sheet written over one that somebody changed meanwhile is not kept, and both texts are shown."""
    fill_in(by=specialist, van=plover, values={BED: "25 kg"}, today=TODAY)
    with pytest.raises(ChangedMeanwhileError):
        change_sheet(by=specialist, van=plover, sheet=plover.sheet + "\n# x\n", today=TODAY, seen_version=1)
    answer = own.post(f"/vans/{plover.pk}/sheet/", {"sheet": plover.sheet + "\n# mine\n", "version": "1"})
    text = answer.content.decode()
    assert answer.status_code == 409
    assert "# mine" in text
    assert "limit: 25 kg" in text


def test_sheet_with_faults_stays_as_typed(own: Client, van: Van) -> None:
    """A sheet with faults is shown with all of them and as it was typed; the van keeps the one it had."""
    wrong = van.sheet.replace("miro: 1020 kg", "miro: heavy").replace("berths: 2", "berths: many")
    answer = own.post(f"/vans/{van.pk}/sheet/", {"sheet": wrong, "version": "1"})
    text = answer.content.decode()
    assert answer.status_code == 422
    assert "2 things are wrong" in text
    assert "miro: heavy" in text
    van.refresh_from_db()
    assert "miro: 1020 kg" in van.sheet


def test_sheet_kept_tells_what_changed(own: Client, van: Van) -> None:
    """A changed sheet is kept, with the lines that went and came in the history, and why."""
    new = van.sheet.replace("miro: 1020 kg", "miro: 1024 kg")
    own.post(f"/vans/{van.pk}/sheet/", {"sheet": new, "version": "1", "why": "new plate"})
    event = Event.objects.get(what="van.sheet_changed")
    assert event.data["lines"] == ["- miro: 1020 kg", "+ miro: 1024 kg"]
    text = text_of(own, f"/vans/{van.pk}/history/")
    assert "Changed the build sheet: new plate" in text
    assert "+ miro: 1024 kg" in text


def test_same_sheet_writes_nothing(van: Van, specialist: Person) -> None:
    """Keeping a sheet as it is makes no new version and no history."""
    change_sheet(by=specialist, van=van, sheet=van.sheet, today=TODAY)
    assert not Event.objects.filter(what="van.sheet_changed").exists()


def test_chassis_number_stands_once(own: Client, van: Van, plover: Van) -> None:
    """A second van of the branch with a chassis number that is there already is refused and the first one named."""
    answer = own.post(f"/vans/{plover.pk}/figures/", {"value:van.chassis_number": van.chassis_number})
    assert answer.status_code == 422
    assert "Wren has the chassis number" in answer.content.decode()


def test_snag_is_raised_and_mended(own: Client, van: Van, specialist: Person) -> None:
    """A snag names its kit and how grave it is; mended it is not open any more; both stand in the history with their person."""
    own.post(f"/vans/{van.pk}/snags/", {"from": "shower", "words": "Tray cracked", "severity": "stop", "kit": "shower"})
    (snag,) = snags_of(Event.objects.filter(van=van).select_related("by"))
    assert (snag.words, snag.severity, snag.kit, snag.open, snag.by) == ("Tray cracked", "stop", "shower", True, "ada")
    assert "Tray cracked" in text_of(own, f"/vans/{van.pk}/kit/shower/?part=panel")
    own.post(f"/vans/{van.pk}/snags/{snag.id}/mended/", {"from": "shower"})
    (snag,) = snags_of(Event.objects.filter(van=van).select_related("by"))
    assert (snag.open, snag.mended_by) == (False, "ada")
    with pytest.raises(SnagError, match="mended already"):
        mend_snag(by=specialist, van=van, snag=snag.id)


def test_snag_of_another_van(van: Van, plover: Van, specialist: Person) -> None:
    """A snag is mended on its own van only."""
    raised = raise_snag(by=specialist, van=van, words="x", severity="care")
    with pytest.raises(SnagError, match="no such snag"):
        mend_snag(by=specialist, van=plover, snag=raised.pk)
    with pytest.raises(SnagError, match="no such snag"):
        mend_snag(by=specialist, van=van, snag=uuid.uuid4())


@pytest.mark.parametrize(
    ("sent", "words"),
    [({"words": ""}, "Say what is wrong."), ({"severity": ""}, "Say how grave it is."), ({"kit": "nobody"}, "nobody")],
)
def test_snag_with_something_missing(own: Client, van: Van, sent: dict[str, str], words: str) -> None:
    """A snag without words or weight, or of a kit the van has not, is not kept; what was typed stays."""
    good = {"from": "", "words": "Tray cracked", "severity": "stop", "kit": "shower"}
    answer = own.post(f"/vans/{van.pk}/snags/", {**good, **sent})
    assert answer.status_code == 422
    assert words in answer.content.decode()
    assert not Event.objects.filter(what="snag.raised").exists()


def test_snag_of_another_branch(far: Client, van: Van) -> None:
    """Nobody of another branch can raise a snag on this one's van."""
    sent = {"words": "x", "severity": "stop", "kit": ""}
    assert far.post(f"/vans/{van.pk}/snags/", sent).status_code == 404
    assert not Event.objects.filter(what="snag.raised").exists()


def test_photo_is_kept_without_what_the_camera_noted(own: Client, van: Van) -> None:
    """A photo is kept with the kit it shows, drawn anew without notes of place and time, and a small one for lists."""
    own.post(f"/vans/{van.pk}/photos/", {"from": "shower", "photo": photo(), "words": "Tray"})
    media = Media.objects.get()
    event = Event.objects.get(what="photo.added")
    assert (event.data["kit"], event.data["media"], event.data["words"]) == ("shower", str(media.pk), "Tray")
    whole, small = own.get(f"/photos/{media.pk}/"), own.get(f"/photos/{media.pk}/small/")
    picture = Image.open(io.BytesIO(whole.content))
    assert not picture.getexif()
    assert b"taken at home" not in whole.content
    assert max(Image.open(io.BytesIO(small.content)).size) == 480
    assert f"/photos/{media.pk}/small/" in text_of(own, f"/vans/{van.pk}/")


def test_photo_of_another_branch(own: Client, far: Client, van: Van) -> None:
    """A photo is not there for another branch nor for whoever is not signed in."""
    own.post(f"/vans/{van.pk}/photos/", {"from": "", "photo": photo(), "words": ""})
    path = f"/photos/{Media.objects.get().pk}/"
    assert far.get(path).status_code == 404
    assert Client().get(path).status_code == 302


@pytest.mark.parametrize("content", [b"", b"not a picture", b"<svg xmlns='http://www.w3.org/2000/svg'/>"])
def test_what_is_no_photo(own: Client, van: Van, content: bytes) -> None:
    """A file that is no photo by its content is refused in words, whatever it is called, and the page stays."""
    sent = SimpleUploadedFile("a.jpg", content, "image/jpeg")
    answer = own.post(f"/vans/{van.pk}/photos/", {"from": "", "photo": sent, "words": "My words"})
    assert answer.status_code == 422
    assert "My words" in answer.content.decode()
    assert not Media.objects.exists()


def test_snag_is_kept_though_its_photo_is_none(own: Client, van: Van) -> None:
    """A snag whose photo cannot be read is kept all the same, and that is said."""
    sent = {"words": "Loose", "severity": "care", "kit": "", "photo": SimpleUploadedFile("a.jpg", b"x")}
    text = own.post(f"/vans/{van.pk}/snags/", sent, follow=True).content.decode()
    assert "The snag is kept, its photo is not." in text
    assert Event.objects.filter(what="snag.raised").count() == 1


def test_history_tells_everything_and_pages(own: Client, van: Van, specialist: Person) -> None:
    """The history names who did what, a hundred lines at a time, latest first."""
    for number in range(105):
        raise_snag(by=specialist, van=van, words=f"Snag number {number}", severity="note")
    text = text_of(own, f"/vans/{van.pk}/history/")
    assert "Snag number 104" in text
    assert "Took the van in" not in text
    older = text_of(own, f"/vans/{van.pk}/history/?from=100")
    assert "Took the van in" in older
    assert "ada" in older


def test_words_of_people_are_never_markup(own: Client, van: Van, specialist: Person) -> None:
    """Whatever people type is shown as text."""
    raise_snag(by=specialist, van=van, words="<script>alert(1)</script>", severity="care", kit="shower")
    for path in (f"/vans/{van.pk}/", f"/vans/{van.pk}/kit/shower/", f"/vans/{van.pk}/history/", "/"):
        assert "<script>alert" not in text_of(own, path)


def test_kit_that_the_van_has_not(own: Client, van: Van) -> None:
    """A kit that is not on the van is not there."""
    assert own.get(f"/vans/{van.pk}/kit/nobody/").status_code == 404


def test_page_has_a_fixed_number_of_queries(
    own: Client, van: Van, specialist: Person, django_assert_num_queries: Any
) -> None:
    """The van's page asks the database the same number of times however much has happened, and is under 150 kB."""
    own.get(f"/vans/{van.pk}/kit/shower/")
    with django_assert_num_queries(QUERIES):
        own.get(f"/vans/{van.pk}/kit/shower/")
    for number in range(30):
        raise_snag(by=specialist, van=van, words=f"Snag number {number}", severity="note", kit="shower")
    with django_assert_num_queries(QUERIES):
        answer = own.get(f"/vans/{van.pk}/kit/shower/")
    assert len(answer.content) < 150_000


QUERIES = 9  # session, person, branch, van, own kinds, snags and photos, handovers, two histories


def test_sheet_that_kinds_left_behind(own: Client, van: Van) -> None:
    """A van whose sheet no longer fits the branch's kinds opens on its sheet, with what is wrong."""
    Van.objects.filter(pk=van.pk).update(sheet=van.sheet.replace("kind: hitch", "kind: gone"))
    answer = own.get(f"/vans/{van.pk}/", follow=True)
    text = answer.content.decode()
    assert answer.redirect_chain == [(f"/vans/{van.pk}/sheet/", 302)]
    assert "There is no kind “gone”" in text


def test_taking_a_van_in_twice(specialist: Person, van: Van) -> None:
    """The same sheet cannot be taken in twice."""
    with pytest.raises(SheetError, match="Wren has the chassis number"):
        add_van(by=specialist, sheet=van.sheet, today=timezone.localdate())


@pytest.mark.parametrize("path", ["history/", "sheet/"])
def test_history_and_sheet_open_whatever_the_kinds(own: Client, van: Van, path: str) -> None:
    """History and sheet of a van open even where its sheet no longer fits the branch's kinds."""
    Van.objects.filter(pk=van.pk).update(sheet=van.sheet.replace("kind: hitch", "kind: gone"))
    text_of(own, f"/vans/{van.pk}/{path}")


@pytest.mark.parametrize("form", ["figures/", "snags/", "photos/"])
def test_forms_answer_whatever_the_kinds(own: Client, van: Van, form: str) -> None:
    """No form of a van breaks where its sheet no longer fits the branch's kinds."""
    Van.objects.filter(pk=van.pk).update(sheet=van.sheet.replace("kind: hitch", "kind: gone"))
    sent = {"from": "shower", f"value:{BED}": "3 kg", "words": "x", "severity": "care", "kit": ""}
    assert own.post(f"/vans/{van.pk}/{form}", sent).status_code in (302, 422)


LIVE = {
    "step.done": ({"step": "shower.show", "tried": True}, "The owner tried"),
    "step.left": ({"step": "shower.show", "reason": "no water"}, "Left out"),
    "guard.overridden": (
        {"harm": "water freezes", "reason": "it is June"},
        "went on against a warning (water freezes): it is June",
    ),
    "note": ({"words": "likes tea"}, "Noted: likes tea"),
    "undone": ({"event": "x"}, "Took something back"),
    "something.new": ({}, "Something new"),
}


@pytest.mark.parametrize("what", list(LIVE))
def test_history_tells_what_happened_on_the_round(own: Client, van: Van, specialist: Person, what: str) -> None:
    """What tablets note on a round stands in the van's history in words, with the titles of steps; nothing is left untold."""
    data, words = LIVE[what]
    step = next(step.id for step in open_van(van).catalogue.kinds["shower"].steps)
    if "step" in data:
        data = {**data, "step": f"shower.{step}"}
    write(by=specialist, van=van, what=what, data=data)
    text = text_of(own, f"/vans/{van.pk}/history/")
    assert words.lower() in text.lower()
    if "step" in data:
        assert open_van(van).catalogue.kinds["shower"].steps[0].title in text
        assert words.lower() in text_of(own, f"/vans/{van.pk}/kit/shower/?part=panel").lower()


def test_snag_taken_back_is_none(van: Van, specialist: Person) -> None:
    """A snag that was taken back is no snag, and mending that was taken back leaves it open."""
    gone = raise_snag(by=specialist, van=van, words="Wrong van", severity="stop")
    stays = raise_snag(by=specialist, van=van, words="Loose", severity="care")
    mended = mend_snag(by=specialist, van=van, snag=stays.pk)
    for event in (gone, mended):
        write(by=specialist, van=van, what="undone", data={"event": str(event.pk)})
    (snag,) = snags_of(Event.objects.filter(van=van).select_related("by"))
    assert (snag.words, snag.open) == ("Loose", True)
