"""The command from outside: bad input, exit statuses, colour, files, the same bytes twice.

Runs in this process on the rules in tests/data/bench, bound by the shipped fields; what
needs a process of its own says so.
"""

from __future__ import annotations

import errno
import io
import os
import re
import resource
import signal
import stat
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from checker import __version__
from checker.__main__ import main as main_of_both

Run = Callable[..., Any]

TOP = Path(__file__).parents[1]
BENCH = Path(__file__).parent / "data" / "bench"

READY = "job: {stage: plan, reference: J-1}\nmount: {kind: side-post}\ncollector: {mass: 40 kg}\nhost: {capacity: 100 kg}\n"
WITH = {
    "ready": READY,
    "advise": READY.replace("100 kg", "48 kg"),
    "correct": READY.replace("100 kg", "42 kg"),
    "stop": READY.replace("100 kg", "39 kg"),
    "confirm": READY.replace("host: {capacity: 100 kg}\n", ""),
}

# Starts the command in a process of its own, on the bench's rules.
DRIVER = (
    "import sys, pathlib, checker.rulebook.loading as loading\n"
    f"loading.RULES = pathlib.Path({str(BENCH)!r})\n"
    "from checker.cli import main\n"
    "main()\n"
)


@pytest.fixture
def plan(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Callable[..., str]:
    """Writes a description into an empty folder, which becomes the current one."""
    monkeypatch.chdir(tmp_path)

    def written(content: str | bytes, name: str = "plan.yaml") -> str:
        data = content.encode() if isinstance(content, str) else content
        (tmp_path / name).write_bytes(data)
        return name

    return written


def apart(
    *arguments: str, stdin: Any = b"", environment: dict[str, str] | None = None, **more: Any
) -> subprocess.CompletedProcess[bytes]:
    """The command in a process of its own."""
    kept = {
        k: v
        for k, v in os.environ.items()
        if k not in ("NO_COLOR", "FORCE_COLOR", "COLUMNS", "MISTWRIGHT_DEBUG")
    }
    settings = {**kept, "PYTHONPATH": str(TOP), "MISTWRIGHT_CACHE": "off", **(environment or {})}
    given = {"input": stdin} if isinstance(stdin, bytes) else {"stdin": stdin}
    return subprocess.run(
        [sys.executable, "-c", DRIVER, *arguments],
        capture_output=True, env=settings, timeout=60, check=False, **given, **more,
    )  # fmt: skip


# --- exit statuses ---------------------------------------------------------------


@pytest.mark.parametrize(
    ("grade", "accept", "status"),
    [
        ("ready", None, 0), ("advise", None, 0), ("confirm", None, 1), ("correct", None, 1), ("stop", None, 1),
        ("stop", "stop", 0), ("correct", "stop", 0), ("correct", "correct", 0), ("confirm", "correct", 0),
        ("correct", "confirm", 1), ("confirm", "confirm", 0), ("advise", "confirm", 0),
        ("advise", "met", 1), ("ready", "met", 0),
    ],
)  # fmt: skip
def test_the_status_says_whether_the_bar_was_met(
    run: Run, plan: Callable[..., str], grade: str, accept: str | None, status: int
) -> None:
    arguments = ["check", plan(WITH[grade])] + (["--accept", accept] if accept else [])
    assert run(*arguments).status == status


@pytest.mark.parametrize(
    ("grade", "verdict"),
    [
        ("ready", "ready"),
        ("advise", "ready"),
        ("confirm", "confirm"),
        ("correct", "rework"),
        ("stop", "hold"),
    ],
)
def test_the_verdict_is_the_last_thing_said(
    run: Run, plan: Callable[..., str], grade: str, verdict: str
) -> None:
    out = run("check", plan(WITH[grade])).out.rstrip().splitlines()
    last = next(line for line in reversed(out) if not line.startswith(" "))
    assert last.startswith(f"VERDICT  {verdict}: ")


@pytest.mark.parametrize(
    "arguments",
    [
        ["check"], ["chekc", "x"], ["check", "--nothing", "x"], ["check", "a.yaml", "--format", "poem"],
        ["check", "a.yaml", "--accept", "ready"], ["check", "a.yaml", "b.yaml"], ["working", "a.yaml"],
        ["audit"], ["rulebook", "shwo"], ["rulebook", "show"], ["--nothing"],
    ],
)  # fmt: skip
def test_a_command_used_wrongly_exits_with_2(run: Run, arguments: list[str]) -> None:
    done = run(*arguments)
    assert done.status == 2
    assert done.out == ""
    assert "Usage:" in done.err
    assert "Traceback" not in done.err


def test_a_fault_of_ours_exits_with_4_and_says_so(
    run: Run, plan: Callable[..., str], monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(*_: Any, **__: Any) -> Any:
        raise RuntimeError("the sky fell")

    monkeypatch.setattr("checker.running.Checker.report", fail)
    done = run("check", plan(READY))
    assert done.status == 4
    assert "a fault of ours (RuntimeError: the sky fell)" in done.err
    assert "Traceback" not in done.err


def test_a_fault_of_ours_is_shown_whole_to_whoever_asks(
    run: Run, plan: Callable[..., str], monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(*_: Any, **__: Any) -> Any:
        raise RuntimeError("the sky fell")

    monkeypatch.setattr("checker.running.Checker.report", fail)
    monkeypatch.setenv("MISTWRIGHT_DEBUG", "1")
    with pytest.raises(RuntimeError, match="the sky fell"):
        run("check", plan(READY))


def test_an_interrupted_run_exits_with_130(
    run: Run, plan: Callable[..., str], monkeypatch: pytest.MonkeyPatch
) -> None:
    def interrupt(*_: Any, **__: Any) -> Any:
        raise KeyboardInterrupt

    monkeypatch.setattr("checker.running.Checker.report", interrupt)
    assert run("check", plan(READY)).status == 130


@pytest.mark.parametrize("option", ["--version", "-V"])
def test_the_version_alone_is_told_before_the_options_are_loaded(
    run: Run, option: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(sys, "argv", ["mistwright", option])
    main_of_both()
    assert capsys.readouterr().out == run(option).out


def test_the_version_is_told_without_reading_a_rule(
    run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("checker.rulebook.loading.RULES", Path("/no/such/folder"))
    done = run("--version")
    assert (done.status, done.out) == (0, f"mistwright {__version__}\n")


@pytest.mark.parametrize(
    "command",
    [
        [],
        ["check"],
        ["working"],
        ["audit"],
        ["window"],
        ["fields"],
        ["rulebook"],
        ["rulebook", "test"],
    ],
)
def test_every_command_explains_itself_in_80_columns(run: Run, command: list[str]) -> None:
    done = run(*command, "--help")
    assert done.status == 0
    assert done.out.startswith("Usage: mistwright")
    assert max(map(len, done.out.splitlines())) <= 80


# --- bad input -------------------------------------------------------------------

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


# --- streams, files, colour ------------------------------------------------------


def test_a_description_may_come_on_standard_input(run: Run) -> None:
    done = run("check", "-", stdin=READY.encode())
    assert done.status == 0
    assert "<standard input>" in done.out


def test_findings_go_to_standard_output_only(run: Run, plan: Callable[..., str]) -> None:
    done = run("check", plan(WITH["stop"]))
    assert done.err == ""
    assert "STOP" in done.out


class _Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


@pytest.mark.parametrize(
    ("environment", "options", "coloured"),
    [
        ({}, [], True),
        ({"NO_COLOR": "1"}, [], False),
        ({"NO_COLOR": ""}, [], True),
        ({"TERM": "dumb"}, [], False),
        ({"NO_COLOR": "1"}, ["--colour"], True),
        ({}, ["--no-colour"], False),
        ({"NO_COLOR": "1", "FORCE_COLOR": "1"}, [], False),
        ({"TERM": "dumb", "FORCE_COLOR": "1"}, [], True),
    ],
)
def test_colour_on_a_terminal(
    run: Run, plan: Callable[..., str], monkeypatch: pytest.MonkeyPatch,
    environment: dict[str, str], options: list[str], coloured: bool,
) -> None:  # fmt: skip
    for name, value in {"TERM": "xterm", **environment}.items():
        monkeypatch.setenv(name, value)
    terminal = _Terminal()
    monkeypatch.setattr(sys, "stdout", terminal)
    assert run("check", plan(WITH["stop"]), *options).status == 1
    assert ("\x1b[" in terminal.getvalue()) == coloured


@pytest.mark.parametrize("form", ["text", "json"])
def test_what_is_piped_has_no_escape_codes(run: Run, plan: Callable[..., str], form: str) -> None:
    assert "\x1b" not in run("check", plan(WITH["stop"]), "--format", form).out


def test_colour_can_be_forced_into_a_pipe(
    run: Run, plan: Callable[..., str], monkeypatch: pytest.MonkeyPatch
) -> None:
    name = plan(WITH["stop"])
    monkeypatch.setenv("FORCE_COLOR", "1")
    assert "\x1b[" in run("check", name).out
    assert "\x1b" not in run("check", name, "--format", "json").out


def test_colour_takes_no_word_away(run: Run, plan: Callable[..., str]) -> None:
    name = plan(WITH["stop"])
    coloured = run("check", name, "--colour").out
    assert re.sub(r"\x1b\[[0-9;]*m", "", coloured) == run("check", name, "--no-colour").out


def test_square_brackets_are_not_eaten_as_markup(run: Run, plan: Callable[..., str]) -> None:
    text = READY.replace("J-1", "'[bold]J[/bold] [/b] 1'").replace("100 kg", "39 kg")
    assert "[bold]J[/bold] [/b] 1" in run("check", plan(text), "--colour").out


def test_a_file_is_written_whole(run: Run, plan: Callable[..., str]) -> None:
    name = plan(READY)
    shown = run("check", name).out
    done = run("check", name, "--output", "report.txt")
    assert (done.status, done.out) == (0, "")
    assert Path("report.txt").read_text(encoding="utf-8") == shown
    assert sorted(p.name for p in Path().iterdir()) == ["plan.yaml", "report.txt"]


def test_what_stood_there_is_kept_if_writing_fails(
    run: Run, plan: Callable[..., str], monkeypatch: pytest.MonkeyPatch
) -> None:
    name = plan(READY)
    Path("report.txt").write_text("before")

    def fail(*_: Any) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(os, "fsync", fail)
    done = run("check", name, "--output", "report.txt")
    assert done.status == 3
    assert "No space left on device" in done.err
    assert Path("report.txt").read_text() == "before"
    assert sorted(p.name for p in Path().iterdir()) == ["plan.yaml", "report.txt"]


@pytest.mark.parametrize("target", ["no/such/folder/report.txt", "."])
def test_a_place_that_cannot_be_written_to(run: Run, plan: Callable[..., str], target: str) -> None:
    done = run("check", plan(READY), "--output", target)
    assert done.status == 3
    assert "the file cannot be written" in done.err


def test_what_is_no_file_is_written_to_and_not_replaced(run: Run, plan: Callable[..., str]) -> None:
    """As root a report sent to /dev/null would else put a file in the place of nowhere.

    Tried on a pipe: a test of this that fails must do no harm to the machine.
    """
    name = plan(READY)
    os.mkfifo("pipe")
    # Opened for both ways, so that neither side waits for the other.
    handle = os.open("pipe", os.O_RDWR | os.O_NONBLOCK)
    try:
        assert run("check", name, "--output", "pipe").status == 0
        assert stat.S_ISFIFO(Path("pipe").stat().st_mode)
        assert b"VERDICT" in os.read(handle, 60_000)
    finally:
        os.close(handle)


def test_a_link_keeps_pointing_where_it_did(run: Run, plan: Callable[..., str]) -> None:
    name = plan(READY)
    Path("real.txt").write_text("before")
    Path("link.txt").symlink_to("real.txt")
    assert run("check", name, "--output", "link.txt").status == 0
    assert Path("link.txt").is_symlink()
    assert "VERDICT" in Path("real.txt").read_text()


def test_links_in_a_circle(run: Run, plan: Callable[..., str]) -> None:
    name = plan(READY)
    Path("a.txt").symlink_to("b.txt")
    Path("b.txt").symlink_to("a.txt")
    assert run("check", name, "--output", "a.txt").status == 3


def test_a_report_is_not_written_over_its_description(run: Run, plan: Callable[..., str]) -> None:
    name = plan(READY)
    done = run("check", name, "--output", f"./{name}")
    assert done.status == 2
    assert Path(name).read_text() == READY


# --- in a process of its own -----------------------------------------------------


@pytest.mark.slow
@pytest.mark.parametrize("form", ["text", "json"])
def test_two_processes_give_the_same_bytes(plan: Callable[..., str], form: str) -> None:
    name = plan(WITH["stop"] + "drain: {}\n")
    one, other, third = (
        apart("check", name, "--format", form, environment={"PYTHONHASHSEED": seed})
        for seed in ("0", "1", "4242")
    )
    assert one.returncode == other.returncode == third.returncode == 1
    assert one.stdout == other.stdout == third.stdout
    assert one.stdout


@pytest.mark.slow
def test_a_reader_who_goes_away_gets_no_traceback(plan: Callable[..., str]) -> None:
    name = plan(READY)
    settings = {**os.environ, "PYTHONPATH": str(TOP), "MISTWRIGHT_CACHE": "off"}
    with subprocess.Popen(
        [sys.executable, "-c", DRIVER, "check", name, "--format", "json"],
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, env=settings,
    ) as process:  # fmt: skip
        assert process.stdout is not None
        assert process.stderr is not None
        process.stdout.close()
        said = process.stderr.read()
        status = process.wait(30)
    assert said == b""
    assert status == 141


@pytest.mark.slow
@pytest.mark.parametrize("stream", ["0<&-", "1>&-", "2>&-"])
def test_a_closed_stream_is_no_fault_of_ours(plan: Callable[..., str], stream: str) -> None:
    name = plan(READY)
    source = "-" if stream == "0<&-" else name
    settings = {**os.environ, "PYTHONPATH": str(TOP), "MISTWRIGHT_CACHE": "off"}
    done = subprocess.run(
        ["sh", "-c", f'exec "$0" -c "$1" check {source} {stream}', sys.executable, DRIVER],
        capture_output=True, env=settings, timeout=60, check=False,
    )  # fmt: skip
    assert done.returncode == (3 if source == "-" else 0)
    assert b"Traceback" not in done.stderr


@pytest.mark.slow
@pytest.mark.parametrize("encoding", ["ascii", "cp1252", "utf-8"])
def test_a_terminal_without_our_signs_costs_no_report(
    plan: Callable[..., str], encoding: str
) -> None:
    name = plan(READY.replace("J-1", "Ω² ≤ 𝄞"))
    done = apart("check", name, environment={"PYTHONIOENCODING": encoding, "PYTHONUTF8": "0"})
    assert done.returncode == 0
    assert b"VERDICT" in done.stdout


@pytest.mark.slow
def test_a_name_that_is_not_unicode(plan: Callable[..., str]) -> None:
    Path(plan(READY)).rename(os.fsdecode(b"plan-\xff.yaml"))
    for form in ("text", "json"):
        done = apart(
            "check", os.fsdecode(b"plan-\xff.yaml"), "--format", form, "--output", "report.txt"
        )
        assert done.returncode == 0, done.stderr
        assert "plan-\\udcff.yaml" in Path("report.txt").read_text(encoding="utf-8").replace(
            "\\\\", "\\"
        )


@pytest.mark.slow
def test_an_interrupt_from_outside(plan: Callable[..., str]) -> None:
    waiting = DRIVER.replace(
        "from checker.cli import main\n",
        "import time, checker.running as running\n"
        "def wait(path):\n"
        "    print('waiting', flush=True)\n"
        "    time.sleep(30)\n"
        "running.read_bytes = wait\n"
        "from checker.cli import main\n",
    )
    settings = {**os.environ, "PYTHONPATH": str(TOP), "MISTWRIGHT_CACHE": "off"}
    with subprocess.Popen(
        [sys.executable, "-c", waiting, "check", plan(READY)],
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, env=settings,
    ) as process:  # fmt: skip
        assert process.stdout is not None
        assert process.stdout.readline() == b"waiting\n"
        process.send_signal(signal.SIGINT)
        out, err = process.communicate(timeout=30)
    assert process.returncode == 130
    assert out == err == b""


# --- compiled rulebooks kept between runs ----------------------------------------


@pytest.fixture
def kept(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("kept")
    folder.chmod(0o700)
    return folder


def test_a_kept_rulebook_says_the_same(
    run: Run, plan: Callable[..., str], kept: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    name = plan(WITH["stop"])
    fresh = run("check", name, "--format", "json")
    monkeypatch.setenv("MISTWRIGHT_CACHE", str(kept))
    first = run("check", name, "--format", "json")
    assert len(list(kept.iterdir())) == 1
    second = run("check", name, "--format", "json")
    assert fresh == first == second


@pytest.mark.parametrize(
    "damage",
    [
        lambda _: b"",
        lambda _: b"{}",
        lambda data: data[:-1],
        lambda data: data + b"\0",
        lambda data: data[:500] + bytes([data[500] ^ 1]) + data[501:],
        lambda data: bytes(32) + data[32:],
        lambda data: data[32:],
    ],
)
def test_a_damaged_rulebook_is_made_again(
    run: Run, plan: Callable[..., str], kept: Path, monkeypatch: pytest.MonkeyPatch,
    damage: Callable[[bytes], bytes],
) -> None:  # fmt: skip
    name = plan(WITH["stop"])
    monkeypatch.setenv("MISTWRIGHT_CACHE", str(kept))
    first = run("check", name)
    (file,) = kept.iterdir()
    whole = file.read_bytes()
    file.write_bytes(damage(whole))
    assert run("check", name) == first
    assert file.read_bytes() == whole


def test_a_folder_that_others_can_write_to_is_not_used(
    run: Run, plan: Callable[..., str], kept: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    kept.chmod(0o777)
    monkeypatch.setenv("MISTWRIGHT_CACHE", str(kept))
    assert run("check", plan(READY)).status == 0
    assert list(kept.iterdir()) == []


def test_a_changed_rule_is_never_taken_from_what_was_kept(
    run: Run, plan: Callable[..., str], kept: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    plan(READY)
    monkeypatch.setenv("MISTWRIGHT_CACHE", str(kept))
    rule = (BENCH / "load" / "capacity.yaml").read_text(encoding="utf-8")
    Path("house/load").mkdir(parents=True)
    for title in ("Ours, one", "Ours, two"):
        Path("house/load/capacity.yaml").write_text(rule.replace("Mass on the host", title))
        assert title in run("rulebook", "list", "--rules", "house").out


# --- the shipped rulebook --------------------------------------------------------


@pytest.mark.slow
def test_the_shipped_rules_load_and_answer(plan: Callable[..., str]) -> None:
    """The one test here that reads the shipped rules."""
    settings = {**os.environ, "PYTHONPATH": str(TOP), "MISTWRIGHT_CACHE": "off"}
    done = subprocess.run(
        [sys.executable, "-m", "checker", "check", plan(READY)],
        capture_output=True, env=settings, timeout=120, check=False,
    )  # fmt: skip
    assert done.returncode == 1, done.stderr.decode()[:2000]
    assert b"VERDICT" in done.stdout
