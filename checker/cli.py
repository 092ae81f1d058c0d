"""The command ``mistwright``: options in, exit status out, no work of its own.

Exit status: 0 ready, 1 anything worse (``--accept`` sets the bar), 2 the command
was used wrongly, 3 a description or a rulebook cannot be read or is not valid, 4 a
fault of ours.
"""

from __future__ import annotations

import io
import os
import shutil
import sys
from collections.abc import Callable
from functools import wraps
from pathlib import Path
from typing import Any, NoReturn, ParamSpec

import click

from checker import __version__
from checker.errors import Mistakes
from checker.grades import Grade

__all__ = ["main"]

P = ParamSpec("P")
# What a shell shows for any program whose reader stopped: not 0, which would say "ready".
_READER_WENT_AWAY = 141
_INTERRUPTED = 130
_ACCEPT = [g.word for g in (Grade.STOP, Grade.CORRECT, Grade.CONFIRM, Grade.ADVISE, Grade.MET)]


@click.group(context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 80})
@click.version_option(__version__, "-V", "--version", message="mistwright %(version)s")
def cli() -> None:
    """Check the fitting of an oil-mist extraction unit to a machine tool.

    The result is a check of what was stated; it is no permission to work.
    """


_rules_options = [
    click.option("--rules", "folders", multiple=True, type=click.Path(path_type=Path), metavar="DIR", help="A further folder of rules, laid out as the shipped one."),
    click.option("--local", "local", multiple=True, metavar="NAME", help="A local overlay; the last one named wins."),
]  # fmt: skip


def _with(options: list[Callable[[Any], Any]]) -> Callable[[Any], Any]:
    def decorate(command: Any) -> Any:
        for option in reversed(options):
            command = option(command)
        return command

    return decorate


def _told(command: Callable[P, int]) -> Callable[P, NoReturn]:
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


def _refuse_to_overwrite(output: Path | None, *inputs: str | None) -> None:
    for name in filter(None, inputs):
        read = Path(name)
        if output is not None and output.exists() and read.exists() and output.samefile(read):
            raise click.UsageError(f"--output would write over {name}")


def _accept(_: Any, __: Any, value: str) -> Grade:
    return Grade.of(value)


