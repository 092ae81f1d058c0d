"""The desk's addresses: the page's own files, and what it asks for as JSON."""

from __future__ import annotations

import hashlib
import json
import re
import time
from base64 import b64encode
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response, StreamingResponse
from starlette.routing import Route

from checker.desk.describing import form_of
from checker.desk.folder import ChangedMeanwhile
from checker.desk.guarding import Guard
from checker.desk.jobs import Jobs
from checker.desk.looking import Windows
from checker.desk.told import entry_told
from checker.desk.typed import Entry
from checker.errors import Mistakes
from checker.running import Checker

__all__ = ["application"]

_PAGE = Path(__file__).resolve().parent / "page"
_TEMPLATES = _PAGE.parent.parent / "output" / "templates"
_TYPES = {".html": "text/html", ".css": "text/css", ".js": "text/javascript", ".svg": "image/svg+xml"}  # fmt: skip
# Colours and drawings look as they do in the report.
_SHARED = ("palette.css", "drawing.css")
_STYLE = re.compile(r"<style>(.*?)</style>", re.DOTALL)
_LONGEST_NAME = 60
_WAIT, _MOST_WAITS = 0.02, 100


class _Wrong(Exception):
    """A request that no page of this desk sends."""


def application(jobs: Jobs, checker: Checker, token: str, port: int) -> Guard:
    """The whole application, guarded."""
    return Guard(_Desk(jobs, checker, token).app, token, port)


