"""``firstpitch-desk second_factor_off NAME``: for the last manager, who lost phone and codes."""

from __future__ import annotations

from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from firstpitch.desk.access import at_the_desk
from firstpitch.desk.actions.second_factor import turn_off


class Command(BaseCommand):
    """Turns a person's second factor off; whoever may run this on the server may do that."""

    help = "Turn off the second factor of a person who lost phone and codes."

    def add_arguments(self, parser: CommandParser) -> None:
        """The name the person signs in with."""
        parser.add_argument("name")

    def handle(self, *args: Any, name: str, **options: Any) -> None:
        """Do it."""
        del args, options
        person = at_the_desk(name)
        if person is None:
            raise CommandError(f"Nobody signs in as {name}. Names are in small letters.")
        turn_off(by=person, person=person)
        self.stdout.write(f"{person.shown_name} signs in with the password alone until they set it up again.")
