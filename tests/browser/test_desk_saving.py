"""Nothing typed is lost: without a connection, in two windows, beside another's change."""

from __future__ import annotations

import http.client
import json
from typing import Any

import pytest
from desk_page import PLAN, Page

pytestmark = [pytest.mark.slow, pytest.mark.browser]


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
