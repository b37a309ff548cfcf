"""Signing in: name and password, then a code for those who have a second factor."""

from __future__ import annotations

from typing import Any

from django.contrib.auth import login, logout
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render, resolve_url
from django.utils import timezone
from django.utils.crypto import constant_time_compare
from django.utils.http import url_has_allowed_host_and_scheme
from django.views.decorators.http import require_POST

from firstpitch.desk.access import anyone, at_the_door, nobody_yet
from firstpitch.desk.actions.second_factor import check_code
from firstpitch.desk.limits import limit
from firstpitch.desk.models import Person
from firstpitch.desk.pages.people.doorway import doorway
from firstpitch.desk.pages.people.forms import CodeForm, SignInForm

_BACKEND = "django.contrib.auth.backends.ModelBackend"
_HALF_S = 600
_LOCKED_S = 900
_LOCKED = (
    "There were six wrong passwords for this name from here, so it is locked for a quarter of an hour. "
    "Wait, or ask for a new password below."
)
_WRONG_CODE = "That code is not right, or was used already. Wait for the next one on your phone; after wrong codes the wait grows."


@anyone
def sign_in(request: HttpRequest) -> HttpResponse:
    """Name and password."""
    if nobody_yet():
        return redirect("first")
    if request.user.is_authenticated:
        return redirect(_after(request))
    form = SignInForm(request, data=request.POST or None)
    if request.method == "POST":
        limit(request, "sign-in")
        if form.is_valid():
            return _past_password(request, form)
    return _page(request, form)


def _past_password(request: HttpRequest, form: SignInForm) -> HttpResponse:
    person = form.get_user()
    assert isinstance(person, Person)
    if not person.second_factor:
        begin(request, person, form.device())
        return redirect(_after(request))
    request.session["half"] = {
        "person": person.pk,
        "hash": person.get_session_auth_hash(),
        "at": int(timezone.now().timestamp()),
        "device": form.device(),
        "after": _after(request),
    }
    return redirect("sign-in-code")


def _page(request: HttpRequest, form: SignInForm, **more: Any) -> HttpResponse:
    context = {"form": form, "next": _after(request), "doorway": doorway(), **more}
    return render(request, "desk/people/sign_in.html", context)


def _after(request: HttpRequest) -> str:
    """Where to go when signed in: where one came from on this desk, else to today."""
    asked = request.POST.get("next") or request.GET.get("next") or ""
    safe = url_has_allowed_host_and_scheme(asked, {request.get_host()}, require_https=request.is_secure())
    return asked if safe else resolve_url("today")


def begin(request: HttpRequest, person: Person, device: str) -> None:
    """Sign the person in on this browser, as far as their sign-in needs."""
    login(request, person, backend=_BACKEND)
    request.session["device"] = device
    request.session["second_factor"] = person.second_factor
    request.session["seen"] = int(timezone.now().timestamp())


def locked_out(request: HttpRequest, original: HttpResponse | None, credentials: dict[str, Any] | None) -> HttpResponse:  # noqa: ARG001  (axes' signature)
    """The sign-in page after too many wrong passwords for one name from one place."""
    form = SignInForm(request, initial={"username": request.POST.get("username", "")})
    response = _page(request, form, locked=_LOCKED)
    response.status_code = 429
    response.headers["Retry-After"] = str(_LOCKED_S)
    return response


@anyone
def sign_in_code(request: HttpRequest) -> HttpResponse:
    """The code, once the password was right."""
    half = request.session.get("half")
    person = _half_in(half)
    if not half or person is None:
        request.session.pop("half", None)
        return redirect("sign-in")
    form = CodeForm(request.POST or None)
    if request.method == "POST":
        limit(request, "code", f"person {person.pk}")
        if form.is_valid() and check_code(by=person, code=form.cleaned_data["code"]):
            begin(request, person, str(half["device"]))
            request.session.pop("half", None)
            return redirect(str(half["after"]))
        if form.is_valid():
            form.add_error("code", _WRONG_CODE)
    return render(request, "desk/people/code.html", {"form": form, "doorway": doorway()})


def _half_in(half: dict[str, Any] | None) -> Person | None:
    """Whose password was right less than ten minutes ago, and is still that password."""
    if not half or timezone.now().timestamp() - half["at"] > _HALF_S:
        return None
    person = at_the_door(int(half["person"]))
    if person is None or not constant_time_compare(person.get_session_auth_hash(), half["hash"]):
        return None
    return person


@anyone
@require_POST
def sign_out(request: HttpRequest) -> HttpResponse:
    """Sign out on this browser."""
    logout(request)
    return redirect("sign-in")
