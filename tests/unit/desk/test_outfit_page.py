"""The outfit of a handover: car and load written down, things moved, verdicts, and what is refused."""

from __future__ import annotations

import json
from importlib.resources import files
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from django.utils import timezone

from firstpitch.desk.actions.outfit import keep_car, keep_load, keep_stow
from firstpitch.desk.models import Branch, Event, Handover, Person, Role, Van
from firstpitch.desk.outfits import Kept, Stowed, kept_outfit, read_car
from firstpitch.desk.told import told
from firstpitch.outfit import Placed, check_outfit
from tests.unit.desk.conftest import PASSWORD, TODAY

DEMO = files("firstpitch.demo")
CAR = (DEMO / "cars" / "estate.yaml").read_text("utf-8")
LOAD = (DEMO / "loads" / "wren-weekend.yaml").read_text("utf-8")
FORM = {"value:car.name": "Grey estate", "value:car.kerb_mass": "1,690"}


@pytest.fixture
def filled(handover: Handover, specialist: Person) -> Handover:
    """The handover with the demo's car and load, nothing stowed."""
    keep_car(by=specialist, handover=handover, car=CAR, today=TODAY)
    keep_load(by=specialist, handover=handover, load=LOAD, today=TODAY)
    handover.refresh_from_db()
    return handover


@pytest.fixture
def stowed(filled: Handover, own: Client) -> Handover:
    """The same with everything stowed as planned."""
    own.post(f"/outfit/{filled.pk}/best/")
    filled.refresh_from_db()
    return filled


def sign(handover: Handover) -> None:
    """Freeze the handover as a signed record does."""
    Handover.objects.filter(pk=handover.pk).update(signed=timezone.now(), record={"x": 1}, record_digest="0" * 64)


def send(client: Client, handover: Handover, stow: Any, **more: Any) -> Any:
    """What the page sends after a move."""
    body = {"stow": stow, "seen": kept(handover).mark, **more}
    return client.post(
        f"/outfit/{handover.pk}/stow/",
        json.dumps(body),
        content_type="application/json",
        HTTP_ACCEPT="application/json",
    )


def kept(handover: Handover) -> Kept:
    """The outfit as it is kept now."""
    return kept_outfit(Handover.objects.select_related("van__branch").get(pk=handover.pk))


def page(client: Client, handover: Handover) -> str:
    """The page as text."""
    answer = client.get(f"/outfit/{handover.pk}/")
    assert answer.status_code == 200
    return answer.content.decode()


def moved(now: Stowed, item: str, to: str) -> dict[str, Any]:
    """The stow with all of one item in one place."""
    found = now.stored()
    found["placed"] = [row for row in found["placed"] if row[0] != item] + [[item, to, 1]]
    return found


# The car


def test_car_by_form(own: Client, handover: Handover) -> None:
    """A car is written down by the form; a plain number takes the unit beside its field; the history tells who did it."""
    form = {**FORM, "value:car.kerb_mass": "1690", "value:car.wheelbase": "278 cm", "value:journey.country": "gb"}
    assert own.post(f"/outfit/{handover.pk}/car/", form).status_code == 302
    handover.refresh_from_db()
    read = read_car(handover.car)
    assert (read.car.name, read.car.kerb_mass, read.car.wheelbase) == ("Grey estate", 1690.0, pytest.approx(2.78))
    assert read.journey.country == "GB"
    event = Event.objects.get(what="outfit.car")
    assert told(event).words == "wrote down the car: Grey estate"
    assert event.by is not None


def test_open_field_is_unknown(own: Client, handover: Handover) -> None:
    """A field left open is unknown: None in the car, named in the history and on the page, and no verdict that needs it fits."""
    own.post(f"/outfit/{handover.pk}/car/", {"value:car.name": "Grey estate"})
    handover.refresh_from_db()
    read = read_car(handover.car)
    assert read.car.kerb_mass is None
    assert read.car.noseweight_limit is None
    assert "car.noseweight_limit" in Event.objects.get(what="outfit.car").data["unknown"]
    check = check_outfit(kept(handover).outfit)
    for key in ("noseweight", "gross-train", "towing-limit", "car-mass", "d-value-towbar", "licence"):
        assert check.verdict(key).word == "cannot say", key
    assert "the noseweight limit of the car" in page(own, handover)
    form = own.get(f"/outfit/{handover.pk}/car/").content.decode()
    assert 'id="v-car-kerb_mass" name="value:car.kerb_mass" value=""' in form


