"""Do the tests notice when the code is wrong? Its functions are made wrong in many small ways.

    python tests/mutation/python_code.py [--module beams] [--sample 300 --seed 1] [--part 1/2]

Over checker/engineering, checker/formulas and checker/checking/outcomes.py. Each wrong version is
written into a copy of the tree and met by the tests of its module only, in a forked child of
a process that has pytest loaded already; a tool that starts pytest afresh for each version
takes hours. Survivors that may are in survivors_code.yaml, each with its reason. The run
fails below the rate, where a listed one is noticed after all, or where no version was tried;
with --strict also where a survivor is not listed.
"""

from __future__ import annotations

import argparse
import ast
import importlib
import multiprocessing
import os
import random
import shutil
import signal
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cache
from pathlib import Path
from typing import NamedTuple

import yaml
from code_mutants import CodeMutant, code_mutants

ROOT = Path(__file__).parents[2]
REGISTER = Path(__file__).with_name("survivors_code.yaml")
RATE = 0.90
LIMIT = 60.0  # seconds; a version that hangs is noticed

# What the tests of any module need, loaded once before the children are forked.
_WARM = ("pytest", "_pytest.doctest", "_pytest.assertion.rewrite", "hypothesis", "hypothesis.strategies",
         "yaml", "jsonschema", "click", "rich.console", "fluids", "numpy", "scipy.optimize", "pint")  # fmt: skip

# Hypothesis is loaded before pytest could rewrite its assertions; none of ours are in it.
_QUIET = "ignore::pytest.PytestAssertRewriteWarning"

# What a module of the core is met by besides the tests of its folder.
_WHOLE = {"formulas/reaching.py": "asking"}

# The rule language as its adversaries meet it: random formulas against an evaluator of their own.
_LANGUAGE = ("test_bad_formulas.py", "test_the_rule_language.py")
_FOLDERS = ("published", "engineering", "formulas", "rulebook", "second_opinions", "adversaries")

Key = tuple[str, str, str]


class Tried(NamedTuple):
    """What came of one wrong version."""

    key: Key
    kind: str
    state: str


def modules() -> list[str]:
    """The files that are made wrong, by their path below ``checker``."""
    found = [
        *(ROOT / "checker/engineering").glob("*.py"),
        *(ROOT / "checker/formulas").glob("*.py"),
    ]
    names = [
        p.relative_to(ROOT / "checker").as_posix()
        for p in found
        if p.stem not in ("__init__", "dimensions")
    ]
    return [*sorted(names), "checking/outcomes.py"]


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


class Tree:
    """A copy of the tree in which one file at a time is wrong."""

    def __init__(self, root: Path = ROOT) -> None:
        self.folder = Path(tempfile.mkdtemp(prefix="mutants-"))
        for name in ("checker", "rules", "schemas", "tests", "fixtures"):
            if (root / name).is_dir():
                shutil.copytree(root / name, self.folder / name)
        shutil.copy(root / "pyproject.toml", self.folder)

    def close(self) -> None:
        """Take the copy away."""
        shutil.rmtree(self.folder, ignore_errors=True)

    def passes(self, tests: Sequence[str]) -> bool:
        """Whether the tests pass in a forked child; a hanging child is ended."""
        pid = os.fork()
        if pid == 0:
            os._exit(self._child(tests))
        end = time.monotonic() + LIMIT
        while time.monotonic() < end:
            done, status = os.waitpid(pid, os.WNOHANG)
            if done:
                return os.waitstatus_to_exitcode(status) == 0
            time.sleep(0.02)
        os.kill(pid, signal.SIGKILL)
        os.waitpid(pid, 0)
        return False

    def _child(self, tests: Sequence[str]) -> int:
        import pytest  # noqa: PLC0415

        sys.dont_write_bytecode = True
        os.chdir(self.folder)
        sys.path.insert(0, str(self.folder))
        null = os.open(os.devnull, os.O_WRONLY)
        os.dup2(null, 1)
        os.dup2(null, 2)
        try:
            return int(
                pytest.main(
                    ["-x", "-q", "-p", "no:cacheprovider", "-p", "no:xdist", "-W", _QUIET, *tests]
                )
            )
        except BaseException:
            return 9

    def try_module(self, module: str, mutants: Sequence[CodeMutant]) -> Iterator[Tried]:
        """Every wrong version of a module met by its tests."""
        path = self.folder / "checker" / module
        right = path.read_bytes()
        tests = files_for(module, self.folder)
        if not self.passes(tests):
            yield Tried(
                (module, "tests", "fail on the module as it stands"), "as it stands", "broken"
            )
            return
        try:
            for mutant in mutants:
                for stale in path.parent.glob(f"__pycache__/{path.stem}.*"):
                    stale.unlink()
                path.write_text(mutant.source, encoding="utf-8")
                yield Tried(mutant.key, mutant.kind, "survived" if self.passes(tests) else "killed")
        finally:
            path.write_bytes(right)


