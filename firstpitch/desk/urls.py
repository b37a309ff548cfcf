"""All addresses of the desk, a list per group of pages."""

from __future__ import annotations

from django.urls import URLPattern, URLResolver, include, path

urlpatterns: list[URLPattern | URLResolver] = [
    path("", include("firstpitch.desk.pages.people.urls")),
    path("", include("firstpitch.desk.pages.today.urls")),
    path("", include("firstpitch.desk.pages.van.urls")),
    path("", include("firstpitch.desk.pages.handover.urls")),
    path("", include("firstpitch.desk.pages.record.urls")),
    path("", include("firstpitch.desk.pages.owner.urls")),
    path("", include("firstpitch.desk.pages.round.urls")),
    path("", include("firstpitch.desk.pages.outfit.urls")),
    path("", include("firstpitch.desk.pages.live.urls")),
    path("", include("firstpitch.desk.pages.tablet.urls")),
    path("", include("firstpitch.desk.pages.catalogue.urls")),
    path("", include("firstpitch.desk.pages.settings.urls")),
    path("", include("firstpitch.desk.pages.film.urls")),
    path("", include("firstpitch.desk.pages.running.urls")),
]

handler400 = "firstpitch.desk.trouble.bad_request"
handler403 = "firstpitch.desk.trouble.forbidden"
handler404 = "firstpitch.desk.trouble.not_found"
handler500 = "firstpitch.desk.trouble.server_error"
