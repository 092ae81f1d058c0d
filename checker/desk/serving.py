"""The server itself: on this machine only, at an address that nobody can guess."""

from __future__ import annotations

import gc
import secrets
import socket
import threading
from pathlib import Path

import uvicorn

from checker.asking.starting import choices_of
from checker.desk.application import application
from checker.desk.folder import Folder
from checker.desk.jobs import Jobs
from checker.desk.looking import Window
from checker.errors import Place, fault
from checker.running import Checker

__all__ = ["USUAL_PORT", "Desk"]

HOST = "127.0.0.1"
# The same each time, so that what a browser kept for this desk is found again.
USUAL_PORT = 8427


class Desk:
    """A desk that is ready to be served."""

    def __init__(self, root: Path, checker: Checker, port: int | None = None) -> None:
        if not root.is_dir():
            fault("there is no such folder", Place(str(root)), hint="name the folder that holds the descriptions")  # fmt: skip
        self.checker = checker
        self.listening = _listening(port)
        self.port: int = self.listening.getsockname()[1]
        self.token = secrets.token_urlsafe(24)
        app = application(Jobs(Folder(root), checker), checker, self.token, self.port)
        # The rules stay for good; looking through them again and again for waste costs time.
        gc.collect()
        gc.freeze()
        self.server = uvicorn.Server(
            uvicorn.Config(
                app,
                log_config=None,
                access_log=False,
                lifespan="off",
                ws="none",
                server_header=False,
                proxy_headers=False,
                limit_concurrency=64,
                h11_max_incomplete_event_size=16 * 1024,
                timeout_graceful_shutdown=2,
            )
        )

    @property
    def address(self) -> str:
        """Where to open it."""
        return f"http://{HOST}:{self.port}/{self.token}/"

    def run(self) -> None:
        """Answer until stopped."""
        threading.Thread(target=self._warm, daemon=True).start()
        self.server.run(sockets=[self.listening])

    def _warm(self) -> None:
        """Look once at nearly nothing: what is worked out then is there when somebody waits for it."""
        kind = choices_of(self.checker.rulebook.layout, "mount.kind")[0]
        window = Window(self.checker)
        window.check({"job": {"stage": "plan"}, "mount": {"kind": kind}}, None, 0)
        window.around()


def _listening(port: int | None) -> socket.socket:
    """A socket at the port asked for; without one the usual port, or any that is free."""
    asked = (USUAL_PORT, 0) if port is None else (port,)
    for one in asked:
        listening = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
        listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            listening.bind((HOST, one))
            listening.listen(64)
        except OSError as error:
            listening.close()
            if one == asked[-1]:
                fault(f"the port cannot be used: {error.strerror}", Place(f"port {one}"), hint="choose another with --port")  # fmt: skip
        else:
            return listening
    raise AssertionError
