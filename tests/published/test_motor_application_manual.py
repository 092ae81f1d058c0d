"""Motor maker's application manual, p. 567: factors for ambient and altitude, worked examples."""

from __future__ import annotations

from decimal import Decimal

import pytest

from checker.engineering.motor_duty import derated_power, rated_power_for_load
from checker.rulebook.model import Rulebook


def printed(text: str) -> object:
    """The printed number, give or take half a unit of its last digit."""
    exponent = Decimal(text).as_tuple().exponent
    return pytest.approx(float(text), abs=0.5 * 10.0**exponent + 1e-9)


# Application manual, p. 567: horsepower needed, factor printed, horsepower found or size ordered.
# 25 hp at 50 °C and 2000 m: order 30 hp; 55 hp at 35 °C and 2000 m: order 60 hp; 7 hp at 30 °C
# and 4000 m: 8.5 hp, order 10 hp. Confidence: checked. The sizes between are the NEMA ratings.
def test_seven_horsepower_at_4000_m() -> None:
    assert rated_power_for_load(7.0, 0.82) == printed("8.5")


@pytest.mark.parametrize(
    ("load", "factor", "size_below", "ordered"),
    [(25.0, 0.86, 25.0, 30.0), (55.0, 0.97, 50.0, 60.0), (7.0, 0.82, 7.5, 10.0)],
)
def test_size_ordered(load: float, factor: float, size_below: float, ordered: float) -> None:
    assert size_below < rated_power_for_load(load, factor) <= ordered


# The same table: 50 °C alone 0.92, 2000 m alone 0.94, both together 0.86. That the factors may be
# multiplied is the project's choice; the table agrees. Confidence: checked.
def test_product_of_ambient_and_altitude() -> None:
    assert derated_power(derated_power(1.0, 0.92), 0.94) == printed("0.86")


# Servo-motor manual, derating table: 50 °C 0.88, 2000 m 0.94, both 0.83. Confidence: checked.
def test_product_in_the_servo_motor_table() -> None:
    assert derated_power(derated_power(1.0, 0.88), 0.94) == printed("0.83")


# p. 567 as shipped. Ambient at 1000 m: °C, factor; altitude at 40 °C: m, factor. Confidence: checked.
AMBIENT = [(40, 1.00), (45, 0.96), (50, 0.92), (55, 0.87), (60, 0.82)]
ALTITUDE = [
    (1000, 1.00),
    (1500, 0.97),
    (2000, 0.94),
    (2500, 0.90),
    (3000, 0.86),
    (3500, 0.82),
    (4000, 0.77),
]


@pytest.mark.parametrize(("degrees", "factor"), AMBIENT)
def test_shipped_ambient(shipped: Rulebook, degrees: float, factor: float) -> None:
    found = shipped.tables["motor_output_ambient"].columns["cage_motor"].look_up(degrees + 273.15)
    assert found == pytest.approx(factor)


@pytest.mark.parametrize(("metres", "factor"), ALTITUDE)
def test_shipped_altitude(shipped: Rulebook, metres: float, factor: float) -> None:
    found = shipped.tables["motor_output_altitude"].columns["factor"].look_up(float(metres))
    assert found == pytest.approx(factor)


# The page prints factors above 1 for cool air at low sites; the shipped tables give none.
@pytest.mark.parametrize("degrees", [0.0, 20.0, 30.0, 35.0])
def test_cool_air_gives_no_bonus(shipped: Rulebook, degrees: float) -> None:
    columns = shipped.tables["motor_output_ambient"].columns
    assert columns["cage_motor"].look_up(degrees + 273.15) == 1.0
    assert columns["cautious"].look_up(degrees + 273.15) == 1.0
