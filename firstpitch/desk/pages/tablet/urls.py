"""The parts of the installed app."""

from __future__ import annotations

from django.urls import path

from firstpitch.desk.pages.tablet import views

urlpatterns = [
    path("worker.js", views.worker, name="worker"),
    path("manifest.webmanifest", views.manifest, name="manifest"),
    path("tablet/", views.tablet, name="tablet"),
    path("tablet/two-answers/", views.two_answers, name="two-answers"),
    path("tablet/here/", views.here, name="here"),
]
