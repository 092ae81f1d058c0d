"""The source register: nothing without a source, nothing left out, nothing counted twice."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

import pytest

from checker.commands.rulebook import rulebook_sources
from checker.errors import Mistakes
from checker.formulas.functions import engineering_names
from checker.output.sources import FORMS
from checker.rulebook.loading import load_rulebook
from checker.rulebook.model import CONFIDENCES, Rulebook
from checker.rulebook.register import KINDS, Entry, count_by, function_entry, narrowed, register

TABLE = """\
title: Least gap
basis: {source: statics, clause: c, confidence: checked}
keys: {kind: {}}
columns: {gap: {unit: mm}}
rows: [[open, 10], [shut, 5]]
"""
DERIVED = """\
title: Twice
parameters:
  factor: {value: 2, basis: {source: statics, clause: c, confidence: checked}, why: w}
result: {formula: factor * shelf.mass, unit: kg}
basis: [{source: statics, clause: c, confidence: checked}]
"""
PARTS = """\
parameters:
  most: {value: 25 kg, basis: {source: statics, clause: c, confidence: checked}, why: w}
compare: {demand: shelf.mass, limit: most, unit: kg}
expect: {correct: demand <= limit}
"""


@pytest.fixture(scope="module")
def shipped() -> Rulebook:
    return load_rulebook()


@pytest.fixture(scope="module")
def entries(shipped: Rulebook) -> tuple[Entry, ...]:
    return register(shipped)


def test_every_rule_derived_value_parameter_table_and_function_is_there(
    shipped: Rulebook, entries: tuple[Entry, ...]
) -> None:
    there = {(e.kind, e.rule, e.name) for e in entries}
    for rule in shipped.rules:
        assert ("rule", rule.name, "") in there
        assert {("parameter", rule.name, name) for name in rule.parameters} <= there
        assert {("function", name, "") for name in rule.uses.functions} <= there
    for derived in shipped.order:
        assert ("derived", f"derived.{derived.name}", "") in there
        assert {
            ("parameter", f"derived.{derived.name}", name) for name in derived.parameters
        } <= there
    for table in shipped.tables.values():
        assert ("table", f"table.{table.name}", "") in there
        cells = [e for e in entries if e.kind == "cell" and e.rule == f"table.{table.name}"]
        assert len(cells) == len(table.doubtful)


def test_every_entry_says_where_it_comes_from(entries: tuple[Entry, ...]) -> None:
    for entry in entries:
        assert entry.kind in KINDS
        assert entry.confidence in CONFIDENCES, entry
        assert entry.title, entry
        assert entry.value, entry
        if entry.kind != "function":
            assert entry.source, entry
            assert entry.clause, entry


def test_values_and_units_as_they_are_written(entries: tuple[Entry, ...]) -> None:
    found = {(e.rule, e.name): e for e in entries if e.kind == "parameter"}
    bolt = found["load/bolt-interaction", "partial_factor"]
    assert (bolt.value, bolt.unit, bolt.edition) == ("1.25", "", "2005")
    with_unit = [e for e in found.values() if e.unit]
    assert with_unit
    for entry in with_unit:
        assert re.fullmatch(r"[+-]?[0-9.eE+-]+", entry.value), entry
    # A date, a list and a text are values without a unit.
    assert all(
        not e.unit for e in found.values() if not e.value[:1].isdigit() and e.value[:1] not in "+-"
    )


def test_cells_show_their_figure(shipped: Rulebook, entries: tuple[Entry, ...]) -> None:
    cell = next(
        e
        for e in entries
        if e.rule == "table.metric_thread" and e.name.startswith("largest_minor(M5)")
    )
    assert (cell.value, cell.unit, cell.confidence) == ("4.334", "mm", "from-memory")
    # Every line is different but for rules that rest on several clauses.
    cells = [e for e in entries if e.kind == "cell"]
    assert len({(e.rule, e.name) for e in cells}) == len(cells)


def test_what_nothing_uses_is_seen(shipped: Rulebook, entries: tuple[Entry, ...]) -> None:
    # A published table or a derived value that no rule rests on is a gap or a leftover.
    assert {e.rule for e in entries if not e.used_by} == set()
    names = {rule.name for rule in shipped.rules}
    assert all(set(e.used_by) <= names for e in entries)


def test_counts_add_up(entries: tuple[Entry, ...]) -> None:
    for what in ("family", "kind", "source"):
        counts = count_by(entries, what)
        assert sum(n for count in counts.values() for n in count.values()) == len(entries)
    assert count_by(entries, "family")["load"]["checked"] == sum(
        e.family == "load" and e.confidence == "checked" for e in entries
    )


def test_narrowing(entries: tuple[Entry, ...]) -> None:
    some = narrowed(entries, confidences=["from-memory"], families=["load"], kinds=["parameter"])
    assert some
    assert {(e.confidence, e.family, e.kind) for e in some} == {
        ("from-memory", "load", "parameter")
    }
    assert narrowed(entries) == entries


def test_options_of_the_command_are_those_of_the_register() -> None:
    choices = {o.name: tuple(getattr(o.type, "choices", ())) for o in rulebook_sources.params}
    assert choices["kinds"] == KINDS
    assert set(choices["confidences"]) == set(CONFIDENCES)
    assert choices["form"] == FORMS


def refused(load: Callable[..., Any], files: dict[str, str]) -> str:
    with pytest.raises(Mistakes) as raised:
        load(files)
    return str(raised.value)


def test_whole_parts_are_accepted(
    load: Callable[..., Any], rule_text: Callable[[str], str]
) -> None:
    # What the refusals below take away is all that is wrong with them.
    files = {
        "load/shelf.yaml": rule_text(PARTS),
        "tables/gap.yaml": TABLE,
        "derived/twice.yaml": DERIVED,
    }
    book = load(files)
    kinds = {e.kind for e in register(book)}
    assert {"rule", "derived", "parameter", "table"} <= kinds


BASIS = "basis: {source: statics, clause: c, confidence: checked}"


@pytest.mark.parametrize(
    ("what", "taken", "put"),
    [
        ("rule", "basis: [{source: statics, clause: c, confidence: checked}]\ncaution", "caution"),
        (
            "rule",
            "basis: [{source: statics, clause: c, confidence: checked}]\ncaution",
            "basis: []\ncaution",
        ),
        ("rule", "most: {value: 25 kg, " + BASIS + ", why: w}", "most: {value: 25 kg, why: w}"),
        (
            "rule",
            "most: {value: 25 kg, " + BASIS + ", why: w}",
            "most: {value: 25 kg, " + BASIS + "}",
        ),
        ("table", BASIS + "\n", ""),
        ("derived", "basis: [{source: statics, clause: c, confidence: checked}]\n", ""),
        ("derived", "factor: {value: 2, " + BASIS + ", why: w}", "factor: {value: 2, why: w}"),
    ],
)
def test_refused_without_a_basis(
    load: Callable[..., Any], rule_text: Callable[[str], str], what: str, taken: str, put: str
) -> None:
    files = {"rule": rule_text(PARTS), "table": TABLE, "derived": DERIVED}
    assert taken in files[what]
    files[what] = files[what].replace(taken, put)
    named = {
        "load/shelf.yaml": files["rule"],
        "tables/gap.yaml": files["table"],
        "derived/twice.yaml": files["derived"],
    }
    message = refused(load, named)
    assert "basis" in message or "why" in message or "parameters" in message, message


@pytest.mark.parametrize("what", ["load/shelf.yaml", "tables/gap.yaml", "derived/twice.yaml"])
@pytest.mark.parametrize(
    ("taken", "put", "says"),
    [
        ("source: statics", "source: hearsay", "unknown source 'hearsay'"),
        ("confidence: checked", "confidence: certain", "confidence"),
        (", confidence: checked", "", "confidence"),
        ("clause: c, ", "", "clause"),
        ("clause: c", "clause: ''", "clause"),
    ],
)
def test_refused_with_half_a_basis(
    load: Callable[..., Any],
    rule_text: Callable[[str], str],
    what: str,
    taken: str,
    put: str,
    says: str,
) -> None:
    files = {
        "load/shelf.yaml": rule_text(PARTS),
        "tables/gap.yaml": TABLE,
        "derived/twice.yaml": DERIVED,
    }
    assert taken in files[what]
    files[what] = files[what].replace(taken, put)
    assert says in refused(load, files)


@pytest.mark.parametrize(
    "source",
    ["{publisher: Nobody}", "{title: '', publisher: Nobody}", "{title: A page}"],
)
def test_a_source_without_title_or_publisher_is_refused(
    load: Callable[..., Any], source: str
) -> None:
    message = refused(load, {"sources/more.yaml": f"thin: {source}\n"})
    assert "title" in message or "publisher" in message


def test_every_function_that_a_rule_could_call_names_its_source() -> None:
    for name in engineering_names():
        entry = function_entry(name, ())
        assert entry.title, name
        assert entry.confidence in CONFIDENCES, name


def test_a_document_has_one_name(shipped: Rulebook) -> None:
    titles = [(" ".join(s.title.lower().split()), s.edition) for s in shipped.sources.values()]
    twice = sorted({t for t in titles if titles.count(t) > 1})
    assert twice == []
