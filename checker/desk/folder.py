"""The folder that the desk may read and write: names of descriptions below it, and nothing else."""

from __future__ import annotations

import hashlib
from collections import OrderedDict
from pathlib import Path, PurePosixPath
from threading import RLock
from typing import NamedTuple

from checker.audit.jobs import find_jobs
from checker.errors import Mistakes, Place, fault
from checker.reading import read_bytes
from checker.writing import write_whole

__all__ = ["ChangedMeanwhile", "Folder", "Listed", "Version", "site_name"]

_SUFFIXES = (".yaml", ".yml", ".json")
_LONGEST = 200
_REMEMBERED = 64


class ChangedMeanwhile(Exception):
    """The file is not the one that the changes were made to."""


class Listed(NamedTuple):
    """A description of the folder, and the file of what was found on site for it."""

    name: str
    fitted: str | None


class Version(NamedTuple):
    """A file's bytes and their digest."""

    data: bytes
    digest: str


class Folder:
    """A folder of descriptions. Every name is held against it anew, links followed."""

    def __init__(self, root: Path) -> None:
        self.root = root.resolve()
        # One writer at a time: two windows that save at once are told apart by the digest.
        self.lock = RLock()
        self._served: OrderedDict[str, bytes] = OrderedDict()

    def path_of(self, name: str) -> Path:
        """Where a description of that name stands. Raises Mistakes for any other place."""
        pure = PurePosixPath(name)
        parts = pure.parts
        odd = (
            not name
            or len(name) > _LONGEST
            or not name.isprintable()
            or any(sign in name for sign in '\\:*?"<>|')
            or pure.is_absolute()
            or ".." in parts
            or any(part.startswith(".") for part in parts)
            or pure.as_posix() != name
        )
        if odd:
            fault("this is no name of a description here", Place(name[:80].encode("ascii", "backslashreplace").decode()), expected="a plain name such as 'hall-b/k-2047.yaml'")  # fmt: skip
        if pure.suffix not in _SUFFIXES:
            fault("this is no description", Place(name), expected="a name that ends in .yaml, .yml or .json")  # fmt: skip
        try:
            path = (self.root / pure).resolve()
        except (OSError, RuntimeError):
            fault("the file cannot be reached: its links go round in a circle", Place(name))
        if not path.is_relative_to(self.root) or path.suffix not in _SUFFIXES:
            fault("the file stands outside the folder", Place(name), hint="open the desk on the folder that holds it")  # fmt: skip
        return path

    def listed(self) -> list[Listed]:
        """The descriptions of the folder and all below it, in the order of their names."""
        try:
            jobs = find_jobs([str(self.root)])
        except Mistakes:
            return []
        found = []
        for job in jobs:
            name = self._name(job.path)
            if name is not None:
                found.append(Listed(name, None if job.fitted is None else self._name(job.fitted)))
        return found

    def _name(self, path: str) -> str | None:
        """The name of a file below the folder, or None for one that may not be opened here."""
        name = Path(path).relative_to(self.root).as_posix()
        try:
            self.path_of(name)
        except Mistakes:
            return None
        return name

    def read(self, name: str) -> Version:
        """A description as it now is. Raises Mistakes."""
        path = self.path_of(name)
        try:
            data = read_bytes(str(path))
        except Mistakes as error:
            # The page knows names, not where the folder stands.
            first = error.mistakes[0]
            fault(first.what, Place(name), first.found, first.expected, first.hint)
        return self._remembered(data)

    def served(self, digest: str) -> bytes | None:
        """The bytes of a version that a page was given, as long as they are remembered."""
        return self._served.get(digest)

    def write(self, name: str, text: str, instead_of: str | None) -> Version:
        """Write a description whole, in place of the version of a digest, or as a new file for None.

        Raises ChangedMeanwhile where another stands there by now, Mistakes where none can be written.
        """
        with self.lock:
            path = self.path_of(name)
            there = path.exists() or path.is_symlink()
            if there != (instead_of is not None):
                raise ChangedMeanwhile
            if there and hashlib.sha256(read_bytes(str(path))).hexdigest() != instead_of:
                raise ChangedMeanwhile
            if not path.parent.is_dir():
                fault("there is no such folder", Place(name), hint="make it first, or leave it out of the name")  # fmt: skip
            write_whole(path, text)
            return self._remembered(text.encode("utf-8"))

    def _remembered(self, data: bytes) -> Version:
        digest = hashlib.sha256(data).hexdigest()
        self._served[digest] = data
        self._served.move_to_end(digest)
        while len(self._served) > _REMEMBERED:
            self._served.popitem(last=False)
        return Version(data, digest)


def site_name(name: str) -> str:
    """The name of the file of what was found on site for a plan.

    >>> site_name("hall-b/k-2047.yaml")
    'hall-b/k-2047.fitted.yaml'
    """
    path = PurePosixPath(name)
    return path.with_name(f"{path.stem}.fitted{path.suffix}").as_posix()
