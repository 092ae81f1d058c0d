"""The file that is being filled in: read anew for every answer, written whole or not at all."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from checker.asking.editing import Parts
from checker.asking.starting import Need, needs_of
from checker.checking.rule_reads import Memory
from checker.errors import Mistakes
from checker.installation.binding import bind
from checker.installation.record import Installation, Record
from checker.reading import read_bytes, read_text
from checker.rulebook.model import Rulebook
from checker.running import Checker
from checker.writing import write_whole

__all__ = ["ChangedMeanwhile", "Document"]


class ChangedMeanwhile(Exception):
    """Somebody else changed the file since, and it can no longer be read."""

    def __init__(self, mistakes: Mistakes) -> None:
        super().__init__(mistakes)
        self.mistakes = mistakes


class Document:
    """A description on disk, bound, with the rulebook it asks for and what it still needs."""

    def __init__(self, path: Path, checker: Checker) -> None:
        self.name = path.as_posix()
        # Where a link points to is what is written; the link stays.
        self.path = path.resolve()
        self.checker = checker
        self.data = b""
        self.installation: Installation
        self.rulebook: Rulebook
        self.needs: dict[str, Need]
        self.memory = Memory()
        self.load()

    def load(self) -> None:
        """Read the file as it now is. Raises Mistakes."""
        self._take(read_bytes(str(self.path)))

    def change(self, edit: Callable[[str], str]) -> None:
        """Change the file's text; it is written only if the whole of it still holds.

        Raises what the edit raises, Mistakes for what the binder finds wrong with the
        result, ChangedMeanwhile if the file itself has become unreadable.
        """
        data = read_bytes(str(self.path))
        if data != self.data:
            try:
                self._take(data)
            except Mistakes as error:
                raise ChangedMeanwhile(error) from error
        before = data, self.installation, self.rulebook, self.needs
        text = edit(read_text(data, self.name))
        try:
            self._take(text.encode())
            write_whole(self.path, text)
        except BaseException:
            self.data, self.installation, self.rulebook, self.needs = before
            raise

    def record_at(self, parts: Parts) -> Record | None:
        """The record that a field stands in: the description's own or a member's."""
        record: Record | None = self.installation.record
        names: list[str] = []
        for part in parts:
            if isinstance(part, str):
                names.append(part)
                continue
            field = None if record is None else record.layout.leaf(".".join(names))
            members = [] if record is None or field is None else record.members.get(field.slot, [])
            record = members[part] if part < len(members) else None
            names = []
        return record

    def _take(self, data: bytes) -> None:
        installation = bind(data, self.name)
        rulebook = self.checker.rulebook_for(installation)
        self.needs = needs_of(rulebook, installation, self.memory)
        self.data, self.installation, self.rulebook = data, installation, rulebook
