"""NFPA 70 (NEC) 2011, Table 430.52: short-circuit devices over the table's full-load current."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.findings import Finding
from checker.rulebook.model import Rulebook

# NEC 2011, Table 430.52, cage and single-phase motors: percent, and percent for an energy-efficient
# motor of Design B. Confidence: checked.
PERCENT = [
    ("non-time-delay-fuse", 300, 300),
    ("time-delay-fuse", 175, 175),
    ("instantaneous-breaker", 800, 1100),
    ("inverse-time-breaker", 250, 250),
]


@pytest.mark.parametrize(("device", "usual", "efficient"), PERCENT)
def test_percentages(shipped: Rulebook, device: str, usual: int, efficient: int) -> None:
    table = shipped.tables["nec_short_circuit_share"]
    assert len(table.rows) == len(PERCENT)
    assert 100 * table.columns["usual"].look_up(device) == pytest.approx(usual)
    assert 100 * table.columns["design_b_energy_efficient"].look_up(device) == pytest.approx(
        efficient
    )


# Worked with Table 430.52 and the next standard size: 1 hp 115 V 16 A, 40 A (EC&M 2019); 5 hp 230 V
# single-phase 28 A, 70 A (examination page); 7-1/2 hp 230 V 22 A, 60 A (EC&M Code Q&A 2014).
# Confidence: checked. 5 hp three-phase 40 A and 3 hp 25 A are arithmetic of the table.
@pytest.mark.parametrize(
    ("phases", "volts", "horsepower", "size"),
    [
        ("single", 115, 1, 40),
        ("single", 230, 5, 70),
        ("three", 230, 7.5, 60),
        ("three", 230, 5, 40),
        ("three", 230, 3, 25),
    ],
)
def test_worked(
    ask: Callable[..., Finding], phases: str, volts: int, horsepower: float, size: int
) -> None:
    def at(rated: int) -> Finding:
        return ask(
            "electrical-protection/short-circuit-device-nec",
            supply=f"{{wiring_code: nec, voltage: {volts} V}}",
            collector=(
                "{motor: {drive: direct-on-line, duty: usual, speed: 1750 rpm, marking: single-voltage, "
                f"lower_voltage_current: 1 A, phases: {phases}, power: {horsepower} hp}}}}"
            ),
            protection=f"{{short_circuit: {{kind: inverse-time-breaker, rated_current: {rated} A}}}}",
        )

    assert at(size).grade.word == "met"
    assert at(size + 5).grade.word == "correct"
