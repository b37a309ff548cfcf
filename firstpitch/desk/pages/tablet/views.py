"""The parts of the installed app: its worker, its manifest, the pages that hold nothing of anybody, and who is signed in."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse, JsonResponse
from django.middleware.csrf import get_token
from django.shortcuts import render
from django.templatetags.static import static
from django.utils import timezone
from django.views.decorators.http import require_GET

from firstpitch.desk.access import anyone
from firstpitch.desk.models import Person
from firstpitch.desk.shell import worker_text
from firstpitch.papers.look import LIGHT

_ICONS = (("192", "any"), ("512", "any"), ("512", "maskable"))


@anyone
@require_GET
def worker(request: HttpRequest) -> HttpResponse:
    """The worker, with the version and the files of the shell before it. Its text changes whenever any of them does."""
    response = HttpResponse(worker_text(request), content_type="text/javascript; charset=utf-8")
    response.headers["Cache-Control"] = "no-cache"
    response.headers["Service-Worker-Allowed"] = "/"
    return response


@anyone
@require_GET
def manifest(request: HttpRequest) -> JsonResponse:  # noqa: ARG001  (a view)
    """How the desk is put on a tablet's home screen."""
    icons = [
        {
            "src": static(f"desk/tablet/icon-{'maskable-' if use == 'maskable' else ''}{size}.png"),
            "sizes": f"{size}x{size}",
            "type": "image/png",
            "purpose": use,
        }
        for size, use in _ICONS
    ]
    given = {
        "id": "/",
        "name": "Firstpitch desk",
        "short_name": "Firstpitch",
        "description": "Caravan handovers, with or without a network.",
        "start_url": "/",
        "scope": "/",
        "display": "standalone",
        "lang": "en-GB",
        "background_color": LIGHT["paper"],
        "theme_color": LIGHT["paper"],
        "icons": icons,
    }
    response = JsonResponse(given, content_type="application/manifest+json")
    response.headers["Cache-Control"] = "no-cache"
    return response


@anyone
@require_GET
def tablet(request: HttpRequest) -> HttpResponse:
    """What this tablet has not sent and what it carries. All of it is on the tablet; the page itself holds nothing."""
    return render(request, "desk/tablet/tablet.html")


@anyone
@require_GET
def two_answers(request: HttpRequest) -> HttpResponse:
    """Where two tablets said different things: a person settles it. The page itself holds nothing."""
    return render(request, "desk/tablet/two_answers.html")


@anyone
@require_GET
def here(request: HttpRequest) -> JsonResponse:
    """Who is signed in on this tablet, and the desk's clock."""
    user = request.user
    signed_in = isinstance(user, Person) and user.branch_id is not None
    person = {"id": user.pk, "name": user.shown_name} if isinstance(user, Person) and signed_in else None
    if person:
        # Whoever may send needs the cookie. Nobody else gets one here: it could cross with that of the sign-in page.
        get_token(request)
    return JsonResponse({"person": person, "server_now": timezone.now().isoformat()})
