"""The limits that a run stays within, in real processes: memory, time, what never ends."""

from __future__ import annotations

import math
import os
import resource
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import Any, NamedTuple

import pytest
from attacks import PLAN
from campaign import told_well
from mutations import ROOT
from test_bad_yaml import BOMB, HEAD


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
