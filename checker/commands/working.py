"""Show one rule at work on a description."""

from __future__ import annotations

from pathlib import Path

import click

from checker.commands.options import fitted_option, rules_options, told, width
from checker.commands.patience import patience

__all__ = ["command"]


@click.command("working", short_help="Show one rule at work, with numbers and sources.")
@click.argument("description")
@click.argument("rule")
@fitted_option
@rules_options
@told
def command(
    description: str,
    rule: str,
    fitted: str | None,
    folders: tuple[Path, ...],
    local: tuple[str, ...],
) -> int:
    """Show the working of one RULE on a DESCRIPTION, with its numbers and sources."""
    from checker.output.text import render_working
    from checker.running import Checker

    with patience():
        checker = Checker(folders, local)
        checker.rulebook.named(rule)
        report = checker.report(description, fitted)
    for finding in report.findings:
        if finding.rule == rule:
            click.echo(render_working(finding, width=width()))
    return 0
