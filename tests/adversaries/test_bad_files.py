"""Files that are none, that do not end, that change, and the limits that a run stays within."""

from __future__ import annotations

import builtins
import contextlib
import hashlib
import json
import marshal
import math
import os
import re
import resource
import shutil
import sqlite3
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any, NamedTuple

import pytest
from attacks import PLAN, command, honest_lines, remembered
from campaign import told_well
from mutations import ROOT
from test_bad_yaml import BOMB, HEAD

from checker import reading
from checker.errors import Mistakes
from checker.reading import read_bytes
from checker.rulebook.loading import load_rulebook
from checker.rulebook.overlays import find_overlay

# --- what stands where a description should --------------------------------------


def _missing(at: Path) -> None:
    del at


def _folder(at: Path) -> None:
    at.mkdir()


def _pipe(at: Path) -> None:
    os.mkfifo(at)


def _dangling(at: Path) -> None:
    at.symlink_to("nowhere.yaml")


def _circle(at: Path) -> None:
    at.symlink_to(at.name)


def _device(at: Path) -> None:
    at.symlink_to("/dev/zero")


def _empty_device(at: Path) -> None:
    at.symlink_to("/dev/null")


def _large(at: Path) -> None:
    with at.open("wb") as file:
        file.truncate(10 * 1024**3)


NO_FILES: list[tuple[str, Callable[[Path], None], str]] = [
    ("a file that is missing", _missing, "there is no such file"),
    ("a folder", _folder, "this is a folder"),
    ("a pipe that nobody writes to", _pipe, "this is not a file"),
    ("a link to nothing", _dangling, "there is no such file"),
    ("a link to itself", _circle, "the file cannot be read"),
    ("a link to a device that never ends", _device, "this is not a file"),
    ("a link to a device that is empty", _empty_device, "this is not a file"),
    ("ten gibibytes of nothing", _large, "the file is too large"),
]


@pytest.mark.parametrize(("make", "what"), [c[1:] for c in NO_FILES], ids=[c[0] for c in NO_FILES])
@pytest.mark.parametrize("use", ["check", "sheet", "site file", "window", "working", "audit"])
def test_in_the_place_of_a_file(
    make: Callable[[Path], None], what: str, use: str, tmp_path: Path
) -> None:
    path = tmp_path / "plan.yaml"
    make(path)
    (tmp_path / "honest").mkdir()
    honest = tmp_path / "honest" / "honest.yaml"
    honest.write_text(HEAD, encoding="utf-8")
    match use:
        case "site file":
            left = command("check", honest, "--fitted", path)
        case "window":
            left = command("window", path, "collector.mass")
        case "working":
            left = command("working", path, "load/host-capacity")
        case _:
            left = command(use, path)
    assert left.status == 3
    told = left.err or left.out
    assert what in told or use == "audit"
    told_well(left.err or left.out)


def test_a_file_that_may_not_be_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "plan.yaml"
    path.write_text(HEAD, encoding="utf-8")
    path.chmod(0)
    if os.geteuid() == 0:
        # The superuser may read everything; what others meet is put in its place.
        def refuse(*_: Any) -> int:
            raise PermissionError(13, "Permission denied")

        monkeypatch.setattr(reading.os, "open", refuse)
    left = command("check", path)
    assert left.status == 3
    assert "the file may not be read" in left.err


