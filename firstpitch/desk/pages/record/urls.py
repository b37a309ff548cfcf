"""The record of a handover."""

from __future__ import annotations

from django.urls import path

from firstpitch.desk.pages.record import views

urlpatterns = [
    path("handovers/<int:pk>/record/", views.record, name="record"),
    path("handovers/<int:pk>/record/sign/", views.sign, name="record-sign"),
    path("handovers/<int:pk>/record.pdf", views.document, name="record-file"),
]
