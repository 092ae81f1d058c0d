"""Two air-compressor instruction books quoting IEC 60364-5-52: currents by ambient."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal

import pytest

from checker.engineering.cables import iec_cable_capacity
from checker.findings import Finding

# 70 °C PVC, three loaded cores: method and mm², A at 30 °C, then factor and printed A ("less than")
# at 40, 45, 50 and 55 °C, as far as printed. Confidence: checked.
FACTORS = {40: 0.87, 45: 0.79, 50: 0.71, 55: 0.61}
ROWS = [
    ("B2 4", 27.0, {40: "23", 45: "21", 50: "19", 55: "16"}),
    ("B2 10", 46.0, {40: "40", 45: "36", 50: "33", 55: "28"}),
    ("C 4", 32.0, {40: "28", 50: "23"}),
]


def printed(text: str) -> object:
    """The printed number, give or take half a unit of its last digit."""
    exponent = Decimal(text).as_tuple().exponent
    return pytest.approx(float(text), abs=0.5 * 10.0**exponent + 1e-9)


@pytest.mark.parametrize(
    ("cable", "at_30", "air", "current"),
    [(cable, at_30, air, amps) for cable, at_30, row in ROWS for air, amps in row.items()],
)
def test_current_by_ambient(cable: str, at_30: float, air: int, current: str) -> None:
    assert iec_cable_capacity(at_30, FACTORS[air], 1.0, 1.0) == printed(current), cable


SHIPPED = [(*cable.split(), air, amps) for cable, _, row in ROWS for air, amps in row.items()]


# The same through the shipped rule, tables and all.
@pytest.mark.parametrize(("method", "size", "air", "current"), SHIPPED)
def test_shipped_capacity(
    ask: Callable[..., Finding], method: str, size: str, air: int, current: str
) -> None:
    found = ask(
        "electrical-protection/cable-capacity",
        supply="{wiring_code: iec}",
        collector="{motor: {marking: single-voltage, lower_voltage_current: 4.9 A}}",
        cable=(
            f"{{belongs_to: building, size: {size} mm2, material: copper, insulation: pvc-70, "
            f"terminal_rating: 70 degC, method: {method}, loaded_conductors: 3, "
            f"ambient: {air} degC, grouped_circuits: 1}}"
        ),
    )
    assert found.limit is not None
    assert found.limit.value == printed(current)
