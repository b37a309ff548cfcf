"""A film is checked, decided on, shown to its owner or not, and mended chapter by chapter."""

from __future__ import annotations

import html
import re
from datetime import timedelta
from pathlib import Path

import pytest
import zxingcpp
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from firstpitch.desk.actions.film import FilmError, Override, publish
from firstpitch.desk.actions.owner_links import make_link, revoke_link
from firstpitch.desk.models import Event, Film, Handover, OwnerLink, Person, Van
from tests.unit.desk.film import SAID, begin, faults, film_bytes, give, piece, send, work

LISTED = re.compile(r'<h2>([^<]*) <span class="soft">([^<]*)</span></h2>')
EVIL = SAID.replace("This is the hitch.", "This is the hitch <script>alert(1)</script> & <b>so</b>.")


@pytest.fixture
def film(own: Client, van: Van) -> Film:
    """A film of twenty seconds that was checked by captions somebody made."""
    send(own, van, film_bytes(20, sound=False))
    work()
    assert give(own, Film.objects.get()).status_code == 302
    work()
    found = Film.objects.get()
    assert found.found
    return found


def page(client: Client, film: Film, query: str = "") -> str:
    """The page of a film."""
    return client.get(reverse("film", args=[film.van_id, film.pk]) + query).content.decode()


def test_findings_stand_beside_the_film(own: Client, film: Film) -> None:
    """The page has the player with its tracks, chapters by kit, the cautions that keep it back, and the score with its parts."""
    text = page(own, film)
    for words in (
        "<video",
        "captions.vtt",
        "Gas hob",
        "Not to be shown yet",
        "Cautions to stop for",
        "Points that are missing",
        "of 100",
    ):
        assert words in text
    assert 'data-at="' in text
    assert len(text.encode()) < 150_000
    track = own.get(reverse("film-captions", args=[film.van_id, film.pk]))
    assert track["Content-Type"].startswith("text/vtt")
    assert "hitch" in track.content.decode()
    assert "Gas hob" in own.get(reverse("film-chapters", args=[film.van_id, film.pk])).content.decode()
    assert (
        "[0:00] This is the hitch" in own.get(reverse("film-transcript", args=[film.van_id, film.pk])).content.decode()
    )


def test_scripts_in_captions_stay_text(own: Client, film: Film, handover: Handover, specialist: Person) -> None:
    """What somebody wrote into captions is shown as text everywhere and run nowhere."""
    give(own, film, EVIL)
    work()
    publish(by=specialist, film=film, override=Override("Ada", "Only to look."))
    secret = make_link(by=specialist, handover=handover).secret
    assert "<script>alert" not in page(own, film)
    assert "<script" not in own.get(reverse("film-captions", args=[film.van_id, film.pk])).content.decode()
    assert "<script>alert" not in Client().get(reverse("owner-film", args=[secret])).content.decode()


@pytest.mark.parametrize(
    ("said", "name", "words"),
    [
        ("no times at all", "round.txt", "no times found"),
        (SAID.replace("00:09.000 --> 00:19.000", "12:00.000 --> 12:16.000"), "other.vtt", "belong to another film"),
        ("WEBVTT\n", "empty.vtt", "nothing is said"),
        ("", "none.vtt", "empty"),
    ],
)
def test_captions_that_do_not_fit_are_told_beside_their_field(
    own: Client, film: Film, said: str, name: str, words: str
) -> None:
    """Captions of another film, or none at all, are refused beside the field; those that were there stay."""
    before = film.recording
    answer = give(own, film, said, name)
    assert answer.status_code == 422
    assert words in answer.content.decode()
    film.refresh_from_db()
    assert film.recording == before


def test_a_missing_caution_keeps_the_film_back(own: Client, film: Film, manager: Person) -> None:
    """A film with a caution to stop for missing is shown only when somebody answers for it by name and with a reason."""
    show = reverse("film-show", args=[film.van_id, film.pk])
    refused = own.post(show)
    assert refused.status_code == 422
    assert "say who answers for that and why" in refused.content.decode()
    half = own.post(show, {"override_name": "Rowan Pell", "override_reason": "  "})
    assert half.status_code == 422
    assert "Rowan Pell" in half.content.decode()
    with pytest.raises(FilmError, match="second factor"):
        publish(by=manager, film=film, override=Override("Max", "It is only for a test."))
    assert not Film.objects.filter(published__isnull=False).exists()
    assert (
        own.post(show, {"override_name": "Rowan Pell", "override_reason": "The owner knows it all."}).status_code == 302
    )
    told = Event.objects.get(what="film.published")
    assert told.data["override"]["name"] == "Rowan Pell"
    assert told.data["override"]["blocking"]
    shown = page(own, film)
    assert "The owner knows it all." in shown
    history = own.get(reverse("van-history", args=[film.van_id])).content.decode()
    assert "Rowan Pell answers for it" in history


