"""A rulebook from its folders: what is refused, with file, line and column, and what is built."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from checker.errors import Mistake, Mistakes
from checker.installation.fields import Layout
from checker.rulebook.loading import load_rulebook
from checker.rulebook.model import Rulebook

Load = Callable[[dict[str, str]], Rulebook]
RuleText = Callable[[str], str]

SMALL = Path(__file__).parents[1] / "data" / "small" / "rules"

COMPARE = "compare: {demand: shelf.mass, limit: shelf.capacity}\nexpect: {stop: demand <= limit}"


def mistakes_in(load: Load, files: dict[str, str]) -> tuple[Mistake, ...]:
    with pytest.raises(Mistakes) as caught:
        load(files)
    return caught.value.mistakes


# --- rules: name, the parts from line 3 on, what is said, line, column -----------

EXPECT = "expect: {correct: shelf.mass <= shelf.capacity}"

RULES = [
    # The four planted unit errors.
    ("kilograms and metres added", "working:\n  x: {formula: shelf.mass + shelf.reach, unit: kg}\n" + EXPECT, "adds two different dimensions: mass (kg) and length (m)", 4, 29),
    ("pascals compared with newtons", "expect:\n  correct: shelf.stress <= shelf.pull", "compares two different things: pressure or stress (kg/(m·s2)) and force (kg·m/s2)", 4, 28),
    ("the root of an odd power", "working:\n  x: {formula: sqrt(shelf.reach), unit: m}\n" + EXPECT, "a root of length (m) has no dimension", 4, 16),
    ("a declared unit that is not the formula's", "working:\n  x: {formula: shelf.mass * 2, unit: N}\n" + EXPECT, "'x' is not in its unit", 4, 38),
    # Structure.
    ("an unknown entry", EXPECT + "\nexspect: {}", "unknown entry 'exspect' in the file", 4, 1),
    ("an unknown grade", "expect: {halt: shelf.locked}", "unknown entry 'halt' in expect", 3, 10),
    ("nothing expected", "expect: {}", "expect", 3, 9),
    ("a list where a group belongs", "expect: []", "expect is not what is wanted here", 3, 9),
    ("a stage that does not exist", "stages: [planned]\n" + EXPECT, "stages.0 has no such choice", 3, 10),
    ("a line without its formula", "working:\n  x: {unit: kg}\n" + EXPECT, "'formula' is missing in working.x", 4, 6),
    ("a name with a stroke", "working:\n  x-y: {formula: shelf.mass, unit: kg}\n" + EXPECT, "'x-y' cannot be a name in working", 4, 3),
    ("a name in capitals", "working:\n  X: {formula: shelf.mass, unit: kg}\n" + EXPECT, "'X' cannot be a name in working", 4, 3),
    ("a name with code in it", "working:\n  'x=1;print(9);y': {formula: shelf.mass, unit: kg}\n" + EXPECT, "cannot be a name in working", 4, 3),
    ("a name with a line end in it", "working:\n  \"x\\n\": {formula: shelf.mass, unit: kg}\n" + EXPECT, "cannot be a name in working", 4, 3),
    ("a parameter's name with code in it", "parameters:\n  'x y': {value: 1, why: w, basis: {source: statics, clause: c, confidence: checked}}\n" + EXPECT, "cannot be a name in parameters", 4, 3),
    ("a line called as a section", "working:\n  shelf: {formula: shelf.mass, unit: kg}\n" + EXPECT, "the name 'shelf' is taken", 4, 10),
    ("a line called as a constant", "working:\n  pi: {formula: shelf.mass, unit: kg}\n" + EXPECT, "the name 'pi' is taken", 4, 7),
    ("a line called demand", "working:\n  demand: {formula: shelf.mass, unit: kg}\n" + EXPECT, "the name 'demand' is taken", 4, 11),
    ("a line called as a parameter", "parameters:\n  x: {value: 1, why: w, basis: {source: statics, clause: c, confidence: checked}}\nworking:\n  x: {formula: shelf.mass, unit: kg}\n" + EXPECT, "the name 'x' is taken", 6, 6),
    ("a line used before it stands", "working:\n  x: {formula: y, unit: kg}\n  y: {formula: shelf.mass, unit: kg}\n" + EXPECT, "unknown name 'y'", 4, 16),
    # Units of lines.
    ("a line without its unit", "working:\n  x: {formula: shelf.mass}\n" + EXPECT, "'x' has no unit", 4, 6),
    ("a line with an unknown unit", "working:\n  x: {formula: shelf.mass, unit: kq}\n" + EXPECT, "unknown unit 'kq'", 4, 34),
    ("a unit for a text", "working:\n  x: {formula: mount.kind, unit: kg}\n" + EXPECT, "'x' has a unit, but its formula gives a text", 4, 34),
    ("kelvin for a temperature", "working:\n  x: {formula: shelf.warmth, unit: K}\n" + EXPECT, "mixes a temperature with a difference", 4, 36),
    ("Celsius for a difference", "working:\n  x: {formula: shelf.rise, unit: degC}\n" + EXPECT, "mixes a temperature with a difference", 4, 34),
    ("a comparison without a unit", "compare: {demand: shelf.mass * 2, limit: shelf.capacity * 2}\nexpect: {correct: demand <= limit}", "'demand' has no unit", 3, 19),
    ("a comparison of two dimensions", "compare: {demand: shelf.mass, limit: shelf.pull, unit: kg}\nexpect: {correct: demand <= limit}", "'limit' is not in its unit", 3, 38),
    ("a comparison of texts", "compare: {demand: mount.kind, limit: mount.bolts}\nexpect: {correct: shelf.locked}", "'demand' must be a number", 3, 19),
    # Formulas.
    ("a condition that is a number", "expect: {correct: shelf.mass}", "'expect.correct' must be a condition", 3, 19),
    ("a rule that applies to a number", "applies: shelf.mass\n" + EXPECT, "'applies' must be a condition", 3, 10),
    ("an unknown field", "expect: {correct: shelf.masss <= shelf.capacity}", "unknown name 'shelf.masss'", 3, 19),
    ("an unknown field further on", "expect: {correct: shelf.capacity >= shelf.masss}", "unknown name 'shelf.masss'", 3, 37),
    ("an unknown field in quotes", "expect: {correct: 'shelf.capacity >= shelf.masss'}", "unknown name 'shelf.masss'", 3, 38),
    ("an unknown field on the second line", "expect:\n  correct: >-\n    shelf.capacity >=\n    shelf.masss", "unknown name 'shelf.masss'", 4, 12),
    ("an unknown function", "expect: {correct: srqt(2) <= 1}", "there is no function 'srqt'", 3, 19),
    ("an unknown table", "expect: {correct: table.nothing.x('a') <= 1}", "there is no table 'nothing'", 3, 19),
    ("an unknown derived value", "expect: {correct: derived.nothing <= 1}", "there is no derived value 'nothing'", 3, 19),
    ("a formula with an attribute", "expect: {correct: shelf.mass.__class__ == 1}", "a name cannot start with '_'", 3, 19),
    ("a formula with an index", "expect: {correct: 'shelf[0] <= 1'}", "an index in square brackets", 3, 19),
    ("an empty formula", "expect: {correct: ''}", "an empty formula", 3, 19),
    # Parameters.
    ("a parameter that is no value", "parameters:\n  x: {value: 1.5 kgg, why: w, basis: {source: statics, clause: c, confidence: checked}}\n" + EXPECT, "the parameter 'x': unknown unit 'kgg'", 4, 14),
    ("a parameter with a decimal comma", "parameters:\n  x: {value: '1,5 kg', why: w, basis: {source: statics, clause: c, confidence: checked}}\n" + EXPECT, "a decimal comma", 4, 14),
    ("a parameter with a tolerance", "parameters:\n  x: {value: 5 kg ± 1 kg, why: w, basis: {source: statics, clause: c, confidence: checked}}\n" + EXPECT, "a parameter with a tolerance", 4, 14),
    ("a parameter of texts and numbers", "parameters:\n  x: {value: [a, 1], why: w, basis: {source: statics, clause: c, confidence: checked}}\n" + EXPECT, "a list of texts and numbers", 4, 14),
    ("a parameter without its reason", "parameters:\n  x: {value: 1, basis: {source: statics, clause: c, confidence: checked}}\n" + EXPECT, "'why' is missing in parameters.x", 4, 6),
    ("a parameter without a basis", "parameters:\n  x: {value: 1, why: w}\n" + EXPECT, "'basis' is missing in parameters.x", 4, 6),
    ("a parameter of an unknown source", "parameters:\n  x: {value: 1, why: w, basis: {source: statcs, clause: c, confidence: checked}}\n" + EXPECT, "unknown source 'statcs'", 4, 41),
    ("a confidence that does not exist", "parameters:\n  x: {value: 1, why: w, basis: {source: statics, clause: c, confidence: certain}}\n" + EXPECT, "confidence has no such choice", 4, 73),
    ("a parameter called as a section", "parameters:\n  shelf: {value: 1, why: w, basis: {source: statics, clause: c, confidence: checked}}\n" + EXPECT, "the name 'shelf' is taken", 4, 10),
    # Lists.
    ("each of nothing", "each: boxes\n" + EXPECT, "'each' is not understood", 3, 7),
    ("each of what is no list", "each: x in shelf.mass\n" + EXPECT, "'shelf.mass' is no list of the description", 3, 7),
    ("each of an unknown list", "each: x in boxs\n" + EXPECT, "'boxs' is no list of the description", 3, 7),
    ("a member called as a section", "each: shelf in boxes\n" + EXPECT, "the name 'shelf' is taken", 3, 7),
    ("a subject that is a number", "each: box in boxes\nsubject: box.mass\n" + EXPECT, "'subject' must be a text", 4, 10),
    # Sentences, remedies.
    ("a remedy that does not exist", EXPECT + "\nadjust: [shelf.mas]", "unknown field 'shelf.mas'", 4, 10),
    ("a remedy without a range", EXPECT + "\nadjust: [shelf.pull]", "'shelf.pull' has no plausible range", 4, 10),
    # Stops.
    ("a stop on a remembered parameter", "parameters:\n  x: {value: 0.8, why: w, basis: {source: memory, clause: p, confidence: from-memory}}\nexpect: {stop: shelf.mass <= x * shelf.capacity}", "'stop' rests on a figure that is not checked", 5, 16),
    ("a stop on a parameter of practice", "parameters:\n  x: {value: 0.8, why: w, basis: {source: memory, clause: p, confidence: common-practice}}\nexpect: {stop: shelf.mass <= x * shelf.capacity}", "'stop' rests on a figure that is not checked", 5, 16),
    ("a stop on a parameter behind a line", "parameters:\n  x: {value: 0.8, why: w, basis: {source: memory, clause: p, confidence: from-memory}}\nworking:\n  y: {formula: x * shelf.capacity, unit: kg}\nexpect: {stop: shelf.mass <= y}", "'stop' rests on a figure that is not checked", 7, 16),
    ("a stop on a parameter behind the limit", "parameters:\n  x: {value: 0.8, why: w, basis: {source: memory, clause: p, confidence: from-memory}}\ncompare: {demand: shelf.mass, limit: x * shelf.capacity, unit: kg}\nexpect: {stop: demand <= limit}", "'stop' rests on a figure that is not checked", 6, 16),
    # YAML.
    ("an entry twice", EXPECT + "\n" + EXPECT, "'expect' stands here a second time", 4, 1),
    ("an anchor", "expect: &a {correct: shelf.locked}", "an anchor", 3, 9),
    ("a tab", "expect:\n\tcorrect: shelf.locked", "a tab", 4, 1),
]  # fmt: skip


@pytest.mark.parametrize(
    ("parts", "what", "line", "column"), [c[1:] for c in RULES], ids=[c[0] for c in RULES]
)
def test_a_malformed_rule_is_refused_with_its_place(
    load: Load, rule_text: RuleText, parts: str, what: str, line: int, column: int
) -> None:
    found = mistakes_in(load, {"load/shelf.yaml": rule_text(parts)})
    (mistake,) = found
    assert what in f"{mistake.what} {mistake.found} {mistake.expected}"
    assert mistake.place.file == "rules/load/shelf.yaml"
    assert (mistake.place.line, mistake.place.column) == (line, column)


def test_the_right_rule_beside_these_is_accepted(load: Load, rule_text: RuleText) -> None:
    book = load({"load/shelf.yaml": rule_text(COMPARE)})
    assert [rule.name for rule in book.rules] == ["load/shelf"]


@pytest.mark.parametrize(
    ("said", "what"),
    [
        ("{stop: s}", "'says' has no sentence for 'met'"),
        ("{met: m}", "'says' has no sentence for 'stop'"),
        ("{stop: '{dmand}', met: m}", "'{dmand}' stands for nothing"),
        ("{stop: '{}', met: m}", "'{}' stands for nothing"),
        ("{stop: '{shelf.masss}', met: m}", "'{shelf.masss}' stands for nothing"),
        ("{stop: '{shelf}', met: m}", "'{shelf}' stands for nothing"),
        ("{stop: '{subject}', met: m}", "'{subject}' stands for nothing"),
        ("{stop: '{derived.nothing}', met: m}", "'{derived.nothing}' stands for nothing"),
    ],
)
def test_a_sentence_that_does_not_fit_is_refused(
    load: Load, rule_text: RuleText, said: str, what: str
) -> None:
    text = rule_text(COMPARE)
    start = text.index("says:")
    text = text[:start] + f"says: {said}" + text[text.index("\n", start) :]
    (mistake,) = mistakes_in(load, {"load/shelf.yaml": text})
    assert mistake.what == what
    assert mistake.place.line == 5


@pytest.mark.parametrize("field", ["shelf.warmth", "shelf.noise"])
def test_no_utilisation_of_what_has_none(load: Load, rule_text: RuleText, field: str) -> None:
    """40 degC are no half of 80 degC, and 80 dB are no 94 % of 85 dB."""
    parts = f"compare: {{demand: {field}, limit: {field}}}\nexpect: {{correct: demand <= limit}}"
    text = rule_text(parts).replace("correct: c", "correct: '{utilisation}'")
    (mistake,) = mistakes_in(load, {"load/shelf.yaml": text})
    assert mistake.what == "'{utilisation}' stands for nothing"


WEAK_TABLE = """\
title: T
basis: {source: memory, clause: p, confidence: from-memory}
keys: {kind: {}}
columns:
  weak: {unit: kg}
  sound: {unit: kg, basis: {source: statics, clause: c, confidence: checked}}
