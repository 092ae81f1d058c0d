"""A copy of the tree in which one file is wrong, and the tests that meet it there.

The tests run in a forked child of a process that has loaded what they need; the quick ones
and those that noticed an earlier version of the same module come first, and the first that
fails ends it. None is left out: a version survives only when all of them pass.
"""

from __future__ import annotations

import ast
import json
import os
import resource
import shutil
import signal
import sys
import tempfile
import time
from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from pathlib import Path
from typing import NamedTuple

import pytest
from code_mutants import CodeMutant
from hypothesis import Phase, settings

__all__ = ["ROOT", "Tree", "Tried", "files_for"]

ROOT = Path(__file__).parents[2]

# A version that hangs is noticed. It is given the processor time of the right one twice over
# and this much more, s; the clock alone would call every version noticed on a busy machine.
_MORE = 30.0
_MEMORY = 8 << 30  # bytes of address space: a loop that collects without end is noticed as well

# Seconds; a test that takes longer waits, whatever it noticed.
_QUICK = 0.5

# Hypothesis is loaded before pytest could rewrite its assertions; none of ours are in it.
_QUIET = "ignore::pytest.PytestAssertRewriteWarning"

# What a module of the core is met by besides the tests of its folder.
_WHOLE = {"formulas/reaching.py": "asking"}

# The rule language as its adversaries meet it: random formulas against an evaluator of their own.
_LANGUAGE = ("test_bad_formulas.py", "test_the_rule_language.py")
# Every engineering function outside the ranges that its description states.
_EVERY = "test_stated_ranges.py"
_FOLDERS = ("published", "engineering", "formulas", "rulebook", "second_opinions", "adversaries")

# The same examples every time, so that a result can be had again; the smallest one that fails
# is nobody's concern here.
settings.register_profile(
    "mutation",
    deadline=None,
    derandomize=True,
    database=None,
    phases=(Phase.explicit, Phase.reuse, Phase.generate),
)

Key = tuple[str, str, str]


class Tried(NamedTuple):
    """What came of one wrong version: killed, survived, or broken where nothing could be told."""

    key: Key
    kind: str
    state: str


class _Met(NamedTuple):
    """What the tests said of a version, and what that took, s of processor time."""

    passed: bool
    took: float
    costs: dict[str, float]
    failed: list[str]


def files_for(module: str, root: Path) -> list[str]:
    """The files whose tests meet a module: its own examples, then every test that imports it."""
    dotted = "checker." + module.removesuffix(".py").replace("/", ".")
    stem = dotted.rpartition(".")[2]
    wanted = []
    whole = _WHOLE.get(module, "checking")
    for folder in (*_FOLDERS, whole):
        for path in sorted((root / "tests" / folder).glob("test_*.py")):
            if (
                (folder == "formulas" and module.startswith("formulas/"))
                or (path.name == _EVERY and module.startswith("engineering/"))
                or (path.name in _LANGUAGE and module.startswith("formulas/"))
                or (folder in (whole, "rulebook") and not module.startswith("engineering/"))
                or path.name == f"test_{stem.lstrip('_')}.py"
                or dotted in _imported(path)
            ):
                wanted.append(path)
    return [f"checker/{module}", *(p.relative_to(root).as_posix() for p in wanted)]


