"""The page as PDF, by WeasyPrint, which comes with the extra ``[pdf]`` and needs system libraries."""

from __future__ import annotations

import logging
import os
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from checker.errors import Mistake, Mistakes, Place
from checker.findings import Report
from checker.output.html import render as render_page

__all__ = ["page_as_pdf", "render"]

# Columns take this library three times as long, and it does not balance them well.
_ONE_COLUMN = "* { columns: auto !important }"
_DATE_OF_FONTS = "SOURCE_DATE_EPOCH"


def render(report: Report) -> bytes:
    """The report as PDF. Raises Mistakes where WeasyPrint or its libraries are not installed."""
    return page_as_pdf(render_page(report, folded=False), report.digest)


def page_as_pdf(page: str, digest: str) -> bytes:
    """A page as PDF, the same bytes for the same page. Raises Mistakes as ``render`` does."""
    library = _library()
    with _same_date():
        # A page names nothing outside itself; if one ever did, nothing would be fetched.
        nothing = library.urls.URLFetcher(allowed_protocols=())
        written: bytes = library.HTML(string=page, url_fetcher=nothing).write_pdf(
            stylesheets=[library.CSS(string=_ONE_COLUMN)],
            pdf_tags=True, pdf_identifier=bytes.fromhex(digest)[:16],
        )  # fmt: skip
    return written


def _library() -> Any:
    try:
        # Where Pango is missing, WeasyPrint is there but cannot be imported: an OSError.
        import weasyprint  # noqa: PLC0415
    except (ImportError, OSError):
        raise Mistakes(
            [
                Mistake(
                    "PDF cannot be written here: WeasyPrint or the libraries it needs are not installed",
                    Place("--format pdf"),
                    hint="pip install 'mistwright[pdf]'; or write --format html and print that from a browser",
                )
            ]
        ) from None
    for name in ("weasyprint", "fontTools"):
        logging.getLogger(name).setLevel(logging.CRITICAL)
    return weasyprint


@contextmanager
def _same_date() -> Iterator[None]:
    """Fonts carry the time of writing; a fixed one keeps the bytes the same."""
    before = os.environ.get(_DATE_OF_FONTS)
    os.environ[_DATE_OF_FONTS] = before or "0"
    try:
        yield
    finally:
        if before is None:
            del os.environ[_DATE_OF_FONTS]
