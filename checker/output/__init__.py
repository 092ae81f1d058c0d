"""What a report looks like: each module draws one form of it and knows nothing else."""

from __future__ import annotations

import importlib
from collections.abc import Callable

from checker.findings import Report

__all__ = ["FORMATS", "render"]

# A new form of output is a module here with render(report) -> str or bytes, and a line in this table.
FORMATS = {
    "text": "checker.output.text",
    "json": "checker.output.json_report",
    "junit": "checker.output.junit",
    "sarif": "checker.output.sarif",
    "html": "checker.output.html",
    "pdf": "checker.output.pdf",
}


def render(report: Report, form: str, *, width: int = 80, detail: str = "usual") -> str | bytes:
    """A report in one of the forms; ``width`` and ``detail`` are for the terminal.

    Raises KeyError for a form that does not exist.
    """
    module = importlib.import_module(FORMATS[form])
    draw: Callable[..., str | bytes] = module.render
    return draw(report, width=width, detail=detail) if form == "text" else draw(report)
