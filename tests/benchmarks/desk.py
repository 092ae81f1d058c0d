"""From a keystroke to fresh findings on the desk, in a real browser, and without it.

    python tests/benchmarks/desk.py [DESCRIPTION] [KEYSTROKES]

Types into a field of the description, by default the largest fixture, and prints how long
each keystroke took until the new findings stood in the page: the whole of it, the share of
the request, and the share of drawing. Beside it the same looks without browser, network and
drawing: bind what the page holds, check it, tell it as data. Target: below 100 ms.
"""

from __future__ import annotations

import json
import shutil
import signal
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parents[1]))

from checker.desk.looking import Window  # noqa: E402
from checker.desk.typed import shown  # noqa: E402
from checker.reading import read_yaml  # noqa: E402
from checker.running import Checker  # noqa: E402

FIXTURES = HERE.parents[1] / "fixtures"
FIELDS = (("collector", "mass", "kg"), ("collector", "flow", "m3/h"), ("mount", "underside_height", "mm"))  # fmt: skip
PAUSE = 0.8


def without_browser(checker: Checker, data: bytes, times: int, unit: str, section: str, name: str) -> list[float]:  # fmt: skip
    """Milliseconds of each look at one changed field."""
    tree = json.loads(json.dumps(shown(read_yaml(data, ""), checker.rulebook.layout.root)))
    window = Window(checker)
    window.check(tree, None, 0)
    window.around()
    took = []
    for i in range(times):
        tree[section][name] = f"{500 + i} {unit}" if unit != "kg" else f"{40 + i} kg"
        started = time.perf_counter()
        json.dumps(window.check(tree, None, window.serial))
        took.append(1000 * (time.perf_counter() - started))
    return took


def in_the_browser(address: str, name: str, times: int) -> dict[str, list[dict[str, float]]]:
    """What the page itself measured for each keystroke, by field."""
    from selenium import webdriver  # noqa: PLC0415
    from selenium.webdriver.chrome.options import Options  # noqa: PLC0415
    from selenium.webdriver.chrome.service import Service  # noqa: PLC0415

    options = Options()
    options.binary_location = shutil.which("chromium") or ""
    for argument in ("--headless=new", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage"):
        options.add_argument(argument)
    browser = webdriver.Chrome(options=options, service=Service(shutil.which("chromedriver") or ""))
    found: dict[str, list[dict[str, float]]] = {}
    try:
        for section, field, _ in FIELDS:
            browser.get("about:blank")
            browser.get(f"{address}#/job/{name}/{section}")
            _until(browser, "return document.querySelector('.verdict .word')?.textContent.length > 1 && !!document.querySelector('.field')")  # fmt: skip
            time.sleep(2 * PAUSE)
            typed = browser.find_element("css selector", f'[id="f:{section}.{field}"]')
            browser.execute_script("window.desk.times.length = 0; const e = arguments[0]; e.focus(); e.setSelectionRange(1, 1)", typed)  # fmt: skip
            for i in range(times):
                # A digit more, and it taken back: what people do.
                typed.send_keys("5" if i % 2 == 0 else "\ue003")
                # Drawings and needed fields, which follow a pause, are let through.
                time.sleep(PAUSE)
            _until(browser, f"return window.desk.times.length >= {times}")
            found[f"{section}.{field}"] = browser.execute_script("return window.desk.times")
    finally:
        browser.quit()
    return found


def _until(browser: Any, script: str) -> None:
    end = time.monotonic() + 60
    while not browser.execute_script(script):
        if time.monotonic() > end:
            raise TimeoutError(script)
        time.sleep(0.01)


def line(label: str, milliseconds: list[float]) -> str:
    """Median, best and worst of a measurement."""
    return f"{label:<44}{statistics.median(milliseconds):8.1f} ms{min(milliseconds):8.1f}{max(milliseconds):8.1f}"


def main() -> None:
    """Measure and print."""
    largest = max(FIXTURES.rglob("*.yaml"), key=lambda p: p.stat().st_size)
    path = Path(sys.argv[1]) if len(sys.argv) > 1 else largest
    times = int(sys.argv[2]) if len(sys.argv) > 2 else 20
    data, checker = path.read_bytes(), Checker()
    checker.rulebook  # noqa: B018 - read before anything is measured
    print(f"{path}: {len(data.splitlines())} lines, {times} keystrokes a field")
    print(f"{'':<44}{'median':>11}{'best':>8}{'worst':>8}")
    bare = {f"{s}.{n}": without_browser(checker, data, times, u, s, n) for s, n, u in FIELDS}
    with tempfile.TemporaryDirectory() as folder:
        shutil.copy(path, folder)
        # A process of its own, as it is in use.
        command = [sys.executable, "-u", "-m", "checker", "desk", folder, "--no-open"]
        desk = subprocess.Popen(command, cwd=HERE.parents[1], stdout=subprocess.PIPE, text=True)
        try:
            address = next(line.strip() for line in desk.stdout or () if "http" in line)
            measured = in_the_browser(address, path.name, times)
        finally:
            desk.send_signal(signal.SIGINT)
            desk.wait(20)
    for field, took in measured.items():
        whole = [t["all"] for t in took]
        print(line(f"{field}: keystroke to findings", whole))
        print(line("    of it the request and its answer", [t["answer"] for t in took]))
        print(line("    of it drawing the findings", [t["drawing"] for t in took]))
        print(line("    without browser, network and drawing", bare[field]))
        ratio = statistics.median(whole) / statistics.median(bare[field])
        met = "met" if statistics.median(whole) < 100 else "NOT met"
        print(f"    {ratio:.2f} x the bare look; target below 100 ms: {met}")


if __name__ == "__main__":
    main()
