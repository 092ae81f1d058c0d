"""Open the desk: a local page to describe installations on."""

from __future__ import annotations

import contextlib
import webbrowser
from pathlib import Path

import click

from checker.commands.options import rules_options, told

__all__ = ["command"]


@click.command("desk", short_help="Describe installations on a page, with the findings beside it.")
@click.argument("folder", default=".", type=click.Path(path_type=Path))
@click.option("--port", type=click.IntRange(1, 65535), metavar="N", help="Where to listen.")
@click.option("--open/--no-open", "opened", default=True, help="Open it in the browser at once.")
@rules_options
@told
def command(
    folder: Path, port: int | None, opened: bool, folders: tuple[Path, ...], local: tuple[str, ...]
) -> int:
    """Open the desk on a FOLDER of descriptions.

    A page on this machine only, in your own browser: a form for each description, the
    findings beside it as you type. It reads and writes the files that the other commands do.
    """
    try:
        import ruamel.yaml

        from checker.desk.serving import Desk
    except ModuleNotFoundError as error:
        if (error.name or "").partition(".")[0] == "checker":
            raise
        raise click.UsageError(
            f"the desk is an extra, and {error.name} is not installed: pip install 'mistwright[desk]'"
        ) from None
    del ruamel  # Asked for only to be missed now rather than at the first save that needs it.
    from checker.running import Checker

    desk = Desk(folder, Checker(folders, local), port)
    click.echo(f"The desk on {folder} is open, on this machine only, at\n    {desk.address}\nCtrl-C closes it.")  # fmt: skip
    if opened:
        webbrowser.open(desk.address)
    with contextlib.suppress(KeyboardInterrupt):
        desk.run()
    return 0
