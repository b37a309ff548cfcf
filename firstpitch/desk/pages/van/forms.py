"""Forms of the van pages."""

from __future__ import annotations

from django import forms

from firstpitch.desk.snags import SEVERITIES


class SnagForm(forms.Form):
    """What is wrong, how grave it is, where, and a photo of it."""

    words = forms.CharField(
        label="What is wrong?",
        max_length=1000,
        widget=forms.Textarea(attrs={"rows": 3}),
        error_messages={"required": "Say what is wrong."},
    )
    severity = forms.ChoiceField(
        label="How grave is it?",
        choices=tuple(SEVERITIES.items()),
        widget=forms.RadioSelect,
        error_messages={"required": "Say how grave it is."},
    )
    kit = forms.ChoiceField(label="Where?", required=False)
    photo = forms.FileField(label="A photo of it", required=False, widget=forms.FileInput(attrs={"accept": "image/*"}))

    def __init__(self, *args: object, kits: tuple[tuple[str, str], ...] = (), **kwargs: object) -> None:
        super().__init__(*args, **kwargs)  # type: ignore[arg-type]
        field = self.fields["kit"]
        assert isinstance(field, forms.ChoiceField)
        field.choices = [("", "The van as a whole"), *kits]


class PhotoForm(forms.Form):
    """A photo and what it shows."""

    photo = forms.FileField(
        label="Photo",
        widget=forms.FileInput(attrs={"accept": "image/*"}),
        error_messages={
            "required": "Choose or take a photo first.",
            "empty": "This file is empty; take the photo again.",
        },
    )
    words = forms.CharField(label="What it shows", max_length=500, required=False)
