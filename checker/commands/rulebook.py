"""List, show and test the rules."""

from __future__ import annotations

from pathlib import Path

import click

from checker.commands.options import local_option, rules_options, told, width

__all__ = ["command"]


@click.group("rulebook")
def command() -> None:
    """List, show and test the rules."""


@command.command("list")
@rules_options
@told
def rulebook_list(folders: tuple[Path, ...], local: tuple[str, ...]) -> int:
    """List every rule with what it checks."""
    from checker.output.rules import render_list
    from checker.running import Checker

    click.echo(render_list(Checker(folders, local).rulebook, width=width()), nl=False)
    return 0


@command.command("show")
@click.argument("rule")
@rules_options
@told
def rulebook_show(rule: str, folders: tuple[Path, ...], local: tuple[str, ...]) -> int:
    """Show one RULE: formulas, figures, sources, cases."""
    from checker.output.rules import render_rule
    from checker.rulebook.loading import load_rulebook

    book = load_rulebook(folders, local=local)
    click.echo(render_rule(book.named(rule), book, width=width()), nl=False)
    return 0


@command.command("test")
@click.argument("folders", nargs=-1, type=click.Path(path_type=Path))
@local_option
@told
def rulebook_test(folders: tuple[Path, ...], local: tuple[str, ...]) -> int:
    """Run every rule's own cases, those of further FOLDERS of rules too."""
    from checker.output.rules import render_test
    from checker.rulebook.loading import load_rulebook

    text, failed = render_test(load_rulebook(folders, local=local))
    click.echo(text, nl=False)
    return 1 if failed else 0
