"""The people of a branch, for its managers."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.views.decorators.http import require_POST

from firstpitch.desk.access import branch_events, invitations, member, members, people, the_person
from firstpitch.desk.actions import people as act
from firstpitch.desk.actions.second_factor import turn_off
from firstpitch.desk.limits import limit
from firstpitch.desk.models import Role
from firstpitch.desk.pages.people.forms import InviteForm, RoleForm
from firstpitch.desk.pages.people.mail import mail_invitation
from firstpitch.desk.pages.people.words import in_words

_SHOWN_EVENTS = 40


@members(Role.MANAGER)
def list_people(request: HttpRequest) -> HttpResponse:
    """Who belongs to the branch, who is invited, what happened."""
    return _page(request, InviteForm())


def _page(request: HttpRequest, form: InviteForm, **more: Any) -> HttpResponse:
    person = member(request)
    rows = people(person).order_by("-is_active", "first_name", "last_name", "username")
    events = branch_events(person).filter(what__startswith="person.").order_by("-at")[:_SHOWN_EVENTS]
    context = {
        "people": [(row, RoleForm(initial={"role": row.role}, prefix=f"p{row.pk}")) for row in rows],
        "invitations": invitations(person),
        "events": [(event, in_words(event)) for event in events],
        "form": form,
        **more,
    }
    return render(request, "desk/people/people.html", context)


@members(Role.MANAGER)
@require_POST
def invite(request: HttpRequest) -> HttpResponse:
    """Invite somebody; the link goes by mail and is shown this once."""
    person = member(request)
    limit(request, "invite", f"person {person.pk}")
    form = InviteForm(request.POST)
    if form.is_valid():
        try:
            made = act.invite(by=person, email=form.cleaned_data["email"], role=Role(form.cleaned_data["role"]))
        except act.RefusedError as refused:
            form.add_error("email", str(refused))
        else:
            link = request.build_absolute_uri(reverse("join", args=[made.secret]))
            sent = mail_invitation(made.invitation, link)
            return _page(request, InviteForm(), made=made.invitation, link=link, sent=sent)
    return _page(request, form)


def _do(request: HttpRequest, done: str, act_now: Callable[[], None]) -> HttpResponse:
    """Do it, say so or say why not, and go back to the list."""
    try:
        act_now()
    except act.RefusedError as refused:
        messages.error(request, str(refused))
    else:
        messages.success(request, done)
    return redirect("people")


@members(Role.MANAGER)
@require_POST
def withdraw(request: HttpRequest, invitation: int) -> HttpResponse:
    """Take an invitation back."""
    by = member(request)
    found = get_object_or_404(invitations(by), pk=invitation)
    done = f"The invitation of {found.email} is taken back."
    return _do(request, done, lambda: act.withdraw_invitation(by=by, invitation=found))


@members(Role.MANAGER)
@require_POST
def role(request: HttpRequest, person: int) -> HttpResponse:
    """Give somebody another role."""
    by, found = member(request), the_person(member(request), person)
    form = RoleForm(request.POST, prefix=f"p{found.pk}")
    if not form.is_valid():
        messages.error(request, "Choose one of the roles.")
        return redirect("people")
    new = Role(form.cleaned_data["role"])
    done = f"{found.shown_name} is now: {new.label.lower()}."
    return _do(request, done, lambda: act.change_role(by=by, person=found, role=new))


@members(Role.MANAGER)
@require_POST
def shut(request: HttpRequest, person: int) -> HttpResponse:
    """Shut somebody's account."""
    by, found = member(request), the_person(member(request), person)
    done = (
        f"{found.shown_name} is signed out everywhere and cannot sign in any more. What they did stays on the records."
    )
    return _do(request, done, lambda: act.deactivate(by=by, person=found))


@members(Role.MANAGER)
@require_POST
def reopen(request: HttpRequest, person: int) -> HttpResponse:
    """Open a shut account again."""
    by, found = member(request), the_person(member(request), person)
    done = f"{found.shown_name} can sign in again."
    return _do(request, done, lambda: act.take_back(by=by, person=found))


@members(Role.MANAGER)
@require_POST
def factor_off(request: HttpRequest, person: int) -> HttpResponse:
    """Turn off the second factor of somebody who lost phone and codes."""
    by, found = member(request), the_person(member(request), person)
    done = f"{found.shown_name} signs in with the password alone until they set up a new second factor."
    return _do(request, done, lambda: turn_off(by=by, person=found))
