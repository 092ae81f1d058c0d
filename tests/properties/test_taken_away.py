"""A field taken away never turns a finding into met, and never makes a grave one go away.

Every stated field of every fixture and of every case of every rule, members of lists and
lists themselves, one at a time. What stands in the lists below is allowed, each for its reason.
"""

from __future__ import annotations

from collections.abc import Iterable

import pytest
from case_installations import shipped
from moving import FIXTURES, answers, case_grounds, fixture, leaves, readers, without

from checker.checking.outcomes import check
from checker.grades import Grade
from checker.installation.binding import bind_node
from checker.installation.record import Installation
from checker.reading import read_yaml
from checker.rulebook.model import Rule

# The binder refuses a description without them.
_REQUIRED = ("job.stage", "mount.kind")
_STAGE_OF_DIRT = "where no change-out resistance is stated, a cautious multiple of the clean one stands for it, and the finding says that it is common practice"
_OTHER_DEMAND = (
    "without the machine maker's own figure the flow asked for is what the openings need"
)
_SIDE = "a part whose side of the unit is not stated is held against the rule of either side; this one does not break it"
_ALL_OF_THE_FLOW = (
    "a part that states no share carries the whole flow: there is no branch before it"
)
_TWO_FIGURES = "two figures for one thing contradict each other; with one of them left there is nothing to contradict"
_TEST_ASKED_ELSEWHERE = "a smoke test that failed; handover/smoke-proof asks for one that was passed, and is confirm without it"
_OPTIONAL_PART = "a part that is there only if it is stated: nothing stands in its place"
_ORDERED = (
    "of what is not ordered nothing can be short: the rule answers for the order, not for the store"
)

# Rule and field: taken away, a finding that was not met is met.
MET_WITHOUT: dict[tuple[str, str], str] = {
    ("airflow/air-changes", "collector.filters[].change_differential"): _STAGE_OF_DIRT,
    ("airflow/slack-hose-reserve", "collector.filters[].change_differential"): _STAGE_OF_DIRT,
    ("airflow/working-flow", "collector.filters[].change_differential"): _STAGE_OF_DIRT,
    ("airflow/air-density", "process.air_humidity"): "dry air is the heavier one: without humidity the density that is asked about is the higher",
    ("airflow/duct-velocity", "duct.parts[].flow_share"): _ALL_OF_THE_FLOW,
    ("airflow/dust-velocity", "duct.parts[].flow_share"): _ALL_OF_THE_FLOW,
    ("airflow/duct-velocity", "duct.parts[].side"): _SIDE,
    ("airflow/dust-velocity", "duct.parts[].side"): _SIDE,
    ("airflow/square-tee", "duct.parts[].side"): _SIDE,
    ("drainage/duct-laps", "duct.parts[].side"): _SIDE,
    ("drainage/duct-sag", "duct.parts[].side"): _SIDE,
    ("drainage/riser-drains-back", "duct.parts[].side"): _SIDE,
    ("drainage/riser-drains-back", "process.surface_tension"): "a usual oil stands for one whose surface tension nobody knows; the rule is advice",
    ("airflow/hood-pressure", "duct.hood.static_pressure"): "a reading that contradicts the computed flow; without it there is only the computed one",
    ("airflow/inward-velocity", "records.smoke.door_shut"): _TEST_ASKED_ELSEWHERE,
    ("airflow/slack-hose-reserve", "host.extraction_flow"): _OTHER_DEMAND,
    ("airflow/take-off-velocity", "host.extraction_flow"): _OTHER_DEMAND,
    ("airflow/working-flow", "host.extraction_flow"): _OTHER_DEMAND,
    ("electrical-protection/cable-capacity", "cable.other_factor"): "a further factor that a maker or a heat source imposes: without one there is none",
    ("electrical-protection/control-circuit", "protection.control.kind"): "a switch worked by hand has no control circuit; one whose kind is unknown is held against the rule",
    ("electrical-protection/disconnection", "protection.short_circuit.disconnecting_current"): "the standard's upper end of the curve stands for the maker's figure, and is the least favourable one that it allows",
    ("electrical-protection/starts-per-hour", "collector.motor.allowed_starts"): "the maker's own figure is below the usual one, which stands where he gives none",
    ("electrical-protection/tried-out", "records.electrical_tests.functional.interlock"): "there is no interlock, and yet one was tried: a contradiction that goes with the record",
    ("kit/bolt-length", "mount.fixings[].backing_thickness"): _OPTIONAL_PART,
    ("kit/bolt-length", "mount.fixings[].grip_length"): _TWO_FIGURES,
    ("kit/cable-length", "work.ordered"): _ORDERED,
    ("kit/trunking-length", "work.ordered"): _ORDERED,
    ("kit/hose-pieces", "duct.parts[].extended_length"): _TWO_FIGURES,
    ("kit/ordered-lengths", "duct.parts[].extended_length"): "a hose that is not pulled straight is as long as the way",
    ("kit/ordered-lengths", "work.ordered[].bore"): "a hose of no stated bore counts for the one thing it was ordered for",
    ("noise/survey", "surroundings.noise.with_unit"): "without the measured level the sum of the two stated ones stands for it",
    ("noise/unit-adds", "collector.noise.power_level"): "without the sound power the sound pressure stands for it",
    ("noise/unit-data", "collector.noise.power_level"): _TWO_FIGURES,
    ("noise/unit-data", "collector.noise.pressure_level"): _TWO_FIGURES,
}  # fmt: skip
_CROSS_CHECK = "a cross-check of a figure that is stated in two ways, or measured beside it: without one of them it has nothing to check"
# Rule and field: taken away, a stop or a correct does not apply any more.
GONE_WITHOUT: dict[tuple[str, str], str] = {
    ("airflow/stated-flow", "collector.flow"): _CROSS_CHECK,
    ("electrical-protection/cable-near-moving-parts", "cable.route.gap_to_moving_parts"): "the gap is stated where something moves near the cable; without it nothing is said to",
    ("exposure/mixed-exposure", "process.exposure.substances"): "further substances are listed where there are any; the mist itself has rules of its own",
    ("load/blind-hole-depth", "mount.fixings[].hole_depth"): "a depth is stated for a blind hole only: without one the hole goes right through, as the field says",
    ("sealing/aperture-bore", "seals.joints[].flange.spigot_bore"): _OPTIONAL_PART,
    ("airflow/bore-against-area", "duct.parts[].area"): _CROSS_CHECK,
    ("drainage/viscosity-against-grade", "process.liquid_viscosity"): _CROSS_CHECK,
    ("drainage/viscosity-against-grade", "process.viscosity_grade"): _CROSS_CHECK,
    ("electrical-protection/contactor-coil", "protection.contactor.coil_voltage"): "a contactor with a coil is there only if its coil is stated; electrical-protection/control-circuit asks what works it",
    ("kit/ordered-lengths", "work.ordered"): _ORDERED,
    ("kit/trunking-length", "cable.trunking_length"): _OPTIONAL_PART,
    ("noise/peak-level", "surroundings.noise.peak"): "peaks are measured only where there are any; the level over the day is asked for by noise/exposure-limit and its like",
    ("noise/peak-level-us", "surroundings.noise.peak"): "as noise/peak-level",
    ("sealing/aperture-edge-distance", "seals.joints[].flange.edge_distance"): _OPTIONAL_PART,
    ("sealing/duct-leakage-test", "seals.runs[].measured_leakage"): "a leakage test that was made; where none was, sealing asks for its class alone",
    ("sealing/gasket-swell", "seals.joints[].volume_swell"): "a figure of the material that few publish; the material itself is held against the oil by sealing/gasket-material and its like",
}  # fmt: skip
_RULES = {rule.name: rule for rule in shipped().rules}

