"""What an owner sees by the private link, and what the dealership sees of it."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from firstpitch.desk.actions.owner_links import make_link, revoke_link
from firstpitch.desk.actions.questions import QuestionError, answer_question, ask_question
from firstpitch.desk.actions.records import Signature, sign_record
from firstpitch.desk.inputs import problem_of
from firstpitch.desk.models import Event, Handover, OwnerLink, Person, Question
from firstpitch.desk.record_data import digest_of
from firstpitch.desk.record_rows import record_now
from tests.unit.desk.live import Device

PAGES = ("owner", "owner-pack", "owner-pack-file")


@pytest.fixture
def secret(specialist: Person, handover: Handover) -> str:
    """A good link's secret."""
    return make_link(by=specialist, handover=handover).secret


@pytest.fixture
def shown(own: Client, handover: Handover) -> Handover:
    """A handover of which one step was shown and tried."""
    step = problem_of(handover).steps[0].id
    Device(own, handover).tell("step.done", 90, step=step, tried=True)
    return handover


def test_owner_reads_pack_cards_and_figures(secret: str, handover: Handover) -> None:
    """The page names van, owner and figures; an unknown figure is said to be unknown; each card of the pack is one link away."""
    page = Client().get(reverse("owner", args=[secret])).content.decode()
    for words in (
        handover.owner_name,
        handover.van.name,
        "MTPLM",
        "pack/#arriving",
        "pack/#towing",
        "You smell gas",
        f'href="/owner/{secret}/pack/#kit-1"',
    ):
        assert words in page


@pytest.mark.parametrize("name", PAGES)
def test_owner_pages_are_kept_to_themselves(secret: str, name: str) -> None:
    """No page of an owner hands its address on, is kept by others, or is found by search."""
    answer = Client().get(reverse(name, args=[secret]))
    assert answer.status_code == 200
    assert answer["Referrer-Policy"] == "same-origin"
    assert answer["X-Robots-Tag"] == "noindex"
    assert "no-store" in answer["Cache-Control"]


def test_pack_page_lets_only_its_own_styles_through(secret: str) -> None:
    """The pack's policy names its styles by digest, and allows neither scripts nor anything from elsewhere."""
    policy = Client().get(reverse("owner-pack", args=[secret]))["Content-Security-Policy"]
    assert "'unsafe-inline'" not in policy
    assert "script" not in policy
    assert "default-src 'none'" in policy
    assert "sha256-" in policy


def test_owner_sees_what_was_shown_and_the_signed_record(secret: str, shown: Handover, specialist: Person) -> None:
    """Before signing the owner sees what was shown and no PDF; afterwards the record as it was signed."""
    page = Client().get(reverse("owner", args=[secret])).content.decode()
    assert "1 step shown, of which you tried 1" in page
    assert Client().get(reverse("owner-record-file", args=[secret])).status_code == 302
    seen = digest_of(record_now(shown))
    sign_record(by=specialist, handover=shown, seen=seen, signature=Signature("Rowan Pell", "typed"), confirmed=True)
    page = Client().get(reverse("owner", args=[secret])).content.decode()
    assert "The signed record" in page
    assert Client().get(reverse("owner-record-file", args=[secret])).content[:5] == b"%PDF-"


@pytest.mark.parametrize("how", ["wrong", "ran out", "taken back"])
def test_bad_link_opens_nothing(secret: str, specialist: Person, handover: Handover, how: str) -> None:
    """A link that is wrong, ran out or was taken back opens no page and takes no question."""
    link = OwnerLink.objects.get()
    if how == "ran out":
        OwnerLink.objects.update(expires=timezone.now() - timedelta(seconds=1))
    if how == "taken back":
        revoke_link(by=specialist, link=link)
    used = f"{secret}x" if how == "wrong" else secret
    for name in (*PAGES, "owner-record-file"):
        answer = Client().get(reverse(name, args=[used]))
        assert answer.status_code == 410
        assert handover.owner_name not in answer.content.decode()
    assert Client().post(reverse("owner-question", args=[used]), {"words": "Hello?"}).status_code == 410
    assert not Question.objects.exists()


