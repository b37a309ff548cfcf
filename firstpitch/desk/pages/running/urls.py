"""Running the desk: its health, and what is made in its queue."""

from __future__ import annotations

from django.urls import path

from firstpitch.desk.pages.running import packs, views

urlpatterns = [
    path("health/", views.health_page, name="health"),
    path("vans/<int:pk>/pack/", packs.pack, name="van-pack"),
    path("vans/<int:pk>/pack/ask/", packs.ask, name="van-pack-ask"),
    path("vans/<int:pk>/pack/stop/<int:job>/", packs.stop_it, name="van-pack-stop"),
    path("vans/<int:pk>/pack.pdf", packs.file, name="van-pack-file"),
]
