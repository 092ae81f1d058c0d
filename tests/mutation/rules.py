"""Does a case notice when a rule is wrong? Every rule is made wrong in many small ways.

    python tests/mutation/rules.py [--family load] [--rule load/hole-size] [--part 1/4]

A wrong version that no case and no whole description notices has survived. Those that
may are listed in survivors.yaml, each with its reason: ``equivalent`` ones say the same
as the rule does, the others are not worth a case. The run fails if a survivor is not
listed, if a listed one is noticed after all, if a family falls below the rate, or if no
version was tried.
"""

from __future__ import annotations

import argparse
import multiprocessing
import sys
import time
from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import Any, NamedTuple

import yaml
from judging_rules import Bench, Refused

ROOT = Path(__file__).parents[2]
REGISTER = Path(__file__).with_name("survivors.yaml")
RATE = 0.95

Key = tuple[str, str, str]


class Tried(NamedTuple):
    """What came of one wrong version."""

    key: Key
    kind: str
    state: str
    by: str


class Listed(NamedTuple):
    """A survivor that may: why, and whether it says the same as the rule does."""

    reason: str
    equivalent: bool


class Count(NamedTuple):
    """The figures of one family."""

    made: int
    refused: int
    killed: int
    survived: int
    equivalent: int

    @property
    def rate(self) -> float:
        """Killed of all that the loader let in."""
        return self.killed / max(self.made - self.refused, 1)

    @property
    def rate_of_different(self) -> float:
        """Killed of those that do not say the same as the rule."""
        return self.killed / max(self.made - self.refused - self.equivalent, 1)


def register(path: Path) -> dict[Key, Listed]:
    """The survivors that may; raises ValueError for an entry without a reason or a double one."""
    found: dict[Key, Listed] = {}
    entries = yaml.safe_load(path.read_text(encoding="utf-8")) if path.exists() else None
    for owner, changes in (entries or {}).items():
        for entry in changes:
            key = (owner, entry["at"], entry["change"])
            if key in found or not entry.get("reason", "").strip():
                raise ValueError(f"survivors.yaml: {' | '.join(key)} stands twice or has no reason")
            found[key] = Listed(entry["reason"], bool(entry.get("equivalent", False)))
    return found


def try_owner(bench: Bench, owner: str) -> list[Tried]:
    """Every wrong version of one rule, derived value or table, tried."""
    complaints = bench.unmutated_complaints(owner)
    if complaints:
        # Nothing can be said of versions of a rule that its own cases refuse.
        return [Tried((owner, "cases", what), "as it stands", "broken", "") for what in complaints]
    found = []
    for mutant in bench.mutants(owner):
        try:
            by = bench.killed_by(mutant)
        except Refused as error:
            found.append(Tried(mutant.key, mutant.kind, "refused", str(error)))
        else:
            found.append(Tried(mutant.key, mutant.kind, "killed" if by else "survived", by))
    return found


def family(owner: str) -> str:
    """The folder that a rule stands in; derived values and tables are families of their own."""
    head = owner.partition(".")[0]
    return head if head in ("derived", "table") else owner.rpartition("/")[0]


def counted(tried: Iterable[Tried], listed: Mapping[Key, Listed]) -> dict[str, Count]:
    """The figures by family."""
    by_family: dict[str, Counter[str]] = defaultdict(Counter)
    for one in tried:
        if one.state == "broken":
            continue
        counts = by_family[family(one.key[0])]
        counts["made"] += 1
        counts[one.state] += 1
        if one.state == "survived" and one.key in listed and listed[one.key].equivalent:
            counts["equivalent"] += 1
    return {
        name: Count(*(c[k] for k in ("made", "refused", "killed", "survived", "equivalent")))
        for name, c in sorted(by_family.items())
    }


def faults(
    tried: Sequence[Tried], listed: Mapping[Key, Listed], owners: set[str], least: float
) -> list[str]:
    """What makes the run fail."""
    found = []
    survived = {one.key for one in tried if one.state == "survived"}
    found += [
        f"a case fails on the rule as it stands: {t.key[2]}" for t in tried if t.state == "broken"
    ]
    if not any(one.state in ("killed", "survived") for one in tried):
        found.append("no wrong version was tried")
    found += [f"survived, and not listed: {' | '.join(k)}" for k in sorted(survived - set(listed))]
    found += [
        f"listed, but it does not survive: {' | '.join(k)}"
        for k in sorted(set(listed) - survived)
        if k[0] in owners
    ]
    for name, count in counted(tried, listed).items():
        if count.rate_of_different < least and count.made > count.refused:
            found.append(f"{name}: {count.rate_of_different:.1%} noticed, {least:.0%} is asked")
    return found


