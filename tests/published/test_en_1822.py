"""EN 1822-1, high efficiency air filters: classification."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.engineering.filtration import (
    minimum_efficiency_en_1822,
    minimum_local_efficiency_en_1822,
)
from checker.findings import Finding


# Classification table, integral values: class, efficiency %, penetration % (printed beside it).
# Confidence: checked (two reproductions).
@pytest.mark.parametrize(
    ("filter_class", "efficiency", "penetration"),
    [
        ("E10", 85.0, 15.0),
        ("E11", 95.0, 5.0),
        ("E12", 99.5, 0.5),
        ("H13", 99.95, 0.05),
        ("H14", 99.995, 0.005),
        ("U15", 99.9995, 0.0005),
        ("U16", 99.99995, 0.00005),
        ("U17", 99.999995, 0.000005),
    ],
)
def test_integral_values(filter_class: str, efficiency: float, penetration: float) -> None:
    minimum = minimum_efficiency_en_1822(filter_class)  # type: ignore[arg-type]
    assert minimum * 100.0 == pytest.approx(efficiency, rel=1e-12)
    assert (1.0 - minimum) * 100.0 == pytest.approx(penetration, rel=1e-6)


# Classification table, local values. Confidence: checked (two reproductions).
@pytest.mark.parametrize(
    ("filter_class", "efficiency", "penetration"),
    [
        ("H13", 99.75, 0.25),
        ("H14", 99.975, 0.025),
        ("U15", 99.9975, 0.0025),
        ("U16", 99.99975, 0.00025),
        ("U17", 99.9999, 0.0001),
    ],
)
def test_local_values(filter_class: str, efficiency: float, penetration: float) -> None:
    minimum = minimum_local_efficiency_en_1822(filter_class)  # type: ignore[arg-type]
    assert minimum * 100.0 == pytest.approx(efficiency, rel=1e-12)
    assert (1.0 - minimum) * 100.0 == pytest.approx(penetration, rel=1e-6)


# The same table as the rulebook holds it. Confidence: checked (two reproductions).
@pytest.mark.parametrize(
    ("filter_class", "efficiency"),
    [("E10", 85.0), ("E11", 95.0), ("E12", 99.5), ("H13", 99.95), ("H14", 99.995)],
)
def test_values_of_the_rulebook(
    ask: Callable[..., Finding], filter_class: str, efficiency: float
) -> None:
    found = ask(
        "exposure/returned-smoke-filter",
        process="{fluid: neat-oil}",
        collector=f"{{discharge: room, filters: [{{name: last, filter_class: {filter_class}}}]}}",
    )
    assert found.demand is not None
    assert found.demand.value == pytest.approx(100.0 - efficiency, rel=1e-6)
