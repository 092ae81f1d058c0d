"""IEC 60034-1, Rotating electrical machines, rating: the figure of zones A and B for motors."""

from __future__ import annotations

import pytest

from checker.engineering.supply_deviation import (
    iec_zone_a_utilisation,
    iec_zone_b_utilisation,
    volts_per_hertz_ratio,
)

# Axis marks of the figure, read in a gear-motor planning manual, p. 86, and a page that names it
# Figure 12: percent of voltage, percent of frequency. Confidence: checked (clause from-memory).
EDGE_OF_A = [(5.0, 0.0), (-5.0, 0.0), (0.0, 2.0), (0.0, -2.0)]
EDGE_OF_B = [(10.0, 0.0), (-10.0, 0.0), (0.0, 3.0), (0.0, -5.0)]


def supply(in_voltage: float, in_frequency: float) -> tuple[float, float, float, float]:
    return 400.0 * (1 + in_voltage / 100), 400.0, 50.0 * (1 + in_frequency / 100), 50.0


@pytest.mark.parametrize(("in_voltage", "in_frequency"), EDGE_OF_A)
def test_edge_of_zone_a(in_voltage: float, in_frequency: float) -> None:
    assert iec_zone_a_utilisation(*supply(in_voltage, in_frequency)) == pytest.approx(1.0)


@pytest.mark.parametrize(("in_voltage", "in_frequency"), EDGE_OF_B)
def test_edge_of_zone_b(in_voltage: float, in_frequency: float) -> None:
    assert iec_zone_b_utilisation(*supply(in_voltage, in_frequency)) == pytest.approx(1.0)


# The marks +3 % and -3 % of voltage cut the corners of zone A at -2 % and +2 % of frequency. That
# they belong to those corners is from-memory; a volts-per-hertz test of 5 % meets both within
# 0.2 %, the distance of a straight cut from a constant ratio.
@pytest.mark.parametrize(("in_voltage", "in_frequency"), [(3.0, -2.0), (-3.0, 2.0)])
def test_cut_corners_of_zone_a(in_voltage: float, in_frequency: float) -> None:
    voltage, rated_voltage, frequency, rated_frequency = supply(in_voltage, in_frequency)
    ratio = volts_per_hertz_ratio(voltage, frequency, rated_voltage, rated_frequency)
    assert abs(ratio - 1.0) == pytest.approx(0.05, abs=0.002)
