"""Check one description and show the report."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from checker.commands.options import (
    accept_option,
    fitted_option,
    refuse_to_overwrite,
    rules_options,
    show,
    told,
    width,
)
from checker.commands.patience import patience
from checker.grades import Grade

__all__ = ["command"]


@click.command("check", short_help="Check one description.")
@click.argument("description")
@click.option(
    "--format",
    "form",
    default="text",
    type=click.Choice(["text", "json", "junit", "sarif", "html", "pdf"]),
    help="What the report looks like.",
)
@click.option(
    "--output", "-o", type=click.Path(path_type=Path), help="Write the report to a file instead."
)
@fitted_option
@accept_option
@click.option("--brief", "detail", flag_value="brief", help="Only what has to be done.")
@click.option("--all", "detail", flag_value="all", help="Every finding whole, those met too.")
@click.option(
    "--colour/--no-colour", default=None, help="Colour on or off, whatever the terminal says."
)
@rules_options
@told
def command(
    description: str,
    fitted: str | None,
    form: str,
    output: Path | None,
    accept: Grade,
    detail: str | None,
    colour: bool | None,
    folders: tuple[Path, ...],
    local: tuple[str, ...],
) -> int:
    """Check one DESCRIPTION ('-' reads standard input)."""
    from checker.output import render
    from checker.running import Checker

    refuse_to_overwrite(output, description, fitted)
    needs_working = form != "text" or detail == "all"
    with patience():
        report = Checker(folders, local).report(description, fitted, working=needs_working)
        content = render(report, form, width=width(), detail=detail or "usual")
    if output is not None or isinstance(content, bytes):
        from checker.writing import put, writing_whole

        with writing_whole(output, sys.stdout) as file:
            put(file, content)
    else:
        show(content, form, colour)
    return 0 if min((f.grade for f in report.findings), default=Grade.MET) >= accept else 1
