"""All vans of the branch."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET

from firstpitch.desk.access import member, members
from firstpitch.desk.inputs import kept_lacks
from firstpitch.desk.pages.van.search import asked, find_vans

_PAGE = 40


@members()
@require_GET
def listing(request: HttpRequest) -> HttpResponse:
    """The vans of the branch, newest first, found by name, stock number or chassis number."""
    person = member(request)
    search = asked(request.GET.get("q", ""))
    start = int(request.GET["from"]) if request.GET.get("from", "").isdecimal() else 0
    found = find_vans(person, search)
    page = list(found[start : start + _PAGE + 1])
    lines = [(van, kept_lacks(van.lacks)) for van in page[:_PAGE]]
    more = start + _PAGE if len(page) > _PAGE else None
    return render(request, "desk/van/vans.html", {"lines": lines, "q": search, "more": more, "start": start})
