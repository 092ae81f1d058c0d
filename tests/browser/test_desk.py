"""The desk in a real browser: from empty to a checked description, by hand, by thumb and by keyboard alone."""

from __future__ import annotations

import http.client
import json
import shutil
import threading
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from selenium.common.exceptions import (
    ElementNotInteractableException,
    StaleElementReferenceException,
)

from checker.grades import Grade
from checker.running import Checker

pytest.importorskip("uvicorn", reason="the desk is an extra: pip install 'mistwright[desk]'")

from checker.desk.serving import Desk

pytestmark = [pytest.mark.slow, pytest.mark.browser]

FIXTURES = Path(__file__).parents[2] / "fixtures"
WIDTHS = (390, 768, 1280)
PLAN, SITE = "turning-cell-side-post.yaml", "turning-cell-side-post.fitted.yaml"
BAD = "thin-panel-behind-strong-bolt.yaml"
PATIENCE = 40


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Desk]:
    root = tmp_path_factory.mktemp("jobs")
    running = Desk(root, Checker(), port=0)
    running.root = root  # type: ignore[attr-defined]
    thread = threading.Thread(target=running.run, daemon=True)
    thread.start()
    yield running
    running.server.should_exit = True
    thread.join(10)


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


@pytest.fixture
def page(browser: Any, desk: Any) -> Iterator[Page]:
    for one in desk.root.iterdir():
        shutil.rmtree(one) if one.is_dir() else one.unlink()
    shutil.copy(FIXTURES / PLAN, desk.root)
    shutil.copy(FIXTURES / "fitted" / SITE, desk.root)
    shutil.copy(FIXTURES / "defective" / BAD, desk.root)
    yield Page(browser, desk).size(1280)
    browser.get("about:blank")
    browser.get(desk.address)
    browser.execute_script("localStorage.clear()")
    browser.get("about:blank")


def on_the_command_line(
    path: Path, fitted: Path | None = None
) -> tuple[str, list[tuple[str, str]]]:
    report = Checker().report(str(path), None if fitted is None else str(fitted), working=False)
    found = sorted((f for f in report.findings if f.grade < Grade.MET and not (f.grade is Grade.CONFIRM and f.missing)), key=lambda f: f.grade)  # fmt: skip
    return report.verdict.value, [(f.grade.word, f.sentence) for f in found]


def test_from_empty_to_a_checked_description(page: Page) -> None:
    page.go()
    page.press("New job")
    page.one("#new-name").send_keys("k-2101")
    page.browser.execute_script("document.querySelector('#new-kind').value = 'floor-stand'")
    page.press("Begin", "dialog button")
    page.until("return location.hash.includes('k-2101.yaml')")
    page.write("job.reference", "K-2101")
    page.press("Collector", "nav button")
    # A wrong unit on the way: told in the words of the command line, put right with one tap.
    page.write("collector.mass", "42 kq")
    page.wrong("collector.mass", "unknown unit 'kq'")
    page.until("return document.querySelector('.verdict .word').textContent === 'no verdict'")
    page.press("42 kg", ".mistake button")
    page.until("return document.getElementById('f:collector.mass').value === '42 kg'")
    page.until("return document.getElementById('f:collector.mass:wrong').hidden")
    page.write("collector.flow", "900")
    page.wrong("collector.flow", "no unit: write the unit: '900 ")
    page.press("m3/h", ".mistake button")
    page.until("return document.getElementById('f:collector.flow').value === '900 m3/h'")
    # A list: two members, one renamed, put into the other order, one taken out and put back.
    page.press("Host", "nav button")
    for name in ("door seam", "conveyor mouth"):
        page.tap('[id="add:host.enclosure.openings"]')
        index = 0 if name == "door seam" else 1
        page.write(f"host.enclosure.openings[{index}].name", name)
    page.tap('[id="up:host.enclosure.openings[1]"]')
    page.until("return document.getElementById('f:host.enclosure.openings[0].name').value === 'conveyor mouth'")  # fmt: skip
    page.press("Take out conveyor mouth")
    page.until("return !document.getElementById('f:host.enclosure.openings[1].name')")
    page.press("Undo", ".note button")
    page.until("return document.getElementById('f:host.enclosure.openings[0].name').value === 'conveyor mouth'")  # fmt: skip
    page.saved()
    file = page.root / "k-2101.yaml"
    time.sleep(1.5)
    page.saved()
    text = file.read_text(encoding="utf-8")
    assert "mass: 42 kg\n" in text
    assert text.index("name: conveyor mouth") < text.index("name: door seam")
    assert text.startswith("# yaml-language-server")
    # Reloaded it is the same, and it says what the command line says.
    page.go("#/job/k-2101.yaml/collector")
    assert page.field("collector.mass").get_attribute("value") == "42 kg"
    assert (page.verdict(), page.findings()) == on_the_command_line(file)
    assert page.log() == []


