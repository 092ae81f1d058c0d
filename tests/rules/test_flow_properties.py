"""Properties of the airflow and drainage rules as shipped, on whole descriptions.

Each says in what direction an answer may move: a longer duct never moves more air, a colder
oil never runs faster. A rule whose formula broke one of these would be believed all the same.
"""

from __future__ import annotations

import copy
from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from checker.absent import Absent, OutOfReach
from checker.checking.outcomes import Outcome, Values, check
from checker.grades import Grade
from checker.installation.binding import bind
from checker.rulebook.loading import load_rulebook
from checker.rulebook.model import Rulebook

_DESCRIPTION = """\
job: {{stage: plan}}
mount: {{kind: side-post}}
host:
  extraction_flow: {wanted} m3/h
  enclosure:
    volume: 2 m3
    aperture: {bore}
    take_off_area: 1200 cm2
    door_delay: 30 s
    openings:
      - {{name: door seam, width: {seam}, length: {door}, sprayed: false}}
      - {{name: conveyor, width: {slot}, length: {slot}, sprayed: true, baffled: true}}
process:
  fluid: {fluid}
  air_temperature: {warm} degC
  liquid_density: 870 kg/m3
  liquid_viscosity: {oil} cSt
  liquid_viscosity_at: 40 degC
  second_viscosity: {thin} cSt
  second_viscosity_at: 100 degC
  cold_viscosity: 3 cSt
surroundings: {{altitude: {altitude}, coldest_temperature: {cold} degC}}
supply: {{frequency: {supply} Hz}}
duct:
  diameter: {bore}
  carries_dust: false
  parts:
    - {{name: entry, kind: entry, diameter: {bore}, entry: flanged}}
    - {{name: riser, kind: straight, diameter: {bore}, length: {length}, material: {wall}, level_start: {low}, level_end: {high}, drains_to: start, sag: {sag}, lap: none}}
    - {{name: bend, kind: bend, diameter: {bore}, radius: {radius}, angle: 90 deg, build: smooth, next: other}}
    - {{name: hose, kind: flexible, diameter: {bore}, length: {hose}, extended_length: {tight}, material: fabric-hose, angle: 0 deg, level_start: {high}, level_end: {low}, drains_to: end, sag: {sag}, lap: none, support_spacing: {spacing}, strap_width: {strap}, squeezed: false, resists_oil: true, holds_suction: true}}
collector:
  inlet_diameter: {bore}
  inlet_shape: round
  free_air_flow: 2000 m3/h
  highest_frequency: 60 Hz
  curve_holds_for: bare-fan
  curve_density: 1.2 kg/m3
  curve_frequency: 50 Hz
  motor: {{drive: direct-on-line}}
  filters:
    - {{name: mesh, kind: separator, clean_differential: 40 Pa, rated_flow: 800 m3/h}}
    - {{name: main, kind: main-filter, clean_differential: {clean} Pa, change_differential: {dirty} Pa, rated_flow: 800 m3/h}}
  fan_curve:
    - {{flow: {f0} m3/h, pressure: {p0} Pa}}
    - {{flow: 500 m3/h, pressure: {p1} Pa}}
    - {{flow: 1000 m3/h, pressure: {p2} Pa}}
    - {{flow: 1500 m3/h, pressure: {p3} Pa}}
    - {{flow: 2000 m3/h, pressure: 0 Pa}}
drain:
  port_side: suction
  port_height: {port}
  peak_rate: {peak} L/h
  collected_rate: 0.1 L/h
  destination: own-sump
  fines_kept_back: true
  return_agreed: true
  outlet_level: {outlet}
  liquid_level: {liquid}
  vented: false
  segments:
    - {{name: trap, kind: trap, bore: {pipe}, length: {trap}, end_level: {start}, seal_depth: {trap}, fillable: true}}
    - {{name: hose, kind: hose, bore: {pipe}, length: {run}, start_level: {start}, end_level: {end}, lowest_level: {lowest}, highest_level: {highest}}}
"""
# Lengths are counted in tenths of an inch, 2.54 mm, so that both spellings are exact.
_REFERENCE: dict[str, Any] = {
    "wanted": 600, "bore": 60, "seam": 1, "door": 1200, "slot": 130, "fluid": "neat-oil", "warm": 30, "oil": 46.0, "thin": 6.8,
    "altitude": 4000, "cold": 5, "supply": 50, "length": 1200, "wall": "spiral-steel", "low": 600, "high": 1000, "sag": 0,
    "radius": 90, "hose": 400, "tight": 405, "spacing": 600, "strap": 15, "clean": 150.0, "dirty": 450.0,
    "f0": 0, "p0": 1400.0, "p1": 1300.0, "p2": 1000.0, "p3": 600.0, "port": 600, "peak": 1.0, "outlet": 260, "liquid": 240, "pipe": 10,
    "trap": 120, "run": 400, "start": 480, "end": 260, "lowest": 260, "highest": 480,
}  # fmt: skip
_LENGTHS = (
    "bore", "seam", "door", "slot", "altitude", "length", "low", "high", "sag", "radius", "hose", "tight", "spacing", "strap",
    "port", "outlet", "liquid", "pipe", "trap", "run", "start", "end", "lowest", "highest",
)  # fmt: skip


