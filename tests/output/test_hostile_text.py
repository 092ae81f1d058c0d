"""What a description says is shown as text by every output, whatever it is made of.

Every text field of the layout is filled in turn, all at once, with texts that mean
something to one format or another; the reader refuses what cannot be seen.
"""

from __future__ import annotations

import html
import json
import re
from functools import cache
from html.parser import HTMLParser
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest

from checker.errors import Mistakes
from checker.findings import Report
from checker.output import render
from checker.output.html import render as render_page
from checker.output.sheet import render_markdown, render_text
from checker.output.sheet_html import code_text
from checker.output.sheet_html import render as render_sheet
from checker.reading import plain, read_yaml
from checker.reporting.fitting_sheet import Sheet
from checker.running import Checker

FIXTURE = Path(__file__).parents[2] / "fixtures" / "turning-cell-side-post.yaml"
# What fills a field: its number tells which one arrived.
HOSTILE = {
    "markup": "<script>alert({n})</script><img src=x onerror=alert({n})>",
    "quotes": "\"' onmouseover='x{n}' &amp; &lt; ]]> --> {{{{ {n} }}}} {{% raw %}} ${{x{n}}} `x`",
    "right-to-left": "מתקן {n} جهاز <b>",
    "longest": "long-{n}-" + "w" * 4000,
    "spread": "a {n} ::error:: | * _ # =cmd() \\ %0A " + "and so on " * 300,
    "wide": "漢字{n}" * 200,
}
# Long texts make pages of many megabytes.
KINDS = [
    pytest.param(k, marks=[pytest.mark.slow] * (k in ("longest", "spread", "wide")))
    for k in HOSTILE
]
# Names an overlay, which is looked up: a text that names none is refused, as it should be.
LOOKED_UP = {"job.local"}


@cache
def checker() -> Checker:
    return Checker()


def text_fields() -> list[str]:
    return [
        f.path
        for f in checker().rulebook.layout.walk()
        if f.type == "text" and f.path not in LOOKED_UP
    ]


def put(description: dict[str, Any], path: str, text: str) -> None:
    """Write a text at a path; every member of a list gets it, an empty list a member."""
    name, _, rest = path.partition(".")
    if name.endswith("[]"):
        members = description.setdefault(name[:-2], [])
        if not members:
            members.append({})
        for i, member in enumerate(members):
            # Some lists tell their members apart by name.
            put(member, rest, text if i == 0 else f"{text[:4000]} {i}")
    elif rest:
        put(description.setdefault(name, {}), rest, text)
    else:
        description[name] = text


def filled(kind: str) -> tuple[bytes, dict[str, str]]:
    description = plain(read_yaml(FIXTURE.read_bytes(), FIXTURE.name))
    texts = {}
    for number, path in enumerate(text_fields()):
        texts[path] = HOSTILE[kind].format(n=number)
        put(description, path, texts[path])
    return json.dumps(description, ensure_ascii=False).encode(), texts


@cache
def hostile(kind: str) -> tuple[Report, Sheet, dict[str, str]]:
    data, texts = filled(kind)
    with_sheet = checker()
    report = with_sheet.report_on_bytes(data, "plan.yaml")
    from checker.installation.binding import bind  # noqa: PLC0415
    from checker.reporting.fitting_sheet import sheet_for  # noqa: PLC0415

    installation = bind(data, "plan.yaml")
    return report, sheet_for(with_sheet.rulebook_for(installation), installation), texts


class Texts(HTMLParser):
    """The elements and the text of a page."""

    def __init__(self) -> None:
        super().__init__()
        self.tags: set[str] = set()
        self.attributes: set[str] = set()
        self.shown: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.add(tag)
        self.attributes |= {name for name, _ in attrs}

    def handle_data(self, data: str) -> None:
        self.shown.append(data)


def parsed(page: str) -> Texts:
    found = Texts()
    found.feed(page)
    found.close()
    return found


def squeezed(text: str) -> str:
    return " ".join(text.replace("\N{NO-BREAK SPACE}", " ").split())


