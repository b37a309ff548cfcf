"""Running the desk: its health."""

from __future__ import annotations

from django.urls import path

from firstpitch.desk.pages.running import views

urlpatterns = [
    path("health/", views.health_page, name="health"),
]
