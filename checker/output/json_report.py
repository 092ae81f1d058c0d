"""The report as JSON; its schema is schemas/report.schema.json."""

from __future__ import annotations

import json
from typing import Any

from checker.findings import Report
from checker.grades import Grade, Verdict

__all__ = ["as_data", "render"]


def render(report: Report) -> str:
    """The report as indented JSON, the same bytes for the same report."""
    data = {"$schema": "report.schema.json", **as_data(report)}
    return json.dumps(data, indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def as_data(value: Any) -> Any:
    """Frozen data as plain dictionaries, lists, texts and numbers."""
    if isinstance(value, Grade):
        return value.word
    if isinstance(value, Verdict):
        return value.value
    if isinstance(value, tuple) and hasattr(value, "_fields"):
        return {name: as_data(v) for name, v in zip(value._fields, value, strict=True)}
    if isinstance(value, (tuple, list)):
        return [as_data(v) for v in value]
    if isinstance(value, dict):
        return {k: as_data(v) for k, v in value.items()}
    return value