def test_no_car_and_no_load(own: Client, handover: Handover) -> None:
    """Without car and load the page opens, asks for both, and says of nothing that depends on them that it fits."""
    text = page(own, handover)
    assert "Write down the car" in text
    assert "Write down the load" in text
    assert check_outfit(kept(handover).outfit).word == "cannot say"


@pytest.mark.parametrize(
    ("field", "typed", "said"),
    [
        ("car.kerb_mass", "heavy", "heavy"),
        ("car.kerb_mass", "9999999 kg", "too high"),
        ("journey.country", "Gondor", "two capital letters"),
        ("driver.test_passed", "3 May", "not a date"),
    ],
)
def test_wrong_figure_of_a_car(own: Client, handover: Handover, field: str, typed: str, said: str) -> None:
    """What is wrong is said beside its field, what was typed stays, and nothing is kept."""
    answer = own.post(f"/outfit/{handover.pk}/car/", {**FORM, "value:car.kerb_mass": "1690", f"value:{field}": typed})
    assert answer.status_code == 422
    text = answer.content.decode()
    fault = text[text.index(f'id="v-{field.replace(".", "-")}-fault"') :]
    assert said in fault[: fault.index("</p>")]
    assert typed in text
    handover.refresh_from_db()
    assert handover.car == ""


def test_figures_that_cannot_all_be_true(own: Client, handover: Handover) -> None:
    """A gross mass below the kerb mass is refused with both figures."""
    form = {**FORM, "value:car.kerb_mass": "1690", "value:car.gross_vehicle_mass": "1500"}
    text = own.post(f"/outfit/{handover.pk}/car/", form).content.decode()
    assert "below the kerb mass" in text


def test_car_sheet_pasted_or_sent(own: Client, handover: Handover) -> None:
    """A car sheet is taken in as text or as a file; the form then shows its figures."""
    assert own.post(f"/outfit/{handover.pk}/car/sheet/", {"sheet": CAR}).status_code == 302
    assert 'value="1690"' in own.get(f"/outfit/{handover.pk}/car/").content.decode()
    file = SimpleUploadedFile("car.yaml", CAR.replace("1690", "1700").encode())
    assert own.post(f"/outfit/{handover.pk}/car/sheet/", {"file": file}).status_code == 302
    handover.refresh_from_db()
    assert read_car(handover.car).car.kerb_mass == 1700.0


@pytest.mark.parametrize(
    ("sort", "sheet", "said"),
    [
        ("car", "car: [", "line 1"),
        ("car", CAR.replace("kerb_mass: 1690 kg", "kerb_mass: 1690 litres"), "car.kerb_mass"),
        ("car", CAR.replace("kerb_mass", "curb_mass"), "did you mean"),
        ("load", LOAD.replace("fixed: gas-locker", "fixed: gas-loker"), "did you mean"),
        ("load", LOAD.replace("mass: 14.6 kg", "mass: heavy"), "items.propane-cylinder.mass"),
        ("load", "", "empty"),
        ("load", "firstpitch: 1", "missing"),
    ],
)
def test_bad_sheet(own: Client, handover: Handover, sort: str, sheet: str, said: str) -> None:
    """A sheet with a fault is not taken in: each fault is named with its line and field, and the text stays to be put right."""
    answer = own.post(f"/outfit/{handover.pk}/{sort}/sheet/", {"sheet": sheet})
    assert answer.status_code == 422
    text = answer.content.decode()
    assert said in text
    assert "nothing was taken in" in text
    handover.refresh_from_db()
    assert getattr(handover, sort) == ""


def test_file_that_is_no_sheet(own: Client, handover: Handover) -> None:
    """A picture sent as a sheet is refused in words."""
    file = SimpleUploadedFile("car.yaml", b"\xff\xd8\xff\xe0" + bytes(range(256)))
    answer = own.post(f"/outfit/{handover.pk}/car/sheet/", {"file": file})
    assert answer.status_code == 422
    assert "not text" in answer.content.decode()


# The load