@pytest.fixture(scope="module")
def rulebook() -> Rulebook:
    """The shipped rulebook, cut down to the families spoken of here."""
    whole = load_rulebook()
    cut = copy.copy(whole)
    cut.rules = tuple(r for r in whole.rules if r.family in ("airflow", "drainage"))
    assert cut.rules
    return cut


def _text(values: dict[str, Any], *, inches: bool = False) -> bytes:
    shown = dict(values)
    for name in _LENGTHS:
        tenths = values[name]
        shown[name] = f"{tenths / 10:.4f} in" if inches else f"{tenths * 2.54:.4f} mm"
    for name, value in shown.items():
        if isinstance(value, float):
            shown[name] = f"{value:.4f}"
    return _DESCRIPTION.format(**shown).encode()


def _outcomes(rulebook: Rulebook, values: dict[str, Any], **how: bool) -> list[Outcome]:
    return check(rulebook, bind(_text(values, **how), "description.yaml"))


def _outcome(rulebook: Rulebook, rule: str, values: dict[str, Any], member: int | None) -> Outcome:
    cut = copy.copy(rulebook)
    cut.rules = tuple(r for r in rulebook.rules if r.name == rule)
    return next(o for o in _outcomes(cut, values) if o.member == member)


def _derived(rulebook: Rulebook, name: str, values: dict[str, Any]) -> Any:
    order: dict[int, None] = {}

    def visit(one: str) -> None:
        for inner in rulebook.derived[one].uses.derived:
            visit(inner)
        order[rulebook.derived[one].index] = None

    visit(name)
    found = Values(rulebook, bind(_text(values), "description.yaml").record.values)
    found.work_out(tuple(order))
    return found.D[rulebook.derived[name].index]


def _numbers(rulebook: Rulebook, name: str, *situations: dict[str, Any]) -> list[float]:
    """A derived value in each situation; the example is dropped where one has none."""
    found = [_derived(rulebook, name, values) for values in situations]
    assume(not any(isinstance(value, Absent) for value in found))
    return [float(value) for value in found]


def _between(low: int, high: int) -> st.SearchStrategy[int]:
    return st.integers(low, high)


