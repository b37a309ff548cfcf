"""The round before it is held: planning it."""

from __future__ import annotations

from django.urls import path

from firstpitch.desk.pages.round import views

urlpatterns = [
    path("round/<int:handover>/", views.round_page, name="round"),
    path("round/<int:handover>/plan/", views.plan, name="round-plan"),
    path("round/<int:handover>/better/", views.better, name="round-better"),
    path("round/<int:handover>/wish/", views.wish, name="round-wish"),
    path("round/<int:handover>/step/<str:step>/", views.step, name="round-step"),
    path("round/<int:handover>/round.pdf", views.pdf, name="round-pdf"),
]
