"""Looking a value up in one column of a published table, within its rows only."""

from __future__ import annotations

import bisect
from typing import Any

from checker import units
from checker.absent import OutOfReach
from checker.formulas.running import SLACK
from checker.units.quantities import format_number

__all__ = ["Key", "LookUp"]


class Key:
    """One key of a table: its name, unit and what a number between two rows takes."""

    def __init__(self, name: str, entry: dict[str, Any]) -> None:
        self.name = name
        self.unit = units.find(str(entry["unit"])) if "unit" in entry else None
        self.between = entry.get("between", "exact")

    @property
    def is_number(self) -> bool:
        """Whether the key is a number, not a text."""
        return self.unit is not None

    def shown(self, value: Any) -> str:
        """A value of this key as a message prints it."""
        if self.unit is None or not isinstance(value, (int, float)):
            return f"'{value}'"
        return f"{format_number((value - self.unit.offset) / self.unit.factor, 4)} {self.unit.shown}".strip()


class LookUp:
    """One column's look-up; outside the rows it refuses, it never extrapolates."""

    __slots__ = ("_steps", "cells", "column", "keys", "title")

    def __init__(
        self, title: str, column: str, keys: list[Key], cells: dict[tuple[Any, ...], Any]
    ) -> None:
        self.title = title
        self.column = column
        self.keys = keys
        self.cells = cells
        self._steps: dict[tuple[Any, ...], list[float]] | None = None

    @property
    def steps(self) -> dict[tuple[Any, ...], list[float]]:
        """For each beginning of a row's keys, the numbers that the next key takes there."""
        # Worked out when first asked: most columns of a check are never asked, and a check is short.
        if self._steps is None:
            self._steps = {}
            for row in self.cells:
                for i, key in enumerate(self.keys):
                    if key.is_number:
                        steps = self._steps.setdefault(row[:i], [])
                        if row[i] not in steps:
                            bisect.insort(steps, row[i])
        return self._steps

    def __call__(self, *given: Any) -> Any:
        """The cell for these keys in SI; raises OutOfReach where the table has none."""
        value = self.cells.get(given)
        return self.settle(given, 0, ()) if value is None else value

    def settle(self, given: tuple[Any, ...], i: int, fixed: tuple[Any, ...]) -> Any:
        """Settle the keys from left to right; only interpolation looks at two rows."""
        if i == len(self.keys):
            value = self.cells.get(fixed)
            if value is None:
                raise self.refusal(given)
            return value
        key, wanted = self.keys[i], given[i]
        if not key.is_number:
            return self.settle(given, i + 1, (*fixed, wanted))
        exact, below, above = self.around(fixed, wanted)
        if exact is not None:
            return self.settle(given, i + 1, (*fixed, exact))
        if key.between == "next-higher" and above is not None:
            return self.settle(given, i + 1, (*fixed, above))
        if key.between == "next-lower" and below is not None:
            return self.settle(given, i + 1, (*fixed, below))
        if key.between == "interpolate" and below is not None and above is not None:
            low = self.settle(given, i + 1, (*fixed, below))
            high = self.settle(given, i + 1, (*fixed, above))
            if isinstance(low, str):
                # Between two words there is no third one.
                if low != high:
                    raise self.refusal(given)
                return low
            return low + (high - low) * (wanted - below) / (above - below)
        raise self.refusal(given)

    def rows_behind(self, given: tuple[Any, ...]) -> list[tuple[Any, ...]]:
        """The keys of the rows that an answer rests on: one, or two for each interpolation."""
        rows: list[tuple[Any, ...]] = [()]
        for key, wanted in zip(self.keys, given, strict=True):
            further: list[tuple[Any, ...]] = []
            for fixed in rows:
                if not key.is_number:
                    further.append((*fixed, wanted))
                    continue
                exact, below, above = self.around(fixed, wanted)
                if exact is not None:
                    further.append((*fixed, exact))
                    continue
                if below is not None and key.between in ("interpolate", "next-lower"):
                    further.append((*fixed, below))
                if above is not None and key.between in ("interpolate", "next-higher"):
                    further.append((*fixed, above))
            rows = further
        return rows

    def around(
        self, fixed: tuple[Any, ...], wanted: float
    ) -> tuple[float | None, float | None, float | None]:
        """The number of a row that is the one wanted, the next below, the next above."""
        steps = self.steps.get(fixed, [])
        position = bisect.bisect_left(steps, wanted)
        for near in steps[max(position - 1, 0) : position + 1]:
            if abs(near - wanted) <= SLACK * max(abs(near), abs(wanted)):
                return near, None, None
        return (
            None,
            steps[position - 1] if position > 0 else None,
            steps[position] if position < len(steps) else None,
        )

    def refusal(self, given: tuple[Any, ...]) -> OutOfReach:
        """What was asked for, and what the table covers."""
        asked = ", ".join(
            f"{k.name.replace('_', ' ')} {k.shown(g)}"
            for k, g in zip(self.keys, given, strict=True)
        )
        ranges = []
        for i, key in enumerate(self.keys):
            values = list(
                dict.fromkeys(row[i] for row, cell in self.cells.items() if cell is not None)
            )
            if not values:
                covered = "nothing"
            elif key.is_number:
                covered = f"{key.shown(min(values))} to {key.shown(max(values))}"
            else:
                covered = ", ".join(map(str, values[:12])) + (", ..." if len(values) > 12 else "")
            ranges.append(f"{key.name.replace('_', ' ')} {covered}")
        return OutOfReach(
            f"The table '{self.title}' gives no {self.column.replace('_', ' ')} for {asked}; it covers {'; '.join(ranges)}."
        )
