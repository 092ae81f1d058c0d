"""Raising a load never improves a grade of the load family, and never lowers its utilisation.

The rules that turn are left out on purpose: a heavier head moves a post's frequency towards the
fan's speed from one side and away from it on the other, and dry mass holds a free stand down.
"""

from __future__ import annotations

import copy
from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from checker.checking.outcomes import Outcome, check
from checker.grades import Grade
from checker.installation.binding import bind
from checker.rulebook.loading import load_rulebook
from checker.rulebook.model import Rulebook

_DESCRIPTION = """\
job: {{stage: plan, customer: machine-builder}}
host: {{capacity: 90 kg, capacity_moment: 1500 N*m}}
process: {{liquid_density: {density} kg/m3}}
collector:
  mass: {mass} kg
  retained_liquid: {liquid} L
  saturated_filter_mass: {filters} kg
  accessories_mass: {accessories} kg
  centre_of_gravity_height: 0.3 m
  height: 0.7 m
  within_reach: {reach}
duct: {{diameter: 160 mm, wall: 0.5 mm, material: steel, length_to_support: {duct} m, fittings_mass: {fittings} kg}}
mount:
  kind: {kind}
  offset: {offset} m
  pull_height: {height} m
  bracket_mass: {brackets} kg
  underside_height: 1.9 m
  over_workplace: true
  post: {{shape: square, width: {width} mm, wall: 3 mm, finish: cold-formed, yield_strength: 235 MPa, free_length: {length} m}}
  base: {{kind: sheet, rotational_stiffness: {base} kN*m/rad}}
  brackets: {{spacing: 0.6 m, slotted: true, capacity: 2500 N}}
  stand: {{mass: 40 kg, anchored: {anchored}, base_width: 1.2 m, centre_to_edge: 0.6 m}}
  anchors:
    kind: bonded
    approval: invented
    thread: M8
    count: 4
    count_in_tension: 2
    lever: 0.3 m
    embedment: 60 mm
    spacing: 150 mm
    edge_distance: 200 mm
    concrete_strength: 20 MPa
    pull_out_resistance: 6 kN
    ultimate_strength: 400 MPa
    yield_strength: 240 MPa
  transit: {{fitted: true, mode: road, braced: {braced}, brace_capacity: 500 N, drained: false}}
  retention: {{fitted: true, rated_mass: 80 kg, slack: 50 mm, separate_fixing: true}}
"""
_REFERENCE: dict[str, Any] = {
    "density": 870.0, "mass": 42.0, "liquid": 6.0, "filters": 3.0, "accessories": 2.0, "reach": "true", "duct": 3.0,
    "fittings": 1.0, "kind": "side-post", "offset": 0.25, "height": 2.0, "brackets": 4.0, "width": 60.0, "length": 2.0,
    "base": 60.0, "anchored": "true", "braced": "false",
}  # fmt: skip

_MASSES = (
    "density",
    "mass",
    "liquid",
    "filters",
    "accessories",
    "duct",
    "fittings",
    "brackets",
)
# Dry mass and brackets also hold an anchored stand down, so they may go either way there.
_TIPPING = ("density", "liquid", "filters", "accessories", "duct", "fittings", "offset", "height")
# Rule, what the description needs for it to apply, the loads that its demand must rise with.
_RULES: dict[str, tuple[dict[str, str], tuple[str, ...]]] = {
    "load/host-capacity": ({}, _MASSES),
    "load/host-moment": ({}, (*_MASSES, "offset", "height")),
    "load/post-bending": ({}, (*_MASSES, "offset", "height")),
    "load/post-deflection": ({}, (*_MASSES, "offset")),
    "load/post-buckling": ({}, _MASSES),
    "load/post-axial-bending": ({}, (*_MASSES, "offset", "height")),
    "load/bracket-reaction": ({}, (*_MASSES, "offset", "height")),
    "load/secondary-retention": ({}, _MASSES),
    "load/transit": ({}, (*_MASSES, "offset")),
    "load/transit-bracing": ({"braced": "true"}, _MASSES),
    "load/stand-overturning": ({"kind": "floor-stand", "anchored": "false"}, ("height",)),
    "load/floor-anchor": ({"kind": "floor-stand"}, _TIPPING),
    "load/floor-anchor-pull-out": ({"kind": "floor-stand"}, _TIPPING),
    "load/floor-anchor-steel": ({"kind": "floor-stand"}, _TIPPING),
}
_PAIRS = [(rule, load) for rule, (_, loads) in _RULES.items() for load in loads]


@pytest.fixture(scope="module")
def rulebook() -> Rulebook:
    """The shipped rulebook, cut down to the rules spoken of here."""
    whole = load_rulebook()
    cut = copy.copy(whole)
    cut.rules = tuple(rule for rule in whole.rules if rule.name in _RULES)
    assert {rule.name for rule in cut.rules} == set(_RULES)
    return cut


def _text(values: dict[str, Any]) -> bytes:
    # Six decimals: a description refuses more digits than anyone can measure.
    shown = {k: f"{v:.6f}" if isinstance(v, float) else v for k, v in values.items()}
    return _DESCRIPTION.format(**shown).encode()


