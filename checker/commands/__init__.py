"""The commands of ``mistwright``, a module each, imported only when it is asked for."""

from __future__ import annotations

import importlib
from typing import Any

import click

from checker.errors import near

__all__ = ["COMMANDS", "Commands"]

# The order in which ``mistwright --help`` lists them: as a job goes, then QA, then the rules.
# A new command is a module of that name here, with a click command ``command``, and its name in
# this table.
COMMANDS = (
    "new",
    "ask",
    "desk",
    "check",
    "working",
    "window",
    "sheet",
    "fields",
    "audit",
    "merge",
    "rulebook",
)


class Commands(click.Group):
    """A group that imports a command when it is asked for."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """The commands in the order of a job."""
        del ctx
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """The command of a name; one that does not exist ends with the nearest that does."""
        if cmd_name not in COMMANDS:
            nearest = near(cmd_name, COMMANDS)
            ctx.fail(f"there is no command '{cmd_name}'" + (f"; {nearest}" if nearest else ""))
        command: Any = importlib.import_module(f"checker.commands.{cmd_name}").command
        assert isinstance(command, click.Command)  # noqa: S101 - a module of ours
        return command
