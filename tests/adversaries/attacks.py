"""The ways in: what a hostile file of each kind is given to, in this process.

Each takes what is hostile and gives an answer or raises Mistakes. Whatever else comes out
is a fault of ours.
"""

from __future__ import annotations

import contextlib
import io
import json
import shutil
import sqlite3
import sys
import tempfile
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path
from typing import Any, NamedTuple

from mutations import ROOT, descriptions, rules

from checker.audit.comparing import Earlier
from checker.audit.judging_jobs import judge_bytes
from checker.audit.memory import open_memory
from checker.audit.merging import merge_parts
from checker.audit.results import FORMAT, JobResult, to_json
from checker.checking.outcomes import check
from checker.cli import main
from checker.formulas.scope import DerivedName, Scope
from checker.grades import Grade
from checker.installation.binding import bind
from checker.installation.merging import merge
from checker.output import render
from checker.output.sheet import render_text
from checker.reporting.fitting_sheet import sheet_for
from checker.rulebook.cases import only, run_cases, what_cases_lack
from checker.rulebook.files import File, read_file
from checker.rulebook.linking import link, needs_of, source_of
from checker.rulebook.loading import Rulebooks
from checker.rulebook.model import Rulebook
from checker.rulebook.overlays import changes_for, find_overlay, refuse_unknown_targets
from checker.rulebook.rules import build_derived, build_rule
from checker.rulebook.tables import build_table
from checker.running import Checker

__all__ = [
    "Left", "checker", "command", "compared", "described", "found_on_site", "merged", "overlaid", "recalled", "remembered",
    "reported", "ruled", "tabled", "warm", "worked_out",
]  # fmt: skip

PLAN = (ROOT / "fixtures" / "turning-cell-side-post.yaml").read_bytes()


class Left(NamedTuple):
    """What a run of the command left behind."""

    status: int
    out: str
    err: str


@cache
def checker() -> Checker:
    """The shipped rules, loaded once."""
    return Checker()


def warm() -> None:
    """Do once what every attack starts from, so that no attack is charged for it."""
    checker().report_on_bytes(PLAN, "plan.yaml")
    honest_lines()
    honest_memory()
    _kept()


def described(data: bytes) -> JobResult:
    """A description as an audit judges it: every rule, no words."""
    installation = bind(data, "plan.yaml")
    checker().rulebook_for(installation)
    result = judge_bytes(checker(), data, "plan.yaml")
    assert not result.error
    to_json(result)
    return result


def reported(data: bytes) -> None:
    """A description as the other commands use it: every report, the sheet."""
    report = checker().report_on_bytes(data, "plan.yaml")
    for form in ("text", "json", "junit", "sarif", "html"):
        assert render(report, form)
    installation = bind(data, "plan.yaml")
    assert render_text(sheet_for(checker().rulebook_for(installation), installation))


def found_on_site(plan: bytes, site: bytes) -> JobResult:
    """A plan and a site file over it."""
    merge(plan, "plan.yaml", site, "plan.fitted.yaml")
    result = judge_bytes(checker(), plan, "plan.yaml", site, "plan.fitted.yaml")
    to_json(result)
    return result


# --- files of a rulebook ---------------------------------------------------------


@contextlib.contextmanager
def _file(data: bytes, name: str) -> Iterator[Path]:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(data)
        yield path


def ruled(data: bytes, name: str) -> Rulebook:
    """A rule file among the shipped ones: read, compiled, its cases run, a fixture checked by it."""
    whole = checker().rulebook
    with _file(data, "rule.yaml") as path:
        file = read_file(path, f"rules/{name}.yaml", "rule")
    rule = build_rule(file, name, _scope(whole), whole.sources, whole.derived)
    one = only(rule, whole)
    _link(one)
    for _ in run_cases(rule, one):
        pass
    what_cases_lack(rule)
    check(one, bind(PLAN, "plan.yaml"))
    return one


