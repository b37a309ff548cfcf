"""Settings of the branch."""

from __future__ import annotations

from django.urls import path

from firstpitch.desk.pages.settings import views

urlpatterns = [path("settings/", views.settings, name="settings")]
