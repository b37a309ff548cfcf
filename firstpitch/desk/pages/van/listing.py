"""All vans of the branch."""

from __future__ import annotations

from django.db.models import Q
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET

from firstpitch.desk.access import member, members, vans
from firstpitch.desk.inputs import kept_lacks

_PAGE = 40


@members()
@require_GET
def listing(request: HttpRequest) -> HttpResponse:
    """The vans of the branch, newest first, found by name, stock number or chassis number."""
    person = member(request)
    search = " ".join(request.GET.get("q", "").split())[:60]
    start = int(request.GET["from"]) if request.GET.get("from", "").isdecimal() else 0
    found = vans(person).order_by("-id").defer("sheet")
    if search:
        found = found.filter(
            Q(name__icontains=search) | Q(stock_number__icontains=search) | Q(chassis_number__icontains=search)
        )
    page = list(found[start : start + _PAGE + 1])
    lines = [(van, kept_lacks(van)) for van in page[:_PAGE]]
    more = start + _PAGE if len(page) > _PAGE else None
    return render(request, "desk/van/vans.html", {"lines": lines, "q": search, "more": more, "start": start})
