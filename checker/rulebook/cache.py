"""Compiled rulebooks kept between runs, so that a check starts at once.

Reading and checking some hundred rule files takes seconds; their result is kept in the
user's own cache folder under a name made of the digests of everything it was made from:
every file of every rule folder, the schemas, the overlays asked for, this program's own
files and the Python that runs it. A change of any of them is another name, so what is
found is never out of date. The folder belongs to the user alone and is not used if
anyone else can write to it; what is in it is as trusted as Python's own ``__pycache__``.
``MISTWRIGHT_CACHE=off`` does without it.
"""

from __future__ import annotations

import contextlib
import hashlib
import importlib.util
import json
import os
import shutil
import sys
import tempfile
from collections.abc import Iterable
from pathlib import Path
from types import CodeType
from typing import Any

import checker
from checker.places import SCHEMAS

__all__ = ["files_digest", "keep", "key_of", "recall"]

_KEEP = 12


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
                digest.update(name.encode() + b"\0" + hashlib.sha256(content).digest())
    return digest.hexdigest()


def key_of(parts: Iterable[str]) -> str:
    """The name under which a rulebook made of these parts is kept."""
    own = Path(checker.__file__).parent
    digest = hashlib.sha256("\n".join([checker.__version__, sys.version, *parts]).encode())
    for folder, pattern in ((own, "*.py"), (SCHEMAS, "*.json")):
        for path in sorted(folder.rglob(pattern)):
            status = path.stat()
            digest.update(
                f"{path.relative_to(folder)} {status.st_size} {status.st_mtime_ns}\n".encode()
            )
    return digest.hexdigest()[:40]


def recall(key: str) -> tuple[dict[str, Any], CodeType] | None:
    """The data and the code kept under a key, or None."""
    folder = _folder()
    if folder is None or not _is_ours(folder / key):
        return None
    path = folder / key / "formulas.py"
    try:
        data = json.loads((folder / key / "rulebook.json").read_bytes())
        # Python's own loader compiles the module once and keeps its byte code beside it.
        spec = importlib.util.spec_from_file_location("mistwright_formulas", path)
        if spec is None or spec.loader is None or not hasattr(spec.loader, "get_code"):
            return None
        code = spec.loader.get_code("mistwright_formulas")
    except (OSError, ValueError, SyntaxError, EOFError, ImportError):
        return None
    return (data, code) if isinstance(code, CodeType) and isinstance(data, dict) else None


def keep(key: str, data: dict[str, Any], code: str) -> None:
    """Keep a rulebook; whole or not at all, and quietly not where there is no room."""
    folder = _folder()
    if folder is None:
        return
    with contextlib.suppress(OSError):
        temporary = Path(tempfile.mkdtemp(prefix=".new-", dir=folder))
        try:
            (temporary / "formulas.py").write_text(code, encoding="utf-8")
            (temporary / "rulebook.json").write_text(
                json.dumps(data, ensure_ascii=False, separators=(",", ":")), encoding="utf-8"
            )
            temporary.rename(folder / key)
        except OSError:
            shutil.rmtree(temporary, ignore_errors=True)
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
    except (OSError, RuntimeError):
        return None  # No home, or no room in it.
    return base if _is_ours(base) else None


def _is_ours(folder: Path) -> bool:
    """Whether the folder is the user's own and nobody else can write to it."""
    try:
        status = folder.lstat()
    except OSError:
        return False
    if not hasattr(os, "getuid"):
        return folder.is_dir()
    return folder.is_dir() and status.st_uid == os.getuid() and not status.st_mode & 0o022


def _forget_oldest(folder: Path) -> None:
    kept = sorted(
        (p for p in folder.iterdir() if p.is_dir()), key=lambda p: p.stat().st_mtime, reverse=True
    )
    for old in kept[_KEEP:]:
        shutil.rmtree(old, ignore_errors=True)
