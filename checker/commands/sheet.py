"""Write the fitting sheet of a description."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from checker.commands.options import fitted_option, refuse_to_overwrite, rules_options, told, width
from checker.commands.patience import patience

__all__ = ["command"]


@click.command("sheet", short_help="Write the fitting sheet: take, set, measure, sign.")
@click.argument("description")
@fitted_option
@click.option(
    "--format",
    "form",
    default="text",
    type=click.Choice(["text", "markdown", "json", "html", "pdf"]),
    help="What the sheet looks like.",
)
@click.option(
    "--output", "-o", type=click.Path(path_type=Path), help="Write the sheet to a file instead."
)
@rules_options
@told
def command(
    description: str,
    fitted: str | None,
    form: str,
    output: Path | None,
    folders: tuple[Path, ...],
    local: tuple[str, ...],
) -> int:
    """Write the fitting sheet of a DESCRIPTION: what to take along, set, measure and sign."""
    import json

    from checker.output.json_report import as_data
    from checker.output.sheet import render_markdown, render_text
    from checker.running import Checker
    from checker.writing import put, writing_whole

    refuse_to_overwrite(output, description, fitted)
    with patience():
        found = Checker(folders, local).sheet(description, fitted)
    content: str | bytes
    if form == "json":
        content = json.dumps(as_data(found), indent=2, ensure_ascii=False) + "\n"
    elif form in ("html", "pdf"):
        from checker.output.sheet_html import render as render_sheet

        content = render_sheet(found)
        if form == "pdf":
            from checker.output.pdf import page_as_pdf

            content = page_as_pdf(content, found.digest)
    else:
        content = (
            render_markdown(found) if form == "markdown" else render_text(found, width=width())
        )
    with writing_whole(output, sys.stdout) as file:
        put(file, content)
    return 0
