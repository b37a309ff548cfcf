"""``firstpitch check``: what a build sheet holds, what follows from it and what is unknown."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from firstpitch.cli import van as shared

if TYPE_CHECKING:
    from firstpitch.sheet import Unknown


@click.command(epilog="\b\nExample:\n  firstpitch check van.yaml")
@shared.sheet_argument
@shared.catalogue_option
@click.option("--json", "as_json", is_flag=True, help="One JSON object, for machines.")
def command(sheet: str, catalogue: str | None, as_json: bool) -> None:
    """List what a build sheet holds, what follows from it and what is unknown.

    Every unknown figure is named together with what it blocks. Exit code 0: the sheet can be read. 2: it cannot, with one sentence
    for each fault.
    """
    with shared.faults_as_exit_codes():
        van = shared.open_van(sheet, catalogue)
        report = _report(van)
        if as_json:
            import json

            click.echo(json.dumps(report, ensure_ascii=False, indent=1))
            return
        _print(report)


def _report(van: shared.OpenVan) -> dict[str, Any]:
    from firstpitch.catalogue.texts import fact_words
    from firstpitch.rounds import RoundOptions, build_problem
    from firstpitch.sheet import unknowns
    from firstpitch.sheet.units import show

    sheet, kinds = van.sheet, van.catalogue.kinds
    problem = build_problem(sheet, van.catalogue, van.links.filled, RoundOptions())
    payload = sheet.masses.mtplm - sheet.masses.miro
    gaps = [
        {"kit": gap.kit, "link": gap.link, "wants": [kinds[k].title for k in gap.kinds]} for gap in van.links.must_gaps
    ]
    unknown = unknowns(sheet, kinds, lambda u: _blocked(van, u))
    return {
        "van": sheet.identity.name,
        "fitted": [
            {
                "id": kit.id,
                "kind": kit.kind,
                "name": kit.name,
                "facts": {kinds[kit.kind].facts[f].what: fact_words(v) for f, v in kit.facts.items()},
            }
            for kit in sheet.kit
        ],
        "derived": {
            "kit": len(sheet.kit),
            "steps in a handover": len(problem.steps),
            "places to stand": len(problem.places),
            "user payload (MTPLM less MiRO)": show(payload, "kg", 4),
            "axles": len(sheet.gear.axles),
            "lockers": len(sheet.plan.lockers),
        },
        "links without kit": gaps,
        "steps that cannot be done": [{"step": m.step, "because": m.what} for m in problem.missing],
        "unknown": [{"field": u.field, "what": u.words, "need": u.need, "blocks": list(u.blocks)} for u in unknown],
    }


def _blocked(van: shared.OpenVan, unknown: Unknown) -> list[str]:
    """What waits for one unknown figure: waits of the round, verdicts on masses, lines in the pack."""
    blocked: list[str] = []
    if unknown.fact:
        kind = van.catalogue.kinds[van.sheet.kit_by_id()[unknown.kit].kind]
        for wait in kind.waits.values():
            if unknown.fact in wait.duration.terms.values():
                blocked.append(f"the time of “{wait.title}”, so the steps that start it")
        if any(unknown.fact == e.fact for e in kind.energy):
            blocked.append("what it draws")
        if unknown.fact in kind.card.figures:
            blocked.append("a figure on its card in the pack")
        if unknown.fact in ("mass", "in_miro"):
            blocked.append("the payload that is left")
    elif unknown.field == "cold_water":
        blocked.append("every heating time")
    else:
        blocked += _FIELDS.get(unknown.field, [])
        if unknown.field.startswith("plan.lockers.") and unknown.field.endswith(".limit"):
            blocked.append("how much may go into this locker")
    return blocked


_FIELDS = {
    "masses.noseweight_limit": ["the ruling noseweight limit (cannot say above)"],
    "masses.axle_limit": ["the verdict on the axle"],
    "running_gear.tyre.load_index": ["the verdict on the tyres"],
    "running_gear.tyre.speed_symbol": ["the verdict on the tyres' speed"],
    "running_gear.tyre.date_code": ["the age of the tyres"],
    "running_gear.tyre.pressure": ["the tyre pressure"],
    "running_gear.tyre.wheel_torque": ["the wheel-nut torque"],
    "van.chassis_number": ["the chassis number on the papers"],
}


def _print(report: dict[str, Any]) -> None:
    from rich.console import Console
    from rich.table import Table

    console = Console(highlight=False)
    console.print(f"[bold]{report['van']}[/bold]", markup=True)
    table = Table(box=None, pad_edge=False, header_style="bold")
    for name in ("kit", "kind", "figures"):
        table.add_column(name)
    for kit in report["fitted"]:
        table.add_row(kit["name"], kit["kind"], "; ".join(f"{what}: {value}" for what, value in kit["facts"].items()))
    console.print(table)
    console.print("\n[bold]Follows from the sheet[/bold]", markup=True)
    for what, value in report["derived"].items():
        console.print(f"  {what}: {value}", markup=False)
    for gap in report["links without kit"]:
        console.print(
            f"  {gap['kit']}: nothing fitted for its {gap['link']} ({' or '.join(gap['wants'])})", markup=False
        )
    for step in report["steps that cannot be done"]:
        console.print(f"  cannot be done: {step['step']}. {step['because']}", markup=False)
    console.print("\n[bold]Unknown[/bold]", markup=True)
    if not report["unknown"]:
        console.print("  nothing")
    for unknown in report["unknown"]:
        blocks = f"; blocks {', '.join(unknown['blocks'])}" if unknown["blocks"] else ""
        need = "" if unknown["need"] == "must" else " (nice to know)"
        console.print(f"  {unknown['field']}: {unknown['what']}{need}{blocks}", markup=False)
