"""Who may see what: the one place where branches are kept apart and pages are opened.

Every view is wrapped by exactly one of ``members``, ``owners`` or ``anyone``; the wrapper marks it, and a test walks all URLs and fails
on a view without a mark. Every row a page shows comes from one of the functions below, never straight from a model.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta
from functools import wraps
from typing import Any, cast

from django.contrib.auth.views import redirect_to_login
from django.core.exceptions import PermissionDenied
from django.db.models import QuerySet
from django.http import Http404, HttpRequest, HttpResponse, JsonResponse
from django.http.response import HttpResponseBase
from django.shortcuts import get_object_or_404, render, resolve_url
from django.utils import timezone

from firstpitch.desk.actions.owner_links import use_link
from firstpitch.desk.keys import digest_of
from firstpitch.desk.limits import limit
from firstpitch.desk.models import (
    Branch,
    BranchEvent,
    Event,
    Film,
    FilmUpload,
    Handover,
    Invitation,
    Job,
    Media,
    OwnerLink,
    Person,
    Question,
    Role,
    Session,
    Van,
)
from firstpitch.desk.trouble import wants_json

View = Callable[..., HttpResponseBase]
_USE_COUNTS_AFTER = timedelta(minutes=10)
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
            if not isinstance(person, Person) or not person.is_active or _half_signed_in(request, person):
                return _ask_to_sign_in(request)
            if person.branch_id is None:
                raise Http404
            if Role(person.role) not in allowed:
                raise PermissionDenied(_not_your_role(allowed))
            return view(request, *args, **kwargs)

        guarded.access = ("members", tuple(str(r) for r in allowed))  # type: ignore[attr-defined]
        return guarded

    return wrap


def _half_signed_in(request: HttpRequest, person: Person) -> bool:
    """Whether this session began without the code that this person's sign-in needs by now."""
    return person.second_factor and not request.session.get("second_factor")


def _ask_to_sign_in(request: HttpRequest) -> HttpResponseBase:
    """To the sign-in page and back again after it; a script is told so, since it cannot go there itself."""
    if wants_json(request):
        words = "You are signed out here. Sign in again; what was not sent yet is kept on this device."
        return JsonResponse({"error": words, "sign_in": resolve_url("sign-in")}, status=401)
    if request.headers.get("HX-Request"):
        return HttpResponse(status=401, headers={"HX-Redirect": resolve_url("sign-in")})
    return redirect_to_login(request.get_full_path())


def _not_your_role(allowed: tuple[Role, ...]) -> str:
    names = " or ".join(role.label.lower() for role in allowed)
    return f"This needs a {names}. Ask one of your branch."


def answers_for_others(person: Person) -> bool:
    """Whether a person may do what others must be able to rely on (invite, override): a manager only with a second factor."""
    return person.role != Role.MANAGER or person.second_factor


def owners(view: View) -> View:
    """Only the holder of a live owner link; the view gets ``handover`` in place of the secret."""

    @wraps(view)
    def guarded(request: HttpRequest, secret: str, *args: Any, **kwargs: Any) -> HttpResponseBase:
        link = OwnerLink.objects.select_related("handover__van__branch").filter(digest=digest_of(secret)).first()
        if link is None or link.revoked is not None or link.expires <= timezone.now():
            limit(request, "owner-link")
            return link_is_over(request)
        if link.last_used is None or timezone.now() - link.last_used > _USE_COUNTS_AFTER:
            use_link(by=None, link=link)
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
    return render(request, "desk/link_over.html", status=410)


def _own(person: Person) -> int:
    """The number of the person's branch, whose row lists need not read; 404 for somebody who belongs to none."""
    if person.branch_id is None:
        raise Http404("you belong to no branch")
    return person.branch_id


def vans(person: Person) -> QuerySet[Van]:
    """The vans of the person's branch."""
    return Van.objects.filter(branch=_own(person))


def handovers(person: Person) -> QuerySet[Handover]:
    """The handovers of the person's branch."""
    return Handover.objects.filter(van__branch=_own(person)).select_related("van", "specialist")


