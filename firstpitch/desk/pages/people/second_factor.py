"""Setting up the second factor, new codes for paper, turning it off."""

from __future__ import annotations

import base64

import segno
from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.safestring import SafeString, mark_safe
from django.views.decorators.http import require_POST
from django_otp.plugins.otp_totp.models import TOTPDevice

from firstpitch.desk.access import member, members
from firstpitch.desk.actions import second_factor as act
from firstpitch.desk.actions.people import RefusedError
from firstpitch.desk.limits import limit
from firstpitch.desk.pages.people.forms import ConfirmForm, SureForm
from firstpitch.desk.pages.people.own import key_of

_WRONG = "That code is not right. Look whether the phone's clock is right, and take the code it shows now."


def qr(words: str, name: str) -> SafeString:
    """A QR code (ISO/IEC 18004) of ``words`` as SVG, black on white in light and dark."""
    drawn = segno.make(words, error="m", micro=False)
    return mark_safe(drawn.svg_inline(border=4, light="#ffffff", dark="#000000", title=name, omitsize=True))


def key_words(device: TOTPDevice) -> str:
    """The key as it is typed into a phone: Base32 in fours (RFC 4648 section 6)."""
    key = base64.b32encode(device.bin_key).decode().rstrip("=")
    return " ".join(key[place : place + 4] for place in range(0, len(key), 4))


@members()
@require_POST
def start(request: HttpRequest) -> HttpResponse:
    """Begin to set up a phone."""
    try:
        act.start(by=member(request))
    except RefusedError as refused:
        messages.error(request, str(refused))
        return redirect("me")
    return redirect("second-factor")


@members()
def set_up(request: HttpRequest) -> HttpResponse:
    """Read the key into the phone and give its first code; then the codes for paper are shown, once."""
    person = member(request)
    device = act.device_of(person, confirmed=False)
    if device is None:
        return redirect("me")
    form = ConfirmForm(request.POST or None, person=person)
    if request.method == "POST":
        limit(request, "code", f"person {person.pk}")
        if form.is_valid():
            codes = act.confirm(by=person, code=form.cleaned_data["code"], keep=key_of(request))
            if codes:
                request.session["second_factor"] = True
                return _codes(request, codes, first=True)
            form.add_error("code", _WRONG)
    context = {"form": form, "qr": qr(device.config_url, "Key for your phone"), "key": key_words(device)}
    return render(request, "desk/people/second_factor.html", context)


def _codes(request: HttpRequest, codes: tuple[str, ...], *, first: bool) -> HttpResponse:
    shown = [f"{code[:4]} {code[4:]}" for code in codes]
    return render(request, "desk/people/codes.html", {"codes": shown, "first": first})


@members()
def new_codes(request: HttpRequest) -> HttpResponse:
    """New codes for paper, after the password."""
    person = member(request)
    form = SureForm(request.POST or None, person=person)
    if request.method == "POST":
        limit(request, "password", f"person {person.pk}")
        if form.is_valid():
            try:
                return _codes(request, act.new_codes(by=person), first=False)
            except RefusedError as refused:
                form.add_error(None, str(refused))
    return render(request, "desk/people/sure_codes.html", {"form": form})


@members()
def turn_off(request: HttpRequest) -> HttpResponse:
    """Turn one's own second factor off, after the password."""
    person = member(request)
    form = SureForm(request.POST or None, person=person)
    if request.method == "POST":
        limit(request, "password", f"person {person.pk}")
        if form.is_valid():
            act.turn_off(by=person, person=person)
            messages.success(request, "Your second factor is off.")
            return redirect("me")
    return render(request, "desk/people/sure_off.html", {"form": form})
