"""Put the parts of a divided audit together."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from checker.commands.options import accept_option, result_options, told
from checker.grades import Grade

__all__ = ["command"]


@click.command("merge", short_help="Put an audit's parts together.")
@click.argument("parts", nargs=-1, required=True)
@result_options
@click.option("--words", is_flag=True, help="With jsonl: keep the sentences.")
@click.option(
    "--reports",
    type=click.Path(path_type=Path, file_okay=False),
    metavar="DIR",
    help="Where the parts wrote the jobs' reports, for the HTML overview to lead to.",
)
@accept_option
@told
def command(
    parts: tuple[str, ...],
    form: str,
    output: Path | None,
    accept: Grade,
    words: bool,
    reports: Path | None,
) -> int:
    """Put the JSON lines of an audit's PARTS together, given in the order 1/N to N/N.

    The result is that of one run over all, to the byte.
    """
    from checker.audit.merging import merge_parts

    return merge_parts(parts, form, output, accept, sys.stdout, reports, words=words)
