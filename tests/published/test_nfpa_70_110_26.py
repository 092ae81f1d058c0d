"""NFPA 70, article 110.26, spaces about electrical equipment."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.findings import Finding


def panel(**fields: str) -> dict[str, str]:
    body = ", ".join(f"{k}: {v}" for k, v in {"worked_on_live": "true", **fields}.items())
    return {
        "supply": "{wiring_code: nec}",
        "surroundings": f"{{electrical_panels: [{{name: panel, {body}}}]}}",
    }


# NFPA 70, 110.26(A)(2), as a trade explanation works it: equipment 52 in wide asks for 52 in,
# equipment 20 in wide for 30 in. Confidence: checked.
@pytest.mark.parametrize(("width_in", "printed_in"), [(52, 52), (20, 30)])
def test_width(ask: Callable[..., Finding], width_in: float, printed_in: float) -> None:
    found = ask(
        "clearance/electrical-working-width",
        **panel(width=f"{width_in} in", clear_width=f"{printed_in} in"),
    )
    assert found.demand is not None
    assert found.demand.unit == "in"
    assert found.demand.value == pytest.approx(printed_in, rel=1e-9)
    assert found.grade.word == "met"


# NFPA 70, 110.26(A)(2): an inch less than the printed widths. Confidence: checked.
@pytest.mark.parametrize(("width_in", "clear_in"), [(52, 51), (20, 29)])
def test_too_narrow(ask: Callable[..., Finding], width_in: float, clear_in: float) -> None:
    given = panel(width=f"{width_in} in", clear_width=f"{clear_in} in")
    assert ask("clearance/electrical-working-width", **given).grade.word == "stop"


# NFPA 70, 110.26(A)(3): 6.5 ft, or the height of the equipment; printed as 1.98 m.
# Confidence: checked.
@pytest.mark.parametrize(
    ("height", "clear", "grade", "printed_m"),
    [
        ("1.7 m", "1.99 m", "met", 1.98),
        ("1.7 m", "1.97 m", "stop", 1.98),
        ("2.2 m", "2.1 m", "stop", 2.2),
    ],
)
def test_height(
    ask: Callable[..., Finding], height: str, clear: str, grade: str, printed_m: float
) -> None:
    found = ask("clearance/electrical-working-height", **panel(height=height, clear_height=clear))
    assert found.demand is not None
    assert (found.grade.word, found.demand.unit) == (grade, "m")
    assert found.demand.value == pytest.approx(printed_m, abs=0.005)


# NFPA 70, 110.26(A)(2): doors and hinged panels open at least 90 degrees. Confidence: checked.
@pytest.mark.parametrize(("angle_deg", "grade"), [(90, "met"), (89, "correct")])
def test_door(ask: Callable[..., Finding], angle_deg: float, grade: str) -> None:
    given = panel(door_angle=f"{angle_deg} deg")
    assert ask("clearance/panel-door-swing", **given).grade.word == grade


# NFPA 70, 110.26(E), in the words of IRC E3405: no foreign piping or duct in the footprint up to
# 6 ft above the panelboard, printed as 1.83 m. Confidence: checked.
@pytest.mark.parametrize(("above_m", "grade"), [(1.83, "met"), (1.82, "correct")])
def test_dedicated_space(ask: Callable[..., Finding], above_m: float, grade: str) -> None:
    given = panel(kind="panelboard", overhead="duct", overhead_height=f"{above_m} m")
    found = ask("clearance/electrical-dedicated-space", **given)
    assert found.grade.word == grade
    assert found.demand is not None
    assert found.demand.value == pytest.approx(1.83, abs=0.005)
