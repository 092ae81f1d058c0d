"""What a hostile page, file or name tries on the desk."""

from __future__ import annotations

import os
import socket
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

HOSTILE = (
    "<script>alert(1)</script>", "\"><img src=x onerror=alert(1)>", "'; DROP TABLE jobs; --", "{{7*7}}", "${7*7}",
    "javascript:alert(1)", "</textarea><svg onload=alert(1)>", "]]>", "&lt;b&gt;", "=cmd|' /C calc'!A0", "../../etc/passwd",
    "\u202egnp.exe", "a\u200bb", "\x00", "\x1b[31m", "🧰" * 50, "٣ kg", "x" * 5000, "- a\n- b", "*anchor", "&a b", "!!python/object x",
)  # fmt: skip


@pytest.mark.parametrize(
    "name",
    [
        "../outside.yaml", "../../../../etc/passwd", "/etc/passwd", "/etc/hosts.yaml", "hall/../../outside.yaml", "hall/..", "..",
        "..\\outside.yaml", "C:\\outside.yaml", "C:outside.yaml", "..%2foutside.yaml", "%2e%2e/outside.yaml", "link/outside.yaml",
        "link.yaml", "loop.yaml", ".hidden.yaml", ".git/config.yaml", "notes.txt", "rules.py", "", ".", "a.yaml\x00.txt", "a//b.yaml", "./a.yaml",
        "a.yaml/", "x" * 250 + ".yaml", "\u202eyaml.a.yaml", "device.yaml", "file:///etc/passwd", "~/x.yaml",
    ],
)  # fmt: skip
@pytest.mark.parametrize("how", ["open", "save", "save into", "new", "fit", "report", "sheet"])
def test_no_name_leads_out_of_the_folder(client: Any, name: str, how: str) -> None:
    outside = client.root.parent / "outside.yaml"
    outside.write_text("job: {stage: plan}\nmount: {kind: side-post}\n# secret\n", encoding="utf-8")
    for link, target in (("link", ".."), ("link.yaml", "../outside.yaml"), ("loop.yaml", "loop.yaml"), ("device.yaml", "/dev/zero")):  # fmt: skip
        (client.root / link).symlink_to(target)
    (client.root / ".hidden.yaml").write_bytes(outside.read_bytes())
    (client.root / "notes.txt").write_text("secret")
    before = outside.read_bytes()
    tree = {"job": {"stage": "plan"}, "mount": {"kind": "side-post"}}
    if how == "open":
        answer = client.post("open", {"name": name})
    elif how == "save":
        answer = client.post("save", {"name": name, "tree": tree, "etag": "0" * 64})
    elif how == "save into":
        own = "own.yaml"
        (client.root / own).write_bytes(b"job: {stage: plan}\nmount: {kind: side-post}\n")
        etag = client.post("open", {"name": own}).told["etag"]
        answer = client.post("save", {"name": own, "tree": tree, "etag": etag, "into": name})
    elif how == "new":
        if not name.endswith((".yaml", ".yml")):
            pytest.skip("the ending is added to the name of a new job")
        answer = client.post("new", {"name": name, "kind": "side-post", "stage": "plan"})
    elif how == "fit":
        answer = client.post("fit", {"name": name})
    else:
        from urllib.parse import quote  # noqa: PLC0415

        answer = client.get(f"{how}?name={quote(name, safe='')}")
    assert answer.status in (400, 422)
    assert b"secret" not in answer.body
    assert str(client.root).encode() not in answer.body
    assert outside.read_bytes() == before
    assert sorted(p.name for p in client.root.parent.iterdir()) == ["jobs", "outside.yaml"]


@pytest.mark.parametrize(
    "target",
    [
        "page/../api/form", "page/../../application.py", "page/..%2f..%2fapplication.py", "page/%2e%2e/%2e%2e/application.py",
        "page/..%5c..%5capplication.py", "page//etc/passwd", "page/%00", "page/", "page", "turning-cell-side-post.yaml",
        "page/turning-cell-side-post.yaml", "jobs/turning-cell-side-post.yaml", "page/application.py", "page/desk.css/..",
    ],
)  # fmt: skip
def test_nothing_but_the_pages_own_files_is_served_as_it_stands(client: Any, target: str) -> None:
    client.put("turning-cell-side-post.yaml")
    answer = client.get(target)
    assert answer.status == 404
    assert b"K-2047" not in answer.body


