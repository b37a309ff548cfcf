"""Forms of the film pages."""

from __future__ import annotations

from django import forms

from firstpitch.desk.actions.film import ACCEPTED, DISMISSED, LONGEST_NAME, LONGEST_REASON


class CaptionsForm(forms.Form):
    """Captions that somebody made."""

    captions = forms.FileField(
        label="Captions",
        help_text="WebVTT, SRT, timed text ([1:05] This is the hitch) or word-level JSON, up to 8 MB.",
        error_messages={
            "required": "Choose the file with the captions.",
            "empty": "The file is empty. Choose it again.",
        },
    )


class DecisionForm(forms.Form):
    """What somebody thinks of a finding."""

    finding = forms.CharField(max_length=200, widget=forms.HiddenInput)
    words = forms.CharField(max_length=300, required=False, widget=forms.HiddenInput)
    verdict = forms.ChoiceField(
        label="Is it so?",
        choices=((ACCEPTED, "It is so: film it again"), (DISMISSED, "It is no fault"), ("", "Not decided")),
        widget=forms.RadioSelect,
        required=False,
    )
    reason = forms.CharField(
        label="Why",
        required=False,
        max_length=LONGEST_REASON,
        widget=forms.Textarea(attrs={"rows": 3}),
        help_text="Needed where it is no fault; it stands in the history.",
    )


class OverrideForm(forms.Form):
    """Who lets a film be shown against a block, and why."""

    override_name = forms.CharField(label="Who answers for it", max_length=LONGEST_NAME, required=False)
    override_reason = forms.CharField(
        label="Why the owner is to see it all the same",
        max_length=LONGEST_REASON,
        required=False,
        widget=forms.Textarea(attrs={"rows": 3}),
    )


class ScriptForm(forms.Form):
    """How long the film may be, and at whose pace it is spoken."""

    minutes = forms.IntegerField(
        label="Minutes there are",
        min_value=3,
        max_value=240,
        required=False,
        help_text="Left empty: as long as it takes.",
        error_messages={
            "min_value": "At least 3 minutes.",
            "max_value": "At most 240 minutes.",
            "invalid": "Write whole minutes.",
        },
    )
    pace = forms.IntegerField(
        label="Words a minute",
        min_value=80,
        max_value=240,
        required=False,
        error_messages={
            "min_value": "Slower than 80 words a minute nobody can follow.",
            "max_value": "Faster than 240 words a minute nobody can follow.",
            "invalid": "Write whole words a minute.",
        },
    )
