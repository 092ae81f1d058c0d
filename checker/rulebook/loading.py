"""A whole rulebook: sources, tables, derived values and rules, with the overlays in force."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING

from checker.errors import Mistake, Mistakes, Place
from checker.installation.fields import Layout
from checker.installation.schema import installation_layout
from checker.places import RULES
from checker.rulebook.cache import files_digest, keep, key_of, recall
from checker.rulebook.files import overlay_names
from checker.rulebook.model import Rulebook
from checker.rulebook.stored import packed, unpacked

if TYPE_CHECKING:
    from checker.rulebook.gathering import Gathered

__all__ = ["Rulebooks", "load_rulebook"]


def load_rulebook(
    folders: Iterable[Path] = (),
    *,
    shipped: bool = True,
    layout: Layout | None = None,
    local: Iterable[str] = (),
) -> Rulebook:
    """Read, check and compile a rulebook.

    folders: further rule folders, laid out as ``rules/`` is; a file there with the name
    of an earlier one takes its place. shipped: whether to start from the shipped rules.
    local: the overlays in force, later ones winning. The files are always read, with
    the rules' own cases.
    Raises Mistakes with all that is wrong in any file.
    """
    books = Rulebooks(folders, shipped=shipped, layout=layout, fresh=True)
    return books.with_overlays(tuple(local))


class Rulebooks:
    """The rulebooks that come of one set of folders under different overlays.

    Each set of overlays is compiled when first asked for, or taken from what an earlier
    run has kept; the files are read only if it is not there.
    """

    def __init__(
        self,
        folders: Iterable[Path] = (),
        *,
        shipped: bool = True,
        layout: Layout | None = None,
        fresh: bool = False,
    ) -> None:
        self.layout = layout or installation_layout()
        self.roots = [*([RULES] if shipped else []), *folders]
        for root in self.roots:
            if not root.is_dir():
                raise Mistakes([Mistake("there is no such folder of rules", Place(str(root)))])
        # A layout of one's own is not described by any file that the key could name.
        self._kept = not fresh and layout is None
        self._base: Gathered | None = None
        self._built: dict[tuple[str, ...], Rulebook] = {}

    @cached_property
    def digest(self) -> str:
        """The digest of all rule files, those of every overlay included."""
        parts = [files_digest(self.roots, overlays=False), files_digest(self.roots, overlays=True)]
        return hashlib.sha256("".join(parts).encode()).hexdigest()

    @cached_property
    def overlay_names(self) -> list[str]:
        """The overlays that can be asked for."""
        return overlay_names(self.roots)

    def with_overlays(self, names: tuple[str, ...] = ()) -> Rulebook:
        """The rulebook with these overlays in force, in their order. Raises Mistakes."""
        names = tuple(dict.fromkeys(names))
        if names not in self._built:
            self._built[names] = self._from_cache(names) if self._kept else self._afresh(names)
        return self._built[names]

    def _from_cache(self, names: tuple[str, ...]) -> Rulebook:
        key = key_of(self.roots, names)
        found = recall(key)
        return self._afresh(names, key) if found is None else unpacked(found, self.layout)

    def _afresh(self, names: tuple[str, ...], key: str | None = None) -> Rulebook:
        # Imported here: a check by a rulebook that was kept does without the compiler.
        from checker.rulebook.building import build_rulebook  # noqa: PLC0415
        from checker.rulebook.gathering import gather  # noqa: PLC0415

        if self._base is None:
            self._base = gather(self.roots)
        built = build_rulebook(self._base, self.roots, names, self.layout)
        if key is not None:
            keep(key, packed(built.rulebook, built.tables, built.code))
        return built.rulebook
