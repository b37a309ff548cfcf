"""What holds for every request: its size, the headers of the answer, limits in words, the session's last use."""

from __future__ import annotations

from collections.abc import Callable

from django.http import HttpRequest, HttpResponse, HttpResponseNotAllowed
from django.http.response import HttpResponseBase
from django.utils import timezone

from firstpitch.desk.limits import TooManyError, minutes
from firstpitch.desk.trouble import TOO_BIG, TROUBLES, Trouble, trouble
from firstpitch.desk.uploads import UploadError, too_long

GetResponse = Callable[[HttpRequest], HttpResponseBase]
_TOUCH_S = 600
_WRONG_METHOD = 405
_EXTRA = {
    "Permissions-Policy": "camera=(self), microphone=(self), geolocation=(), payment=(), usb=()",
    "Cross-Origin-Resource-Policy": "same-origin",
    "X-Permitted-Cross-Domain-Policies": "none",
}


class Guard:
    """Refuses what is too long before reading it; puts the headers on that Django has no setting for; limits become calm pages."""

    def __init__(self, get_response: GetResponse) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponseBase:
        """Pass the request on."""
        response = trouble(request, TOO_BIG) if too_long(request) else self.get_response(request)
        if isinstance(response, HttpResponseNotAllowed) and not response.content:
            allowed = response.headers.get("Allow", "")
            response = trouble(request, _WRONG_METHOD)
            response.headers["Allow"] = allowed
        for name, value in _EXTRA.items():
            response.headers.setdefault(name, value)
        if not response.has_header("Cache-Control"):
            response.headers["Cache-Control"] = "private, no-store"
        return response

    def process_exception(self, request: HttpRequest, exception: Exception) -> HttpResponse | None:
        """A used-up limit is 429 with the wait; a refused file that no form caught is 400 in its own words."""
        if isinstance(exception, TooManyError):
            wait = f"{exception.words} Wait {minutes(exception.wait_s)} and try again."
            response = trouble(request, 429, Trouble(TROUBLES[429].heading, wait))
            response.headers["Retry-After"] = str(exception.wait_s)
            return response
        if isinstance(exception, UploadError):
            return trouble(request, exception.status, Trouble("That file was not taken", str(exception)))
        return None


class LastUsed:
    """Every ten minutes of use the session is written again: its last use is known, and it ends two weeks after that."""

    def __init__(self, get_response: GetResponse) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponseBase:
        """Pass the request on."""
        seen = request.session.get("seen")
        now = int(timezone.now().timestamp())
        if seen is not None and now - seen > _TOUCH_S:
            request.session["seen"] = now
        return self.get_response(request)
