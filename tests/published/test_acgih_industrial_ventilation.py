"""ACGIH Industrial Ventilation: hood entry losses and a velocity-pressure calculation sheet.

Read in reproductions (24th edition for the entry losses). Inch-pound: velocity pressures
in inches of water, velocities in feet per minute, constant 4005.
"""

from __future__ import annotations

import pytest

from checker.engineering.airflow import bore_area, largest_bore, velocity_pressure, velocity_through
from checker.engineering.hoods import entry_coefficient, hood_pressure

INCH_OF_WATER = 249.089
FOOT_PER_MINUTE = 0.00508
CUBIC_FOOT_PER_MINUTE = 4.71947e-4
INCH = 0.0254
SQUARE_FOOT = 0.09290304
# the density that the constant 4005 stands for
DENSITY = 2.0 * INCH_OF_WATER / (4005.0 * FOOT_PER_MINUTE) ** 2


# Velocity-pressure sheet: VP = (V/4005)^2 at 4467 ft/min, printed 1.24 in. checked
def test_velocity_pressure_of_the_sheet() -> None:
    pressure = velocity_pressure(4467.0 * FOOT_PER_MINUTE, DENSITY) / INCH_OF_WATER
    assert pressure == pytest.approx(1.24, abs=0.005)


# Velocity-pressure sheet: the constant 4005 gives one inch of water. checked
def test_velocity_pressure_at_the_constant() -> None:
    pressure = velocity_pressure(4005.0 * FOOT_PER_MINUTE, 1.2035) / INCH_OF_WATER
    assert pressure == pytest.approx(1.000, abs=0.0005)


# Velocity-pressure sheet: 390 ft3/min at 4000 ft/min or more, largest bore printed 4.22 in. checked
# Tolerance 0.01 in: the sheet cuts 4.228 off instead of rounding it.
def test_largest_bore_of_the_sheet() -> None:
    bore = largest_bore(390.0 * CUBIC_FOOT_PER_MINUTE, 4000.0 * FOOT_PER_MINUTE)
    assert bore / INCH == pytest.approx(4.22, abs=0.01)


# Velocity-pressure sheet: chosen bore 4.00 in, velocity printed 4467 ft/min. checked
# Tolerance 3 ft/min: the sheet divides by the rounded area 0.0873 ft2.
def test_velocity_of_the_sheet() -> None:
    velocity = velocity_through(390.0 * CUBIC_FOOT_PER_MINUTE, bore_area(4.00 * INCH))
    assert velocity / FOOT_PER_MINUTE == pytest.approx(4467.0, abs=3.0)


# Velocity-pressure sheet: the area column prints 0.0870 ft2 for 4.00 in; geometry gives 0.08727,
# and the sheet's own 4467 ft/min needs 0.0873. checked
def test_area_of_the_sheet_is_not_the_misprint() -> None:
    area = bore_area(4.00 * INCH) / SQUARE_FOOT
    assert area != pytest.approx(0.0870, abs=0.00005)
    assert area == pytest.approx(0.0873, abs=0.00005)


# Velocity-pressure sheet: entry loss (0.65 + 1) x 1.24 = 2.046 in. checked
def test_hood_pressure_of_the_sheet() -> None:
    assert hood_pressure(1.24, 0.65) == pytest.approx(2.046, abs=0.0005)


# 24th edition, hood entry losses: flanged 0.49, bellmouth 0.04. checked
@pytest.mark.parametrize(("entry", "printed"), [("flanged", 0.49), ("bellmouth", 0.04)])
def test_entry_loss(entry: str, printed: float) -> None:
    assert entry_coefficient(entry) == pytest.approx(printed, abs=0.005)  # type: ignore[arg-type]


# 24th edition, hood entry losses: plain duct end 0.93; the duct-design tables print 1.00, and the
# larger of two published losses is the one used. checked
def test_plain_end_is_not_below_either_table() -> None:
    assert entry_coefficient("plain") >= 0.93
