"""Pages, articles and a forum that work NEMA's voltage unbalance, two of them wrongly."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal

import pytest

from checker.engineering.motor_duty import derated_power, nema_voltage_unbalance
from checker.findings import Finding


def printed(text: str) -> object:
    """The printed number, give or take half a unit of its last digit."""
    exponent = Decimal(text).as_tuple().exponent
    return pytest.approx(float(text), abs=0.5 * 10.0**exponent + 1e-9)


# NEMA MG 1 definition, worked: an unbalance calculator, a trade article, an engineering forum.
# Confidence: checked.
@pytest.mark.parametrize(
    ("voltages", "percent"),
    [
        ((460.0, 467.0, 450.0), "1.96"),
        ((480.0, 476.0, 472.0), "0.84"),
        ((462.0, 463.0, 455.0), "1.1"),
    ],
)
def test_unbalance_as_printed(voltages: tuple[float, float, float], percent: str) -> None:
    assert 100 * nema_voltage_unbalance(*voltages) == printed(percent)


# Published wrongly. A page prints 1.45 % for 400/395/388 V: it took 400 V as the value farthest
# from the mean. An HVAC manual rounds its way from 220/216/213 V to 1.8 %. The percentages beside
# them are arithmetic of the definition. Confidence: checked (the wrong figures were read).
@pytest.mark.parametrize(
    ("voltages", "wrong", "percent"),
    [((400.0, 395.0, 388.0), "1.45", "1.606"), ((220.0, 216.0, 213.0), "1.8", "1.695")],
)
def test_unbalance_published_wrongly(
    voltages: tuple[float, float, float], wrong: str, percent: str
) -> None:
    found = 100 * nema_voltage_unbalance(*voltages)
    assert found != printed(wrong)
    assert found == printed(percent)


# Article on unbalance: a 10 hp motor at 1.96 % carries 9.5 hp (factor "near 0.95").
# Confidence: checked.
def test_power_left_at_two_percent() -> None:
    assert derated_power(10.0, 0.95) == printed("9.5")


# The printed readings through the shipped rule, at a motor with room to spare; and above 5 %, where
# two copies say that no motor is to be run. Confidence: checked.
@pytest.mark.parametrize(
    ("voltages", "percent", "grade"),
    [
        ((460, 467, 450), "1.96", "advise"),
        ((480, 476, 472), "0.84", "met"),
        ((462, 463, 455), "1.1", "advise"),
        ((430, 400, 390), "5.7", "stop"),
    ],
)
def test_shipped_rule(
    ask: Callable[..., Finding], voltages: tuple[int, int, int], percent: str, grade: str
) -> None:
    one, two, three = voltages
    found = ask(
        "electrical-protection/voltage-unbalance",
        supply=(
            f"{{frequency: 60 Hz, measured: {{voltage_1_2: {one} V, voltage_2_3: {two} V, "
            f"voltage_3_1: {three} V}}}}"
        ),
        collector=(
            "{fan_power: 1 kW, fan_power_frequency: 60 Hz, "
            "motor: {phases: three, power: 2.2 kW, drive: direct-on-line}}"
        ),
    )
    assert found.demand is not None
    assert found.demand.value == printed(percent)
    assert found.grade.word == grade
