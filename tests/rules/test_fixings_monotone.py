"""More load on a group of fixings never improves its grade, and a wider base never worsens it.

Dry mass is left out on a level face: there weight also holds the plate down.
"""

from __future__ import annotations

import copy
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from checker.checking.outcomes import Outcome, check
from checker.grades import Grade
from checker.installation.binding import bind
from checker.rulebook.loading import load_rulebook
from checker.rulebook.model import Rulebook

_DESCRIPTION = """\
job: {{stage: plan}}
process: {{liquid_density: 870 kg/m3}}
collector:
  mass: {mass} kg
  retained_liquid: {liquid} L
  saturated_filter_mass: {filters} kg
  within_reach: {reach}
duct: {{length_to_support: 0 m}}
mount:
  kind: wall-bracket
  offset: {offset} m
  pull_height: {height} m
  bracket_mass: 4 kg
  brackets: {{spacing: {spacing} m, slotted: {slotted}}}
  fixings:
    - at: group
      kind: {kind}
      thread: {thread}
      carries: {carries}
      face: {face}
      strength_class: "8.8"
      head: hexagon
      count: {count}
      rows: {rows}
      row_spacing: {row_spacing} mm
      lever: {lever} mm
      plate_thickness: {plate} mm
      hole: round
      hole_diameter: 9 mm
      edge_distance: 20 mm
      side_distance: 20 mm
      pitch_along: 60 mm
      pitch_across: 60 mm
      threads_in_shear: true
      washer_diameter: {washer} mm
      part_thickness: {thickness} mm
      part_material: steel
      part_strength: 360 MPa
      backing_thickness: 0 mm
      engaged_length: 8 mm
      declared_pull_out: 5 kN
      torque: 20 N*m
      friction: 0.14
      tightened_with: torque-wrench
"""
_RULES = {
    "load/bolt-tension": ("through-bolt", "M8"),
    "load/bolt-shear": ("through-bolt", "M8"),
    "load/bolt-interaction": ("through-bolt", "M8"),
    "load/panel-bearing": ("through-bolt", "M8"),
    "load/panel-pull-through": ("through-bolt", "M8"),
    "load/thread-stripping": ("tapped", "M8"),
    "load/rivet-nut": ("rivet-nut", "M8"),
    "load/screw-pull-out": ("screw", "ST6.3"),
    "load/joint-stays-closed": ("through-bolt", "M8"),
}
_LOADS = ("liquid", "filters", "offset", "height")
_PULLED = [rule for rule in _RULES if rule not in ("load/bolt-shear", "load/panel-bearing")]


@pytest.fixture(scope="module")
def rulebook() -> Rulebook:
    """The shipped rulebook, cut down to the rules spoken of here."""
    whole = load_rulebook()
    cut = copy.copy(whole)
    cut.rules = tuple(rule for rule in whole.rules if rule.name in _RULES)
    assert {rule.name for rule in cut.rules} == set(_RULES)
    return cut


def _outcome(rulebook: Rulebook, rule: str, values: dict[str, Any]) -> Outcome:
    kind, thread = _RULES[rule]
    shown = {k: f"{v:.4f}" if isinstance(v, float) else v for k, v in values.items()}
    text = _DESCRIPTION.format(**shown, kind=kind, thread=thread)
    found = check(rulebook, bind(text.encode(), "description.yaml"))
    outcome = next(o for o in found if o.rule.name == rule)
    # Every situation drawn here can be decided; a refusal would hide what is asked.
    assert outcome.demand is not None, outcome.why
    return outcome


@st.composite
def _situations(draw: st.DrawFn, face: str | None = None) -> dict[str, Any]:
    def between(low: float, high: float) -> float:
        return round(draw(st.floats(low, high)), 3)

    row_spacing = between(40.0, 300.0)
    return {
        "mass": between(8.0, 120.0),
        "liquid": between(0.0, 40.0),
        "filters": between(0.0, 30.0),
        "reach": draw(st.sampled_from(["true", "false"])),
        "offset": between(0.0, 1.0),
        "height": between(0.2, 3.0),
        "spacing": between(0.1, 1.5),
        "slotted": draw(st.sampled_from(["true", "false"])),
        "carries": draw(st.sampled_from(["whole-mount", "one-of-two-brackets"])),
        "face": face or draw(st.sampled_from(["level", "upright"])),
        "count": draw(st.sampled_from([4, 8])),
        "rows": 2,
        "row_spacing": row_spacing,
        "lever": round(row_spacing + between(10.0, 60.0), 3),
        "plate": between(3.0, 20.0),
        "washer": between(14.0, 40.0),
        "thickness": between(0.9, 2.9),
    }


@pytest.mark.parametrize("rule", list(_RULES))
@settings(max_examples=50, deadline=None)
@given(situation=_situations(), load=st.sampled_from(_LOADS), factor=st.floats(1.0, 4.0))
def test_more_load_never_improves_the_grade(
    rulebook: Rulebook, rule: str, situation: dict[str, Any], load: str, factor: float
) -> None:
    before = _outcome(rulebook, rule, situation)
    after = _outcome(rulebook, rule, {**situation, load: situation[load] * factor})
    assert after.grade <= before.grade
    assert after.demand >= before.demand * (1.0 - 1e-6)


@pytest.mark.parametrize("rule", list(_RULES))
@settings(max_examples=30, deadline=None)
@given(situation=_situations(face="upright"), factor=st.floats(1.0, 4.0))
def test_more_mass_on_an_upright_face_never_improves_the_grade(
    rulebook: Rulebook, rule: str, situation: dict[str, Any], factor: float
) -> None:
    before = _outcome(rulebook, rule, situation)
    after = _outcome(rulebook, rule, {**situation, "mass": situation["mass"] * factor})
    assert after.grade <= before.grade
    assert after.demand >= before.demand * (1.0 - 1e-6)


@pytest.mark.parametrize("rule", list(_RULES))
@settings(max_examples=30, deadline=None)
@given(situation=_situations())
def test_a_person_within_reach_never_improves_the_grade(
    rulebook: Rulebook, rule: str, situation: dict[str, Any]
) -> None:
    without = _outcome(rulebook, rule, {**situation, "reach": "false"})
    with_pull = _outcome(rulebook, rule, {**situation, "reach": "true"})
    assert with_pull.grade <= without.grade


# Twice the distance of a pair of brackets halves the couple: the demand goes down with it.
@pytest.mark.parametrize("rule", _PULLED)
@settings(max_examples=30, deadline=None)
@given(situation=_situations())
def test_brackets_further_apart_pull_less(
    rulebook: Rulebook, rule: str, situation: dict[str, Any]
) -> None:
    pair = {**situation, "carries": "one-of-two-brackets"}
    near = _outcome(rulebook, rule, pair)
    far = _outcome(rulebook, rule, {**pair, "spacing": situation["spacing"] * 2.0})
    assert far.demand <= near.demand * (1.0 + 1e-6)
    assert far.grade >= near.grade


# A group that carries nothing is not asked, whatever else is stated or left out.
@pytest.mark.parametrize("rule", list(_RULES))
def test_a_group_that_carries_nothing_is_not_asked(rulebook: Rulebook, rule: str) -> None:
    text = "job: {stage: plan}\nmount: {kind: wall-bracket, fixings: [{at: clip, carries: nothing-of-the-unit}]}\n"
    found = check(rulebook, bind(text.encode(), "description.yaml"))
    outcome = next(o for o in found if o.rule.name == rule)
    assert outcome.grade is Grade.NOT_APPLICABLE
