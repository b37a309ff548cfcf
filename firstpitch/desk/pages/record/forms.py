"""The form under a record: both signatures, and who answers for a snag left open."""

from __future__ import annotations

from django import forms

from firstpitch.desk.actions.records import LONGEST_NAME, LONGEST_PATH, LONGEST_REASON, Override, Signature

_TYPED = "The name above, as typed, is my signature"


class SignForm(forms.Form):
    """What is sent to sign a record. What each part has to be is told by the action."""

    name = forms.CharField(label="Name of whoever signs", max_length=LONGEST_NAME, required=False)
    typed = forms.BooleanField(label=_TYPED, required=False)
    path = forms.CharField(widget=forms.HiddenInput, max_length=LONGEST_PATH, required=False)
    confirmed = forms.BooleanField(label="I showed what is recorded here", required=False)
    override_name = forms.CharField(label="Who answers for that", max_length=LONGEST_NAME, required=False)
    override_reason = forms.CharField(
        label="Why it goes all the same",
        max_length=LONGEST_REASON,
        required=False,
        widget=forms.Textarea(attrs={"rows": 2}),
    )
    seen = forms.CharField(widget=forms.HiddenInput, max_length=64, required=False)

    def signature(self) -> Signature:
        """The owner's signature as sent; a ticked box counts before a drawn line."""
        said = self.cleaned_data
        return Signature(said["name"], "typed") if said["typed"] else Signature(said["name"], "drawn", said["path"])

    def override(self) -> Override | None:
        """Who answers for what is still open, where anything was written."""
        said = self.cleaned_data
        found = Override(said["override_name"], said["override_reason"])
        return found if found.name or found.reason else None


FIELDS = {"name": "name", "path": "path", "confirmed": "confirmed", "override": "override_reason"}
