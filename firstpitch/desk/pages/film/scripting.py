"""The script of a van's film: on the page with the prompter, and as a shot list on paper."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.safestring import SafeString, mark_safe
from django.utils.text import slugify
from django.views.decorators.http import require_GET

from firstpitch.desk.access import branch_of, films_spoken, member, members, people, the_van
from firstpitch.desk.film_check import film_problem
from firstpitch.desk.films import read_recording
from firstpitch.desk.inputs import OpenVan, open_van
from firstpitch.desk.models import Branch, Person
from firstpitch.desk.pages.film.forms import ScriptForm
from firstpitch.desk.planning import AT_ONCE
from firstpitch.film.script import script_of
from firstpitch.film.speaker import learned_pace
from firstpitch.film.types import Script
from firstpitch.papers.film_script import script_pdf, shot_lines
from firstpitch.papers.page import templates
from firstpitch.papers.programme import minutes_words
from firstpitch.rounds import Clash, Plan, plan_round, quick_round
from firstpitch.sheet import SheetError

_FILMS = 10
_SLOWEST, _FASTEST = 80, 240


@dataclass(frozen=True)
class Pace:
    """Words a minute, and where that comes from."""

    words: int
    why: str


@members()
@require_GET
def script(request: HttpRequest, pk: int) -> HttpResponse:
    """The script and its prompter."""
    person, one = member(request), the_van(member(request), pk)
    one.branch = branch_of(person)
    speaker = _speaker(request, person)
    learned = pace_of(person, speaker)
    form = ScriptForm(request.GET or None, initial={"pace": learned.words})
    about: dict[str, Any] = {
        "van": one,
        "form": form,
        "learned": learned,
        "speaker": speaker,
        "people": people(person).filter(is_active=True),
        "asked": request.GET.urlencode(),
    }
    if form.is_bound and not form.is_valid():
        return render(request, "desk/film/script.html", about, status=422)
    try:
        made = _made(open_van(one), one.branch, form, learned)
    except SheetError:
        return redirect("van-sheet", one.pk)
    about |= {"clash": made} if isinstance(made, Clash) else _shown(made)
    return render(request, "desk/film/script.html", about)


@members()
@require_GET
def shot_list(request: HttpRequest, pk: int) -> HttpResponse:
    """The shot list as PDF; back to the page where there is none."""
    person, one = member(request), the_van(member(request), pk)
    one.branch = branch_of(person)
    form = ScriptForm(request.GET or None)
    if form.is_bound and not form.is_valid():
        return redirect("film-script", one.pk)
    try:
        made = _made(open_van(one), one.branch, form, pace_of(person, _speaker(request, person)))
    except SheetError:
        return redirect("van-sheet", one.pk)
    if isinstance(made, Clash):
        return redirect("film-script", one.pk)
    headers = {"Content-Disposition": f'inline; filename="{slugify(one.name) or "van"}-film-script.pdf"'}
    return HttpResponse(script_pdf(made), content_type="application/pdf", headers=headers)


def _speaker(request: HttpRequest, person: Person) -> Person:
    who = request.GET.get("speaker", "")
    found = people(person).filter(pk=int(who)).first() if who.isdecimal() and len(who) < 10 else None  # noqa: PLR2004  (no number has more digits)
    return found or person


def pace_of(person: Person, speaker: Person) -> Pace:
    """The pace of a speaker: learned from the films in which they spoke, else the branch's."""
    films = list(films_spoken(person, speaker).order_by("-added").values_list("recording", flat=True)[:_FILMS])
    learned = learned_pace([read_recording(kept) for kept in films if kept])
    if learned is None:
        return Pace(branch_of(person).words_per_minute, "the pace of the branch, as there is no film to learn from yet")
    words = round(min(_FASTEST, max(_SLOWEST, learned)))
    return Pace(words, f"learned from {len(films)} film{'' if len(films) == 1 else 's'} of {speaker.shown_name}")


def _made(opened: OpenVan, branch: Branch, form: ScriptForm, learned: Pace) -> Script | Clash:
    said = form.cleaned_data if form.is_bound else {}
    pace = said.get("pace") or learned.words
    return _script(opened, branch.words_per_minute, branch.metres_per_second, branch, said.get("minutes"), pace)


@lru_cache(maxsize=16)
def _script(  # noqa: PLR0917  (the key of a cache)
    opened: OpenVan, words: int, metres: float, branch: Branch, minutes: int | None, pace: int
) -> Script | Clash:
    del words, metres
    problem = film_problem(opened, branch, minutes=minutes, words_per_minute=pace)
    quick = quick_round(problem)
    plan = quick if isinstance(quick, Plan) else plan_round(problem, patience=AT_ONCE)
    if isinstance(plan, Clash):
        return plan
    return script_of(opened.sheet, opened.catalogue.kinds, problem, plan, float(pace))


def _shown(made: Script) -> dict[str, Any]:
    parts: Any = templates().get_template("film_script.html").module
    return {
        "script": made,
        "takes": minutes_words(made.total),
        "pace": round(made.words_per_minute),
        "shots": _ours(parts.shot_list(shot_lines(made))),
        "controls": _ours(parts.controls()),
    }


def _ours(page: Any) -> SafeString:
    """What our own templates made, in which every text is escaped."""
    return mark_safe(str(page))
