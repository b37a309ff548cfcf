"""Calling a handover off, and taking it up again."""

from __future__ import annotations

from django import forms
from django.contrib import messages
from django.http import HttpRequest, HttpResponseBase
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_POST

from firstpitch.desk.access import member, members, the_handover
from firstpitch.desk.actions.handovers import LONGEST_WHY, SignedError, call_off, take_up_again


class CallOffForm(forms.Form):
    """Why it will not be."""

    why = forms.CharField(
        label="Why?",
        max_length=LONGEST_WHY,
        help_text="It stands on Today and in the van's history.",
        error_messages={"required": "Say why: whoever finds the van still here will want to know."},
    )


@members()
@require_http_methods(["GET", "POST"])
def off(request: HttpRequest, pk: int) -> HttpResponseBase:
    """Ask for the reason, then call it off."""
    person = member(request)
    one = the_handover(person, pk)
    form = CallOffForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        try:
            call_off(by=person, handover=one, why=form.cleaned_data["why"])
            messages.success(request, f"The handover to {one.owner_name} is called off.")
        except SignedError as wrong:
            messages.error(request, str(wrong))
        return redirect("handover", pk)
    return render(
        request, "desk/handover/call_off.html", {"handover": one, "form": form}, status=422 if form.errors else 200
    )


@members()
@require_POST
def up(request: HttpRequest, pk: int) -> HttpResponseBase:
    """It will be after all."""
    person = member(request)
    one = take_up_again(by=person, handover=the_handover(person, pk))
    messages.success(request, f"The handover to {one.owner_name} stands again. Its owner needs a new link.")
    return redirect("handover", pk)
