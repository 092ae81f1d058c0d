"""One value in its place, nothing else touched."""

from __future__ import annotations

from typing import Any

import pytest
import yaml
from hypothesis import example, given, settings
from hypothesis import strategies as st

from checker.asking.editing import CannotEdit, add_item, clear, empty_list, put
from checker.errors import Mistakes
from checker.reading import plain, read_yaml

TEXT = """\
# head ± é
job:
  a: "x ± y"   # c ±
  b:   # comment

  # about c
  c: {is: 3 mm, origin: measured}  # d
  d:
    # about q
    - q:   # qq
      # about r
      r:
      s: {k: 1, l: }
  e: []   # none
  f:
  g: null
sec:
  # more
  deep:
    x: 1
last: {a: 1}
"""


@pytest.mark.parametrize(
    ("parts", "before", "after"),
    [
        (("job", "a"), '  a: "x ± y"   # c ±\n', "  a: NEW   # c ±\n"),
        (("job", "b"), "  b:   # comment\n", "  b: NEW   # comment\n"),
        (("job", "c"), "  c: {is: 3 mm, origin: measured}  # d\n", "  c: NEW  # d\n"),
        (("job", "d", 0, "q"), "    - q:   # qq\n", "    - q: NEW   # qq\n"),
        (("job", "d", 0, "r"), "      r:\n", "      r: NEW\n"),
        (("job", "d", 0, "s", "l"), "{k: 1, l: }", "{k: 1, l: NEW}"),
        (("job", "d", 0, "s", "m"), "{k: 1, l: }", "{m: NEW, k: 1, l: }"),
        (("job", "d", 0, "t"), "      s: {k: 1, l: }\n", "      s: {k: 1, l: }\n      t: NEW\n"),
        (("job", "f", "g", "h"), "  f:\n", "  f:\n    g:\n      h: NEW\n"),
        (("job", "g"), "  g: null\n", "  g: NEW\n"),
        (("sec", "deep", "y"), "    x: 1\n", "    x: 1\n    y: NEW\n"),
        (("sec", "n", "y"), "    x: 1\n", "    x: 1\n  n:\n    y: NEW\n"),
        (("new", "n", "y"), "last: {a: 1}\n", "last: {a: 1}\nnew:\n  n:\n    y: NEW\n"),
        (("last", "c", "d"), "last: {a: 1}\n", "last: {c: {d: NEW}, a: 1}\n"),
    ],
)
@pytest.mark.parametrize("newline", ["\n", "\r\n"])
def test_a_value_goes_to_its_place_and_nothing_else_moves(
    parts: tuple[str | int, ...], before: str, after: str, newline: str
) -> None:
    assert TEXT.count(before) == 1
    text = TEXT.replace("\n", newline)
    wanted = TEXT.replace(before, after).replace("\n", newline)
    assert put(text, parts, "NEW") == wanted


def test_a_value_is_taken_back() -> None:
    assert clear(TEXT, ("job", "a")) == TEXT.replace(' "x ± y"', "")
    assert clear(TEXT, ("job", "d", 0, "s", "k")) == TEXT.replace("k: 1", "k: null")
    assert clear(TEXT, ("job", "never")) == TEXT


def test_an_item_is_added_below_the_others() -> None:
    lines = ["- # about", "  q:", "  r:"]
    for parts, above in (
        (("job", "d"), "      s: {k: 1, l: }\n"),
        (("job", "f"), "  f:\n"),
        (("sec", "new"), "    x: 1\n"),
        (("other", "new"), "last: {a: 1}\n"),
    ):
        once = add_item(TEXT, parts, lines)
        twice = add_item(once, parts, lines)
        assert once.startswith(TEXT[: TEXT.index(above) + len(above)])
        for line in TEXT.splitlines():
            assert line in once
        assert len(once.splitlines()) + 3 == len(twice.splitlines())
        assert add_item(TEXT.replace("\n", "\r\n"), parts, lines) == once.replace("\n", "\r\n")
    assert "  e:   # none\n    - # about\n" in add_item(TEXT, ("job", "e"), lines)
    assert "last: {li: [{}], a: 1}" in add_item(TEXT, ("last", "li"), lines)


def test_a_list_without_members_keeps_its_lines_as_comments() -> None:
    text = empty_list(TEXT, ("job", "d"))
    assert plain(read_yaml(text.encode(), "a"))["job"]["d"] == []
    assert "  d: []\n    # about q\n    # - q:   # qq\n      # about r\n    #   r:\n" in text
    again = add_item(text, ("job", "d"), ["- q:"])
    assert "  d:\n    - q:\n    # about q\n" in again
    assert empty_list(TEXT, ("job", "e")) == TEXT
    assert "\nlast: {z: [], a: 1}\n" in empty_list(TEXT, ("last", "z"))


@pytest.mark.parametrize(
    ("text", "parts", "line"),
    [
        ("a:\n  b: |\n    x\nc: 1\n", ("a", "b"), 2),
        ("a:\n  b: >-\n    x\n", ("a", "new"), 2),
        ("a:\n  b: x\n    y\n", ("a", "b"), 2),
        ("a:\n  b:\n    is: 3 mm\n", ("a", "b"), 3),
        ("a: text\n", ("a", "b"), 1),
        ("a: [1]\n", ("a", "b"), 1),
    ],
)
def test_what_is_laid_out_in_another_way_is_left_alone(
    text: str, parts: tuple[str, ...], line: int
) -> None:
    with pytest.raises(CannotEdit) as found:
        put(text, parts, "NEW")
    assert found.value.line == line


_SCALARS = st.one_of(
    st.none(), st.booleans(), st.integers(0, 99), st.text("ab:#'\"-é ±", min_size=1, max_size=6)
)
_TREES = st.recursive(
    _SCALARS,
    lambda inner: st.one_of(
        st.dictionaries(st.sampled_from("abcdef"), inner, min_size=1, max_size=4),
        st.lists(
            st.dictionaries(st.sampled_from("abc"), inner, min_size=1, max_size=3), max_size=3
        ),
    ),
    max_leaves=14,
)


@settings(deadline=None)
@given(
    tree=st.dictionaries(st.sampled_from("abcdef"), _TREES, min_size=1, max_size=4),
    parts=st.lists(st.sampled_from("abcdef"), min_size=1, max_size=3),
    flow=st.sampled_from([None, True, False]),
    indent=st.integers(2, 5),
)
@example(tree={"a": None}, parts=["a", "b"], flow=False, indent=2)
def test_whatever_is_given_out_holds_the_value_and_all_else(
    tree: dict[str, Any], parts: list[str], flow: bool | None, indent: int
) -> None:
    text = yaml.safe_dump(tree, default_flow_style=flow, indent=indent, allow_unicode=True)
    try:
        before = plain(read_yaml(text.encode(), "a"))
        changed = put(text, tuple(parts), "28 kg")
    except (Mistakes, CannotEdit, KeyError):
        return
    after = plain(read_yaml(changed.encode(), "a"))
    at, was = after, before
    for part in parts[:-1]:
        was = (was or {}).get(part) or {}
        at = at[part]
    assert at[parts[-1]] == "28 kg"
    assert {k: v for k, v in at.items() if k != parts[-1]} == {
        k: v for k, v in was.items() if k != parts[-1]
    }
