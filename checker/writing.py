"""Files written whole or not at all."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

from checker.errors import Place, fault

__all__ = ["write_whole"]


def write_whole(path: Path, text: str) -> None:
    """Write a file beside its place and move it there in one step.

    What stood there before is still there if anything fails. Raises Mistakes.
    """
    place = Place(str(path))
    try:
        handle, temporary = tempfile.mkstemp(prefix=f".{path.name}.", dir=path.parent)
    except OSError as error:
        fault(f"the file cannot be written: {error.strerror}", place, hint="choose another folder")
    try:
        with os.fdopen(handle, "w", encoding="utf-8", newline="\n") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        mask = os.umask(0)
        os.umask(mask)
        Path(temporary).chmod(0o666 & ~mask)
        Path(temporary).replace(path)
    except OSError as error:
        Path(temporary).unlink(missing_ok=True)
        fault(
            f"the file cannot be written: {error.strerror}",
            place,
            hint="what stood there before is untouched",
        )
    except BaseException:
        Path(temporary).unlink(missing_ok=True)
        raise
