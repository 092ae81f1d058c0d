"""From a path and a rulebook to a report: what every command starts with."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from checker.absent import Absent
from checker.checking.windows import find_target, grades_across
from checker.errors import Place, fault, shown_name
from checker.findings import FieldWindow, Report
from checker.installation.binding import bind
from checker.installation.merging import merge
from checker.installation.record import Installation
from checker.reading import read_bytes
from checker.reporting.reports import report_on
from checker.rulebook.loading import Rulebooks
from checker.rulebook.model import Rulebook

if TYPE_CHECKING:
    from checker.reporting.fitting_sheet import Sheet

__all__ = ["Checker", "name_of"]


def name_of(path: str) -> str:
    """A file's name as every output says it."""
    if path == "-":
        return "<standard input>"
    return shown_name(Path(path).as_posix())


class Checker:
    """Checks descriptions against the rulebook that each one asks for.

    The overlays in force are, in this order and the later winning: the one named as
    ``job.jurisdiction``, the one named in ``job.local``, those asked for by the caller.
    """

    def __init__(self, folders: Iterable[Path] = (), local: Iterable[str] = ()) -> None:
        self.folders = tuple(folders)
        self.rulebooks = Rulebooks(self.folders)
        self.local = tuple(local)

    def __reduce__(self) -> tuple[Any, ...]:
        # Sent to another process it takes its own copy of the rules there, once.
        return _checker_there, (self.folders, self.local, self.rulebooks.digest)

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
            from checker.rulebook.overlays import find_overlay  # noqa: PLC0415 - only for the refusal

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
        data, name = read_bytes(path), name_of(path)
        if fitted is None:
            return self.report_on_bytes(data, name, working=working)
        installation = merge(data, name, read_bytes(fitted), name_of(fitted))
        plan = bind(data, name)
        return report_on(self.rulebook_for(installation), installation, plan, working=working)

    def window(self, path: str, field: str, fitted: str | None = None) -> FieldWindow:
        """What every rule says across one field's range. Raises Mistakes."""
        installation = self._read(path, fitted)
        return grades_across(
            find_target(field, installation), self.rulebook_for(installation), installation
        )

    def sheet(self, path: str, fitted: str | None = None) -> Sheet:
        """The fitting sheet of a description, with what was found on site over it. Raises Mistakes."""
        from checker.reporting.fitting_sheet import sheet_for  # noqa: PLC0415 - a check shows no sheet

        installation = self._read(path, fitted)
        return sheet_for(self.rulebook_for(installation), installation)

    @staticmethod
    def _read(path: str, fitted: str | None) -> Installation:
        data, name = read_bytes(path), name_of(path)
        if fitted is None:
            return bind(data, name)
        return merge(data, name, read_bytes(fitted), name_of(fitted))

    def report_on_bytes(self, data: bytes, name: str, *, working: bool = True) -> Report:
        """The report on the bytes of a description: the same bytes, the same report."""
        installation = bind(data, name)
        return report_on(self.rulebook_for(installation), installation, working=working)


@cache
def _checker_there(folders: tuple[Path, ...], local: tuple[str, ...], digest: str) -> Checker:
    checker = Checker(folders, local)
    if checker.rulebooks.digest != digest:
        fault(
            "the rules are not those of the process that sent the work",
            Place(str(checker.rulebooks.roots[0])),
            expected=digest[:12],
            found=checker.rulebooks.digest[:12],
            hint="install the same version everywhere",
        )
    return checker
