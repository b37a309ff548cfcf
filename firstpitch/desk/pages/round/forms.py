"""The form for planning a round."""

from __future__ import annotations

import re
from typing import Any

from django import forms

from firstpitch.desk.planning import WISHES

_MINUTES = re.compile(r"^(?:(\d{1,2})\s*h(?:ours?)?)?\s*(?:(\d{1,3})\s*(?:m|min|minutes?)?)?$", re.I)
_LEAST, _MOST = 5, 24 * 60
_EXAMPLES = "“90”, “90 min” or “1 h 30”"


class MinutesField(forms.CharField):
    """Minutes as people write them; nothing means no limit."""

    def clean(self, value: Any) -> int | None:
        """The minutes."""
        text = super().clean(value).strip()
        if not text:
            return None
        found = _MINUTES.match(text)
        if not found or not (found[1] or found[2]):
            raise forms.ValidationError(f"“{text[:20]}” is no length of time; write for example {_EXAMPLES}.")
        minutes = int(found[1] or 0) * 60 + int(found[2] or 0)
        if not _LEAST <= minutes <= _MOST:
            raise forms.ValidationError(f"A round takes {_LEAST} minutes at least and a day at most.")
        return minutes


class PlanForm(forms.Form):
    """How the round is to be held."""

    minutes = MinutesField(
        label="How long may it take?",
        required=False,
        max_length=20,
        help_text=f"As you would say it: {_EXAMPLES}. Nothing means as long as it takes.",
    )
    mode = forms.ChoiceField(
        label="What for?", choices=[("handover", "For the owner"), ("film", "For a film")], widget=forms.RadioSelect
    )
    start = forms.ChoiceField(
        label="How is the van found?",
        choices=[("from-store", "As it comes from store"), ("on-hook-up", "Set up, on hook-up")],
        widget=forms.RadioSelect,
    )
    water = forms.ChoiceField(
        label="How is the water left?",
        choices=[("drained", "Drained"), ("kept", "Full, for the first trip")],
        widget=forms.RadioSelect,
    )

    def options(self, wishes: dict[str, list[str]]) -> dict[str, Any]:
        """What is kept with the plan."""
        return {**self.cleaned_data, **{name: wishes.get(name, []) for name in WISHES}}


def started(options: dict[str, Any]) -> dict[str, Any]:
    """What the form begins with."""
    return {
        "minutes": options.get("minutes") or "",
        "mode": options.get("mode", "handover"),
        "start": options.get("start", "from-store"),
        "water": options.get("water", "drained"),
    }