@pytest.mark.parametrize("host", ["evil.example", "evil.example:{port}", "127.0.0.1", "127.0.0.1:1", "127.0.0.1.evil.example:{port}", "localhost.evil.example:{port}", "0.0.0.0:{port}", "[::1]:{port}", ""])  # fmt: skip
def test_a_foreign_host_is_refused(client: Any, host: str) -> None:
    port, token = client.desk.port, client.desk.token
    answer = client.raw("GET", f"/{token}/api/form", {"Host": host.format(port=port)})
    assert answer.status in (400, 421)
    assert b"fields" not in answer.body


def test_two_hosts_are_refused(client: Any) -> None:
    port, token = client.desk.port, client.desk.token
    with socket.create_connection(("127.0.0.1", port), timeout=10) as link:
        link.sendall(f"GET /{token}/api/form HTTP/1.1\r\nHost: 127.0.0.1:{port}\r\nHost: evil.example\r\nConnection: close\r\n\r\n".encode())  # fmt: skip
        answer = b""
        while piece := link.recv(4096):
            answer += piece
    assert answer.split()[1] in (b"400", b"421")


def test_this_machine_by_either_name_is_let_in(client: Any) -> None:
    port, token = client.desk.port, client.desk.token
    for host in (f"127.0.0.1:{port}", f"localhost:{port}", f"LOCALHOST:{port}"):
        assert client.raw("GET", f"/{token}/api/form", {"Host": host}).status == 200


@pytest.mark.parametrize(
    "headers",
    [
        {"Origin": "http://evil.example"}, {"Origin": "null"}, {"Origin": "https://127.0.0.1:{port}"}, {"Origin": "http://127.0.0.1:1"},
        {"Origin": "http://localhost:{port}"}, {"Sec-Fetch-Site": "cross-site"}, {"Sec-Fetch-Site": "same-site"},
        {"Origin": "http://127.0.0.1:{port}", "Sec-Fetch-Site": "cross-site"},
    ],
)  # fmt: skip
@pytest.mark.parametrize("name", ["new", "save", "check", "fit"])
def test_a_post_from_another_site_changes_nothing(client: Any, headers: dict[str, str], name: str) -> None:  # fmt: skip
    headers = {k: v.format(port=client.desk.port) for k, v in headers.items()}
    body = {"name": "made.yaml", "kind": "side-post", "stage": "plan"}
    answer = client.post(name, body, headers)
    assert answer.status == 403
    assert list(client.root.iterdir()) == []


@pytest.mark.parametrize("kind", ["text/plain", "application/x-www-form-urlencoded", "multipart/form-data", "", "text/plain; application/json"])  # fmt: skip
def test_what_a_form_of_another_site_can_send_is_not_taken(client: Any, kind: str) -> None:
    answer = client.post("new", {"name": "made.yaml", "kind": "side-post", "stage": "plan"}, {"Content-Type": kind})  # fmt: skip
    assert answer.status == 415
    assert list(client.root.iterdir()) == []


def test_a_page_of_this_desk_is_let_in(client: Any) -> None:
    headers = {"Origin": f"http://127.0.0.1:{client.desk.port}", "Sec-Fetch-Site": "same-origin"}
    body = {"name": "made", "kind": "side-post", "stage": "plan"}
    assert client.post("new", body, headers).status == 200
    assert (client.root / "made.yaml").is_file()


@pytest.mark.parametrize("method", ["GET", "POST", "PUT", "DELETE", "OPTIONS", "HEAD"])
@pytest.mark.parametrize("start", ["", "/wrong", "/{short}", "/{token}x", "//{token}", "/%2f{token}", "/page"])  # fmt: skip
def test_without_the_word_of_this_run_there_is_nothing(client: Any, method: str, start: str) -> None:  # fmt: skip
    token = client.desk.token
    start = start.format(token=token, short=token[:-1])
    for path in ("/", "/api/form", "/api/open", "/page/main.js"):
        answer = client.raw(method, f"{start}{path}", {"Content-Length": "0"})
        assert answer.status == 404
        assert token.encode() not in answer.body


