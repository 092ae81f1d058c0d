"""IEC 60364-7-729 (DIN VDE 0100-729), operating and maintenance gangways."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.findings import Finding


def panel(field: str, value: str) -> dict[str, str]:
    return {
        "supply": "{wiring_code: iec}",
        "surroundings": (
            f"{{electrical_panels: [{{name: p, kind: machine-control-panel, {field}: {value}}}]}}"
        ),
    }


# IEC 60364-7-729, as two trade-journal pages print it: doors and swing frames open at least 90
# degrees. Confidence: checked.
@pytest.mark.parametrize(("angle_deg", "grade"), [(90, "met"), (89, "correct")])
def test_door(ask: Callable[..., Finding], angle_deg: float, grade: str) -> None:
    found = ask("clearance/panel-door-swing", **panel("door_angle", f"{angle_deg} deg"))
    assert found.grade.word == grade


# IEC 60364-7-729, same pages: 500 mm free past an open door. Confidence: checked.
@pytest.mark.parametrize(("passage_mm", "grade"), [(500, "met"), (499, "correct")])
def test_passage(ask: Callable[..., Finding], passage_mm: float, grade: str) -> None:
    found = ask("clearance/panel-door-passage", **panel("door_passage", f"{passage_mm} mm"))
    assert found.grade.word == grade
