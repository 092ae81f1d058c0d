"""Descriptions for the rules in tests/data/bench, and the command in a process of its own."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path
from typing import Any

TOP = Path(__file__).parents[2]
BENCH = TOP / "tests" / "data" / "bench"

READY = "job: {stage: plan, reference: J-1}\nmount: {kind: side-post}\ncollector: {mass: 40 kg}\nhost: {capacity: 100 kg}\n"
WITH = {
    "ready": READY,
    "advise": READY.replace("100 kg", "48 kg"),
    "correct": READY.replace("100 kg", "42 kg"),
    "stop": READY.replace("100 kg", "39 kg"),
    "confirm": READY.replace("host: {capacity: 100 kg}\n", ""),
}

# Starts the command in a process of its own, on the bench's rules.
DRIVER = (
    "import sys, pathlib, checker.rulebook.loading as loading\n"
    f"loading.RULES = pathlib.Path({str(BENCH)!r})\n"
    "from checker.cli import main\n"
    "main()\n"
)


def apart(
    *arguments: str, stdin: Any = b"", environment: dict[str, str] | None = None, **more: Any
) -> subprocess.CompletedProcess[bytes]:
    """The command in a process of its own."""
    kept = {
        k: v
        for k, v in os.environ.items()
        if k not in ("NO_COLOR", "FORCE_COLOR", "COLUMNS", "MISTWRIGHT_DEBUG")
    }
    settings = {**kept, "PYTHONPATH": str(TOP), "MISTWRIGHT_CACHE": "off", **(environment or {})}
    given = {"input": stdin} if isinstance(stdin, bytes) else {"stdin": stdin}
    return subprocess.run(
        [sys.executable, "-c", DRIVER, *arguments],
        capture_output=True, env=settings, timeout=60, check=False, **given, **more,
    )  # fmt: skip
