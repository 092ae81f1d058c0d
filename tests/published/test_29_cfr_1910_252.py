"""29 CFR 1910.252(a)(2), United States: fire watch and clearance of hot work."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.findings import Finding
from checker.rulebook.model import Rulebook


def parameter(shipped: Rulebook, rule: str, name: str) -> float:
    found = next(r for r in shipped.rules if r.name == rule).parameters[name].value
    assert isinstance(found, float)
    return found


# 29 CFR 1910.252(a)(2)(iii)(A): 35 feet, printed beside it as 10.7 m; half of its last digit.
# Confidence: checked.
def test_clearance_in_both_units(shipped: Rulebook) -> None:
    metres = parameter(shipped, "work-controls/hot-work-surroundings", "clearance")
    assert metres == pytest.approx(10.7, abs=0.05)
    assert metres == pytest.approx(35 * 0.3048, rel=1e-12)


# 29 CFR 1910.252(a)(2)(iii)(A) and (vii): nearer than 35 feet, what burns is shielded and watched.
# Confidence: checked.
@pytest.mark.parametrize(
    ("nearest", "shielded", "watched", "grade"),
    [
        ("35 ft", "false", "false", "met"),
        ("34 ft", "false", "true", "stop"),
        ("34 ft", "true", "false", "stop"),
        ("34 ft", "true", "true", "met"),
    ],
)
def test_clearance(
    ask: Callable[..., Finding], nearest: str, shielded: str, watched: str, grade: str
) -> None:
    found = ask(
        "work-controls/hot-work-surroundings",
        work=f"{{hot_work: {{done: true, nearest_combustible: {nearest}, shielded: {shielded}, "
        f"watch_kept: {watched}}}}}",
    )
    assert found.grade.word == grade


# "11 m", a rounding in circulation, is more than the printed distance and not it.
def test_not_eleven_metres(shipped: Rulebook) -> None:
    metres = parameter(shipped, "work-controls/hot-work-surroundings", "clearance")
    assert metres != pytest.approx(11.0, abs=0.05)


# 29 CFR 1910.252(a)(2)(iii)(B): a fire watch of at least half an hour. Confidence: checked.
@pytest.mark.parametrize(("watch", "grade"), [("29 min", "stop"), ("0.5 h", "correct")])
def test_half_an_hour_is_the_floor(ask: Callable[..., Finding], watch: str, grade: str) -> None:
    found = ask(
        "work-controls/fire-watch", work=f"{{hot_work: {{done: true, watch_after: {watch}}}}}"
    )
    assert found.grade.word == grade