def _link(rulebook: Rulebook) -> None:
    code = compile(source_of(rulebook.rules, rulebook.order), "<rulebook>", "exec")
    link(rulebook, code, needs_of(rulebook))


def worked_out(data: bytes, name: str) -> None:
    """A derived value among the shipped ones."""
    whole = checker().rulebook
    with _file(data, "derived.yaml") as path:
        file = read_file(path, f"rules/derived/{name}.yaml", "derived")
    others = {d.name: d for d in whole.order if d.name != name}
    build_derived(file, name, len(others), _scope(whole), whole.sources, others)


def tabled(data: bytes, name: str) -> None:
    """A table: read, and looked up by its own keys, between them and beyond."""
    with _file(data, "table.yaml") as path:
        file = read_file(path, f"rules/tables/{name}.yaml", "table")
    table = build_table(file, name, checker().rulebook.sources)
    for column, one in table.columns.items():
        for row in list(one.look_up.cells)[:5]:  # type: ignore[attr-defined]
            for scale in (1.0, 1.0001, 0.5, 1e9, -1.0):
                given = tuple(k * scale if isinstance(k, float | int) else k for k in row)
                try:
                    one.look_up(*given)
                except Exception as error:
                    if type(error).__name__ != "OutOfReach":
                        raise
                table.confidence_of(column, *given)
                assert table.say_keys(*given)


def overlaid(data: bytes) -> None:
    """A local overlay over the shipped rules: found, and every rule that it touches built anew."""
    whole = checker().rulebook
    with _file(data, "local/hostile.yaml") as path:
        overlay = find_overlay("hostile", [path.parent.parent])
    known = {r.name: r for r in whole.rules}
    refuse_unknown_targets([overlay], [*known, *(f"derived.{d.name}" for d in whole.order)])
    for target in dict.fromkeys(change.target for change in overlay.changes):
        if target in known:
            rule, file = known[target], _rule_file(target)
            changed, _, _ = changes_for(target, [overlay], dict(rule.parameters), whole.sources)
            if changed:
                rule = build_rule(
                    file, target, _scope(whole), whole.sources, whole.derived, changed
                )
                one = only(rule, whole)
                _link(one)
                check(one, bind(PLAN, "plan.yaml"))
        else:
            one_derived = whole.derived[target.removeprefix("derived.")]
            changes_for(target, [overlay], dict(one_derived.parameters), whole.sources)


@cache
def _rule_file(name: str) -> File:
    return File(f"rules/{name}.yaml", dict(rules())[f"{name}.yaml"].encode())


def _scope(whole: Rulebook) -> Scope:
    return Scope(
        whole.layout,
        derived={d.name: DerivedName(d.index, d.result.formula.type) for d in whole.order},
        tables={name: dict(t.columns) for name, t in whole.tables.items()},
    )


# --- what earlier runs left ------------------------------------------------------


@cache
def results() -> tuple[JobResult, ...]:
    """What an honest audit found of some fixtures."""
    return tuple(judge_bytes(checker(), text.encode(), name) for name, text in descriptions()[:6])


@cache
def honest_lines() -> bytes:
    """An honest audit's JSON lines."""
    with tempfile.TemporaryDirectory() as folder:
        for name, text in descriptions()[:3]:
            (Path(folder) / name.replace("/", "-")).write_text(text, encoding="utf-8")
        left = command("audit", folder, "--format", "jsonl", "--words")
        assert left.status in (0, 1), left.err
        return left.out.encode()


