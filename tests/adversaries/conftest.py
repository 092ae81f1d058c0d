"""What a deep campaign came to, printed at its end."""

from __future__ import annotations

from typing import Any

from campaign import DEEP, RAN, SLOWEST


def pytest_terminal_summary(terminalreporter: Any) -> None:
    if DEEP and RAN:
        terminalreporter.section("examples of the campaign")
        for kind, times in sorted(RAN.items()):
            slowest = f"slowest {SLOWEST[kind]:.2f} s" if kind in SLOWEST else ""
            terminalreporter.write_line(f"{times:>9}  {kind}  {slowest}")
