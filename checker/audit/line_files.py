"""The lines of a file that an earlier run wrote, or that anyone put in its place."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

__all__ = ["numbered_lines", "rest_of"]

# A job of some thousand findings is a line of a few hundred kilobytes.
_LONGEST = 64 * 1024 * 1024


def numbered_lines(path: Path) -> Iterator[tuple[int, str]]:
    """The lines of a file with their numbers, one in memory at a time.

    Raises OSError where it cannot be read, ValueError where it is not UTF-8 text or a line
    does not end: a device that gives zeros for ever is such a line.
    """
    with path.open("rb") as file:
        number = 0
        while line := file.readline(_LONGEST):
            number += 1
            if len(line) == _LONGEST:
                raise ValueError(f"line {number} does not end")
            yield number, line.decode("utf-8")


def rest_of(lines: Iterator[tuple[int, str]]) -> str:
    """All that is left of the lines. Raises as they do."""
    found: list[str] = []
    length = 0
    for number, text in lines:
        found.append(text)
        length += len(text)
        if length > _LONGEST:
            raise ValueError(f"it does not end after line {number}")
    return "".join(found)