def test_every_text_field_is_walked() -> None:
    assert len(text_fields()) > 100


@cache
def plain_elements() -> tuple[frozenset[str], frozenset[str]]:
    report = checker().report(str(FIXTURE))
    found = parsed(render_page(report))
    return frozenset(found.tags), frozenset(found.attributes)


@pytest.mark.parametrize("kind", KINDS)
def test_on_the_page_it_is_text(kind: str) -> None:
    report, _, texts = hostile(kind)
    found = parsed(render_page(report))
    tags, attributes = plain_elements()
    # Nothing that a text says becomes an element or an attribute: there are those of our own, no more.
    assert not found.tags & {"script", "img", "b"}
    assert found.tags - tags <= {"em", "article"}
    assert not {a for a in found.attributes - attributes if a.startswith("on")}
    shown = squeezed(" ".join(found.shown))
    read = {f.text for finding in report.findings for f in finding.fields}
    arrived = [t for t in texts.values() if t in read]
    assert len(arrived) > 10
    assert all(squeezed(t) in shown for t in arrived)
    assert squeezed(texts["job.title"]) in shown


@pytest.mark.parametrize("kind", KINDS)
def test_in_every_other_output_it_is_text(kind: str) -> None:
    report, _, texts = hostile(kind)
    assert json.loads(str(render(report, "json")))["title"] == texts["job.title"]
    sarif = json.loads(str(render(report, "sarif")))
    assert sarif["runs"]
    junit = ElementTree.fromstring(str(render(report, "junit")))
    assert junit.tag == "testsuites"
    assert {e.tag for e in junit.iter()} <= {"testsuites", "testsuite", "testcase", "failure", "error", "skipped", "properties", "property", "system-out"}  # fmt: skip
    text = str(render(report, "text", detail="all"))
    assert squeezed(texts["job.title"]) in squeezed(text)
    assert not re.search(r"[\x00-\x08\x0b-\x1f\x7f]", text)


@pytest.mark.parametrize("kind", KINDS)
def test_on_the_fitting_sheet_it_is_text(kind: str) -> None:
    _, sheet, texts = hostile(kind)
    found = parsed(render_sheet(sheet))
    assert not found.tags & {"script", "img"}
    assert not {a for a in found.attributes if a.startswith("on")}
    assert squeezed(texts["job.reference"]) in squeezed(" ".join(found.shown))
    assert len(code_text(sheet)) <= 60 + 1 + 64
    assert "<script" not in render_markdown(sheet).replace("\\<", "")
    assert squeezed(texts["job.title"])[:40] in squeezed(render_text(sheet))


UNSEEN = (0x00, 0x07, 0x1B, 0x7F, 0x85, 0x9B, 0x200B, 0x202E, 0x2066, 0x2028, 0xFEFF)


@pytest.mark.parametrize("code", UNSEEN, ids=[f"U+{code:04X}" for code in UNSEEN])
def test_what_cannot_be_seen_is_refused_by_the_reader(code: int) -> None:
    for written in (chr(code), f"\\u{code:04x}"):
        data = f'job: {{stage: plan, title: "a{written}b"}}\nmount: {{kind: side-post}}\n'.encode()
        with pytest.raises(Mistakes):
            checker().report_on_bytes(data, "plan.yaml")


def test_ten_thousand_letters_are_refused_by_the_reader() -> None:
    data = f'job: {{stage: plan, title: "{"x" * 10_000}"}}\nmount: {{kind: side-post}}\n'.encode()
    with pytest.raises(Mistakes, match="too long"):
        checker().report_on_bytes(data, "plan.yaml")


def test_a_page_from_a_file_with_a_hostile_name_shows_the_name() -> None:
    name = "<img src=x>&\"'.yaml"
    page = render_page(checker().report_on_bytes(FIXTURE.read_bytes(), name))
    assert name not in page
    assert html.escape(name, quote=False) in page.replace("&#34;", '"').replace("&#39;", "'")
