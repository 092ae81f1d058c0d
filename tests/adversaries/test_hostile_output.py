"""What tests/output/test_hostile_text.py leaves open: places in SARIF, jobs that share a name, many findings."""

from __future__ import annotations

import json
import re
from pathlib import Path
from urllib.parse import unquote

import pytest
from attacks import PLAN, command
from test_bad_yaml import HEAD


def uris(log: object) -> set[str]:
    """Every place that a SARIF log names."""
    if isinstance(log, dict):
        own = {log["uri"]} if isinstance(log.get("uri"), str) else set()
        return own.union(*map(uris, log.values())) if log else own
    return set().union(*map(uris, log)) if isinstance(log, list) and log else set()


@pytest.mark.parametrize("name", ["a plan.yaml", "100 %.yaml", "a#b?c.yaml", "plan:1.yaml", "ä ö.yaml", "a\\b.yaml", "[x].yaml"])  # fmt: skip
@pytest.mark.parametrize("use", ["check", "audit"])
def test_a_name_of_a_file_is_a_whole_uri(name: str, use: str, tmp_path: Path) -> None:
    """Spaces and signs are written as a URI writes them, and lead back to the file."""
    path = tmp_path / name
    path.write_text(HEAD, encoding="utf-8")
    left = command(use, path, "--format", "sarif")
    found = uris(json.loads(left.out)["runs"][0]["results"])
    assert found
    for uri in found:
        assert re.fullmatch(r"[A-Za-z0-9\-._~:/@!$&'()*+,;=%\[\]]*", uri), uri
        assert unquote(uri).endswith(name)


def test_two_plans_of_one_reference_are_two_jobs(tmp_path: Path) -> None:
    for name in ("one.yaml", "other.yaml"):
        (tmp_path / name).write_bytes(PLAN)
    for form in ("text", "json", "junit", "html"):
        left = command("audit", tmp_path, "--format", form)
        assert "one.yaml" in left.out
        assert "other.yaml" in left.out
    lines = command("audit", tmp_path, "--format", "jsonl").out.splitlines()
    jobs = [json.loads(line) for line in lines[:-1]]
    assert jobs[0]["reference"] == jobs[1]["reference"]
    assert jobs[0]["path"] != jobs[1]["path"]


def test_the_same_plan_named_twice_is_one_job(tmp_path: Path) -> None:
    path = tmp_path / "plan.yaml"
    path.write_text(HEAD, encoding="utf-8")
    left = command("audit", path, path, tmp_path, "--format", "jsonl")
    assert len(left.out.splitlines()) == 2


def test_a_reference_that_a_spreadsheet_would_run(tmp_path: Path) -> None:
    for i, text in enumerate(["=1+1", "+1", "-1", "@x", "=cmd|'/C calc'!A0"]):
        job = "job: {stage: plan, reference: " + json.dumps(text) + "}\nmount: {kind: side-post}\n"
        (tmp_path / f"{i}.yaml").write_text(job, encoding="utf-8")
    left = command("audit", tmp_path, "--format", "csv")
    cells = {line.split(",")[1] for line in left.out.splitlines()[1:]}
    assert cells
    assert all(cell.lstrip('"').startswith("'") for cell in cells)


@pytest.mark.slow
def test_sixty_members_in_every_list(tmp_path: Path) -> None:
    """Some thousand findings: every form still comes whole."""
    members = ", ".join(f"{{name: joint {i}, place: duct-suction}}" for i in range(60))
    parts = ", ".join(f"{{name: part {i}, kind: straight}}" for i in range(60))
    fixings = ", ".join(f"{{at: place {i}, kind: tapped}}" for i in range(60))
    text = f"{HEAD.replace('{kind: side-post}', f'{{kind: side-post, fixings: [{fixings}]}}')}seals: {{joints: [{members}]}}\nduct: {{parts: [{parts}]}}\n"
    path = tmp_path / "plan.yaml"
    path.write_text(text, encoding="utf-8")
    for form in ("text", "json", "html", "sarif", "junit"):
        left = command("check", path, "--format", form)
        assert left.status == 1, left.err[-300:]
        # On a terminal what is missing is gathered by field, not told member by member.
        if form != "text":
            assert "joint 59" in left.out
            assert "part 59" in left.out
