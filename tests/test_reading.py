"""Strict YAML: what is read, what is refused, and where it says that it stands."""

from __future__ import annotations

import math
import os
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import example, given
from hypothesis import strategies as st

from checker import reading
from checker.errors import Mistake, Mistakes
from checker.reading import MAX_BYTES, place_of, plain, read_bytes, read_text, read_yaml

LOADERS = [yaml.SafeLoader] + ([yaml.CSafeLoader] if hasattr(yaml, "CSafeLoader") else [])


def mistake_in(data: bytes | str) -> Mistake:
    raw = data.encode() if isinstance(data, str) else data
    with pytest.raises(Mistakes) as caught:
        read_yaml(raw, "a.yaml")
    assert len(caught.value.mistakes) == 1
    return caught.value.mistakes[0]


def values_of(text: str) -> Any:
    return plain(read_yaml(text.encode(), "a.yaml"))


# --- refused: name, data, what is said, line, column -----------------------------

BOMB = "a: &a [1]\nb: &b [*a, *a, *a]\nc: [*b, *b, *b]\n"
MERGE_BOMB = "a: &a {x: 1}\nb: {<<: [*a, *a]}\n"

REFUSED = [
    ("twenty thousand open brackets", "[" * 20000, "nested too deeply", 1, None),
    ("nine hundred open brackets", "a: " + "[" * 900 + "]" * 900, "nested too deeply", 1, 35),
    ("two thousand levels of blocks", "\n".join("  " * i + "a:" for i in range(2000)), "nested too deeply", 33, None),
    ("ten thousand levels in one line", "a: " + "{a: " * 10000, "nested too deeply", 1, None),
    ("three thousand dashes", "- " * 3000, "nested too deeply", 1, 65),
    ("anchors that multiply", BOMB, "an anchor", 1, 4),
    ("an anchor that holds itself", "&a [*a]", "an anchor", 1, 1),
    ("merged mappings", MERGE_BOMB, "an anchor", 1, 4),
    ("an alias", "a: *b\n", "an alias", 1, 4),
    ("an anchor on a key", "&k a: 1\n", "an anchor", 1, None),
    ("a key twice at the top", "a: 1\nb: 2\na: 3\n", "'a' stands here a second time", 3, 1),
    ("a key twice below", "a:\n  b: 1\n  b: 2\n", "'b' stands here a second time", 3, 3),
    ("a key twice in one line", "a: {b: 1, b: 2}\n", "'b' stands here a second time", 1, 11),
    ("a key twice, once in quotes", 'a: 1\n"a": 2\n', "'a' stands here a second time", 2, 1),
    ("a number as a key", "1: a\n", "a key that is not a word", 1, 1),
    ("a list as a key", "? [1, 2]\n: a\n", "a key that is not a word", 1, 3),
    ("a group as a key", "? {a: 1}\n: a\n", "a key that is not a word", 1, 3),
    ("nothing as a key", "~: a\n", "a key that is not a word", 1, 1),
    ("true as a key", "true: a\n", "a key that is not a word", 1, 1),
    ("a tag that runs code", "!!python/object/apply:os.system ['ls']\n", "a tag", 1, 1),
    ("a tag of one's own", "a: !x 1\n", "a tag", 1, 4),
    ("binary data", "a: !!binary aGVsbG8=\n", "a tag", 1, 4),
    ("a forced type", "a: !!float 3\n", "a tag", 1, 4),
    ("the plain tag", "a: ! 3\n", "a tag", 1, 4),
    ("a directive", "%YAML 1.2\n---\na: 1\n", "a directive", None, None),
    ("a version that does not exist", "%YAML 1.3\n---\na: 1\n", "a directive", None, None),
    ("a tag directive", "%TAG ! tag:x,2000:\n---\na: 1\n", "a directive", None, None),
    ("two documents", "a: 1\n---\nb: 2\n", "a second document", 2, 1),
    ("a marker only", "---\n", "the file holds no description", 1, 1),
    ("nothing but a comment", "# nothing\n", "the file holds no description", 1, 1),
    ("null", "null\n", "the file holds no description", 1, 1),
    ("UTF-16, little end first", "a: 1\n".encode("utf-16"), "the file is in UTF-16", 1, 1),
    ("UTF-16, big end first", b"\xfe\xff" + "a: 1\n".encode("utf-16-be"), "the file is in UTF-16", 1, 1),
    ("Latin-1", "a: 1\nb: Kühlung\n".encode("latin-1"), "the file is not UTF-8", 2, 5),
    ("Latin-1 behind a sign of two bytes", "é: 1\né: ".encode() + b"\xe9", "the file is not UTF-8", 2, 4),
    ("Latin-1 behind a byte order mark", b"\xef\xbb\xbfa: \xe9", "the file is not UTF-8", 1, 4),
    ("a picture", b"\x89PNG\r\n\x1a\n\x00\x00", "the file is not UTF-8", 1, 1),
    ("a zero byte", "a: 1\0\n", "a zero byte", 1, 5),
    ("an escape character", "a: \x1b[31mred\n", "a character that cannot be seen", 1, 4),
    ("an escape character, escaped", 'a: "\\e[31mred"\n', "a character that cannot be seen", 1, 4),
    ("a bell in a key, escaped", '"a\\a": 1\n', "a character that cannot be seen", 1, 1),
    ("a tab to indent", "a:\n\tb: 1\n", "a tab", 2, 1),
    ("a tab behind a value", "a: 1\t# x\n", "a tab", 1, 5),
    ("an old line end", "a: 1\u0085b: 2\n", "an unusual line end", 1, 5),
    ("a line separator", "a: 1\u2028b: 2\n", "an unusual line end", 1, 5),
    ("a paragraph separator", "a: 1\u2029b: 2\n", "an unusual line end", 1, 5),
    ("a byte order mark inside", "a: 1\n\ufeffb: 2\n", "an invisible mark", 2, 1),
    ("text that runs backwards", "a: \u202egpj.exe\n", "a character that cannot be seen", 1, 4),
    ("text that runs backwards, escaped", 'a: "\\u202egpj"\n', "a character that cannot be seen", 1, 4),
    ("an invisible sign in a key", "ma\u200bss: 1\n", "a character that cannot be seen", 1, 3),
    ("an invisible sign in a key, escaped", '"ma\\u200bss": 1\n', "a character that cannot be seen", 1, 1),
    ("an invisible sign after a wide one", "é²𝄞: \u200b1\n", "a character that cannot be seen", 1, 6),
    ("half a pair of code points", 'a: "\\ud800"\n', None, 1, None),
    ("a quote never closed", "a: 'b\n", "never closed", None, None),
    ("a bracket never closed", "a: [1, 2\n", None, None, None),
    ("a brace never closed", "a: {b: 1\nc: 2\n", None, None, None),
    ("a colon too many", "a: b: c\n", "a colon where none can stand", 1, 5),
    ("a line without its colon", "a: 1\nb\nc: 2\n", "a line without its colon", 3, None),
    ("a line moved to the right", "a: 1\n  b: 2\n", None, 2, None),
    ("a list on the line of its key", "a: - 1\n", "a list that starts on the wrong line", 1, 4),
    ("a line in a list without its dash", "a:\n- 1\nb: [\n", None, None, None),
    ("an unknown escape", 'a: "\\q"\n', "a backslash sequence", 1, None),
    ("a sign that starts no value", "a: @b\n", "a character that cannot start a value", 1, 4),
    ("a text of five thousand letters", "a: " + "x" * 5000, "a text that is too long", 1, 4),
    ("a key of five thousand letters", "x" * 5000 + ": 1", None, None, None),
    ("twenty-one thousand values", "[" + "1," * 21000 + "]", "the file holds too much", 1, None),
    ("twenty thousand keys", "".join(f"k{i}: 1\n" for i in range(20000)), "the file holds too much", 10000, None),
    ("spaces only", " \n  \n", "the file holds no description", 1, 1),
]  # fmt: skip


