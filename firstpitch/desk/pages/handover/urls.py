"""A handover's own page: its ways on, its owner's links, its owner's questions."""

from __future__ import annotations

from django.urls import path

from firstpitch.desk.pages.handover import calling_off, views

urlpatterns = [
    path("handovers/<int:pk>/", views.handover, name="handover"),
    path("handovers/<int:pk>/call-off/", calling_off.off, name="handover-call-off"),
    path("handovers/<int:pk>/take-up/", calling_off.up, name="handover-take-up"),
    path("handovers/<int:pk>/links/", views.make, name="owner-link-make"),
    path("handovers/<int:pk>/links/<int:link>/revoke/", views.revoke, name="owner-link-revoke"),
    path("handovers/<int:pk>/questions/<int:question>/", views.answer, name="question-answer"),
    path("questions/", views.questions, name="questions"),
]
