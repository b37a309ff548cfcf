"""``firstpitch pack``: the owner's pack."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path
from typing import Any

import click

from firstpitch.cli import van as shared


@click.command(epilog="\b\nExample:\n  firstpitch pack van.yaml --out packs")
@shared.sheet_argument
@shared.round_options
@shared.catalogue_option
@click.option(
    "--out", metavar="DIR", type=click.Path(), default="out", show_default=True, help="The folder to write to."
)
@click.option(
    "--seed",
    type=click.IntRange(0, 2**31 - 1),
    default=0,
    show_default=True,
    help="The same seed gives the same round.",
)
def command(sheet: str, catalogue: str | None, out: str, seed: int, **options: Any) -> None:
    """Make the owner's pack of one van, as PDF and as a page.

    Cover with the van drawn to scale, cards for arriving, leaving, towing and winter, a card per kit with its cautions and figures, the
    start-up list, and the round as a one-page programme.
    """
    with shared.faults_as_exit_codes():
        van = shared.open_van(sheet, catalogue)
        problem = shared.make_problem(van, **options)
        for path in write_pack(van, problem, Path(out), Path(sheet).stem, seed):
            click.echo(path)


def write_pack(van: shared.OpenVan, problem: Any, out: Path, stem: str, seed: int) -> list[Path]:
    """Plan the round and write the pack's files; leaves with exit code 1 when there is no round."""
    from firstpitch.papers import pack_data, pack_document, pack_page, round_document, round_svg
    from firstpitch.rounds import Clash, plan_round

    plan = plan_round(problem, seed=seed, tell=shared.progress)
    shared.end_progress()
    if isinstance(plan, Clash):
        click.echo("There is no safe round of this van, so there is no pack. These cannot all be true:", err=True)
        for fact in plan.facts:
            click.echo(f"  · {fact}", err=True)
        sys.exit(shared.NO)
    data = pack_data(van.sheet, van.catalogue, problem, plan, made=date.today())
    assert data.round is not None
    files: dict[str, bytes] = {
        f"{stem}-pack.pdf": pack_document(data),
        f"{stem}-pack.html": pack_page(data).encode(),
        f"{stem}-round.pdf": round_document(data.round, data.van),
        f"{stem}-round.svg": round_svg(problem, plan).encode(),
    }
    out.mkdir(parents=True, exist_ok=True)
    for name, content in files.items():
        temporary = out / f".{name}.part"
        temporary.write_bytes(content)
        temporary.replace(out / name)
    return [out / name for name in files]
