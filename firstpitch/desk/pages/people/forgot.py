"""A new password by a mailed link."""

from __future__ import annotations

from django.contrib import messages
from django.contrib.auth.tokens import default_token_generator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.encoding import DjangoUnicodeDecodeError, force_bytes, force_str
from django.utils.http import urlsafe_base64_decode, urlsafe_base64_encode

from firstpitch.desk.access import anyone, at_the_door, people_with_email
from firstpitch.desk.actions.people import reset_password
from firstpitch.desk.limits import TooManyError, limit
from firstpitch.desk.models import Person
from firstpitch.desk.pages.people.doorway import doorway
from firstpitch.desk.pages.people.forms import ForgotForm, NewPasswordForm
from firstpitch.desk.pages.people.mail import mail_reset


@anyone
def forgot(request: HttpRequest) -> HttpResponse:
    """Ask for a link; the answer is the same whether the address is known or not."""
    form = ForgotForm(request.POST or None)
    if request.method == "POST":
        limit(request, "reset")
        if form.is_valid():
            email = form.cleaned_data["email"]
            _send_links(request, email)
            return render(request, "desk/people/forgot_sent.html", {"email": email, "doorway": doorway()})
    return render(request, "desk/people/forgot.html", {"form": form, "doorway": doorway()})


def _send_links(request: HttpRequest, email: str) -> None:
    try:
        limit(request, "reset-name", f"email {email.lower()}")
    except TooManyError:
        return
    for person in people_with_email(email):
        name = urlsafe_base64_encode(force_bytes(person.pk))
        path = reverse("reset", args=[name, default_token_generator.make_token(person)])
        mail_reset(person, request.build_absolute_uri(path))


@anyone
def reset(request: HttpRequest, who: str, token: str) -> HttpResponse:
    """Set the new password."""
    person = _holder(who)
    if person is None or not default_token_generator.check_token(person, token):
        limit(request, "reset-link")
        return render(request, "desk/people/reset_over.html", {"doorway": doorway()}, status=410)
    form = NewPasswordForm(request.POST or None, person=person)
    if request.method == "POST" and form.is_valid():
        reset_password(by=None, person=person, password=form.cleaned_data["new_password"])
        messages.success(request, "Your new password is set, and you are signed out everywhere. Sign in with it now.")
        return redirect("sign-in")
    return render(request, "desk/people/reset.html", {"form": form, "person": person, "doorway": doorway()})


def _holder(who: str) -> Person | None:
    try:
        return at_the_door(int(force_str(urlsafe_base64_decode(who))))
    except (ValueError, OverflowError, DjangoUnicodeDecodeError):
        return None
