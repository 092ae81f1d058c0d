"""Begin a description for one kind of mount."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from checker.commands.options import rules_options, told
from checker.commands.patience import patience

__all__ = ["command"]


@click.command("new", short_help="Begin a description for one kind of mount.")
@click.argument("kind", required=False)
@click.option(
    "--stage",
    default="plan",
    type=click.Choice(["plan", "fitted"]),
    help="Planned, or measured once fitted.",
)
@click.option("--jurisdiction", metavar="PLACE", help="Where the machine stands: GB, EU or US.")
@click.option(
    "--output", "-o", type=click.Path(path_type=Path), help="Write it to a new file instead."
)
@rules_options
@told
def command(
    kind: str | None,
    stage: str,
    jurisdiction: str | None,
    output: Path | None,
    folders: tuple[Path, ...],
    local: tuple[str, ...],
) -> int:
    """Write a description to fill in, for one KIND of mount.

    KIND is side-post, floor-stand, roof-plate or wall-bracket. It asks for what the rules
    that can apply to it read, and for nothing else.
    """
    from checker.asking.beginning import begin, drawn, refusal
    from checker.running import Checker

    checker = Checker(folders, local)
    with patience():
        layout = checker.rulebook.layout
    refused = refusal(layout, "mount.kind", kind)
    if jurisdiction is not None:
        refused = refused or refusal(layout, "job.jurisdiction", jurisdiction)
    if refused:
        raise click.UsageError(refused)
    with patience():
        text = drawn(checker, str(kind), stage, jurisdiction, output)
    if output is not None:
        click.echo(begin(output, text), nl=False, err=True)
        return 0
    click.echo(text, nl=False)
    if sys.stdout.isatty():
        click.echo(f"\nIn a file: mistwright new {kind} --output job.yaml", err=True)
    return 0
