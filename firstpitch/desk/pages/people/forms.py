"""Forms about people."""

from __future__ import annotations

import re
from typing import Any

from django import forms
from django.contrib.auth.forms import AuthenticationForm
from django.contrib.auth.password_validation import validate_password
from django.core.validators import RegexValidator

from firstpitch.desk.actions.people import NewPerson
from firstpitch.desk.models import Person, Role

_NAME = RegexValidator(
    r"^[a-z0-9][a-z0-9._-]*\Z", "Use small letters, figures, full stops and hyphens only, no spaces."
)
_SCREEN = re.compile(r"(touch|mouse) (\d{2,5})x(\d{2,5})")
_PASSWORD_HELP = "At least 10 letters, figures or signs, and not one that many people use. Three odd words do well."


def _field(label: str, *, most: int = 150, help_text: str = "", **attrs: str) -> forms.CharField:
    """A line of text; ``shown="figure"`` sets it in the figures face."""
    if shown := attrs.pop("shown", ""):
        attrs["class"] = shown
    return forms.CharField(label=label, max_length=most, help_text=help_text, widget=forms.TextInput(attrs=attrs))


def _password(label: str, which: str, help_text: str = "") -> forms.CharField:
    return forms.CharField(
        label=label,
        max_length=256,
        strip=False,
        help_text=help_text,
        widget=forms.PasswordInput(attrs={"autocomplete": which}),
    )


def _email(label: str, help_text: str = "") -> forms.EmailField:
    return forms.EmailField(label=label, help_text=help_text, widget=forms.EmailInput(attrs={"autocomplete": "email"}))


class SignInForm(AuthenticationForm):
    """Name and password; ``screen`` is what the browser says of itself."""

    username = _field("Name", autocomplete="username", autocapitalize="none", spellcheck="false", autofocus="")
    password = _password("Password", "current-password")
    screen = forms.CharField(required=False, max_length=40, widget=forms.HiddenInput)
    error_messages = {  # noqa: RUF012  (as the parent has it)
        "invalid_login": "That name and password do not belong together. Passwords tell capital letters from small ones.",
        "inactive": "This account is shut. Ask the manager of your branch.",
    }

    def clean_username(self) -> str:
        """Names to sign in with are small letters."""
        return str(self.cleaned_data["username"]).strip().lower()

    def device(self) -> str:
        """The device in words, as far as it said."""
        return device_words(self.cleaned_data.get("screen", ""))


def device_words(screen: str) -> str:
    """A device in words.

    >>> device_words("touch 1180x820"), device_words("mouse 1920x1080"), device_words("nonsense")
    ('a touch screen, 1180 × 820', 'a screen with a mouse, 1920 × 1080', 'a device that did not say what it is')
    """
    found = _SCREEN.fullmatch(screen)
    if not found:
        return "a device that did not say what it is"
    sort = {"touch": "a touch screen", "mouse": "a screen with a mouse"}[found[1]]
    return f"{sort}, {found[2]} × {found[3]}"


class CodeForm(forms.Form):
    """The second factor."""

    code = _field(
        "Code",
        most=20,
        help_text="The six figures your phone shows now, or one of your codes on paper.",
        autocomplete="one-time-code",
        autocapitalize="none",
        spellcheck="false",
        autofocus="",
        shown="figure",
    )


class ForgotForm(forms.Form):
    """Where to send a link for a new password."""

    email = _email("Your e-mail address")


class _WithNewPassword(forms.Form):
    """Checks ``new_password`` against the rules, knowing whose it will be."""

    def whose(self) -> Person:
        """The person, as far as they are known."""
        raise NotImplementedError

    def clean(self) -> dict[str, Any]:
        """Say beside the field what is wrong with the password."""
        cleaned = super().clean() or self.cleaned_data
        if cleaned.get("new_password"):
            try:
                validate_password(cleaned["new_password"], self.whose())
            except forms.ValidationError as wrong:
                self.add_error("new_password", wrong)
        return cleaned


class NewPasswordForm(_WithNewPassword):
    """A new password by a mailed link."""

    new_password = _password("New password", "new-password", _PASSWORD_HELP)

    def __init__(self, *args: Any, person: Person, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.person = person

    def whose(self) -> Person:
        """The holder of the link."""
        return self.person


class JoinForm(_WithNewPassword):
    """What a new person gives."""

    first_name = _field("First name", most=80, autocomplete="given-name", help_text="As it should stand on records.")
    last_name = _field("Last name", most=80, autocomplete="family-name")
    username = _field(
        "Name to sign in with",
        most=40,
        help_text="Short, in small letters: your first name does well.",
        autocomplete="username",
        autocapitalize="none",
        spellcheck="false",
    )
    new_password = _password("Password", "new-password", _PASSWORD_HELP)

    def clean_username(self) -> str:
        """Small letters, as it is typed when signing in."""
        name = str(self.cleaned_data["username"]).strip().lower()
        _NAME(name)
        return name

    def whose(self) -> Person:
        """The person there will be."""
        given = self.cleaned_data
        return Person(**{key: given.get(key, "") for key in ("username", "first_name", "last_name")})

    def new(self) -> NewPerson:
        """What the action wants."""
        given = self.cleaned_data
        return NewPerson(given["username"], given["new_password"], given["first_name"], given["last_name"])


class FirstForm(JoinForm):
    """The first branch and its manager."""

    code = _field(
        "Code",
        most=20,
        help_text="It was printed where the desk was started.",
        autocomplete="off",
        autocapitalize="none",
        spellcheck="false",
        shown="figure",
    )
    branch_name = _field("Name of the branch", most=80, autocomplete="organization")
    email = _email("Your e-mail address", "Links for a new password go there.")
    field_order = ("code", "branch_name", "first_name", "last_name", "email", "username", "new_password")


class _WithOwnPassword(forms.Form):
    """Asks for the password in use before something that matters."""

    def __init__(self, *args: Any, person: Person, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.person = person

    def clean_password(self) -> str:
        """It must be the one in use."""
        given = str(self.cleaned_data["password"])
        if not self.person.check_password(given):
            raise forms.ValidationError("That is not your password.")
        return given

    def whose(self) -> Person:
        """Oneself."""
        return self.person


class NameForm(forms.Form):
    """One's own name."""

    first_name = _field("First name", most=80, autocomplete="given-name")
    last_name = _field("Last name", most=80, autocomplete="family-name")


class EmailForm(_WithOwnPassword):
    """One's own address."""

    email = _email("E-mail address", "Links for a new password go there.")
    password = _password("Your password", "current-password")


class ChangePasswordForm(_WithOwnPassword, _WithNewPassword):
    """Another password."""

    password = _password("Password until now", "current-password")
    new_password = _password("New password", "new-password", _PASSWORD_HELP)
    field_order = ("password", "new_password")


class SureForm(_WithOwnPassword):
    """Only the password, before something that matters."""

    password = _password("Your password", "current-password")


class ConfirmForm(_WithOwnPassword):
    """The first code of a new phone."""

    code = _field(
        "Code",
        most=10,
        help_text="The six figures the phone shows now.",
        autocomplete="one-time-code",
        inputmode="numeric",
        shown="figure",
    )
    password = _password("Your password", "current-password")


class InviteForm(forms.Form):
    """Whom to invite."""

    email = _email("E-mail address", "The invitation goes there.")
    role = forms.ChoiceField(label="Role", choices=Role.choices)


class RoleForm(forms.Form):
    """Another role."""

    role = forms.ChoiceField(label="Role", choices=Role.choices)