def test_the_findings_are_those_of_the_command_line(page: Page) -> None:
    for name in (PLAN, BAD):
        page.go(f"#/job/{name}/mount")
        assert (page.verdict(), page.findings()) == on_the_command_line(page.root / name)


def test_a_remedy_is_taken_over_with_one_tap_and_undone(page: Page) -> None:
    page.go(f"#/job/{BAD}/job")
    assert page.verdict() == "hold"
    page.press("Take ", ".take")
    page.until("return document.querySelector('.verdict .word').textContent.trim() !== 'hold'")
    assert page.browser.execute_script("return document.activeElement.id").startswith("f:mount.fixings[0]")  # fmt: skip
    page.press("Undo", ".note button")
    page.until("return document.querySelector('.verdict .word').textContent.trim() === 'hold'")
    page.saved()


def test_a_findings_field_is_one_tap_away(page: Page) -> None:
    page.go(f"#/job/{BAD}/job")
    page.tap(".finding .goto")
    page.until("return document.activeElement.id.startsWith('f:mount.fixings[0].')")
    assert "/mount" in page.browser.current_url


def test_drawing_and_curves_redraw(page: Page) -> None:
    page.go(f"#/job/{PLAN}/surroundings")
    page.press("Drawing", "summary")
    page.press("Fan and system", "summary")
    before = page.until("return document.querySelector('aside .drawing') && document.querySelector('aside').innerText")  # fmt: skip
    assert page.browser.execute_script("return document.querySelectorAll('aside svg.drawing').length") >= 3  # fmt: skip
    page.press("Mount", "nav button")
    page.write("mount.underside_height", "1.9 m")
    page.until("return document.querySelector('aside').innerText !== arguments[0] && document.querySelector('aside').textContent.includes('1.9 m')", before)  # fmt: skip


def test_plan_and_fitted_side_by_side(page: Page) -> None:
    page.go(f"#/fitted/{PLAN}/surroundings")
    assert (page.verdict(), page.findings()) == on_the_command_line(page.root / PLAN, page.root / SITE)  # fmt: skip
    page.until("return document.querySelector('aside').textContent.includes('620 mm → 290 mm')")
    aside = page.browser.execute_script("return document.querySelector('aside').textContent")
    assert "met → stop" in aside
    page.browser.execute_script("document.querySelector('[data-field=\"surroundings.moving_parts[0]\"]').open = true")  # fmt: skip
    beside = page.browser.execute_script("return document.querySelector('[data-field=\"surroundings.moving_parts[0].gap\"]').textContent")  # fmt: skip
    assert "Planned: 620 mm" in beside
    assert "-330 mm" in beside
    assert "met → stop" in beside
    # Measured again, wide enough: the stop is gone, the plan's file is untouched.
    plan = (page.root / PLAN).read_bytes()
    page.write("surroundings.moving_parts[0].gap", "640 mm ± 5 mm")
    page.until("return ![...document.querySelectorAll('.finding')].some(f => f.textContent.includes('Gap between moving parts'))")  # fmt: skip
    page.saved()
    time.sleep(1.5)
    assert (page.root / PLAN).read_bytes() == plan
    site = (page.root / SITE).read_text(encoding="utf-8")
    assert "gap: {is: 640 mm ± 5 mm, origin: measured}" in site
    assert site.startswith("# yaml-language-server")


def test_a_record_of_what_is_found_on_site_is_begun(page: Page) -> None:
    (page.root / SITE).unlink()
    page.go(f"#/job/{PLAN}/collector")
    page.press("Fitted", ".switch a")
    page.until(
        "return location.hash.startsWith('#/fitted/') && !!document.querySelector('.planned')"
    )
    page.write("collector.mass", "47.2 kg")
    page.saved()
    time.sleep(1.5)
    assert "  mass: 47.2 kg\n" in (page.root / SITE).read_text(encoding="utf-8")


