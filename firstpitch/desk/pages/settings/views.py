"""Settings of the branch, for its manager."""

from __future__ import annotations

from typing import cast

from django.contrib import messages
from django.http import HttpRequest, HttpResponseBase
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods

from firstpitch.desk.access import branch_events, branch_of, member, members
from firstpitch.desk.actions.branches import BranchNameError, change_branch
from firstpitch.desk.guidelines import Guidelines, TowedMass, guidelines_of
from firstpitch.desk.models import Role
from firstpitch.desk.pages.settings.forms import BranchForm

_HISTORY = 10


@members(Role.MANAGER)
@require_http_methods(["GET", "POST"])
def settings(request: HttpRequest) -> HttpResponseBase:
    """Name, telephone, paces and the guidelines the branch goes by."""
    person = member(request)
    branch = branch_of(person)
    initial = {
        "name": branch.name,
        "telephone": branch.telephone,
        "words_per_minute": branch.words_per_minute,
        "metres_per_second": branch.metres_per_second,
        **guidelines_of(branch).stored(),
    }
    form = BranchForm(request.POST or None, initial=initial)
    if request.method == "POST" and form.is_valid():
        said = form.cleaned_data
        chosen = Guidelines(cast("TowedMass", said.pop("towed_mass")), said.pop("newcomers"))
        try:
            change_branch(by=person, guidelines=chosen, **said)
            messages.success(request, "The settings are kept.")
            return redirect("settings")
        except BranchNameError as wrong:
            form.add_error("name", str(wrong))
    history = branch_events(person).filter(what="branch.changed").order_by("-at")[:_HISTORY]
    about = {"form": form, "branch": branch, "history": history}
    return render(request, "desk/settings/settings.html", about, status=422 if form.errors else 200)
