"""What a person did wrong: where, what was read, what was expected, the way out."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import NoReturn

__all__ = ["MOST_TOLD", "Mistake", "Mistakes", "Place", "fault", "near", "shown_name"]

# Nobody reads further; what is mended first often mends the rest.
MOST_TOLD = 50

# What a file may be called all the same: line ends, what moves a terminal's cursor, what turns
# text round, and bytes that are no Unicode.
_UNSEEN = re.compile(
    "[\x00-\x1f\x7f-\x9f\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\ud800-\udfff]"
)


def shown_name(name: str) -> str:
    """A file's name as every output says it: what cannot be seen or written is spelt out.

    >>> len(shown_name("a" + chr(10) + "b.yaml"))
    9
    """
    return _UNSEEN.sub(lambda m: m[0].encode("unicode_escape").decode(), name)


class Place:
    """A place in a file; lines and columns count from 1, 0 is "the whole file"."""

    __slots__ = ("column", "file", "line")

    def __init__(self, file: str, line: int = 0, column: int = 0) -> None:
        self.file = file
        self.line = line
        self.column = column

    def __str__(self) -> str:
        file = shown_name(self.file)
        return f"{file}:{self.line}:{self.column}" if self.line else file

    def __repr__(self) -> str:
        return f"Place({str(self)!r})"


class Mistake(Exception):
    """One thing wrong in a file that a person wrote.

    >>> print(Mistake("unknown unit", Place("a.yaml", 3, 9), "'kq'", "a mass", "did you mean 'kg'?"))
    a.yaml:3:9: unknown unit
        found     'kq'
        expected  a mass
        try       did you mean 'kg'?
    """

    def __init__(
        self, what: str, place: Place, found: str = "", expected: str = "", hint: str = ""
    ) -> None:
        super().__init__(what, place, found, expected, hint)
        self.what = what
        self.place = place
        self.found = found
        self.expected = expected
        self.hint = hint

    def __str__(self) -> str:
        lines = [f"{self.place}: {self.what}"]
        for label, text in (("found", self.found), ("expected", self.expected), ("try", self.hint)):
            if text:
                lines.append(f"    {label:<9} {text}")
        return "\n".join(lines)


class Mistakes(Exception):
    """All the mistakes found in one reading, in the order of the file."""

    def __init__(self, mistakes: Iterable[Mistake]) -> None:
        self.mistakes = tuple(
            sorted(mistakes, key=lambda m: (m.place.file, m.place.line, m.place.column))
        )
        super().__init__(self.mistakes)

    def __str__(self) -> str:
        told = [str(m) for m in self.mistakes[:MOST_TOLD]]
        left = len(self.mistakes) - len(told)
        if left:
            told.append(f"... and {left} more")
        return "\n".join(told)


def fault(what: str, place: Place, found: str = "", expected: str = "", hint: str = "") -> NoReturn:
    """Raise one mistake as a whole reading's result."""
    raise Mistakes([Mistake(what, place, found, expected, hint)])


def near(word: str, known: Iterable[str]) -> str:
    """The known words that look most like the one given, as a hint, or ''.

    >>> near("masss", ["mass", "motor"])
    "did you mean 'mass'?"
    """
    import difflib  # noqa: PLC0415 - only needed once something is already wrong

    words = list(known)
    found = difflib.get_close_matches(word, words, n=2, cutoff=0.6) or difflib.get_close_matches(
        word.lower().replace("-", "_"), words, n=1, cutoff=0.5
    )
    return f"did you mean {' or '.join(repr(f) for f in found)}?" if found else ""