def table(counts: Mapping[str, Count]) -> str:
    """The figures as text."""
    total = Count(*(sum(column) for column in zip(*counts.values(), strict=True)))
    lines = [
        f"{'family':24}{'made':>7}{'refused':>9}{'killed':>8}{'survived':>10}{'equivalent':>12}{'rate':>8}{'without eq.':>13}"
    ]
    for name, c in [*counts.items(), ("all", total)]:
        lines.append(
            f"{name:24}{c.made:7}{c.refused:9}{c.killed:8}{c.survived:10}{c.equivalent:12}{c.rate:8.1%}{c.rate_of_different:13.1%}"
        )
    return "\n".join(lines)


def chosen(owners: list[str], families: list[str], rules: list[str], part: str) -> list[str]:
    """The part of all owners that was asked for."""
    if rules:
        unknown = set(rules) - set(owners)
        if unknown:
            raise SystemExit(f"there is no {', '.join(sorted(unknown))}")
        owners = [o for o in owners if o in rules]
    if families:
        owners = [o for o in owners if family(o) in families]
    k, n = (int(x) for x in part.split("/"))
    return owners[k - 1 :: n]


_bench: Bench | None = None


def _one(owner: str) -> list[Tried]:
    assert _bench is not None
    return try_owner(_bench, owner)


def try_all(bench: Bench, owners: list[str], jobs: int, out: Any = sys.stderr) -> list[Tried]:
    """All that was asked for, in as many processes as asked for; says how far it is."""
    global _bench  # noqa: PLW0603 - what the forked processes share
    _bench = bench
    found: list[Tried] = []
    start = last = time.monotonic()
    with multiprocessing.get_context("fork").Pool(jobs) as pool:
        for i, some in enumerate(pool.imap_unordered(_one, owners), 1):
            found += some
            if time.monotonic() - last > 5 or i == len(owners):
                last = time.monotonic()
                print(
                    f"{i} of {len(owners)} files, {len(found)} versions, {last - start:.0f} s",
                    file=out,
                )
    return found


def main(
    arguments: list[str] | None = None, bench: Bench | None = None, listed: Path = REGISTER
) -> int:
    """The command; gives its exit status."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawTextHelpFormatter
    )
    parser.add_argument(
        "--family", action="append", default=[], help="a folder of rules, 'derived' or 'table'"
    )
    parser.add_argument(
        "--rule", action="append", default=[], help="FAMILY/RULE, derived.NAME or table.NAME"
    )
    parser.add_argument("--part", default="1/1", help="K/N: every Nth file from the Kth on")
    parser.add_argument("--jobs", type=int, default=2)
    parser.add_argument(
        "--least", type=float, default=RATE, help="the rate that every family needs"
    )
    parser.add_argument(
        "--show",
        choices=["survived", "refused", "killed"],
        help="list these, with what noticed them",
    )
    asked = parser.parse_args(arguments)
    bench = bench or Bench(descriptions=shipped_descriptions())
    known = register(listed)
    owners = chosen(bench.owners(), asked.family, asked.rule, asked.part)
    tried = try_all(bench, owners, asked.jobs)
    for one in sorted(tried):
        if one.state == asked.show:
            print(" | ".join([*one.key, one.by] if one.by else one.key))
    counts = counted(tried, known)
    if counts:
        print(table(counts))
        kinds = Counter((t.kind, t.state) for t in tried)
        for kind in sorted({t.kind for t in tried}):
            print(
                f"  {kind:12}",
                ", ".join(f"{s} {kinds[kind, s]}" for s in ("killed", "survived", "refused")),
            )
    idle = [owner for owner in bench.idle() if owner in owners]
    if idle:
        print("no rule rests on:", ", ".join(idle))
    wrong = faults(tried, known, set(owners), asked.least)
    unknown = sorted({k[0] for k in known} - set(bench.owners()))
    wrong += [f"listed, but there is no such file: {name}" for name in unknown]
    print("\n".join(wrong) or "every survivor is accounted for")
    return 1 if wrong else 0


def shipped_descriptions() -> list[Path]:
    """The whole descriptions whose outcome is fixed: the ready ones, and those with one defect."""
    folder = ROOT / "fixtures"
    ready = [p for p in sorted(folder.glob("*.yaml")) if p.stem != "wall-bracket-old-lathe"]
    return [*ready, *sorted((folder / "defective").glob("*.yaml"))]


if __name__ == "__main__":
    raise SystemExit(main())
