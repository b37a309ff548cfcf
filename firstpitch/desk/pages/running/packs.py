"""The pack of a van: ask for it, see it being made, stop it, take it."""

from __future__ import annotations

from typing import Any

from django.core.files.storage import default_storage
from django.http import Http404, HttpRequest, HttpResponse, HttpResponseBase
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.text import slugify
from django.views.decorators.http import require_GET, require_POST

from firstpitch.desk.access import handovers, jobs, media, member, members, the_van
from firstpitch.desk.actions.jobs import stop
from firstpitch.desk.actions.packs import PACK, ask_for_pack
from firstpitch.desk.models import Job, Person, Van

_SLOW_S = 30


@members()
@require_GET
def pack(request: HttpRequest, pk: int) -> HttpResponse:
    """The pack of a van and how far the next one is; ``?part=progress`` gives that alone."""
    person, one = member(request), the_van(member(request), pk)
    part = request.GET.get("part") == "progress"
    return render(request, f"desk/running/{'progress' if part else 'pack'}.html", _about(person, one))


def _about(person: Person, one: Van) -> dict[str, Any]:
    asked = jobs(person).filter(van=one, task=PACK)
    last = asked.last()
    made = asked.filter(result__isnull=False).last()
    waits = (timezone.now() - last.added).total_seconds() if last and last.begun is None and not last.ended else 0
    return {
        "van": one,
        "job": last,
        "under_way": bool(last and last.ended is None),
        "nobody_works": waits > _SLOW_S,
        "made": made,
        "out_of_date": bool(made and made.result and made.result["version"] != one.version),
    }


@members()
@require_POST
def ask(request: HttpRequest, pk: int) -> HttpResponse:
    """Ask for a pack, with the round of the handover that comes next."""
    person, one = member(request), the_van(member(request), pk)
    due = handovers(person).filter(van=one, signed=None, called_off=None).order_by("due").first()
    ask_for_pack(by=person, van=one, handover=due)
    return redirect("van-pack", one.pk)


@members()
@require_POST
def stop_it(request: HttpRequest, pk: int, job: int) -> HttpResponse:
    """Stop making it."""
    person, one = member(request), the_van(member(request), pk)
    stop(by=person, job=get_object_or_404(jobs(person), pk=job, van=one))
    return redirect("van-pack", one.pk)


@members()
@require_GET
def file(request: HttpRequest, pk: int) -> HttpResponseBase:
    """The latest pack as PDF; to its page where none has been made."""
    person, one = member(request), the_van(member(request), pk)
    made: Job | None = _about(person, one)["made"]
    if made is None or not made.result:
        return redirect("van-pack", one.pk)
    kept = get_object_or_404(media(person), pk=made.result["media"])
    try:
        with default_storage.open(str(kept.file.name)) as stream:
            content = stream.read()
    except FileNotFoundError:
        raise Http404("the file is gone; make the pack again") from None
    name = f"{slugify(one.name) or 'van'}-pack.pdf"
    return HttpResponse(content, content_type=kept.sort, headers={"Content-Disposition": f'inline; filename="{name}"'})
