"""What several test modules share: a small layout and rulebook of their own, and a way in.

Nothing here reads the shipped rules, so that a test of the core fails for the core's
reasons only.
"""

from __future__ import annotations

import io
import sys
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

import pytest
from hypothesis import settings

from checker.cli import main
from checker.installation.binding import bind_node
from checker.installation.fields import Layout
from checker.installation.record import Installation
from checker.installation.schema import layout_from
from checker.reading import read_yaml
from checker.rulebook.loading import load_rulebook
from checker.rulebook.model import Rulebook

# How long one example takes depends on the machine's other work; the whole suite has a limit.
settings.register_profile("mistwright", deadline=None)
settings.load_profile("mistwright")

DATA = Path(__file__).parent / "data"
SMALL = DATA / "small"
BENCH = DATA / "bench"

# What a rule needs besides what a test is about.
RULE = """\
title: Shelf
protects: People below.
{parts}
says: {{stop: s, correct: c, confirm: f, advise: a, met: m, not-applicable: n}}
basis: [{{source: statics, clause: c, confidence: checked}}]
caution: Mind it.
cases: [{{name: one, grade: met}}]
"""
SOURCES = """\
statics: {title: Statics, publisher: Textbook physics}
memory: {title: A remembered page, publisher: Nobody}
"""


class Run(NamedTuple):
    """What a run of the command left behind."""

    status: int
    out: str
    err: str


@pytest.fixture(scope="session")
def small_layout() -> Layout:
    return layout_from(SMALL / "schemas" / "installation.schema.json")


@pytest.fixture(scope="session")
def small_rulebook(small_layout: Layout) -> Rulebook:
    return load_rulebook([SMALL / "rules"], shipped=False, layout=small_layout)


@pytest.fixture(scope="session")
def describe(small_layout: Layout) -> Callable[[str], Installation]:
    """A description of the small layout; what every description states is added."""

    def bound(text: str) -> Installation:
        lines = text.splitlines()
        for section, least in (
            ("job", "job: {stage: plan}"),
            ("mount", "mount: {kind: side-post}"),
        ):
            if not any(line.startswith(f"{section}:") for line in lines):
                lines.append(least)
        data = ("\n".join(lines) + "\n").encode()
        return Installation(
            bind_node(read_yaml(data, "shelf.yaml"), small_layout, "shelf.yaml"),
            "shelf.yaml",
            "0" * 64,
        )

    return bound


@pytest.fixture
def rules_in(tmp_path: Path) -> Callable[[dict[str, str]], Path]:
    """Writes a folder of rules from texts by file name, a file of sources beside them."""

    def written(files: dict[str, str]) -> Path:
        folder = tmp_path / "rules"
        for name, text in {"sources/own.yaml": SOURCES, **files}.items():
            path = folder / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")
        return folder

    return written


@pytest.fixture
def load(
    rules_in: Callable[[dict[str, str]], Path], small_layout: Layout
) -> Callable[[dict[str, str]], Rulebook]:
    """Loads a rulebook of the small layout from texts by file name."""

    def loaded(files: dict[str, str]) -> Rulebook:
        return load_rulebook([rules_in(files)], shipped=False, layout=small_layout)

    return loaded


@pytest.fixture
def rule_text() -> Callable[[str], str]:
    """A whole rule from the parts that a test is about."""
    return lambda parts: RULE.format(parts=parts.strip("\n"))


@pytest.fixture
def run(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Callable[..., Run]:
    """Runs the command in this process, on the bench's rules instead of the shipped ones."""
    monkeypatch.setattr("checker.rulebook.loading.RULES", BENCH)
    for name in ("NO_COLOR", "FORCE_COLOR", "COLUMNS", "MISTWRIGHT_DEBUG"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("MISTWRIGHT_CACHE", "off")

    def ran(*arguments: str | Path, stdin: bytes = b"") -> Run:
        monkeypatch.setattr(sys, "argv", ["mistwright", *map(str, arguments)])
        monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(stdin), encoding="utf-8"))
        capsys.readouterr()
        with pytest.raises(SystemExit) as left:
            main()
        seen = capsys.readouterr()
        return Run(int(left.value.code or 0), seen.out, seen.err)

    return ran
