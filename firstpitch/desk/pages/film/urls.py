"""Films."""

from __future__ import annotations

from django.urls import path

from firstpitch.desk.pages.film import acting, scripting, sending, views

_FILM = "vans/<int:pk>/film/<uuid:film>/"
urlpatterns = [
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
    path(f"{_FILM}hide/", acting.hide, name="film-hide"),
    path(f"{_FILM}speaker/", acting.speaker, name="film-speaker"),
    path(f"{_FILM}remove/", acting.remove, name="film-remove"),
]
