"""Which fields the rules can come to need, as the answers come in."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from checker.absent import Unstated
from checker.asking.starting import needs_of
from checker.checking.outcomes import check
from checker.checking.rule_reads import Memory
from checker.formulas.reaching import UNKNOWN
from checker.installation.binding import bind, bind_node
from checker.installation.fields import general_path
from checker.installation.record import Installation
from checker.reading import read_yaml
from checker.rulebook.model import Rulebook

FIXTURES = Path(__file__).parents[2] / "fixtures"

# --- the shipped rules, parts of descriptions ----------------------------------


@pytest.mark.parametrize("name", ["turning-cell-side-post", "milling-floor-stand-inch", "grinder-roof-plate"])  # fmt: skip
@settings(max_examples=4, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])  # fmt: skip
@given(data=st.data())
def test_what_a_part_of_a_description_lacks_is_among_its_needs(
    shipped: Rulebook, name: str, data: st.DataObject
) -> None:
    # However much has been answered, whatever the check then misses is still asked for.
    node = read_yaml((FIXTURES / f"{name}.yaml").read_bytes(), name)
    taken = data.draw(st.floats(0.02, 0.9))
    thinned = _thinned(node, data.draw(st.randoms(use_true_random=False)), taken)
    installation = Installation(bind_node(thinned, shipped.layout, name), name, "")
    needs = needs_of(shipped, installation)
    # What was remembered of quite another description changes nothing.
    assert needs_of(shipped, installation, MEMORY) == needs
    general = {general_path(path) for path in needs}
    for outcome in check(shipped, installation):
        if isinstance(outcome.why, Unstated):
            for path in outcome.why.paths:
                assert path in (general if "[]" in path else needs), outcome.rule.name


MEMORY = Memory()


def _thinned(node: Any, random: Any, taken: float, path: str = "") -> Any:
    value, mark = node
    if isinstance(value, dict) and "is" not in value:
        kept = {
            k: (m, _thinned(child, random, taken, f"{path}.{k}"))
            for k, (m, child) in value.items()
            if f"{path}.{k}" in (".job", ".mount", ".job.stage", ".mount.kind")
            or random.random() > taken
        }
        return kept, mark
    if isinstance(value, list):
        return [_thinned(child, random, taken, path) for child in value], mark
    return node


def test_an_answer_takes_away_what_it_makes_needless(shipped: Rulebook) -> None:
    def needs(lifting: str) -> set[str]:
        text = f"job: {{stage: plan}}\nmount: {{kind: side-post}}\nlifting: {{{lifting}}}\n"
        return set(needs_of(shipped, bind(text.encode(), "a.yaml")))

    by_hand, by_crane = needs("method: by-hand"), needs("method: crane")
    assert "surroundings.hoist.path_clear" in by_crane - by_hand
    assert "lifting.method" in by_hand & by_crane
    assert by_hand | by_crane <= needs("")


# --- the reasoning, on a rulebook of its own ------------------------------------


def _of(
    load: Callable[[dict[str, str]], Rulebook],
    rule_text: Callable[[str], str],
    parts: str,
    **given: str,
) -> dict[str, Any]:
    book = load({"load/one.yaml": rule_text(parts)})
    text = "job: {stage: plan}\nmount: {kind: side-post}\n" + given.get("text", "")
    node = read_yaml(text.encode(), "a.yaml")
    return needs_of(book, Installation(bind_node(node, book.layout, "a.yaml"), "a.yaml", ""))


PLAIN = "compare: {demand: %s, limit: shelf.capacity, unit: kg}\nexpect: {advise: demand <= limit}"


def test_a_branch_that_cannot_be_taken_is_not_read(load: Any, rule_text: Any) -> None:
    parts = PLAIN % "'shelf.mass if mount.kind == \"floor-stand\" else 2 * shelf.capacity'"
    assert "shelf.mass" not in _of(load, rule_text, parts)


def test_both_branches_are_read_where_the_condition_is_open(load: Any, rule_text: Any) -> None:
    parts = PLAIN % "'shelf.mass if shelf.locked else 2 * shelf.capacity'"
    assert {"shelf.mass", "shelf.locked"} <= set(_of(load, rule_text, parts))
    assert "shelf.mass" not in _of(load, rule_text, parts, text="shelf: {locked: false}\n")


def test_a_false_condition_drops_the_rule_wherever_it_stands(load: Any, rule_text: Any) -> None:
    parts = 'applies: shelf.locked and mount.kind == "floor-stand"\n' + PLAIN % "shelf.mass"
    found = _of(load, rule_text, parts)
    # The check still asks for what stands before the part that decides, and so does this.
    assert {p for p in found if p.startswith("shelf.")} == {"shelf.locked"}


def test_what_is_only_used_if_stated_may_be_left_out(load: Any, rule_text: Any) -> None:
    parts = PLAIN % "'shelf.mass if stated(shelf.mass) else shelf.capacity'"
    found = _of(load, rule_text, parts)
    assert found["shelf.mass"].may_be_left_out
    assert not found["shelf.capacity"].may_be_left_out


def test_a_rule_under_a_condition_says_so(load: Any, rule_text: Any) -> None:
    parts = 'applies: mount.kind == "side-post" and not shelf.locked\n' + PLAIN % "shelf.mass"
    found = _of(load, rule_text, parts)
    assert found["shelf.mass"].only_where == ("not shelf.locked",)
    assert found["shelf.locked"].only_where == ()


def test_members_are_told_apart(load: Any, rule_text: Any) -> None:
    parts = (
        "each: box in boxes\nsubject: box.name\napplies: box.mass > shelf.mass\n"
        + PLAIN % "box.mass"
    )
    text = "shelf: {mass: 5 kg}\nboxes: [{name: a, mass: 1 kg}, {name: b}]\n"
    found = _of(load, rule_text, parts, text=text)
    assert "boxes[0].mass" in found
    assert "boxes[1].mass" in found
    assert "shelf.capacity" in found
    # What decided against a rule stays a question, or its answer could never be changed.
    alone = _of(
        load, rule_text, parts, text="shelf: {mass: 5 kg}\nboxes: [{name: a, mass: 1 kg}]\n"
    )
    assert "shelf.capacity" not in alone
    assert "boxes[].mass" in _of(load, rule_text, parts)
    assert "shelf.capacity" not in _of(load, rule_text, parts, text="boxes: []\n")


def test_a_sum_over_a_list_reads_its_members(load: Any, rule_text: Any) -> None:
    parts = PLAIN % "sum(box.mass for box in boxes)"
    assert "boxes[].mass" in _of(load, rule_text, parts)
    assert "boxes[0].mass" in _of(load, rule_text, parts, text="boxes: [{name: a}]\n")


def test_an_unknown_value_is_no_answer() -> None:
    assert repr(UNKNOWN) == "UNKNOWN"
