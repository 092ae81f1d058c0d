"""The desk in a real browser: from empty to a checked description, and what it shows."""

from __future__ import annotations

import time

import pytest
from desk_page import BAD, PLAN, SITE, Page, on_the_command_line

pytestmark = [pytest.mark.slow, pytest.mark.browser]


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
