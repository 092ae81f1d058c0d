"""Pages of rules in a real browser: nothing scrolls sideways, no barrier, fingers find the links."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from typing import Any

import pytest

from checker.output.rule_pages import INDEX, pages
from checker.rulebook.loading import load_rulebook

pytestmark = [pytest.mark.slow, pytest.mark.browser]
NAMES = [
    INDEX,
    "load/hole-size.html",
    "airflow/duct-loss.html",
    "tables/cable_capacity_building.html",
]


@cache
def every() -> dict[str, str]:
    return dict(pages(load_rulebook()))


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("width", [390, 1280])
def test_nothing_scrolls_sideways(name: str, width: int, show: Callable[..., Any]) -> None:
    browser = show(every()[name], width, unfolded=True)
    assert browser.execute_script("return document.documentElement.scrollWidth") <= width
    assert [x for x in browser.get_log("browser") if x["level"] == "SEVERE"] == []


@pytest.mark.parametrize(("name", "dark"), [(NAMES[1], False), (NAMES[2], True), (NAMES[3], False)])
def test_no_serious_barrier(name: str, dark: bool, show: Callable[..., Any], axe: str) -> None:
    browser = show(every()[name], 390, dark=dark, unfolded=True)
    browser.execute_script(axe)
    found = browser.execute_async_script(
        "const done = arguments[0]; axe.run().then(r => done(r.violations))"
    )
    assert [
        (v["id"], v["nodes"][0]["html"]) for v in found if v["impact"] in ("serious", "critical")
    ] == []


@pytest.mark.parametrize("name", NAMES)
def test_links_of_lists_are_large_enough(name: str, show: Callable[..., Any]) -> None:
    browser = show(every()[name], 390)
    least = browser.execute_script(
        "return Math.min(44, ...[...document.querySelectorAll('.links a, nav a, summary')].map(e => e.getBoundingClientRect().height))"
    )
    assert least >= 44
