"""A group of commands that loads each only when it is asked for."""

from collections.abc import Mapping
from importlib import import_module
from typing import Any

import click

Place = tuple[str, str]
APART = 6  # columns beside the name of a command in the list of them, as click has it


class Laters(click.Group):
    """Commands by name: the module and the name of each, and the first sentence of its help.

    The list of commands is written from these alone.
    """

    def __init__(self, *args: Any, places: Mapping[str, Place], **others: Any) -> None:
        super().__init__(*args, **others)
        self.places = places

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Name the commands."""
        return sorted([*self.places, *self.commands])

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Load a command."""
        if cmd_name not in self.places:
            return super().get_command(ctx, cmd_name)
        module, name = self.places[cmd_name][0].split(":")
        found: click.Command = getattr(import_module(f".{module}", __package__), name)
        return found

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """List the commands under a group's help."""
        shown = {name: click.Command(name, help=said) for name, (_, said) in self.places.items()}
        shown |= self.commands
        room = formatter.width - APART - max(map(len, shown))
        with formatter.section("Commands"):
            formatter.write_dl(
                [(name, shown[name].get_short_help_str(room)) for name in sorted(shown)]
            )
