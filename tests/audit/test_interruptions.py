"""What goes wrong around an audit: killed, disk full, files replaced; nothing lost, the next run right."""

from __future__ import annotations

import os
import resource
import shutil
import signal
import sqlite3
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest
from audits import FIXTURES, generator, order, rows, run, shipped

from checker.audit import running, sharing
from checker.audit.jobs import Job
from checker.errors import Mistakes

ROOT = Path(__file__).parents[2]
JOBS = 160
ENVIRONMENT = {**os.environ, "PYTHONPATH": str(ROOT)}


def command(*arguments: object) -> list[str]:
    return [sys.executable, "-m", "checker", "audit", *map(str, arguments)]


@pytest.fixture(scope="module")
def many(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """So many jobs that there is time to kill their audit."""
    folder = tmp_path_factory.mktemp("many")
    generator().Generator(7).write(folder, JOBS)
    return folder


def remembered(memory: Path) -> int:
    try:
        with sqlite3.connect(f"file:{memory}?mode=ro", uri=True) as connection:
            return int(connection.execute("SELECT count(*) FROM results").fetchone()[0])
    except sqlite3.Error:
        return 0


def killed(arguments: list[str], when: Callable[[], bool]) -> None:
    """Start a command and kill it once something is so."""
    started = subprocess.Popen(arguments, env=ENVIRONMENT, stdout=subprocess.DEVNULL)
    try:
        end = time.monotonic() + 120
        while not when() and time.monotonic() < end and started.poll() is None:
            time.sleep(0.005)
        assert started.poll() is None, "it was over before it could be killed"
    finally:
        started.send_signal(signal.SIGKILL)
        started.wait()


@pytest.mark.slow
def test_killed_in_the_middle(many: Path, tmp_path: Path) -> None:
    output, memory = tmp_path / "result.jsonl", tmp_path / "memory"
    asked = command(many, "--format", "jsonl", "--output", output, "--memory", memory)
    # No output yet: killed as soon as it writes to a file beside its place.
    killed(asked, lambda: any(p.name.startswith(".result") for p in tmp_path.iterdir()))
    assert not output.exists()
    output.write_text("what stood here before")
    # Killed once something is remembered.
    killed(asked, lambda: remembered(memory) > 0)
    assert output.read_text() == "what stood here before"
    kept = remembered(memory)
    assert 0 < kept < JOBS
    status, fresh, _ = run(order(many))
    assert run(order(many, memory=memory)) == (status, fresh, "")
    assert remembered(memory) == JOBS
    assert run(order(many, memory=memory)) == (status, fresh, "")


def limited(size: int) -> None:
    resource.setrlimit(resource.RLIMIT_FSIZE, (size, size))


@pytest.mark.slow
def test_disk_full_for_the_output(jobs: Path, tmp_path: Path) -> None:
    output = tmp_path / "result.jsonl"
    output.write_text("what stood here before")
    ran = subprocess.run(
        command(jobs, "--format", "jsonl", "--output", output),
        env={**ENVIRONMENT, "MISTWRIGHT_CACHE": str(tmp_path / "cache")},
        preexec_fn=lambda: limited(10_000),
        capture_output=True,
        text=True,
        check=False,
    )
    assert ran.returncode == 3
    assert "the file cannot be written" in ran.stderr
    assert "Traceback" not in ran.stderr
    assert output.read_text() == "what stood here before"
    assert [p.name for p in tmp_path.iterdir() if p.name.startswith(".")] == []


@pytest.mark.slow
def test_disk_full_for_the_memory(jobs: Path, tmp_path: Path) -> None:
    memory = tmp_path / "memory"
    status, fresh, _ = run(order(jobs))
    ran = subprocess.run(
        command(jobs, "--format", "jsonl", "--memory", memory),
        env={**ENVIRONMENT, "MISTWRIGHT_CACHE": str(tmp_path / "cache")},
        preexec_fn=lambda: limited(10_000),
        capture_output=True,
        text=True,
        check=False,
    )
    assert (ran.returncode, ran.stdout) == (status, fresh)
    assert ran.stderr.count("\n") <= 1
    # What is left of it neither helps nor harms the next run.
    assert run(order(jobs, memory=memory))[:2] == (status, fresh)


@pytest.mark.parametrize("form", ["jsonl", "junit", "html"])
def test_a_device_that_is_full(jobs: Path, form: str) -> None:
    with pytest.raises(Mistakes, match="cannot be written: No space left on device"):
        run(order(jobs, form=form, output=Path("/dev/full")))


def test_an_output_that_cannot_be_there(jobs: Path, tmp_path: Path) -> None:
    with pytest.raises(Mistakes, match="cannot be written"):
        run(order(jobs, output=jobs / "broken.yaml" / "result.json"))
    with pytest.raises(Mistakes, match="cannot be made"):
        run(order(jobs, reports=jobs / "broken.yaml" / "reports"))


def test_a_file_that_is_gone_once_it_was_read(jobs: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:  # fmt: skip
    """Grades, sentences and page come from the bytes that were read once."""
    plan = tmp_path / "jobs" / "wall.yaml"
    plan.parent.mkdir()
    shutil.copy(FIXTURES / "wall-bracket-old-lathe.yaml", plan)
    expected = run(order(plan, form="sarif"))
    read = running.read_bytes

    def read_and_replace(path: str) -> bytes:
        data = read(path)
        plan.unlink()
        plan.write_text("not a description any more\n")
        return data

    monkeypatch.setattr(running, "read_bytes", read_and_replace)
    assert run(order(plan, form="sarif", reports=tmp_path / "pages")) == expected
    assert "not a description" in plan.read_text()
    assert len(list((tmp_path / "pages").iterdir())) == 1


def test_a_file_replaced_after_it_was_looked_up(tmp_path: Path) -> None:
    """A process that finds other bytes than were looked up judges those it finds."""
    plan = tmp_path / "plan.yaml"
    shutil.copy(FIXTURES / "grinder-roof-plate.yaml", plan)
    auditor, job = shipped(), Job(str(plan), None)
    looked_up = auditor.one(job).result
    shutil.copy(FIXTURES / "wall-bracket-old-lathe.yaml", plan)
    judged = sharing._judge_one(auditor, job, looked_up, running.Wanted()).result
    assert judged == auditor.one(job).result
    assert judged.digest != looked_up.digest


def test_a_job_that_a_lost_file_belongs_to_is_still_told(jobs: Path, tmp_path: Path) -> None:
    folder = tmp_path / "jobs"
    shutil.copytree(jobs, folder)
    names = tmp_path / "list"
    names.write_text("".join(f"{p}\n" for p in sorted(folder.glob("*.yaml"))))
    (folder / "round.yaml").symlink_to(folder / "round2.yaml")
    (folder / "round2.yaml").symlink_to(folder / "round.yaml")
    (folder / "nowhere.yaml").symlink_to(folder / "nothing.yaml")
    (folder / "deep").symlink_to(folder, target_is_directory=True)
    status, text, _ = run(order(folder))
    found = {Path(r["path"]).name: r for r in rows(text)}
    assert status == 3
    assert len(found) == len(rows(run(order(jobs))[1])) + 3
    for name in ("round.yaml", "round2.yaml", "nowhere.yaml"):
        assert found[name]["verdict"] == "unread"
        assert found[name]["error"].startswith(str(folder / name))
