"""Questions of owners to the dealership, and their answers."""

from __future__ import annotations

from django.db import transaction
from django.utils import timezone

from firstpitch.desk.actions.history import write
from firstpitch.desk.models import Handover, Person, Question

LONGEST, LONGEST_ANSWER = 2000, 4000


class QuestionError(ValueError):
    """A question that cannot be asked or answered like this; the message says why."""


def _written(words: str, most: int, nothing: str) -> str:
    text = "\n".join(line.rstrip() for line in words.strip().splitlines())
    if not text:
        raise QuestionError(nothing)
    if len(text) > most:
        raise QuestionError(f"That is {len(text):,} letters; say it in at most {most:,}.")
    return text


@transaction.atomic
def ask_question(*, by: None, handover: Handover, words: str) -> Question:
    """Keep a question of the owner, who has no account. QuestionError where there are no words, or too many."""
    text = _written(words, LONGEST, "Write your question first.")
    question = Question.objects.create(handover=handover, words=text)
    write(
        by=by, van=handover.van, handover=handover, what="question.asked", data={"question": question.pk, "words": text}
    )
    return question


@transaction.atomic
def answer_question(*, by: Person, question: Question, words: str) -> Question:
    """Answer a question once. QuestionError where somebody has, or where there are no words, or too many."""
    text = _written(words, LONGEST_ANSWER, "Write the answer first.")
    locked = Question.objects.select_for_update(of=("self",)).select_related("handover__van").get(pk=question.pk)
    if locked.answered:
        raise QuestionError("Somebody has answered this meanwhile; their answer stands.")
    locked.answer, locked.answered, locked.answered_by = text, timezone.now(), by
    locked.save(update_fields=["answer", "answered", "answered_by"])
    data = {"question": locked.pk, "words": text}
    write(by=by, van=locked.handover.van, handover=locked.handover, what="question.answered", data=data)
    return locked
