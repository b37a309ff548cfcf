"""Today."""

from __future__ import annotations

from django.urls import path

from firstpitch.desk.pages.today import views

urlpatterns = [path("", views.today, name="today")]
