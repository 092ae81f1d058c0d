"""A folder of its own for each command."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest


@pytest.fixture
def plan(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Callable[..., str]:
    """Writes a description into an empty folder, which becomes the current one."""
    monkeypatch.chdir(tmp_path)

    def written(content: str | bytes, name: str = "plan.yaml") -> str:
        data = content.encode() if isinstance(content, str) else content
        (tmp_path / name).write_bytes(data)
        return name

    return written
