"""Bad input: one clear message, and status 3."""

from __future__ import annotations

import errno
import os
import re
import resource
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from benches import READY, apart

Run = Callable[..., Any]


BOMB = "a: &a [x, x, x]\n" + "".join(
    f"{b}: &{b} [*{a}, *{a}, *{a}]\n" for a, b in zip("abcdefgh", "bcdefghi", strict=True)
)
TWO = "job: {stage: plan}\nmount: {kind: side-post}\n"

BAD = [
    ("an empty file", b"", "the file is empty", None, "mistwright new"),
    ("blank lines", b"\n\n", "the file is empty", None, "mistwright new"),
    ("no YAML", b"job: {stage: plan\nmount: [", None, (2, None), None),
    ("a picture", b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR", "the file is not UTF-8 text", (1, 1), "save it again as UTF-8"),
    ("zero bytes", bytes(200), "a zero byte", (1, 1), "YAML description"),
    ("UTF-16", READY.encode("utf-16"), "the file is in UTF-16", (1, 1), "save it again as UTF-8"),
    ("UTF-16 without its mark", READY.encode("utf-16-le"), "a zero byte", (1, 2), "YAML description"),
    ("tabs", b"job:\n\tstage: plan\n", "a tab", (2, 1), "use spaces"),
    ("a key twice", f"{TWO}collector: {{mass: 5 kg}}\ncollector: {{mass: 6 kg}}\n", "'collector' stands here a second time", (4, 1), "delete one of the two"),
    ("anchors that multiply", BOMB, "an anchor", (1, 4), "write the value out"),
    ("10 000 levels", "a: " + "[" * 10_000, "nested too deeply", (1, None), None),
    ("10 000 levels of blocks", "\n".join(" " * i + "a:" for i in range(1_000)) + "\n" + "- " * 10_000, "nested too deeply", None, None),
    ("an unknown key", f"{TWO}collector: {{masss: 28 kg}}\n", "unknown field 'masss' in collector", (3, 13), "did you mean 'mass'?"),
    ("an unknown section", f"{TWO}colector: {{mass: 28 kg}}\n", "unknown field 'colector'", (3, 1), "did you mean 'collector'?"),
    ("a bare number", f"{TWO}collector: {{mass: 28}}\n", "collector.mass has no unit", (3, 19), "'28 kg'"),
    ("the wrong dimension", f"{TWO}collector:\n  mass: 28 mm\n", "'mm' is a unit of length, not of mass", (4, 9), "write it in kg"),
    ("an unknown unit", f"{TWO}collector: {{mass: 28 kq}}\n", "unknown unit 'kq'", (3, 19), "did you mean 'kg'?"),
    ("NaN", f"{TWO}collector: {{mass: .nan}}\n", "not a number", (3, 19), "leave the field out"),
    ("NaN with a unit", f"{TWO}collector: {{mass: nan kg}}\n", "not a number", (3, 19), "leave the field out"),
    ("1e999", f"{TWO}collector: {{mass: 1e999 kg}}\n", "more digits", (3, 19), "check the number"),
    ("1e999 without a unit", f"{TWO}collector: {{mass: 1e999}}\n", "more digits", (3, 19), "check the number"),
    ("a negative mass", f"{TWO}collector: {{mass: -28 kg}}\n", "collector.mass cannot be below nought", (3, 19), None),
    ("no", f"{TWO}collector: {{mass: no}}\n", "no number", (3, 19), "a number and its unit"),
    ("no for yes or no", f"{TWO}mount2: no\n", "unknown field 'mount2'", (3, 1), "did you mean 'mount'?"),
    ("a time", f"{TWO}collector: {{mass: 1:30}}\n", "unknown unit ':30'", (3, 19), "kg"),
    ("a decimal comma", f"{TWO}collector: {{mass: '1,5 kg'}}\n", "a decimal comma", (3, 19), "write '1.5 kg'"),
    ("a list", b"- job\n- mount\n", "the description is not a group of fields", (1, 1), None),
    ("a word", b"hello\n", "the description is not a group of fields", (1, 1), None),
    ("a number", b"42\n", "the description is not a group of fields", (1, 1), None),
    ("nothing of what must be there", b"{}\n", "'job' is missing", (1, 1), "add 'job:'"),
    ("a second document", f"{READY}---\n{READY}", "a second document", (5, 1), None),
    ("code in a tag", b"!!python/object/apply:os.system ['touch hacked']\n", "a tag", (1, 1), "delete the tag"),
    ("an escape sequence", f"{TWO}# \x1b[31m\n", "a character that cannot be seen", (3, 3), "delete it"),
    ("a local overlay that is not there", "job: {stage: plan, local: house}\nmount: {kind: side-post}\n", "there is no local overlay 'house'", (1, 27), None),
    ("a local overlay that walks away", "job: {stage: plan, local: ../../etc/passwd}\nmount: {kind: side-post}\n", "there is no local overlay", (1, 27), None),
    ("a local overlay of 4000 letters", f"job: {{stage: plan, local: {'x' * 4000}}}\nmount: {{kind: side-post}}\n", "there is no local overlay", (1, 27), None),
]  # fmt: skip


@pytest.mark.parametrize(
    ("content", "what", "place", "hint"), [c[1:] for c in BAD], ids=[c[0] for c in BAD]
)
def test_bad_input_is_one_clear_message(
    run: Run, plan: Callable[..., str], content: str | bytes, what: str | None, place: tuple[int, int | None] | None, hint: str | None
) -> None:  # fmt: skip
    name = plan(content)
    done = run("check", name)
    assert done.status == 3
    assert done.out == ""
    assert "Traceback" not in done.err
    first = done.err.splitlines()[0]
    assert first.startswith(f"{name}:")
    assert what is None or what in first
    assert hint is None or hint in done.err
    if place is not None:
        found = re.match(r"plan\.yaml:(\d+):(\d+): ", first)
        assert found is not None
        assert int(found[1]) == place[0]
        assert place[1] is None or int(found[2]) == place[1]
    assert not Path("hacked").exists()


@pytest.mark.parametrize("name", [c[0] for c in BAD])
def test_bad_input_from_a_pipe_is_told_alike(run: Run, plan: Callable[..., str], name: str) -> None:
    content = next(c[1] for c in BAD if c[0] == name)
    data = content.encode() if isinstance(content, str) else content
    piped, filed = run("check", "-", stdin=data), run("check", plan(data))
    assert piped.status == 3
    if data.strip():
        assert piped.err.replace("<standard input>", "plan.yaml") == filed.err
    else:
        assert piped.err.startswith("<standard input>: nothing came on standard input")


def test_the_same_bad_field_in_a_fitted_file_names_that_file(
    run: Run, plan: Callable[..., str]
) -> None:
    site = plan("collector: {mass: 28 mm}\n", "site.yaml")
    done = run("check", plan(READY), "--fitted", site)
    assert done.status == 3
    assert done.err.startswith("site.yaml:1:19: ")


@pytest.mark.parametrize(
    "content", ["job:\n", "- a\n", "job: plan\n", "mount: \n", "collector: {mass: }\n"]
)
def test_an_odd_fitted_file_is_no_fault_of_ours(
    run: Run, plan: Callable[..., str], content: str
) -> None:
    done = run("check", plan(READY), "--fitted", plan(content, "site.yaml"))
    assert done.status in (0, 1, 3)


def test_a_missing_file_names_its_neighbour(run: Run, plan: Callable[..., str]) -> None:
    plan(READY, "cell-one.yaml")
    done = run("check", "cell-onne.yaml")
    assert done.status == 3
    assert (
        done.err
        == "cell-onne.yaml: there is no such file\n    try       did you mean 'cell-one.yaml'?\n"
    )


def test_a_folder(run: Run, plan: Callable[..., str]) -> None:
    plan(READY)
    done = run("check", ".")
    assert done.status == 3
    assert "this is a folder" in done.err
    assert "mistwright audit" in done.err


def test_a_pipe_that_nobody_writes_to(run: Run, plan: Callable[..., str]) -> None:
    plan(READY)
    os.mkfifo("pipe.yaml")
    done = run("check", "pipe.yaml")
    assert done.status == 3
    assert "this is not a file" in done.err


def test_a_file_that_may_not_be_read(
    run: Run, plan: Callable[..., str], monkeypatch: pytest.MonkeyPatch
) -> None:
    name, opened = plan(READY), os.open

    def refuse(path: Any, *more: Any, **named: Any) -> int:
        if path == name:
            raise PermissionError(errno.EACCES, "Permission denied", path)
        return opened(path, *more, **named)

    # Root may read everything, so the system's answer is played here.
    monkeypatch.setattr(os, "open", refuse)
    done = run("check", name)
    assert done.status == 3
    assert done.err.startswith("plan.yaml: the file may not be read")


@pytest.mark.skipif(os.geteuid() == 0, reason="root may read everything")
def test_a_file_that_may_not_be_read_by_its_mode(run: Run, plan: Callable[..., str]) -> None:
    name = plan(READY)
    Path(name).chmod(0)
    assert run("check", name).status == 3


def test_a_plan_in_a_folder_with_spaces_and_signs(run: Run, plan: Callable[..., str]) -> None:
    Path("a b [x] é").mkdir()
    done = run("check", plan(READY, "a b [x] é/plan one.yaml"))
    assert done.status == 0
    assert "a b [x] é/plan one.yaml" in done.out


def test_2800_kg_is_a_finding(run: Run, plan: Callable[..., str]) -> None:
    done = run("check", plan(READY.replace("40 kg", "2800 kg")), "--format", "json")
    assert done.status == 1
    assert '"description/plausible-values"' in done.out


def test_a_rule_folder_that_is_broken_exits_with_3(run: Run, plan: Callable[..., str]) -> None:
    name = plan(READY)
    Path("house/load").mkdir(parents=True)
    Path("house/load/x.yaml").write_text("title: x\n")
    done = run("check", name, "--rules", "house")
    assert done.status == 3
    assert done.err.startswith("house/load/x.yaml:1:1: ")


@pytest.mark.parametrize("folder", ["nowhere", "plan.yaml"])
def test_a_rule_folder_that_is_none_exits_with_3(
    run: Run, plan: Callable[..., str], folder: str
) -> None:
    done = run("check", plan(READY), "--rules", folder)
    assert done.status == 3
    assert "there is no such folder of rules" in done.err


def test_a_rule_folder_with_a_folder_called_as_a_file(run: Run, plan: Callable[..., str]) -> None:
    name = plan(READY)
    Path("house/load/x.yaml").mkdir(parents=True)
    done = run("check", name, "--rules", "house")
    assert done.status == 3
    assert "this is a folder" in done.err


def test_an_unknown_rule_names_the_nearest(run: Run, plan: Callable[..., str]) -> None:
    for command in (["working", plan(READY), "load/capacty"], ["rulebook", "show", "load/capacty"]):
        done = run(*command)
        assert done.status == 3
        assert "did you mean 'load/capacity'?" in done.err


@pytest.mark.slow
@pytest.mark.parametrize(
    "name",
    ["anchors that multiply", "10 000 levels", "10 000 levels of blocks", "50 MB", "50 MB of brackets", "50 MB from a pipe", "a million keys", "one long line", "an endless device"],
)  # fmt: skip
def test_the_hostile_cost_no_more_than_the_honest(plan: Callable[..., str], name: str) -> None:
    """In a process of its own: under 2 s and 200 MB, whatever comes in."""
    made: dict[str, Callable[[], bytes]] = {
        "50 MB": lambda: READY.encode() + b"# " + b"x" * 50_000_000,
        "50 MB of brackets": lambda: b"a: " + b"[" * 50_000_000,
        "50 MB from a pipe": lambda: b"a: " + b"[" * 50_000_000,
        "a million keys": lambda: "".join(f"k{i}: 1\n" for i in range(140_000)).encode()[
            : 1024 * 1024
        ],
        "one long line": lambda: b"a: '" + b"x" * 1_000_000 + b"'",
    }
    content = made[name]() if name in made else next((c[1] for c in BAD if c[0] == name), b"")
    data = content.encode() if isinstance(content, str) else content
    source = "/dev/zero" if name == "an endless device" else "-" if "pipe" in name else plan(data)
    before = resource.getrusage(resource.RUSAGE_CHILDREN).ru_utime
    start = time.perf_counter()
    with Path(plan(data, "input.bin")).open("rb") as stdin:
        done = apart("check", source, stdin=stdin, preexec_fn=_limit_memory)
    took = time.perf_counter() - start
    used = resource.getrusage(resource.RUSAGE_CHILDREN).ru_utime - before
    assert done.returncode == 3
    assert b"Traceback" not in done.stderr
    assert len(done.stderr) < 1000
    # Other work on the machine stretches the clock; the processor's own time is what we cost.
    assert min(took, used) < 2


def _limit_memory() -> None:
    resource.setrlimit(resource.RLIMIT_AS, (200_000_000, 200_000_000))