rows: [[side-post, 5, 6], [floor-stand, 7, 8]]
"""


@pytest.mark.parametrize(
    ("formula", "weak"),
    [
        ("shelf.mass <= table.weak.weak(mount.kind)", "the table 'weak' is 'from-memory'"),
        ("shelf.mass <= derived.remembered", "the parameter 'x' is 'from-memory'"),
        ("shelf.mass <= derived.behind", "the parameter 'x' is 'from-memory'"),
        ("shelf.mass <= derived.looked_up", "the table 'weak' is 'from-memory'"),
        ("shelf.mass <= derived.unfounded", "no basis of derived.unfounded is 'checked'"),
    ],
)
def test_a_stop_that_rests_on_a_remembered_figure_elsewhere_is_refused(
    load: Load, rule_text: RuleText, formula: str, weak: str
) -> None:
    remembered = "parameters: {x: {value: 5 kg, why: w, basis: {source: memory, clause: p, confidence: from-memory}}}\n"
    files = {
        "tables/weak.yaml": WEAK_TABLE,
        "derived/remembered.yaml": derived("x", more=remembered),
        "derived/behind.yaml": derived("y", more="working: {y: {formula: derived.remembered * 2, unit: kg}}\n"),
        "derived/looked_up.yaml": derived("table.weak.weak(mount.kind)"),
        "derived/unfounded.yaml": derived("shelf.capacity").replace("confidence: checked", "confidence: from-memory"),
    }  # fmt: skip
    parts = f"expect: {{stop: {formula}}}"
    (mistake,) = mistakes_in(load, {**files, "load/shelf.yaml": rule_text(parts)})
    assert mistake.what == "'stop' rests on a figure that is not checked"
    assert weak in mistake.found
    assert load({**files, "load/shelf.yaml": rule_text(parts + "\ndanger: It falls.")}).rules
    assert load({**files, "load/shelf.yaml": rule_text(parts.replace("stop", "correct"))}).rules


def test_a_checked_column_of_a_remembered_table_may_carry_a_stop(
    load: Load, rule_text: RuleText
) -> None:
    parts = "expect: {stop: shelf.mass <= table.weak.sound(mount.kind)}"
    files = {"tables/weak.yaml": WEAK_TABLE, "load/shelf.yaml": rule_text(parts)}
    assert load(files).rules[0].can_stop


def test_a_stop_on_physics_may_rest_on_a_remembered_figure(load: Load, rule_text: RuleText) -> None:
    parts = (
        "parameters:\n  x: {value: 0.8, why: w, basis: {source: memory, clause: p, confidence: from-memory}}\n"
        "expect: {stop: shelf.mass <= x * shelf.capacity}\ndanger: It falls."
    )
    assert load({"load/shelf.yaml": rule_text(parts)}).rules[0].danger == "It falls."


def test_a_stop_may_stand_beside_a_remembered_figure_of_another_grade(
    load: Load, rule_text: RuleText
) -> None:
    parts = (
        "parameters:\n  x: {value: 0.8, why: w, basis: {source: memory, clause: p, confidence: from-memory}}\n"
        "expect: {stop: shelf.mass <= shelf.capacity, advise: shelf.mass <= x * shelf.capacity}"
    )
    assert load({"load/shelf.yaml": rule_text(parts)}).rules[0].can_stop


def test_a_stop_without_any_checked_basis_is_refused(load: Load, rule_text: RuleText) -> None:
    text = rule_text(COMPARE).replace("confidence: checked", "confidence: from-memory")
    (mistake,) = mistakes_in(load, {"load/shelf.yaml": text})
    assert "no basis of the rule is 'checked'" in mistake.found


def test_an_unknown_source_names_the_nearest(load: Load, rule_text: RuleText) -> None:
    text = rule_text(EXPECT).replace("source: statics", "source: static")
    (mistake,) = mistakes_in(load, {"load/shelf.yaml": text})
    assert mistake.what == "unknown source 'static'"
    assert "did you mean 'statics'?" in mistake.hint


def test_mistakes_of_all_files_are_told_at_once(load: Load, rule_text: RuleText) -> None:
    bad = rule_text("expect: {correct: shelf.masss > 1}")
    found = mistakes_in(
        load, {"load/a.yaml": bad, "load/b.yaml": bad, "load/c.yaml": rule_text(EXPECT)}
    )
    assert [m.place.file for m in found] == ["rules/load/a.yaml", "rules/load/b.yaml"]


# --- files and folders -----------------------------------------------------------


def test_a_folder_that_is_not_there(small_layout: Layout) -> None:
    with pytest.raises(Mistakes, match="there is no such folder of rules"):
        load_rulebook([Path("/no/such/folder")], shipped=False, layout=small_layout)


def test_a_folder_called_as_a_file(load: Load, rules_in: Callable[..., Path]) -> None:
    folder = rules_in({})
    (folder / "load" / "a.yaml").mkdir(parents=True)
    (mistake,) = mistakes_in(load, {})
    assert mistake.what == "this is a folder"


@pytest.mark.parametrize(
    ("content", "what"),
    [("", "the file is empty"), ("- a\n", "the file is not what"), ("a: [", None)],
)
def test_a_file_that_is_no_rule(load: Load, content: str, what: str | None) -> None:
    (mistake,) = mistakes_in(load, {"load/a.yaml": content})
    assert what is None or what in mistake.what


def test_a_source_described_twice(load: Load) -> None:
    other = "statics: {title: Dynamics, publisher: Nobody}\n"
    (mistake,) = mistakes_in(load, {"sources/zz.yaml": other})
    assert mistake.what == "the source 'statics' is described twice"
    assert str(mistake.place) == "rules/sources/zz.yaml:1:10"


def test_the_same_source_in_two_files_is_one(load: Load) -> None:
    same = "statics: {title: Statics, publisher: Textbook physics}\n"
    assert "statics" in load({"sources/zz.yaml": same}).sources


def test_rules_stand_in_the_order_of_the_families(load: Load, rule_text: RuleText) -> None:
    rule = rule_text(EXPECT)
    book = load(
        {
            "families.yaml": "timing: Times\nload: Loads\n",
            "load/a.yaml": rule, "timing/b.yaml": rule, "other/c.yaml": rule, "load/A.yaml": rule,
        }
    )  # fmt: skip
    assert [r.name for r in book.rules] == ["timing/b", "load/A", "load/a", "other/c"]


def test_a_later_folder_takes_the_place_of_a_rule(
    tmp_path: Path, rules_in: Callable[..., Path], rule_text: RuleText, small_layout: Layout
) -> None:
    one = rules_in({"load/a.yaml": rule_text(EXPECT)})
    two = tmp_path / "house"
    (two / "load").mkdir(parents=True)
    (two / "load" / "a.yaml").write_text(rule_text(EXPECT).replace("title: Shelf", "title: Ours"))
    book = load_rulebook([one, two], shipped=False, layout=small_layout)
    assert [r.title for r in book.rules] == ["Ours"]


def test_the_digest_knows_every_byte(load: Load, rule_text: RuleText) -> None:
    text = rule_text(EXPECT)
    one = load({"load/a.yaml": text}).digest
    assert load({"load/a.yaml": text}).digest == one
    assert load({"load/a.yaml": text + "# a remark\n"}).digest != one
    assert load({"load/a.yaml": text, "load/b.yaml": text}).digest != one


def test_a_rules_digest_changes_with_its_file_only(load: Load, rule_text: RuleText) -> None:
    text = rule_text(EXPECT)
    one = load({"load/a.yaml": text}).rules[0].digest
    two = load({"load/a.yaml": text, "load/b.yaml": text + "# a remark\n"}).rules
    assert two[0].digest == one != two[1].digest


# --- derived values --------------------------------------------------------------


def derived(formula: str, unit: str = "kg", more: str = "") -> str:
    return (
        f"title: D\n{more}result: {{formula: {formula}, unit: {unit}}}\n"
        "basis: [{source: statics, clause: c, confidence: checked}]\n"
    )


def test_derived_values_stand_behind_those_they_use(load: Load) -> None:
    book = load(
        {
            "derived/a.yaml": derived("derived.b + derived.c"),
            "derived/b.yaml": derived("derived.c * 2"),
            "derived/c.yaml": derived("shelf.mass"),
        }
    )
    assert [d.name for d in book.order] == ["c", "b", "a"]


@pytest.mark.parametrize(
    ("files", "circle"),
    [
        ({"a": "derived.a"}, "a -> a"),
        ({"a": "derived.b", "b": "derived.a"}, "a -> b -> a"),
        ({"a": "derived.b", "b": "derived.c", "c": "derived.b"}, "b -> c -> b"),
    ],
)
def test_a_circle_of_derived_values_is_refused(
    load: Load, files: dict[str, str], circle: str
) -> None:
    found = mistakes_in(load, {f"derived/{k}.yaml": derived(v) for k, v in files.items()})
    assert found[0].what == "derived values that go round in a circle"
    assert found[0].found == circle
    assert found[0].place.line == 2


def test_a_circle_through_a_line_of_the_working_is_refused(load: Load) -> None:
    text = derived("x", more="working: {x: {formula: derived.a, unit: kg}}\n")
    assert mistakes_in(load, {"derived/a.yaml": text})[0].found == "a -> a"


@pytest.mark.parametrize(
    ("text", "what"),
    [
        (derived("derived.nothing"), "there is no derived value 'nothing'"),
        (derived("shelf.mass", "N"), "'a' is not in its unit"),
        (derived("shelf.masss"), "unknown name 'shelf.masss'"),
        (derived("shelf.mass").replace("statics", "statcs"), "unknown source 'statcs'"),
        (derived("shelf.mass").replace("result", "rseult"), "unknown entry 'rseult'"),
    ],
)
def test_a_malformed_derived_value_is_refused(load: Load, text: str, what: str) -> None:
    found = mistakes_in(load, {"derived/a.yaml": text})
    assert what in [m.what.removesuffix(" in the file") for m in found]
    assert all(m.place.file == "rules/derived/a.yaml" for m in found)


def test_a_sentence_may_name_a_derived_value_that_no_formula_uses(
    load: Load, rule_text: RuleText
) -> None:
    text = rule_text(EXPECT).replace("met: m", "met: '{derived.a}'")
    book = load({"derived/a.yaml": derived("shelf.mass"), "load/shelf.yaml": text})
    assert book.rules[0].derived == (0,)


def test_plain_numbers_may_be_declared_with_a_bare_one(load: Load, rule_text: RuleText) -> None:
    """YAML reads `unit: 1` as a number; it is what the hint says to write."""
    parts = "working: {x: {formula: shelf.friction * 2, unit: 1}}\ncompare: {demand: x, limit: 1, unit: 1}\nexpect: {correct: demand <= limit}"
    book = load(
        {"load/shelf.yaml": rule_text(parts), "derived/a.yaml": derived("shelf.friction", "1")}
    )
    assert book.rules[0].lines[0].unit is not None


def test_the_small_rulebook_of_these_tests_is_sound(small_rulebook: Rulebook) -> None:
    assert [r.name for r in small_rulebook.rules] == [
        "load/box-mass", "load/capacity", "load/warmth", "timing/check-interval",
    ]  # fmt: skip
    assert small_rulebook.rule("load/nothing") is None
