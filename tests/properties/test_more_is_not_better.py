"""More load never improves a grade, and less precision never does.

Each load is raised in the installation of every case of every rule of its family that reads
it. Where a rule may turn, it stands below with its reason. The careful search of the load
family over random rigs is in tests/rules/test_load_monotone.py.
"""

from __future__ import annotations

import random

import pytest
from case_installations import shipped
from moving import answers, case_grounds, leaves, put, readers

from checker.checking.outcomes import Values, check
from checker.checking.settling import Doubts
from checker.grades import Grade
from checker.rulebook.cases import only

_RULES = {rule.name: rule for rule in shipped().rules}

# Family: what is a load there.
LOADS = {
    "load": (
        "collector.mass", "collector.retained_liquid", "collector.saturated_filter_mass", "collector.accessories_mass", "mount.bracket_mass", "mount.offset",
        "mount.pull_height", "duct.length_to_support", "duct.linear_mass", "duct.fittings_mass", "process.liquid_density", "mount.post.free_length", "lifting.hand.mass",
    ),
    "electrical-protection": (
        "cable.length", "cable.ambient", "cable.grouped_circuits", "collector.motor.ambient", "protection.starter.ambient", "protection.control.coil_current",
        "protection.interlock.load_current", "protection.machine_feed.machine_load", "supply.earth_loop.at_board",
    ),
    "airflow": ("host.extraction_flow", "collector.filters[].clean_differential", "duct.parts[].length", "duct.parts[].coefficient"),
}  # fmt: skip
_HOLDS_DOWN = "dry mass also holds a stand or a foot down: between two ends more of it is less pull"
_TURNS = "a frequency comes nearer to that of the fan from one side and leaves it on the other"
_TWO_ENDS = (
    "a flow has a least and a most: what raises a resistance lowers a flow that was too high"
)
_IN_TWO_WAYS = "a cross-check of one figure against another, which is no load"
EXCEPTIONS: dict[tuple[str, str], str] = {
    ("airflow/duct-loss", "host.extraction_flow"): "between laminar and turbulent flow there is no friction factor, and the rule asks; above it there is",
    ("airflow/duct-velocity", "collector.filters[].clean_differential"): _TWO_ENDS,
    ("airflow/duct-velocity", "duct.parts[].length"): _TWO_ENDS,
    ("airflow/flow-from-hood", "collector.filters[].clean_differential"): _IN_TWO_WAYS,
    ("airflow/one-working-point", "collector.filters[].clean_differential"): "a steeper system meets a fan curve with a dip in one point only",
    ("airflow/slack-hose", "duct.parts[].length"): "a longer way pulls a slack hose straight",
    ("airflow/unit-slip", "host.extraction_flow"): "a flow that is far too small for its bore was typed in another unit: more of it is usual",
    ("load/floor-anchor", "collector.mass"): _HOLDS_DOWN,
    ("load/floor-anchor-pull-out", "collector.mass"): _HOLDS_DOWN,
    ("load/floor-anchor-steel", "collector.mass"): _HOLDS_DOWN,
    ("load/floor-anchor-steel", "mount.post.free_length"): _HOLDS_DOWN,
    ("load/joint-stays-closed", "collector.mass"): _HOLDS_DOWN,
    ("load/joint-stays-closed", "mount.bracket_mass"): _HOLDS_DOWN,
    ("load/panel-pull-through", "mount.post.free_length"): _HOLDS_DOWN,
    ("load/thread-stripping", "mount.post.free_length"): _HOLDS_DOWN,
    ("load/stand-overturning", "collector.mass"): _HOLDS_DOWN,
    ("load/stand-overturning", "mount.bracket_mass"): _HOLDS_DOWN,
    ("load/post-axis-reversals", "collector.mass"): _TURNS,
    ("load/post-axis-reversals", "mount.post.free_length"): _TURNS,
    ("load/post-blade-pass", "mount.post.free_length"): _TURNS,
    ("load/post-resonance", "collector.mass"): _TURNS,
    ("load/post-resonance", "mount.post.free_length"): _TURNS,
}  # fmt: skip
_FACTORS = (1.02, 1.3, 3.0)
# A temperature is no multiple of another: so much warmer instead.
_WARMER = 30.0


