"""From a path and a rulebook to a report: what every command starts with."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from checker.absent import Absent
from checker.findings import FieldWindow, Report
from checker.fitting_sheet import Sheet, sheet_for
from checker.installation.binding import bind
from checker.installation.merging import merge
from checker.installation.record import Installation
from checker.reading import read_bytes
from checker.reporting import report_on
from checker.rulebook.loading import Rulebooks
from checker.rulebook.model import Rulebook
from checker.rulebook.overlays import find_overlay
from checker.windows import find_target, grades_across

__all__ = ["Checker"]


def _name(path: str) -> str:
    if path == "-":
        return "<standard input>"
    # A name that is not Unicode is shown with its odd bytes spelt out, so that it can be written.
    return Path(path).as_posix().encode("utf-8", "backslashreplace").decode("utf-8")


class Checker:
    """Checks descriptions against the rulebook that each one asks for.

    The overlays in force are, in this order and the later winning: the one named as
    ``job.jurisdiction``, the one named in ``job.local``, those asked for by the caller.
    """

    def __init__(self, folders: Iterable[Path] = (), local: Iterable[str] = ()) -> None:
        self.rulebooks = Rulebooks(folders)
        self.local = tuple(local)

    @property
    def rulebook(self) -> Rulebook:
        """The rulebook under the caller's own overlays alone. Raises Mistakes."""
        return self.rulebooks.with_overlays(self.local)

    def rulebook_for(self, installation: Installation) -> Rulebook:
        """The rulebook that a description asks for. Raises Mistakes."""
        names: list[str] = []
        for path in ("job.jurisdiction", "job.local"):
            value = installation.value(path)
            if isinstance(value, Absent):
                continue
            if path == "job.local" or value in self.rulebooks.overlay_names:
                self._refuse_unknown(value, path, installation)
                names.append(value)
        return self.rulebooks.with_overlays((*names, *self.local))

    def _refuse_unknown(self, name: str, path: str, installation: Installation) -> None:
        if name not in self.rulebooks.overlay_names:
            field = installation.record.layout.leaf(path)
            fact = installation.record.facts[field.slot] if field is not None else None
            # Raises, with the place in the description.
            find_overlay(
                name, self.rulebooks.roots, installation.place(fact.mark) if fact else None
            )

    def report(self, path: str, fitted: str | None = None, *, working: bool = True) -> Report:
        """Read a description, with what was found on site over it, and report on it.

        Raises Mistakes.
        """
        data, name = read_bytes(path), _name(path)
        if fitted is None:
            return self.report_on_bytes(data, name, working=working)
        installation = merge(data, name, read_bytes(fitted), _name(fitted))
        plan = bind(data, name)
        return report_on(self.rulebook_for(installation), installation, plan, working=working)

    def window(self, path: str, field: str) -> FieldWindow:
        """What every rule says across one field's range. Raises Mistakes."""
        installation = bind(read_bytes(path), _name(path))
        return grades_across(
            find_target(field, installation), self.rulebook_for(installation), installation
        )

    def sheet(self, path: str, fitted: str | None = None) -> Sheet:
        """The fitting sheet of a description, with what was found on site over it. Raises Mistakes."""
        data, name = read_bytes(path), _name(path)
        if fitted is None:
            installation = bind(data, name)
        else:
            installation = merge(data, name, read_bytes(fitted), _name(fitted))
        return sheet_for(self.rulebook_for(installation), installation)

    def report_on_bytes(self, data: bytes, name: str, *, working: bool = True) -> Report:
        """The report on the bytes of a description: the same bytes, the same report."""
        installation = bind(data, name)
        return report_on(self.rulebook_for(installation), installation, working=working)
