"""Public industrial-hygiene practice examination, ventilation questions with keys.

Several of its keys are wrong; the ones used here follow from the formula printed with
them, and the one that does not is a negative check.
"""

from __future__ import annotations

import pytest

from checker.engineering.airflow import velocity_from_pressure, velocity_pressure
from checker.engineering.enclosures import clearance_time, flow_for_air_changes
from checker.engineering.fan_inlet import fan_static_pressure
from checker.engineering.fan_laws import scaled_fan_flow, scaled_fan_power, scaled_fan_pressure
from checker.engineering.hoods import (
    flow_from_hood_pressure,
    hood_pressure,
    measured_coefficient_of_entry,
)
from checker.engineering.junctions import balanced_branch_flow, merged_velocity_pressure

INCH_OF_WATER = 249.089
FOOT_PER_MINUTE = 0.00508
CUBIC_FOOT = 0.0283168466
SQUARE_FOOT = 0.09290304
# the densities that the constants 4005 and 1.29 stand for
DENSITY_4005 = 2.0 * INCH_OF_WATER / (4005.0 * FOOT_PER_MINUTE) ** 2
DENSITY_129 = 2.0 / 1.29**2


# Question 1: room 20 x 15 x 10 ft at 6 air changes an hour, key 300 ft3/min. checked
def test_question_1_air_changes() -> None:
    flow = flow_for_air_changes(6.0 / 3600.0, 20.0 * 15.0 * 10.0 * CUBIC_FOOT)
    assert flow / CUBIC_FOOT * 60.0 == pytest.approx(300.0, abs=0.5)


# Question 7: velocity at 900 Pa, key 38.7 m/s. checked
def test_question_7_velocity() -> None:
    assert velocity_from_pressure(900.0, DENSITY_129) == pytest.approx(38.7, abs=0.05)


# Question 8: velocity at 4 in of water, key 8010 ft/min. checked
def test_question_8_velocity() -> None:
    velocity = velocity_from_pressure(4.0 * INCH_OF_WATER, DENSITY_4005)
    assert velocity / FOOT_PER_MINUTE == pytest.approx(8010.0, abs=0.5)


# Question 9: F 0.6, VP 2 in, key 3.2 in of suction. checked
def test_question_9_hood_pressure() -> None:
    assert hood_pressure(2.0, 0.6) == pytest.approx(3.2, abs=0.05)


# Question 14: velocity pressure at 12.9 m/s, key 100 Pa. checked
def test_question_14_velocity_pressure() -> None:
    assert velocity_pressure(12.9, DENSITY_129) == pytest.approx(100.0, abs=0.5)


# Question 15: VP 0.4 in, hood 0.8 in, key 0.7. checked
def test_question_15_coefficient_of_entry() -> None:
    assert measured_coefficient_of_entry(0.4, 0.8) == pytest.approx(0.7, abs=0.05)


# Question 16: 200 ft3/min at 1.5 in joined by 300 at 2.0 in, key 1.8 in. checked
def test_question_16_merged_velocity_pressure() -> None:
    assert merged_velocity_pressure([200.0, 300.0], [1.5, 2.0]) == pytest.approx(1.8, abs=0.05)


# Question 17: C_e 0.98, hood 4 in, area 0.196 ft2, key 1539 ft3/min. checked
def test_question_17_flow_from_hood_pressure() -> None:
    flow = flow_from_hood_pressure(0.196 * SQUARE_FOOT, 4.0 * INCH_OF_WATER, 0.98, DENSITY_4005)
    assert flow / CUBIC_FOOT * 60.0 == pytest.approx(1539.0, abs=0.5)


# Question 19: branch of 1500 ft3/min at 1 in joined at 4 in, key 3000 ft3/min. checked
def test_question_19_balance() -> None:
    assert balanced_branch_flow(1500.0, 1.0, 4.0) == pytest.approx(3000.0, abs=0.5)


# Question 21: 30 000 ft3, effective 6000 ft3/min, 50 to 10 ppm, key 8 min. checked
def test_question_21_purge() -> None:
    minutes = clearance_time(30_000.0, 6000.0, 10.0 / 50.0, 1.0)
    assert minutes == pytest.approx(8.0, abs=0.5)
    assert minutes == pytest.approx(8.05, abs=0.005)


# Question 28: 400 ft3/min at 1000 rpm, at 3000 rpm, key 1200. checked
def test_question_28_fan_flow() -> None:
    assert scaled_fan_flow(400.0, 3000.0 / 1000.0, 1.0) == pytest.approx(1200.0, abs=0.5)


# Question 29: 5 in at 1000 rpm, at 3000 rpm, key 45 in. checked
def test_question_29_fan_pressure() -> None:
    assert scaled_fan_pressure(5.0, 3.0, 1.0, 1.0) == pytest.approx(45.0, abs=0.5)


# Question 30: 20 hp, twice the diameter at the same speed, key 640 hp. checked
def test_question_30_fan_power() -> None:
    assert scaled_fan_power(20.0, 1.0, 2.0, 1.0) == pytest.approx(640.0, abs=0.5)


# Question 31: inlet -5 in, outlet 10 in, inlet VP 1 in, key 14 in. checked
def test_question_31_fan_static_pressure() -> None:
    assert fan_static_pressure(5.0, 10.0, 1.0) == pytest.approx(14.0, abs=0.5)


# Question 31: the explanation under the key says 16 in, adding VP instead of taking it off. checked
def test_question_31_does_not_give_the_explanation() -> None:
    assert fan_static_pressure(5.0, 10.0, 1.0) != pytest.approx(16.0, abs=0.5)
