"""Calm pages for what went wrong: a heading, what to do, never a traceback; the same as JSON for scripts that ask for JSON."""

from __future__ import annotations

import logging
from dataclasses import dataclass

from django.core.exceptions import (
    DisallowedHost,
    PermissionDenied,
    RequestDataTooBig,
    TooManyFieldsSent,
    TooManyFilesSent,
)
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.template.loader import render_to_string

_log = logging.getLogger(__name__)
TOO_BIG = 413


@dataclass(frozen=True)
class Trouble:
    """What is said: a heading, and what to do."""

    heading: str
    words: str


TROUBLES = {
    400: Trouble("That could not be read", "Go back, reload the page and try again."),
    403: Trouble("This is not yours to open", "Ask the manager of your branch if you need it."),
    404: Trouble("There is nothing here", "Check the address, or go back to Today and find the van from there."),
    405: Trouble("That is not a page", "Go back and use the button on the page."),
    413: Trouble("That is too big to send", "Send a smaller file: photos up to 20 MB, sheets up to 5 MB."),
    429: Trouble("Wait a little", "That was too often in a short time."),
    500: Trouble(
        "Something broke at our end",
        "Nothing you sent before is lost. Go back and try again; if it happens again, tell whoever looks after the desk.",
    ),
}
_STALE = Trouble(
    "Send it again",
    "The page was open too long, or the browser keeps no cookies. "
    "Go back, where what you typed still stands, copy it, reload the page and send it again.",
)
_WRONG_HOST = Trouble(
    "The desk does not answer to this address",
    "Whoever runs the desk adds the address to FIRSTPITCH_HOSTS.",
)


def wants_json(request: HttpRequest) -> bool:
    """Whether a script asks, that cannot read a page."""
    accepts = request.headers.get("Accept", "")
    return "application/json" in accepts and "text/html" not in accepts


def trouble(request: HttpRequest, status: int, said: Trouble | None = None) -> HttpResponse:
    """The page (or JSON) for ``status``; needs no database, no session and nobody signed in."""
    said = said or TROUBLES[status]
    if wants_json(request):
        return JsonResponse({"error": f"{said.heading}. {said.words}", "status": status}, status=status)
    try:
        body: str = render_to_string("desk/trouble.html", {"said": said, "status": status})
    except Exception:  # the page that must always come
        _log.exception("the page for status %d could not be drawn", status)
        body = f"<!doctype html><html lang=en-GB><title>{said.heading}</title><h1>{said.heading}</h1><p>{said.words}"
    return HttpResponse(body, status=status)


def bad_request(request: HttpRequest, exception: Exception) -> HttpResponse:
    """400, and 413 where it was too much."""
    if isinstance(exception, RequestDataTooBig | TooManyFilesSent | TooManyFieldsSent):
        return trouble(request, TOO_BIG)
    return trouble(request, 400, _WRONG_HOST if isinstance(exception, DisallowedHost) else None)


def forbidden(request: HttpRequest, exception: Exception) -> HttpResponse:
    """403, with our own sentence where the refusal has one."""
    words = str(exception) if isinstance(exception, PermissionDenied) else ""
    return trouble(request, 403, Trouble(TROUBLES[403].heading, words) if words else None)


def not_found(request: HttpRequest, exception: Exception) -> HttpResponse:  # noqa: ARG001  (Django's signature)
    """404; it does not say whether another branch has what was asked for."""
    return trouble(request, 404)


def server_error(request: HttpRequest) -> HttpResponse:
    """500."""
    return trouble(request, 500)


def stale_form(request: HttpRequest, reason: str = "") -> HttpResponse:  # noqa: ARG001  (Django's signature)
    """403 for a form without a good token."""
    return trouble(request, 403, _STALE)
