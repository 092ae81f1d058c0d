"""DIN 580:2003-08, Lifting eye bolts, Annex A, Table A.1: lifting capacities.

Read in a fastener distributor's bilingual copy of the annex. Confidence: checked.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.findings import Finding
from checker.rulebook.model import Rulebook

# DIN 580:2003-08, Table A.1, in kg: single strand, and double strand at 45°. Confidence: checked.
PRINTED_KG = {
    "M8": (140, 100),
    "M10": (230, 170),
    "M12": (340, 240),
    "M16": (700, 500),
    "M20": (1200, 860),
    "M24": (1800, 1290),
}


# DIN 580, Table A.1, every cell; exact. Confidence: checked.
@pytest.mark.parametrize(("thread", "printed"), PRINTED_KG.items())
@pytest.mark.parametrize(("column", "index"), [("straight", 0), ("slanted", 1)])
def test_cell(
    shipped: Rulebook, thread: str, printed: tuple[float, float], column: str, index: int
) -> None:
    found = shipped.tables["eyebolt"].columns[column].look_up("DIN 580", thread)
    assert found == printed[index]


def lift(thread: str, load_kg: float, *, count: int, degrees: float) -> str:
    return (
        f"{{method: crane, attachment: eyebolts, slung_mass: {load_kg} kg, "
        f"eyebolt: {{thread: {thread}, standard: DIN 580, stamped_limit: {PRINTED_KG[thread][0]} kg, "
        f"count: {count}, seated: true}}, sling: {{legs: {count}, legs_carrying: {count}, "
        f"angle_from_vertical: {degrees} deg}}}}"
    )


# DIN 580, Table A.1: the printed load hangs on one eyebolt, a hundredth more does not. Confidence:
# checked.
@pytest.mark.parametrize("thread", PRINTED_KG)
def test_rule_straight(ask: Callable[..., Finding], thread: str) -> None:
    printed = PRINTED_KG[thread][0]
    enough = ask("load/eyebolt", lifting=lift(thread, printed, count=1, degrees=0))
    too_much = ask("load/eyebolt", lifting=lift(thread, printed * 1.01, count=1, degrees=0))
    assert (enough.grade.word, too_much.grade.word) == ("met", "stop")


# DIN 580:2018, text: the values are per eyebolt and are not added for several legs. Two legs at 45°
# carry √2 times one eyebolt's leg tension, not twice it. Confidence: checked (web extract).
@pytest.mark.parametrize("thread", PRINTED_KG)
def test_rule_slanted(ask: Callable[..., Finding], thread: str) -> None:
    printed = PRINTED_KG[thread][1]
    enough = ask("load/eyebolt", lifting=lift(thread, round(printed * 1.414), count=2, degrees=45))
    added = ask("load/eyebolt", lifting=lift(thread, printed * 2, count=2, degrees=45))
    assert (enough.grade.word, added.grade.word) == ("met", "stop")


# An inch-unit table prints 2266 for 12 mm, in pounds, and 567 at 45°: another standard. Ours stays
# with 340 and 240 kg. Confidence: checked, as a trap.
def test_inch_table_is_not_ours(shipped: Rulebook) -> None:
    eyebolt = shipped.tables["eyebolt"].columns
    assert eyebolt["straight"].look_up("DIN 580", "M12") < 2266 * 0.45359237 / 3
