"""What the second opinion on the rule language speaks of: kinds, names, and what is wrong."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, NamedTuple

__all__ = ["FLAG", "MISSING", "PLAIN", "CannotTell", "IllTyped", "Kind", "Missing", "Names", "dim"]


class IllTyped(Exception):
    """A formula that is none."""


class CannotTell(Exception):
    """No answer; the first argument is the path of the field that was missing, or ''."""


class Missing(NamedTuple):
    path: str


MISSING = Missing

Dim = dict[str, int]


class Kind(NamedTuple):
    """number, text, flag, list (of the description), member, items; and what belongs to it."""

    of: str
    dim: tuple[tuple[str, float], ...] = ()
    point: str = ""
    zero: bool = False
    choices: tuple[str, ...] | None = None
    path: str = ""
    item: Any = None


FLAG = Kind("flag")
PLAIN = Kind("number")


def dim(**powers: float) -> tuple[tuple[str, float], ...]:
    return tuple(sorted((k, v) for k, v in powers.items() if v))


class Names(NamedTuple):
    """What a formula can see: paths to kinds, and functions that give their values.

    fields: path to Kind, the members' fields as "boxes[].mass". groups: section to its paths.
    """

    fields: dict[str, Kind]
    groups: dict[str, tuple[str, ...]]
    values: dict[str, Any]
    tables: dict[str, tuple[Kind, Kind, Callable[[Any], Any]]]
