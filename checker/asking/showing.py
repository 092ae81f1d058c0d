"""A question as it stands on the screen, and what is wrong with an answer."""

from __future__ import annotations

from checker.asking.explaining import choices_in_lines, shortly
from checker.asking.questions import Question
from checker.asking.terminal import Terminal
from checker.errors import Mistakes

__all__ = ["INDENT", "show_mistakes", "show_question"]

INDENT = 4


def show_question(
    terminal: Terminal, question: Question, *, heading: bool, progress: str = ""
) -> None:
    """The question, under the heading of its group where that is a new one."""
    if heading and question.kind != "more":
        terminal.print("")
        terminal.print(f"== {question.group}{progress}")
        if question.section.description:
            terminal.say(question.section.description, indent=3)
    terminal.print("")
    if question.kind == "more":
        terminal.print(f"{question.path}: {question.members} so far")
        terminal.say("One more? [yes or no]", indent=INDENT)
        return
    terminal.print(question.path)
    for text in shortly(question):
        terminal.say(text, indent=INDENT)
    if question.kind == "list":
        terminal.say("Is there one to describe? [yes, or none; Enter: later]", indent=INDENT)
    elif question.field.type == "choice":
        for line in choices_in_lines(question.field):
            terminal.print(f"    {line}")
    if question.answer is not None:
        terminal.say(
            f"Now: {question.answer.text}. Enter keeps it, '-' takes it back.", indent=INDENT
        )


def show_mistakes(terminal: Terminal, question: Question, error: Mistakes) -> None:
    """What is wrong, without the place: that is one in a text which was never written."""
    for mistake in error.mistakes:
        first, *rest = str(mistake).splitlines()
        what = first.removeprefix(f"{mistake.place}: ").replace(question.field.path, question.path)
        terminal.print("\n".join([f"{' ' * INDENT}{what}", *rest]))
    terminal.say("? says how to write it; Enter leaves it for later.", indent=INDENT)
