"""The worst case inside the tolerances: what it is, and what finding it costs."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from itertools import product
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.checking.outcomes import Outcome, Values, check, outcome_of
from checker.checking.tolerances import Tolerances, WorstCase, rank
from checker.grades import Grade
from checker.installation.binding import bind_node
from checker.installation.fields import Layout
from checker.installation.record import Installation
from checker.installation.schema import layout_from
from checker.reading import read_yaml
from checker.rulebook.loading import load_rulebook
from checker.rulebook.model import Rulebook

Load = Callable[[dict[str, str]], Rulebook]
RuleText = Callable[[str], str]

BASIS = "basis: [{source: statics, clause: c, confidence: checked}]\n"
SMALL = Path(__file__).parents[1] / "data" / "small"
SUM = f"title: D\nresult: {{formula: sum(b.mass for b in boxes), unit: kg}}\n{BASIS}"
DOUBLE = f"title: D\nresult: {{formula: derived.all * 2, unit: kg}}\n{BASIS}"
ONE = "compare: {demand: derived.double, limit: shelf.capacity, unit: kg}\nexpect: {correct: demand <= limit}"
OTHER = "compare: {demand: derived.double * 3, limit: shelf.capacity, unit: kg}\nexpect: {advise: demand <= limit}"


@cache
def layout() -> Layout:
    """The small layout with room for many boxes."""
    made = layout_from(SMALL / "schemas" / "installation.schema.json")
    listed = made.leaf("boxes")
    assert listed is not None
    listed.most = 200
    return made


def describe(text: str) -> Installation:
    data = f"job: {{stage: plan}}\nmount: {{kind: side-post}}\n{text}\n".encode()
    return Installation(
        bind_node(read_yaml(data, "shelf.yaml"), layout(), "shelf.yaml"), "shelf.yaml", "0" * 64
    )


@pytest.fixture
def load(rules_in: Callable[[dict[str, str]], Path]) -> Load:
    return lambda files: load_rulebook([rules_in(files)], shipped=False, layout=layout())


def boxes(number: int) -> str:
    listed = ", ".join(f"{{name: b{i}, mass: 2 kg ± 0.1 kg}}" for i in range(number))
    return f"boxes: [{listed}]\n"


def worst_cases(book: Rulebook, installation: Installation) -> tuple[list[WorstCase], int]:
    """The worst case of each outcome that has one, and how many formulas were run for them."""
    values = Values(book, installation.record.values)
    outcomes = check(book, installation, values)
    tolerances = Tolerances(installation, values)
    stated = [list(record.values) for record in installation.every_record()]
    found = [worst for o in outcomes if (worst := tolerances.worst_case(o)) is not None]
    assert [list(record.values) for record in installation.every_record()] == stated
    return found, tolerances.runs


# --- the cost ----------------------------------------------------------------------


@pytest.mark.parametrize("number", [7, 20, 60])
def test_two_rules_on_one_derived_value_work_it_out_once(
    load: Load, rule_text: RuleText, number: int
) -> None:
    """Twenty points a field for each formula, however many rules rest on it: no more."""
    files = {"derived/all.yaml": SUM, "derived/double.yaml": DOUBLE}
    rules = {"load/one.yaml": rule_text(ONE), "load/other.yaml": rule_text(OTHER)}
    text = f"shelf: {{capacity: 9000 kg}}\n{boxes(number)}"
    found, runs = worst_cases(load({**files, **rules}), describe(text))
    formulas = len(files) + len(rules)
    assert [w.outcome.demand for w in found] == pytest.approx([4.2 * number, 12.6 * number])
    assert runs <= formulas * (20 * number + 4)


def test_no_field_is_looked_along_that_the_rule_does_not_read(
    load: Load, rule_text: RuleText
) -> None:
    parts = "compare: {demand: shelf.mass if shelf.mass > shelf.capacity / 100 else sum(b.mass for b in boxes), limit: shelf.capacity, unit: kg}\nexpect: {correct: demand <= limit}"
    book = load({"load/shelf.yaml": rule_text(parts)})
    runs = [
        worst_cases(book, describe(f"shelf: {{mass: 20 kg ± 1 kg, capacity: 30 kg}}\n{boxes(n)}"))[
            1
        ]
        for n in (7, 60)
    ]
    assert runs[0] == runs[1] <= 30


# --- what is found -----------------------------------------------------------------


def test_a_field_that_is_read_in_a_corner_only_is_looked_along_there(
    load: Load, rule_text: RuleText
) -> None:
    """As stated the boxes are not read; where the pull is less they decide."""
    parts = (
        "compare: {demand: sum(b.mass for b in boxes) if shelf.pull / standard_gravity < shelf.mass else shelf.mass / 2, limit: shelf.capacity, unit: kg}\n"
        "expect: {correct: demand <= limit}"
    )
    book = load({"load/shelf.yaml": rule_text(parts)})
    text = f"shelf: {{mass: 10 kg, pull: 100 N ± 5 N, capacity: 16.7 kg}}\n{boxes(8)}"
    (found,), _ = worst_cases(book, describe(text))
    assert found.outcome.grade is Grade.CORRECT
    assert found.outcome.demand == pytest.approx(8 * 2.1, abs=1e-9)
    assert found.tighten == "shelf.pull"


PEAKED = """\
parameters:
  peak: {{value: {peak} kg, why: w, basis: {{source: statics, clause: c, confidence: checked}}}}
