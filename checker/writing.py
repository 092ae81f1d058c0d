"""Files written whole or not at all."""

from __future__ import annotations

import contextlib
import os
import tempfile
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import TextIO

from checker.errors import Place, fault

__all__ = ["put", "write_folder", "write_whole", "writing_whole"]


def write_whole(path: Path, content: str | bytes) -> None:
    """Write a file beside its place and move it there in one step. Raises Mistakes."""
    with writing_whole(path, None) as file:
        put(file, content)


def write_folder(folder: Path, files: Iterable[tuple[str, str]]) -> int:
    """Write files by their path in a folder that does not exist yet, or is empty; how many.

    Raises Mistakes where something stands there already: what was written by another
    rulebook would otherwise remain among the new.
    """
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        fault("something stands there already", Place(str(folder)), hint="name a new folder")
    whole = list(files)  # All made before the first is written.
    for name, content in whole:
        path = folder / name
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            fault(
                f"the folder cannot be made: {error.strerror}",
                Place(str(path.parent)),
                hint="choose another",
            )
        write_whole(path, content)
    return len(whole)


def put(file: TextIO, content: str | bytes) -> None:
    """Write text as text, and bytes as they are."""
    if isinstance(content, str):
        file.write(content)
    else:
        file.buffer.write(content)


@contextlib.contextmanager
def writing_whole(path: Path | None, otherwise: TextIO | None) -> Iterator[TextIO]:
    """A file to write to that takes its place only once all is written.

    Without a path, the other stream. What stood at the place before is still there if
    anything fails on the way. Raises Mistakes where the file cannot be written.
    """
    if path is None:
        assert otherwise is not None  # noqa: S101 - one of the two is given
        yield otherwise
        return
    place = Place(str(path))
    if path.exists() and not path.is_file():
        # A device such as /dev/null, or a pipe, must stay what it is: never replaced by a file.
        try:
            with path.open("w", encoding="utf-8", newline="\n") as file:
                yield file
        except OSError as error:
            fault(f"the file cannot be written: {error.strerror}", place, hint="choose another")
        return
    try:
        path = path.resolve()  # A link keeps pointing where it did.
    except (OSError, RuntimeError):
        fault("the file cannot be written: its links go round in a circle", place)
    try:
        handle, name = tempfile.mkstemp(prefix=f".{path.name[:100]}.", dir=path.parent)
    except OSError as error:
        fault(f"the file cannot be written: {error.strerror}", place, hint="choose another folder")
    temporary = Path(name)
    try:
        with os.fdopen(handle, "w", encoding="utf-8", newline="\n") as file:
            yield file
            file.flush()
            os.fsync(file.fileno())
        mask = os.umask(0)
        os.umask(mask)
        temporary.chmod(0o666 & ~mask)
        temporary.replace(path)
    except OSError as error:
        temporary.unlink(missing_ok=True)
        fault(
            f"the file cannot be written: {error.strerror}",
            place,
            hint="what stood there before is untouched",
        )
    except BaseException:
        temporary.unlink(missing_ok=True)
        raise
