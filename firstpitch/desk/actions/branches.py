"""Writes about the branch itself: its name, its habits and the guidelines it goes by."""

from __future__ import annotations

from django.db import transaction

from firstpitch.desk.access import branch_of
from firstpitch.desk.actions.history import write_branch
from firstpitch.desk.guidelines import Guidelines
from firstpitch.desk.models import Branch, Person


class BranchNameError(ValueError):
    """Another branch has this name."""


@transaction.atomic
def change_branch(
    *,
    by: Person,
    name: str,
    telephone: str,
    words_per_minute: int,
    metres_per_second: float,
    guidelines: Guidelines,
) -> Branch:
    """Change the settings of the person's branch; only what differs goes into its history."""
    branch = Branch.objects.select_for_update().get(pk=branch_of(by).pk)
    if Branch.objects.filter(name=name).exclude(pk=branch.pk).exists():
        raise BranchNameError("Another branch has this name; add the place to it.")
    new = {
        "name": name,
        "telephone": telephone,
        "words_per_minute": words_per_minute,
        "metres_per_second": metres_per_second,
        "choices": {**branch.choices, **guidelines.stored()},
    }
    changed = {key: [getattr(branch, key), value] for key, value in new.items() if getattr(branch, key) != value}
    if not changed:
        return branch
    for key, value in new.items():
        setattr(branch, key, value)
    branch.save()
    write_branch(by=by, branch=branch, what="branch.changed", data={"changed": changed})
    return branch
