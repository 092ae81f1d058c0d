"""A scope over the small layout, and a way to run one formula."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from checker.formulas.compiling import compile_formula
from checker.formulas.running import surroundings
from checker.formulas.scope import Scope, TableColumn
from checker.formulas.types import PLAIN, Numeric, Text
from checker.installation.fields import Layout
from checker.installation.record import Installation
from checker.units import need


def _pitch(thread: str) -> float:
    return {"M8": 0.00125, "M10": 0.0015}[thread]


@pytest.fixture
def scope(small_layout: Layout) -> Scope:
    length = Numeric(need("m").dimension)
    return Scope(
        small_layout,
        parameters={
            "factor": (PLAIN, 1.5),
            "most": (Numeric(need("N").dimension), 300.0),
            "glue": (Numeric(need("degC").dimension, "temperature"), 313.15),
            "colours": (Text(("red", "blue")), "red"),
        },
        lines={"arm": length, "ready": PLAIN},
        tables={
            "thread": {"pitch": TableColumn((("size", Text(("M8", "M10"))),), length, _pitch)},
            "cable": {
                "area": TableColumn((("current", Numeric(need("A").dimension)),), length, float)
            },
        },
    )


def found(scope: Scope) -> dict[str, Callable[..., Any]]:
    return {
        f"{name}.{column}": one.look_up
        for name, columns in scope.tables.items()
        for column, one in columns.items()
    }


@pytest.fixture
def look_ups() -> Callable[[Scope], dict[str, Callable[..., Any]]]:
    """The look-ups of a scope by table and column."""
    return found


@pytest.fixture
def value(scope: Scope, describe: Callable[[str], Installation]) -> Callable[..., Any]:
    """The value of a formula on a description."""

    def worked_out(text: str, description: str = "") -> Any:
        compiled = compile_formula(text, scope)
        names = surroundings(compiled.uses.functions, found(scope))
        slots = describe(description).record.values
        return eval(compiled.source, {**names, "S": slots, "D": []})

    return worked_out
