"""ISO 13732-1:2006, burn thresholds of smooth bare metal."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.findings import Finding
from checker.rulebook.model import Rulebook


# ISO 13732-1:2006, as a public note cites it for bare metal: 48 °C for 10 min. Confidence: checked.
def test_ten_minutes(shipped: Rulebook) -> None:
    found = shipped.tables["burn_threshold"].columns["temperature"].look_up(600.0)
    assert found - 273.15 == pytest.approx(48, abs=1e-9)


# ISO 13732-1:2006: only that value was read, and a finding that rests on another says so.
@pytest.mark.parametrize(("seconds", "doubted"), [(600, False), (60, True), (30, True), (1, True)])
def test_remembered_values_say_so(
    ask: Callable[..., Finding], seconds: float, doubted: bool
) -> None:
    found = ask(
        "clearance/hot-surface",
        surroundings="{hot_surfaces: [{name: motor, temperature: 40 degC, reachable: true, "
        f"contact_time: {seconds} s}}]}}",
    )
    assert any("Reference not verified" in remark for remark in found.remarks) is doubted


# A list of scald data of unknown origin that is passed on as limits (49 °C above 5 min, 55 °C near
# 30 s, 60 °C below 5 s, 68 °C near 1 s) is not what the table holds.
@pytest.mark.parametrize(("seconds", "scald_degc"), [(301, 49), (5, 60), (1, 68)])
def test_not_the_scald_list(shipped: Rulebook, seconds: float, scald_degc: float) -> None:
    found = shipped.tables["burn_threshold"].columns["temperature"].look_up(float(seconds))
    assert found - 273.15 < scald_degc
