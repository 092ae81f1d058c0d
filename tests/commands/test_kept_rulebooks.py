"""Compiled rulebooks kept between runs."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from benches import BENCH, READY, WITH

Run = Callable[..., Any]


@pytest.fixture
def kept(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("kept")
    folder.chmod(0o700)
    return folder


def test_a_kept_rulebook_says_the_same(
    run: Run, plan: Callable[..., str], kept: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    name = plan(WITH["stop"])
    fresh = run("check", name, "--format", "json")
    monkeypatch.setenv("MISTWRIGHT_CACHE", str(kept))
    first = run("check", name, "--format", "json")
    assert len(list(kept.iterdir())) == 1
    second = run("check", name, "--format", "json")
    assert fresh == first == second


@pytest.mark.parametrize(
    "damage",
    [
        lambda _: b"",
        lambda _: b"{}",
        lambda data: data[:-1],
        lambda data: data + b"\0",
        lambda data: data[:500] + bytes([data[500] ^ 1]) + data[501:],
        lambda data: bytes(32) + data[32:],
        lambda data: data[32:],
    ],
)
def test_a_damaged_rulebook_is_made_again(
    run: Run, plan: Callable[..., str], kept: Path, monkeypatch: pytest.MonkeyPatch,
    damage: Callable[[bytes], bytes],
) -> None:  # fmt: skip
    name = plan(WITH["stop"])
    monkeypatch.setenv("MISTWRIGHT_CACHE", str(kept))
    first = run("check", name)
    (file,) = kept.iterdir()
    whole = file.read_bytes()
    file.write_bytes(damage(whole))
    assert run("check", name) == first
    assert file.read_bytes() == whole


def test_a_folder_that_others_can_write_to_is_not_used(
    run: Run, plan: Callable[..., str], kept: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    kept.chmod(0o777)
    monkeypatch.setenv("MISTWRIGHT_CACHE", str(kept))
    assert run("check", plan(READY)).status == 0
    assert list(kept.iterdir()) == []


def test_a_changed_rule_is_never_taken_from_what_was_kept(
    run: Run, plan: Callable[..., str], kept: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    plan(READY)
    monkeypatch.setenv("MISTWRIGHT_CACHE", str(kept))
    rule = (BENCH / "load" / "capacity.yaml").read_text(encoding="utf-8")
    Path("house/load").mkdir(parents=True)
    for title in ("Ours, one", "Ours, two"):
        Path("house/load/capacity.yaml").write_text(rule.replace("Mass on the host", title))
        assert title in run("rulebook", "list", "--rules", "house").out
