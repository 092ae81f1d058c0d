"""What a new description asks for: enough for every rule that can apply, and nothing else."""

from __future__ import annotations

import itertools
import os
import re
import subprocess
import sys
from collections.abc import Callable, Iterator
from functools import lru_cache
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from checker.absent import Absent, CannotTell, Unstated
from checker.asking.starting import begun, choices_of, for_the_record, needs_of
from checker.checking.judging import judge
from checker.checking.outcomes import Values, check
from checker.checking.rule_reads import Memory
from checker.errors import Mistakes
from checker.formulas.reaching import UNKNOWN
from checker.grades import Verdict
from checker.installation.binding import bind, bind_node
from checker.installation.fields import Field, Layout, general_path
from checker.installation.record import Installation, Record
from checker.output.field_words import condition_in_words
from checker.output.new_description import draw_item, render, schema_for
from checker.places import SCHEMAS
from checker.reading import place_of, plain, read_yaml
from checker.rulebook.cases import case_installation, only
from checker.rulebook.loading import Rulebooks
from checker.rulebook.model import Rule, Rulebook
from checker.rulebook.soundness import PLACEHOLDER

FIXTURES = Path(__file__).parents[2] / "fixtures"
KINDS = ("side-post", "floor-stand", "roof-plate", "wall-bracket")
EVERY = list(itertools.product(KINDS, ("plan", "fitted")))


@pytest.fixture(scope="module")
def shipped() -> Rulebook:
    # Read afresh: a rulebook that was kept from an earlier run does not carry the rules' cases.
    return Rulebooks(fresh=True).with_overlays()


@lru_cache
def _template(book: Rulebook, kind: str, stage: str, place: str | None = None) -> str:
    start = begun(book.layout, kind, stage, place)
    return render(start, needs_of(book, start), schema=schema_for(None))


def _asked(node: Any, path: str = "") -> Iterator[str]:
    """The fields named in a template, lists too."""
    value = node[0]
    if isinstance(value, dict):
        for name, (_, child) in value.items():
            yield from _asked(child, f"{path}.{name}" if path else name)
        return
    yield path
    for child in value if isinstance(value, list) else ():
        yield from _asked(child, f"{path}[]")


@lru_cache
def _fields_of(text: str) -> frozenset[str]:
    return frozenset(_asked(read_yaml(text.encode(), "new.yaml")))


# --- the whole template --------------------------------------------------------


@pytest.mark.parametrize(("kind", "stage"), EVERY)
def test_a_new_description_binds_and_is_to_be_confirmed(
    shipped: Rulebook, kind: str, stage: str
) -> None:
    installation = bind(_template(shipped, kind, stage, "GB").encode(), "new.yaml")
    stated = {
        f.path: fact.text
        for f, fact in zip(
            installation.record.layout.fields, installation.record.facts, strict=True
        )
        if fact is not None and f.item is None
    }
    assert stated == {"mount.kind": kind, "job.stage": stage, "job.jurisdiction": "GB"}
    for record in installation.every_record()[1:]:
        assert all(isinstance(v, (Absent, list)) for v in record.values)
    assert judge(shipped, installation).verdict is Verdict.CONFIRM


@pytest.mark.parametrize(("kind", "stage"), EVERY)
def test_a_new_description_asks_for_nothing_that_no_rule_reads(
    shipped: Rulebook, kind: str, stage: str
) -> None:
    # The rules are asked in another way than the template asked them: by their own compiled
    # condition, with what is known, and by all that their formulas and sentences name.
    start = begun(shipped.layout, kind, stage, None)
    values = Values(shipped, start.record.values)
    read: set[str] = set()
    for rule in shipped.rules:
        if stage in rule.stages and not rule.switched_off and _can_apply(rule, values):
            read |= {*rule.fields, *_named(rule)}
            if rule.each is not None:
                read.add(rule.each.field.path)
    asked = _fields_of(_template(shipped, kind, stage))
    extra = {path for path in asked - read if not for_the_record(path, shipped.layout)}
    assert not extra