def test_a_finding_is_decided_with_a_reason(own: Client, film: Film) -> None:
    """That a finding is no fault needs a reason; it then leaves the list of what to film again, and still keeps the film back."""
    assert film.found
    key = f"caution:{film.found['coverage']['blocking'][0]}"
    decide = reverse("film-decide", args=[film.van_id, film.pk])
    assert own.post(decide, {"finding": key, "verdict": "dismissed"}).status_code == 422
    assert (
        own.post(decide, {"finding": key, "verdict": "dismissed", "reason": "It is said with the hands."}).status_code
        == 302
    )
    assert "It is said with the hands." in page(own, film)
    assert "No fault" in page(own, film, f"?about={key}")
    assert own.post(reverse("film-show", args=[film.van_id, film.pk])).status_code == 422
    assert Event.objects.filter(what="film.decided").count() == 1


def test_what_to_film_again_is_a_short_round(own: Client, film: Film) -> None:
    """The list keeps the order of the round, and says what is to be done before with the camera off."""
    text = own.get(reverse("film-again", args=[film.van_id, film.pk])).content.decode()
    assert film.found
    titles = [(line["title"], line["kit"]) for line in film.found["round"]]
    kits = film.found["labels"]["kits"]
    order = [(title, kits.get(kit, kit)) for title, kit in titles]
    listed = [(html.unescape(title), html.unescape(kit)) for title, kit in LISTED.findall(text)]
    rest = iter(order)
    assert len(listed) > 10
    assert all(step in rest for step in listed)


def test_the_owner_sees_it_until_the_link_ends(film: Film, handover: Handover, specialist: Person, far: Client) -> None:
    """By the private link the owner gets page, film by parts, captions and search; without it, or when it has ended, nothing of it."""
    link = make_link(by=specialist, handover=handover)
    names = ("owner-film-video", "owner-film-captions", "owner-film-index", "owner-film-poster")
    assert Client().get(reverse("owner-film", args=[link.secret])).status_code == 302
    assert all(Client().get(reverse(name, args=[link.secret])).status_code == 404 for name in names)
    publish(by=specialist, film=film, override=Override("Ada", "Only to look."))
    page = Client().get(reverse("owner-film", args=[link.secret])).content.decode()
    assert 'preload="metadata"' in page
    assert len(page.encode()) < 20_000
    part = Client().get(reverse("owner-film-video", args=[link.secret]), headers={"Range": "bytes=0-99"})
    assert (part.status_code, len(part.content)) == (206, 100)
    index = Client().get(reverse("owner-film-index", args=[link.secret])).json()
    assert index["chapters"][-1]["title"] == "Gas hob"
    assert index["said"][0] == [0.5, "This is the hitch. Lift the handle and the hitch head lets go of the ball."]
    assert "Watch the film" in Client().get(reverse("owner", args=[link.secret])).content.decode()
    assert far.get(reverse("film-video", args=[film.van_id, film.pk])).status_code == 404
    revoke_link(by=specialist, link=link.link)
    assert all(Client().get(reverse(name, args=[link.secret])).status_code == 410 for name in names)
    late = make_link(by=specialist, handover=handover)
    OwnerLink.objects.filter(pk=late.link.pk).update(expires=timezone.now() - timedelta(minutes=1))
    assert all(Client().get(reverse(name, args=[late.secret])).status_code == 410 for name in names)


def test_labels_open_the_film_at_its_second(own: Client, film: Film, handover: Handover, specialist: Person) -> None:
    """Labels need a film that is shown and a link for the owner; an outside reader (ZXing) reads each code, and it opens the film there."""
    labels = reverse("film-labels", args=[film.van_id, film.pk])
    assert own.post(labels, {"handover": handover.pk}).status_code == 302
    publish(by=specialist, film=film, override=Override("Ada", "Only to look."))
    make_link(by=specialist, handover=handover)
    made = own.post(labels, {"handover": handover.pk})
    assert made["Content-Type"] == "application/pdf"
    import pypdfium2

    picture = pypdfium2.PdfDocument(made.content)[0].render(scale=3).to_pil()
    codes = sorted(code.text for code in zxingcpp.read_barcodes(picture))
    assert codes
    address, _, second = codes[-1].partition("#t=")
    assert int(second) in {int(chapter["start"]) for chapter in film.chapters}
    path = address.removeprefix("http://testserver")
    assert Client().get(path).status_code == 200


