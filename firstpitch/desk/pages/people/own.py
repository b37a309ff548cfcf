"""One's own page: name, address, password, second factor, where one is signed in."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.contrib.auth import update_session_auth_hash
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_POST

from firstpitch.desk.access import member, members, sessions
from firstpitch.desk.actions import people as act
from firstpitch.desk.actions.second_factor import codes_left
from firstpitch.desk.limits import limit
from firstpitch.desk.pages.people.forms import ChangePasswordForm, EmailForm, NameForm


def key_of(request: HttpRequest) -> str:
    """The key of this browser's session."""
    return request.session.session_key or ""


@members()
def me(request: HttpRequest) -> HttpResponse:
    """One's own page."""
    return own_page(request)


def own_page(request: HttpRequest, **bound: Any) -> HttpResponse:
    """One's own page, with forms that came back with faults in their places."""
    person = member(request)
    here = key_of(request)
    context = {
        "person": person,
        "name_form": NameForm(initial={"first_name": person.first_name, "last_name": person.last_name}),
        "email_form": EmailForm(person=person, initial={"email": person.email}),
        "password_form": ChangePasswordForm(person=person),
        "sessions": [(act.session_mark(row), row, row.session_key == here) for row in sessions(person)],
        "codes_left": codes_left(person) if person.second_factor else 0,
        **bound,
    }
    return render(request, "desk/people/me.html", context)


@members()
@require_POST
def name(request: HttpRequest) -> HttpResponse:
    """Change one's name."""
    form = NameForm(request.POST)
    if not form.is_valid():
        return own_page(request, name_form=form)
    act.change_name(by=member(request), **form.cleaned_data)
    messages.success(request, "Your name is changed. Records signed before keep the old one.")
    return redirect("me")


@members()
@require_POST
def email(request: HttpRequest) -> HttpResponse:
    """Change one's address."""
    person = member(request)
    limit(request, "password", f"person {person.pk}")
    form = EmailForm(request.POST, person=person)
    if not form.is_valid():
        return own_page(request, email_form=form)
    act.change_email(by=person, email=form.cleaned_data["email"])
    messages.success(request, "Your address is changed.")
    return redirect("me")


@members()
@require_POST
def password(request: HttpRequest) -> HttpResponse:
    """Change one's password; all other browsers are signed out."""
    person = member(request)
    limit(request, "password", f"person {person.pk}")
    form = ChangePasswordForm(request.POST, person=person)
    if not form.is_valid():
        return own_page(request, password_form=form)
    act.change_password(by=person, password=form.cleaned_data["new_password"], keep=key_of(request))
    update_session_auth_hash(request, person)
    messages.success(request, "Your password is changed. Everywhere else you are signed out.")
    return redirect("me")


@members()
@require_POST
def end_session(request: HttpRequest, mark: str) -> HttpResponse:
    """Sign oneself out of one browser."""
    ended = act.end_session(by=member(request), mark=mark)
    messages.success(request, "That browser is signed out." if ended else "That browser was signed out already.")
    return redirect("me")


@members()
@require_POST
def end_others(request: HttpRequest) -> HttpResponse:
    """Sign oneself out everywhere but here."""
    act.end_other_sessions(by=member(request), keep=key_of(request))
    messages.success(request, "Everywhere else you are signed out.")
    return redirect("me")
