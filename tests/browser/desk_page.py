"""A page of the desk and what a person does on it, beside what the command line says."""

from __future__ import annotations

import time
from pathlib import Path
from typing import Any

from selenium.common.exceptions import (
    ElementNotInteractableException,
    StaleElementReferenceException,
)

from checker.grades import Grade
from checker.running import Checker

FIXTURES = Path(__file__).parents[2] / "fixtures"
PLAN, SITE = "turning-cell-side-post.yaml", "turning-cell-side-post.fitted.yaml"
BAD = "thin-panel-behind-strong-bolt.yaml"
PATIENCE = 40


class Page:
    """A page of the desk, and what a person does on it."""

    def __init__(self, browser: Any, desk: Any) -> None:
        self.browser, self.desk, self.root = browser, desk, desk.root

    def size(self, width: int, *, dark: bool = False, height: int = 900) -> Page:
        self.browser.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", {"width": width, "height": height, "deviceScaleFactor": 1, "mobile": width < 500})  # fmt: skip
        scheme = "dark" if dark else "light"
        self.browser.execute_cdp_cmd("Emulation.setEmulatedMedia", {"features": [{"name": "prefers-color-scheme", "value": scheme}]})  # fmt: skip
        return self

    def go(self, where: str = "") -> Page:
        self.browser.get("about:blank")
        self.browser.get_log("browser")
        self.browser.get(f"{self.desk.address}{where}")
        if where:
            self.until("return document.querySelector('.verdict .word') && !document.querySelector('.verdict .word').textContent.includes('…') && !!document.querySelector('.field .head .tag, .rest, .list')")  # fmt: skip
        else:
            self.until("return !!document.querySelector('.jobs') && !/not checked yet|Reading/.test(document.querySelector('main [role=status]').textContent)")  # fmt: skip
        return self

    def until(self, script: str, *given: Any) -> Any:
        end = time.monotonic() + PATIENCE
        while True:
            found = self.browser.execute_script(script, *given)
            if found:
                return found
            assert time.monotonic() < end, f"waited in vain for: {script} {given}"
            time.sleep(0.05)

    def one(self, css: str) -> Any:
        self.until("return !!document.querySelector(arguments[0])", css)
        return self.browser.find_element("css selector", css)

    def tap(self, css: str) -> None:
        try:
            self.one(css).click()
        except StaleElementReferenceException:
            self.tap(css)  # The form was drawn anew between looking and tapping.

    def press(self, text: str, css: str = "button, a, summary") -> None:
        element = self.until(
            "return [...document.querySelectorAll(arguments[1])].find(e => e.textContent.trim().startsWith(arguments[0]) && e.getClientRects().length && !e.closest('[inert]'))",
            text, css,
        )  # fmt: skip
        try:
            self.browser.execute_script("arguments[0].scrollIntoView({block: 'center'})", element)
            element.click()
        except StaleElementReferenceException:
            self.press(text, css)  # The form was drawn anew between looking and pressing.

    def field(self, path: str) -> Any:
        return self.one(f'[id="f:{path}"]')

    def write(self, path: str, text: str, tries: int = 50) -> None:
        from selenium.webdriver.common.keys import Keys  # noqa: PLC0415

        field = self.field(path)
        try:
            self.browser.execute_script("arguments[0].scrollIntoView({block: 'center'})", field)
            field.send_keys(Keys.CONTROL, "a")
            field.send_keys(text if text else Keys.DELETE)
        except (StaleElementReferenceException, ElementNotInteractableException):
            # The form was drawn anew between looking and typing, or is not all there yet.
            assert tries, f"waited in vain to write into {path}"
            time.sleep(0.2)
            self.write(path, text, tries - 1)

    def wrong(self, path: str, words: str) -> None:
        """Wait until that is said to be wrong with a field."""
        self.until("const e = document.getElementById(arguments[0]); return e && !e.hidden && e.textContent.includes(arguments[1])", f"f:{path}:wrong", words)  # fmt: skip

    def verdict(self) -> str:
        return str(self.browser.execute_script("return document.querySelector('.verdict .word').textContent.trim()"))  # fmt: skip

    def saved(self) -> None:
        self.until("return document.getElementById('saved').textContent.startsWith('Saved')")

    def findings(self) -> list[tuple[str, str]]:
        """Grade and sentence of each finding, and the paths that wait to be found out."""
        self.until("return window.desk")
        return [tuple(x) for x in self.browser.execute_script("return [...document.querySelectorAll('.finding')].map(f => [f.querySelector('.grade').textContent, f.querySelector('.sentence').textContent])")]  # fmt: skip

    def log(self) -> list[Any]:
        return [e for e in self.browser.get_log("browser") if e["level"] in ("SEVERE", "WARNING")]


def on_the_command_line(
    path: Path, fitted: Path | None = None
) -> tuple[str, list[tuple[str, str]]]:
    report = Checker().report(str(path), None if fitted is None else str(fitted), working=False)
    found = sorted((f for f in report.findings if f.grade < Grade.MET and not (f.grade is Grade.CONFIRM and f.missing)), key=lambda f: f.grade)  # fmt: skip
    return report.verdict.value, [(f.grade.word, f.sentence) for f in found]
