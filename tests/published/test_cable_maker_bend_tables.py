"""A cable maker's tables of least bend radii, in part a sheet of DIN VDE 0298-3 as well."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.findings import Finding
from checker.rulebook.model import Rulebook

# Multiples of the outside diameter up to 8 mm, 12 mm, 20 mm, and above: flexible cable by duty, and
# power cable that is not flexible, laid once. Confidence: checked.
BEND = [
    ("fixed", 3, 3, 4, 4),
    ("free-movement", 5, 5, 6, 6),
    ("mechanical-load", 9, 9, 9, 10),
    ("festoon", 10, 10, 11, 12),
    ("reeling", 7, 7, 8, 8),
    ("fixed-rigid", 4, 5, 6, 6),
]
# Both ends of each band of diameters, in mm.
BANDS = ((4.0, 8.0), (8.1, 12.0), (12.1, 20.0), (20.1, 60.0))


@pytest.mark.parametrize(
    ("duty", "diameter", "multiple"),
    [
        (duty, diameter, multiple)
        for duty, *row in BEND
        for band, multiple in zip(BANDS, row, strict=True)
        for diameter in band
    ],
)
def test_shipped_multiple(shipped: Rulebook, duty: str, diameter: float, multiple: int) -> None:
    table = shipped.tables["bend_multiple"]
    found = table.columns["multiple"].look_up(duty, diameter / 1000)
    assert found == pytest.approx(multiple)
    assert len(table.rows) == len(BEND) * len(BANDS)


# 10 mm laid once: 30 mm, as printed; 14 mm into movable equipment: 84 mm, arithmetic of the table.
@pytest.mark.parametrize(
    ("diameter", "duty", "millimetres"), [(10, "fixed", 30), (14, "free-movement", 84)]
)
def test_shipped_rule(
    ask: Callable[..., Finding], diameter: int, duty: str, millimetres: int
) -> None:
    found = ask(
        "electrical-protection/cable-bend",
        cable=f"{{outside_diameter: {diameter} mm, bend: {{duty: {duty}, radius: 100 mm}}}}",
    )
    assert found.demand is not None
    assert found.demand.value == pytest.approx(millimetres)
