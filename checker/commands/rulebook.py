"""List, show and test the rules."""

from __future__ import annotations

from pathlib import Path

import click

from checker.commands.options import local_option, rules_options, told, width
from checker.commands.patience import patience

__all__ = ["command"]


@click.group("rulebook")
def command() -> None:
    """List, show and test the rules."""


@command.command("list")
@rules_options
@told
def rulebook_list(folders: tuple[Path, ...], local: tuple[str, ...]) -> int:
    """List every rule with what it checks."""
    from checker.output.rules import render_list
    from checker.running import Checker

    with patience():
        text = render_list(Checker(folders, local).rulebook, width=width())
    click.echo(text, nl=False)
    return 0


@command.command("show")
@click.argument("rule", required=False)
@click.option(
    "--format", "form", type=click.Choice(["text", "html"]), default="text", help="How to show it."
)
@click.option(
    "--all-to",
    "folder",
    type=click.Path(path_type=Path),
    metavar="DIR",
    help="Write a page for every rule, shared value and table, with an index, into a new folder.",
)
@rules_options
@told
def rulebook_show(
    rule: str | None,
    form: str,
    folder: Path | None,
    folders: tuple[Path, ...],
    local: tuple[str, ...],
) -> int:
    """Show one RULE: formulas, figures, sources, cases; or write pages of them all."""
    from checker.output.rules import render_rule
    from checker.rulebook.loading import load_rulebook

    if (rule is None) == (folder is None):
        raise click.UsageError("name one RULE, or a folder with --all-to")
    book = load_rulebook(folders, local=local)
    if rule is None:
        assert folder is not None  # noqa: S101 - one of the two is given
        from checker.output.rule_pages import INDEX, pages
        from checker.writing import write_folder

        count = write_folder(folder, pages(book))
        click.echo(f"{count} pages; begin with {folder / INDEX}")
    elif form == "html":
        from checker.output.rule_pages import render_rule_page

        click.echo(render_rule_page(book.named(rule), book), nl=False)
    else:
        click.echo(render_rule(book.named(rule), book, width=width()), nl=False)
    return 0


@command.command("test")
@click.argument("folders", nargs=-1, type=click.Path(path_type=Path))
@local_option
@told
def rulebook_test(folders: tuple[Path, ...], local: tuple[str, ...]) -> int:
    """Run every rule's own cases, those of further FOLDERS of rules too."""
    from checker.output.rules import render_test
    from checker.rulebook.loading import load_rulebook

    with patience():
        text, failed = render_test(load_rulebook(folders, local=local))
    click.echo(text, nl=False)
    return 1 if failed else 0


@command.command("sources")
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "json", "csv"]),
    default="text",
    help="How to print it.",
)
@click.option(
    "--confidence",
    "confidences",
    multiple=True,
    type=click.Choice(["checked", "common-practice", "from-memory"]),
    help="Only what was read so far; may be given again.",
)
@click.option(
    "--family",
    "families",
    multiple=True,
    metavar="NAME",
    help="Only this family of rules, or 'derived', 'tables', 'functions'; may be given again.",
)
@click.option(
    "--kind",
    "kinds",
    multiple=True,
    type=click.Choice(["rule", "derived", "parameter", "table", "column", "cell", "function"]),
    help="Only entries of this kind; may be given again.",
)
@rules_options
@told
def rulebook_sources(
    form: str,
    confidences: tuple[str, ...],
    families: tuple[str, ...],
    kinds: tuple[str, ...],
    folders: tuple[Path, ...],
    local: tuple[str, ...],
) -> int:
    """Print where every figure comes from, and how far that was read."""
    from checker.errors import Place, fault, near
    from checker.output.sources import render
    from checker.rulebook.loading import load_rulebook
    from checker.rulebook.register import narrowed, register

    entries = register(load_rulebook(folders, local=local))
    known = list(dict.fromkeys(e.family for e in entries))
    for name in families:
        if name not in known:
            fault(
                f"there is no family '{name}'",
                Place("--family"),
                hint=near(name, known) or f"one of: {', '.join(known)}",
            )
    chosen = narrowed(entries, confidences=confidences, families=families, kinds=kinds)
    click.echo(render(chosen, form, width=width()), nl=False)
    return 0
