"""A film held against its van: from what is said in it to what the page shows."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from typing import Any

from firstpitch.desk.inputs import OpenVan, round_options
from firstpitch.desk.models import Branch
from firstpitch.film.brief import brief_of
from firstpitch.film.captions import retimed, vtt_text
from firstpitch.film.chapters import chapters_of
from firstpitch.film.types import Chapter, Coverage, FilmBrief, Recording
from firstpitch.rounds import Plan, Problem, build_problem, quick_round
from firstpitch.sheet.types import FactValue, Quantity


@dataclass(frozen=True)
class Checked:
    """What came of a check: ``found`` as it is kept, the chapters by kit, the captions as WebVTT."""

    found: dict[str, Any]
    chapters: tuple[Chapter, ...]
    captions: str


def film_problem(opened: OpenVan, branch: Branch, **chosen: Any) -> Problem:
    """The round of a van in mode ``film``; ``chosen``: minutes, words_per_minute."""
    options = round_options(branch, {"mode": "film", **chosen})
    return build_problem(opened.sheet, opened.catalogue, opened.links.filled, options)


def check(opened: OpenVan, branch: Branch, version: int, recording: Recording) -> Checked:
    """What the film says, misses and gets wrong, with its chapters and captions."""
    from firstpitch.film.check import check_film
    from firstpitch.media.sentences import KeptSentences, cache_folder

    brief = brief_of(opened.sheet, opened.catalogue, film_problem(opened, branch))
    like = KeptSentences(cache_folder())
    coverage = check_film(brief, recording, like)
    like.keep()
    return told(opened, brief, version, recording, coverage)


def told(opened: OpenVan, brief: FilmBrief, version: int, recording: Recording, coverage: Coverage) -> Checked:
    """A coverage with the words its keys stand for, so that it can be read when the sheet has changed since."""
    titles = {key: kind.title for key, kind in opened.catalogue.kinds.items()}
    clean = retimed(recording)
    found = {
        "coverage": asdict(coverage),
        "labels": _labels(opened, brief),
        "round": _round(brief.problem),
        "start": dict(brief.problem.start),
        "walks": {a: dict(b) for a, b in brief.problem.walks.items()},
        "version": version,
        "hurried": list(clean.hurried),
        "mended": list(recording.mended),
    }
    return Checked(found, chapters_of(coverage, titles), vtt_text(clean.cues))


def _labels(opened: OpenVan, brief: FilmBrief) -> dict[str, Any]:
    kits = {kit.id: kit.name for kit in opened.sheet.kit} | {"van": "The van as a whole"}
    return {
        "points": {
            p.key: {"text": p.text, "level": p.level, "kits": list(p.kits), "steps": list(p.steps)}
            for p in brief.points
        },
        "cautions": {
            c.key: {"text": c.text, "level": c.level, "kits": list(c.kits), "steps": list(c.steps)}
            for c in brief.cautions
        },
        "figures": {f.key: {"what": f.what, "kits": list(f.kits), "is": _value(f.value)} for f in brief.figures},
        "steps": {s.id: {"title": s.title, "kit": s.kit} for s in brief.problem.steps},
        "kits": kits,
        "kinds": {s.kind: s.title for s in brief.subjects},
        "names": {kit: list(s.names) for s in brief.subjects for kit in s.kits},
    }


def _value(value: FactValue | None) -> str:
    return "" if value is None else value.written if isinstance(value, Quantity) else str(value)


def _round(problem: Problem) -> list[dict[str, Any]]:
    """Every step of the van in the order of a sound round, with its place; those the round leaves out come last, as the sheet has them."""
    steps = {step.id: step for step in problem.steps}
    plan = quick_round(problem)
    order = [timed.step for timed in plan.steps] if isinstance(plan, Plan) else []
    order += [step for step in steps if step not in order]
    words = {place.id: place.words for place in problem.places}
    return [
        {
            "step": key,
            "title": steps[key].title,
            "kit": steps[key].kit,
            "place": steps[key].place,
            "where": words.get(steps[key].place, ""),
            "seconds": steps[key].seconds,
            "hands": steps[key].hands,
            "requires": [[need.condition, sorted(need.values)] for need in steps[key].requires],
            "sets": [[effect.condition, effect.value] for effect in steps[key].sets],
        }
        for key in order
    ]