def _can_apply(rule: Rule, values: Values) -> bool:
    if rule.test is None:
        return True
    values.work_out(rule.derived)
    arguments = [values.S, values.D]
    if rule.each is not None:
        arguments.append(rule.each.layout.template)
    try:
        return bool(rule.test(*arguments)) or _asks_what_is_stated(rule, values.rulebook)
    except CannotTell:
        return True


def _asks_what_is_stated(rule: Rule, book: Rulebook) -> bool:
    """Whether a condition that is false as things stand may turn with what is yet stated."""
    formulas = [rule.applies.text] if rule.applies else []
    formulas += [book.order[i].result.formula.text for i in rule.derived]
    return any("stated(" in text for text in formulas)


def _named(rule: Rule) -> set[str]:
    """The fields that a rule's sentences and its lines of the fitting sheet name."""
    found = set()
    for text in (*rule.says.values(), *(line.line for line in rule.sheet)):
        for name in PLACEHOLDER.findall(text):
            head, _, rest = name.partition(".")
            own = rule.each is not None and head == rule.each.variable
            found.add(f"{rule.each.field.path}[].{rest}" if own else name)  # type: ignore[union-attr]
    return found


@pytest.mark.parametrize(("kind", "stage"), EVERY)
def test_the_job_itself_is_always_asked(shipped: Rulebook, kind: str, stage: str) -> None:
    asked = _fields_of(_template(shipped, kind, stage))
    assert {f.path for f in shipped.layout.fields if f.path.startswith("job.")} <= asked


@pytest.mark.slow
def test_every_field_that_a_case_of_a_rule_lacks_is_asked(shipped: Rulebook) -> None:
    # Each rule's own cases put it in many situations; what it then lacks has to be in the
    # template of that mount and stage.
    asked: dict[tuple[str, str, str | None], set[str]] = {}
    lacked = 0
    for rule in shipped.rules:
        for case in rule.cases:
            installation = case_installation(case, shipped)
            place = installation.value("job.jurisdiction")
            key = (
                installation.value("mount.kind"),
                installation.value("job.stage"),
                None if isinstance(place, Absent) else place,
            )
            if key not in asked:
                asked[key] = _fields_of(_template(shipped, *key))
            for outcome in check(only(rule, shipped), installation):
                if isinstance(outcome.why, Unstated):
                    paths = {general_path(path) for path in outcome.why.paths}
                    lacked += len(paths)
                    assert paths <= asked[key], (rule.name, case.name, key)
    assert lacked > len(shipped.rules)


@pytest.mark.parametrize("kind", KINDS)
def test_what_a_check_of_the_template_lacks_stands_in_it(shipped: Rulebook, kind: str) -> None:
    text = _template(shipped, kind, "fitted")
    installation = bind(text.encode(), "new.yaml")
    asked = _fields_of(text)
    for outcome in check(shipped, installation):
        if isinstance(outcome.why, Unstated):
            assert {general_path(p) for p in outcome.why.paths} <= asked


def test_a_mount_is_not_asked_for_what_only_another_has(shipped: Rulebook) -> None:
    asked = {kind: _fields_of(_template(shipped, kind, "plan")) for kind in KINDS}
    assert "mount.stand.base_width" in asked["floor-stand"]
    assert not any(p.startswith("mount.stand.") for k in KINDS[:1] + KINDS[2:] for p in asked[k])
    assert "host.capacity" not in asked["floor-stand"]
    assert all("host.capacity" in asked[k] for k in ("side-post", "roof-plate", "wall-bracket"))


def test_a_plan_is_not_asked_for_what_only_finished_work_shows(shipped: Rulebook) -> None:
    plan, fitted = (_fields_of(_template(shipped, "side-post", s)) for s in ("plan", "fitted"))
    assert "records.signatures" in fitted
    assert "records.signatures" not in plan


def test_a_jurisdiction_takes_away_the_questions_of_another(shipped: Rulebook) -> None:
    anywhere, here = (_fields_of(_template(shipped, "side-post", "plan", p)) for p in (None, "GB"))
    assert here < anywhere


# --- as the answers come in ----------------------------------------------------


def _stated_paths(record: Record) -> list[tuple[Record, int]]:
    return [(record, i) for i, fact in enumerate(record.facts) if fact is not None]


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

