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
import importlib
import multiprocessing
import random
import sys
import time
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from multiprocessing.queues import SimpleQueue
from pathlib import Path

import yaml
from code_mutants import CodeMutant, code_mutants
from meeting_tests import ROOT, Key, Tree, Tried, files_for

__all__ = ["ROOT", "Tried", "chosen", "files_for", "main", "modules", "register", "report"]

REGISTER = Path(__file__).with_name("survivors_code.yaml")
RATE = 0.90

# What the tests of any module need, loaded once before the children are forked.
_WARM = ("pytest", "_pytest.doctest", "_pytest.assertion.rewrite", "hypothesis", "hypothesis.strategies",
         "yaml", "jsonschema", "click", "rich.console", "fluids", "numpy", "scipy.optimize", "pint")  # fmt: skip


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


_trees: list[Tree] = []


def _take(trees: SimpleQueue[Tree]) -> None:
    """A copy of the tree for each worker, kept from module to module."""
    _trees.append(trees.get())


def _one(task: tuple[str, list[CodeMutant]]) -> list[Tried]:
    return list(_trees[0].try_module(*task))


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
        context = multiprocessing.get_context("fork")
        trees = [Tree() for _ in range(asked.jobs)]
        free: SimpleQueue[Tree] = context.SimpleQueue()
        for tree in trees:
            free.put(tree)
        try:
            with context.Pool(asked.jobs, _take, (free,)) as pool:
                for i, some in enumerate(pool.imap_unordered(_one, tasks.items()), 1):
                    found += some
                    print(
                        f"{i} of {len(tasks)} modules, {len(found)} versions, {time.monotonic() - start:.0f} s",
                        file=sys.stderr,
                        flush=True,
                    )
        finally:
            for tree in trees:
                tree.close()
    return report(found, register(REGISTER), asked.least, strict=asked.strict)


if __name__ == "__main__":
    raise SystemExit(main())
