"""What an owner sees by a private link."""

from __future__ import annotations

from django.urls import path

from firstpitch.desk.pages.owner import views

urlpatterns = [
    path("owner/<str:secret>/", views.owner, name="owner"),
    path("owner/<str:secret>/pack/", views.pack, name="owner-pack"),
    path("owner/<str:secret>/pack.pdf", views.pack_pdf, name="owner-pack-file"),
    path("owner/<str:secret>/record.pdf", views.record_pdf, name="owner-record-file"),
    path("owner/<str:secret>/question/", views.question, name="owner-question"),
]
