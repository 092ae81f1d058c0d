"""A line that says that something takes its time, where somebody is watching."""

from __future__ import annotations

import contextlib
import sys
import threading
import time
from collections.abc import Iterator
from typing import TextIO

__all__ = ["patience"]

_FIRST, _NEXT = 1.0, 1.0
_LINE = "still at it, {seconds} s (after a change the rules are read afresh, once)"


@contextlib.contextmanager
def patience(err: TextIO | None = None) -> Iterator[None]:
    """Say on a terminal how long the work inside takes, once it takes longer than a second.

    The line is wiped before the work's own output is printed; a pipe or a file gets none.
    """
    stream = sys.stderr if err is None else err
    if not stream.isatty():
        yield
        return
    done = threading.Event()
    thread = threading.Thread(target=_tell, args=(stream, done), daemon=True)
    thread.start()
    try:
        yield
    finally:
        done.set()
        thread.join()


def _tell(stream: TextIO, done: threading.Event) -> None:
    start = time.monotonic()
    shown = ""
    wait = _FIRST
    while not done.wait(wait):
        shown = _LINE.format(seconds=round(time.monotonic() - start))
        stream.write("\r" + shown)
        stream.flush()
        wait = _NEXT
    if shown:
        stream.write("\r" + " " * len(shown) + "\r")
        stream.flush()
