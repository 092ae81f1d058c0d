"""IEC 60364-4-41, protection against electric shock: Table 41.1, disconnection times."""

from __future__ import annotations

import pytest

from checker.engineering.fault_protection import longest_disconnection_time

# Table 41.1, alternating current, in a reproduction of BS 7671:2008: upper end of U0 in V, s in TN,
# s in TT. Both ends of each band are tried. Confidence: checked.
TABLE_41_1 = [(51.0, 120.0, 0.8, 0.3), (121.0, 230.0, 0.4, 0.2), (231.0, 400.0, 0.2, 0.07)]
CELLS = [
    (system, voltage, time)
    for low, high, in_tn, in_tt in TABLE_41_1
    for voltage in (low, high)
    for system, time in (("TN", in_tn), ("TT", in_tt))
]
CELLS += [("TN", 401.0, 0.1), ("TT", 401.0, 0.04), ("TN", 277.0, 0.2)]


@pytest.mark.parametrize(("system", "voltage", "time"), CELLS)
def test_final_circuits(system: str, voltage: float, time: float) -> None:
    assert longest_disconnection_time(system, "final", voltage) == time


# 411.3.2.3 and 411.3.2.4, distribution and larger final circuits. Confidence: checked.
@pytest.mark.parametrize(("system", "time"), [("TN", 5.0), ("TT", 1.0)])
def test_distribution_circuits(system: str, time: float) -> None:
    assert longest_disconnection_time(system, "distribution", 230.0) == time
