"""The ``firstpitch`` command: one verb per module, loaded only when used."""

from __future__ import annotations

from importlib import import_module
from typing import Any

import click

VERBS: dict[str, tuple[str, str]] = {
    "check": ("check", "List what a build sheet holds, what follows from it and what is unknown."),
    "round": ("round", "Plan a safe, timed walk-round of one van."),
    "pack": ("pack", "Make the owner's pack of one van, as PDF and as a page."),
    "replay": ("replay", "Check any order of steps against the rules, without the planner."),
    "film": ("film", "Script a film of the walk-round, check it, chapter it and caption it."),
    "outfit": ("outfit", "Judge a van behind a car: masses, coupling, tyres, licence, speeds."),
    "stow": ("stow", "Say where each item of load goes."),
    "steadiness": ("steadiness", "Compare how steadily loadings tow."),
    "kinds": ("kinds", "List the kinds of kit, or show one whole."),
    "schema": ("schema", "Print the JSON Schema of the build sheet."),
    "demo": ("demo", "Do the whole job for an invented van and say where the pack is."),
}

CAUTION = (
    "Gas, mains and towing can hurt people. This program helps a trained person; it certifies nothing. Local codes and "
    "licensed practice come first."
)


class Verbs(click.Group):
    """Knows every verb by name and imports only the one that is called."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002
        """The verbs in the order of the job."""
        return list(VERBS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002
        """The verb's command, or None where there is no such verb."""
        if cmd_name not in VERBS:
            return None
        found: Any = import_module(f"firstpitch.cli.{VERBS[cmd_name][0]}").command
        return found if isinstance(found, click.Command) else None

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:  # noqa: ARG002
        """The list of verbs, without importing any."""
        with formatter.section("Verbs"):
            formatter.write_dl([(name, help_text) for name, (_, help_text) in VERBS.items()])

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """As click does, with the nearest verb named when there is none."""
        if args and args[0] not in VERBS and not args[0].startswith("-"):
            from firstpitch.sheet.faults import nearest

            known = ", ".join(VERBS)
            raise click.UsageError(
                f"There is no verb “{args[0]}”{nearest(args[0], VERBS)}. The verbs are {known}.", ctx
            )
        return super().resolve_command(ctx, args)


@click.group(
    cls=Verbs,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
    epilog=(
        f"{CAUTION}\n\n\b\nExample:      firstpitch round van.yaml --minutes 90 --svg round.svg\n"
        'Completion:   eval "$(_FIRSTPITCH_COMPLETE=bash_source firstpitch)"   (or zsh_source, fish_source)\n'
        "Exit codes:   0 done, 1 the answer is no, 2 bad input"
    ),
)
@click.version_option(package_name="firstpitch", message="%(prog)s %(version)s")
def main() -> None:
    """From one build sheet to a safe, timed caravan handover and an owner's pack."""
