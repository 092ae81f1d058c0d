"""The report of each job as a page of its own in one folder, to open from the overview."""

from __future__ import annotations

import hashlib
import os
import re
from pathlib import Path
from urllib.parse import quote

from checker.audit.judging_jobs import page_on
from checker.errors import Place, fault
from checker.running import Checker
from checker.writing import write_whole

__all__ = ["Reports", "report_name", "way_to"]

_ODD = re.compile(r"[^a-z0-9]+")
_LONGEST = 80


def report_name(path: str) -> str:
    """The file name of a job's page.

    Made of nothing but small letters, figures and hyphens, so that it cannot lead out of
    the folder; the digest at its end keeps apart what looks alike.

    >>> report_name("../Jobs/Mill 7.yaml")
    'jobs-mill-7-5391197f0fd03b6f.html'
    """
    readable = _ODD.sub("-", path.lower().rpartition(".")[0] or path.lower()).strip("-")
    digest = hashlib.sha256(path.encode("utf-8", "surrogateescape")).hexdigest()[:16]
    return f"{readable[-_LONGEST:].strip('-')}-{digest}.html".lstrip("-")


class Reports:
    """A folder of pages; one that is there already for the same bytes and rules is left as it is."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    def begin(self) -> None:
        """Make the folder. Raises Mistakes."""
        try:
            self.folder.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            fault(f"the folder cannot be made: {error.strerror}", Place(str(self.folder)))

    def has(self, path: str, key: bytes) -> bool:
        """Whether the page of a job is there, whole, for this key."""
        ending = _ending(key).encode()
        try:
            with (self.folder / report_name(path)).open("rb") as file:
                file.seek(-len(ending), os.SEEK_END)
                return file.read() == ending
        except OSError:
            return False

    def write(
        self,
        checker: Checker,
        key: bytes,
        data: bytes,
        path: str,
        site: bytes | None,
        fitted: str | None,
    ) -> None:
        """Write the page of a job that can be read. Raises Mistakes where it cannot be written."""
        page = page_on(checker, data, path, site, fitted)
        if page:
            write_whole(self.folder / report_name(path), page + _ending(key))


def way_to(folder: Path | None, output: Path | None) -> str:
    """The folder as a link from the output to it, '' without a folder.

    >>> way_to(Path("out/jobs"), Path("out/overview.html"))
    'jobs/'
    """
    if folder is None:
        return ""
    start = Path.cwd() if output is None else output.resolve().parent
    try:
        return quote(Path(os.path.relpath(folder.resolve(), start)).as_posix()) + "/"
    except ValueError:  # Another drive: there is no way from one to the other.
        return folder.resolve().as_uri() + "/"


def _ending(key: bytes) -> str:
    return f"<!-- {key.hex()} -->\n"
