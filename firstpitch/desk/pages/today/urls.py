"""Today and the diary of handovers."""

from __future__ import annotations

from django.urls import path

from firstpitch.desk.pages.today import views

urlpatterns = [
    path("", views.today, name="today"),
    path("handovers/new/", views.new, name="handover-new"),
    path("handovers/<int:pk>/change/", views.change, name="handover-change"),
]
