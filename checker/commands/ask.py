"""Fill in a description by question and answer."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from checker.commands.options import rules_options, told, width

__all__ = ["command"]


@click.command("ask", short_help="Fill in a description by question and answer.")
@click.argument("description", required=False, type=click.Path(path_type=Path))
@click.option(
    "--section", metavar="NAME", help="Only a section, a list, or one field (to change its answer)."
)
@rules_options
@told
def command(
    description: Path | None, section: str | None, folders: tuple[Path, ...], local: tuple[str, ...]
) -> int:
    """Fill in a DESCRIPTION by question and answer.

    One that does not exist yet is begun. Every answer is saved at once; stop at any time,
    it goes on where it was left.
    """
    from checker.asking.conversation import ask as hold
    from checker.asking.terminal import Terminal
    from checker.running import Checker

    if description is None:
        raise click.UsageError("name the file to fill in, begun or not: mistwright ask job.yaml")
    return hold(
        description, section, Checker(folders, local), Terminal(sys.stdin, sys.stdout, width())
    )
