"""IEC 60364-4-41, protection against electric shock: Table 41.1, disconnection times."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.absent import OutOfReach
from checker.engineering.fault_protection import longest_disconnection_time
from checker.findings import Finding
from checker.grades import Grade
from checker.rulebook.model import Rulebook

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


# The shipped table, both ends of each band. Confidence: checked.
@pytest.mark.parametrize(("system", "voltage", "time"), CELLS)
def test_shipped_times(shipped: Rulebook, system: str, voltage: float, time: float) -> None:
    found = shipped.tables["disconnection_time"].columns["longest"].look_up(system, voltage)
    assert found == pytest.approx(time)


# Up to 50 V and above 1000 V no time is stated.
@pytest.mark.parametrize("system", ["TN", "TT"])
@pytest.mark.parametrize("voltage", [24.0, 50.0, 1100.0])
def test_no_time_there(shipped: Rulebook, system: str, voltage: float) -> None:
    with pytest.raises(OutOfReach):
        shipped.tables["disconnection_time"].columns["longest"].look_up(system, voltage)


# 411.5.3: 50 V; 411.3.3: sockets up to 32 A; the 30 mA in a German employers' insurance rule.
# Confidence: checked.
def test_figures_in_the_rules(shipped: Rulebook) -> None:
    rules = {r.name: r for r in shipped.rules}
    assert rules["electrical-protection/earth-electrode"].parameters["touch_limit"].text == "50 V"
    socket = rules["electrical-protection/residual-current-device"].parameters
    assert (socket["largest_socket"].text, socket["sensitive"].text) == ("32 A", "30 mA")


# The NEC has no such times and no loop limit: nothing of it is graded there.
@pytest.mark.parametrize(
    "rule", ["disconnection", "earth-electrode", "residual-current-trip-time", "earthing-system"]
)
def test_not_in_the_other_world(ask: Callable[..., Finding], rule: str) -> None:
    found = ask(
        f"electrical-protection/{rule}",
        job="{stage: fitted}",
        supply="{wiring_code: nec, earthing: TN-S, earth_loop: {at_motor: 9 ohm}}",
    )
    assert found.grade is Grade.NOT_APPLICABLE
