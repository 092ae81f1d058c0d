"""A repository with three broken files in a hundred: each a result of its own, nothing lost."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from audits import generator, order, rows, run

pytestmark = pytest.mark.slow


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, dict[str, str]]:
    """Descriptions of which three in a hundred are broken, in every way there is."""
    made = generator()
    ways = sorted(made.BREAKAGES)
    count = len(ways) * 100 // 3
    top = tmp_path_factory.mktemp("broken")
    broken: dict[str, str] = {}
    for number, one in enumerate(made.Generator(11).several(count)):
        path = top / one.name
        path.parent.mkdir(parents=True, exist_ok=True)
        data = one.data
        if number % (count // len(ways)) == 5:
            way = ways[len(broken)]
            broken[path.as_posix()] = way
            data = made.BREAKAGES[way](data)
        path.write_bytes(data)
    assert sorted(broken.values()) == ways
    return top, broken


def test_nothing_is_lost(folder: tuple[Path, dict[str, str]]) -> None:
    top, broken = folder
    status, text, said = run(order(top))
    found = {r["path"]: r for r in rows(text)}
    assert status == 3
    assert said == ""
    assert sorted(found) == sorted(p.as_posix() for p in top.rglob("*.yaml"))
    assert {p for p, r in found.items() if r["verdict"] == "unread"} == set(broken)
    for path in broken:
        first = found[path]["error"].splitlines()[0]
        # The place and what is wrong there, in words.
        assert re.fullmatch(re.escape(path) + r"(:\d+:\d+)?: \S.*", first), first
        assert "Error" not in first
        assert "Traceback" not in found[path]["error"]
    totals = json.loads(text.splitlines()[-1])["totals"]
    assert totals["jobs"] == len(found)
    assert totals["verdicts"]["unread"] == len(broken)
    assert sum(totals["verdicts"].values()) == len(found)


@pytest.mark.parametrize("form", ["text", "csv", "junit", "sarif", "html"])
def test_every_form_tells_of_each(folder: tuple[Path, dict[str, str]], form: str, tmp_path: Path) -> None:  # fmt: skip
    _, broken = folder
    names = tmp_path / "list"
    names.write_text("".join(f"{path}\n" for path in broken))
    status, text, _ = run(order(lists=(str(names),), form=form))
    assert status == 3
    for path in broken:
        name = path if form != "sarif" else "/".join(Path(path).parts[-3:])
        assert name in text
