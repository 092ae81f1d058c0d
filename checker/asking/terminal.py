"""The other end of a conversation: a person at a terminal, or lines through a pipe."""

from __future__ import annotations

import contextlib
import io
import textwrap
from typing import TextIO

__all__ = ["Ended", "Terminal"]


class Ended(Exception):
    """No more answers will come."""


class Terminal:
    """Says things and reads answers, a line each."""

    def __init__(self, answers: TextIO | None, screen: TextIO, width: int) -> None:
        self.answers = answers
        self.screen = screen
        self.width = width
        self.is_person = answers is not None and answers.isatty()
        if isinstance(answers, io.TextIOWrapper):
            # An answer in another encoding is to be asked again, not to end it all.
            answers.reconfigure(errors="replace")
        if self.is_person:
            with contextlib.suppress(ImportError):
                # Loaded, it gives input() its line editing and its history.
                import readline  # noqa: F401, PLC0415

    def say(self, text: str = "", *, indent: int = 0) -> None:
        """A paragraph, wrapped to the width."""
        margin = " " * indent
        lines = textwrap.wrap(
            text,
            self.width,
            initial_indent=margin,
            subsequent_indent=margin,
            break_on_hyphens=False,
            break_long_words=False,
        )
        self.print("\n".join(lines))

    def print(self, text: str) -> None:
        """Lines as they are."""
        self.screen.write(text + "\n")

    def read(self, prompt: str = "> ") -> str:
        """The next answer without the spaces around it. Raises Ended."""
        if self.answers is None:
            raise Ended
        if self.is_person:
            self.screen.flush()
            try:
                return input(prompt).strip()
            except EOFError:
                self.print("")
                raise Ended from None
        self.screen.write(prompt)
        self.screen.flush()
        line = self.answers.readline()
        if not line:
            self.print("")
            raise Ended
        # What is typed at a terminal is seen there; out of a pipe it would not be.
        self.print(ascii(line.strip())[1:-1] if not line.strip().isprintable() else line.strip())
        return line.strip()
