"""The files of rule folders, read and sorted into what each one is."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import Path

from checker.errors import Mistake, Mistakes, Place
from checker.rulebook.files import File, read_file
from checker.rulebook.model import Source

__all__ = ["Gathered", "gather"]

# What a folder below the root holds, where that is not rules: its schema.
_KINDS = {"derived": "derived", "tables": "table"}


@dataclass(slots=True)
class Gathered:
    """The files of one or more rule folders by name; a later folder's file wins."""

    sources: dict[str, Source] = field(default_factory=dict)
    families: dict[str, str] = field(default_factory=dict)
    rules: dict[str, File] = field(default_factory=dict)
    derived: dict[str, File] = field(default_factory=dict)
    tables: dict[str, File] = field(default_factory=dict)
    digests: dict[str, str] = field(default_factory=dict)

    def copy(self) -> Gathered:
        """A copy that more folders can be gathered onto."""
        return Gathered(*({**getattr(self, name)} for name in self.__slots__))

    @property
    def digest(self) -> str:
        """The digest of every file's name and bytes."""
        lines = "".join(f"{name} {digest}\n" for name, digest in sorted(self.digests.items()))
        return hashlib.sha256(lines.encode()).hexdigest()


def gather(roots: Iterable[Path], onto: Gathered | None = None) -> Gathered:
    """Read all files of rule folders, laid out as ``rules/`` is.

    Raises Mistakes with all that is wrong in any of them.
    """
    found = onto.copy() if onto is not None else Gathered()
    mistakes: list[Mistake] = []
    for root in roots:
        if not root.is_dir():
            raise Mistakes([Mistake("there is no such folder of rules", Place(str(root)))])
        for path in sorted(root.rglob("*.yaml")):
            relative = path.relative_to(root).as_posix()
            if not relative.isprintable():
                # It would be a rule's name, and be printed.
                place = Place(relative.encode("unicode_escape").decode())
                mistakes.append(
                    Mistake("a file's name with a character that cannot be seen", place)
                )
            elif not relative.startswith("local/"):
                try:
                    _sort(path, relative.removesuffix(".yaml"), f"{root.name}/{relative}", found)
                except Mistakes as error:
                    mistakes.extend(error.mistakes)
    if mistakes:
        raise Mistakes(mistakes)
    return found


def _sort(path: Path, name: str, shown: str, found: Gathered) -> None:
    head, _, rest = name.partition("/")
    if head == "sources":
        file = read_file(path, shown, "sources")
        _add_sources(file, found)
    elif name == "families":
        file = read_file(path, shown, "families")
        found.families.update(file.data)
    elif head in _KINDS and rest:
        file = read_file(path, shown, _KINDS[head])
        (found.derived if head == "derived" else found.tables)[rest] = file
    else:
        file = read_file(path, shown, "rule")
        found.rules[name] = file
    found.digests[shown] = hashlib.sha256(file.raw).hexdigest()


def _add_sources(file: File, found: Gathered) -> None:
    for key, entry in file.data.items():
        source = Source(
            key,
            entry["title"],
            str(entry.get("edition", "")),
            entry["publisher"],
            entry.get("note", ""),
        )
        known = found.sources.get(key)
        if known is not None and (known.title, known.edition) != (source.title, source.edition):
            raise Mistakes(
                [
                    file.mistake(
                        f"the source '{key}' is described twice",
                        key,
                        found=entry["title"],
                        hint=f"elsewhere it is '{known.title}'",
                    )
                ]
            )
        found.sources[key] = source