@cache
def _imported(path: Path) -> set[str]:
    """The modules that a file imports, by their full names."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            found |= {node.module, *(f"{node.module}.{alias.name}" for alias in node.names)}
    return found


class _Order:
    """A pytest plugin: puts the tests in order, and notes what each took and which failed."""

    def __init__(self, first: Sequence[str], costs: Mapping[str, float]) -> None:
        self.first = {name: i for i, name in enumerate(first)}
        self.costs = costs
        self.calls: dict[str, float] = {}
        self.setups: dict[str, float] = {}
        self.failed: list[str] = []

    @pytest.hookimpl(trylast=True)
    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        """The quick ones that noticed an earlier version first, then by what they cost."""

        def place(item: pytest.Item) -> tuple[int, float]:
            cost = self.costs.get(item.nodeid, 0.0)
            last = len(self.first)
            return (self.first.get(item.nodeid, last) if cost < _QUICK else last), cost

        items.sort(key=place)

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        """One step of one test."""
        if report.when == "setup":
            file = report.nodeid.partition("::")[0]
            self.setups[file] = max(self.setups.get(file, 0.0), report.duration)
        elif report.when == "call":
            self.calls[report.nodeid] = report.duration
        if report.failed:
            self.failed.append(report.nodeid)

    def told(self) -> str:
        """What was noted. What a file sets up once is a cost of each of its tests: it may be the first."""
        costs = {
            name: took + self.setups.get(name.partition("::")[0], 0.0)
            for name, took in self.calls.items()
        }
        return json.dumps({"costs": costs, "failed": self.failed})


class Tree:
    """A copy of the tree in which one file at a time is wrong."""

    def __init__(self, root: Path = ROOT) -> None:
        self.folder = Path(tempfile.mkdtemp(prefix="mutants-"))
        for name in ("checker", "rules", "schemas", "tests", "fixtures"):
            if (root / name).is_dir():
                shutil.copytree(root / name, self.folder / name)
        shutil.copy(root / "pyproject.toml", self.folder)
        # What the tests of other modules say of the tree as it stands: many share all but
        # their own examples.
        self._stands: dict[tuple[str, ...], _Met] = {}

    def close(self) -> None:
        """Take the copy away."""
        shutil.rmtree(self.folder, ignore_errors=True)

    def try_module(self, module: str, mutants: Sequence[CodeMutant]) -> Iterator[Tried]:
        """Every wrong version of a module met by its tests."""
        path = self.folder / "checker" / module
        right = path.read_bytes()
        tests = files_for(module, self.folder)
        shared = tuple(tests[1:])
        as_it_stands = self._stands.get(shared) or self._meet(tests, compiled=True)
        self._stands[shared] = as_it_stands
        if not as_it_stands.passed:
            yield _broken(module, as_it_stands)
            return
        first: list[str] = []
        limit = 2.0 * as_it_stands.took + _MORE
        proven = False
        try:
            for mutant in mutants:
                self._put(path, mutant.source.encode())
                met = self._meet(tests, first, as_it_stands.costs, limit)
                proven = proven or met.passed
                first = [*met.failed, *(name for name in first if name not in met.failed)]
                yield Tried(mutant.key, mutant.kind, "survived" if met.passed else "killed")
        finally:
            self._put(path, right)
        if not proven:
            # Where all fail, the order may be what fails.
            met = self._meet(tests, first, as_it_stands.costs, limit)
            if not met.passed:
                yield _broken(module, met)

    def _put(self, path: Path, source: bytes) -> None:
        for stale in path.parent.glob(f"__pycache__/{path.stem}.*"):
            stale.unlink()
        path.write_bytes(source)

    def _meet(
        self,
        tests: Sequence[str],
        first: Sequence[str] = (),
        costs: Mapping[str, float] | None = None,
        limit: float = 0.0,
        *,
        compiled: bool = False,
    ) -> _Met:
        """The tests in a forked child.

        limit: processor time, s, after which the child is ended; 0 for none. compiled: keep
        the tests in their compiled form for the versions to come.
        """
        told = self.folder / "told.json"
        told.unlink(missing_ok=True)
        pid = os.fork()
        if pid == 0:
            os._exit(self._child(tests, _Order(first, costs or {}), limit, told, compiled=compiled))
        # The clock is for a version that sleeps for ever.
        end = time.monotonic() + (20.0 * limit or 3600.0)
        done, status, used = os.wait4(pid, os.WNOHANG)
        while not done:
            time.sleep(0.02)
            if time.monotonic() > end:
                os.kill(pid, signal.SIGKILL)
                end += 60.0
            done, status, used = os.wait4(pid, os.WNOHANG)
        passed = os.waitstatus_to_exitcode(status) == 0
        noted = json.loads(told.read_text(encoding="utf-8")) if told.exists() else {}
        return _Met(
            passed,
            used.ru_utime + used.ru_stime,
            noted.get("costs", {}),
            noted.get("failed", []),
        )

    def _child(
        self, tests: Sequence[str], order: _Order, limit: float, told: Path, *, compiled: bool
    ) -> int:
        sys.dont_write_bytecode = not compiled
        os.chdir(self.folder)
        sys.path.insert(0, str(self.folder))
        if limit:
            resource.setrlimit(resource.RLIMIT_CPU, (int(limit) + 1, int(limit) + 2))
            resource.setrlimit(resource.RLIMIT_AS, (_MEMORY, _MEMORY))
        null = os.open(os.devnull, os.O_WRONLY)
        os.dup2(null, 1)
        os.dup2(null, 2)
        options = ["-x", "-q", "-p", "no:cacheprovider", "-p", "no:xdist", "-W", _QUIET]
        try:
            status = int(
                pytest.main([*options, "--hypothesis-profile=mutation", *tests], plugins=[order])
            )
            told.write_text(order.told(), encoding="utf-8")
        except BaseException:
            return 9
        return status


def _broken(module: str, met: _Met) -> Tried:
    what = met.failed[0] if met.failed else "its tests do not run"
    return Tried(
        (module, "tests", f"fail on the module as it stands: {what}"), "as it stands", "broken"
    )