def test_what_was_typed_survives_a_lost_connection_and_a_reload(page: Page) -> None:
    browser = page.browser
    first = browser.current_window_handle
    browser.switch_to.new_window("tab")
    page.size(1280).go(f"#/job/{PLAN}/job")
    browser.execute_cdp_cmd("Network.enable", {})
    browser.execute_cdp_cmd("Network.emulateNetworkConditions", {"offline": True, "latency": 0, "downloadThroughput": -1, "uploadThroughput": -1})  # fmt: skip
    page.write("job.site", "Hall C, bay 7")
    page.until("return document.getElementById('saved').textContent.includes('Kept in this browser')")  # fmt: skip
    # The page goes without reaching the desk once more, as with a dead battery.
    browser.close()
    browser.switch_to.window(first)
    assert "Hall C, bay 7" not in (page.root / PLAN).read_text(encoding="utf-8")
    page.go(f"#/job/{PLAN}/job")
    assert page.field("job.site").get_attribute("value") == "Hall C, bay 7"
    page.until("return document.getElementById('notes').textContent.includes('Put back')")
    page.saved()
    assert "Hall C, bay 7" in (page.root / PLAN).read_text(encoding="utf-8")


def test_two_windows_on_one_file_lose_nothing(page: Page) -> None:
    page.go(f"#/job/{PLAN}/job")
    # The other window: the same API, as a second page uses it.
    connection = http.client.HTTPConnection("127.0.0.1", page.desk.port, timeout=30)

    def post(name: str, body: Any) -> Any:
        connection.request("POST", f"/{page.desk.token}/api/{name}", json.dumps(body), {"Content-Type": "application/json"})  # fmt: skip
        return json.loads(connection.getresponse().read())

    opened = post("open", {"name": PLAN})
    opened["tree"]["job"]["site"] = "Their hall"
    assert "etag" in post("save", {"name": PLAN, "tree": opened["tree"], "etag": opened["etag"]})
    page.write("job.title", "My title")
    dialog = page.one("dialog")
    assert "Two have changed this file" in dialog.text
    assert "Their hall" in dialog.text
    assert "My title" in dialog.text
    page.press("Keep mine in a new file", "dialog button")
    page.until("return location.hash.includes('side-post-2.yaml')")
    page.until("return !!document.getElementById('f:job.title')")
    mine = (page.root / "turning-cell-side-post-2.yaml").read_text(encoding="utf-8")
    theirs = (page.root / PLAN).read_text(encoding="utf-8")
    assert "My title" in mine
    assert "Their hall" not in mine
    assert "Their hall" in theirs
    assert "My title" not in theirs
    connection.close()


def test_the_files_values_can_be_looked_at_and_ones_own_taken_back(page: Page) -> None:
    page.go(f"#/job/{PLAN}/job")
    path = page.root / PLAN
    text = path.read_text(encoding="utf-8").replace("reference: K-2047", "reference: K-7777")
    path.write_text(text, encoding="utf-8")
    page.write("job.title", "My title")
    page.press("Look at the file's", "dialog button")
    page.until("return document.getElementById('f:job.reference').value === 'K-7777'")
    assert page.field("job.title").get_attribute("value") != "My title"
    page.press("Back to mine", ".note button")
    page.until("return document.getElementById('f:job.title').value === 'My title'")
    # Still two have changed it: nothing is written over unasked.
    page.press("Decide later", "dialog button")
    assert path.read_text(encoding="utf-8") == text


def test_hostile_text_is_shown_as_text(page: Page) -> None:
    text = '"><img src=x onerror="document.title=1"><script>document.title=1</script>'
    page.go(f"#/job/{PLAN}/job")
    page.write("job.title", text)
    page.press("Surroundings", "nav button")
    page.browser.execute_script("document.querySelector('[data-field=\"surroundings.moving_parts[0]\"]').open = true")  # fmt: skip
    page.write("surroundings.moving_parts[0].name", text)
    page.write("surroundings.moving_parts[0].gap", "100 mm")
    page.until("return [...document.querySelectorAll('.finding .subject')].some(e => e.textContent.includes('<img'))")  # fmt: skip
    assert page.browser.execute_script("return document.querySelector('h1').textContent").endswith(text)  # fmt: skip
    assert page.browser.execute_script("return document.querySelectorAll('img, #root script').length") == 0  # fmt: skip
    page.press("Drawing", "summary")
    page.until("return !!document.querySelector('aside .drawing')")
    assert page.browser.execute_script("return document.querySelectorAll('img, #root script').length") == 0  # fmt: skip
    page.saved()
    page.go()
    assert page.browser.execute_script("return [...document.querySelectorAll('.head')].some(e => e.textContent.includes('<img'))")  # fmt: skip
    assert page.browser.execute_script("return document.querySelectorAll('img').length") == 0
    assert page.log() == []


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
