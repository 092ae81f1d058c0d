"""Members of a list whose lines are alike share a line of the fitting sheet."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from sheets import text_of

from checker.errors import Mistakes
from checker.installation.record import Installation
from checker.reporting.fitting_sheet import Sheet, sheet_for
from checker.rulebook.model import Rulebook

SHARED = """\
each: box in boxes
subject: box.name
working:
  twice: {formula: 2 * box.mass, unit: kg}
expect: {correct: box.mass > 0}
sheet:
  - {part: kit, sum: [twice], line: "{members} boxes {box.kind}, {twice}: {subject}."}
  - {part: set, if: box.mass > 0, line: "{subject} at {box.mass}."}
"""


def boxes(
    load: Callable[..., Rulebook],
    rule_text: Callable[[str], str],
    describe: Callable[[str], Installation],
    text: str,
) -> Sheet:
    rulebook = load({"families.yaml": "load: Load\n", "load/box.yaml": rule_text(SHARED)})
    return sheet_for(rulebook, describe(text))


def test_members_share_a_line_and_their_sums(
    load: Callable[..., Rulebook],
    rule_text: Callable[[str], str],
    describe: Callable[[str], Installation],
) -> None:
    sheet = boxes(load, rule_text, describe, "boxes: [{name: a, kind: open, mass: 1 kg}, {name: b, kind: shut, mass: 2 kg}, {name: c, kind: open, mass: 3.5 kg}]")  # fmt: skip
    assert text_of(sheet, "kit") == "2 boxes open, 9 kg: a and c.\n1 boxes shut, 4 kg: b."
    assert text_of(sheet, "set") == "a at 1 kg.\nb at 2 kg.\nc at 3.5 kg."


def test_a_member_that_lacks_a_figure_stands_alone(
    load: Callable[..., Rulebook],
    rule_text: Callable[[str], str],
    describe: Callable[[str], Installation],
) -> None:
    sheet = boxes(
        load,
        rule_text,
        describe,
        "boxes: [{name: a, kind: open, mass: 1 kg}, {name: b, kind: open}]",
    )
    assert text_of(sheet, "kit").splitlines() == [
        "1 boxes open, 2 kg: a.",
        "1 boxes open, ____: b. State boxes[1].mass.",
    ]
    assert "b at ____. State boxes[1].mass." in text_of(sheet, "set")


def test_a_list_that_is_not_stated_is_asked_for(
    load: Callable[..., Rulebook],
    rule_text: Callable[[str], str],
    describe: Callable[[str], Installation],
) -> None:
    sheet = boxes(load, rule_text, describe, "job: {stage: plan}")
    assert text_of(sheet, "kit") == "Shelf: State boxes."


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ('{part: kit, sum: [box.mass], line: "{subject}"}', "write {box.mass} in the line"),
        ('{part: kit, sum: [box.kind], line: "{box.kind}"}', "name a number"),
        ('{part: kit, sum: [nothing], line: "{subject} {nothing}"}', "stands for nothing"),
        ('{part: kit, line: "{member} boxes"}', "stands for nothing"),
    ],
)
def test_sums_that_cannot_be(
    load: Callable[..., Rulebook], rule_text: Callable[[str], str], line: str, said: str
) -> None:
    parts = SHARED.partition("sheet:")[0] + f"sheet:\n  - {line}\n"
    with pytest.raises(Mistakes) as refused:
        load({"families.yaml": "load: Load\n", "load/box.yaml": rule_text(parts)})
    assert said in str(refused.value)


def test_a_sum_needs_a_list(load: Callable[..., Rulebook], rule_text: Callable[[str], str]) -> None:
    parts = 'expect: {correct: shelf.mass > 0}\nsheet:\n  - {part: kit, sum: [shelf.mass], line: "{shelf.mass}"}\n'
    with pytest.raises(Mistakes) as refused:
        load({"families.yaml": "load: Load\n", "load/box.yaml": rule_text(parts)})
    assert "the rule needs 'each'" in str(refused.value)