def _outcome(rulebook: Rulebook, rule: str, values: dict[str, Any]) -> Outcome:
    found = check(rulebook, bind(_text({**values, **_RULES[rule][0]}), "description.yaml"))
    return next(outcome for outcome in found if outcome.rule.name == rule)


def _utilisation(outcome: Outcome) -> float:
    if outcome.limit <= 0.0:
        # The weight alone has used up what could be left, and more of it leaves less than nothing.
        return float("inf")
    return float(outcome.demand / outcome.limit)


@st.composite
def _situations(draw: st.DrawFn) -> dict[str, Any]:
    def between(low: float, high: float) -> float:
        return round(draw(st.floats(low, high)), 4)

    return {
        "density": between(700.0, 1200.0),
        "mass": between(8.0, 150.0),
        "liquid": between(0.0, 60.0),
        "filters": between(0.0, 40.0),
        "accessories": between(0.0, 60.0),
        "reach": draw(st.sampled_from(["true", "false"])),
        "duct": between(0.0, 10.0),
        "fittings": between(0.0, 50.0),
        "kind": "side-post",
        "offset": between(0.0, 2.0),
        "height": between(0.2, 4.0),
        "brackets": between(0.0, 80.0),
        "width": draw(st.sampled_from([25.0, 40.0, 60.0, 80.0, 120.0])),
        "length": between(0.3, 4.0),
        # Soft feet are where second-order growth leaves its formula.
        "base": draw(st.sampled_from([1.0, 2.0, 5.0, 20.0, 100.0, 500.0])),
        "anchored": "true",
        "braced": "false",
    }


@pytest.mark.parametrize(("rule", "load"), _PAIRS)
def test_each_load_reaches_the_demand(rulebook: Rulebook, rule: str, load: str) -> None:
    """On an ordinary rig a tenth more of the load shows in the utilisation."""
    before = _outcome(rulebook, rule, _REFERENCE)
    after = _outcome(rulebook, rule, {**_REFERENCE, load: _REFERENCE[load] * 1.1})
    assert before.demand is not None
    assert after.demand is not None
    assert _utilisation(after) > _utilisation(before)


@pytest.mark.parametrize("rule", list(_RULES))
@settings(max_examples=60, deadline=None)
@given(situation=_situations(), factor=st.floats(1.0, 4.0), data=st.data())
def test_raising_a_load_never_improves_the_grade(
    rulebook: Rulebook, rule: str, situation: dict[str, Any], factor: float, data: st.DataObject
) -> None:
    """One load up to four times as large, everything else as it was."""
    load = data.draw(st.sampled_from(_RULES[rule][1]), label="load")
    before = _outcome(rulebook, rule, situation)
    after = _outcome(rulebook, rule, {**situation, load: situation[load] * factor})
    assert before.grade is not Grade.NOT_APPLICABLE
    assert after.grade <= before.grade
    if before.demand is not None and after.demand is not None:
        assert _utilisation(after) >= _utilisation(before) * (1.0 - 1e-9)


def test_a_load_beyond_the_formula_does_not_improve_the_grade(rulebook: Rulebook) -> None:
    """Past a third of the critical force the growth of the moment has no formula any more.

    A post that was too weak before must not become a thing to ask about by a heavier unit.
    """
    soft = {**_REFERENCE, "base": 6.5, "height": 3.0}
    lighter = _outcome(rulebook, "load/post-axial-bending", soft)
    heavier = _outcome(rulebook, "load/post-axial-bending", {**soft, "mass": 60.0})
    assert (lighter.grade, heavier.grade) == (Grade.CORRECT, Grade.CORRECT)


@pytest.mark.parametrize("rule", list(_RULES))
@settings(max_examples=60, deadline=None)
@given(situation=_situations())
def test_a_person_within_reach_never_improves_the_grade(
    rulebook: Rulebook, rule: str, situation: dict[str, Any]
) -> None:
    """A pull on the head is one load more.

    On a stand out of reach the pull stands at leaning height, so only a pull above it is more.
    """
    assume("kind" not in _RULES[rule][0] or situation["height"] >= 1.5)
    out_of_reach = _outcome(rulebook, rule, {**situation, "reach": "false"})
    within_reach = _outcome(rulebook, rule, {**situation, "reach": "true"})
    assert within_reach.grade <= out_of_reach.grade


def test_a_missing_load_is_never_met(rulebook: Rulebook) -> None:
    """Each mass left out of the description makes every rule that needs it ask for it."""
    for needed in ("mass", "retained_liquid", "saturated_filter_mass"):
        lines = [
            line
            for line in _text(_REFERENCE).splitlines()
            if not line.startswith(f"  {needed}:".encode())
        ]
        found = check(rulebook, bind(b"\n".join(lines), "description.yaml"))
        asking = {o.rule.name for o in found if o.grade is Grade.CONFIRM}
        assert {"load/host-capacity", "load/post-bending", "load/post-buckling"} <= asking
