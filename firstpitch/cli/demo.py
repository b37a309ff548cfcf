"""``firstpitch demo``: the whole job on an invented van."""

from __future__ import annotations

from importlib.resources import as_file
from pathlib import Path

import click

from firstpitch.cli import van as shared
from firstpitch.cli.files import check_folder


@click.command(epilog="\b\nExamples:\n  firstpitch demo\n  firstpitch demo --van heron --sheet > heron.yaml")
@click.option(
    "--van", "name", default="wren", show_default=True, help="wren (two berths), plover (four) or heron (six)."
)
@click.option(
    "--out", metavar="DIR", type=click.Path(), default="out", show_default=True, help="The folder to write to."
)
@click.option("--sheet", "only_sheet", is_flag=True, help="Only print the van's build sheet.")
def command(name: str, out: str, only_sheet: bool) -> None:
    """Do the whole job for an invented van and say where the pack is."""
    with shared.faults_as_exit_codes():
        from firstpitch.demo import sheets
        from firstpitch.sheet.errors import SheetError
        from firstpitch.sheet.faults import nearest

        if name not in sheets():
            raise SheetError(
                f"There is no demo van “{name}”{nearest(name, sheets())}; there are {', '.join(sheets())}."
            )
        if only_sheet:
            click.echo(sheets()[name].read_text("utf-8"), nl=False)
            return
        folder = check_folder(out)
        with as_file(sheets()[name]) as path:
            _do(path, name, folder)


def _do(path: Path, name: str, out: Path) -> None:
    from firstpitch.cli.pack import write_pack

    van = shared.open_van(str(path), None)
    problem = shared.make_problem(van, mode="handover", minutes=None, start="from-store", water="drained", pace=150)
    click.echo(f"{van.sheet.identity.name}: {len(van.sheet.kit)} kit, {len(problem.steps)} steps to plan.")
    files = write_pack(van, problem, out, name, 0)
    click.echo("The owner's pack and the round are in:")
    for file in files:
        click.echo(f"  {file.resolve()}")
