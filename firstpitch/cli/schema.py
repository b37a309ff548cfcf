"""``firstpitch schema``: the JSON Schema of the build sheet."""

from __future__ import annotations

from pathlib import Path

import click

from firstpitch.cli import van as shared


@click.command(epilog="\b\nExample:\n  firstpitch schema > build-sheet.schema.json")
@shared.catalogue_option
def command(catalogue: str | None) -> None:
    """Print the JSON Schema (2020-12) of the build sheet, with the facts of every kind."""
    with shared.faults_as_exit_codes():
        import json

        from firstpitch.catalogue import load
        from firstpitch.sheet import build_schema

        kinds = load(Path(catalogue) if catalogue else None).kinds
        click.echo(json.dumps(build_schema(kinds), ensure_ascii=False, indent=1))