def test_a_file_that_is_replaced_while_it_is_read(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The bytes are those of one file, the old one, whole."""
    path = tmp_path / "plan.yaml"
    old, new = b"a: 1\n" * 50_000, b"b: 2\n" * 50_000
    path.write_bytes(old)
    (tmp_path / "new.yaml").write_bytes(new)
    opened = os.fdopen

    def replace_first(*arguments: Any, **options: Any) -> Any:
        (tmp_path / "new.yaml").replace(path)
        return opened(*arguments, **options)

    monkeypatch.setattr(reading.os, "fdopen", replace_first)
    assert read_bytes(str(path)) == old
    monkeypatch.undo()
    assert read_bytes(str(path)) == new


@pytest.mark.parametrize("length", [0, 1, 100, len(HEAD) - 3, 5000, 20_000])
def test_a_file_that_is_cut_short_while_it_is_written(length: int, tmp_path: Path) -> None:
    path = tmp_path / "plan.yaml"
    path.write_bytes(PLAN[:length])
    left = command("check", path, "--brief")
    assert left.status in (0, 1, 3)
    assert (left.status == 3) is bool(left.err)


@pytest.mark.parametrize("data", [b"", b"\xff\xfe", b"\0" * 100, b"job", HEAD.encode()])
def test_on_standard_input(data: bytes) -> None:
    left = command("check", "-", stdin=data)
    assert left.status in (1, 3)
    assert "<standard input>" in left.out + left.err


def test_a_closed_standard_input(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "stdin", None)
    with pytest.raises(Mistakes, match="nothing came on standard input"):
        read_bytes("-")


# --- names of files --------------------------------------------------------------

NAMES = {
    "a screen sequence": "\x1b[31mred.yaml", "two lines": "two\nlines.yaml", "text turned round": "\u202elmay.exe.yaml", "a tab": "a\tb.yaml", "a space": "a b.yaml",
    "a formula": "=cmd()|'calc'!A0.yaml", "markup": "<script>alert(1)<.yaml", "a command of a build server": "::error::x.yaml", "the end of a section": "]]>.yaml",
    "quotes and a comma": "a,\"b'.yaml", "a percent sign": "%0A%s.yaml", "backticks and bars": "`x`|y.yaml", "a dash in front": "-o.yaml", "three hundred letters": "x" * 240 + ".yaml",
    "no Unicode": os.fsdecode(b"\xff\xfe.yaml"), "another script": "план 計画.yaml", "a name of a folder above": "..plan.yaml",
}  # fmt: skip


@pytest.fixture(scope="module")
def strangely_named() -> Iterator[Path]:
    with tempfile.TemporaryDirectory() as folder:
        for i, name in enumerate(NAMES.values()):
            (Path(folder) / name).write_text(HEAD if i % 2 else "not a plan", encoding="utf-8")
        yield Path(folder)


@pytest.mark.parametrize("form", ["text", "json", "jsonl", "csv", "junit", "sarif", "html"])
def test_strange_names_of_files_in_an_audit(form: str, strangely_named: Path) -> None:
    left = command("audit", strangely_named, "--format", form)
    assert left.status == 3
    # Nothing that moves a cursor or turns text round; line ends are those of the format.
    assert not re.search(r"[\x00-\x09\x0b-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069]", left.out.replace("\t", "") if form == "html" else left.out)  # fmt: skip
    assert "<script>alert" not in left.out or form not in ("html", "junit")
    if form == "jsonl":
        assert len(left.out.splitlines()) == len(NAMES) + 1
    if form in ("json", "sarif"):
        json.loads(left.out)
    if form == "csv":
        assert not re.search(r"(?m)^=|,=", left.out)


@pytest.mark.parametrize("name", NAMES.values(), ids=NAMES)
def test_a_strange_name_in_a_check(name: str, strangely_named: Path) -> None:
    left = command("check", strangely_named / name, "--brief")
    assert left.status in (1, 3)
    shown = left.out + left.err
    assert not re.search(r"[\x00-\x09\x0b-\x1f\x7f-\x9f\u202a-\u202e]", shown)
    assert "Traceback" not in shown


# --- files of a rulebook ---------------------------------------------------------


def _rules(folder: Path) -> Path:
    shutil.copytree(ROOT / "tests" / "data" / "bench", folder / "rules")
    return folder / "rules"


RULE_FILES: list[tuple[str, Callable[[Path], None], str]] = [
    ("a folder", lambda at: at.mkdir(), "this is a folder"),
    ("a pipe", os.mkfifo, "this is not a file"),
    ("a link to nothing", lambda at: at.symlink_to("nowhere"), "there is no such file"),
    ("a link to a device", lambda at: at.symlink_to("/dev/zero"), "this is not a file"),
    ("nothing", lambda at: at.write_bytes(b""), "the file is empty"),
    ("a picture", lambda at: at.write_bytes(b"\x89PNG\r\n\x1a\n\0"), "the file is not UTF-8 text"),
    ("a bomb", lambda at: at.write_text(BOMB), "an anchor"),
]


@pytest.mark.parametrize(
    ("make", "what"), [c[1:] for c in RULE_FILES], ids=[c[0] for c in RULE_FILES]
)
@pytest.mark.parametrize("place", ["load/x.yaml", "tables/x.yaml", "derived/x.yaml", "sources/x.yaml"])  # fmt: skip
def test_in_the_place_of_a_file_of_the_rules(
    make: Callable[[Path], None], what: str, place: str, tmp_path: Path
) -> None:
    rules = _rules(tmp_path)
    (rules / place).parent.mkdir(exist_ok=True)
    make(rules / place)
    with pytest.raises(Mistakes, match=what) as caught:
        load_rulebook([rules], shipped=False)
    told_well(str(caught.value))


@pytest.mark.parametrize("name", ["\x1b[2J.yaml", "a\nb.yaml", os.fsdecode(b"\xff.yaml"), "\u202ea.yaml"], ids=ascii)  # fmt: skip
@pytest.mark.parametrize("place", ["load", "tables", "derived", "local/x"])
def test_a_name_of_a_rule_that_cannot_be_shown(name: str, place: str, tmp_path: Path) -> None:
    """A rule's name is printed in every finding: it is refused where it cannot be."""
    rules = _rules(tmp_path)
    (rules / place).mkdir(exist_ok=True, parents=True)
    shutil.copy(rules / "load" / "capacity.yaml", rules / place / name)
    with pytest.raises(Mistakes, match="a file's name with a character that cannot") as caught:
        load_rulebook([rules], shipped=False)
    told_well(str(caught.value))


def test_a_spoilt_rulebook_stops_the_command(tmp_path: Path) -> None:
    rules = _rules(tmp_path)
    (rules / "load" / "x.yaml").write_bytes(b"\x89PNG\r\n\x1a\n\0")
    (tmp_path / "plan.yaml").write_text(HEAD, encoding="utf-8")
    left = command("check", tmp_path / "plan.yaml", "--rules", rules)
    assert left.status == 3
    assert "x.yaml:1:1: the file is not UTF-8 text" in left.err


def test_an_overlay_that_would_walk_out_of_its_folder(tmp_path: Path) -> None:
    (tmp_path / "outside.yaml").write_text("title: x\n", encoding="utf-8")
    rules = tmp_path / "rules"
    (rules / "local").mkdir(parents=True)
    (rules / "local" / "GB.yaml").write_text("title: x\n", encoding="utf-8")
    assert find_overlay("GB", [rules]).name == "GB"
    for name in ("../../outside", "/etc/passwd", "..", ".", "", "GB/../GB", "GB\0", "x" * 5000, "*", "GB.yaml"):  # fmt: skip
        with pytest.raises(Mistakes, match="there is no local overlay") as caught:
            find_overlay(name, [rules])
        assert max(map(len, str(caught.value).split("\n"))) < 200


@pytest.mark.parametrize("name", ["../GB", "/etc/passwd", "x" * 4000, "..", "GB.yaml", "*"], ids=lambda n: n[:12])  # fmt: skip
def test_an_overlay_named_by_a_description(name: str) -> None:
    left = command("check", "-", stdin=HEAD.replace("plan,", f"plan, local: '{name}',").encode())
    assert left.status == 3
    assert "there is no local overlay" in left.err
    told_well(left.err)


# --- what earlier runs left ------------------------------------------------------


@pytest.mark.parametrize("make", [_folder, _dangling, _circle, _device, _empty_device, _pipe])
@pytest.mark.parametrize("use", ["--against", "merge", "--from"])
def test_in_the_place_of_an_earlier_audit(
    make: Callable[[Path], None], use: str, tmp_path: Path
) -> None:
    if make is _empty_device and use == "--from":
        pytest.skip("a list of nothing is the answer of another program, and an answer")
    if make is _pipe:
        pytest.skip("a pipe is waited for, as every program does: it may be another's output")
    path = tmp_path / "earlier.jsonl"
    make(path)
    (tmp_path / "plan.yaml").write_text(HEAD, encoding="utf-8")
    if use == "merge":
        left = command("merge", path)
    elif use == "--from":
        left = command("audit", "--from", path)
    else:
        left = command("audit", tmp_path / "plan.yaml", use, path)
    assert left.status in (2, 3), left
    told_well(left.err)


@pytest.mark.parametrize("make", [_folder, _circle, _device, _empty_device])
def test_in_the_place_of_a_memory(make: Callable[[Path], None], tmp_path: Path) -> None:
    """An audit goes on without its memory, and says so."""
    path = tmp_path / "memory"
    make(path)
    (tmp_path / "plan.yaml").write_text(HEAD, encoding="utf-8")
    left = command("audit", tmp_path / "plan.yaml", "--memory", path)
    assert left.status == 1
    assert "not used" in left.err
    assert "every job is judged afresh" in left.err


def test_a_memory_of_another_shape(tmp_path: Path) -> None:
    """Ours by its mark, but with other columns: an older or a hostile one."""
    (tmp_path / "plan.yaml").write_text(HEAD, encoding="utf-8")
    for statement in (
        "CREATE TABLE results (key, value)",
        "CREATE VIEW results AS SELECT 1 AS key, 2 AS rules, 3 AS line, 4 AS sum",
        "CREATE TABLE results (key BLOB PRIMARY KEY, rules BLOB, line TEXT, sum BLOB)",
        "CREATE TABLE asked (rules TEXT)",
        "CREATE TRIGGER t AFTER INSERT ON asked BEGIN SELECT RAISE(ABORT, 'no'); END",
    ):
        path = tmp_path / "memory"
        path.unlink(missing_ok=True)
        with contextlib.closing(sqlite3.connect(path)) as connection:
            connection.execute("PRAGMA application_id = 1298756468")
            connection.execute("PRAGMA user_version = 2")
            with contextlib.suppress(sqlite3.Error):
                connection.execute(statement)
            connection.commit()
        left = command("audit", tmp_path / "plan.yaml", "--memory", path)
        assert left.status == 1, (statement, left.err)
        assert "confirm" in left.out


def _whole(content: object) -> bytes:
    """A kept file of something else, with the digest that belongs to it."""
    packed = marshal.dumps(content)
    return hashlib.sha256(packed).digest() + packed


_SPOILT: list[tuple[str, Callable[[Path], Any]]] = [
    ("nothing", lambda e: e.write_bytes(b"")),
    ("half of it", lambda e: e.write_bytes(e.read_bytes()[: e.stat().st_size // 2])),
    ("all but the last byte", lambda e: e.write_bytes(e.read_bytes()[:-1])),
    ("one byte more", lambda e: e.write_bytes(e.read_bytes() + b"\0")),
    ("one bit changed", lambda e: e.write_bytes(e.read_bytes()[:-9] + bytes([e.read_bytes()[-9] ^ 1]) + e.read_bytes()[-8:])),
    ("zeros", lambda e: e.write_bytes(bytes(e.stat().st_size))),
    ("a folder", lambda e: (e.unlink(), e.mkdir())),
    ("a link to a device", lambda e: (e.unlink(), e.symlink_to("/dev/null"))),
    ("a file that others may write to", lambda e: (e.write_bytes(_whole({})), e.chmod(0o666))),
]  # fmt: skip


@pytest.mark.parametrize("spoil", [c[1] for c in _SPOILT], ids=[c[0] for c in _SPOILT])
def test_a_cache_with_something_else_in_it(spoil: Callable[[Path], Any]) -> None:
    """The rules are read again from their files, which is slower, and no less right."""

    def every(home: Path) -> None:
        for entry in home.iterdir():
            spoil(entry)

    found = remembered(every)
    assert [rule.name for rule in found.rules] == ["load/capacity"]


def test_a_cache_that_others_may_write_to_is_not_used() -> None:
    def share(home: Path) -> None:
        for entry in home.iterdir():
            entry.write_bytes(_whole({"code": compile("raise SystemExit('run')", "x", "exec")}))
        home.chmod(0o777)

    assert [rule.name for rule in remembered(share).rules] == ["load/capacity"]


# --- where nothing can be written ------------------------------------------------


def test_no_room_for_the_output(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A full disk: one line, and what stood there before still stands there."""
    plan, out = tmp_path / "plan.yaml", tmp_path / "report.json"
    plan.write_text(HEAD, encoding="utf-8")
    out.write_text("before", encoding="utf-8")

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("checker.writing.os.fsync", full)
    left = command("check", plan, "--format", "json", "--output", out)
    assert left.status == 3
    assert "No space left on device" in left.err
    assert out.read_text(encoding="utf-8") == "before"
    assert sorted(p.name for p in tmp_path.iterdir()) == ["plan.yaml", "report.json"]


@pytest.mark.parametrize("where", ["no/such/folder/report.json", "plan.yaml/report.json", "/proc/report.json", "/dev/full"])  # fmt: skip
def test_no_place_for_the_output(where: str, tmp_path: Path) -> None:
    plan = tmp_path / "plan.yaml"
    plan.write_text(HEAD, encoding="utf-8")
    left = command("check", plan, "--format", "json", "--output", tmp_path / where)
    assert left.status == 3
    assert "cannot be written" in left.err
    told_well(left.err)


def test_the_input_is_not_written_over(tmp_path: Path) -> None:
    plan = tmp_path / "plan.yaml"
    plan.write_text(HEAD, encoding="utf-8")
    (tmp_path / "link.yaml").symlink_to("plan.yaml")
    for out in ("plan.yaml", "link.yaml", "./plan.yaml"):
        assert command("check", plan, "--output", tmp_path / out).status == 2
    assert plan.read_text(encoding="utf-8") == HEAD


# --- within limits: real processes -----------------------------------------------


class Ran(NamedTuple):
    status: int
    out: bytes
    err: str
    seconds: float
    megabytes: float


# Of address space, which is several times what is in use; of a processor's own seconds.
_SPACE, _SECONDS = 1024 * 1024**2, 20


# What the system counts for a child would hold what this process used before it became one.
_MEASURED = """
import atexit, re, runpy, sys
def told():
    sys.stderr.write(re.search("VmHWM:.*", open("/proc/self/status").read())[0])
atexit.register(told)
sys.argv[0] = "mistwright"
runpy.run_module("checker", run_name="__main__")
"""


def limited(*arguments: str | Path, stdin: Any = subprocess.DEVNULL) -> Ran:
    """The command in a process of its own under hard limits, and what it used."""

    def limit() -> None:
        resource.setrlimit(resource.RLIMIT_AS, (_SPACE, _SPACE))
        resource.setrlimit(resource.RLIMIT_CPU, (_SECONDS, _SECONDS))
        resource.setrlimit(resource.RLIMIT_CORE, (0, 0))

    with tempfile.TemporaryFile() as out, tempfile.TemporaryFile() as err:
        process = subprocess.Popen(
            [sys.executable, "-c", _MEASURED, *map(str, arguments)],
            cwd=ROOT, stdin=stdin, stdout=out, stderr=err, preexec_fn=limit,  # noqa: PLW1509 - no other thread runs here
        )  # fmt: skip
        _, status, used = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
        out.seek(0)
        err.seek(0)
        told, _, peak = err.read().decode().rpartition("VmHWM:")
        megabytes = float(peak.split()[0]) / 1024 if peak else math.inf
        return Ran(process.returncode, out.read(), told, used.ru_utime + used.ru_stime, megabytes)


@pytest.fixture(scope="module")
def usual(tmp_path_factory: pytest.TempPathFactory) -> Ran:
    """An honest run, once the rules are kept: what the others are held against."""
    path = tmp_path_factory.mktemp("usual") / "plan.yaml"
    path.write_bytes(PLAN)
    limited("check", path)
    return limited("check", path)


_HEAVY = {
    "an honest plan": PLAN,
    "twenty thousand open brackets": b"[" * 20_000,
    "a lol bomb": BOMB.encode(),
    "a mebibyte of letters": HEAD.encode() + b"x" * (1024 * 1024 - 100),
    "a mebibyte of keys": "".join(f"key{i}: 1\n" for i in range(70_000)).encode()[: 1024 * 1024],
    "a mebibyte of quotes": HEAD.encode() + b"'\"" * 500_000,
    "a mebibyte of commas": HEAD.encode() + b"work: [" + b"," * 1_000_000,
    "a mebibyte of line ends": HEAD.encode() + b"\n" * 1_000_000,
    "a mebibyte of hashes": HEAD.encode() + b"#" * 1_000_000,
    "a mebibyte of tabs": HEAD.encode() + b"\t" * 1_000_000,
    "a mebibyte of dashes": HEAD.encode() + b"- " * 500_000,
    "nineteen thousand unknown fields": ("".join(f"k{i}: 1\n" for i in range(9_900))).encode(),
    "nineteen thousand misspelt fields": (HEAD + "collector: {" + ", ".join(f"mas{i}: 1" for i in range(9_000)) + "}\n").encode(),
    "five thousand wrong values": (HEAD + "collector: {fan_curve: [" + ", ".join("{flow: x, pressure: y}" for _ in range(60)) + "]}\n").encode(),
}  # fmt: skip


@pytest.mark.slow
@pytest.mark.parametrize("data", _HEAVY.values(), ids=_HEAVY)
def test_within_the_limits(data: bytes, tmp_path: Path, usual: Ran) -> None:
    """An answer or a message, within 200 MB; the work is held against that of an honest plan."""
    path = tmp_path / "plan.yaml"
    path.write_bytes(data)
    ran = limited("check", path)
    assert ran.status in (0, 1, 3), ran.err[-500:]
    assert "Traceback" not in ran.err
    assert ran.megabytes < 200
    assert len(ran.err) < 50_000
    print(f"{ran.seconds:.2f} s ({ran.seconds / usual.seconds:.1f} x an honest plan), {ran.megabytes:.0f} MB, {len(ran.err)} letters of message")  # fmt: skip


@pytest.mark.slow
@pytest.mark.parametrize(
    "arguments",
    [
        ("check", "-"), ("sheet", "-"), ("window", "-", "collector.mass"), ("audit", "--from", "-"), ("audit", "--from", "/dev/zero"),
        ("merge", "/dev/zero"), ("audit", "fixtures/grinder-roof-plate.yaml", "--against", "/dev/zero"), ("check", "/dev/zero"), ("check", "/dev/stdin"),
    ],
    ids=" ".join,
)  # fmt: skip
def test_what_never_ends_is_not_waited_for(arguments: tuple[str, ...]) -> None:
    with Path("/dev/zero").open("rb") as zeros:
        ran = limited(*arguments, stdin=zeros)
    assert ran.status in (2, 3), (ran.status, ran.err[-500:])
    assert "Traceback" not in ran.err
    assert ran.megabytes < 300
    told_well(ran.err)


@pytest.mark.slow
@pytest.mark.parametrize("form", ["text", "json", "html", "sarif"])
def test_a_reader_that_goes_away(form: str, tmp_path: Path) -> None:
    """A closed pipe: no traceback, no word, and not the status of a plan that is ready."""
    path = tmp_path / "plan.yaml"
    path.write_bytes(PLAN)
    read, write = os.pipe()
    os.close(read)
    with os.fdopen(write, "wb") as out:
        done = subprocess.run(
            [sys.executable, "-m", "checker", "check", str(path), "--format", form, "--all" if form == "text" else "--colour"],
            cwd=ROOT, stdout=out, stderr=subprocess.PIPE, check=False, timeout=60,
        )  # fmt: skip
    assert done.stderr == b""
    assert done.returncode == 141


def test_an_audit_is_honest_here() -> None:
    """What the files above are put in the place of does work."""
    assert b'"totals"' in honest_lines()
    assert builtins.len(honest_lines().splitlines()) == 4
