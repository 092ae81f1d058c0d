"""A memory that is broken, foreign or held by another: one line, and never a wrong answer."""

from __future__ import annotations

import random
import shutil
import sqlite3
from pathlib import Path

import pytest
from audits import order, rows, run

from checker.audit import memory as memories
from checker.audit.memory import open_memory


@pytest.fixture(scope="module")
def filled(jobs: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A memory of all jobs."""
    path = tmp_path_factory.mktemp("filled") / "memory"
    run(order(jobs, memory=path))
    return path


def audited(jobs: Path, memory: Path) -> tuple[int, str]:
    """An audit with a memory, which may say one line."""
    status, text, said = run(order(jobs, memory=memory))
    assert said.count("\n") <= 1
    assert said == "" or "judged afresh" in said
    return status, text


@pytest.mark.parametrize("seed", range(12))
def test_bytes_that_fell_over(jobs: Path, filled: Path, tmp_path: Path, seed: int) -> None:
    memory = tmp_path / "memory"
    data = bytearray(filled.read_bytes())
    chance = random.Random(seed)
    for _ in range(1 if seed % 2 else 200):
        data[chance.randrange(len(data))] ^= 1 << chance.randrange(8)
    memory.write_bytes(data)
    fresh = run(order(jobs))[:2]
    assert audited(jobs, memory) == fresh
    assert audited(jobs, memory) == fresh


@pytest.mark.parametrize("share", [0.0, 0.1, 0.5, 0.99])
def test_a_file_that_was_cut_off(jobs: Path, filled: Path, tmp_path: Path, share: float) -> None:
    memory = tmp_path / "memory"
    data = filled.read_bytes()
    memory.write_bytes(data[: int(len(data) * share)])
    assert audited(jobs, memory) == run(order(jobs))[:2]


def test_one_that_another_holds(jobs: Path, filled: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:  # fmt: skip
    monkeypatch.setattr(memories, "_PATIENCE", 0.05)
    memory = tmp_path / "memory"
    shutil.copy(filled, memory)
    with sqlite3.connect(memory, isolation_level=None) as other:
        other.execute("PRAGMA locking_mode = EXCLUSIVE")
        other.execute("BEGIN EXCLUSIVE")
        status, text, said = run(order(jobs, memory=memory))
        other.execute("ROLLBACK")
    other.close()
    assert (status, text) == run(order(jobs))[:2]
    assert said == f"{memory}: not used (database is locked); every job is judged afresh\n"


@pytest.mark.parametrize("other", ["a folder", "nowhere"])
def test_one_that_cannot_be_opened(jobs: Path, tmp_path: Path, other: str) -> None:
    memory = tmp_path if other == "a folder" else tmp_path / "no" / "memory"
    status, text, said = run(order(jobs, memory=memory))
    assert (status, text) == run(order(jobs))[:2]
    assert said.startswith(f"{memory}: not used (")


def test_the_same_bytes_under_another_name(jobs: Path, filled: Path, tmp_path: Path) -> None:
    folder = tmp_path / "moved"
    shutil.copytree(jobs, folder)
    assert audited(folder, filled) == run(order(folder))[:2]


def test_a_result_put_under_another_s_key_is_not_believed(jobs: Path, filled: Path, tmp_path: Path) -> None:  # fmt: skip
    memory = tmp_path / "memory"
    shutil.copy(filled, memory)
    with sqlite3.connect(memory) as connection:
        (a,), (b,) = connection.execute("SELECT key FROM results LIMIT 2").fetchall()
        connection.execute(
            "UPDATE results SET (line, sum) = (SELECT line, sum FROM results WHERE key = ?) WHERE key = ?",
            (a, b),
        )
    connection.close()
    assert audited(jobs, memory) == run(order(jobs))[:2]


def test_results_under_rules_long_out_of_use_are_forgotten(tmp_path: Path) -> None:
    path = tmp_path / "memory"
    for turn in range(7):
        with open_memory(path, bytes([turn]) * 32) as (memory, why):
            assert why == ""
            assert memory is not None
            memory.waiting.append((bytes([turn]), bytes([turn]) * 32, b"line", b"sum"))
    with sqlite3.connect(path) as connection:
        kept = {key[0] for (key,) in connection.execute("SELECT key FROM results")}
    connection.close()
    assert kept == {3, 4, 5, 6}


def test_only_what_changed_is_judged_again(jobs: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:  # fmt: skip
    from checker.audit import running  # noqa: PLC0415

    folder, memory = tmp_path / "jobs", tmp_path / "memory"
    shutil.copytree(jobs, folder)
    run(order(folder, memory=memory))
    (folder / "grinder-roof-plate.yaml").write_text("changed: entirely\n")
    judged = []
    whole = running.judge_bytes

    def counting(checker: object, data: bytes, path: str, *rest: object) -> object:
        judged.append(Path(path).name)
        return whole(checker, data, path, *rest)  # type: ignore[arg-type]

    monkeypatch.setattr(running, "judge_bytes", counting)
    _, text, _ = run(order(folder, memory=memory))
    # A message names its file, so what cannot be read is read again under another name only.
    assert judged == ["grinder-roof-plate.yaml"]
    assert len(rows(text)) == 4