Found = dict[tuple[str, str], set[str]]


def _take_away(
    installation: Installation, rules: Iterable[str] | None, met: Found, gone: Found
) -> int:
    """Every field taken away once; which rules then said met, or nothing; how many fields."""
    taken = 0
    before = {}
    for leaf in leaves(installation):
        names = readers(leaf) if rules is None else readers(leaf) & set(rules)
        if leaf.field.path in _REQUIRED or not names:
            continue
        for name in names - before.keys():
            before[name] = answers([_RULES[name]], installation)
        with without(leaf):
            after = answers([_RULES[name] for name in names], installation)
        taken += 1
        for (name, member), outcome in after.items():
            was = before[name].get((name, member))
            # Where the list itself is gone, the gravest of its members is what goes.
            grade = min(o.grade for o in before[name].values()) if was is None else was.grade
            if outcome.grade is Grade.MET and grade is not Grade.MET:
                met.setdefault((name, leaf.field.path), set()).add(grade.word)
            if outcome.grade is Grade.NOT_APPLICABLE and grade <= Grade.CORRECT:
                gone.setdefault((name, leaf.field.path), set()).add(grade.word)
    return taken


def _hold(met: Found, gone: Found) -> None:
    assert {k: v for k, v in met.items() if k not in MET_WITHOUT} == {}
    assert {k: v for k, v in gone.items() if k not in GONE_WITHOUT} == {}


@pytest.mark.parametrize("path", FIXTURES[:4], ids=lambda p: p.stem)
def test_of_a_main_fixture(path: object) -> None:
    met: Found = {}
    gone: Found = {}
    assert _take_away(fixture(path), None, met, gone) > 300  # type: ignore[arg-type]
    _hold(met, gone)


@pytest.mark.slow
def test_of_every_fixture_and_every_case() -> None:
    """What is listed as allowed does happen: an entry that nothing needs any more is taken out."""
    met: Found = {}
    gone: Found = {}
    taken = sum(_take_away(fixture(path), None, met, gone) for path in FIXTURES)
    for rule in shipped().rules:
        for _, installation in case_grounds(rule):
            taken += _take_away(installation, [rule.name], met, gone)
    print(f"{taken} fields taken away")
    assert taken > 50_000
    _hold(met, gone)
    assert set(MET_WITHOUT) - set(met) == set()
    assert set(GONE_WITHOUT) - set(gone) == set()


def test_an_unstated_slot_is_what_binding_leaves() -> None:
    """Taking a value out of its slot is the same as leaving its line out."""
    whole = "job: {stage: plan}\nmount: {kind: side-post}\nhost: {capacity: 90 kg}\ncollector: {mass: 42 kg, retained_liquid: 6 L}\n"
    layout = shipped().layout

    def bound(text: str) -> Installation:
        return Installation(
            bind_node(read_yaml(text.encode(), "a.yaml"), layout, "a.yaml"), "a.yaml", ""
        )

    installation = bound(whole)
    leaf = next(x for x in leaves(installation) if x.shown == "host.capacity")
    with without(leaf):
        taken = check(shipped(), installation)
    left_out = check(shipped(), bound(whole.replace("host: {capacity: 90 kg}\n", "")))
    assert [(o.rule.name, o.member, o.grade) for o in taken] == [
        (o.rule.name, o.member, o.grade) for o in left_out
    ]


def _names(rules: Iterable[Rule]) -> set[str]:
    return {rule.name for rule in rules}


def test_the_lists_name_rules_and_fields_that_there_are() -> None:
    for name, path in (*MET_WITHOUT, *GONE_WITHOUT):
        assert name in _names(shipped().rules)
        assert any(f.path == path for f in shipped().layout.walk()), path
