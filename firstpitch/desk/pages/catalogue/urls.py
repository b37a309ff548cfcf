"""The catalogue."""

from __future__ import annotations

from django.urls import path

from firstpitch.desk.pages.catalogue import views

urlpatterns = [
    path("catalogue/", views.catalogue, name="catalogue"),
    path("catalogue/new/", views.own_text, name="kind-new"),
    path("catalogue/<slug:key>/", views.kind, name="kind"),
    path("catalogue/<slug:key>/own/", views.own_text, name="kind-own"),
    path("catalogue/<slug:key>/own/drop/", views.drop, name="kind-drop"),
]
