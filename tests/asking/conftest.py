"""The shipped rules read once, and conversations about a description in a folder of its own."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from checker.rulebook.loading import Rulebooks
from checker.rulebook.model import Rulebook


@pytest.fixture(scope="session")
def shipped() -> Rulebook:
    # Read afresh: a rulebook that was kept from an earlier run does not carry the rules' cases.
    return Rulebooks(fresh=True).with_overlays()


@pytest.fixture
def ask(run: Any, tmp_path: Path) -> Callable[..., Any]:
    """Holds one conversation about a file, each answer on a line."""

    def asked(*answers: str, name: str = "job.yaml", options: tuple[str, ...] = ()) -> Any:
        lines = "".join(f"{a}\n" for a in answers)
        return run("ask", tmp_path / name, *options, stdin=lines.encode("utf-8", "surrogateescape"))

    return asked


@pytest.fixture
def job(run: Any, tmp_path: Path) -> Path:
    path = tmp_path / "job.yaml"
    assert run("new", "side-post", "--output", path).status == 0
    return path