def test_the_word_is_long_and_new_each_time(client: Any, tmp_path: Path, checker: Any) -> None:
    from checker.desk.serving import Desk  # noqa: PLC0415

    other = Desk(tmp_path, checker, port=0)
    other.listening.close()
    assert other.token != client.desk.token
    assert len(other.token) >= 32


def test_it_listens_on_this_machine_only(client: Any) -> None:
    assert client.desk.listening.getsockname()[0] == "127.0.0.1"
    assert client.desk.listening.family == socket.AF_INET


@pytest.mark.parametrize("how", ["announced", "piece by piece", "announced as less"])
def test_a_body_of_fifty_megabytes_is_not_read(client: Any, how: str) -> None:
    token = client.desk.token
    many, piece = 50, b"x" * 1024 * 1024

    def chunks() -> Iterator[bytes]:
        for _ in range(many):
            yield b"100000\r\n" + piece + b"\r\n"
        yield b"0\r\n\r\n"

    headers = {"Content-Type": "application/json"}
    if how == "announced":
        headers["Content-Length"] = str(many * len(piece))
        answer = client.raw("POST", f"/{token}/api/check", headers, (piece for _ in range(many)))
    elif how == "piece by piece":
        headers["Transfer-Encoding"] = "chunked"
        answer = client.raw("POST", f"/{token}/api/check", headers, chunks())
    else:
        # What goes beyond what was announced is no part of this request.
        headers["Content-Length"] = "2"
        answer = client.raw("POST", f"/{token}/api/check", headers, b"{}" + piece)
        assert answer.status == 400
        return
    assert answer.status == 413
    assert client.post("check", {"window": "w", "tree": {}}).status == 200


@pytest.mark.parametrize(
    "body",
    [b"", b"{", b"[]", b"null", b"NaN", b'{"name": NaN}', b"[" * 100_000, b'{"a":' * 100_000, b'{"name": 5}', b"\xff\xfe", b'{"name": "\\ud800.yaml"}', b'{"name": "' + b"x" * 1_000_000 + b'"}'],
)  # fmt: skip
def test_what_no_page_sends_is_not_understood(client: Any, body: bytes) -> None:
    for name in ("open", "check", "save", "new", "fit", "around", "detail"):
        headers = {"Content-Type": "application/json", "Content-Length": str(len(body))}
        answer = client.raw("POST", f"/{client.desk.token}/api/{name}", headers, body)
        assert answer.status in (400, 422)


