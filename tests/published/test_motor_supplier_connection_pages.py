"""Motor suppliers' pages on star and delta: star for the higher voltage, delta for the lower."""

from __future__ import annotations

import pytest

from checker.engineering.motors import plate_voltage_ratio_deviation, winding_voltage_deviation

# Three suppliers' pages (IEC 60034-8 marking): the plates of motors up to 3 kW and from 4 kW and
# the connection each takes on 400 V. Tolerance: 400/230 differs from √3 by 0.4 %, 690/400 by
# 0.4 %. Confidence: checked.
RIGHT = [
    (230.0, 400.0, "star"),
    (230.0, 230.0, "delta"),
    (400.0, 400.0, "delta"),
    (400.0, 690.0, "star"),
]


@pytest.mark.parametrize(("lower", "supply", "connection"), RIGHT)
def test_connection_of_the_page_gives_the_winding_its_voltage(
    lower: float, supply: float, connection: str
) -> None:
    assert winding_voltage_deviation(supply, connection, lower) == pytest.approx(0.0, abs=0.005)


# The same pages: a 4 kW motor of 400/690 V on 400 V is not in star, a 230/400 V one not in delta.
# Confidence: checked.
@pytest.mark.parametrize(("lower", "connection"), [(400.0, "star"), (230.0, "delta")])
def test_the_other_connection_is_far_off(lower: float, connection: str) -> None:
    assert abs(winding_voltage_deviation(400.0, connection, lower)) > 0.4


# The same pages: plates 230/400 and 400/690. Confidence: checked.
@pytest.mark.parametrize(("lower", "higher"), [(230.0, 400.0), (400.0, 690.0)])
def test_pairs_of_plate_voltages(lower: float, higher: float) -> None:
    found = plate_voltage_ratio_deviation(lower, higher, "star-delta")
    assert found == pytest.approx(0.0, abs=0.005)