@pytest.mark.parametrize(
    ("data", "what", "line", "column"), [c[1:] for c in REFUSED], ids=[c[0] for c in REFUSED]
)
def test_refused_with_its_place(
    data: bytes | str, what: str | None, line: int | None, column: int | None
) -> None:
    mistake = mistake_in(data)
    assert what is None or what in mistake.what
    assert line is None or mistake.place.line == line
    assert column is None or mistake.place.column == column
    assert mistake.place.line >= 1
    assert mistake.place.column >= 1
    assert mistake.hint or mistake.expected or mistake.found
    assert len(str(mistake)) < 600


# The pure loader takes seconds over the long ones; what they say does not depend on it.
SHORT = [c for c in REFUSED if len(c[1]) < 20_000]


@pytest.mark.parametrize("loader", LOADERS, ids=lambda loader: loader.__name__)
@pytest.mark.parametrize("case", SHORT, ids=[c[0] for c in SHORT])
def test_both_loaders_refuse_the_same(
    case: tuple[Any, ...], loader: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(reading, "_LOADER", loader)
    mistake_in(case[1])


# --- read as written -------------------------------------------------------------

READ = [
    ("Norway", "a: no", "no"),
    ("on", "a: on", "on"),
    ("off", "a: OFF", "OFF"),
    ("yes", "a: yes", "yes"),
    ("a key called on", "on: 1", {"on": 1}),
    ("a key called no", "no: 1", {"no": 1}),
    ("a time of day", "a: 12:30", "12:30"),
    ("minutes and seconds", "a: 1:30", "1:30"),
    ("a date", "a: 2026-07-01", "2026-07-01"),
    ("nought first", "a: 017", 17),
    ("a hexadecimal number", "a: 0x1F", "0x1F"),
    ("an octal number", "a: 0o17", "0o17"),
    ("underscores", "a: 1_000", "1_000"),
    ("an exponent", "a: 1e3", 1000.0),
    ("a small exponent", "a: 1e-3", 0.001),
    ("an exponent beyond every float", "a: 1e400", "1e400"),
    ("a number that is none", "a: .nan", ".nan"),
    ("an endless number", "a: .inf", ".inf"),
    ("less than an endless number", "a: -.inf", "-.inf"),
    ("minus nought", "a: -0", 0),
    ("thirty digits", "a: " + "1" * 30, "1" * 30),
    ("Arabic digits", "a: ٣", "٣"),
    ("full-width digits", "a: １２", "１２"),
    ("true", "a: true", True),
    ("True", "a: True", "True"),
    ("null", "a: null", None),
    ("a tilde", "a: ~", None),
    ("nothing", "a:", None),
    ("a number in quotes", "a: '1'", "1"),
    ("true in quotes", 'a: "true"', "true"),
    ("nothing in quotes", 'a: ""', ""),
    ("a merge key is a word like any other", "<<: 1", {"<<": 1}),
    ("an equals sign", "a: =", "="),
    ("a value with its unit", "a: 28 kg ± 0.5 kg", "28 kg ± 0.5 kg"),
    ("a range", "a: 26..30 kg", "26..30 kg"),
    ("a colon without a gap", "a: b:c", "b:c"),
    ("a hash without a gap", "a: b#c", "b#c"),
    ("a comment", "a: b # c", "b"),
    ("a text of two lines", "a: |\n  b\n  c\n", "b\nc\n"),
    ("a folded text", "a: >-\n  b\n  c\n", "b c"),
    ("Windows line ends", "a: 1\r\nb: 2\r\n", {"a": 1, "b": 2}),
    ("a byte order mark first", "\ufeffa: 1", 1),
    ("JSON", '{"a": 1.5}', 1.5),
    ("an end marker", "a: 1\n...\n", 1),
    ("a start marker", "---\na: 1\n", 1),
    ("a list", "- 1\n- b\n", [1, "b"]),
    ("a single word", "hello", "hello"),
]  # fmt: skip


@pytest.mark.parametrize("loader", LOADERS, ids=lambda loader: loader.__name__)
@pytest.mark.parametrize(("text", "value"), [c[1:] for c in READ], ids=[c[0] for c in READ])
def test_read_as_written(
    text: str, value: Any, loader: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(reading, "_LOADER", loader)
    found = values_of(text)
    if isinstance(found, dict) and not isinstance(value, dict):
        found = found["a"]
    assert found == value
    assert type(found) is type(value)


def test_keys_that_only_look_alike_are_two() -> None:
    """Composed and decomposed letters differ; both are unknown fields, and both are named."""
    assert len(values_of("\u00e9: 1\ne\u0301: 2\n")) == 2


@pytest.mark.parametrize("loader", LOADERS, ids=lambda loader: loader.__name__)
def test_every_key_and_value_knows_its_place(loader: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(reading, "_LOADER", loader)
    text = "# é\nä²: {b𝄞: 1,\n   c: 'x'}\nd:\n- e\n-   f: |\n     text\n"
    root = read_yaml(("\ufeff" + text).encode(), "a.yaml")

    def at(mark: Any) -> tuple[int, int]:
        place = place_of(mark, "a.yaml")
        return place.line, place.column

    top = root[0]
    assert at(top["ä²"][0]) == (2, 1)
    inner = top["ä²"][1][0]
    assert (at(inner["b𝄞"][0]), at(inner["b𝄞"][1][1])) == ((2, 6), (2, 10))
    assert (at(inner["c"][0]), at(inner["c"][1][1])) == ((3, 4), (3, 7))
    items = top["d"][1][0]
    assert [at(mark) for _, mark in items] == [(5, 3), (6, 5)]
    assert at(items[1][0]["f"][1][1]) == (6, 8)


# --- properties ------------------------------------------------------------------

# Without & * ! |: what the two loaders make of those is refused in any case, but the
# block scalar indicators, whose odd spellings they read differently.
yaml_text = st.lists(
    st.sampled_from(
        [*"ab1: -,[]{}#'\"\n?~.é²e+0%@`>\\=<", "\r\n", "  ", ": ", "- ", "no", "\n  ", "a: "]
    ),
    max_size=40,
).map("".join)


def _with(loader: Any, text: str) -> Any:
    kept = reading._LOADER
    reading._LOADER = loader
    try:
        return ("read", plain(read_yaml(text.encode(), "a.yaml")))
    except Mistakes as error:
        return ("refused", str(error))
    finally:
        reading._LOADER = kept


@pytest.mark.skipif(len(LOADERS) < 2, reason="libyaml is not installed")
@given(yaml_text)
@example("a: 1\nb: [x, {c: 2}]\n")
def test_both_loaders_read_the_same_value_or_one_refuses(text: str) -> None:
    one, other = (_with(loader, text) for loader in LOADERS)
    if one[0] == other[0] == "read":
        assert one == other


@given(yaml_text)
def test_any_text_is_read_or_refused(text: str) -> None:
    kind, found = _with(reading._LOADER, text)
    if kind == "refused":
        assert found.startswith("a.yaml:")
    else:
        _finite(found)


@given(st.binary(max_size=60))
@example(b"\xef\xbb\xbf")
@example(b"\xff\xfe")
def test_any_bytes_are_read_or_refused(data: bytes) -> None:
    mistakes: tuple[Mistake, ...] = ()
    try:
        read_yaml(data, "a.yaml")
    except Mistakes as error:
        mistakes = error.mistakes
    assert all(m.place.line >= 1 and m.place.column >= 1 for m in mistakes)


def _finite(value: Any) -> None:
    if isinstance(value, dict):
        value = list(value.values())
    if isinstance(value, list):
        for inner in value:
            _finite(inner)
    elif isinstance(value, float):
        assert math.isfinite(value)


trees = st.recursive(
    st.one_of(
        st.none(),
        st.booleans(),
        st.integers(-(10**14), 10**14),
        st.text(st.characters(codec="utf-8", categories=("L", "N", "P", "S")), max_size=12),
    ),
    lambda inner: st.one_of(
        st.lists(inner, max_size=4),
        st.dictionaries(st.text("abcdefgh_", min_size=1, max_size=8), inner, max_size=4),
    ),
    max_leaves=12,
)


@given(
    st.dictionaries(st.text("abc", min_size=1, max_size=4), trees, min_size=1, max_size=4),
    st.booleans(),
)
def test_what_a_dumper_writes_is_read_back(tree: Any, flow: bool) -> None:
    text = yaml.safe_dump(tree, default_flow_style=flow, allow_unicode=True)
    assert values_of(text) == tree


# --- files -----------------------------------------------------------------------


def refusal(path: str) -> Mistake:
    with pytest.raises(Mistakes) as caught:
        read_bytes(path)
    return caught.value.mistakes[0]


def test_a_file_is_read_whole(tmp_path: Path) -> None:
    path = tmp_path / "a.yaml"
    path.write_bytes(b"a: 1\r\n")
    assert read_bytes(str(path)) == b"a: 1\r\n"


def test_a_link_to_a_file_is_read(tmp_path: Path) -> None:
    (tmp_path / "a.yaml").write_text("a: 1")
    (tmp_path / "b.yaml").symlink_to("a.yaml")
    assert read_bytes(str(tmp_path / "b.yaml")) == b"a: 1"


def test_a_missing_file_names_its_neighbour(tmp_path: Path) -> None:
    (tmp_path / "cell-one.yaml").write_text("a: 1")
    mistake = refusal(str(tmp_path / "cell-onne.yaml"))
    assert mistake.what == "there is no such file"
    assert "cell-one.yaml" in mistake.hint


@pytest.mark.parametrize("name", ["", "no/such/folder/a.yaml", "x" * 5000])
def test_a_name_that_leads_nowhere(name: str) -> None:
    assert refusal(name).what


def test_a_link_that_leads_to_itself(tmp_path: Path) -> None:
    (tmp_path / "a.yaml").symlink_to("a.yaml")
    assert "cannot be read" in refusal(str(tmp_path / "a.yaml")).what


def test_a_folder(tmp_path: Path) -> None:
    mistake = refusal(str(tmp_path))
    assert mistake.what == "this is a folder"
    assert "audit" in mistake.hint


def test_a_pipe_that_nobody_writes_to_does_not_hang(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.yaml")
    assert refusal(str(tmp_path / "pipe.yaml")).what == "this is not a file"


def test_an_endless_device() -> None:
    assert refusal("/dev/zero").what == "this is not a file"


def test_a_file_that_may_not_be_read(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: Any) -> int:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(os, "open", refuse)
    mistake = refusal("a.yaml")
    assert mistake.what == "the file may not be read"


def test_a_disk_that_fails(monkeypatch: pytest.MonkeyPatch) -> None:
    def fail(*_: Any) -> int:
        raise OSError(5, "Input/output error")

    monkeypatch.setattr(os, "open", fail)
    assert "Input/output error" in refusal("a.yaml").what


@pytest.mark.parametrize("content", [b"", b" \n\n"])
def test_an_empty_file(tmp_path: Path, content: bytes) -> None:
    (tmp_path / "a.yaml").write_bytes(content)
    assert refusal(str(tmp_path / "a.yaml")).what == "the file is empty"


def test_a_file_of_exactly_the_limit_and_one_byte_more(tmp_path: Path) -> None:
    path = tmp_path / "a.yaml"
    path.write_bytes(b"#" * MAX_BYTES)
    assert len(read_bytes(str(path))) == MAX_BYTES
    path.write_bytes(b"#" * (MAX_BYTES + 1))
    assert refusal(str(path)).what == "the file is too large"


def test_the_place_of_an_unwanted_sign_counts_every_line_end() -> None:
    with pytest.raises(Mistakes) as caught:
        read_text(b"a\r\nb\rc\n\xc3\xa9\x00", "a.yaml")
    place = caught.value.mistakes[0].place
    assert (place.line, place.column) == (4, 2)
