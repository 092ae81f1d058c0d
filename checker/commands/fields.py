"""Say what the fields of a description mean."""

from __future__ import annotations

from pathlib import Path

import click

from checker.commands.options import rules_options, told, width
from checker.commands.patience import patience

__all__ = ["command"]


@click.command("fields", short_help="Say what the fields mean and where to get them.")
@click.argument("words", nargs=-1)
@rules_options
@told
def command(words: tuple[str, ...], folders: tuple[Path, ...], local: tuple[str, ...]) -> int:
    """Say what each field means, its unit, its range, where to get it, which rules read it.

    WORDS narrow it down: a section, a path, or any word of the meaning.
    """
    from checker.output.field_list import render
    from checker.running import Checker

    with patience():
        text = render(Checker(folders, local).rulebook, words, width=width())
    click.echo(text, nl=False)
    return 0
