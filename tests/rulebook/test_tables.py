"""Published tables: looked up in their rows only, refused where a row does not fit."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.absent import Absent, OutOfReach, Unstated
from checker.errors import Mistake, Mistakes
from checker.formulas.running import SLACK
from checker.rulebook.look_up import Key, LookUp
from checker.rulebook.model import Rulebook, Table

Load = Callable[[dict[str, str]], Rulebook]

HEAD = "title: T\nbasis: {source: statics, clause: c, confidence: checked}\n"


@pytest.fixture
def table(load: Load) -> Callable[[str], Table]:
    return lambda body: load({"tables/t.yaml": HEAD + body}).tables["t"]


def cell(found: Table, column: str, *keys: Any) -> Any:
    return found.columns[column].look_up(*keys)


def refusal(found: Table, column: str, *keys: Any) -> str:
    with pytest.raises(OutOfReach) as raised:
        cell(found, column, *keys)
    return raised.value.reason


TEXTS = "keys: {size: {}}\ncolumns: {pitch: {unit: mm}, name: {}}\nrows: [[M8, 1.25, coarse], [M10, 1.5, coarse], [M12, ~, fine]]\n"


def test_a_text_key_is_exact(table: Callable[[str], Table]) -> None:
    found = table(TEXTS)
    assert cell(found, "pitch", "M8") == 0.00125
    assert cell(found, "name", "M12") == "fine"
    said = refusal(found, "pitch", "M9")
    assert said == "The table 'T' gives no pitch for size 'M9'; it covers size M8, M10."


def test_a_blank_cell_is_no_answer(table: Callable[[str], Table]) -> None:
    assert "gives no pitch for size 'M12'" in refusal(table(TEXTS), "pitch", "M12")


def test_a_column_that_is_blank_throughout_covers_nothing(table: Callable[[str], Table]) -> None:
    found = table("keys: {size: {}}\ncolumns: {pitch: {unit: mm}}\nrows: [[M8, ~]]\n")
    assert "it covers size nothing." in refusal(found, "pitch", "M8")


def between(way: str) -> str:
    line = f", between: {way}" if way else ""
    return f"keys: {{x: {{unit: mm{line}}}}}\ncolumns: {{y: {{unit: N}}, word: {{}}}}\nrows: [[10, 100, a], [20, 200, a], [40, 300, b]]\n"


@pytest.mark.parametrize(
    ("way", "at", "result"),
    [
        ("", 0.010, 100.0), ("", 0.020, 200.0), ("", 0.015, None), ("", 0.005, None), ("", 0.050, None),
        ("exact", 0.020, 200.0), ("exact", 0.0201, None),
        ("interpolate", 0.010, 100.0), ("interpolate", 0.0125, 125.0), ("interpolate", 0.025, 225.0), ("interpolate", 0.030, 250.0),
        ("interpolate", 0.040, 300.0), ("interpolate", 0.0099, None), ("interpolate", 0.0401, None),
        ("next-higher", 0.010, 100.0), ("next-higher", 0.0101, 200.0), ("next-higher", 0.030, 300.0),
        ("next-higher", 0.040, 300.0), ("next-higher", 0.0401, None),
        ("next-lower", 0.010, 100.0), ("next-lower", 0.0199, 100.0), ("next-lower", 0.030, 200.0),
        ("next-lower", 0.0099, None),
    ],
)  # fmt: skip
def test_between_two_rows(
    table: Callable[[str], Table], way: str, at: float, result: float | None
) -> None:
    found = table(between(way))
    if result is None:
        assert f"gives no y for x {at * 1000:.4g} mm; it covers x 10 mm to 40 mm." in refusal(
            found, "y", at
        )
    else:
        assert cell(found, "y", at) == pytest.approx(result, rel=1e-12)


def test_the_last_bit_of_a_float_does_not_leave_the_table(table: Callable[[str], Table]) -> None:
    found = table(between("interpolate"))
    assert cell(found, "y", 0.040 * (1 + SLACK / 2)) == 300.0
    assert cell(found, "y", 0.010 * (1 - SLACK / 2)) == 100.0


def test_between_two_words_there_is_no_third(table: Callable[[str], Table]) -> None:
    found = table(between("interpolate"))
    assert cell(found, "word", 0.015) == "a"
    assert "gives no word for x 30 mm" in refusal(found, "word", 0.030)


def test_interpolation_next_to_a_blank_cell_is_no_answer(table: Callable[[str], Table]) -> None:
    found = table(
        "keys: {x: {unit: mm, between: interpolate}}\ncolumns: {y: {unit: N}}\nrows: [[10, 100], [20, ~], [30, 300]]\n"
    )
    assert cell(found, "y", 0.030) == 300.0
    assert refusal(found, "y", 0.015)
    assert refusal(found, "y", 0.025)


TWO = (
    "keys: {size: {}, length: {unit: mm, between: next-higher}, load: {unit: N, between: interpolate}}\n"
    "columns: {y: {unit: '1'}}\n"
    "rows:\n  - [a, 10, 0, 1]\n  - [a, 10, 100, 2]\n  - [a, 20, 0, 3]\n  - [a, 20, 50, 4]\n  - [b, 10, 0, 5]\n  - [b, 10, 10, 6]\n"
)


@pytest.mark.parametrize(
    ("keys", "result"),
    [
        (("a", 0.010, 50.0), 1.5),
        (("a", 0.005, 50.0), 1.5),
        (("a", 0.015, 25.0), 3.5),
        (("a", 0.015, 75.0), None),
        (("b", 0.010, 5.0), 5.5),
        (("b", 0.015, 5.0), None),
        (("c", 0.010, 5.0), None),
    ],
)
def test_keys_are_settled_from_left_to_right(
    table: Callable[[str], Table], keys: tuple[Any, ...], result: float | None
) -> None:
    found = table(TWO)
    if result is None:
        assert "gives no y for size" in refusal(found, "y", *keys)
    else:
        assert cell(found, "y", *keys) == pytest.approx(result)


def test_a_temperature_is_looked_up_as_a_point(table: Callable[[str], Table]) -> None:
    found = table(
        "keys: {t: {unit: degC, between: interpolate}}\ncolumns: {y: {unit: degC}}\nrows: [[0, 10], [100, 20]]\n"
    )
    assert cell(found, "y", 273.15 + 50) == pytest.approx(273.15 + 15)
    assert "t 120 °C; it covers t 0 °C to 100 °C" in refusal(found, "y", 393.15)


def test_a_key_that_is_not_stated_stays_not_stated(table: Callable[[str], Table]) -> None:
    for body, column in ((TEXTS, "pitch"), (between("interpolate"), "y")):
        with pytest.raises(Unstated):
            cell(table(body), column, Absent(Unstated("shelf.reach")))


# --- confidence of single cells --------------------------------------------------

DOUBTFUL = (
    between("interpolate")
    + "doubtful: [{row: [20], column: y, confidence: from-memory}, {row: [40], column: y, confidence: common-practice}]\n"
)


@pytest.mark.parametrize(
    ("at", "confidence"),
    [
        (0.010, "checked"),
        (0.020, "from-memory"),
        (0.0200000000001, "from-memory"),
        (0.015, "from-memory"),
        (0.030, "from-memory"),
        (0.040, "common-practice"),
    ],
)
def test_an_answer_is_as_doubtful_as_the_rows_behind_it(
    table: Callable[[str], Table], at: float, confidence: str
) -> None:
    found = table(DOUBTFUL)
    assert found.confidence_of("y", at) == confidence
    assert found.confidence_of("word", at) == "checked"


def test_a_doubtful_cell_is_found_through_the_next_row(table: Callable[[str], Table]) -> None:
    found = table(DOUBTFUL.replace("interpolate", "next-higher"))
    assert found.confidence_of("y", 0.011) == "from-memory"
    assert found.confidence_of("y", 0.009) == "checked"


def test_a_column_may_have_a_basis_of_its_own(table: Callable[[str], Table]) -> None:
    body = TEXTS.replace(
        "pitch: {unit: mm}",
        "pitch: {unit: mm, basis: {source: memory, clause: p, confidence: from-memory}}",
    )
    found = table(body)
    assert found.confidence_of("pitch", "M8") == "from-memory"
    assert found.confidence_of("name", "M8") == "checked"
    assert found.columns["pitch"].confidence == "from-memory"


# --- refused ---------------------------------------------------------------------

REFUSED = [
    ("a row too short", "keys: {size: {}}\ncolumns: {y: {unit: N}}\nrows: [[a, 1], [b]]", "a row of 1 cells in a table of 2", 5, 16),
    ("a row too long", "keys: {size: {}}\ncolumns: {y: {unit: N}}\nrows: [[a, 1, 2]]", "a row of 3 cells in a table of 2", 5, 8),
    ("a text for a number", "keys: {size: {}}\ncolumns: {y: {unit: N}}\nrows: [[a, b]]", "a text where a number belongs", 5, 12),
    ("a number for a text", "keys: {size: {}}\ncolumns: {y: {}}\nrows: [[a, 1]]", "a number where a text belongs", 5, 12),
    ("a number for a text key", "keys: {size: {}}\ncolumns: {y: {unit: N}}\nrows: [[8.8, 1]]", "a number where a text belongs", 5, 9),
    ("a text for a number key", "keys: {size: {unit: mm}}\ncolumns: {y: {unit: N}}\nrows: [[M8, 1]]", "a text where a number belongs", 5, 9),
    ("a blank key", "keys: {size: {unit: mm}}\ncolumns: {y: {unit: N}}\nrows: [[~, 1]]", "the key 'size' of a row is blank", 5, 9),
    ("a blank text key", "keys: {size: {}}\ncolumns: {y: {unit: N}}\nrows: [[~, 1]]", "the key 'size' of a row is blank", 5, 9),
    ("the same keys twice", "keys: {size: {}}\ncolumns: {y: {unit: N}}\nrows: [[a, 1], [a, 2]]", "two rows have the same keys", 5, 7),
    ("an unknown unit of a key", "keys: {size: {unit: mmm}}\ncolumns: {y: {unit: N}}\nrows: [[1, 1]]", "unknown unit 'mmm'", 3, 21),
    ("an unknown unit of a column", "keys: {size: {}}\ncolumns: {y: {unit: NN}}\nrows: [[a, 1]]", "unknown unit 'NN'", 4, 21),
    ("a way between that does not exist", "keys: {size: {unit: mm, between: nearest}}\ncolumns: {y: {unit: N}}\nrows: [[1, 1]]", "keys.size.between has no such choice", 3, 34),
    ("no rows", "keys: {size: {}}\ncolumns: {y: {unit: N}}\nrows: []", "rows", 5, 7),
    ("no keys", "keys: {}\ncolumns: {y: {unit: N}}\nrows: [[1]]", "keys", 3, 7),
    ("a column that no formula could name", "keys: {size: {}}\ncolumns: {y-z: {unit: N}}\nrows: [[a, 1]]", "'y-z' cannot be a name in columns", 4, 11),
    ("an unknown source of a column", "keys: {size: {}}\ncolumns: {y: {unit: N, basis: {source: x, clause: c, confidence: checked}}}\nrows: [[a, 1]]", "unknown source 'x'", 4, 40),
    ("a doubtful cell of no row", "keys: {size: {}}\ncolumns: {y: {unit: N}}\nrows: [[a, 1]]\ndoubtful: [{row: [b], column: y, confidence: from-memory}]", "a doubtful cell that the table does not have", 6, 12),
    ("a doubtful cell of no column", "keys: {size: {}}\ncolumns: {y: {unit: N}}\nrows: [[a, 1]]\ndoubtful: [{row: [a], column: z, confidence: from-memory}]", "a doubtful cell that the table does not have", 6, 12),
    ("a doubtful cell with a key too many", "keys: {size: {}}\ncolumns: {y: {unit: N}}\nrows: [[a, 1]]\ndoubtful: [{row: [a, b], column: y, confidence: from-memory}]", "a doubtful cell that the table does not have", 6, 12),
    ("a doubtful cell that is checked", "keys: {size: {}}\ncolumns: {y: {unit: N}}\nrows: [[a, 1]]\ndoubtful: [{row: [a], column: y, confidence: checked}]", "has no such choice", 6, 46),
]  # fmt: skip


@pytest.mark.parametrize(
    ("body", "what", "line", "column"), [c[1:] for c in REFUSED], ids=[c[0] for c in REFUSED]
)
def test_a_malformed_table_is_refused_with_its_place(
    load: Load, body: str, what: str, line: int, column: int
) -> None:
    with pytest.raises(Mistakes) as caught:
        load({"tables/t.yaml": HEAD + body})
    mistake: Mistake = caught.value.mistakes[0]
    assert what in mistake.what
    assert mistake.place.file == "rules/tables/t.yaml"
    assert (mistake.place.line, mistake.place.column) == (line, column)


# --- properties ------------------------------------------------------------------


@given(
    st.lists(st.tuples(st.integers(-50, 50), st.integers(-9, 9)), min_size=2, max_size=6, unique_by=lambda r: r[0]),
    st.floats(-60, 60),
    st.sampled_from(["exact", "interpolate", "next-higher", "next-lower"]),
)  # fmt: skip
def test_no_answer_lies_outside_its_neighbours(
    rows: list[tuple[int, int]], at: float, way: str
) -> None:
    look_up = LookUp(
        "T",
        "y",
        [Key("x", {"unit": "1", "between": way})],
        {(float(x),): float(y) for x, y in rows},
    )
    below = [r for r in rows if r[0] <= at]
    above = [r for r in rows if r[0] >= at]
    try:
        found = look_up(at)
    except OutOfReach:
        found = None
    if found is not None:
        near = [r[1] for r in (max(below, default=None), min(above, default=None)) if r is not None]
        assert min(near) - 1e-9 <= found <= max(near) + 1e-9
        assert look_up.rows_behind((at,))
    elif way == "interpolate":
        assert not below or not above
    elif way == "next-higher":
        assert not above
    elif way == "next-lower":
        assert not below
