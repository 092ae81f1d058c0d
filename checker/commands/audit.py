"""Check many descriptions at once."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from checker.commands.options import accept_option, result_options, rules_options, told
from checker.grades import Grade

__all__ = ["command"]


@click.command("audit", short_help="Check many descriptions at once.")
@click.argument("paths", nargs=-1)
@click.option(
    "--from",
    "lists",
    multiple=True,
    metavar="FILE",
    help="A file that lists paths, one a line ('-': standard input).",
)
@result_options
@accept_option
@click.option(
    "--against",
    type=click.Path(path_type=Path),
    metavar="EARLIER",
    help="The JSON or JSON lines of an earlier audit: say what changed since, and why.",
)
@click.option(
    "--versus",
    multiple=True,
    type=click.Path(path_type=Path),
    metavar="DIR",
    help="Say what differs from the shipped rules with this folder over them.",
)
@click.option(
    "--versus-local",
    multiple=True,
    metavar="NAME",
    help="Say what differs from the rules under this overlay.",
)
@click.option(
    "--part",
    metavar="K/N",
    help="Only the K-th of N parts; 'mistwright merge' puts the parts together.",
)
@click.option(
    "--processes",
    "-j",
    default=1,
    type=click.IntRange(1, 256),
    help="How many processes share the work.",
)
@click.option(
    "--memory",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="Remember results here; what has not changed is not judged again.",
)
@click.option(
    "--words",
    is_flag=True,
    help="With jsonl: the sentences too, which 'merge' needs for junit and sarif.",
)
@click.option(
    "--reports",
    type=click.Path(path_type=Path, file_okay=False),
    metavar="DIR",
    help="Write each job's report here as a page; the HTML overview leads to them.",
)
@click.option(
    "--annotate",
    is_flag=True,
    help="Show the ten worst findings in the log of a CI service.",
)
@rules_options
@told
def command(
    paths: tuple[str, ...],
    lists: tuple[str, ...],
    form: str,
    output: Path | None,
    accept: Grade,
    against: Path | None,
    versus: tuple[Path, ...],
    versus_local: tuple[str, ...],
    part: str | None,
    processes: int,
    memory: Path | None,
    words: bool,
    reports: Path | None,
    annotate: bool,
    folders: tuple[Path, ...],
    local: tuple[str, ...],
) -> int:
    """Check many descriptions: files, patterns, and folders with all below them.

    NAME.fitted.yaml beside NAME.yaml is what was found on site; the pair is one job.
    """
    from checker.audit.command import Order, run_audit

    if not paths and not lists:
        raise click.UsageError("name a file, a folder or a pattern, or a list with --from")
    if against and (versus or versus_local):
        raise click.UsageError("--against and --versus are two different questions; ask one")
    order = Order(
        paths, lists, form, output, accept, part, processes, memory, folders, local,
        against, versus, versus_local, annotate, reports, words,
    )  # fmt: skip
    return run_audit(order, sys.stdout, sys.stderr)
