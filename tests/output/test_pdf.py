"""PDF is an extra: one plain message without it, the same bytes twice with it."""

from __future__ import annotations

import io
import sys
from pathlib import Path

import pytest

from checker.errors import Mistakes
from checker.output.pdf import page_as_pdf

PAGE = '<!doctype html><html lang="en"><title>t</title><h1>Post <svg width="9mm" height="9mm" viewBox="0 0 9 9"><path d="M1 1 L8 8" stroke="#000"/></svg></h1>'
DIGEST = "ab" * 32


def test_without_the_extra_there_is_one_plain_message(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "weasyprint", None)
    with pytest.raises(Mistakes) as caught:
        page_as_pdf(PAGE, DIGEST)
    told = str(caught.value)
    assert "WeasyPrint" in told
    assert "mistwright[pdf]" in told
    assert "--format html" in told
    assert len(caught.value.mistakes) == 1


def test_a_library_that_cannot_be_loaded_is_the_same_message(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    class Broken:
        def find_spec(self, name: str, *_: object) -> None:
            if name == "weasyprint":
                raise OSError("cannot load library 'libgobject-2.0-0'")

    monkeypatch.delitem(sys.modules, "weasyprint", raising=False)
    monkeypatch.setattr(sys, "meta_path", [Broken(), *sys.meta_path])
    with pytest.raises(Mistakes, match="WeasyPrint"):
        page_as_pdf(PAGE, DIGEST)


@pytest.mark.slow
def test_a_page_becomes_a_pdf_the_same_each_time() -> None:
    pytest.importorskip("weasyprint", reason="the extra [pdf] is not installed")
    from pypdf import PdfReader  # noqa: PLC0415

    first = page_as_pdf(PAGE, DIGEST)
    assert page_as_pdf(PAGE, DIGEST) == first
    read = PdfReader(io.BytesIO(first))
    assert len(read.pages) == 1
    assert "Post" in read.pages[0].extract_text()
    # A structure tree: a screen reader can walk it.
    assert "/StructTreeRoot" in read.trailer["/Root"]


@pytest.mark.slow
def test_nothing_is_fetched_from_elsewhere(tmp_path: Path) -> None:
    pytest.importorskip("weasyprint", reason="the extra [pdf] is not installed")
    (tmp_path / "x.png").write_bytes(b"not for us")
    page = PAGE + f'<img src="file://{tmp_path}/x.png" alt="seen">'
    assert page_as_pdf(page, DIGEST).startswith(b"%PDF")
