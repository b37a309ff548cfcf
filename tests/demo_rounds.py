"""The demo vans with a quickly planned round each, for tests that print them."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from functools import cache

from firstpitch.catalogue import Catalogue, load
from firstpitch.demo import sheets
from firstpitch.papers import pack_html, pack_pdf
from firstpitch.rounds import Patience, Plan, Problem, build_problem, plan_round
from firstpitch.sheet import BuildSheet, read_sheet_text, resolve_links

TODAY = date(2026, 11, 1)
NAMES = ("heron", "plover", "wren")


@dataclass(frozen=True)
class DemoRound:
    """One van with a valid round; the plan is the first one found, not the best."""

    sheet: BuildSheet
    catalogue: Catalogue
    problem: Problem
    plan: Plan


@cache
def demo_round(name: str) -> DemoRound:
    catalogue = load()
    sheet = read_sheet_text(sheets()[name].read_text("utf-8"), catalogue.kinds, today=TODAY, file=f"{name}.yaml")
    problem = build_problem(sheet, catalogue, resolve_links(sheet.kit, catalogue.kinds).filled)
    plan = plan_round(problem, patience=Patience(starts=1, tries=0, work=0.0))
    assert isinstance(plan, Plan)
    return DemoRound(sheet, catalogue, problem, plan)


@cache
def demo_pack(name: str) -> bytes:
    van = demo_round(name)
    return pack_pdf(van.sheet, van.catalogue, van.problem, van.plan, made=TODAY)


@cache
def demo_page(name: str) -> str:
    van = demo_round(name)
    return pack_html(van.sheet, van.catalogue, van.problem, van.plan, made=TODAY)
