"""What several commands share: options, the way mistakes are told, the width of a line."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from functools import wraps
from pathlib import Path
from typing import Any, NoReturn, ParamSpec, TypeVar

import click

from checker.errors import Mistakes
from checker.grades import Grade

__all__ = [
    "accept_option",
    "fitted_option",
    "local_option",
    "refuse_to_overwrite",
    "result_options",
    "rules_options",
    "show",
    "told",
    "width",
]

P = ParamSpec("P")
C = TypeVar("C", bound=Callable[..., Any])
# What a shell shows for any program whose reader stopped: not 0, which would say "ready".
_READER_WENT_AWAY = 141
_INTERRUPTED = 130
_ACCEPT = [g.word for g in (Grade.STOP, Grade.CORRECT, Grade.CONFIRM, Grade.ADVISE, Grade.MET)]


def local_option(command: C) -> C:
    """The option that names local overlays."""
    return click.option(
        "--local",
        "local",
        multiple=True,
        metavar="NAME",
        help="A local overlay; the last one named wins.",
    )(command)


def fitted_option(command: C) -> C:
    """The option that names the file with what was found on site."""
    return click.option(
        "--fitted",
        metavar="SITE",
        help="What was measured or changed on site, over the plan.",
    )(command)


def rules_options(command: C) -> C:
    """Options for the rules to check by: further folders of them, and local overlays."""
    folders = click.option(
        "--rules",
        "folders",
        multiple=True,
        type=click.Path(path_type=Path),
        metavar="DIR",
        help="A further folder of rules, laid out as the shipped one.",
    )
    return folders(local_option(command))


def accept_option(command: C) -> C:
    """The option that sets the bar for the exit status."""
    return click.option(
        "--accept",
        default="advise",
        callback=lambda _context, _option, word: Grade.of(word),
        type=click.Choice(_ACCEPT),
        help="The gravest grade that still exits with 0.",
    )(command)


def result_options(command: C) -> C:
    """Options for the results of an audit: their form, and the file they go to."""
    form = click.option(
        "--format",
        "form",
        default="text",
        type=click.Choice(["text", "json", "jsonl", "csv", "parquet", "junit", "sarif", "html"]),
        help="What the result looks like.",
    )
    output = click.option(
        "--output",
        "-o",
        type=click.Path(path_type=Path),
        help="Write the result to a file instead.",
    )
    return form(output(command))


def told(command: Callable[P, int]) -> Callable[P, NoReturn]:
    """Turn what a person did wrong into a message and a status; nothing else is caught."""

    @wraps(command)
    def run(*args: P.args, **kwargs: P.kwargs) -> NoReturn:
        try:
            status = command(*args, **kwargs)
            sys.stdout.flush()
        except Mistakes as error:
            click.echo(str(error), err=True)
            status = 3
        except BrokenPipeError:
            # The reader went away; say nothing, and keep Python from saying something.
            os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
            status = _READER_WENT_AWAY
        except KeyboardInterrupt:
            status = _INTERRUPTED
        sys.exit(status)

    return run


def refuse_to_overwrite(output: Path | None, *inputs: str | None) -> None:
    """Refuse an output that is one of the files to be read. Raises click.UsageError."""
    for name in filter(None, inputs):
        read = Path(name)
        if output is not None and output.exists() and read.exists() and output.samefile(read):
            raise click.UsageError(f"--output would write over {name}")


def width() -> int:
    """The width of the lines to print: the terminal's, at most 100; 80 for a file."""
    if not sys.stdout.isatty() and "COLUMNS" not in os.environ:
        return 80
    import shutil

    return min(shutil.get_terminal_size((80, 24)).columns, 100)


def show(text: str, form: str, colour: bool | None) -> None:
    """Print a report, in colour where that is wanted and means something."""
    if form != "text" or not _coloured(colour):
        click.echo(text, nl=False)
        return
    from checker.output.colour import show_coloured

    show_coloured(text)


def _coloured(asked: bool | None) -> bool:
    if asked is not None:
        return asked
    if os.environ.get("NO_COLOR"):
        return False
    if os.environ.get("FORCE_COLOR"):
        return True
    return sys.stdout.isatty() and os.environ.get("TERM") != "dumb"
