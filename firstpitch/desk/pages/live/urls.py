"""The live round and what tablets say to the desk."""

from __future__ import annotations

from django.urls import path

from firstpitch.desk.pages.live import views

urlpatterns = [
    path("live/<int:handover>/", views.live, name="live"),
    path("live/<int:handover>/events/", views.events, name="live-events"),
    path("live/<int:handover>/since/", views.since, name="live-since"),
    path("live/<int:handover>/kit.json", views.kit, name="live-kit"),
    path("live/<int:handover>/replan/", views.replan, name="live-replan"),
    path("media/", views.media, name="media"),
]
