"""The whole of ``mistwright ask``: begin or resume, walk, say how things stand."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

from checker.asking.answers import as_yaml
from checker.asking.beginning import begin, drawn
from checker.asking.document import Document
from checker.asking.explaining import KEYS, choices_in_lines
from checker.asking.questions import questions_of
from checker.asking.terminal import Ended, Terminal
from checker.asking.walk import Range, Stopped, Walk, range_of
from checker.checking.judging import judge
from checker.errors import Place, fault, near
from checker.installation.fields import Field
from checker.output.text import VERDICT_MEANING
from checker.running import Checker

__all__ = ["ask"]


def ask(path: Path, section: str | None, checker: Checker, terminal: Terminal) -> int:
    """Ask for what a description lacks, saving every answer; gives the exit status.

    Raises Mistakes for a file that cannot be read or written, and KeyboardInterrupt once
    it has said that nothing is lost.
    """
    if not path.exists() and not _begin(path, checker, terminal):
        terminal.say("Nothing was written.")
        return 0
    document = Document(path, checker)
    walk = Walk(document, terminal)
    try:
        _walk(walk, section)
    except (Stopped, Ended):
        pass
    except KeyboardInterrupt:
        terminal.print("")
        terminal.say(f"Stopped. Every answer so far is in {document.name}.")
        raise
    _stand(document, terminal)
    return 0


def _begin(path: Path, checker: Checker, terminal: Terminal) -> bool:
    """Make the file; False if the person would rather not."""
    if not path.parent.is_dir():
        fault("there is no such folder", Place(str(path.parent)), hint="make it first, or name another file")  # fmt: skip
    layout = checker.rulebook.layout
    terminal.say(f"{path.as_posix()} does not exist yet: three questions to begin it.")
    chosen: list[str] = []
    try:
        for name, otherwise in (
            ("mount.kind", None),
            ("job.stage", "plan"),
            ("job.jurisdiction", ""),
        ):
            field = layout.leaf(name)
            assert field is not None  # noqa: S101 - every description has these three
            chosen.append(_choose(field, otherwise, terminal))
    except (Stopped, Ended):
        return False
    kind, stage, jurisdiction = chosen
    begin(path, drawn(checker, kind, stage, jurisdiction or None, path))
    return True


def _choose(field: Field, otherwise: str | None, terminal: Terminal) -> str:
    """One of a field's choices. Raises Stopped and Ended."""
    terminal.print("")
    terminal.print(field.path)
    terminal.say(field.description, indent=4)
    for line in choices_in_lines(field):
        terminal.print(f"    {line}")
    if otherwise is not None:
        terminal.say(f"Enter: {otherwise or 'leave it for later'}.", indent=4)
    while True:
        typed = terminal.read()
        if typed == "q":
            raise Stopped
        if not typed and otherwise is not None:
            return otherwise
        word = as_yaml(field, typed)
        if word in field.choices:
            return word
        hint = near(typed, field.choices)
        terminal.say(f"Write one of the words, or its number. {hint or 'q stops.'}", indent=4)


def _walk(walk: Walk, section: str | None) -> None:
    terminal, document = walk.terminal, walk.document
    chosen = Range("") if section is None else range_of(section, document)
    terminal.print("")
    terminal.say("Every answer is saved at once.")
    terminal.print(KEYS)
    if section is not None:
        walk.go(chosen, ())
        if not walk.history:
            terminal.print("")
            terminal.say(
                f"Nothing is open under {section}. To change an answer, name its field: --section collector.mass"
            )
        return
    start = walk.frontier()
    if start:
        terminal.say("Going on behind the last answer.")
    walk.go(chosen, start)
    left = [
        q for q in walk.questions() if q.kind != "more" and q.is_open and not q.need.may_be_left_out
    ]
    if not left:
        return
    terminal.print("")
    were = "1 was" if len(left) == 1 else f"{len(left)} were"
    terminal.say(f"That was the last one. {were} left for later: go through them now? [yes or no]")
    if terminal.read().lower() in ("yes", "y"):
        walk.go(chosen, (), needed_only=True)


def _stand(document: Document, terminal: Terminal) -> None:
    """How many fields are still open, and the check's verdict as things stand."""
    asked = [
        q
        for q in questions_of(document.installation, document.needs, frozenset())
        if q.kind != "more" and not q.need.may_be_left_out
    ]
    left = Counter(str(q.parts[0]) for q in asked if q.is_open)
    name = document.name
    terminal.print("")
    if left:
        where = ", ".join(f"{section} {n}" for section, n in left.items())
        terminal.say(f"{sum(left.values())} of {len(asked)} questions are still open: {where}.")
        terminal.say(f"Go on at any time: mistwright ask {name}")
    else:
        terminal.say(f"All {len(asked)} questions are answered.")
    terminal.say(f"The whole report: mistwright check {name}")
    verdict = judge(document.rulebook, document.installation).verdict
    terminal.print("")
    terminal.say(f"VERDICT  {verdict.value}: {VERDICT_MEANING[verdict]}")