def test_thing_by_form(own: Client, handover: Handover) -> None:
    """A thing is put on the list, changed and taken off; its size in centimetres, its number and its wishes are kept."""
    address = f"/outfit/{handover.pk}/load/"
    thing = {
        "do": "thing",
        "name": "Folding bicycle",
        "mass": "12.5",
        "number": "2",
        "size_long": "90",
        "size_wide": "40",
        "size_high": "70",
    }
    assert (
        own.post(address, {**thing, "reach": "outside", "needed": "yes", "never_in": ["wardrobe"]}).status_code == 302
    )
    (item,) = kept(handover).full.load.items
    assert (item.id, item.mass, item.number, item.size) == ("folding-bicycle", 12.5, 2, (0.9, 0.4, 0.7))
    assert (item.reach, item.needed, item.never_in) == ("outside", True, ("wardrobe",))
    assert (
        own.post(address, {**thing, "id": "folding-bicycle", "mass": "13 kg", "size_class": "large"}).status_code == 302
    )
    assert kept(handover).full.load.items[0].mass == 13.0
    own.post(address, {"do": "thing", "name": "Folding bicycle", "mass": "9", "size_class": "long"})
    assert [one.id for one in kept(handover).full.load.items] == ["folding-bicycle", "folding-bicycle-2"]
    own.post(address, {"do": "remove", "id": "folding-bicycle"})
    assert [one.id for one in kept(handover).full.load.items] == ["folding-bicycle-2"]


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        ({"mass": ""}, "This is missing"),
        ({"mass": "a lot"}, "a lot"),
        ({"name": ""}, "missing"),
        ({"size_class": ""}, "size"),
        ({"number": "many"}, "many"),
        ({"fixed": "nowhere"}, "no locker"),
    ],
)
def test_wrong_thing(own: Client, handover: Handover, wrong: dict[str, str], said: str) -> None:
    """A thing without mass or size is not put on the list: nothing is guessed."""
    thing = {"do": "thing", "name": "Grill", "mass": "7", "size_class": "medium", **wrong}
    answer = own.post(f"/outfit/{handover.pk}/load/", thing)
    assert answer.status_code == 422
    assert said in answer.content.decode()
    handover.refresh_from_db()
    assert handover.load == ""


def test_water_left_open_is_unknown(own: Client, filled: Handover) -> None:
    """Water that nobody gave counts from empty to full; 0 counts as empty."""
    address = f"/outfit/{filled.pk}/load/"
    own.post(address, {"do": "figures", "name": "Weekend", "water-water-heater": "0"})
    known = kept(filled).outfit.load.water
    assert dict(known) == {"water-heater": 0.0}
    check = check_outfit(kept(filled).outfit)
    assert any("how much water is in" in name for name in check.unknown)


def test_load_changed_meanwhile(own: Client, filled: Handover) -> None:
    """Who changes the list from an old page is told so, and what was typed is still there."""
    answer = own.post(
        f"/outfit/{filled.pk}/load/",
        {"do": "thing", "name": "Grill", "mass": "7", "size_class": "medium", "seen": "old"},
    )
    assert answer.status_code == 422
    text = answer.content.decode()
    assert "Somebody else changed this meanwhile" in text
    assert 'value="Grill"' in text


def test_stow_follows_the_list(own: Client, stowed: Handover) -> None:
    """What is taken off the list is no longer stowed; all else stays where it was."""
    before = kept(stowed).stowed
    own.post(f"/outfit/{stowed.pk}/load/", {"do": "remove", "id": "tool-box"})
    after = kept(stowed).stowed
    assert [p for p in before.placed if p.item != "tool-box"] == list(after.placed)


# The stow


def test_move_is_kept_and_judged(own: Client, stowed: Handover) -> None:
    """A move is kept with its words in the history, and answered with everything judged anew."""
    before = kept(stowed)
    answer = send(own, stowed, moved(before.stowed, "tool-box", "gas-locker"))
    assert answer.status_code == 200
    found = answer.json()
    assert set(found["parts"]) == {"drawn", "scale", "better", "verdicts", "steady", "departure"}
    assert found["mark"] == kept(stowed).mark != before.mark
    assert "model" in found["gain"]
    assert Placed("tool-box", "gas-locker") in kept(stowed).stowed.placed
    line = told(Event.objects.filter(what="outfit.stowed").latest("received")).words
    assert line.startswith("stowed the load: Tool box from ")
    assert line.endswith("to Front gas locker")


