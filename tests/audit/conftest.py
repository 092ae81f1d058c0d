"""A handful of jobs for the tests of audits, and the shipped rules read once for all of them."""

from __future__ import annotations

import shutil
from pathlib import Path

import audits
import pytest

NAMES = ("turning-cell-side-post", "grinder-roof-plate", "wall-bracket-old-lathe")


@pytest.fixture(scope="session")
def jobs(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Three plans, one with what was found on site, and a file that is broken."""
    folder = tmp_path_factory.mktemp("jobs")
    for name in NAMES:
        shutil.copy(audits.FIXTURES / f"{name}.yaml", folder / f"{name}.yaml")
    shutil.copy(audits.FIXTURES / "fitted" / "turning-cell-side-post.fitted.yaml", folder)
    (folder / "broken.yaml").write_text("job: {stage: plan}\nmount: {kind: side-poost}\n")
    return folder


@pytest.fixture(autouse=True)
def rules_read_once(monkeypatch: pytest.MonkeyPatch) -> None:
    audits.read_rules_once(monkeypatch)