_SHELF = """\
each: box in boxes
subject: box.name
applies: {applies}
compare: {{demand: {demand}, limit: 100 * shelf.mass, unit: kg}}
expect: {{advise: demand <= limit}}
"""


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


@pytest.mark.parametrize(
    ("condition", "words"),
    [
        ("item.kind == 'tapped'", "kind is tapped"),
        ("not work.hot_work.done", "work.hot_work.done is false"),
        ("item.clip.fitted > 0", "clip.fitted is above 0"),
        ("stated(item.edge)", "edge is stated"),
        ("a.b != 'x' and (a.c or a.d)", "a.b is not x, and a.c is true or a.d is true"),
        ("derived.fast > derived.slow", ""),
        ("a.b + a.c > 3", ""),
        ("not (a.b and a.c)", ""),
    ],
)
def test_conditions_in_words(condition: str, words: str) -> None:
    assert condition_in_words(condition) == words


def test_every_condition_of_the_shipped_rules_has_words_or_none(shipped: Rulebook) -> None:
    conditions = {
        condition
        for kind in KINDS
        for need in needs_of(shipped, begun(shipped.layout, kind, "fitted", None)).values()
        for condition in need.only_where
    }
    words = [condition_in_words(condition) for condition in conditions]
    assert not [w for w in words if "'" in w or "(" in w]
    assert sum(map(bool, words)) > len(words) / 2


# --- the drawing ---------------------------------------------------------------


def test_the_first_line_leads_an_editor_to_the_schema(tmp_path: Path) -> None:
    assert Path(schema_for(tmp_path / "a.yaml")).samefile(SCHEMAS / "installation.schema.json")
    inside = SCHEMAS.parent / "fixtures" / "a.yaml"
    assert (inside.parent / schema_for(inside)).resolve() == SCHEMAS / "installation.schema.json"
    assert (SCHEMAS.parent / schema_for(SCHEMAS.parent / "a.yaml")).exists()


def test_a_schema_behind_a_space_is_named_as_an_address(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("checker.output.new_description.SCHEMAS", Path("/a folder/schemas"))
    assert schema_for(None) == "file:///a%20folder/schemas/installation.schema.json"


@pytest.mark.parametrize(("kind", "stage"), EVERY)
def test_each_field_is_explained_above_it(shipped: Rulebook, kind: str, stage: str) -> None:
    text = _template(shipped, kind, stage)
    lines = text.splitlines()
    assert lines[0].startswith("# yaml-language-server: $schema=")
    assert max(map(len, lines[1:])) <= 100
    assert "\t" not in text
    for i, line in enumerate(lines):
        if line.strip() and not line.lstrip().startswith("#"):
            assert lines[i - 1].lstrip().startswith("#"), line


def test_a_field_says_its_unit_its_choices_and_where_to_get_it(shipped: Rulebook) -> None:
    text = " ".join(_template(shipped, "side-post", "plan").replace("#", "").split())
    assert "Wall thickness of the tube. [length, such as in mm, usually 1 mm to 16 mm] Where: Ultrasonic gauge, cut end or invoice. wall:" in text  # fmt: skip
    assert "[one of square, rectangular, round]" in text
    assert "If there is none, delete them and write 'fixings: []'." in text


def test_an_item_to_copy_binds_as_it_is(shipped: Rulebook) -> None:
    start = begun(shipped.layout, "side-post", "plan", None)
    needs = needs_of(shipped, start)
    for field in shipped.layout.fields:
        if field.item is None or field.path not in needs:
            continue
        once = draw_item(field.item, needs, "", comments=False)
        tree = plain(read_yaml("\n".join([*once, *once]).encode(), "item"))
        assert len(tree) == 2
        assert tree[0] == tree[1]


# --- the command ---------------------------------------------------------------


def test_new_prints_a_description(run: Any) -> None:
    found = run("new", "floor-stand", "--stage", "fitted", "--jurisdiction", "US")
    assert found.status == 0
    assert bind(found.out.encode(), "new.yaml").value("job.jurisdiction") == "US"


def test_new_writes_a_file_and_says_how_to_go_on(run: Any, tmp_path: Path) -> None:
    path = tmp_path / "job.yaml"
    found = run("new", "side-post", "--output", path)
    assert (found.status, found.out) == (0, "")
    assert f"mistwright ask {path}" in found.err
    assert f"mistwright check {path}" in found.err
    assert f"mistwright ask {path}" in path.read_text(encoding="utf-8")
    assert run("check", path).status == 1


def test_new_never_writes_over_a_file(run: Any, tmp_path: Path) -> None:
    path = tmp_path / "job.yaml"
    path.write_text("mine", encoding="utf-8")
    found = run("new", "side-post", "--output", path)
    assert found.status == 3
    assert "there is a file of that name already" in found.err
    assert path.read_text(encoding="utf-8") == "mine"


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["new"], "name the kind: it is one of side-post, floor-stand, roof-plate, wall-bracket"),
        (["new", "sidepost"], "did you mean 'side-post'?"),
        (["new", "side-post", "--jurisdiction", "UK"], "there is no jurisdiction 'UK'"),
        (["new", "side-post", "--stage", "later"], "'later' is not one of"),
        (["new", '"}'], "there is no kind"),
    ],
)
def test_new_used_wrongly(run: Any, arguments: list[str], said: str) -> None:
    found = run(*arguments)
    assert found.status == 2
    assert said in " ".join(found.err.split())


