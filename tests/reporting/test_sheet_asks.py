"""What a fitting sheet lacks is asked for, in place; nothing vanishes without a word."""

from __future__ import annotations

import re

import pytest
from sheets import EMPTY, TURNING, drawn, entries, sheet_of, text_of, turning

from checker.installation.binding import bind
from checker.output.sheet import render_text
from checker.reporting.fitting_sheet import PARTS


def test_an_empty_description_asks_in_every_part() -> None:
    sheet = sheet_of(EMPTY)
    asking = {part for part, entry in entries(sheet) if entry.asks}
    # Who signs and what is asked at handover stands whatever is stated.
    assert asking >= set(PARTS) - {"sign"}
    layout = bind(EMPTY, "empty.yaml").record.layout
    for _, entry in entries(sheet):
        assert entry.complete is not bool(entry.asks)
        for path in entry.asks:
            assert layout.by_path.get(path) is not None, path
            assert entry.text.count("State ") == 1


def test_a_missing_torque_is_asked_of_its_own_group() -> None:
    description = turning()
    del description["mount"]["fixings"][0]["torque"]
    sheet = sheet_of(description)
    asked = [e for part, e in entries(sheet) if part == "tighten" and e.asks]
    assert [e.asks for e in asked] == [("mount.fixings[0].torque",)]
    assert asked[0].text.startswith("M12 8.8: ____ by torque wrench")
    # The other group of the same size keeps its own line.
    assert "M12 8.8: 70 N·m by torque wrench" in text_of(sheet, "tighten")


def test_an_unknown_condition_is_asked_for_too() -> None:
    description = turning()
    del description["mount"]["fixings"][2]["kind"]
    drill = [e for part, e in entries(sheet_of(description)) if part == "drill" and e.asks]
    assert {e.rule for e in drill} >= {"load/hole-size", "load/tapping-drill"}
    assert all(e.asks[0] == "mount.fixings[2].kind" for e in drill)


STATED = re.compile(r"stated\(")


@pytest.mark.parametrize(
    "path",
    ["mount.fixings", "mount.post", "duct", "drain", "cable", "gauge", "lifting", "seals", "work", "collector.motor", "collector.filters"],
)  # fmt: skip
def test_no_line_vanishes_with_its_figures(path: str) -> None:
    full, _, rulebook = drawn(TURNING)
    description = turning()
    section = description
    *above, last = path.split(".")
    for name in above:
        section = section[name]
    del section[last]
    left = {(part, entry.rule) for part, entry in entries(sheet_of(description))}
    for part, entry in entries(full):
        rule = rulebook.rule(entry.rule)
        assert rule is not None
        texts = [rule.applies.text if rule.applies else ""]
        texts += [c.text for line in rule.sheet if (c := line.condition) is not None]
        if not any(STATED.search(text) for text in texts):
            assert (part, entry.rule) in left, entry


def test_what_a_rule_refuses_is_marked() -> None:
    description = turning()
    description["mount"]["fixings"][0]["torque"] = "120 N*m"
    sheet = sheet_of(description)
    wrong = [e for part, e in entries(sheet) if part == "tighten" and e.grade]
    assert [(e.grade, e.members) for e in wrong] == [("correct", (0,))]
    text = " ".join(render_text(sheet).split())
    assert re.search(r"\[!\] M12 8\.8: 120 N·m .*?\(\d+\*?: correct\)", text)


def test_a_plan_has_what_only_the_finished_work_can_show() -> None:
    plan, _, rulebook = drawn(TURNING)
    later = [e for _, e in entries(plan) if rulebook.rule(e.rule).stages == ("fitted",)]  # type: ignore[union-attr]
    assert {"handover/smoke-proof", "electrical-protection/insulation-resistance"} <= {
        e.rule for e in later
    }
    # A test sheet that nobody has written yet is no field that the plan lacks.
    assert not any(path.startswith("records.") for e in later for path in e.asks)
