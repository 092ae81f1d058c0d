"""The rule language a second time, small and slow: an independent opinion on any formula.

Nothing of ``checker`` is imported. The text is cut into tokens and read by precedence here,
types and dimensions are kept as plain dictionaries, values are floats. It says of a formula
either IllTyped, or a type and then a value, or CannotTell.
"""

from __future__ import annotations

from oracle_kinds import MISSING, CannotTell, IllTyped, Kind, Missing, Names, dim
from oracle_reading import parse
from oracle_types import type_of
from oracle_values import value_of

__all__ = ["MISSING", "CannotTell", "IllTyped", "Kind", "Missing", "Names", "dim", "parse", "type_of", "value_of"]  # fmt: skip