def test_new_into_a_folder_that_is_not_there(run: Any, tmp_path: Path) -> None:
    found = run("new", "side-post", "--output", tmp_path / "no" / "job.yaml")
    assert found.status == 3
    assert "the file cannot be written" in found.err


def test_words_that_are_no_choice_are_refused(small_layout: Layout) -> None:
    with pytest.raises(Mistakes):
        begun(small_layout, "hook", "plan", None)
    assert choices_of(small_layout, "mount.kind") == ("side-post", "floor-stand")
    assert choices_of(small_layout, "no.where") == ()


def test_filled_in_it_binds_and_is_judged(shipped: Rulebook) -> None:
    # Every field of the template gets a value of its kind; a field that took none would fail.
    for kind in KINDS:
        text = _template(shipped, kind, "fitted")
        filled, asked = _filled(text, shipped.layout), _fields_of(text)
        installation = bind(filled.encode(), "filled.yaml")
        for record in installation.every_record():
            for field, fact in zip(record.layout.fields, record.facts, strict=True):
                if field.path in asked:
                    assert fact is not None, field.path
        judge(shipped, installation)


def _filled(text: str, layout: Layout) -> str:
    by_path = {f.path: f for f in layout.walk()}
    lines, names = [], []
    for line in text.splitlines():
        match = re.fullmatch(r"( *)(- )?([a-z_0-9]+):", line)
        if match is None:
            lines.append(line)
            continue
        depth = len(match[1]) + len(match[2] or "")
        names = [(d, n) for d, n in names if d < depth]
        names.append((depth, match[3]))
        path = ""
        for _, name in names:
            joint = "[]." if path and path in by_path else "."
            path = f"{path}{joint}{name}" if path else name
        field = by_path.get(path)
        lines.append(line if field is None or field.item else f"{line} {_value(field)}")
    return "\n".join(lines) + "\n"


def _value(field: Field) -> str:
    match field.type:
        case "quantity":
            return field.plausible_text.partition(" to ")[0] or f"1 {field.unit.symbol}"  # type: ignore[union-attr]
        case "choice":
            return f'"{field.choices[0]}"'
        case "flag":
            return "true"
        case "date":
            return "2026-03-31"
        case "text":
            return '"a text"'
    return str(int(field.least or 1) if field.plausible is None else field.plausible[0])


def test_a_new_description_from_an_installed_copy_names_its_own_schema(tmp_path: Path) -> None:
    # Run from another folder, by path only, as an installed copy is.
    environment = {**os.environ, "PYTHONPATH": str(SCHEMAS.parent)}
    found = subprocess.run(
        [sys.executable, "-m", "checker", "new", "side-post"],
        cwd=tmp_path, env=environment, capture_output=True, text=True, check=True,
    )  # fmt: skip
    named = found.stdout.splitlines()[0].partition("$schema=")[2]
    assert Path(named).is_file()
    assert place_of(bind(found.stdout.encode(), "a").record.mark, "a").line > 1
