"""IEC 60228, conductors of insulated cables: resistance at 20 °C and when warm."""

from __future__ import annotations

import pytest

from checker.engineering.voltage_drop import conductor_resistance_at_temperature
from checker.rulebook.model import Rulebook


# Crimp-terminal maker's tables, p. 204, factors that bring a resistance back to 20 °C: 0.833 at
# 70 °C and 0.781 at 90 °C, which are 1/1.200 and 1/1.280. Tolerance 0.45 %: the maker's
# coefficient is 0.004 where copper's is 0.00393, 0.39 % at 90 °C, and its last digit is worth
# 0.06 %. Confidence: checked (maker's tables).
@pytest.mark.parametrize(("celsius", "factor"), [(70.0, 0.833), (90.0, 0.781)])
def test_factor_back_to_20_degrees(celsius: float, factor: float) -> None:
    warm = conductor_resistance_at_temperature(12.1e-3, celsius + 273.15)
    assert 12.1e-3 / warm == pytest.approx(factor, rel=0.0045)


# Plain copper at 20 °C, Ω/km: mm², classes 1 and 2, class 5. Classes 1 and 2 read alike in four tables,
# class 5 in two. Confidence: checked.
RESISTANCE = [
    ("0.75", 24.5, 26.0),
    ("1.0", 18.1, 19.5),
    ("1.5", 12.1, 13.3),
    ("2.5", 7.41, 7.98),
    ("4", 4.61, 4.95),
    ("6", 3.08, 3.30),
    ("10", 1.83, 1.91),
]


@pytest.mark.parametrize(
    ("conductors", "size", "cell"),
    [
        (conductors, size, cell)
        for size, stiff, flexible in RESISTANCE
        for conductors, cell in (("solid", stiff), ("stranded", stiff), ("flexible", flexible))
    ],
)
def test_shipped_resistance(shipped: Rulebook, conductors: str, size: str, cell: float) -> None:
    table = shipped.tables["conductor_resistance"]
    found = table.columns["resistance"].look_up(conductors, float(size) * 1e-6)
    assert 1000 * found == pytest.approx(cell)
    assert len(table.rows) == 3 * len(RESISTANCE)


# 13.3 against 12.1 Ω/km: a flexible 1.5 mm² drops 9.9 % more. Arithmetic of the printed values.
def test_flexible_drops_more(shipped: Rulebook) -> None:
    look_up = shipped.tables["conductor_resistance"].columns["resistance"].look_up
    assert look_up("flexible", 1.5e-6) / look_up("stranded", 1.5e-6) == pytest.approx(
        1.099, abs=0.0005
    )
