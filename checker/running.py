"""From a path and a rulebook to a report: what every command starts with."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from checker.findings import Report
from checker.installation.binding import bind
from checker.reading import read_bytes
from checker.reporting import report_on
from checker.rulebook.loading import load_rulebook
from checker.rulebook.model import Rulebook

__all__ = ["read_and_report", "report_on_bytes", "rulebook_from"]


def rulebook_from(folders: Iterable[Path] = ()) -> Rulebook:
    """The rulebook of a run: the shipped rules and further folders. Raises Mistakes."""
    return load_rulebook(folders)


def read_and_report(path: str, rulebook: Rulebook) -> Report:
    """Read a description and report on it. Raises Mistakes."""
    name = "<standard input>" if path == "-" else Path(path).as_posix()
    return report_on_bytes(read_bytes(path), name, rulebook)


def report_on_bytes(data: bytes, name: str, rulebook: Rulebook) -> Report:
    """The report on the bytes of a description: the same bytes, the same report."""
    return report_on(rulebook, bind(data, name))
