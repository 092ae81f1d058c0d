"""BS 4278:1984 and AS 2317.1:2018, Eyebolts for lifting purposes: axial loads.

Read in two distributors' tables. Confidence: checked. The factors of pairs are in
test_as_2317_eyebolt_pairs.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.absent import OutOfReach
from checker.findings import Finding
from checker.rulebook.model import Rulebook

# AS 2317.1 / BS 4278, distributor's table, SWL in tonnes. Confidence: checked.
PRINTED_T = {"M8": 0.15, "M10": 0.25, "M12": 0.40, "M16": 0.80, "M20": 1.60, "M24": 2.50}
# The same table, a pair at an included angle of up to 30°, 60° and 90°, in tonnes as printed.
# Confidence: checked.
PAIRS_T = {
    "M12": (0.5, 0.32, 0.2),
    "M16": (1.0, 0.64, 0.4),
    "M20": (2.0, 1.28, 0.8),
    "M24": (3.1, 2.0, 1.25),
}


# AS 2317.1 / BS 4278, every axial load; exact. Confidence: checked.
@pytest.mark.parametrize(("thread", "printed_t"), PRINTED_T.items())
def test_axial(shipped: Rulebook, thread: str, printed_t: float) -> None:
    found = shipped.tables["eyebolt"].columns["straight"].look_up("BS 4278", thread)
    assert found == pytest.approx(printed_t * 1000)


# The standard gives a factor on a pair, not a load at 45°; the table must not invent one.
@pytest.mark.parametrize("thread", PRINTED_T)
def test_no_load_at_45_degrees(shipped: Rulebook, thread: str) -> None:
    with pytest.raises(OutOfReach):
        shipped.tables["eyebolt"].columns["slanted"].look_up("BS 4278", thread)


# AS 2317.1 / BS 4278, distributor's table: the printed load of a pair hangs on it, a fiftieth more
# does not (M24 at 30° is printed 3.1 for 3.125). Confidence: checked.
@pytest.mark.parametrize("thread", PAIRS_T)
@pytest.mark.parametrize(("included", "index"), [(30, 0), (60, 1), (90, 2)])
def test_pair(ask: Callable[..., Finding], thread: str, included: int, index: int) -> None:
    def grade(load_t: float) -> str:
        lifting = (
            f"{{method: crane, attachment: eyebolts, slung_mass: {load_t * 1000:.1f} kg, "
            f"eyebolt: {{thread: {thread}, standard: BS 4278, "
            f"stamped_limit: {PRINTED_T[thread] * 1000:g} kg, count: 2, seated: true}}, "
            f"sling: {{legs: 2, legs_carrying: 2, angle_from_vertical: {included / 2:g} deg}}}}"
        )
        return ask("load/eyebolt", lifting=lifting).grade.word

    printed = PAIRS_T[thread][index]
    assert (grade(printed), grade(printed * 1.02)) == ("met", "stop")
