"""What changed since, told apart by its reason; and the exit status."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest
from audits import FIXTURES, order, rows, run

from checker.errors import Mistakes
from checker.grades import Grade

RULES = FIXTURES.parent / "rules"
NAME = "grinder-roof-plate.yaml"
OVERLAY = """\
title: House rule
replace:
  - rule: load/sling-angle
    parameter: flattest
    value: 20 deg
    basis: {source: sling-tables, clause: house, confidence: checked}
    why: The house lifts steeply.
"""


def steeper(folder: Path) -> None:
    plan = folder / NAME
    text = plan.read_text()
    changed = re.sub(r"angle_from_vertical: [0-9.]+ deg", "angle_from_vertical: 75 deg", text)
    assert changed != text
    plan.write_text(changed)


def stricter(folder: Path) -> Path:
    """The shipped rules with one edition of one of them changed."""
    rules = folder / "edition"
    (rules / "load").mkdir(parents=True)
    text = (RULES / "load" / "sling-angle.yaml").read_text()
    changed = text.replace("stop: demand <= limit\n", "stop: 2 * demand <= limit\n  correct: 3 * demand <= limit\n")  # fmt: skip
    changed = changed.replace('  advise: "', '  correct: "{demand}"\n  advise: "', 1)
    assert changed.count("correct") == 2
    (rules / "load" / "sling-angle.yaml").write_text(changed)
    return rules


def house(folder: Path) -> Path:
    """A folder with a local overlay."""
    (folder / "house" / "local").mkdir(parents=True)
    (folder / "house" / "local" / "house.yaml").write_text(OVERLAY)
    return folder / "house"


@pytest.fixture
def folder(jobs: Path, tmp_path: Path) -> Path:
    shutil.copytree(jobs, tmp_path / "jobs")
    return tmp_path / "jobs"


def reasons(text: str, rule: str = "load/sling-angle") -> dict[str, list[str]]:
    """By job the kind, the grades and the reason of one rule's change."""
    found = {}
    for row in rows(text):
        for changed, *rest in row.get("changes", ()):
            if changed == rule:
                found[Path(row["path"]).name] = rest
    return found


@pytest.mark.slow
def test_reasons_are_told_apart(folder: Path, tmp_path: Path) -> None:
    place = house(tmp_path)
    rules = stricter(tmp_path)
    earlier = tmp_path / "earlier.jsonl"
    run(order(folder, output=earlier, folders=(place,)))

    def since(**options: object) -> list[str]:
        return reasons(run(order(folder, against=earlier, **options))[1]).get(NAME, [])

    assert since(folders=(place,)) == []
    assert since(folders=(place,), local=("house",)) == ["worse", "met", "stop", "overlay changed"]
    assert since(folders=(place, rules)) == ["worse", "met", "correct", "rule changed"]
    both = since(folders=(place, rules), local=("house",))
    assert both == ["worse", "met", "stop", "rule changed, overlay changed"]
    steeper(folder)
    assert since(folders=(place,)) == ["worse", "met", "stop", "description changed"]
    all_three = since(folders=(place, rules), local=("house",))
    assert all_three[-1] == "description changed, rule changed, overlay changed"


@pytest.mark.slow
def test_the_new_edition_over_the_same_jobs_in_one_command(folder: Path, tmp_path: Path) -> None:
    text = run(order(folder, versus=(stricter(tmp_path),)))[1]
    assert reasons(text)[NAME] == ["worse", "met", "correct", "rule changed"]
    changed = {c[0].partition("[")[0] for row in rows(text) for c in row.get("changes", ())}
    assert changed == {"load/sling-angle"}


def test_new_gone_better_and_mended(folder: Path, tmp_path: Path) -> None:
    earlier = tmp_path / "earlier.json"
    mended = (folder / NAME).read_text()
    steeper(folder)
    run(order(folder, form="json", output=earlier))
    (folder / NAME).write_text(mended)
    (folder / "wall-bracket-old-lathe.yaml").rename(folder / "renamed.yaml")
    (folder / "broken.yaml").write_text(mended)
    _, text, _ = run(order(folder, against=earlier))
    assert reasons(text)[NAME] == ["better", "stop", "met", "description changed"]
    assert reasons(text, "description") == {
        "renamed.yaml": ["new", "", "ready", "description added"]
        if _verdict(text, "renamed.yaml") == "ready"
        else ["new", "", _verdict(text, "renamed.yaml"), "description added"],
        "broken.yaml": ["better", "unread", "ready", "description changed"],
    }
    _, told, _ = run(order(folder, form="text", against=earlier))
    assert "gone since the earlier audit" in told
    assert (folder / "wall-bracket-old-lathe.yaml").as_posix() in told


def _verdict(text: str, name: str) -> str:
    return next(r["verdict"] for r in rows(text) if Path(r["path"]).name == name)


@pytest.mark.parametrize(
    "content",
    ["", "not json\n", '{"format":99}\n', '{"totals": {}}\n', '{"jobs": [\n'],
    ids=range(5),
)
def test_an_earlier_audit_that_is_none_is_refused(jobs: Path, tmp_path: Path, content: str) -> None:
    earlier = tmp_path / "earlier"
    earlier.write_text(content)
    with pytest.raises(Mistakes, match="the earlier audit"):
        run(order(jobs, against=earlier))


# The gravest grade of each, and the grades that are accepted for it to end with 0.
STATUS = {
    "turning-cell-side-post.yaml": (Grade.STOP,),
    "grinder-roof-plate.yaml": (Grade.STOP, Grade.CORRECT, Grade.CONFIRM, Grade.ADVISE),
}


@pytest.mark.parametrize("accept", [g for g in Grade if g <= Grade.MET])
@pytest.mark.parametrize("name", STATUS)
def test_the_status_is_set_by_what_is_accepted(jobs: Path, name: str, accept: Grade) -> None:
    assert run(order(jobs / name, accept=accept))[0] == (0 if accept in STATUS[name] else 1)


@pytest.mark.parametrize("accept", [g for g in Grade if g <= Grade.MET])
def test_what_cannot_be_read_is_never_accepted(jobs: Path, accept: Grade) -> None:
    assert run(order(jobs, accept=accept))[0] == 3