@pytest.mark.parametrize("family", LOADS)
def test_raising_a_load_improves_no_grade(family: str) -> None:
    improved: dict[tuple[str, str], str] = {}
    raised = 0
    for rule in shipped().rules:
        if rule.family != family:
            continue
        for case, installation in case_grounds(rule):
            before = None
            for leaf in leaves(installation):
                value = leaf.record.values[leaf.field.slot]
                if leaf.field.path not in LOADS[family] or rule.name not in readers(leaf):
                    continue
                before = before or answers([rule], installation)
                for factor in _FACTORS:
                    is_point = leaf.field.unit is not None and leaf.field.unit.kind == "temperature"
                    more = value + (factor - 1.0) * _WARMER if is_point else value * factor
                    with put(leaf, int(more) if leaf.field.type == "count" else more):
                        after = answers([rule], installation)
                    raised += 1
                    for key, outcome in after.items():
                        was = before[key]
                        if was.grade < outcome.grade and was.grade is not Grade.NOT_APPLICABLE:
                            improved[rule.name, leaf.field.path] = f"{case}: x {factor}: {was.grade.word} -> {outcome.grade.word}"  # fmt: skip
    print(f"{raised} loads raised")
    assert raised > 300
    assert {k: v for k, v in improved.items() if k not in EXCEPTIONS} == {}
    mine = {k for k in EXCEPTIONS if k[0].startswith(f"{family}/")}
    assert mine - set(improved) == set()


def test_every_load_is_a_field_that_a_rule_of_its_family_reads() -> None:
    for family, paths in LOADS.items():
        for path in paths:
            assert any(path in r.fields for r in shipped().rules if r.family == family), path


# --- tolerances ------------------------------------------------------------------

_SPREADS = (0.001, 0.01, 0.05, 0.2)


def _settled(rule_name: str, installation: object) -> dict[int | None, Grade]:
    whole = shipped()
    rule = _RULES[rule_name]
    values = Values(whole, installation.record.values)  # type: ignore[attr-defined]
    doubts = Doubts(installation, values)  # type: ignore[arg-type]
    return {
        o.member: doubts.settle(o).grade for o in check(only(rule, whole), installation, values)
    }  # type: ignore[arg-type]


@pytest.mark.slow
@pytest.mark.parametrize("family", sorted({rule.family for rule in shipped().rules}))
def test_a_wider_tolerance_improves_no_grade(family: str) -> None:
    """One measured value with a wider and wider tolerance, on one case of each grade of each rule."""
    chance = random.Random(family)
    widened = 0
    for rule in shipped().rules:
        if rule.family != family:
            continue
        for case, installation in list(case_grounds(rule))[:6]:
            able = [
                leaf for leaf in leaves(installation)
                if rule.name in readers(leaf) and leaf.field.type == "quantity" and leaf.field.unit is not None
                and leaf.field.unit.kind not in ("temperature", "level") and leaf.record.values[leaf.field.slot]
            ]  # fmt: skip
            for leaf in chance.sample(able, min(2, len(able))):
                slot, record = leaf.field.slot, leaf.record
                value, fact = record.values[slot], record.facts[slot]
                assert fact is not None
                last = _settled(rule.name, installation)
                record.uncertain.append(slot)
                for spread in _SPREADS:
                    wide = abs(value) * spread
                    record.facts[slot] = fact._replace(low=value - wide, high=value + wide)
                    now = _settled(rule.name, installation)
                    widened += 1
                    for member, grade in now.items():
                        if last.get(member) is not Grade.NOT_APPLICABLE:
                            assert grade <= last[member], (rule.name, case, leaf.shown, spread, last[member].word, grade.word)  # fmt: skip
                    last = now
                record.facts[slot] = fact
                record.uncertain.remove(slot)
    print(f"{widened} tolerances widened")
    assert widened > 10


# --- runs of cable ---------------------------------------------------------------


def test_a_longer_cable_never_drops_less() -> None:
    """The drop itself, not only its grade: every metre added adds to it."""
    seen = 0
    for name in (n for n in _RULES if "voltage-drop" in n):
        for _, installation in case_grounds(_RULES[name]):
            for leaf in leaves(installation):
                if leaf.field.path != "cable.length" or name not in readers(leaf):
                    continue
                drops = []
                for metres in (0.5, 1.0, 2.0, 7.5, 8.0, 30.0, 100.0):
                    with put(leaf, metres):
                        drops.append(answers([_RULES[name]], installation)[name, None].demand)
                stated = [d for d in drops if d is not None]
                assert stated == sorted(stated), (name, drops)
                seen += len(stated) > 1
    assert seen > 3
