"""Today: who collects when."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone

from firstpitch.desk.access import handovers, member, members


@members()
def today(request: HttpRequest) -> HttpResponse:
    """The handovers of today and the days after, in order of time."""
    due = handovers(member(request)).filter(due__date__gte=timezone.localdate())[:40]
    return render(request, "desk/today.html", {"handovers": due})
