"""Bad YAML as a description: each is refused with what is wrong and where, or read as what it says.

What the reader itself does with each is tested in tests/test_reading.py; here the same files
go all the way, one by one to a report and all together to an audit.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from attacks import command
from campaign import told_well

from checker.errors import Mistakes
from checker.installation.binding import bind

HEAD = "job: {stage: plan, title: a title}\nmount: {kind: side-post}\n"
BOMB = "a: &a [x, x]\n" + "".join(
    f"{b}: &{b} [{', '.join([f'*{a}'] * 9)}]\n" for a, b in zip("abcdefgh", "bcdefghi", strict=True)
)

# What it is, the file, what the message says, the line.
REFUSED: list[tuple[str, str | bytes, str, int]] = [
    ("twenty thousand open brackets", "[" * 20000, "nested too deeply", 1),
    ("open brackets and stars", "['*" * 20000, "an anchor or alias sign", 1),
    ("nine hundred levels in one line", HEAD + "work: " + "[" * 900 + "]" * 900, "nested too deeply", 3),
    ("a thousand levels of blocks", "\n".join(" " * i + "a:" for i in range(1000)), "nested too deeply", 33),
    ("two thousand levels of blocks", "\n".join("  " * i + "a:" for i in range(2000)), "the file is too large", 0),
    ("three thousand dashes", "- " * 3000, "nested too deeply", 1),
    ("a lol bomb", BOMB, "an anchor", 1),
    ("an anchor that holds itself", HEAD + "work: &a [*a]\n", "an anchor", 3),
    ("a merge bomb", HEAD + "work: {<<: [*a, *a]}\n", "an alias", 3),
    ("a merge key", HEAD + "work: {<<: {a: 1}}\n", "unknown field '<<' in work", 3),
    ("a key twice at the root", HEAD + "job: {stage: fitted}\n", "'job' stands here a second time", 3),
    ("a key twice below", HEAD + "collector:\n  mass: 4 kg\n  mass: 400 kg\n", "'mass' stands here a second time", 5),
    ("a key twice behind a merge key", HEAD + "collector: {<<: {}, mass: 4 kg, mass: 5 kg}\n", "'mass' stands here a second time", 3),
    ("a number as a key, and the same as a text", HEAD + "1: a\n'1': b\n", "a key that is not a word", 3),
    ("a key composed and decomposed", HEAD + "\u00e9: 1\ne\u0301: 2\n", "unknown field 'é'", 3),
    ("a list as a key", HEAD + "? [1, 2]\n: x\n", "a key that is not a word", 3),
    ("nothing as a key", HEAD + "~: x\n", "a key that is not a word", 3),
    ("an empty key", HEAD + ": x\n", "a line that is indented differently from its neighbours", 3),
    ("on as a key, which stays a word", HEAD + "on: x\n", "unknown field 'on'", 3),
    ("an object of Python", HEAD + "work: !!python/object/apply:os.system ['true']\n", "a tag", 3),
    ("a name of Python", HEAD + "work: !!python/name:os.system\n", "a tag", 3),
    ("a tag of one's own", HEAD + "work: !x {}\n", "a tag", 3),
    ("binary data", HEAD + "work: !!binary aGVsbG8=\n", "a tag", 3),
    ("a forced number", HEAD + "collector: {mass: !!float 3}\n", "a tag", 3),
    ("two documents", HEAD + "---\n" + HEAD, "a second document", 3),
    ("a marker only", "---\n", "the file holds no description", 1),
    ("nothing", "", "the file is empty", 0),
    ("spaces", " " * 100 + "\n", "the file is empty", 0),
    ("a single word", "hello\n", "the description is not a group of fields", 1),
    ("a number", "42\n", "the description is not a group of fields", 1),
    ("a list", "- a\n- b\n", "the description is not a group of fields", 1),
    ("UTF-16", HEAD.encode("utf-16"), "the file is in UTF-16", 1),
    ("UTF-16 without its mark", HEAD.encode("utf-16-le"), "a zero byte", 1),
    ("UTF-32", HEAD.encode("utf-32"), "the file is in UTF-16", 1),
    ("Latin-1", (HEAD + "work: Kühl\n").encode("latin-1"), "the file is not UTF-8", 3),
    ("half a pair of code points in bytes", HEAD.encode() + b"work: \xed\xa0\x80\n", "the file is not UTF-8", 3),
    ("a code point written too long", HEAD.encode() + b"work: \xc0\xaf\n", "the file is not UTF-8", 3),
    ("a zero byte", HEAD + "work: \0\n", "a zero byte", 3),
    ("an escape character", HEAD + "work: \x1b[2J\n", "a character that cannot be seen", 3),
    ("an escape character, escaped", HEAD.replace("a title", '"\\x1b[2J"'), "a character that cannot be seen", 1),
    ("a next-line sign", HEAD + "work: a\x85b\n", "an unusual line end", 3),
    ("a line separator", HEAD + "work: a\u2028b\n", "an unusual line end", 3),
    ("a lone surrogate, escaped", HEAD.replace("a title", '"\\ud800"'), "", 1),
    ("a pair of surrogates, escaped one by one", HEAD.replace("a title", '"\\ud83d\\ude00"'), "", 1),
    ("text turned round", HEAD.replace("a title", "a\u202egpj"), "a character that cannot be seen", 1),
    ("an isolate", HEAD.replace("a title", "a\u2066b"), "a character that cannot be seen", 1),
    ("a tab to indent", "job:\n\tstage: plan\n", "a tab", 2),
    ("a tab behind the colon", "job:\n  stage:\tplan\n", "a tab", 2),
    ("a quote that is never closed", HEAD + "work: 'a\n", "never closed", 0),
    ("a bracket that is never closed", HEAD + "work: {a: [\n", "", 0),
    ("a key of two thousand letters", HEAD + "k" * 2000 + ": 1\n", "a line without its colon", 0),
    ("a key of one thousand letters", HEAD + "k" * 1000 + ": 1\n", "unknown field 'kkk", 3),
    ("twenty thousand keys", "".join(f"k{i}: 1\n" for i in range(20000)), "the file holds too much", 10000),
    ("a mebibyte of spaces", HEAD + " " * 1024 * 1024, "the file is too large", 0),
    ("a version directive", "%YAML 1.3\n---\n" + HEAD, "a directive", 0),
    ("a tag directive", "%TAG ! tag:x,2000:\n---\n" + HEAD, "a directive", 0),
    ("a text of five thousand letters", HEAD.replace("a title", "x" * 5000), "a text that is too long", 1),
]  # fmt: skip


def refusal(data: bytes) -> Mistakes:
    with pytest.raises(Mistakes) as caught:
        bind(data, "plan.yaml")
    return caught.value


def as_bytes(data: str | bytes) -> bytes:
    return data if isinstance(data, bytes) else data.encode()


@pytest.mark.parametrize(
    ("data", "what", "line"), [c[1:] for c in REFUSED], ids=[c[0] for c in REFUSED]
)
def test_refused(data: str | bytes, what: str, line: int, tmp_path: Path) -> None:
    path = tmp_path / "plan.yaml"
    path.write_bytes(as_bytes(data))
    left = command("check", path)
    assert left.status == 3
    assert left.out == ""
    told_well(left.err)
    assert what in left.err.splitlines()[0]
    assert left.err.startswith(f"{path}:{line}:" if line else str(path))


def test_all_of_them_in_one_audit(tmp_path: Path) -> None:
    """One bad file ends nothing: each is a job that could not be read, and says why."""
    for i, (_, data, _, _) in enumerate(REFUSED):
        (tmp_path / f"{i:03}.yaml").write_bytes(as_bytes(data))
    (tmp_path / "fine.yaml").write_text(HEAD, encoding="utf-8")
    left = command("audit", tmp_path, "--format", "jsonl")
    assert left.status == 3
    jobs = [json.loads(line) for line in left.out.splitlines()[:-1]]
    unread = [job for job in jobs if job["verdict"] == "unread"]
    assert len(unread) == len(REFUSED)
    assert len(jobs) == len(REFUSED) + 1
    assert all(job["error"] and not job["findings"] for job in unread)


# What it is, the file, the field, its value.
READ: list[tuple[str, str, str, Any]] = [
    ("a byte order mark", "\ufeff" + HEAD, "job.title", "a title"),
    ("Windows line ends", HEAD.replace("\n", "\r\n"), "job.title", "a title"),
    ("line ends of long ago", HEAD.replace("\n", "\r"), "job.title", "a title"),
    ("no line end at the end", HEAD.rstrip(), "mount.kind", "side-post"),
    ("a start marker", "---\n" + HEAD, "job.title", "a title"),
    ("an end marker", HEAD + "...\n", "job.title", "a title"),
    ("no stays a text", HEAD.replace("a title", "no"), "job.title", "no"),
    ("a time of day stays a text", HEAD.replace("a title", "12:30"), "job.title", "12:30"),
    ("a number in quotes stays a text", HEAD.replace("a title", "'017'"), "job.title", "017"),
    ("a text over two lines", HEAD.replace("a title", '"a\n  title"'), "job.title", "a title"),
    ("a letter of two code points", HEAD.replace("a title", "e\u0301"), "job.title", "e\u0301"),
    ("a letter beyond the first plane", HEAD.replace("a title", "𝄞"), "job.title", "𝄞"),
    ("a comment with anything in it", HEAD + "# &a *a !x \u00e9 {[\n", "job.title", "a title"),
    ("nothing behind a name", HEAD + "collector: {mass: ~}\nwork:\n", "job.title", "a title"),
]


@pytest.mark.parametrize(("text", "path", "value"), [c[1:] for c in READ], ids=[c[0] for c in READ])
def test_read(text: str, path: str, value: Any) -> None:
    assert bind(text.encode(), "plan.yaml").value(path) == value


def test_a_number_that_looks_like_a_text_is_no_title() -> None:
    """A text field takes what is written; an unquoted number is a number to YAML."""
    message = str(refusal(HEAD.replace("a title", "017").encode()))
    assert "job.title" in message
    assert "quotes" in message
