"""Pages of rules: all of them made, every link arriving, nothing fetched, nothing let through."""

from __future__ import annotations

import posixpath
import re
from collections import Counter
from collections.abc import Callable
from functools import cache
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest

from checker.output.rule_pages import INDEX, pages, render_rule_page
from checker.rulebook.loading import load_rulebook
from checker.rulebook.model import Rulebook

VOID = {"meta", "br", "wbr", "link", "img", "input", "hr"}
HOSTILE = "<script>alert(1)</script><b onclick=x>\"'&{{ 7 * 7 }}"


class Page(HTMLParser):
    """What a page holds: anchors, links, texts; a tag that is not closed is an error."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.ids: list[str] = []
        self.links: list[str] = []
        self.tags: list[str] = []
        self.attributes: list[tuple[str, str]] = []
        self.text = ""
        self.open: list[str] = []
        self.feed(text)
        self.close()
        assert self.open == []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        if tag not in VOID and tag not in {"path", "circle", "rect", "line", "polygon"}:
            self.open.append(tag)
        for name, value in attrs:
            self.attributes.append((name, value or ""))
            if name == "id":
                self.ids.append(value or "")
            if name == "href":
                self.links.append(value or "")

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)
        if self.open and self.open[-1] == tag:
            self.open.pop()

    def handle_endtag(self, tag: str) -> None:
        if self.open and self.open[-1] == tag:
            self.open.pop()
        elif tag not in {"path", "circle", "rect", "line", "polygon"}:
            raise AssertionError(f"</{tag}> closes {self.open[-1:]}")

    def handle_data(self, data: str) -> None:
        if self.open[-1:] != ["style"]:
            self.text += data


@cache
def shipped() -> Rulebook:
    return load_rulebook()


@cache
def folder_of_all() -> dict[str, str]:
    return dict(pages(shipped()))


def plain(text: str) -> str:
    return " ".join(text.split())


def check_folder(found: dict[str, str]) -> dict[str, Page]:
    """Every page well formed, every link arriving, nothing from outside."""
    parsed = {path: Page(text) for path, text in found.items()}
    for path, page in parsed.items():
        assert [i for i, n in Counter(page.ids).items() if n > 1] == [], path
        assert not {"script", "link", "img", "iframe", "object"} & set(page.tags), path
        assert not any(name.startswith("on") or name == "src" for name, _ in page.attributes), path
        assert "://" not in found[path], path
        assert "@import" not in found[path], path
        for link in page.links:
            target, _, anchor = link.partition("#")
            where = (
                posixpath.normpath(posixpath.join(posixpath.dirname(path), target))
                if target
                else path
            )
            assert where in parsed, f"{path} -> {link}"
            assert not anchor or anchor in parsed[where].ids, f"{path} -> {link}"
    return parsed


@pytest.mark.slow
def test_every_rule_value_and_table_has_a_page() -> None:
    book = shipped()
    found = folder_of_all()
    assert len(found) == 1 + len(book.rules) + len(book.order) + len(book.tables)
    parsed = check_folder(found)
    reached = {posixpath.normpath(link.partition("#")[0]) for link in parsed[INDEX].links}
    assert reached >= set(found) - {INDEX}
    for rule in book.rules:
        text = plain(parsed[f"{rule.name}.html"].text)
        for said in (rule.title, rule.protects, rule.caution, *rule.says.values()):
            assert plain(said) in text, rule.name
        for line in rule.lines:
            assert plain(line.formula.text) in text, rule.name
        for parameter in rule.parameters.values():
            assert plain(parameter.why) in text, rule.name
            assert parameter.basis.source.title in text, rule.name
            assert parameter.basis.confidence in text, rule.name
        for case in rule.cases:
            assert plain(case.name) in text, rule.name
    for table in book.tables.values():
        page = parsed[f"tables/{table.name}.html"]
        assert page.tags.count("tr") == len(table.rows) + 1, table.name
    # The same bytes again.
    assert dict(pages(book)) == found


@pytest.mark.slow
def test_every_page_that_stands_alone_needs_no_other() -> None:
    for rule in shipped().rules:
        page = Page(render_rule_page(rule, shipped()))
        assert all(link.startswith("#") for link in page.links), rule.name
        assert {link[1:] for link in page.links} <= set(page.ids), rule.name


@pytest.mark.slow
def test_what_is_from_memory_says_so_on_the_page_and_in_the_index() -> None:
    book = shipped()
    rule = next(r for r in book.rules if any(b.confidence == "from-memory" for b in r.basis))
    assert "Reference not verified" in Page(render_rule_page(rule, book)).text
    index = folder_of_all()[INDEX]
    line = next(x for x in index.splitlines() if f"{rule.name}.html" in x)
    assert "</a> *" in line


def small_folder(book: Rulebook) -> dict[str, Page]:
    return check_folder(dict(pages(book)))


def test_a_small_rulebook(small_rulebook: Rulebook) -> None:
    parsed = small_folder(small_rulebook)
    page = parsed["load/box-mass.html"]
    assert "box in boxes" in page.text
    assert (
        "Boxes" in parsed["tables/box_class.html"].text
        or "box" in parsed["tables/box_class.html"].text
    )
    # The table and the shared value name the rules that rest on them.
    assert "../load/box-mass.html" in parsed["tables/box_class.html"].links
    assert "../load/capacity.html" in parsed["derived/total_mass.html"].links
    assert "#derived.total_mass" in parsed["load/capacity.html"].links
    alone = Page(render_rule_page(small_rulebook.named("load/capacity"), small_rulebook))
    assert all(link.startswith("#") for link in alone.links)


def quoted(text: str) -> str:
    return "'" + text.replace("'", "''") + "'"


def test_hostile_text_stays_text(load: Callable[..., Rulebook]) -> None:
    bad = quoted(HOSTILE)
    said = quoted(HOSTILE.replace("{{ 7 * 7 }}", ""))
    basis = f"{{source: bad, clause: {bad}, confidence: from-memory, note: {bad}}}"
    rule = f"""\
