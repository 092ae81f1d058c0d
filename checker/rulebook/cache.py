"""Compiled rulebooks kept between runs, so that a check starts at once.

Reading and checking some hundred rule files takes seconds; their result is kept in the
user's own cache folder under a name made of everything it was made from: the name, size
and times of every file of every rule folder, of the schemas and of this program, the
overlays asked for and the Python that runs it. A change of any of them is another name, so
what is found is never out of date. The folder belongs to the user alone and is not used
if anyone else can write to it. A file starts with the digest of the rest and is not used
without it; what it holds is byte code and plain data, as in Python's own ``__pycache__``.
``MISTWRIGHT_CACHE=off`` does without it.
"""

from __future__ import annotations

import contextlib
import hashlib
import marshal
import os
import stat
import sys
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

import checker
from checker.places import SCHEMAS

__all__ = ["files_digest", "keep", "key_of", "recall"]

_KEEP = 12
_DIGEST = hashlib.sha256().digest_size


def files_digest(roots: Iterable[Path], *, overlays: bool) -> str:
    """The digest of the names and bytes of all rule files below the roots."""
    digest = hashlib.sha256()
    for root in roots:
        for path in sorted(root.rglob("*.yaml")):
            name = path.relative_to(root).as_posix()
            if name.startswith("local/") is overlays:
                try:
                    content = path.read_bytes()
                except OSError as error:
                    # Said with its place where the file is read; here it only changes the name.
                    content = repr(error.errno).encode()
                digest.update(os.fsencode(name) + b"\0" + hashlib.sha256(content).digest())
    return digest.hexdigest()


def key_of(roots: Iterable[Path], names: Iterable[str]) -> str:
    """The name under which the rulebook of these folders and overlays is kept."""
    own = Path(checker.__file__).parent
    digest = hashlib.sha256(os.fsencode("\0".join([checker.__version__, sys.version, *names])))
    for folder, ending in ((own, ".py"), (SCHEMAS, ".json"), *((root, ".yaml") for root in roots)):
        digest.update(b"\0" + os.fsencode(folder))
        for line in sorted(_stamps(os.fspath(folder), ending)):
            digest.update(line)
    return digest.hexdigest()[:40]


def _stamps(folder: str, ending: str) -> Iterator[bytes]:
    """What changes with every file below a folder: reading them all would take ten times as long."""
    with os.scandir(folder) as entries:
        for entry in entries:
            if entry.is_dir(follow_symlinks=False):
                if entry.name != "__pycache__":
                    yield from _stamps(entry.path, ending)
            elif entry.name.endswith(ending):
                stamp = b"gone"
                with contextlib.suppress(OSError):
                    # The inode's own time changes even where someone sets the file's time back.
                    at = entry.stat()
                    stamp = b"%d %d %d %d" % (at.st_size, at.st_mtime_ns, at.st_ctime_ns, at.st_ino)
                yield b"\0%b %b" % (os.fsencode(entry.path), stamp)


def recall(key: str) -> Any:
    """The data kept under a key, or None."""
    folder = _folder()
    if folder is None:
        return None
    try:
        with open(folder / key, "rb") as file:  # noqa: PTH123 - a third of a cold start's look-ups
            if not _is_ours(os.fstat(file.fileno())):
                return None
            digest, data = file.read(_DIGEST), file.read()
    except OSError:
        return None
    # Only what was written whole is unpacked: marshal trusts its input.
    return marshal.loads(data) if hashlib.sha256(data).digest() == digest else None  # noqa: S302


def keep(key: str, data: Any) -> None:
    """Keep a rulebook; whole or not at all, and quietly not where there is no room."""
    import tempfile  # noqa: PLC0415 - needed once for every change of the rules

    folder = _folder()
    if folder is None:
        return
    packed = marshal.dumps(data)
    with contextlib.suppress(OSError):
        handle, temporary = tempfile.mkstemp(prefix=".new-", dir=folder)
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(hashlib.sha256(packed).digest() + packed)
            Path(temporary).replace(folder / key)
        except OSError:
            Path(temporary).unlink(missing_ok=True)
        _forget_oldest(folder)


def _folder() -> Path | None:
    wanted = os.environ.get("MISTWRIGHT_CACHE", "")
    if wanted == "off":
        return None
    try:
        base = (
            Path(wanted)
            if wanted
            else Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache") / "mistwright"
        )
        base.mkdir(mode=0o700, parents=True, exist_ok=True)
        status = base.lstat()
    except (OSError, RuntimeError):
        return None  # No home, or no room in it.
    return base if stat.S_ISDIR(status.st_mode) and _is_ours(status) else None


def _is_ours(status: os.stat_result) -> bool:
    """Whether what has this status is the user's own and nobody else can write to it."""
    if not hasattr(os, "getuid"):
        return True
    return status.st_uid == os.getuid() and not status.st_mode & 0o022


def _forget_oldest(folder: Path) -> None:
    kept = [(path.stat().st_mtime, path) for path in folder.iterdir()]
    for _, old in sorted(kept, reverse=True)[_KEEP:]:
        if old.is_file():
            old.unlink(missing_ok=True)
        else:
            # What an earlier version kept here was a folder.
            import shutil  # noqa: PLC0415

            shutil.rmtree(old, ignore_errors=True)