@pytest.mark.parametrize(
    "stow",
    [
        None,
        [],
        {"placed": [["tool-box", "no-such-locker", 1]]},
        {"placed": [["no-such-thing", "gas-locker", 1]]},
        {"placed": [["tool-box", "gas-locker", 7]]},
        {"placed": [["tool-box", "gas-locker", -1]]},
        {"placed": [["tool-box", "gas-locker", True]]},
        {"placed": "all of it"},
        {"home": [["no-such-thing", 1]]},
    ],
)
def test_bad_stow_is_refused(own: Client, stowed: Handover, stow: Any) -> None:
    """A stow of things, lockers or numbers there are not is refused in words, and the old one stays."""
    before = kept(stowed).stowed
    answer = send(own, stowed, stow)
    assert answer.status_code == 422
    assert answer.json()["words"]
    assert kept(stowed).stowed == before


def test_somebody_else_moved_things(own: Client, stowed: Handover) -> None:
    """Who moves from an old page gets what the other did, and is overruled by nobody unseen; "keep mine" then counts."""
    wanted = moved(kept(stowed).stowed, "tool-box", "gas-locker")
    answer = send(own, stowed, wanted, seen="old")
    assert answer.status_code == 409
    found = answer.json()
    assert found["changed"]
    assert found["mark"] == kept(stowed).mark
    assert send(own, stowed, wanted, seen="old", force=True).status_code == 200


def test_answer_that_was_lost(own: Client, stowed: Handover) -> None:
    """A move that came through but whose answer was lost is sent again: it counts once and is no conflict."""
    seen, wanted = kept(stowed).mark, moved(kept(stowed).stowed, "tool-box", "gas-locker")
    assert send(own, stowed, wanted, seen=seen).status_code == 200
    events = Event.objects.count()
    again = send(own, stowed, wanted, seen=seen)
    assert again.status_code == 200
    assert again.json()["mark"] == kept(stowed).mark
    assert Event.objects.count() == events


def test_left_at_home(own: Client, stowed: Handover) -> None:
    """What is left at home weighs nothing aboard, stays on the list, and may come back."""
    mass = kept(stowed).outfit.load.mass
    own.post(f"/outfit/{stowed.pk}/move/", {"thing": f"tool-box|{_place(stowed, 'tool-box')}", "to": "home"})
    now = kept(stowed)
    assert now.stowed.home == (("tool-box", 1),)
    assert now.outfit.load.mass == pytest.approx(mass - 5.0)
    assert now.full.load.mass == pytest.approx(mass)
    own.post(f"/outfit/{stowed.pk}/move/", {"thing": "tool-box|home", "to": "gas-locker"})
    assert kept(stowed).outfit.load.mass == pytest.approx(mass)


def _place(handover: Handover, item: str) -> str:
    return next(p.locker for p in kept(handover).stowed.placed if p.item == item)


def test_part_of_several_is_moved(own: Client, filled: Handover) -> None:
    """Of two chairs one may go elsewhere; more than there are never move."""
    own.post(f"/outfit/{filled.pk}/move/", {"thing": "folding-chair|", "to": "nearside-settee", "number": "1"})
    assert kept(filled).stowed.placed == (Placed("folding-chair", "nearside-settee", 1),)
    own.post(f"/outfit/{filled.pk}/move/", {"thing": "folding-chair|", "to": "gas-locker", "number": "5"})
    assert {(p.locker, p.number) for p in kept(filled).stowed.placed} == {("nearside-settee", 1), ("gas-locker", 1)}
    answer = own.post(f"/outfit/{filled.pk}/move/", {"thing": "folding-chair|", "to": "gas-locker"}, follow=True)
    assert "no such thing there any more" in answer.content.decode()


def test_best_stow_by_form_and_by_script(own: Client, filled: Handover) -> None:
    """The best stow is found within seconds: a script gets lines with the time gone and at last what would move; nothing is kept yet."""
    answer = own.post(f"/outfit/{filled.pk}/best/", HTTP_ACCEPT="application/json")
    lines = [json.loads(line) for line in b"".join(answer.streaming_content).decode().splitlines()]
    assert all(line["seconds"] <= line["most"] + 5 for line in lines[:-1])
    last = lines[-1]
    assert last["over"]
    assert not last["same"]
    assert last["moves"]
    assert kept(filled).stowed == Stowed()
    own.post(f"/outfit/{filled.pk}/best/")
    now = kept(filled)
    assert not now.stowed.home
    assert check_outfit(now.outfit).verdict("noseweight").word == "fits"
    assert Event.objects.get(what="outfit.stowed").data["best"] is True