def chosen(names: Iterable[str], sample: int, seed: int) -> dict[str, list[CodeMutant]]:
    """The wrong versions of these modules, or a sample of them, by module."""
    every = []
    for name in names:
        source = (ROOT / "checker" / name).read_text(encoding="utf-8")
        every += list(code_mutants(name, source))
    if sample and sample < len(every):
        every = random.Random(seed).sample(every, sample)
    by_module: dict[str, list[CodeMutant]] = {}
    for mutant in every:
        by_module.setdefault(mutant.module, []).append(mutant)
    return by_module


def _one(task: tuple[str, list[CodeMutant]]) -> list[Tried]:
    tree = Tree()
    try:
        return list(tree.try_module(*task))
    finally:
        tree.close()


def register(path: Path) -> dict[Key, str]:
    """The survivors that may, with their reasons."""
    entries = yaml.safe_load(path.read_text(encoding="utf-8")) if path.exists() else None
    return {
        (module, entry["at"], entry["change"]): entry["reason"]
        for module, changes in (entries or {}).items()
        for entry in changes
    }


def report(tried: Sequence[Tried], listed: Mapping[Key, str], least: float, *, strict: bool) -> int:
    """Prints the figures and what is wrong; gives the exit status."""
    by_module: dict[str, Counter[str]] = {}
    for one in tried:
        by_module.setdefault(one.key[0], Counter())[one.state] += 1
    print(f"{'module':40}{'tried':>7}{'killed':>8}{'survived':>10}{'rate':>8}")
    for name, counts in sorted(by_module.items()):
        number = counts["killed"] + counts["survived"]
        print(
            f"{name:40}{number:7}{counts['killed']:8}{counts['survived']:10}{counts['killed'] / max(number, 1):8.1%}"
        )
    killed = sum(t.state == "killed" for t in tried)
    survived = {t.key for t in tried if t.state == "survived"}
    number = killed + len(survived)
    rate = killed / max(number, 1)
    print(f"{'all':40}{number:7}{killed:8}{len(survived):10}{rate:8.1%}")
    wrong = [f"{' | '.join(t.key)}" for t in tried if t.state == "broken"]
    if not number:
        wrong.append("no wrong version was tried")
    elif rate < least:
        wrong.append(f"{rate:.1%} noticed, {least:.0%} is asked")
    noticed = {t.key for t in tried if t.state == "killed"} & set(listed)
    wrong += [f"listed, but it does not survive: {' | '.join(key)}" for key in sorted(noticed)]
    for key in sorted(survived - set(listed)):
        line = f"survived, and not listed: {' | '.join(key)}"
        if strict:
            wrong.append(line)
        else:
            print(line)
    print("\n".join(wrong) or "nothing is wrong")
    return 1 if wrong else 0


def main(arguments: list[str] | None = None) -> int:
    """The command; gives its exit status."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawTextHelpFormatter
    )
    parser.add_argument(
        "--module", action="append", default=[], help="beams, formulas/calls, checking, ..."
    )
    parser.add_argument("--sample", type=int, default=0, help="so many of all versions; 0 for all")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--part", default="1/1", help="K/N: every Nth module from the Kth on")
    parser.add_argument("--jobs", type=int, default=2)
    parser.add_argument("--least", type=float, default=RATE)
    parser.add_argument("--strict", action="store_true", help="fail where a survivor is not listed")
    asked = parser.parse_args(arguments)
    names = modules()
    if asked.module:
        names = [
            n for n in names if n.removesuffix(".py").removeprefix("engineering/") in asked.module
        ]
    k, n = (int(x) for x in asked.part.split("/"))
    tasks = chosen(names[k - 1 :: n], asked.sample, asked.seed)
    for name in _WARM:
        try:
            importlib.import_module(name)
        except ImportError:
            continue
    found: list[Tried] = []
    start = time.monotonic()
    if tasks:
        with multiprocessing.get_context("fork").Pool(asked.jobs) as pool:
            for i, some in enumerate(pool.imap_unordered(_one, tasks.items()), 1):
                found += some
                print(
                    f"{i} of {len(tasks)} modules, {len(found)} versions, {time.monotonic() - start:.0f} s",
                    file=sys.stderr,
                    flush=True,
                )
    return report(found, register(REGISTER), asked.least, strict=asked.strict)


if __name__ == "__main__":
    raise SystemExit(main())
