"""The hook for commits: what stands in the repository is what the program says."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import yaml
from click.testing import CliRunner

from checker.audit.hook import HOOKS, hook_file
from checker.cli import cli

ROOT = Path(__file__).parents[2]


def test_the_file_is_the_one_that_the_program_writes() -> None:
    assert (ROOT / ".pre-commit-hooks.yaml").read_text() == hook_file()
    assert yaml.safe_load(hook_file()) == list(HOOKS)


def test_its_command_is_one_of_ours_and_its_pattern_finds_jobs(tmp_path: Path) -> None:
    program, *arguments = shlex.split(HOOKS[0]["entry"])
    assert program == "mistwright"
    path = tmp_path / "jobs" / "x.yaml"
    path.parent.mkdir()
    path.write_text("not a description\n")
    ran = CliRunner().invoke(cli, [*arguments, str(path)])
    assert ran.exit_code == 3
    assert "::error file=" in ran.stderr
    assert re.search(HOOKS[0]["files"], "plant/jobs/2026/42.fitted.yaml")
    assert not re.search(HOOKS[0]["files"], "plant/notes/42.yaml")
