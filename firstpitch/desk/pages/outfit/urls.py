"""The outfit of a handover: car, load and stow."""

from __future__ import annotations

from django.urls import path

from firstpitch.desk.pages.outfit import sheets, views

urlpatterns = [
    path("outfit/<int:handover>/", views.outfit, name="outfit"),
    path("outfit/<int:handover>/car/", sheets.car, name="outfit-car"),
    path("outfit/<int:handover>/car/sheet/", sheets.car_text, name="outfit-car-sheet"),
    path("outfit/<int:handover>/load/", sheets.load, name="outfit-load"),
    path("outfit/<int:handover>/load/sheet/", sheets.load_text, name="outfit-load-sheet"),
    path("outfit/<int:handover>/stow/", views.stow, name="outfit-stow"),
    path("outfit/<int:handover>/move/", views.move, name="outfit-move"),
    path("outfit/<int:handover>/best/", views.best, name="outfit-best"),
    path("outfit/<int:handover>/outfit.pdf", views.pdf, name="outfit-pdf"),
    path("vans/<int:pk>/outfit/", views.of_van, name="van-outfit"),
]
