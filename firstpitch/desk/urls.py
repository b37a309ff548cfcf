"""All addresses of the desk, a list per group of pages."""

from __future__ import annotations

from django.urls import URLPattern, URLResolver, include, path

urlpatterns: list[URLPattern | URLResolver] = [
    path("", include("firstpitch.desk.pages.people.urls")),
    path("", include("firstpitch.desk.pages.today.urls")),
]
