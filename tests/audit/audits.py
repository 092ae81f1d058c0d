"""Audits as the tests ask for them, and the generator of descriptions."""

from __future__ import annotations

import importlib.util
import io
import json
from functools import cache
from pathlib import Path
from types import ModuleType
from typing import Any

from checker.audit import command
from checker.audit.command import Order, run_audit
from checker.audit.running import Auditor
from checker.grades import Grade

FIXTURES = Path(__file__).parents[2] / "fixtures"
FORMS = ("text", "json", "jsonl", "csv", "junit", "sarif", "html")


def order(*paths: object, form: str = "jsonl", **options: Any) -> Order:
    """An order with everything else as it usually is."""
    usual: dict[str, Any] = {
        "lists": (), "output": None, "accept": Grade.ADVISE, "part": None, "processes": 1,
        "memory": None, "folders": (), "local": (),
    }  # fmt: skip
    return Order(paths=tuple(map(str, paths)), form=form, **{**usual, **options})


def run(asked: Order) -> tuple[int, str, str]:
    """An audit's status, what it wrote and what it said."""
    out, err = io.StringIO(), io.StringIO()
    return run_audit(asked, out, err), out.getvalue(), err.getvalue()


def rows(text: str) -> list[dict[str, Any]]:
    """The jobs of JSON lines."""
    return [d for d in map(json.loads, text.splitlines()) if "totals" not in d]


@cache
def generator() -> ModuleType:
    """The module tests/generator.py."""
    path = Path(__file__).parents[1] / "generator.py"
    spec = importlib.util.spec_from_file_location("generator", path)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@cache
def shipped(folders: tuple[Path, ...] = (), local: tuple[str, ...] = ()) -> Auditor:
    """An auditor of the shipped rules, and further ones over them, read once for all tests."""
    return Auditor(folders, local)


def read_rules_once(monkeypatch: Any) -> None:
    """Have the command use these auditors."""
    monkeypatch.setattr(command, "Auditor", shipped)
