"""The descriptions that an audit looks at: folders, patterns, lists, plans with their site files."""

from __future__ import annotations

import glob
import os
import sys
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import NamedTuple

from checker.errors import Place, fault

__all__ = ["Job", "find_jobs", "part_of", "plan_of"]

_SUFFIXES = (".yaml", ".yml", ".json")
_FITTED = ".fitted"
_LONGEST_LIST = 32 * 1024 * 1024


class Job(NamedTuple):
    """One description, and the file of what was found on site, if there is one."""

    path: str
    fitted: str | None


def find_jobs(paths: Iterable[str], lists: Iterable[str] = ()) -> list[Job]:
    """The jobs of files, folders with all below them, patterns, and lists of paths.

    A file ``NAME.fitted.yaml`` beside ``NAME.yaml`` is what was found on site for it; the
    pair is one job, whichever of the two is named. One without its plan is a job that
    cannot be read. Folders are walked in the order of their names, links to folders are
    not followed, so that a circle of links ends.
    Raises Mistakes where a path or a pattern leads to nothing: a slip in a name must not
    look like success.
    """
    found: dict[str, None] = {}
    for text in (*paths, *(line for name in lists for line in _listed(name))):
        before = len(found)
        for path in _expanded(text):
            found[path] = None
        if len(found) == before and not any(True for _ in _expanded(text)):
            fault(
                "no description here",
                Place(text),
                expected="a file, a folder or a pattern with files ending in .yaml, .yml or .json",
            )
    jobs: dict[Job, None] = {}
    for path in found:
        plan = plan_of(path)
        if plan is None:
            site = _beside(path, _FITTED)
            jobs[Job(path, site if site in found or Path(site).is_file() else None)] = None
        elif plan in found or Path(plan).is_file():
            jobs[Job(plan, path)] = None
        else:
            jobs[Job(path, None)] = None
    return list(jobs)


def plan_of(path: str) -> str | None:
    """The plan that a site file belongs to by its name; None for a plan.

    >>> plan_of("jobs/42.fitted.yaml"), plan_of("jobs/42.yaml")
    ('jobs/42.yaml', None)
    """
    suffix = Path(path).suffix
    stem = path.removesuffix(suffix)
    if suffix not in _SUFFIXES or not stem.endswith(_FITTED):
        return None
    return stem.removesuffix(_FITTED) + suffix


def _beside(path: str, word: str) -> str:
    suffix = Path(path).suffix
    return path.removesuffix(suffix) + word + suffix


def part_of(jobs: list[Job], part: str) -> list[Job]:
    """The jobs of one part of several, ``3/8``: every eighth, from the third on.

    Raises Mistakes for anything else than K/N with 1 <= K <= N.
    """
    first, _, of = part.partition("/")
    if not (first.isdecimal() and of.isdecimal() and 1 <= int(first) <= int(of)):
        fault("not a part", Place("--part"), found=part, expected="K/N, such as 3/8")
    return jobs[int(first) - 1 :: int(of)]


def _expanded(text: str) -> Iterator[str]:
    if Path(text).is_dir():
        for folder, inside, files in os.walk(text):
            inside.sort()
            # A folder that starts with a point is a tool's own, not a job's.
            inside[:] = [name for name in inside if not name.startswith(".")]
            for name in sorted(files):
                if name.endswith(_SUFFIXES):
                    yield _tidy(f"{folder}/{name}")
    elif os.path.lexists(text):
        yield _tidy(text)
    elif glob.has_magic(text):
        for path in sorted(glob.glob(text, recursive=True)):  # noqa: PTH207 - a pattern may be absolute
            yield from _expanded(path)


def _listed(name: str) -> Iterator[str]:
    try:
        if name == "-":
            text = sys.stdin.read(_LONGEST_LIST + 1)
        else:
            with Path(name).open(encoding="utf-8") as file:
                text = file.read(_LONGEST_LIST + 1)
    except (OSError, UnicodeDecodeError) as error:
        fault("the list of paths cannot be read", Place(name), found=str(error))
    if len(text) > _LONGEST_LIST:
        # A device such as /dev/zero never ends.
        fault("the list of paths is too long", Place(name), f"more than {_LONGEST_LIST} letters")
    for line in text.splitlines():
        if line.strip() and not line.startswith("#"):
            yield line.strip()


def _tidy(path: str) -> str:
    return Path(path).as_posix()
