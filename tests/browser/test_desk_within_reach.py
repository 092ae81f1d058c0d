"""The desk by keyboard alone, by thumb, at every width, and read aloud."""

from __future__ import annotations

import time

import pytest
from desk_page import BAD, PLAN, Page

pytestmark = [pytest.mark.slow, pytest.mark.browser]

WIDTHS = (390, 768, 1280)


def test_the_keyboard_alone_suffices(page: Page) -> None:
    from selenium.webdriver.common.action_chains import ActionChains  # noqa: PLC0415
    from selenium.webdriver.common.keys import Keys  # noqa: PLC0415

    def keys(*pressed: str) -> None:
        ActionChains(page.browser).send_keys(*pressed).perform()

    def active() -> str:
        return str(page.browser.execute_script("const e = document.activeElement; if (e === document.body) return '|'; return [e.id, e.textContent.trim().slice(0, 80)].join('|')"))  # fmt: skip

    def tab_to(wanted: str, most: int = 150, back: bool = False) -> None:
        for _ in range(most):
            if wanted in active():
                return
            if back:
                ActionChains(page.browser).key_down(Keys.SHIFT).send_keys(Keys.TAB).key_up(Keys.SHIFT).perform()  # fmt: skip
            else:
                keys(Keys.TAB)
        raise AssertionError(f"{wanted} is out of reach of the keyboard; last at {active()}")

    page.go()
    tab_to("New job")
    keys(Keys.ENTER)
    tab_to("new-name")
    keys("by-keyboard")
    tab_to("new-kind")
    keys("roof")
    keys(Keys.ENTER)
    page.until(
        "return location.hash.includes('by-keyboard.yaml') || document.querySelector('dialog')"
    )
    if page.browser.execute_script("return !!document.querySelector('dialog')"):
        tab_to("Begin")
        keys(Keys.ENTER)
    page.until("return location.hash.includes('by-keyboard.yaml') && document.querySelector('.verdict .word') && document.querySelector('.field .tag')")  # fmt: skip
    tab_to("Collector")
    keys(Keys.ENTER)
    page.until("return document.activeElement.textContent === 'Collector'")
    tab_to("f:collector.mass|")
    keys("31 kg")
    page.until("return !document.querySelector('.verdict .word').textContent.includes('…')")
    tab_to("f:collector.within_reach", back=False)
    keys(Keys.SPACE)
    page.saved()
    # To the findings, and from one of them to its field.
    tab_to("To the findings", back=True, most=200)
    keys(Keys.ENTER)
    page.until("return document.activeElement.textContent === 'Findings'")
    tab_to("To find out")
    page.until("return !!document.querySelector('.fold details summary')")
    tab_to("Mount: ")
    keys(Keys.ENTER)
    page.until("return !!document.querySelector('.asked .goto')")
    tab_to("Mount › ")
    keys(Keys.ENTER)
    page.until("return document.activeElement.closest('.field, .group') && location.hash.endsWith('/mount')")  # fmt: skip
    assert "mass: 31 kg" in (page.root / "by-keyboard.yaml").read_text(encoding="utf-8")


VIEWS = {
    "jobs": "",
    "plan": f"#/job/{BAD}/mount",
    "lists": f"#/job/{PLAN}/surroundings",
    "fitted": f"#/fitted/{PLAN}/surroundings",
}
OVERFLOWING = """
const found = [];
for (const e of document.querySelectorAll('body *')) {
  if (e.closest('svg') || e.closest('.scroll') || e.closest('.skip') || e.closest('.unseen') || e.closest('select')) continue;
  const style = getComputedStyle(e);
  if (style.display === 'inline' || style.display === 'none') continue;
  const box = e.getBoundingClientRect();
  if (box.width && (box.right > innerWidth + 1 || box.left < -1)) found.push('outside ' + e.tagName + '.' + e.className + ' ' + e.textContent.slice(0, 40));
}
return found.slice(0, 8);
"""
SMALL = """
return [...document.querySelectorAll('button, a, summary, input, select, .pill')].filter(e => !(e.tagName === 'INPUT' && e.type === 'radio'))
  .map(e => [e.getBoundingClientRect(), e]).filter(([b, e]) => b.width && b.height && !e.closest('.skip') && !e.closest('svg') && (b.height < 43.5 || b.width < 43.5))
  .map(([b, e]) => `${e.tagName}.${e.className} ${e.textContent.trim().slice(0, 30)} ${Math.round(b.width)}x${Math.round(b.height)}`).slice(0, 8);
"""


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("view", VIEWS)
def test_nothing_sticks_out_at_any_width(page: Page, view: str, width: int) -> None:
    page.size(width).go(VIEWS[view])
    page.browser.execute_script(
        "document.querySelectorAll('main details').forEach(d => d.open = true)"
    )
    assert page.browser.execute_script("return document.documentElement.scrollWidth") <= width
    assert page.browser.execute_script(OVERFLOWING) == []
    if width == 390:
        assert page.browser.execute_script(SMALL) == []


def test_the_phone_one_hand(page: Page) -> None:
    page.size(390).go(f"#/job/{BAD}/job")
    assert not page.browser.execute_script("return document.querySelector('aside').getClientRects().length")  # fmt: skip
    bar = page.one(".bar-below")
    box = page.browser.execute_script("return arguments[0].getBoundingClientRect().bottom", bar)
    assert abs(box - 900) < 2
    assert "hold" in bar.text.lower()
    page.tap(".bar-below")
    page.until("return document.querySelector('aside').getClientRects().length")
    assert page.browser.execute_script(OVERFLOWING) == []
    assert page.browser.execute_script(SMALL) == []
    page.tap(".finding .goto")
    page.until("return !document.querySelector('aside').getClientRects().length && document.activeElement.id.startsWith('f:mount')")  # fmt: skip
    # The field that was gone to is not under the bar or outside the screen.
    assert page.browser.execute_script("const b = document.activeElement.getBoundingClientRect(); return b.top > 0 && b.bottom < 850")  # fmt: skip
    page.press("Mount: section", "summary")
    page.press("Collector", "nav button")
    page.until("return document.querySelector('main h2').textContent === 'Collector'")
    page.write("collector.mass", "33 kg")
    page.saved()


@pytest.mark.parametrize(("width", "dark"), [(390, False), (1280, True)], ids=["phone-light", "wide-dark"])  # fmt: skip
@pytest.mark.parametrize("view", VIEWS)
def test_axe_finds_nothing(page: Page, view: str, width: int, dark: bool, axe: str) -> None:
    page.size(width, dark=dark).go(VIEWS[view])
    if view == "plan":
        page.write("mount.underside_height", "1.9 mq")
        page.wrong("mount.underside_height", "unknown unit 'mq'")
        page.browser.execute_script("document.querySelectorAll('details').forEach(d => d.open = true); document.querySelectorAll('.ask').forEach(b => b.click())")  # fmt: skip
        if width == 390:
            page.tap(".bar-below")
        time.sleep(0.5)
    # Run by the debugger: the page itself lets no foreign script in.
    page.browser.execute_script(axe)
    found = page.browser.execute_async_script("const done = arguments[0]; axe.run(document, {resultTypes: ['violations']}).then(r => done(r.violations.map(v => [v.id, v.impact, v.nodes.slice(0, 3).map(n => n.html.slice(0, 160) + ' ' + n.failureSummary.slice(0, 200))])))")  # fmt: skip
    assert [v for v in found if v[1] in ("serious", "critical", "moderate")] == []
