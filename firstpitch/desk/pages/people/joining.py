"""Coming to the desk: by an invitation, or as the first of all."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone

from firstpitch.desk.access import anyone, nobody_yet
from firstpitch.desk.actions.people import RefusedError, accept_invitation, make_first, open_invitation
from firstpitch.desk.limits import limit
from firstpitch.desk.pages.people.doorway import doorway
from firstpitch.desk.pages.people.forms import FirstForm, JoinForm, device_words
from firstpitch.desk.pages.people.sign_in import begin
from firstpitch.desk.trouble import Trouble, trouble

_SET_UP = Trouble(
    "This desk is set up already", "Sign in. If you have no account, ask the manager of your branch to invite you."
)


@anyone
def join(request: HttpRequest, secret: str) -> HttpResponse:
    """Accept an invitation."""
    invitation = open_invitation(secret, timezone.now())
    if invitation is None:
        limit(request, "join")
        return render(request, "desk/people/join_over.html", {"doorway": doorway()}, status=410)
    form = JoinForm(request.POST or None)
    if request.method == "POST":
        limit(request, "join")
        if form.is_valid():
            try:
                person = accept_invitation(by=None, secret=secret, new=form.new())
            except RefusedError as refused:
                form.add_error("username", str(refused))
            else:
                begin(request, person, device_words(request.POST.get("screen", "")))
                messages.success(request, f"Welcome, {person.first_name}. This is your branch's day.")
                return redirect("today")
    return render(request, "desk/people/join.html", {"form": form, "invitation": invitation, "doorway": doorway()})


@anyone
def first(request: HttpRequest) -> HttpResponse:
    """Make the first branch and its manager, while there is none."""
    if not nobody_yet():
        return trouble(request, 403, _SET_UP)
    form = FirstForm(request.POST or None, initial={"code": request.GET.get("code", "")})
    if request.method == "POST":
        limit(request, "first")
        if form.is_valid():
            given = form.cleaned_data
            try:
                person = make_first(
                    by=None, code=given["code"], branch_name=given["branch_name"], email=given["email"], new=form.new()
                )
            except RefusedError as refused:
                form.add_error("code", str(refused))
            else:
                begin(request, person, device_words(request.POST.get("screen", "")))
                messages.success(request, "The branch is there. Set up your second factor, then you can invite people.")
                return redirect("me")
    return render(request, "desk/people/first.html", {"form": form, "doorway": doorway()})
