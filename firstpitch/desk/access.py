"""Who may see what: the one place where branches are kept apart and pages are opened.

Every view is wrapped by exactly one of ``members``, ``owners`` or ``anyone``; the wrapper marks it, and a test walks all URLs and fails
on a view without a mark. Every row a page shows comes from one of the functions below, never straight from a model.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from functools import wraps
from typing import Any, cast

from django.contrib.auth.views import redirect_to_login
from django.db.models import QuerySet
from django.http import Http404, HttpRequest, HttpResponseBase
from django.shortcuts import get_object_or_404
from django.utils import timezone

from firstpitch.desk.models import Branch, Event, Handover, Media, OwnerLink, Person, Question, Role, Van

View = Callable[..., HttpResponseBase]
EVERY_ROLE = (Role.SPECIALIST, Role.TECHNICIAN, Role.MANAGER)


def member(request: HttpRequest) -> Person:
    """The signed-in person behind a request that ``members`` let through."""
    return cast(Person, request.user)


def branch_of(person: Person) -> Branch:
    """The person's branch; 404 for somebody who belongs to none."""
    if person.branch is None:
        raise Http404("you belong to no branch")
    return person.branch


def members(*roles: Role) -> Callable[[View], View]:
    """Only signed-in people of a branch, with one of ``roles`` (any, when none is named)."""
    allowed = roles or EVERY_ROLE

    def wrap(view: View) -> View:
        @wraps(view)
        def guarded(request: HttpRequest, *args: Any, **kwargs: Any) -> HttpResponseBase:
            person = request.user
            if not isinstance(person, Person) or not person.is_active:
                return redirect_to_login(request.get_full_path())
            if person.branch_id is None or Role(person.role) not in allowed:
                raise Http404
            return view(request, *args, **kwargs)

        guarded.access = ("members", tuple(str(r) for r in allowed))  # type: ignore[attr-defined]
        return guarded

    return wrap


def owners(view: View) -> View:
    """Only the holder of a live owner link; the view gets ``handover`` in place of the secret."""

    @wraps(view)
    def guarded(request: HttpRequest, secret: str, *args: Any, **kwargs: Any) -> HttpResponseBase:
        link = OwnerLink.objects.select_related("handover__van__branch").filter(digest=digest_of(secret)).first()
        if link is None or link.revoked is not None or link.expires <= timezone.now():
            return link_is_over(request)
        OwnerLink.objects.filter(pk=link.pk).update(last_used=timezone.now())
        return view(request, *args, handover=link.handover, secret=secret, **kwargs)

    guarded.access = ("owners", ())  # type: ignore[attr-defined]
    return guarded


def anyone(view: View) -> View:
    """Open to all: signing in, health, the parts of the installed app."""

    @wraps(view)
    def open_view(request: HttpRequest, *args: Any, **kwargs: Any) -> HttpResponseBase:
        return view(request, *args, **kwargs)

    open_view.access = ("anyone", ())  # type: ignore[attr-defined]
    return open_view


def link_is_over(request: HttpRequest) -> HttpResponseBase:
    """The page for a link that is wrong, expired or revoked; it does not say which."""
    from django.shortcuts import render

    return render(request, "desk/link_over.html", status=410)


def digest_of(secret: str) -> str:
    """What is kept of a secret."""
    return hashlib.sha256(secret.encode()).hexdigest()


def vans(person: Person) -> QuerySet[Van]:
    """The vans of the person's branch."""
    return Van.objects.filter(branch=branch_of(person))


def handovers(person: Person) -> QuerySet[Handover]:
    """The handovers of the person's branch."""
    return Handover.objects.filter(van__branch=branch_of(person)).select_related("van", "specialist")


def events(person: Person) -> QuerySet[Event]:
    """The history of the vans of the person's branch."""
    return Event.objects.filter(van__branch=branch_of(person)).select_related("by")


def media(person: Person) -> QuerySet[Media]:
    """Files of the vans of the person's branch."""
    return Media.objects.filter(van__branch=branch_of(person))


def questions(person: Person) -> QuerySet[Question]:
    """Owners' questions about the branch's vans."""
    return Question.objects.filter(handover__van__branch=branch_of(person)).select_related("handover__van")


def people(person: Person) -> QuerySet[Person]:
    """The people of the person's branch."""
    return Person.objects.filter(branch=branch_of(person))


def the_van(person: Person, pk: int) -> Van:
    """One van of the branch; 404 for any other."""
    return get_object_or_404(vans(person), pk=pk)


def the_handover(person: Person, pk: int) -> Handover:
    """One handover of the branch; 404 for any other."""
    return get_object_or_404(handovers(person), pk=pk)