def events(person: Person) -> QuerySet[Event]:
    """The history of the vans of the person's branch."""
    return Event.objects.filter(van__branch=_own(person)).select_related("by")


def media(person: Person) -> QuerySet[Media]:
    """Files of the vans of the person's branch."""
    return Media.objects.filter(van__branch=_own(person))


def films(person: Person) -> QuerySet[Film]:
    """Films of the vans of the person's branch, newest first; those that were let go are left out."""
    return Film.objects.filter(van__branch=_own(person), removed=None).select_related("van", "speaker")


def films_spoken(person: Person, speaker: Person) -> QuerySet[Film]:
    """Films in which somebody of the branch speaks and whose words are known."""
    return films(person).filter(speaker=speaker, recording__isnull=False)


def film_uploads(person: Person) -> QuerySet[FilmUpload]:
    """Films that are coming in for the vans of the person's branch."""
    return FilmUpload.objects.filter(van__branch=_own(person)).select_related("van", "by")


def film_of_owner(handover: Handover) -> Film | None:
    """The film that the owner of a handover sees, None while none is shown."""
    return Film.objects.filter(van=handover.van_id, published__isnull=False, removed=None).first()


def jobs(person: Person) -> QuerySet[Job]:
    """What the branch has asked the queue for, oldest first."""
    return Job.objects.filter(branch=_own(person)).order_by("id")


def questions(person: Person) -> QuerySet[Question]:
    """Owners' questions about the branch's vans."""
    return Question.objects.filter(handover__van__branch=_own(person)).select_related("handover__van")


def people(person: Person) -> QuerySet[Person]:
    """The people of the person's branch."""
    return Person.objects.filter(branch=_own(person))


def nobody_yet() -> bool:
    """Whether the desk is empty: no branch at all."""
    return not Branch.objects.exists()


def at_the_door(pk: int) -> Person | None:
    """Somebody whose password was right a moment ago, before the code is asked for."""
    return Person.objects.filter(pk=pk, is_active=True).first()


def at_the_desk(username: str) -> Person | None:
    """Whoever signs in under this name; for commands on the server, not for pages."""
    return Person.objects.filter(username=username).first()


def people_with_email(email: str) -> QuerySet[Person]:
    """Whoever may get a link for a new password at this address."""
    return Person.objects.filter(email__iexact=email, is_active=True).exclude(email="")


def invitations(person: Person) -> QuerySet[Invitation]:
    """Invitations to the person's branch that can still be accepted."""
    waiting = Invitation.objects.filter(branch=_own(person), used=None, withdrawn=None, expires__gt=timezone.now())
    return waiting.select_related("by").order_by("expires")


def branch_events(person: Person) -> QuerySet[BranchEvent]:
    """The history of the person's branch itself."""
    return BranchEvent.objects.filter(branch=_own(person)).select_related("by")


def sessions(person: Person) -> QuerySet[Session]:
    """Where the person is signed in, last used first."""
    return Session.objects.filter(person=person, expire_date__gt=timezone.now()).order_by("-last_used")


def owner_links(person: Person, handover: Handover) -> QuerySet[OwnerLink]:
    """The owner links of a handover of the branch, newest first."""
    return OwnerLink.objects.filter(handover=handover, handover__van__branch=_own(person)).order_by("-made", "-id")


def the_person(person: Person, pk: int) -> Person:
    """One person of the branch; 404 for any other."""
    return get_object_or_404(people(person), pk=pk)


def the_van(person: Person, pk: int) -> Van:
    """One van of the branch; 404 for any other."""
    return get_object_or_404(vans(person), pk=pk)


def the_handover(person: Person, pk: int) -> Handover:
    """One handover of the branch; 404 for any other."""
    return get_object_or_404(handovers(person), pk=pk)


def the_round(person: Person, pk: int) -> Handover:
    """One handover of the branch for its live round: with van and branch, its plan and record read only where they are asked for."""
    found = handovers(person).select_related("van__branch", "specialist").defer("plan", "record", "car", "load", "stow")
    return get_object_or_404(found, pk=pk)
