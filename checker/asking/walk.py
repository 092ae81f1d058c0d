"""The walk through a description: which question comes next, and what an answer does."""

from __future__ import annotations

import math
import re
from typing import NamedTuple

from checker.asking import editing
from checker.asking.answers import as_yaml
from checker.asking.document import ChangedMeanwhile, Document
from checker.asking.explaining import explain
from checker.asking.questions import Order, Question, questions_of
from checker.asking.showing import INDENT, show_mistakes, show_question
from checker.asking.terminal import Terminal
from checker.errors import Mistakes, Place, fault, near
from checker.installation.fields import Field, Layout, Section, general_path
from checker.output.new_description import draw_item

__all__ = ["Range", "Stopped", "Walk", "range_of"]

# What is stated before anyone is asked says nothing about how far the asking came.
_STATED_AT_THE_START = ("job.stage", "job.jurisdiction", "mount.kind")
_YES = ("yes", "y")
_NO = ("no", "n")
_NONE = ("none", "0")


class Stopped(Exception):
    """The person stops here."""


class Range(NamedTuple):
    """The questions of one walk: those whose path lies under a name, answered ones too if asked."""

    under: str
    answered_too: bool = False

    def holds(self, question: Question) -> bool:
        """Whether a question belongs to the walk."""
        under = self.under
        if under and question.path != under and not question.path.startswith((f"{under}.", f"{under}[")):  # fmt: skip
            return False
        return question.is_open or self.answered_too


def range_of(name: str, document: Document) -> Range:
    """The walk that ``--section`` asks for. Raises Mistakes for a name that is not there."""
    found = questions_of(document.installation, document.needs, frozenset())
    if any(q.path == name and q.kind == "field" for q in found):
        return Range(name, answered_too=True)
    whole = Range(name, answered_too=True)
    if not any(whole.holds(q) for q in found):
        layout = document.installation.record.layout
        known = {q.group for q in found} | {q.path for q in found}
        is_there = any(name in (f.path, f.path.rpartition(".")[0]) for f in layout.walk())
        is_there = is_there or isinstance(layout.by_path.get(name), Section)
        fault(
            f"nothing is asked under '{name}'",
            Place(document.name),
            expected="a section, a list or a field"
            if not is_there
            else "one that a rule reads for this mount at this stage",
            hint=near(name, known)
            or "sections: " + ", ".join(dict.fromkeys(str(q.parts[0]) for q in found)),
        )
    return Range(name)


