"""The command ``mistwright``: options in, exit status out, no work of its own.

Exit status: 0 ready, 1 anything worse (``--accept`` sets the bar), 2 the command
was used wrongly, 3 a description or a rulebook cannot be read or is not valid, 4 a
fault of ours.
"""

from __future__ import annotations

import io
import os
import sys
from pathlib import Path

import click

from checker import __version__
from checker.commands import Commands

__all__ = ["cli", "main"]


@click.group(
    cls=Commands,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 80},
)
@click.version_option(__version__, "-V", "--version", message="mistwright %(version)s")
def cli() -> None:
    """Check the fitting of an oil-mist extraction unit to a machine tool.

    The result is a check of what was stated; it is no permission to work.
    """


def main() -> None:
    """Run the command; a fault of ours ends with 4 and says how to tell us."""
    for name in ("stdout", "stderr"):
        stream = getattr(sys, name)
        if stream is None:
            # Closed by the caller, who wants the status only.
            setattr(sys, name, Path(os.devnull).open("w", encoding="utf-8"))  # noqa: SIM115
        elif isinstance(stream, io.TextIOWrapper):
            # A terminal or a file name that is not Unicode shall not cost the report.
            stream.reconfigure(errors="backslashreplace")
    try:
        cli(prog_name="mistwright")
    except Exception as error:
        if os.environ.get("MISTWRIGHT_DEBUG"):
            raise
        click.echo(
            f"mistwright: a fault of ours ({type(error).__name__}: {error}). Run it again with MISTWRIGHT_DEBUG=1 and send us what it prints.",
            err=True,
        )
        sys.exit(4)
