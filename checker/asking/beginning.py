"""A new description, from the kind of mount alone."""

from __future__ import annotations

from pathlib import Path

from checker.asking.starting import begun, choices_of, needs_of
from checker.errors import Place, fault, near
from checker.installation.fields import Layout
from checker.output.new_description import render, schema_for
from checker.running import Checker
from checker.writing import write_whole

__all__ = ["begin", "drawn", "refusal"]


def refusal(layout: Layout, path: str, word: str | None) -> str:
    """Why a word cannot be the choice of a field, with the words that can; '' if it can."""
    field, known = layout.leaf(path), choices_of(layout, path)
    if field is None or word in known:
        return ""
    name = path.rpartition(".")[2]
    what = f"there is no {name} '{word}'" if word else f"name the {name}"
    hint = near(word, known) if word else field.description
    return f"{what}: it is one of {', '.join(known)}. {hint}".strip()


def drawn(
    checker: Checker, kind: str, stage: str, jurisdiction: str | None, path: Path | None
) -> str:
    """The text of a new description that will stand at a path. Raises Mistakes."""
    start = begun(checker.rulebook.layout, kind, stage, jurisdiction)
    needs = needs_of(checker.rulebook_for(start), start)
    name = "FILE" if path is None else path.as_posix()
    return render(start, needs, schema=schema_for(path), name=name)


def begin(path: Path, text: str) -> str:
    """Write a new description; gives what to say about it.

    Raises Mistakes where there is a file already, or none can be written.
    """
    name = path.as_posix()
    if path.exists():
        fault(
            "there is a file of that name already",
            Place(name),
            hint=f"choose another name, or fill it in with 'mistwright ask {name}'",
        )
    write_whole(path, text)
    return (
        f"{name} is begun. Fill it in with an editor, or be asked field by field:\n"
        f"    mistwright ask {name}\n"
        "What stays empty counts as not stated. See at any time how it stands:\n"
        f"    mistwright check {name}\n"
    )
