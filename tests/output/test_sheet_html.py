"""The fitting sheet to print: every line of it, a box for each, a code that says what it is."""

from __future__ import annotations

import dataclasses
import re
from functools import cache
from pathlib import Path
from xml.etree import ElementTree

import pytest
import segno

from checker.output.sheet_html import code_text, render
from checker.reporting.fitting_sheet import Sheet
from checker.running import Checker

FIXTURES = Path(__file__).parents[2] / "fixtures"


@cache
def sheet_of(name: str) -> Sheet:
    return Checker().sheet(str(FIXTURES / f"{name}.yaml"))


@cache
def page_of(name: str) -> str:
    return render(sheet_of(name))


def plain(page: str) -> str:
    text = re.sub(r"<(style|title)>.*?</\1>", "", page, flags=re.DOTALL)
    text = re.sub(r"</?(?:b|span|em)\b[^>]*>", "", text)
    text = re.sub(r"<[^>]+>", " ", text)
    for entity, sign in (
        ("&lt;", "<"),
        ("&gt;", ">"),
        ("&#34;", '"'),
        ("&#39;", "'"),
        ("&amp;", "&"),
    ):
        text = text.replace(entity, sign)
    return " ".join(text.replace("\N{NO-BREAK SPACE}", " ").split())


@pytest.mark.parametrize("name", ["turning-cell-side-post", "wall-bracket-old-lathe"])
def test_every_line_is_there_with_a_box_and_its_rule(name: str) -> None:
    sheet, page = sheet_of(name), page_of(name)
    entries = [e for part in sheet.parts for e in part.entries]
    assert entries
    assert page.count('class="box"') == len(entries)
    told = plain(page)
    for entry in entries:
        assert " ".join(entry.text.split()) in told
        assert entry.rule in told
    assert all(line in told for line in sheet.open)


def test_lines_to_write_on_where_something_is_measured() -> None:
    sheet = sheet_of("turning-cell-side-post")
    measured = sum(len(p.entries) for p in sheet.parts if p.name in ("measure", "sign"))
    assert measured
    assert page_of("turning-cell-side-post").count('class="write"') == measured


def test_the_code_holds_reference_and_digest_and_the_text_stands_beside_it() -> None:
    sheet, page = sheet_of("turning-cell-side-post"), page_of("turning-cell-side-post")
    assert code_text(sheet) == f"{sheet.reference} {sheet.digest}"
    assert code_text(sheet) in plain(page)
    drawn = re.search(r'<div class="code"[^>]*>(<svg.*?</svg>)', page, re.DOTALL)
    assert drawn is not None
    square = ElementTree.fromstring(drawn[1])
    code = segno.make_qr(code_text(sheet), error="m")
    # Drawn with its quiet zone of four modules on each side, and nothing cut off.
    assert square.attrib["viewBox"] == "0 0 {0} {0}".format(code.symbol_size(border=4)[0])
    assert code.error in ("M", "Q", "H")


def test_without_a_reference_the_code_is_the_digest() -> None:
    sheet = dataclasses.replace(sheet_of("wall-bracket-old-lathe"), reference="")
    assert code_text(sheet) == sheet.digest


def test_figures_stand_out_and_names_of_things_do_not() -> None:
    page = page_of("turning-cell-side-post")
    figures = re.findall(r'<b class="figure">([^<]+)</b>', page)
    assert figures
    assert all(re.match(r"[0-9]", f) for f in figures)
    assert not re.search(r"tubes\[<b", page)


def test_the_drawing_is_on_the_back() -> None:
    page = page_of("turning-cell-side-post")
    back = page[page.index('<section class="back">') :]
    assert back.count("<svg") == 2
    assert "Side view" in back
    assert "Front view" in back


def test_the_same_sheet_gives_the_same_bytes_and_fetches_nothing() -> None:
    page = page_of("turning-cell-side-post")
    assert render(Checker().sheet(str(FIXTURES / "turning-cell-side-post.yaml"))) == page
    assert not re.search(r'(?:href|src)="(?!#)', page)
    assert "url(" not in page
    assert "<script" not in page