def test_better_move_gains_what_it_says(own: Client, stowed: Handover) -> None:
    """After a bad move the page offers one better move, with what it does on the ball."""
    bad = send(own, stowed, moved(kept(stowed).stowed, "porch-awning", "gas-locker")).json()
    assert "One better move." in bad["parts"]["better"]
    assert "on the ball" in bad["parts"]["better"]


def test_not_stowed_cannot_be_said(own: Client, filled: Handover) -> None:
    """While things have no place the noseweight lies between bounds and nobody can say whether it fits."""
    text = page(own, filled)
    assert "Not stowed yet: " in text
    assert check_outfit(kept(filled).outfit).verdict("noseweight").word == "cannot say"


# Readings


def test_reading_holds_for_its_stow_only(own: Client, stowed: Handover) -> None:
    """A noseweight that was read stands as long as nothing moves; after a move it is only used to put the empty van right."""
    own.post(
        f"/outfit/{stowed.pk}/load/",
        {
            "do": "figures",
            "name": "Weekend",
            "noseweight": "80",
            "water-water-heater": "0",
            "water-flush-filler": "4",
            "water-cassette-locker": "1",
        },
    )
    read = kept(stowed)
    assert check_outfit(read.outfit).laden.nose.low == 80.0
    assert not read.put_right
    send(own, stowed, moved(read.stowed, "tool-box", "gas-locker"))
    after = kept(stowed)
    nose = check_outfit(after.outfit).laden.nose
    assert nose.low != 80.0
    assert nose.exact
    assert after.put_right
    text = page(own, stowed)
    assert "read it again to be sure" in text
    assert "load sheet: readings, as they put the empty van right" in text
    send(own, stowed, read.stowed.stored())
    assert check_outfit(kept(stowed).outfit).laden.nose.low == 80.0


def test_reading_with_things_lying_about_tells_nothing_later(own: Client, filled: Handover) -> None:
    """A noseweight read while things had no place is dropped once something moves, and the page says so."""
    own.post(f"/outfit/{filled.pk}/load/", {"do": "figures", "name": "Weekend", "noseweight": "80"})
    own.post(f"/outfit/{filled.pk}/move/", {"thing": "tool-box|", "to": "nearside-settee"})
    assert kept(filled).outfit.load.readings.noseweight is None
    assert "Read it again." in page(own, filled)


# Guidelines of the branch


def test_choices_of_the_branch(own: Client, filled: Handover, branch: Branch) -> None:
    """What is held against the towing limit, and whether the guideline for newcomers is shown, is the branch's choice."""
    assert "Mass guideline for newcomers" in page(own, filled)
    choices = {"towed_mass": "actual", "newcomers": False}
    Branch.objects.filter(pk=branch.pk).update(choices=choices)
    assert "Mass guideline for newcomers" not in page(own, filled)
    assert "The loaded caravan weighs" in check_outfit(kept(filled).outfit).verdict("towing-limit").sentence


# Signed, other roles, other ways


def test_signed_handover_refuses_every_write(own: Client, stowed: Handover) -> None:
    """Once the record is signed nothing about the outfit changes, whoever asks, and the page offers nothing to change."""
    wanted = moved(kept(stowed).stowed, "tool-box", "gas-locker")
    sign(stowed)
    before = Handover.objects.filter(pk=stowed.pk).values().get()
    events = Event.objects.count()
    forms = {
        "car/": {**FORM, "value:car.kerb_mass": "1690"},
        "car/sheet/": {"sheet": CAR.replace("1690", "1700")},
        "load/": {"do": "remove", "id": "tool-box"},
        "load/sheet/": {"sheet": LOAD.replace("14.6", "15")},
        "move/": {"thing": f"tool-box|{_place(stowed, 'tool-box')}", "to": "home"},
        "best/": {},
    }
    for address, form in forms.items():
        answer = own.post(f"/outfit/{stowed.pk}/{address}", form, follow=True)
        assert answer.status_code == 200, address
        assert "signed" in answer.content.decode(), address
    refused = send(own, stowed, wanted)
    assert refused.status_code == 409
    assert "signed" in refused.json()["words"]
    assert Handover.objects.filter(pk=stowed.pk).values().get() == before
    assert Event.objects.count() == events
    text = page(own, stowed)
    assert "outfit.js" not in text
    assert text.count("<form") == 1 + text.count('id="better"')
    assert "<button>Do it" not in text