title: {bad}
protects: {bad}
parameters: {{most: {{value: 25 kg, basis: {basis}, why: {bad}}}, word: {{value: {bad}, basis: {basis}, why: w}}}}
working: {{gap: {{formula: 'table.gap.gap("open")', unit: mm, is: {bad}}}}}
compare: {{demand: derived.twice, limit: most, unit: kg}}
expect: {{correct: demand <= limit}}
says: {{correct: {said}, met: {said}}}
basis: [{basis}]
caution: {bad}
sheet: [{{part: set, order: 10, line: {said}}}]
example: {{shelf: {{mass: 20 kg}}}}
cases: [{{name: {bad}, grade: met}}]
"""
    derived = f"title: {bad}\nresult: {{formula: 2 * shelf.mass, unit: kg}}\nbasis: [{basis}]\n"
    table = f"""\
title: {bad}
note: {bad}
basis: {basis}
keys: {{kind: {{}}}}
columns: {{gap: {{unit: mm, is: {bad}}}, text: {{}}}}
rows: [[open, 10, {bad}]]
"""
    book = load({
        "sources/bad.yaml": f"bad: {{title: {bad}, publisher: {bad}, note: {bad}}}\n",
        "families.yaml": f"load: {bad}\n",
        "load/bad.yaml": rule,
        "derived/twice.yaml": derived,
        "tables/gap.yaml": table,
    })  # fmt: skip
    parsed = small_folder(book)
    texts = dict(pages(book))
    for path, page in parsed.items():
        assert "<script" not in texts[path].lower(), path
        assert "<b onclick" not in texts[path], path
        assert "49" not in re.sub(r"<style>.*?</style>", "", texts[path], flags=re.S).replace(
            book.digest, ""
        ), path
        assert "alert(1)" in page.text, path
    assert parsed["load/bad.html"].text.count("alert(1)") > 12


def test_command(run: Callable[..., Any], tmp_path: Path) -> None:
    folder = tmp_path / "pages"
    done = run("rulebook", "show", "--all-to", folder)
    assert done.status == 0
    assert done.out.endswith(f"begin with {folder / INDEX}\n")
    count = sum(1 for path in folder.rglob("*.html"))
    assert done.out.startswith(f"{count} pages")
    # A second time would leave pages of the first among its own.
    again = run("rulebook", "show", "--all-to", folder)
    assert again.status == 3
    assert "something stands there already" in again.err
    for words in ((), ("load/x", "--all-to", folder)):
        assert run("rulebook", "show", *words).status == 2


def test_command_for_one_rule(run: Callable[..., Any]) -> None:
    listed = run("rulebook", "list").out
    name = next(word for word in listed.split() if "/" in word)
    page = run("rulebook", "show", name, "--format", "html")
    assert page.status == 0
    assert page.out.startswith("<!doctype html>")
    assert Page(page.out).links
    unknown = run("rulebook", "show", name + "x", "--format", "html")
    assert unknown.status == 3
    assert "did you mean" in unknown.err
