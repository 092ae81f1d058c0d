"""A real browser: headless Chromium through its driver, both from the system's packages.

.ci/run installs them, and axe-core, whose path it puts into MISTWRIGHT_AXE.
"""

from __future__ import annotations

import base64
import os
import shutil
import threading
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from checker.running import Checker


@pytest.fixture(scope="session")
def browser() -> Iterator[Any]:
    """One headless browser for all these tests."""
    chromium = shutil.which("chromium") or shutil.which("chromium-browser")
    driver = shutil.which("chromedriver")
    if chromium is None or driver is None:
        pytest.skip("no Chromium here: apt-get install chromium chromium-driver")
    from selenium import webdriver  # noqa: PLC0415
    from selenium.webdriver.chrome.options import Options  # noqa: PLC0415
    from selenium.webdriver.chrome.service import Service  # noqa: PLC0415

    options = Options()
    options.binary_location = chromium
    for argument in (
        "--headless=new",
        "--no-sandbox",
        "--disable-gpu",
        "--disable-dev-shm-usage",
        "--hide-scrollbars",
    ):
        options.add_argument(argument)
    options.set_capability("goog:loggingPrefs", {"browser": "ALL"})
    running = webdriver.Chrome(options=options, service=Service(driver))
    running.set_script_timeout(240)
    yield running
    running.quit()


@pytest.fixture(scope="session")
def axe() -> str:
    """The accessibility checker's script."""
    path = os.environ.get("MISTWRIGHT_AXE", "")
    if not Path(path).is_file():
        pytest.skip("no axe-core here: npm install axe-core, and its axe.min.js in MISTWRIGHT_AXE")
    return Path(path).read_text(encoding="utf-8")


@pytest.fixture
def show(browser: Any, tmp_path: Path) -> Callable[..., Any]:
    """Opens a page at a width, in light or in the dark, everything that folds unfolded or not."""

    def shown(page: str, width: int, *, dark: bool = False, unfolded: bool = False) -> Any:
        path = tmp_path / "page.html"
        path.write_text(page, encoding="utf-8")
        browser.get_log("browser")
        browser.execute_cdp_cmd(
            "Emulation.setDeviceMetricsOverride",
            {"width": width, "height": 900, "deviceScaleFactor": 1, "mobile": width < 500},
        )
        scheme = "dark" if dark else "light"
        browser.execute_cdp_cmd("Emulation.setEmulatedMedia", {"features": [{"name": "prefers-color-scheme", "value": scheme}]})  # fmt: skip
        browser.get(path.as_uri())
        if unfolded:
            browser.execute_script(
                "document.querySelectorAll('details').forEach(d => d.open = true)"
            )
        return browser

    return shown


@pytest.fixture
def print_to(browser: Any) -> Callable[[float, float], bytes]:
    """Prints the open page on paper of a size in millimetres."""

    def printed(width: float, height: float) -> bytes:
        asked = {"paperWidth": width / 25.4, "paperHeight": height / 25.4, "printBackground": False}
        return base64.b64decode(browser.execute_cdp_cmd("Page.printToPDF", asked)["data"])

    return printed


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Any]:
    """A desk that runs, with an empty folder as its ``root``."""
    pytest.importorskip("uvicorn", reason="the desk is an extra: pip install 'mistwright[desk]'")
    from checker.desk.serving import Desk  # noqa: PLC0415

    root = tmp_path_factory.mktemp("jobs")
    running = Desk(root, Checker(), port=0)
    running.root = root  # type: ignore[attr-defined]
    thread = threading.Thread(target=running.run, daemon=True)
    thread.start()
    yield running
    running.server.should_exit = True
    thread.join(10)


@pytest.fixture
def page(browser: Any, desk: Any) -> Iterator[Any]:
    """A wide page of the desk, whose folder holds a plan, its site file and a defective plan."""
    from desk_page import BAD, FIXTURES, PLAN, SITE, Page  # noqa: PLC0415

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