@pytest.mark.parametrize("role", [Role.TECHNICIAN, Role.MANAGER])
def test_every_role_of_the_branch(stowed: Handover, branch: Branch, role: Role) -> None:
    """Technician and manager may write down and move things as the specialist may."""
    person = Person.objects.create_user("pat", password=PASSWORD, role=role, branch=branch)
    client = Client()
    client.force_login(person)
    assert send(client, stowed, moved(kept(stowed).stowed, "tool-box", "gas-locker")).status_code == 200
    assert client.post(f"/outfit/{stowed.pk}/car/", {"value:car.name": "Other car"}).status_code == 302
    assert Event.objects.filter(what="outfit.car", by=person).exists()


def test_other_branch(far: Client, stowed: Handover) -> None:
    """Somebody of another branch finds no such outfit, whatever they send."""
    before = Handover.objects.filter(pk=stowed.pk).values().get()
    assert far.get(f"/outfit/{stowed.pk}/").status_code == 404
    assert send(far, stowed, {"placed": []}, force=True).status_code == 404
    assert far.post(f"/outfit/{stowed.pk}/load/", {"do": "remove", "id": "tool-box"}).status_code == 404
    assert Handover.objects.filter(pk=stowed.pk).values().get() == before


def test_sheet_that_no_longer_fits_the_van(own: Client, stowed: Handover, van: Van) -> None:
    """When the van's lockers changed under a load list, the page says what no longer fits and judges nothing."""
    Van.objects.filter(pk=van.pk).update(sheet=van.sheet.replace("gas-locker", "bottle-locker"))
    text = page(own, stowed)
    assert "cannot be read any more" in text
    assert "gas-locker" in text
    assert own.get(f"/outfit/{stowed.pk}/outfit.pdf").status_code == 302
    assert own.post(f"/outfit/{stowed.pk}/best/").status_code == 302
    assert send_raw(own, stowed).status_code == 422


def send_raw(client: Client, handover: Handover) -> Any:
    """A stow with nothing in it."""
    body = json.dumps({"stow": {"placed": []}, "force": True})
    return client.post(
        f"/outfit/{handover.pk}/stow/", body, content_type="application/json", HTTP_ACCEPT="application/json"
    )


def test_from_the_van(own: Client, van: Van, handover: Handover) -> None:
    """The van's page leads to the outfit of the handover that comes next; without one it says what to do."""
    assert own.get(f"/vans/{van.pk}/outfit/").headers["Location"] == f"/outfit/{handover.pk}/"
    assert f"/vans/{van.pk}/outfit/" in own.get(f"/vans/{van.pk}/").content.decode()
    assert f"/outfit/{handover.pk}/" in own.get(f"/handovers/{handover.pk}/").content.decode()


def test_printed_sheet(own: Client, stowed: Handover) -> None:
    """The outfit and stow sheet comes as a PDF."""
    answer = own.get(f"/outfit/{stowed.pk}/outfit.pdf")
    assert answer.headers["Content-Type"] == "application/pdf"
    assert answer.content.startswith(b"%PDF")


def test_words_of_people_are_text(own: Client, handover: Handover, specialist: Person) -> None:
    """Names that look like markup stand on the page as text."""
    nasty = "<img src=x onerror=alert(1)>"
    keep_load(by=specialist, handover=handover, load=LOAD.replace("Tool box", f'"{nasty}"'), today=TODAY)
    text = page(own, handover)
    assert nasty not in text
    assert "&lt;img src=x" in text


def test_same_again_writes_nothing(own: Client, stowed: Handover, specialist: Person) -> None:
    """What is already so is not written again."""
    events = Event.objects.count()
    keep_car(by=specialist, handover=stowed, car=stowed.car, today=TODAY)
    keep_load(by=specialist, handover=stowed, load=stowed.load, today=TODAY)
    keep_stow(by=specialist, handover=stowed, stowed=kept(stowed).stowed)
    assert send(own, stowed, kept(stowed).stowed.stored()).status_code == 200
    assert Event.objects.count() == events
