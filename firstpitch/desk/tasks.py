"""What the queue can do, by name. A task works without writing and gives back what keeps its result; the worker calls that once,
in the transaction that ends the job.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from types import MappingProxyType

from django.utils import timezone

from firstpitch.desk.actions.packs import PACK, keep_pack
from firstpitch.desk.film_tasks import FILM_TASKS
from firstpitch.desk.inputs import open_van, problem_of, round_options
from firstpitch.desk.models import Handover, Job, Van
from firstpitch.desk.task import Keep, Task, TaskError, Tell
from firstpitch.papers import pack_pdf
from firstpitch.rounds import Clash, build_problem, plan_round
from firstpitch.sheet import SheetError

__all__ = ["TASKS", "Task", "TaskError"]


def make_pack(job: Job, tell: Tell) -> Keep:
    """Plan the round of a van and draw its pack."""
    van = Van.objects.select_related("branch").get(pk=job.arguments["van"])
    handover = Handover.objects.select_related("van__branch").filter(pk=job.arguments.get("handover"), van=van).first()
    tell("reading the sheet")
    try:
        opened = open_van(van)
        if handover:
            problem = problem_of(handover)
        else:
            problem = build_problem(opened.sheet, opened.catalogue, opened.links.filled, round_options(van.branch, {}))
    except SheetError as wrong:
        raise TaskError(f"The sheet cannot be read any more: {wrong}") from None
    plan = plan_round(problem, tell=lambda stage, total, bound: tell(_planning(stage, total, bound)))
    if isinstance(plan, Clash):
        facts = "; ".join(str(fact) for fact in plan.facts)
        raise TaskError(f"There is no safe round of this van, so there is no pack. These cannot all be true: {facts}")
    tell("drawing the pages")
    content = pack_pdf(opened.sheet, opened.catalogue, problem, plan, made=timezone.localdate())
    tell("keeping it")
    return partial(keep_pack, by=job.by, van=van, version=van.version, content=content, handover=handover)


def _planning(stage: str, total: int | None, bound: int | None) -> str:
    del stage, bound
    return f"planning the round: {round(total / 60)} minutes so far" if total else "planning the round"


TASKS: Mapping[str, Task] = MappingProxyType({PACK: make_pack, **FILM_TASKS})