@st.composite
def _situations(draw: st.DrawFn) -> dict[str, Any]:
    drops = [draw(st.floats(50.0, 600.0)) for _ in range(4)]
    hose = draw(_between(20, 600))
    start, fall = draw(_between(200, 500)), draw(_between(1, 150))
    clean = draw(st.floats(20.0, 400.0))
    return {
        **_REFERENCE,
        "wanted": draw(_between(200, 1200)),
        "bore": draw(_between(45, 95)),
        "warm": draw(_between(5, 60)),
        "oil": draw(st.floats(10.0, 150.0)),
        "thin": draw(st.floats(2.5, 9.0)),
        "altitude": draw(_between(0, 40_000)),
        "cold": draw(_between(-5, 30)),
        "length": draw(_between(40, 4000)),
        "wall": draw(st.sampled_from(["galvanised-steel", "spiral-steel", "corrugated-steel", "plastic"])),
        "sag": draw(_between(0, 80)),
        "radius": draw(_between(50, 180)),
        "hose": hose,
        "tight": hose + draw(_between(0, max(hose // 4, 1))),
        "spacing": draw(_between(50, 1500)),
        "strap": draw(_between(0, 20)),
        "clean": clean,
        "dirty": clean + draw(st.floats(1.0, 600.0)),
        "p0": sum(drops),
        "p1": sum(drops[1:]),
        "p2": sum(drops[2:]),
        "p3": drops[3],
        "port": draw(_between(400, 900)),
        "peak": draw(st.floats(0.05, 20.0)),
        "outlet": draw(_between(20, 300)),
        "liquid": draw(_between(10, 300)),
        "pipe": draw(_between(4, 16)),
        "trap": draw(_between(10, 200)),
        "run": fall + draw(_between(1, 1000)),
        "start": start,
        "end": start - fall,
        "lowest": start - fall - draw(_between(0, 40)),
        "highest": start + draw(_between(0, 40)),
    }  # fmt: skip


_FLOWS = ("working_flow_clean", "working_flow_dirty", "working_flow_slack")
_MANY = settings(max_examples=50, deadline=None)


@pytest.mark.parametrize("flow", _FLOWS)
@_MANY
@given(situation=_situations(), more=st.integers(1, 2000), part=st.sampled_from(["length", "hose"]))
def test_more_length_never_gives_more_flow(
    rulebook: Rulebook, flow: str, situation: dict[str, Any], more: int, part: str
) -> None:
    longer = {**situation, part: situation[part] + more}
    if part == "hose":
        # As tight as before: the same compression over the greater length.
        longer["tight"] = situation["tight"] * longer["hose"] / situation["hose"]
    before, after = _numbers(rulebook, flow, situation, longer)
    assert after <= before * (1.0 + 1e-9)


@_MANY
@given(situation=_situations(), more=st.floats(0.0, 2000.0))
def test_dirtier_filters_never_give_more_flow(
    rulebook: Rulebook, situation: dict[str, Any], more: float
) -> None:
    dirtier = {**situation, "dirty": situation["dirty"] + more}
    before, after = _numbers(rulebook, "working_flow_dirty", situation, dirtier)
    assert after <= before * (1.0 + 1e-9)
    (clean,) = _numbers(rulebook, "working_flow_clean", situation)
    assert before <= clean * (1.0 + 1e-9)


@_MANY
@given(situation=_situations(), more=st.integers(1, 200))
def test_a_slacker_hose_never_gives_more_flow_nor_a_better_grade(
    rulebook: Rulebook, situation: dict[str, Any], more: int
) -> None:
    slacker = {**situation, "tight": situation["tight"] + more}
    before, after = _numbers(rulebook, "working_flow_dirty", situation, slacker)
    assert after <= before * (1.0 + 1e-9)
    grades = [_outcome(rulebook, "airflow/slack-hose", s, 3).grade for s in (situation, slacker)]
    assert grades[1] <= grades[0]


@_MANY
@given(situation=_situations(), wider=st.integers(1, 50))
def test_a_bigger_bore_never_loses_more_pressure(
    rulebook: Rulebook, situation: dict[str, Any], wider: int
) -> None:
    bigger = {**situation, "bore": situation["bore"] + wider}
    # A bend of the same shape: the radius in bores stays.
    bigger["radius"] = situation["radius"] * bigger["bore"] / situation["bore"]
    for name in ("duct_friction", "duct_hoses", "duct_bends", "duct_entries", "duct_loss"):
        before, after = _numbers(rulebook, name, situation, bigger)
        assert after <= before * (1.0 + 1e-9)


@_MANY
@given(situation=_situations(), slower=st.integers(46, 50))
def test_a_slower_fan_never_gives_more_flow(
    rulebook: Rulebook, situation: dict[str, Any], slower: int
) -> None:
    before, after = _numbers(
        rulebook, "working_flow_dirty", situation, {**situation, "supply": slower}
    )
    assert after <= before * (1.0 + 1e-9)


def _drains(outcome: Outcome) -> float:
    assume(outcome.limit is not None)
    return float(outcome.limit)


@_MANY
@given(situation=_situations(), colder=st.integers(0, 15))
def test_colder_never_drains_faster(
    rulebook: Rulebook, situation: dict[str, Any], colder: int
) -> None:
    cold = {**situation, "cold": situation["cold"] - colder}
    warm_outcome, cold_outcome = (
        _outcome(rulebook, "drainage/drain-capacity", s, 1) for s in (situation, cold)
    )
    assert _drains(cold_outcome) <= _drains(warm_outcome) * (1.0 + 1e-9)
    assert cold_outcome.grade <= warm_outcome.grade


@_MANY
@given(situation=_situations(), wider=st.integers(0, 10), longer=st.integers(0, 500))
def test_a_wider_drain_never_carries_less_and_a_longer_one_never_more(
    rulebook: Rulebook, situation: dict[str, Any], wider: int, longer: int
) -> None:
    rule = "drainage/drain-capacity"
    before = _drains(_outcome(rulebook, rule, situation, 1))
    wide = {**situation, "pipe": situation["pipe"] + wider}
    long = {**situation, "run": situation["run"] + longer}
    assert _drains(_outcome(rulebook, rule, wide, 1)) >= before * (1.0 - 1e-9)
    assert _drains(_outcome(rulebook, rule, long, 1)) <= before * (1.0 + 1e-9)


@_MANY
@given(situation=_situations(), more=st.floats(0.0, 2000.0))
def test_a_stronger_fan_never_makes_a_trap_better(
    rulebook: Rulebook, situation: dict[str, Any], more: float
) -> None:
    stronger = {**situation, "p0": situation["p0"] + more}
    for rule in ("drainage/trap-depth", "drainage/trap-below-port"):
        before, after = (_outcome(rulebook, rule, s, 0).grade for s in (situation, stronger))
        assert after <= before


@_MANY
@given(situation=_situations(), deeper=st.integers(0, 100))
def test_a_deeper_sag_is_never_graded_better(
    rulebook: Rulebook, situation: dict[str, Any], deeper: int
) -> None:
    for rule, member, field, sign in (
        ("drainage/duct-sag", 3, "sag", 1),
        ("drainage/hose-sag", 1, "lowest", -1),
        ("drainage/hose-rise", 1, "highest", 1),
    ):
        worse = {**situation, field: situation[field] + sign * deeper}
        before, after = (_outcome(rulebook, rule, s, member).grade for s in (situation, worse))
        assert after <= before


@_MANY
@given(situation=_situations())
def test_lengths_in_inches_leave_every_grade_unchanged(
    rulebook: Rulebook, situation: dict[str, Any]
) -> None:
    metric, inch = _outcomes(rulebook, situation), _outcomes(rulebook, situation, inches=True)
    assert [(o.rule.name, o.member, o.grade) for o in metric] == [
        (o.rule.name, o.member, o.grade) for o in inch
    ]
    assert {o.grade for o in metric} > {Grade.MET}


# What a plan must never get away with: the change to a sound plan, the rule that finds it, the
# member it names, the grade.
_FOUND = {
    "slack hose": ({"tight": 480}, "airflow/slack-hose", 3, Grade.CORRECT),
    "fine clean, short when dirty": ({"wanted": 880, "dirty": 900.0}, "airflow/working-flow", None, Grade.CORRECT),
    "short from the first day": ({"wanted": 1900}, "airflow/working-flow", None, Grade.STOP),
    "trap sized on the running pressure": ({"trap": 40}, "drainage/trap-depth", 0, Grade.STOP),
    "drain that works warm and not at 5 degC": ({"peak": 60.0, "oil": 68.0, "thin": 8.7}, "drainage/drain-capacity", 1, Grade.CORRECT),
    "sag in the duct hose": ({"sag": 12}, "drainage/duct-sag", 3, Grade.CORRECT),
    "sag in the drain hose": ({"lowest": 200}, "drainage/hose-sag", 1, Grade.CORRECT),
    "drain over a rise": ({"highest": 520}, "drainage/hose-rise", 1, Grade.STOP),
    "drain uphill": ({"start": 250, "highest": 260}, "drainage/drain-slope", 1, Grade.STOP),
    "flat drain": ({"end": 479, "lowest": 479}, "drainage/drain-slope", 1, Grade.CORRECT),
    "outlet under the liquid": ({"outlet": 230}, "drainage/air-gap", None, Grade.CORRECT),
    "flow and bore that do not belong together": ({"bore": 20, "radius": 30}, "airflow/unit-slip", 1, Grade.STOP),
    "a 50 Hz fan on 60 Hz and beyond": ({"supply": 65}, "airflow/fan-speed", None, Grade.STOP),
}  # fmt: skip


@pytest.mark.parametrize("defect", list(_FOUND))
def test_a_known_defect_is_found_by_its_rule(rulebook: Rulebook, defect: str) -> None:
    change, rule, member, grade = _FOUND[defect]
    assert _outcome(rulebook, rule, _REFERENCE, member).grade > grade
    assert _outcome(rulebook, rule, {**_REFERENCE, **change}, member).grade is grade


def test_the_cold_drain_works_warm(rulebook: Rulebook) -> None:
    values = {**_REFERENCE, "peak": 60.0, "oil": 68.0, "thin": 8.7, "cold": 30}
    assert _outcome(rulebook, "drainage/drain-capacity", values, 1).grade is Grade.MET


# ASTM D341 worked sheet, 32 and 5.4 mm2/s; the rest is arithmetic of the same formula with 273.15 K.
@pytest.mark.parametrize(
    ("oil", "thin", "cold", "expected"),
    [
        (32.0, 5.4, 10, 161.0),
        (32.0, 5.4, 20, 86.28),
        (46.0, 6.8, 5, 382.5),
        (46.0, 6.8, 10, 261.9),
        (46.0, 6.8, 20, 133.8),
        (68.0, 8.7, 20, 214.8),
    ],
)
def test_viscosity_at_the_coldest_temperature(
    rulebook: Rulebook, oil: float, thin: float, cold: int, expected: float
) -> None:
    values = {**_REFERENCE, "oil": oil, "thin": thin, "cold": cold}
    assert _derived(rulebook, "drain_viscosity", values) == pytest.approx(expected * 1e-6, rel=5e-4)


def test_two_working_points_are_both_named(rulebook: Rulebook) -> None:
    """A curve that rises and falls, given from the first flow that its maker measured."""
    values = {**_REFERENCE, "bore": 90, "radius": 180, "length": 10, "hose": 10, "tight": 10,
              "f0": 200, "p0": 50.0, "p1": 700.0, "p2": 650.0, "p3": 300.0, "clean": 500.0, "dirty": 510.0}  # fmt: skip
    found = _derived(rulebook, "working_flow_clean", values)
    assert isinstance(found, Absent)
    assert isinstance(found.why, OutOfReach)
    assert "meet 2 times" in found.why.reason
    assert found.why.reason.count("m3/s") == 2
    for rule in ("airflow/working-flow", "airflow/one-working-point"):
        assert _outcome(rulebook, rule, values, None).grade is Grade.CONFIRM
    why = _outcome(rulebook, "airflow/working-flow", values, None).why
    assert isinstance(why, OutOfReach)
    assert why.reason == found.why.reason


def test_a_velocity_of_a_wrong_unit_is_not_computed_with(rulebook: Rulebook) -> None:
    found = _derived(rulebook, "duct_loss", {**_REFERENCE, "bore": 9, "radius": 14})
    assert isinstance(found, Absent)
    assert isinstance(found.why, OutOfReach)
    assert "wrong unit" in found.why.reason


@pytest.mark.parametrize(
    ("formula", "viscosity", "words"),
    [
        ("manning_drain_flow(0.019, 0.02, 0.009, {})", "134 cSt", "Manning's formula holds for liquids as thin as water"),
        ("laminar_drain_flow(0.019, 0.02, {})", "1.1 cSt", "The laminar formula gives a Reynolds number"),
    ],
)  # fmt: skip
def test_a_formula_out_of_its_range_is_refused_and_confirms(
    tmp_path: Any, formula: str, viscosity: str, words: str
) -> None:
    """A company rule that calls it all the same gets a reason instead of a figure."""
    rule = f"""\
title: Drain by a formula for another liquid
protects: Nobody.
parameters:
  bore: {{value: 19 mm, basis: {{source: project, clause: test, confidence: common-practice}}, why: test}}
  nu: {{value: {viscosity}, basis: {{source: project, clause: test, confidence: common-practice}}, why: test}}
compare: {{demand: drain.peak_rate, limit: "{formula.format("nu").replace("0.019", "bore")}", unit: L/h}}
expect: {{advise: demand <= limit}}
says: {{advise: It is too small., met: It is enough.}}
basis: [{{source: project, clause: test, confidence: common-practice}}]
caution: None.
cases: [{{name: one, given: {{drain.peak_rate: 1 L/h}}, grade: confirm}}]
"""
    path = tmp_path / "own" / "wrong-formula.yaml"
    path.parent.mkdir()
    path.write_text(rule, encoding="utf-8")
    (tmp_path / "families.yaml").write_text("own: Own rules\n", encoding="utf-8")
    sources = tmp_path / "sources" / "own.yaml"
    sources.parent.mkdir()
    sources.write_text("project: {title: A test, publisher: Nobody}\n", encoding="utf-8")
    (outcome,) = _outcomes(load_rulebook([tmp_path], shipped=False), _REFERENCE)
    assert outcome.grade is Grade.CONFIRM
    assert isinstance(outcome.why, OutOfReach)
    assert words in outcome.why.reason


@pytest.mark.parametrize(
    "line",
    ["    - {name: riser, kind: straight", "  curve_holds_for:", "  curve_density:", "  curve_frequency:", "  motor:",
     "surroundings:", "supply:"],
)  # fmt: skip
def test_what_is_not_stated_is_never_taken_for_granted(rulebook: Rulebook, line: str) -> None:
    """The riser without its wall, or the line left out: the working point is then not known."""
    text = _text(_REFERENCE).decode()
    if line.lstrip().startswith("-"):
        text = text.replace("material: spiral-steel, ", "")
    else:
        text = "".join(row for row in text.splitlines(True) if not row.startswith(line))
    outcomes = check(rulebook, bind(text.encode(), "description.yaml"))
    found = next(o for o in outcomes if o.rule.name == "airflow/working-flow")
    assert found.grade is Grade.CONFIRM
