"""What stands in front of the desk: who may ask, from where, how much, and what a page may do.

The server listens on this machine only; but any page that is open in the same browser can
send requests there. So each must name this machine as its host, carry the secret word of
this run in its path, and come from a page of this desk.
"""

from __future__ import annotations

import secrets
from collections.abc import Awaitable, Callable, MutableMapping
from typing import Any, Final

from starlette.exceptions import HTTPException

from checker import __version__

__all__ = ["MAX_BODY", "Guard"]

Scope = MutableMapping[str, Any]
Message = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[Message]]
Send = Callable[[Message], Awaitable[None]]
App = Callable[[Scope, Receive, Send], Awaitable[None]]

# A description may be 1 MiB; as JSON it is larger.
MAX_BODY: Final = 2 * 1024 * 1024
_TOO_LARGE = "That is more than any description holds."
_POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; "
    "base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
)
_HEADERS = {
    b"content-security-policy": _POLICY.encode(),
    b"x-content-type-options": b"nosniff",
    b"x-frame-options": b"DENY",
    b"referrer-policy": b"no-referrer",
    b"cross-origin-opener-policy": b"same-origin",
    b"cross-origin-resource-policy": b"same-origin",
    b"permissions-policy": b"camera=(), geolocation=(), microphone=()",
    b"cache-control": b"no-store",
    b"server": f"mistwright {__version__}".encode(),
}


class Guard:
    """Lets a request through to the application, or says plainly why not."""

    def __init__(self, app: App, token: str, port: int) -> None:
        self.app = app
        self.token = token.encode()
        self.hosts = {f"{name}:{port}".encode() for name in ("127.0.0.1", "localhost")}

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        if scope["type"] != "http":
            if scope["type"] == "lifespan":
                await self.app(scope, receive, send)
            return
        headers: list[tuple[bytes, bytes]] = list(scope["headers"])
        refusal = self._refusal(scope, headers)
        if refusal is not None:
            await _refuse(send, *refusal)
            return

        async def guarded(message: Message) -> None:
            if message["type"] == "http.response.start":
                own = {name for name, _ in message["headers"]}
                kept = [(n, v) for n, v in _HEADERS.items() if n not in own]
                message["headers"] = [*message["headers"], *kept]
            await send(message)

        read = 0

        async def measured() -> Message:
            nonlocal read
            message = await receive()
            read += len(message.get("body", b""))
            if read > MAX_BODY:
                raise HTTPException(413, _TOO_LARGE)
            return message

        await self.app(scope, measured, guarded)

    def _refusal(self, scope: Scope, headers: list[tuple[bytes, bytes]]) -> tuple[int, str] | None:
        named = [value.lower() for name, value in headers if name == b"host"]
        if len(named) != 1 or named[0] not in self.hosts:
            return 421, "This desk answers on this machine only."
        first = scope["path"][1:].partition("/")[0].encode("utf-8", "replace")
        if not secrets.compare_digest(first, self.token):
            return 404, "Nothing here. Open the address that 'mistwright desk' printed."
        sent = dict(headers)
        site = sent.get(b"sec-fetch-site", b"none")
        if site not in (b"none", b"same-origin"):
            return 403, "This came from another site."
        origin = sent.get(b"origin")
        if origin is not None and origin.lower() != b"http://" + named[0]:
            return 403, "This came from another site."
        if scope["method"] not in ("GET", "HEAD"):
            # Another site cannot send this without asking first, and is never told yes.
            if sent.get(b"content-type", b"").partition(b";")[0].strip().lower() != b"application/json":  # fmt: skip
                return 415, "Send JSON."
            length = sent.get(b"content-length", b"0")
            if not length.isdigit() or len(length) > 12 or int(length) > MAX_BODY:
                return 413, _TOO_LARGE
        return None


async def _refuse(send: Send, status: int, why: str) -> None:
    body = (why + "\n").encode()
    headers = [(b"content-type", b"text/plain; charset=utf-8"), (b"content-length", str(len(body)).encode()), (b"connection", b"close")]  # fmt: skip
    await send({"type": "http.response.start", "status": status, "headers": [*headers, *_HEADERS.items()]})  # fmt: skip
    await send({"type": "http.response.body", "body": body})
