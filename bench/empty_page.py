"""The desk with an empty page beside its own: the measure that ``bench/visits.py`` holds the others against."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import include, path

from firstpitch.desk.access import members


def empty(request: HttpRequest) -> HttpResponse:  # noqa: ARG001
    """An answer without anything in it: no template, no sign-in asked for, no row but what the middleware reads."""
    return HttpResponse()


@members()
def frame(request: HttpRequest) -> HttpResponse:
    """What every page of the desk has, round nothing: somebody signed in, head and ways."""
    return render(request, "desk/base.html")


urlpatterns = [path("empty/", empty), path("empty/frame/", frame), path("", include("firstpitch.desk.urls"))]
