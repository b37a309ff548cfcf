"""Vans."""

from __future__ import annotations

from django.urls import path

from firstpitch.desk.pages.van import listing, photos, sheet_pages, taking_in, views

urlpatterns = [
    path("vans/", listing.listing, name="vans"),
    path("vans/new/", taking_in.ways, name="van-new"),
    path("vans/new/file/", taking_in.from_file, name="van-new-file"),
    path("vans/new/build-sheet.xlsx", taking_in.template, name="van-template"),
    path("vans/<int:pk>/similar/", taking_in.from_similar, name="van-new-similar"),
    path("vans/<int:pk>/", views.van, name="van"),
    path("vans/<int:pk>/kit/<slug:kit>/", views.kit, name="van-kit"),
    path("vans/<int:pk>/figures/", views.figures, name="van-figures"),
    path("vans/<int:pk>/snags/", views.snag, name="van-snag"),
    path("vans/<int:pk>/snags/<uuid:snag>/mended/", views.mended, name="van-snag-mended"),
    path("vans/<int:pk>/photos/", views.photo, name="van-photo"),
    path("vans/<int:pk>/history/", views.history, name="van-history"),
    path("vans/<int:pk>/sheet/", sheet_pages.sheet, name="van-sheet"),
    path("vans/<int:pk>/sheet.yaml", sheet_pages.sheet_file, name="van-sheet-file"),
    path("vans/<int:pk>/sheet.xlsx", sheet_pages.workbook, name="van-workbook"),
    path("vans/<int:pk>/kit.csv", sheet_pages.kit_list, name="van-kit-list"),
    path("photos/<uuid:key>/", photos.photo, name="photo"),
    path("photos/<uuid:key>/small/", photos.photo, {"size": "small"}, name="photo-small"),
]
