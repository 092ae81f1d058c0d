"""A desk that really listens, and a plain client that says exactly what it is told to say."""

from __future__ import annotations

import copy
import http.client
import json
import random
import shutil
import threading
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any, NamedTuple

import pytest

from checker.running import Checker

pytest.importorskip("uvicorn", reason="the desk is an extra: pip install 'mistwright[desk]'")

from checker.desk.serving import Desk

FIXTURES = Path(__file__).parents[2] / "fixtures"


class Answer(NamedTuple):
    """What came back."""

    status: int
    headers: dict[str, str]
    body: bytes

    @property
    def told(self) -> Any:
        return json.loads(self.body)


class Client:
    """Asks a desk, and holds the folder that it is open on."""

    def __init__(self, desk: Desk, root: Path) -> None:
        self.desk = desk
        self.root = root

    def raw(
        self,
        method: str,
        target: str,
        headers: dict[str, str] | None = None,
        body: Any = None,
    ) -> Answer:
        connection = http.client.HTTPConnection("127.0.0.1", self.desk.port, timeout=30)
        try:
            connection.putrequest(method, target, skip_host=True, skip_accept_encoding=True)
            for name, value in {"Host": f"127.0.0.1:{self.desk.port}", **(headers or {})}.items():
                if value:
                    connection.putheader(name, value)
            connection.endheaders()
            try:
                for piece in [body] if isinstance(body, bytes) else body or []:
                    connection.send(piece)
            except (BrokenPipeError, ConnectionResetError):
                pass  # It need not listen to the end before it refuses.
            try:
                response = connection.getresponse()
            except ConnectionResetError:
                # It had said its answer and hung up on what was still being sent.
                return Answer(413, {}, b"")
            return Answer(response.status, {k.lower(): v for k, v in response.getheaders()}, response.read())  # fmt: skip
        finally:
            connection.close()

    def get(self, path: str) -> Answer:
        return self.raw("GET", f"/{self.desk.token}/{path}")

    def post(self, name: str, body: Any, headers: dict[str, str] | None = None) -> Answer:
        data = json.dumps(body).encode()
        sent = {
            "Content-Type": "application/json",
            "Content-Length": str(len(data)),
            **(headers or {}),
        }
        return self.raw("POST", f"/{self.desk.token}/api/{name}", sent, data)

    def put(self, fixture: str, name: str = "") -> str:
        """A copy of a fixture in the folder; gives its name there."""
        name = name or Path(fixture).name
        (self.root / name).parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(FIXTURES / fixture, self.root / name)
        return name


@pytest.fixture(scope="session")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Client]:
    root = tmp_path_factory.mktemp("desk") / "jobs"
    root.mkdir()
    desk = Desk(root, Checker(), port=0)
    thread = threading.Thread(target=desk.run, daemon=True)
    thread.start()
    until = time.monotonic() + 30
    while not desk.server.started and time.monotonic() < until:
        time.sleep(0.01)
    yield Client(desk, root)
    desk.server.should_exit = True
    thread.join(10)


@pytest.fixture
def client(served: Client) -> Iterator[Client]:
    """The desk with an empty folder."""
    for one in served.root.iterdir():
        shutil.rmtree(one) if one.is_dir() and not one.is_symlink() else one.unlink()
    return served


@pytest.fixture(scope="session")
def checker() -> Checker:
    return Checker()


@pytest.fixture
def tree_of(checker: Checker) -> Callable[[bytes], dict[str, Any]]:
    """A description's values as a page holds them, having gone through JSON."""
    from checker.desk.typed import shown  # noqa: PLC0415
    from checker.reading import read_yaml  # noqa: PLC0415

    def told(data: bytes) -> dict[str, Any]:
        tree = shown(read_yaml(data, "description"), checker.rulebook.layout.root)
        return json.loads(json.dumps(tree))  # type: ignore[no-any-return]

    return told


def _leaves(tree: Any) -> Iterator[tuple[Any, Any]]:
    for key, value in tree.items() if isinstance(tree, dict) else enumerate(tree):
        if isinstance(value, (dict, list)) and not (isinstance(value, dict) and "is" in value):
            yield from _leaves(value)
        elif key != "#":
            yield tree, key


def _mangle(tree: dict[str, Any], chance: random.Random) -> None:
    """One change such as a person makes: another value, none, a member more, less or moved."""
    lists = [v for box, _ in _leaves(tree) for v in box.values() if isinstance(box, dict) and isinstance(v, list)]  # fmt: skip
    box, key = chance.choice(list(_leaves(tree)))
    value = box[key]
    match chance.randrange(8):
        case 0:
            del box[key]
        case 1 if lists:
            members = chance.choice(lists)
            if members:
                members.pop(chance.randrange(len(members)))
        case 2 if lists:
            members = chance.choice(lists)
            members.reverse()
        case 3 if lists:
            members = chance.choice(lists)
            members.append(copy.deepcopy(chance.choice(members)) if members else {})
        case 4 if isinstance(value, bool):
            box[key] = not value
        case 5:
            box[key] = "nonsense"
        case _:
            text = value["is"] if isinstance(value, dict) else value
            if isinstance(text, str) and text[:1].isdigit() and " " in text:
                number, _, unit = text.partition(" ")
                try:
                    text = f"{float(number) * chance.choice((0.5, 0.9, 1.1, 2, 10)):.4g} {unit}"
                except ValueError:
                    return
                box[key] = {"is": text, "origin": "estimated"} if chance.random() < 0.2 else text


@pytest.fixture
def mangle() -> Callable[[dict[str, Any], random.Random], None]:
    """Makes one change in a tree, such as a person makes."""
    return _mangle