class Walk:
    """One person's way through the questions, saving every answer as it comes."""

    def __init__(self, document: Document, terminal: Terminal) -> None:
        self.document = document
        self.terminal = terminal
        self.opened: set[str] = set()
        self.history: list[tuple[str, str]] = []
        self.group = ""
        # The groups that may be left out as a whole and have been asked about.
        self.entered: set[str] = set()

    def questions(self) -> list[Question]:
        """Every question as things stand."""
        return questions_of(self.document.installation, self.document.needs, self.opened)

    def frontier(self) -> Order:
        """The order of the last field that was answered: from there the asking goes on."""
        answered = [
            q.order
            for q in self.questions()
            if q.kind == "field" and not q.is_open and q.path not in _STATED_AT_THE_START
        ]
        return max(answered, default=())

    def go(self, chosen: Range, start: Order, *, needed_only: bool = False) -> None:
        """Ask what is open behind a start, to the end. Raises Stopped, Ended and Mistakes."""
        at = start
        self.group = ""
        while True:
            all_ = self.questions()
            following = next(
                (
                    q
                    for q in all_
                    if q.order > at
                    and chosen.holds(q)
                    and not (needed_only and (q.need.may_be_left_out or q.kind == "more"))
                ),
                None,
            )
            if following is None:
                return
            group = self._may_be_skipped(following, all_, chosen)
            if group is not None and not self._wanted(group):
                at = max(q.order for q in all_ if q.path.startswith(f"{group}."))
                continue
            at = self._put(following)

    def _may_be_skipped(
        self, question: Question, all_: list[Question], chosen: Range
    ) -> str | None:
        """The widest group around a question that nothing waits for and nobody has begun."""
        parts = question.group.split(".")
        for i in range(1, len(parts) + 1):
            group = ".".join(parts[:i])
            below = [q for q in all_ if q.path.startswith(f"{group}.")]
            if (
                group not in ("", "job")
                and not group.endswith("]")
                and group not in self.entered
                and not chosen.under.startswith(group)
                and all(q.need.may_be_left_out and q.is_open for q in below)
            ):
                return group
        return None

    def _wanted(self, group: str) -> bool:
        """Ask once for a whole group of fields that may be left out. Raises Stopped."""
        self.entered.add(group)
        self.terminal.print("")
        self.terminal.print(f"== {group}")
        self._say(
            f"{self._described(group)} May be left out as a whole. Is there something to state? [yes; Enter: no]"
        )
        typed = self.terminal.read().lower()
        if typed == "q":
            raise Stopped
        self.group = group
        return typed in _YES

    def _described(self, group: str) -> str:
        """What a section is, or the item that it is in a list."""
        found: Layout = self.document.installation.record.layout
        section: Section | None = found.root
        for part in re.split(r"\[[0-9]+\]\.?", group):
            at = found.by_path.get(part)
            if isinstance(at, Field) and at.item is not None:
                found, section = at.item, at.item.root
            elif isinstance(at, Section):
                section = at
        return "" if section is None else section.description

    def _put(self, question: Question) -> Order:
        """Put one question until it is done with; gives the order to go on behind."""
        heading = question.group != self.group
        progress = self._progress() if heading else ""
        show_question(self.terminal, question, heading=heading, progress=progress)
        self.group = question.group
        while True:
            typed = self.terminal.read()
            if "\ufffd" in typed:
                self._say("Some of that could not be read. Type it again, in UTF-8.")
                continue
            match typed:
                case "?":
                    for text in explain(question, self.document.rulebook):
                        self._say(text)
                    continue
                case "q":
                    raise Stopped
                case "<":
                    before = self._back()
                    if before is None:
                        self._say("This is where it began.")
                        continue
                    return self._put(before)
                case ">":
                    self._say(f"Skipped the rest of {question.group}.")
                    self.history.append((question.kind, question.path))
                    return question.leave
            at = self._answer(question, typed)
            if at is not None:
                self.history.append((question.kind, question.path))
                return at

    def _progress(self) -> str:
        """How much is answered of what is waited for, to stand behind a heading."""
        asked = [q for q in self.questions() if q.kind != "more" and not q.need.may_be_left_out]
        return f"   ({sum(not q.is_open for q in asked)} of {len(asked)} answered)"

    def _back(self) -> Question | None:
        """The question put before this one, if it still is one."""
        known: dict[tuple[str, str], Question] = {(q.kind, q.path): q for q in self.questions()}
        while self.history:
            found = known.get(self.history.pop())
            if found is not None:
                return found
        return None

    def _answer(self, question: Question, typed: str) -> Order | None:
        """What an answer does; None where it has to be given again."""
        try:
            if question.kind == "field":
                return self._field(question, typed)
            return self._list(question, typed.lower())
        except editing.CannotEdit as error:
            self._say(
                f"This is written in a way that only you can change: line {error.line} of "
                f"{self.document.name}. Write it in there, or press Enter to leave it."
            )
        except ChangedMeanwhile as error:
            self._say(
                f"{self.document.name} was changed meanwhile and cannot be read; your answer is not in it yet. "
                "Put it right, then answer again."
            )
            self.terminal.print(str(error.mistakes))
        except Mistakes as error:
            if any(m.what.startswith("the file cannot be written") for m in error.mistakes):
                raise
            show_mistakes(self.terminal, question, error)
        return None

    def _field(self, question: Question, typed: str) -> Order | None:
        if typed == "-" and question.answer is not None:
            self.document.change(lambda text: editing.clear(text, question.parts))
            self._say("Taken back.")
        elif typed not in ("", "-"):
            value = as_yaml(question.field, typed)
            self.document.change(lambda text: editing.put(text, question.parts, value))
            record = self.document.record_at(question.parts)
            if record is not None and question.field.slot in record.unusual:
                self._say(
                    f"Kept, but it usually lies within {question.field.plausible_text}: check the unit and "
                    "the decimal point. '<' goes back to it."
                )
        return question.order

    def _list(self, question: Question, typed: str) -> Order | None:
        if typed in ("", "-") or (question.kind == "more" and typed in _NO):
            return question.order
        if typed in _YES:
            if question.members == 0 or question.kind == "more":
                self._add(question)
            self.opened.add(question.path)
            if question.kind == "more":
                return (*question.order[:-1], question.members - 1, math.inf)
            return question.order
        if question.kind == "list" and typed in _NONE:
            self.document.change(lambda text: editing.empty_list(text, question.parts))
            return question.order
        if typed in _NO:
            self._say("Is there none at all? Then write 'none'. Enter leaves it for later.")
        else:
            self._say(
                "Write yes or no." if question.kind == "more" else "Write yes or none; Enter leaves it for later."
            )  # fmt: skip
        return None

    def _add(self, question: Question) -> None:
        layout = question.field.item
        assert layout is not None  # noqa: S101 - only lists get members
        general = {general_path(path): need for path, need in self.document.needs.items()}
        lines = draw_item(layout, general, "", comments=False)
        self.document.change(lambda text: editing.add_item(text, question.parts, lines))

    def _say(self, text: str) -> None:
        self.terminal.say(text, indent=INDENT)
