"""``mistwright new``: what it prints, writes and refuses."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from checker.installation.binding import bind
from checker.places import SCHEMAS
from checker.reading import place_of


def test_new_prints_a_description(run: Any) -> None:
    found = run("new", "floor-stand", "--stage", "fitted", "--jurisdiction", "US")
    assert found.status == 0
    assert bind(found.out.encode(), "new.yaml").value("job.jurisdiction") == "US"


def test_new_writes_a_file_and_says_how_to_go_on(run: Any, tmp_path: Path) -> None:
    path = tmp_path / "job.yaml"
    found = run("new", "side-post", "--output", path)
    assert (found.status, found.out) == (0, "")
    assert f"mistwright ask {path}" in found.err
    assert f"mistwright check {path}" in found.err
    assert f"mistwright ask {path}" in path.read_text(encoding="utf-8")
    assert run("check", path).status == 1


def test_new_never_writes_over_a_file(run: Any, tmp_path: Path) -> None:
    path = tmp_path / "job.yaml"
    path.write_text("mine", encoding="utf-8")
    found = run("new", "side-post", "--output", path)
    assert found.status == 3
    assert "there is a file of that name already" in found.err
    assert path.read_text(encoding="utf-8") == "mine"


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["new"], "name the kind: it is one of side-post, floor-stand, roof-plate, wall-bracket"),
        (["new", "sidepost"], "did you mean 'side-post'?"),
        (["new", "side-post", "--jurisdiction", "UK"], "there is no jurisdiction 'UK'"),
        (["new", "side-post", "--stage", "later"], "'later' is not one of"),
        (["new", '"}'], "there is no kind"),
    ],
)
def test_new_used_wrongly(run: Any, arguments: list[str], said: str) -> None:
    found = run(*arguments)
    assert found.status == 2
    assert said in " ".join(found.err.split())


def test_new_into_a_folder_that_is_not_there(run: Any, tmp_path: Path) -> None:
    found = run("new", "side-post", "--output", tmp_path / "no" / "job.yaml")
    assert found.status == 3
    assert "the file cannot be written" in found.err


def test_a_new_description_from_an_installed_copy_names_its_own_schema(tmp_path: Path) -> None:
    # Run from another folder, by path only, as an installed copy is.
    environment = {**os.environ, "PYTHONPATH": str(SCHEMAS.parent)}
    found = subprocess.run(
        [sys.executable, "-m", "checker", "new", "side-post"],
        cwd=tmp_path, env=environment, capture_output=True, text=True, check=True,
    )  # fmt: skip
    named = found.stdout.splitlines()[0].partition("$schema=")[2]
    assert Path(named).is_file()
    assert place_of(bind(found.stdout.encode(), "a").record.mark, "a").line > 1