@cache
def honest_memory() -> bytes:
    """An honest memory of an audit, as the file's bytes."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "memory"
        with open_memory(path, b"rules") as (memory, why):
            assert memory is not None, why
            for i, result in enumerate(results()):
                memory.keep(bytes([i]) * 32, result)
        with contextlib.closing(sqlite3.connect(path)) as connection:
            connection.execute("PRAGMA journal_mode = DELETE")
        return path.read_bytes()


def recalled(data: bytes) -> str:
    """A memory file: opened, asked for every result, given one more; never a wrong result."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "memory"
        path.write_bytes(data)
        with open_memory(path, b"rules") as (memory, why):
            if memory is None:
                assert "every job is judged afresh" in why
                return why
            for i, result in enumerate(results()):
                found = memory.recall(bytes([i]) * 32, result.path)
                assert found is None or found == result
            memory.keep(b"\xff" * 32, results()[0])
        return ""


def compared(data: bytes) -> None:
    """An earlier audit's file, as ``--against`` reads it."""
    with _file(data, "earlier.jsonl") as path, contextlib.closing(Earlier(path)) as earlier:
        for name, verdict in earlier.verdicts():
            assert isinstance(verdict, str)
            assert earlier.job(name) is not None


def merged(data: bytes, form: str) -> int:
    """A part of an audit, put together with an honest one."""
    with _file(data, "part-2.jsonl") as path:
        first = path.with_name("part-1.jsonl")
        first.write_bytes(honest_lines())
        return merge_parts((str(first), str(path)), form, None, Grade.MET, io.StringIO())


def remembered(spoil: Callable[[Path], None]) -> Rulebook:
    """A compiled rulebook of an earlier run, spoilt, and asked for again."""
    with tempfile.TemporaryDirectory() as folder:
        shutil.copytree(_kept(), Path(folder) / "kept")
        home = Path(folder) / "kept"
        home.chmod(0o700)
        spoil(home)
        with _environment("MISTWRIGHT_CACHE", str(home)):
            return Rulebooks((ROOT / "tests" / "data" / "bench",), shipped=False).with_overlays(())


@cache
def _kept() -> Path:
    """A cache folder that an honest run has filled with a small rulebook."""
    folder = Path(tempfile.mkdtemp(prefix="mistwright-tests-"))
    with _environment("MISTWRIGHT_CACHE", str(folder)):
        Rulebooks((ROOT / "tests" / "data" / "bench",), shipped=False).with_overlays(())
    assert len(list(folder.iterdir())) == 1
    return folder


@contextlib.contextmanager
def _environment(name: str, value: str) -> Iterator[None]:
    import os  # noqa: PLC0415

    before = os.environ.get(name)
    os.environ[name] = value
    try:
        yield
    finally:
        if before is None:
            del os.environ[name]
        else:
            os.environ[name] = before


# --- the command -----------------------------------------------------------------


def command(*arguments: str | Path, stdin: bytes = b"") -> Left:
    """Run the command in this process on the shipped rules; its status is one of 0 to 3."""
    out, err = io.BytesIO(), io.BytesIO()
    kept = sys.argv, sys.stdin, sys.stdout, sys.stderr
    sys.argv = ["mistwright", *map(str, arguments)]
    sys.stdin = io.TextIOWrapper(io.BytesIO(stdin), encoding="utf-8")
    sys.stdout = io.TextIOWrapper(out, encoding="utf-8", write_through=True)
    sys.stderr = io.TextIOWrapper(err, encoding="utf-8", write_through=True)
    status: Any = None
    try:
        main()
    except SystemExit as left:
        status = left.code or 0
    finally:
        for stream in (sys.stdout, sys.stderr):
            stream.flush()
            # Else the bytes would be closed with it.
            stream.detach()  # type: ignore[attr-defined]
        sys.argv, sys.stdin, sys.stdout, sys.stderr = kept
    found = Left(int(status), out.getvalue().decode(), err.getvalue().decode())
    assert found.status in (0, 1, 2, 3), found.err[-2000:]
    assert "Traceback" not in found.err
    return found


def json_of(data: Any) -> bytes:
    """Plain data as one line of JSON."""
    return json.dumps({"format": FORMAT, **data}, ensure_ascii=False).encode()