def test_one_film_is_shown_at_a_time(own: Client, film: Film, specialist: Person, van: Van) -> None:
    """A second film that is shown takes the place of the first; one that is shown cannot be let go."""
    publish(by=specialist, film=film, override=Override("Ada", "Only to look."))
    send(own, van, film_bytes(20, sound=False), name="second.mp4", modified=2)
    work()
    second = Film.objects.exclude(pk=film.pk).get()
    give(own, second)
    work()
    second.refresh_from_db()
    publish(by=specialist, film=second, override=Override("Ada", "It is better."))
    assert Film.objects.get(published__isnull=False) == second
    own.post(reverse("film-remove", args=[van.pk, second.pk]))
    assert Film.objects.filter(pk=second.pk, removed=None).exists()
    own.post(reverse("film-hide", args=[van.pk, second.pk]))
    own.post(reverse("film-remove", args=[van.pk, second.pk]))
    assert not Film.objects.filter(pk=second.pk, removed=None).exists()


def test_a_chapter_is_filmed_again_alone(own: Client, van: Van) -> None:
    """A chapter that was filmed again takes the place of the old one: the later ones move by the difference, and all is checked again."""
    send(own, van, film_bytes(20))
    work()
    film = Film.objects.get()
    assert "Nobody can be heard" in faults()[0]
    give(own, film)
    work()
    film.refresh_from_db()
    old = film.chapters
    part = film_bytes(6)
    address = begin(own, van, part, "part.mp4", film=str(film.pk), chapter=0).json()["address"]
    assert piece(own, address, part, 0).status_code == 204
    work()
    assert len(faults()) == 1
    film.refresh_from_db()
    moved = 6 - (old[0]["end"] - old[0]["start"])
    assert film.chapters[0]["end"] == pytest.approx(6, abs=0.3)
    assert film.chapters[1]["start"] == pytest.approx(old[1]["start"] + moved, abs=0.3)
    assert film.facts["length"] == pytest.approx(20 + moved, abs=0.5)
    assert film.recording
    assert [cue[2][:6] for cue in film.recording["cues"]] == ["And in"]
    assert Event.objects.filter(what="film.part_replaced").count() == 1


def test_the_script_learns_the_speakers_pace(own: Client, film: Film, van: Van, specialist: Person) -> None:
    """The script is written at the pace of the speaker's own films once a hundred words of theirs are known, and says so."""
    script = reverse("film-script", args=[van.pk])
    assert "pace of the branch" in own.get(script).content.decode()
    words = [
        f"{a}{b}"
        for a in "bdfgklmnprst"
        for b in ("an", "en", "in", "on", "un", "ar", "er", "ir", "or", "ur", "al", "el")
    ]
    said = [" ".join(words[n * 3 : n * 3 + 3]) for n in range(40)]
    lines = "".join(f"00:{n:02d}.000 --> 00:{n + 1:02d}.000\n{text}\n\n" for n, text in enumerate(said))
    film.facts = {**film.facts, "length": 40.0}
    film.save(update_fields=["facts"])
    give(own, film, f"WEBVTT\n\n{lines}")
    text = own.get(script).content.decode()
    assert f"learned from 1 film of {specialist.shown_name}" in text
    assert "180 words/min" in text
    few = own.get(script, {"minutes": 150, "pace": 120}).content.decode()
    assert "120 words/min" in few
    assert own.get(script, {"minutes": 1}).status_code == 422
    made = own.get(reverse("film-script-file", args=[van.pk]), {"pace": 120})
    assert made.content.startswith(b"%PDF")


def test_captions_of_another_van_are_noticed(own: Client, film: Film) -> None:
    """Where more spoken figures differ from the sheet than agree with it, the page asks whether this is another van's film."""
    said = Path(__file__).parents[2] / "film" / "recordings" / "a01" / "captions.vtt"
    film.facts = {**film.facts, "length": 700.0}
    film.save(update_fields=["facts"])
    assert "of another van?" not in page(own, film)
    assert give(own, film, said.read_text("utf-8")).status_code == 302
    work()
    assert "of another van?" in page(own, film)