class _Desk:
    def __init__(self, jobs: Jobs, checker: Checker, token: str) -> None:
        self.jobs = jobs
        self.windows = Windows(checker)
        self.form = json.dumps({**form_of(checker.rulebook), "folder": jobs.about()}).encode()
        # Read once: nothing but these is ever sent as it stands.
        self.files = {p.name: p.read_bytes() for p in sorted(_PAGE.iterdir()) if p.suffix in _TYPES}
        self.files |= {name: (_TEMPLATES / name).read_bytes() for name in _SHARED}
        at = f"/{token}"
        self.app = Starlette(routes=[
            Route(f"{at}/", self.page, methods=["GET"]),
            Route(f"{at}/page/{{name}}", self.file, methods=["GET"]),
            Route(f"{at}/report", self.report, methods=["GET"]),
            Route(f"{at}/sheet", self.sheet, methods=["GET"]),
            Route(f"{at}/api/form", self.about, methods=["GET"]),
            Route(f"{at}/api/jobs", self.list, methods=["GET"]),
            *(Route(f"{at}/api/{name}", self.answering(function), methods=["POST"]) for name, function in (
                ("open", self.open), ("check", self.check), ("around", self.around), ("detail", self.detail),
                ("save", self.save), ("new", self.new), ("fit", self.fit),
            )),
        ])  # fmt: skip

    async def page(self, request: Request) -> Response:
        """The one page."""
        del request
        return _file("index.html", self.files["index.html"])

    async def file(self, request: Request) -> Response:
        """One of the page's own files."""
        name = request.path_params["name"]
        if name not in self.files:
            return Response("Nothing here.\n", 404, media_type="text/plain")
        return _file(name, self.files[name])

    async def about(self, request: Request) -> Response:
        """The fields, rules and words that the page is drawn from."""
        del request
        return Response(self.form, media_type="application/json")

    async def list(self, request: Request) -> Response:
        """The folder's jobs, a line each as soon as it is known."""
        del request

        def lines() -> Iterator[bytes]:
            for told in self.jobs.listed():
                yield json.dumps(told).encode() + b"\n"
                # Whoever types in another window comes first, for as long as that takes.
                for _ in range(_MOST_WAITS):
                    if not self.windows.busy:
                        break
                    time.sleep(_WAIT)

        return StreamingResponse(lines(), media_type="application/x-ndjson")

    async def report(self, request: Request) -> Response:
        """The report on what is saved, to read and print."""
        return await self._printed(request, self.jobs.report)

    async def sheet(self, request: Request) -> Response:
        """The fitting sheet of what is saved, to print."""
        return await self._printed(request, self.jobs.sheet)

    async def _printed(self, request: Request, draw: Callable[[str, bool], str]) -> Response:
        asked = request.query_params
        try:
            html = await run_in_threadpool(draw, asked.get("name", ""), "fitted" in asked)
        except Mistakes as error:
            return Response(str(error) + "\n", 422, media_type="text/plain")
        # The page carries its style inside; that one and no other may be used.
        styles = " ".join(f"'sha256-{b64encode(hashlib.sha256(s.encode()).digest()).decode()}'" for s in _STYLE.findall(html))  # fmt: skip
        policy = f"default-src 'none'; style-src {styles}; img-src data:; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
        return Response(html, media_type="text/html", headers={"content-security-policy": policy})

    def answering(self, function: Callable[[dict[str, Any]], dict[str, Any]]) -> Any:
        """A function of JSON as an endpoint; what a person did wrong is told as such."""

        async def answer(request: Request) -> Response:
            body = await request.body()
            status, told = await run_in_threadpool(_answered, function, body)
            return Response(told, status, media_type="application/json")

        return answer

    def open(self, asked: dict[str, Any]) -> dict[str, Any]:
        """A description's values as they are written, and those found on site."""
        return self.jobs.opened(_text(asked, "name"))

    def check(self, asked: dict[str, Any]) -> dict[str, Any]:
        """What the values on the page come to."""
        window = self.windows.of(_text(asked, "window", _LONGEST_NAME))
        since = asked.get("since", 0)
        return window.check(asked.get("tree"), asked.get("plan"), since if isinstance(since, int) else 0)  # fmt: skip

    def around(self, asked: dict[str, Any]) -> dict[str, Any]:
        """What can wait for a pause."""
        return self.windows.of(_text(asked, "window", _LONGEST_NAME)).around()

    def detail(self, asked: dict[str, Any]) -> dict[str, Any]:
        """The working and the sources of a finding."""
        window = self.windows.of(_text(asked, "window", _LONGEST_NAME))
        return window.detail(_text(asked, "finding", 2000))

    def save(self, asked: dict[str, Any]) -> dict[str, Any]:
        """Put the values on the page into the file, if it is still the one they were read from."""
        return self.jobs.saved(_text(asked, "name"), asked.get("tree"), _text(asked, "etag"), plan=asked.get("plan"), into=asked.get("into"))  # fmt: skip

    def new(self, asked: dict[str, Any]) -> dict[str, Any]:
        """Begin a description."""
        return self.jobs.begun(_text(asked, "name"), _text(asked, "kind"), _text(asked, "stage"), str(asked.get("jurisdiction") or ""))  # fmt: skip

    def fit(self, asked: dict[str, Any]) -> dict[str, Any]:
        """Begin the file of what is found on site for a plan."""
        return self.jobs.fitting(_text(asked, "name"))


def _answered(function: Callable[[dict[str, Any]], dict[str, Any]], body: bytes) -> tuple[int, bytes]:  # fmt: skip
    try:
        asked = json.loads(body, parse_constant=_no_number)
        if not isinstance(asked, dict):
            raise _Wrong
        return 200, json.dumps(function(asked)).encode()
    except ChangedMeanwhile:
        return 409, json.dumps({"changed": True}).encode()
    except Mistakes as error:
        entries = [entry_told(Entry("", m.what, m.found, m.expected, m.hint)) for m in error.mistakes]  # fmt: skip
        return 422, json.dumps({"entries": entries, "text": str(error)}).encode()
    except (ValueError, RecursionError, _Wrong):
        return 400, json.dumps({"entries": [], "text": "This request was not understood."}).encode()


def _no_number(word: str) -> Any:
    raise _Wrong(word)


def _text(asked: dict[str, Any], key: str, longest: int = 300) -> str:
    value = asked.get(key)
    if not isinstance(value, str) or len(value) > longest:
        raise _Wrong(key)
    return value


def _file(name: str, data: bytes) -> Response:
    return Response(data, media_type=_TYPES[Path(name).suffix])
