"""Films."""

from __future__ import annotations

from django.urls import path

from firstpitch.desk.pages.film import acting, owner, scripting, sending, views

_OWNER = "owner/<str:secret>/film/"
_FILM = "vans/<int:pk>/film/<uuid:film>/"
urlpatterns = [
    path(_OWNER, owner.film, name="owner-film"),
    path(f"{_OWNER}film.mp4", owner.video, name="owner-film-video"),
    path(f"{_OWNER}film.jpg", owner.poster, name="owner-film-poster"),
    path(f"{_OWNER}captions.vtt", owner.captions, name="owner-film-captions"),
    path(f"{_OWNER}chapters.vtt", owner.chapters, name="owner-film-chapters"),
    path(f"{_OWNER}index.json", owner.index, name="owner-film-index"),
    path(f"{_OWNER}labels.pdf", owner.labels, name="owner-film-labels"),
    path("vans/<int:pk>/film/", views.listing, name="van-film"),
    path("vans/<int:pk>/film/uploads/", sending.begin, name="film-uploads"),
    path("vans/<int:pk>/film/uploads/<uuid:upload>/", sending.upload, name="film-upload"),
    path("vans/<int:pk>/film/script/", scripting.script, name="film-script"),
    path("vans/<int:pk>/film/script.pdf", scripting.shot_list, name="film-script-file"),
    path(_FILM, views.film, name="film"),
    path(f"{_FILM}again/", views.again, name="film-again"),
    path(f"{_FILM}film.mp4", views.video, name="film-video"),
    path(f"{_FILM}film.jpg", views.poster, name="film-poster"),
    path(f"{_FILM}captions.vtt", views.captions, name="film-captions"),
    path(f"{_FILM}chapters.vtt", views.chapters, name="film-chapters"),
    path(f"{_FILM}transcript.txt", views.transcript, name="film-transcript"),
    path(f"{_FILM}captions/", acting.captions, name="film-give-captions"),
    path(f"{_FILM}check/", acting.check, name="film-check"),
    path(f"{_FILM}stop/<int:job>/", acting.stop_it, name="film-stop"),
    path(f"{_FILM}decide/", acting.decision, name="film-decide"),
    path(f"{_FILM}show/", acting.show, name="film-show"),
    path(f"{_FILM}labels/", acting.labels, name="film-labels"),
    path(f"{_FILM}hide/", acting.hide, name="film-hide"),
    path(f"{_FILM}speaker/", acting.speaker, name="film-speaker"),
    path(f"{_FILM}remove/", acting.remove, name="film-remove"),
]
