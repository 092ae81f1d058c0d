"""29 CFR 1910.303(g)(1), working space about electrical equipment, 600 V or less."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.findings import Finding
from checker.rulebook.model import Rulebook

FOOT = 0.3048


def panel(**fields: str) -> dict[str, str]:
    body = ", ".join(f"{k}: {v}" for k, v in {"worked_on_live": "true", **fields}.items())
    return {
        "supply": "{wiring_code: nec}",
        "surroundings": f"{{electrical_panels: [{{name: panel, {body}}}]}}",
    }


# 29 CFR 1910.303(g)(1)(i), Table S-1, read in the identical WAC 296-24-95703; feet, exact.
# Confidence: checked.
@pytest.mark.parametrize(
    ("volts", "condition", "printed_ft"),
    [
        (0, "A", 3.0),
        (120, "A", 3.0),
        (150, "A", 3.0),
        (150, "B", 3.0),
        (120, "C", 3.0),
        (150, "C", 3.0),
        (151, "A", 3.0),
        (600, "A", 3.0),
        (151, "B", 3.5),
        (277, "B", 3.5),
        (600, "B", 3.5),
        (151, "C", 4.0),
        (600, "C", 4.0),
    ],
)
def test_table_s_1(shipped: Rulebook, volts: float, condition: str, printed_ft: float) -> None:
    found = shipped.tables["electrical_working_depth"].columns["depth"].look_up(volts, condition)
    assert found / FOOT == pytest.approx(printed_ft, rel=1e-12)


# The copy of the table in WAC 296-24-95703 sets the mark of its note 1 before 3.0, and a reader of
# the page has taken that as 13.0 ft: it is 3.0. Confidence: checked.
@pytest.mark.parametrize("condition", ["A", "B", "C"])
def test_not_thirteen_feet(shipped: Rulebook, condition: str) -> None:
    found = shipped.tables["electrical_working_depth"].columns["depth"].look_up(150.0, condition)
    assert found / FOOT != pytest.approx(13.0, abs=1)


# 29 CFR 1910.303(g)(1)(i): a panel of 480/277 V counts by its 277 V to ground. A grounded unit
# opposite is condition B, 3.5 ft = 1067 mm; at 120 V it is 3.0 ft = 914 mm. The millimetres are
# printed beside the feet, to the digit. Confidence: checked.
@pytest.mark.parametrize(
    ("volts", "opposite", "printed_mm"),
    [
        (277, "unit", 1067),
        (277, "masonry", 1067),
        (277, "grounded-metal", 1067),
        (277, "live-parts", 1219),
        (277, "insulating", 914),
        (120, "unit", 914),
        (120, "live-parts", 914),
    ],
)
def test_depth_asked(
    ask: Callable[..., Finding], volts: float, opposite: str, printed_mm: float
) -> None:
    given = panel(voltage_to_ground=f"{volts} V", opposite=opposite, front_distance="2000 mm")
    found = ask("clearance/electrical-working-depth", **given)
    assert found.demand is not None
    assert (round(found.demand.value), found.demand.unit) == (printed_mm, "mm")


# Arithmetic on Table S-1: a unit 1000 mm from a 277 V panel is 67 mm too near; at 120 V it is not.
@pytest.mark.parametrize(("volts", "grade", "short_mm"), [(277, "stop", 67), (120, "met", -86)])
def test_unit_a_metre_off(
    ask: Callable[..., Finding], volts: float, grade: str, short_mm: float
) -> None:
    given = panel(voltage_to_ground=f"{volts} V", opposite="unit", front_distance="1000 mm")
    found = ask("clearance/electrical-working-depth", **given)
    assert found.demand is not None
    assert found.limit is not None
    assert found.grade.word == grade
    assert round(found.demand.value - found.limit.value) == short_mm


# Table S-1 ends at 600 V: above, no depth is made up.
def test_nothing_above_600_v(ask: Callable[..., Finding]) -> None:
    given = panel(voltage_to_ground="690 V", opposite="unit", front_distance="5000 mm")
    found = ask("clearance/electrical-working-depth", **given)
    assert found.grade.word == "confirm"
    assert found.demand is None


# 29 CFR 1910.303(g)(1): 30 in behind equipment whose back is reached, 762 mm. Confidence: checked.
@pytest.mark.parametrize(("inches", "grade"), [(30, "met"), (29.9, "correct")])
def test_rear_access(ask: Callable[..., Finding], inches: float, grade: str) -> None:
    found = ask(
        "clearance/electrical-rear-access", **panel(rear_work="true", rear_distance=f"{inches} in")
    )
    assert found.grade.word == grade


# 29 CFR 1910.303(g)(1): working space is not used for storage. Confidence: checked.
@pytest.mark.parametrize(("stored", "grade"), [("false", "met"), ("true", "correct")])
def test_storage(ask: Callable[..., Finding], stored: str, grade: str) -> None:
    found = ask("clearance/electrical-storage", **panel(storage_in_front=stored))
    assert found.grade.word == grade
