"""The same input gives the same bytes, whoever asks and with whichever Python; an audit is the worst of its jobs."""

from __future__ import annotations

import ast
import os
import shutil
import subprocess
import sys
from functools import cache
from pathlib import Path
from random import Random
from typing import Any

import pytest
from attacks import command
from campaign import examples
from case_installations import shipped
from hypothesis import given
from hypothesis import strategies as st
from moving import FIXTURES, ROOT
from mutations import descriptions, mutated
from situations import MASS, scope
from speaking import Speaker

from checker.audit.judging_jobs import judge_bytes
from checker.audit.results import status_of
from checker.audit.totals import Totals
from checker.formulas.compiling import compile_formula
from checker.formulas.grammar import FormulaError, parse_formula
from checker.grades import Grade, verdict_of
from checker.running import Checker

# --- an audit --------------------------------------------------------------------


@cache
def checker() -> Checker:
    return Checker()


@given(st.lists(st.tuples(st.sampled_from(descriptions()), st.integers(0, 10**6)), min_size=1, max_size=6), st.sampled_from([g for g in Grade if g < Grade.NOT_APPLICABLE]))  # fmt: skip
@examples(12)
def test_an_audit_is_as_bad_as_the_worst_of_its_jobs(
    jobs: list[tuple[tuple[str, str], int]], accept: Grade
) -> None:
    results = []
    totals = Totals()
    for (name, text), seed in jobs:
        random = Random(seed)
        made = mutated(text, random, most=1) if seed % 2 else text
        results.append(judge_bytes(checker(), made.encode("utf-8", "surrogatepass"), name))
        totals.add(results[-1])
    for result in results:
        if result.error:
            assert status_of(result, accept) == 3
            continue
        grades = [Grade.of(f.grade) for f in result.findings]
        assert result.gravest is min(grades, default=Grade.MET)
        assert result.verdict == verdict_of(grades).value
        assert status_of(result, accept) == int(min(grades, default=Grade.MET) < accept)
    assert sum(totals.verdicts.values()) == len(results) == totals.jobs
    worst = min((r.gravest for r in results if not r.error), default=Grade.MET)
    counted = min((Grade.of(w) for c in totals.grades.values() for w, n in c.items() if n), default=Grade.MET)  # fmt: skip
    assert counted is worst


def test_the_status_of_an_audit_is_the_highest_of_its_jobs(tmp_path: Path) -> None:
    paths = []
    for path in (FIXTURES[0], FIXTURES[3], FIXTURES[5], FIXTURES[20]):
        paths.append(tmp_path / path.name)
        shutil.copy(path, paths[-1])
    (tmp_path / "broken.yaml").write_text("x", encoding="utf-8")
    paths.append(tmp_path / "broken.yaml")
    alone = [command("check", path, "--brief").status for path in paths]
    assert len(set(alone)) == 3
    for n in range(1, len(paths) + 1):
        assert command("audit", *paths[:n]).status == max(alone[:n])


# --- formulas written out again --------------------------------------------------


def test_a_shipped_formula_written_out_again_is_the_same() -> None:
    """Formulas are shown as Python writes their tree: it reads back to the same tree."""
    seen = 0
    for rule in shipped().rules:
        for one in (*(x.formula for x in (*rule.lines, rule.demand, rule.limit) if x is not None), *(c for _, c in rule.expect)):  # fmt: skip
            tree = parse_formula(one.text)
            try:
                again = parse_formula(ast.unparse(tree))
            except FormulaError as error:
                # Written out it may be longer than a formula may be.
                assert "characters" in error.what, one.text  # noqa: PT017
                continue
            assert ast.dump(again) == ast.dump(tree)
            seen += 1
    assert seen > 1500


@given(st.randoms(use_true_random=False))
@examples(200)
def test_a_random_formula_written_out_again_is_the_same(random: Any) -> None:
    text = Speaker(random, 0.02).number(MASS, 3)
    try:
        tree = parse_formula(text)
        again = ast.unparse(tree)
        assert ast.dump(parse_formula(again)) == ast.dump(tree)
        assert compile_formula(again, scope()).source == compile_formula(text, scope()).source
    except FormulaError:
        return


# --- the same bytes --------------------------------------------------------------

_FORMS = ("text", "json", "html", "sarif", "junit")
_PLANS = (FIXTURES[0], FIXTURES[5])


def _run(
    python: str, plan: Path, form: str, seed: str, cache_folder: Path, extra: str = ""
) -> bytes:
    environment = {k: v for k, v in os.environ.items() if not k.startswith("PYTHON")}
    environment |= {"PYTHONHASHSEED": seed, "MISTWRIGHT_CACHE": str(cache_folder), "PYTHONPATH": os.pathsep.join(filter(None, [str(ROOT), extra])), "COLUMNS": "80"}  # fmt: skip
    done = subprocess.run(
        [python, "-m", "checker", "check", str(plan.relative_to(ROOT)), "--format", form],
        cwd=ROOT, env=environment, capture_output=True, check=False, timeout=300,
    )  # fmt: skip
    assert done.returncode in (0, 1), done.stderr.decode()[-800:]
    return done.stdout


@pytest.mark.slow
@pytest.mark.parametrize("form", _FORMS)
def test_the_same_bytes_with_every_hash_seed(form: str, tmp_path_factory: pytest.TempPathFactory) -> None:  # fmt: skip
    folder = tmp_path_factory.getbasetemp() / "hash-seeds"
    for plan in _PLANS:
        first = _run(sys.executable, plan, form, "0", folder)
        assert first
        assert _run(sys.executable, plan, form, "12345", folder) == first


def _other_pythons() -> list[str]:
    found = []
    for name in ("python3.12", "python3.13", "python3.14"):
        own = shutil.which(name)
        versions = Path.home() / ".pyenv" / "versions"
        ways = [own, *(str(p) for p in sorted(versions.glob(f"{name.removeprefix('python')}.*/bin/python")))]  # fmt: skip
        for way in filter(None, ways):
            done = subprocess.run([way, "-c", "import sys; print(sys.version_info[:2])"], capture_output=True, text=True, check=False)  # fmt: skip
            if done.returncode == 0 and str(sys.version_info[:2]) not in done.stdout:
                found.append(way)
                break
    return found


_OTHERS = _other_pythons()


def _packages(python: str, tmp: Path) -> str:
    """What the program needs, for another Python: in a folder of its own."""
    needs = ["click", "fluids", "jinja2", "jsonschema", "pyyaml", "rich", "segno"]
    done = subprocess.run([python, "-m", "pip", "install", "-q", "--target", str(tmp), *needs], capture_output=True, text=True, check=False, timeout=300)  # fmt: skip
    if done.returncode:
        pytest.skip(f"{python} cannot install what the program needs: {done.stderr[-200:]}")
    return str(tmp)


@pytest.mark.slow
@pytest.mark.skipif(not _OTHERS, reason="no second Python of 3.12 or later on this machine")
def test_the_same_bytes_with_another_python(tmp_path: Path) -> None:
    other = _OTHERS[-1]
    extra = _packages(other, tmp_path / "packages")
    for plan in _PLANS:
        for form in ("text", "json", "html"):
            ours = _run(sys.executable, plan, form, "0", tmp_path / "cache")
            theirs = _run(other, plan, form, "1", tmp_path / "cache", extra)
            assert ours == theirs, (other, plan.name, form)
