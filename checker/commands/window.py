"""Show the grades across the range of a field."""

from __future__ import annotations

from pathlib import Path

import click

from checker.commands.options import fitted_option, rules_options, told, width
from checker.commands.patience import patience

__all__ = ["command"]


@click.command("window", short_help="Show the grades across a field's usual range.")
@click.argument("description")
@click.argument("field")
@fitted_option
@click.option(
    "--format",
    "form",
    default="text",
    type=click.Choice(["text", "json"]),
    help="What the result looks like.",
)
@rules_options
@told
def command(
    description: str,
    field: str,
    fitted: str | None,
    form: str,
    folders: tuple[Path, ...],
    local: tuple[str, ...],
) -> int:
    """Show every rule's grade across a FIELD's usual range, the rest as stated."""
    import json

    from checker.output.json_report import as_data
    from checker.output.window_chart import render
    from checker.running import Checker

    with patience():
        found = Checker(folders, local).window(description, field, fitted)
    if form == "json":
        click.echo(json.dumps(as_data(found), indent=2, ensure_ascii=False))
    else:
        click.echo(render(found, width=width()), nl=False)
    return 0
