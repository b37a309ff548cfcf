"""The form for the branch's settings."""

from __future__ import annotations

from django import forms

from firstpitch.desk.guidelines import TOWED_MASS


class BranchForm(forms.Form):
    """Name, telephone, paces and guidelines."""

    name = forms.CharField(
        label="Name of the branch", max_length=80, error_messages={"required": "Write the branch's name."}
    )
    telephone = forms.CharField(
        label="Telephone", max_length=40, required=False, help_text="It stands on the owner's pack and pages."
    )
    words_per_minute = forms.IntegerField(
        label="Speaking pace",
        min_value=60,
        max_value=260,
        help_text="Words a minute, as your specialists speak on a walk-round. A calm pace is 130 to 160 (common practice, no source).",
        error_messages={"required": "Write a whole number.", "invalid": "Write a whole number, such as 150."},
    )
    metres_per_second = forms.FloatField(
        label="Walking pace",
        min_value=0.2,
        max_value=2.5,
        help_text="Metres a second, owner beside you, stopping to look (common practice, no source: 1).",
        error_messages={"required": "Write a number.", "invalid": "Write a number, such as 1 or 0.8."},
    )
    towed_mass = forms.ChoiceField(
        label="What is held against the car's towing limit?",
        choices=tuple(TOWED_MASS.items()),
        widget=forms.RadioSelect,
    )
    newcomers = forms.BooleanField(
        label="Show the guideline for newcomers: the caravan at most 85 % of the car's kerb mass", required=False
    )
