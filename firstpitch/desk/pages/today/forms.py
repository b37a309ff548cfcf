"""The form for a handover."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from django import forms
from django.utils import timezone

from firstpitch.desk.models import Person
from firstpitch.desk.when import EXAMPLES, WhenError, read_when


class WhenField(forms.CharField):
    """A day and time as people write it."""

    def clean(self, value: Any) -> datetime:
        """The moment, in the desk's own time zone."""
        text = super().clean(value)
        try:
            found = read_when(text, timezone.localdate())
        except WhenError as wrong:
            raise forms.ValidationError(str(wrong)) from None
        return timezone.make_aware(found)


class HandoverForm(forms.Form):
    """Who collects the van, when, and who hands it over."""

    owner_name = forms.CharField(
        label="Who collects it?", max_length=120, error_messages={"required": "Write the owner's name."}
    )
    due = WhenField(
        label="When?",
        max_length=60,
        help_text=f"As you would say it: {EXAMPLES}.",
        error_messages={"required": "Write the day and the time."},
    )
    owner_contact = forms.CharField(
        label="How do we reach them?", max_length=160, required=False, help_text="Telephone or e-mail."
    )
    specialist = forms.ModelChoiceField(
        label="Who hands it over?", queryset=Person.objects.none(), required=False, empty_label="Nobody yet"
    )

    def __init__(self, *args: Any, colleagues: list[Person], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        field = self.fields["specialist"]
        assert isinstance(field, forms.ModelChoiceField)
        field.queryset = Person.objects.filter(pk__in=[person.pk for person in colleagues])
        field.widget.choices = [("", "Nobody yet"), *((person.pk, person.shown_name) for person in colleagues)]