@cli.command()
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
@click.option(
    "--fitted",
    type=str,
    metavar="SITE",
    help="What was measured or changed on site, over the plan.",
)
@click.option(
    "--accept",
    default="advise",
    callback=_accept,
    type=click.Choice(_ACCEPT),
    help="The gravest grade that still exits with 0.",
)
@click.option("--brief", "detail", flag_value="brief", help="Only what has to be done.")
@click.option("--all", "detail", flag_value="all", help="Every finding whole, those met too.")
@click.option(
    "--colour/--no-colour", default=None, help="Colour on or off, whatever the terminal says."
)
@_with(_rules_options)
@_told
def check(
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

    _refuse_to_overwrite(output, description, fitted)
    needs_working = form != "text" or detail == "all"
    report = Checker(folders, local).report(description, fitted, working=needs_working)
    content = render(report, form, width=_width(), detail=detail or "usual")
    if output is not None or isinstance(content, bytes):
        from checker.writing import put, writing_whole

        with writing_whole(output, sys.stdout) as file:
            put(file, content)
    else:
        _show(content, form, colour)
    return 0 if min((f.grade for f in report.findings), default=Grade.MET) >= accept else 1


@cli.command()
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
@_with(_rules_options)
@_told
def new(
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
    layout = checker.rulebook.layout
    refused = refusal(layout, "mount.kind", kind)
    if jurisdiction is not None:
        refused = refused or refusal(layout, "job.jurisdiction", jurisdiction)
    if refused:
        raise click.UsageError(refused)
    text = drawn(checker, str(kind), stage, jurisdiction, output)
    if output is not None:
        click.echo(begin(output, text), nl=False, err=True)
        return 0
    click.echo(text, nl=False)
    if sys.stdout.isatty():
        click.echo(f"\nIn a file: mistwright new {kind} --output job.yaml", err=True)
    return 0


@cli.command()
@click.argument("description", required=False, type=click.Path(path_type=Path))
@click.option(
    "--section", metavar="NAME", help="Only a section, a list, or one field (to change its answer)."
)
@_with(_rules_options)
@_told
def ask(
    description: Path | None, section: str | None, folders: tuple[Path, ...], local: tuple[str, ...]
) -> int:
    """Fill in a DESCRIPTION by question and answer.

    One that does not exist yet is begun. Every answer is saved at once; stop at any time,
    it goes on where it was left.
    """
    from checker.asking.conversation import ask as hold
    from checker.asking.terminal import Terminal
    from checker.running import Checker

    if description is None:
        raise click.UsageError("name the file to fill in, begun or not: mistwright ask job.yaml")
    return hold(
        description, section, Checker(folders, local), Terminal(sys.stdin, sys.stdout, _width())
    )


@cli.command()
@click.argument("description")
@click.argument("rule")
@_with(_rules_options)
@_told
def working(description: str, rule: str, folders: tuple[Path, ...], local: tuple[str, ...]) -> int:
    """Show the working of one RULE on a DESCRIPTION, with its numbers and sources."""
    from checker.errors import Mistake, Place, near
    from checker.output.text import render_working
    from checker.running import Checker

    checker = Checker(folders, local)
    rulebook = checker.rulebook
    if rulebook.rule(rule) is None:
        raise Mistakes(
            [
                Mistake(
                    f"there is no rule '{rule}'",
                    Place("rulebook"),
                    hint=near(rule, [r.name for r in rulebook.rules])
                    or "list them with 'mistwright rulebook list'",
                )
            ]
        )
    report = checker.report(description)
    for finding in report.findings:
        if finding.rule == rule:
            click.echo(render_working(finding, width=_width()))
    return 0


@cli.command()
@click.argument("paths", nargs=-1)
@click.option(
    "--from",
    "lists",
    multiple=True,
    metavar="FILE",
    help="A file that lists paths, one a line ('-': standard input).",
)
@click.option(
    "--format",
    "form",
    default="text",
    type=click.Choice(["text", "json", "jsonl", "csv", "parquet", "junit", "sarif"]),
    help="What the result looks like.",
)
@click.option(
    "--output", "-o", type=click.Path(path_type=Path), help="Write the result to a file instead."
)
@click.option(
    "--accept",
    default="advise",
    callback=_accept,
    type=click.Choice(_ACCEPT),
    help="The gravest grade that still exits with 0.",
)
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
@_with(_rules_options)
@_told
def audit(
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
        against, versus, versus_local,
    )  # fmt: skip
    return run_audit(order, sys.stdout, sys.stderr)


@cli.command()
@click.argument("description")
@click.option("--fitted", metavar="SITE", help="What was measured or changed on site.")
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
@_with(_rules_options)
@_told
def sheet(
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

    _refuse_to_overwrite(output, description, fitted)
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
            render_markdown(found) if form == "markdown" else render_text(found, width=_width())
        )
    with writing_whole(output, sys.stdout) as file:
        put(file, content)
    return 0


@cli.command()
@click.argument("parts", nargs=-1, required=True)
@click.option(
    "--format",
    "form",
    default="text",
    type=click.Choice(["text", "json", "jsonl", "csv", "parquet", "junit", "sarif"]),
    help="What the result looks like.",
)
@click.option(
    "--output", "-o", type=click.Path(path_type=Path), help="Write the result to a file instead."
)
@click.option(
    "--accept",
    default="advise",
    callback=_accept,
    type=click.Choice(_ACCEPT),
    help="The gravest grade that still exits with 0.",
)
@_told
def merge(parts: tuple[str, ...], form: str, output: Path | None, accept: Grade) -> int:
    """Put the JSON lines of an audit's PARTS together, given in the order 1/N to N/N.

    The result is that of one run over all, to the byte.
    """
    from checker.audit.merging import merge_parts

    return merge_parts(parts, form, output, accept, sys.stdout)


@cli.command()
@click.argument("description")
@click.argument("field")
@click.option(
    "--format",
    "form",
    default="text",
    type=click.Choice(["text", "json"]),
    help="What the result looks like.",
)
@_with(_rules_options)
@_told
def window(
    description: str, field: str, form: str, folders: tuple[Path, ...], local: tuple[str, ...]
) -> int:
    """Show every rule's grade across a FIELD's usual range, the rest as stated."""
    import json

    from checker.output.json_report import as_data
    from checker.output.window_chart import render
    from checker.running import Checker

    found = Checker(folders, local).window(description, field)
    if form == "json":
        click.echo(json.dumps(as_data(found), indent=2, ensure_ascii=False))
    else:
        click.echo(render(found, width=_width()), nl=False)
    return 0


@cli.command()
@click.argument("words", nargs=-1)
@_with(_rules_options)
@_told
def fields(words: tuple[str, ...], folders: tuple[Path, ...], local: tuple[str, ...]) -> int:
    """Say what each field means, its unit, its range, where to get it, which rules read it.

    WORDS narrow it down: a section, a path, or any word of the meaning.
    """
    from checker.output.field_list import render
    from checker.running import Checker

    click.echo(render(Checker(folders, local).rulebook, words, width=_width()), nl=False)
    return 0


@cli.group()
def rulebook() -> None:
    """List, show and test the rules."""


@rulebook.command("list")
@_with(_rules_options)
@_told
def rulebook_list(folders: tuple[Path, ...], local: tuple[str, ...]) -> int:
    """List every rule with what it checks."""
    from checker.output.rules import render_list
    from checker.running import Checker

    click.echo(render_list(Checker(folders, local).rulebook, width=_width()), nl=False)
    return 0


@rulebook.command("show")
@click.argument("rule")
@_with(_rules_options)
@_told
def rulebook_show(rule: str, folders: tuple[Path, ...], local: tuple[str, ...]) -> int:
    """Show one RULE: formulas, figures, sources, cases."""
    from checker.errors import Mistake, Place, near
    from checker.output.rules import render_rule
    from checker.rulebook.loading import load_rulebook

    book = load_rulebook(folders, local=local)
    found = book.rule(rule)
    if found is None:
        raise Mistakes(
            [
                Mistake(
                    f"there is no rule '{rule}'",
                    Place("rulebook"),
                    hint=near(rule, [r.name for r in book.rules]),
                )
            ]
        )
    click.echo(render_rule(found, book, width=_width()), nl=False)
    return 0


@rulebook.command("test")
@click.argument("folders", nargs=-1, type=click.Path(path_type=Path))
@click.option(
    "--local",
    "local",
    multiple=True,
    metavar="NAME",
    help="A local overlay; the last one named wins.",
)
@_told
def rulebook_test(folders: tuple[Path, ...], local: tuple[str, ...]) -> int:
    """Run every rule's own cases, those of further FOLDERS of rules too."""
    from checker.output.rules import render_test
    from checker.rulebook.loading import load_rulebook

    text, failed = render_test(load_rulebook(folders, local=local))
    click.echo(text, nl=False)
    return 1 if failed else 0


def _width() -> int:
    if not sys.stdout.isatty() and "COLUMNS" not in os.environ:
        return 80
    return min(shutil.get_terminal_size((80, 24)).columns, 100)


def _show(text: str, form: str, colour: bool | None) -> None:
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