def test_owner_asks_and_reads_the_answer(secret: str, own: Client, handover: Handover, specialist: Person) -> None:
    """A question goes to the handover's page, the answer comes back to the owner's, and both are told in the history."""
    asked = Client().post(reverse("owner-question", args=[secret]), {"words": "How do I <drain> it?"})
    assert asked.status_code == 302
    one = Question.objects.get()
    assert "How do I &lt;drain&gt; it?" in own.get(reverse("handover", args=[handover.pk])).content.decode()
    assert "How do I &lt;drain&gt; it?" in own.get(reverse("questions")).content.decode()
    answer = own.post(reverse("question-answer", args=[handover.pk, one.pk]), {"words": "Open the tap under the sink."})
    assert answer.status_code == 302
    assert "Open the tap under the sink." in Client().get(reverse("owner", args=[secret])).content.decode()
    assert "&lt;drain&gt;" not in own.get(reverse("questions")).content.decode()
    told = Event.objects.filter(what__startswith="question.").values_list("what", "by")
    assert list(told) == [("question.asked", None), ("question.answered", specialist.pk)]


def test_owner_may_not_ask_without_end(secret: str) -> None:
    """After twenty questions within the hour the owner waits; nothing is lost of what was asked before."""
    path = reverse("owner-question", args=[secret])
    answers = [Client().post(path, {"words": f"Question {number}"}).status_code for number in range(21)]
    assert answers == [302] * 20 + [429]
    assert Question.objects.count() == 20


@pytest.mark.parametrize(("words", "said"), [(" \n ", "Write your question"), ("x" * 2001, "2,001 letters")])
def test_question_that_cannot_be_taken_stays(secret: str, words: str, said: str) -> None:
    """No words or too many are refused with a sentence, and what was typed stays."""
    answer = Client().post(reverse("owner-question", args=[secret]), {"words": words})
    assert answer.status_code == 400
    assert said in answer.content.decode()
    assert words.strip() in answer.content.decode()
    assert not Question.objects.exists()


def test_question_is_answered_once(handover: Handover, specialist: Person) -> None:
    """The first answer stands; a second is refused, and so is an empty one."""
    one = ask_question(by=None, handover=handover, words="How?")
    with pytest.raises(QuestionError, match="Write the answer"):
        answer_question(by=specialist, question=one, words=" ")
    answer_question(by=specialist, question=one, words="So.")
    with pytest.raises(QuestionError, match="meanwhile"):
        answer_question(by=specialist, question=one, words="Otherwise.")
    assert Question.objects.get().answer == "So."


def test_link_is_made_shown_once_and_taken_back(own: Client, handover: Handover) -> None:
    """A new link's address is shown once, opens the owner's page, and opens nothing after it was taken back."""
    page = own.post(reverse("owner-link-make", args=[handover.pk])).content.decode()
    address = page.split('class="secret">')[1].split("<")[0]
    path = address.removeprefix("http://testserver")
    assert Client().get(path).status_code == 200
    assert path not in own.get(reverse("handover", args=[handover.pk])).content.decode()
    link = OwnerLink.objects.get()
    assert own.post(reverse("owner-link-revoke", args=[handover.pk, link.pk])).status_code == 302
    assert Client().get(path).status_code == 410


@pytest.mark.usefixtures("secret")
def test_handover_page_of_another_branch_is_not_there(far: Client, handover: Handover) -> None:
    """Nobody of another branch sees the handover, makes or takes back its links, or answers its questions."""
    one = ask_question(by=None, handover=handover, words="How?")
    link = OwnerLink.objects.get()
    assert far.get(reverse("handover", args=[handover.pk])).status_code == 404
    assert far.post(reverse("owner-link-make", args=[handover.pk])).status_code == 404
    assert far.post(reverse("owner-link-revoke", args=[handover.pk, link.pk])).status_code == 404
    assert far.post(reverse("question-answer", args=[handover.pk, one.pk]), {"words": "x"}).status_code == 404
    assert "How?" not in far.get(reverse("questions")).content.decode()
    assert Client().get(reverse("handover", args=[handover.pk])).status_code == 302
    assert OwnerLink.objects.get().revoked is None