compare: {{demand: shelf.capacity - abs(shelf.mass - peak), limit: shelf.capacity, unit: kg}}
expect: {{correct: demand <= limit}}
"""


@pytest.mark.parametrize(
    "peak", [19, 19.11, 19.15, 19.21, 19.3, 20, 20.4, 20.6, 20.79, 20.85, 20.89, 21]
)
def test_a_rule_that_turns_inside_a_band_is_followed_to_where_it_turns(
    load: Load, rule_text: RuleText, peak: float
) -> None:
    """The nearer to an end it turns, the more it looks as if the end were the worst."""
    book = load({"load/shelf.yaml": rule_text(PEAKED.format(peak=peak))})
    text = "shelf: {mass: 20 kg ± 1 kg, capacity: 100 kg}"
    (found,), _ = worst_cases(book, describe(text))
    assert found.outcome.demand == pytest.approx(100, abs=1e-9)


@pytest.mark.parametrize(
    ("formula", "files"),
    [
        ("max(other.mass for other in boxes)", {}),
        (
            "derived.most",
            {
                "derived/most.yaml": f"title: D\nresult: {{formula: max(b.mass for b in boxes), unit: kg}}\n{BASIS}"
            },
        ),
    ],
)
def test_the_tolerance_of_another_member_counts_where_the_rule_reads_it(
    load: Load, rule_text: RuleText, formula: str, files: dict[str, str]
) -> None:
    """The heaviest box decides, whichever member is asked."""
    parts = f"each: box in boxes\ncompare: {{demand: {formula} - box.mass, limit: shelf.capacity, unit: kg}}\nexpect: {{correct: demand <= limit}}"
    book = load({"load/shelf.yaml": rule_text(parts), **files})
    text = "shelf: {capacity: 6 kg}\nboxes: [{name: a, mass: 5 kg}, {name: b, mass: 10 kg ± 2 kg}]"
    found, _ = worst_cases(book, describe(text))
    assert [w.outcome.grade for w in found] == [Grade.CORRECT, Grade.MET]
    assert found[0].tighten == "boxes[1].mass"


@pytest.fixture(scope="session")
def turning(tmp_path_factory: pytest.TempPathFactory) -> Rulebook:
    """Rules that read other fields at other points."""
    root = tmp_path_factory.mktemp("turning")
    heavy = "derived.all if derived.all > shelf.mass else shelf.pull / standard_gravity"
    compared = {
        "one": "compare: {demand: derived.heavy, limit: shelf.capacity, unit: kg}",
        "two": "compare: {demand: shelf.capacity, limit: derived.heavy, unit: kg}",
        "four": "compare: {demand: shelf.mass / 4 + derived.heavy, limit: shelf.capacity, unit: kg}",
        "three": "each: box in boxes\ncompare: {demand: box.mass * 3, limit: derived.heavy, unit: kg}",
    }
    files = {
        "sources/s.yaml": "statics: {title: S, publisher: P}\n",
        "derived/all.yaml": SUM,
        "derived/heavy.yaml": f"title: D\nresult: {{formula: {heavy}, unit: kg}}\n{BASIS}",
    }
    for name, parts in compared.items():
        files[f"load/{name}.yaml"] = (
            f"title: T\nprotects: P\n{parts}\nexpect: {{correct: demand <= limit}}\n"
            f"says: {{correct: c, met: m}}\n{BASIS}caution: c\ncases: [{{name: a, grade: met}}]\n"
        )
    for name, text in files.items():
        (root / name).parent.mkdir(exist_ok=True)
        (root / name).write_text(text)
    return load_rulebook([root], shipped=False, layout=layout())


def test_all_values_are_put_back_wherever_the_search_ends(load: Load, rule_text: RuleText) -> None:
    """The worst is inside the band of the first field, and the second is looked along from there."""
    parts = PEAKED.format(peak=20.4).replace(
        "limit: shelf.capacity", "limit: shelf.pull / standard_gravity"
    )
    text = "shelf: {mass: 20 kg ± 1 kg, capacity: 100 kg, pull: 990 N ± 1 N}"
    (found,), _ = worst_cases(load({"load/shelf.yaml": rule_text(parts)}), describe(text))
    assert found.outcome.demand == pytest.approx(100, abs=1e-9)


@given(
    st.lists(st.tuples(st.integers(1, 40), st.integers(1, 9)), min_size=1, max_size=3),
    st.integers(5, 60),
)
def test_what_was_worked_out_before_is_what_would_be_found_afresh(
    turning: Rulebook, masses: list[tuple[int, int]], capacity: int
) -> None:
    """Rules that read other fields at other points: asked together, one by one, and at each corner."""
    listed = ", ".join(
        f"{{name: b{i}, mass: {m} kg ± {s / 10} kg}}" for i, (m, s) in enumerate(masses)
    )
    text = f"shelf: {{mass: 20 kg ± 3 kg, capacity: {capacity} kg ± 1 kg, pull: 200 N ± 30 N}}\nboxes: [{listed}]"
    installation = describe(text)
    together, _ = worst_cases(turning, installation)
    values = Values(turning, installation.record.values)
    asked = check(turning, installation, values)
    alone = [Tolerances(installation, values).worst_case(outcome) for outcome in asked]
    assert together == alone
    for outcome, worst in zip(asked, together, strict=True):
        assert rank(worst.outcome) <= min(ranks_at_corners(turning, installation, outcome))


def ranks_at_corners(
    rulebook: Rulebook, installation: Installation, outcome: Outcome
) -> list[tuple[float, float]]:
    """How bad a rule's answer is at every corner of all tolerances, nothing kept."""
    bands = [
        (record.values, slot, fact)
        for record in installation.every_record()
        for slot in record.uncertain
        if (fact := record.facts[slot]) is not None
    ]
    stated = [values[slot] for values, slot, _ in bands]
    ranks = []
    for corner in product(*((fact.low, fact.high) for _, _, fact in bands)):
        for (values, slot, _), value in zip(bands, corner, strict=True):
            values[slot] = value
        there = Values(rulebook, installation.record.values)
        ranks.append(rank(outcome_of(outcome.rule, there, outcome.member)))
    for (values, slot, _), value in zip(bands, stated, strict=True):
        values[slot] = value
    return ranks
