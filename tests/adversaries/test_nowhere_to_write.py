"""Where a report cannot be written, or must not."""

from __future__ import annotations

from pathlib import Path

import pytest
from attacks import command
from campaign import told_well
from test_bad_yaml import HEAD


def test_no_room_for_the_output(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A full disk: one line, and what stood there before still stands there."""
    plan, out = tmp_path / "plan.yaml", tmp_path / "report.json"
    plan.write_text(HEAD, encoding="utf-8")
    out.write_text("before", encoding="utf-8")

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("checker.writing.os.fsync", full)
    left = command("check", plan, "--format", "json", "--output", out)
    assert left.status == 3
    assert "No space left on device" in left.err
    assert out.read_text(encoding="utf-8") == "before"
    assert sorted(p.name for p in tmp_path.iterdir()) == ["plan.yaml", "report.json"]


@pytest.mark.parametrize("where", ["no/such/folder/report.json", "plan.yaml/report.json", "/proc/report.json", "/dev/full"])  # fmt: skip
def test_no_place_for_the_output(where: str, tmp_path: Path) -> None:
    plan = tmp_path / "plan.yaml"
    plan.write_text(HEAD, encoding="utf-8")
    left = command("check", plan, "--format", "json", "--output", tmp_path / where)
    assert left.status == 3
    assert "cannot be written" in left.err
    told_well(left.err)


def test_the_input_is_not_written_over(tmp_path: Path) -> None:
    plan = tmp_path / "plan.yaml"
    plan.write_text(HEAD, encoding="utf-8")
    (tmp_path / "link.yaml").symlink_to("plan.yaml")
    for out in ("plan.yaml", "link.yaml", "./plan.yaml"):
        assert command("check", plan, "--output", tmp_path / out).status == 2
    assert plan.read_text(encoding="utf-8") == HEAD