@pytest.mark.parametrize(
    "tree",
    [
        None, [], "x", 5, {"mount": []}, {"job": {"stage": []}}, {"job": {"stage": {"is": {}}}}, {"mount": {"fixings": {}}},
        {"mount": {"kind": "side-post", "fixings": [[], 5, "x", None, {"#": 10**9}]}, "job": {"stage": "plan"}},
        {"": {"": {"": 1}}}, {"#": 1}, {"job": {"stage": "plan", "x" * 3000: "y"}, "mount": {"kind": "side-post"}},
        {"job": {"stage": "plan"}, "mount": {"kind": "side-post", "fixings": [{}] * 5000}}, {"job": {"stage": 10**400}}, {"job": {"stage": True}},
        {"job": {"stage": "plan", "local": "../../x"}, "mount": {"kind": "side-post"}},
        {"job": {"stage": "plan"}, "mount": {"kind": "side-post"}, "z": [[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]},
    ],
)  # fmt: skip
def test_an_odd_tree_is_told_or_refused_and_never_written(client: Any, tree: Any) -> None:
    name, before = (
        "odd.yaml",
        b"job: {stage: plan}\nmount:\n  kind: side-post\n  fixings:\n    - at: foot\n",
    )
    (client.root / name).write_bytes(before)
    assert client.post("check", {"window": "odd", "tree": tree, "since": 0}).status in (200, 422)
    assert client.post("around", {"window": "odd"}).status == 200
    etag = client.post("open", {"name": name}).told["etag"]
    answer = client.post("save", {"name": name, "tree": tree, "etag": etag})
    if answer.status != 200:
        assert (client.root / name).read_bytes() == before
    # Whatever is written can be opened again.
    assert client.post("open", {"name": name}).status == 200


def _fields(form: dict[str, Any], path: str = "") -> Iterator[tuple[str, dict[str, Any]]]:
    for name, child in form["children"].items():
        below = f"{path}.{name}" if path else name
        if "children" in child:
            yield from _fields(child, below)
        elif child["type"] == "list":
            yield from _fields(child["item"], f"{below}[0]")
        else:
            yield below, child


def _put(tree: dict[str, Any], path: str, value: Any) -> None:
    box: Any = tree
    *way, last = path.replace("[0]", ".0").split(".")
    for i, part in enumerate(way):
        following = way[i + 1] if i + 1 < len(way) else last
        if part == "0":
            if not box:
                box.append({})
            box = box[0]
        else:
            box = box.setdefault(part, [] if following == "0" else {})
    box[last] = value


@pytest.mark.parametrize("turn", range(0, len(HOSTILE), 4))
@pytest.mark.slow
def test_hostile_text_in_every_field_is_kept_as_text_or_left_out(client: Any, turn: int) -> None:
    # Every field gets one of four, another with each turn.
    (client.root / "hostile.yaml").write_text("job: {stage: plan}\nmount: {kind: side-post}\n")
    opened = client.post("open", {"name": "hostile.yaml"}).told
    tree = opened["tree"]
    texts = {}
    for i, (path, spec) in enumerate(_fields(client.get("api/form").told["fields"])):
        if path not in ("job.stage", "mount.kind", "job.local"):
            text = HOSTILE[(turn + i % 4) % len(HOSTILE)]
            _put(tree, path, text)
            if spec["type"] == "text":
                texts[path] = text
    looked = client.post("check", {"window": "hostile", "tree": tree, "since": 0})
    assert looked.status == 200
    assert looked.headers["content-type"] == "application/json"
    done = client.post("save", {"name": "hostile.yaml", "tree": tree, "etag": opened["etag"]})
    assert done.status == 200
    left_out = set(done.told["left_out"])
    assert len(texts.keys() - left_out) > 0
    again = client.post("open", {"name": "hostile.yaml"}).told["tree"]
    for path, text in texts.items():
        if path not in left_out:
            value: Any = again
            for part in path.replace("[0]", ".0").split("."):
                value = value[int(part)] if part == "0" else value[part]
            assert value == text


@pytest.mark.parametrize("path", ["", "page/main.js", "api/form", "api/jobs", "report?name=turning-cell-side-post.yaml", "nothing"])  # fmt: skip
def test_every_answer_says_what_a_page_may_do(client: Any, path: str) -> None:
    client.put("turning-cell-side-post.yaml")
    headers = client.get(path).headers
    policy = headers["content-security-policy"]
    assert policy.startswith("default-src 'none';")
    assert "unsafe" not in policy
    assert "frame-ancestors 'none'" in policy
    assert headers["x-content-type-options"] == "nosniff"
    assert headers["referrer-policy"] == "no-referrer"
    assert headers["cross-origin-resource-policy"] == "same-origin"
    assert "access-control-allow-origin" not in headers


def test_the_pages_own_files_ask_nobody_else() -> None:
    page = Path(__file__).parents[2] / "checker" / "desk" / "page"
    for file in page.iterdir():
        text = file.read_text(encoding="utf-8").replace('xmlns="http://www.w3.org/2000/svg"', "")
        text = text.replace("xmlns=", "").replace("http://www.w3.org/2000/svg", "")
        for word in (
            "http:",
            "https:",
            "//",
            "innerHTML",
            "outerHTML",
            "insertAdjacentHTML",
            "eval(",
        ):
            if word != "//" or file.suffix != ".js":  # In a script these two begin a comment.
                assert word not in text, f"{file.name} has {word}"


def test_a_folder_that_may_not_be_read_is_told(client: Any) -> None:
    name = client.put("turning-cell-side-post.yaml")
    (client.root / name).chmod(0)
    try:
        if os.access(client.root / name, os.R_OK):
            pytest.skip("root may read everything")
        assert client.post("open", {"name": name}).status == 422
    finally:
        (client.root / name).chmod(0o600)
