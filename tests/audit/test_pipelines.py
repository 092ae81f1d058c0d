"""What docs/pipelines.md says is done as it stands there."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
import yaml
from audits import order, run

ROOT = Path(__file__).parents[2]
TEXT = (ROOT / "docs" / "pipelines.md").read_text()


def block(kind: str) -> str:
    (found,) = re.findall(rf"^```{kind}\n(.*?)^```$", TEXT, re.MULTILINE | re.DOTALL)
    return found


@pytest.fixture
def place(jobs: Path, tmp_path: Path) -> Path:
    """A folder with jobs, and the command on the path."""
    shutil.copytree(jobs, tmp_path / "jobs")
    (tmp_path / "bin").mkdir()
    program = tmp_path / "bin" / "mistwright"
    program.write_text(f'#!/bin/sh\nexec "{sys.executable}" -m checker "$@"\n')
    program.chmod(0o755)
    return tmp_path


def shell(script: str, place: Path, **variables: str) -> subprocess.CompletedProcess[str]:
    path = f"{place / 'bin'}{os.pathsep}{os.environ['PATH']}"
    return subprocess.run(
        ["sh", "-euc", script],
        cwd=place,
        env={**os.environ, "PYTHONPATH": str(ROOT), "PATH": path, **variables},
        capture_output=True,
        text=True,
        check=False,
    )


@pytest.mark.slow
def test_parts_put_together(place: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for part in ("1", "2"):
        done = shell(block("sh part"), place, PART=part, PARTS="2")
        assert done.returncode == 0, done.stderr
    done = shell(block("sh merge"), place, PARTS="2")
    monkeypatch.chdir(place)
    for form, name in (
        ("jsonl", "audit.jsonl"),
        ("sarif", "audit.sarif"),
        ("html", "overview.html"),
    ):
        status, whole, _ = run(order("jobs", form=form))
        assert (place / name).read_text() == whole
    assert done.returncode == status == 3
    # An audit that could not be done fails its part.
    (place / "part-1.jsonl").unlink()
    (place / "jobs").rename(place / "elsewhere")
    assert shell(block("sh part"), place, PART="1", PARTS="2").returncode != 0


def test_the_yaml_is_yaml() -> None:
    blocks = re.findall(r"^```yaml\n(.*?)^```$", TEXT, re.MULTILINE | re.DOTALL)
    assert all(yaml.safe_load(text) for text in blocks)
    assert yaml.safe_load(blocks[1])["repos"][0]["hooks"][0]["id"] == "mistwright"


@pytest.mark.slow
def test_the_cluster(place: Path) -> None:
    pytest.importorskip("distributed", exc_type=ImportError)
    (place / "cluster.py").write_text(block("python"))
    done = subprocess.run(
        [sys.executable, "cluster.py"],
        cwd=place,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    assert "unread jobs/broken.yaml" in done.stdout
    assert "ready jobs/grinder-roof-plate.yaml" in done.stdout
