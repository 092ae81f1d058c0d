"""A description saved from the page: every comment, every line and the order stay as they were."""

from __future__ import annotations

import copy
import difflib
import random
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from checker.desk.saving import put_into
from checker.desk.typed import PLACE, shown
from checker.reading import plain, read_yaml

FIXTURES = Path(__file__).parents[2] / "fixtures"
WHOLE = sorted(FIXTURES.rglob("*.yaml"))
PLAN = FIXTURES / "turning-cell-side-post.yaml"
Tree = dict[str, Any]

SMALL = b"""\
# The head.
job:
  reference: K-1   # as on the order
  stage: plan

# What holds it.
mount:
  kind: side-post
  post:
    # measured twice
    wall: {is: 3 mm, origin: measured}   # calliper
    free_length: 1.8 m
host:
  enclosure:
    openings:
      # the front
      - name: door seam      # both leaves
        width: 4 mm
        length: 2.6 m

      - {name: conveyor mouth, width: 110 mm, length: 0.36 m}
      # the last one
      - name: cable slot
        width: 20 mm
# The end.
"""


def saved(data: bytes, tree: Tree, checker: Any, name: str = "a.yaml") -> str:
    done = put_into(data, tree, checker.rulebook.layout.root, name)
    assert done.left_out == ()
    return done.text


def changes(before: bytes, after: str) -> list[str]:
    lines = difflib.unified_diff(before.decode().splitlines(), after.splitlines(), lineterm="", n=0)
    return [line for line in lines if line[:1] in "+-" and line[:3] not in ("+++", "---")]


@pytest.mark.parametrize("path", WHOLE, ids=lambda p: p.stem)
def test_what_is_not_changed_is_saved_byte_for_byte(path: Path, checker: Any, tree_of: Callable[[bytes], Tree]) -> None:  # fmt: skip
    data = path.read_bytes()
    assert saved(data, tree_of(data), checker).encode() == data


def test_a_value_changes_its_own_line_only(checker: Any, tree_of: Callable[[bytes], Tree]) -> None:
    tree = tree_of(SMALL)
    tree["job"]["reference"] = "K-2: the second"
    tree["mount"]["post"]["wall"] = {"is": "4 mm", "origin": "nameplate"}
    tree["host"]["enclosure"]["openings"][1]["width"] = "90 mm"
    assert changes(SMALL, saved(SMALL, tree, checker)) == [
        "-  reference: K-1   # as on the order",
        '+  reference: "K-2: the second"   # as on the order',
        "-    wall: {is: 3 mm, origin: measured}   # calliper",
        "+    wall: {is: 4 mm, origin: nameplate}   # calliper",
        "-      - {name: conveyor mouth, width: 110 mm, length: 0.36 m}",
        "+      - {name: conveyor mouth, width: 90 mm, length: 0.36 m}",
    ]


def test_new_fields_and_sections_go_where_they_belong(checker: Any, tree_of: Callable[[bytes], Tree]) -> None:  # fmt: skip
    tree = tree_of(SMALL)
    tree["job"]["title"] = "A title"
    tree["collector"] = {
        "mass": "42 kg",
        "motor": {"speed": {"is": "2850 rpm", "origin": "nameplate"}},
    }
    after = saved(SMALL, tree, checker)
    assert [line for line in changes(SMALL, after) if line.startswith("-")] == []
    assert "  stage: plan\n  title: A title\n\n# What holds it." in after
    assert plain(read_yaml(after.encode(), ""))["collector"] == tree["collector"]


def test_what_is_taken_back_leaves_its_name_and_its_comment(checker: Any, tree_of: Callable[[bytes], Tree]) -> None:  # fmt: skip
    tree = tree_of(SMALL)
    del tree["job"]["reference"], tree["mount"]["post"]["wall"]
    after = saved(SMALL, tree, checker)
    assert "  reference:   # as on the order\n" in after
    assert "    # measured twice\n    wall:   # calliper\n" in after


@pytest.mark.parametrize("order", [[2, 1, 0], [1, 0, 2], [2, 0], [1], [0, 2], [], [1, "new", 0], ["new"], [0, 1, 2, "new"]], ids=str)  # fmt: skip
def test_members_are_ordered_taken_out_and_put_in_with_their_comments(order: list[Any], checker: Any, tree_of: Callable[[bytes], Tree]) -> None:  # fmt: skip
    tree = tree_of(SMALL)
    openings = tree["host"]["enclosure"]["openings"]
    new = {"name": "new one", "width": "7 mm", "sprayed": True}
    tree["host"]["enclosure"]["openings"] = [copy.deepcopy(new if i == "new" else openings[i]) for i in order]  # fmt: skip
    after = saved(SMALL, tree, checker)
    read = plain(read_yaml(after.encode(), ""))["host"]["enclosure"]["openings"]
    wanted = [{k: v for k, v in m.items() if k != PLACE} for m in tree["host"]["enclosure"]["openings"]]  # fmt: skip
    assert read == wanted
    for member, comments in ((0, ("# the front\n", "# both leaves\n")), (2, ("# the last one\n",))):
        for comment in comments:
            if member in order:
                assert comment in after
    if 0 in order:
        assert "# the front\n      - name: door seam      # both leaves\n" in after
    if 2 in order:
        assert "# the last one\n      - name: cable slot\n" in after
    assert after.startswith("# The head.\n")
    assert after.endswith("# The end.\n")
    assert "# What holds it.\n" in after


def test_order_and_change_at_once(checker: Any, tree_of: Callable[[bytes], Tree]) -> None:
    tree = tree_of(PLAN.read_bytes())
    parts = tree["duct"]["parts"]
    parts.insert(0, parts.pop())
    parts[0]["diameter"] = "210 mm"
    parts.append({"name": "added", "kind": "straight", "length": "1 m"})
    tree["collector"]["mass"] = "51 kg"
    after = saved(PLAN.read_bytes(), tree, checker)
    assert len(changes(PLAN.read_bytes(), after)) <= 8
    assert shown(read_yaml(after.encode(), ""), checker.rulebook.layout.root)["duct"]["parts"][0]["diameter"] == "210 mm"  # fmt: skip


@pytest.mark.parametrize(
    "text",
    [
        SMALL.replace(b"\n", b"\r\n"),
        b"job: {stage: plan, reference: K-1}   # all on one line\nmount: {kind: side-post, post: {wall: 3 mm}}\n",
        b"job:\n    stage: plan\n    reference: |\n        K-1\nmount:\n    kind: side-post\n    post:\n        wall:\n            is: 3 mm   # by hand\n            origin: measured\n",
        b'job:\n  "stage": plan\n  reference: "K-1"   # quoted\nmount: {kind: side-post}\n# the end',
        b'{"job": {"stage": "plan", "reference": "K-1"},\n "mount": {"kind": "side-post"}}\n',
        b"job:\n  stage: plan\n  reference: >-\n    K-1\n    folded\nmount: {kind: side-post}\nhost:\n  enclosure:\n    openings:\n    - name: at the margin\n      width: 4 mm\n    - {name: second}\n",
        b"job:\n  stage: plan\n  reference:\nmount:\n  kind: side-post\nhost:\n",
        b"job:\n  stage: plan\nmount:\n  kind: side-post\nhost:\n  enclosure:\n    openings:\n      -\n      - name:\n",
    ],
    ids=["CRLF", "brackets", "blocks", "quotes", "as JSON", "folded", "empty", "bare dashes"],
)
def test_however_it_is_laid_out(text: bytes, checker: Any, tree_of: Callable[[bytes], Tree]) -> None:  # fmt: skip
    tree = tree_of(text)
    tree["job"]["reference"] = "K-9"
    tree["mount"].setdefault("post", {})["wall"] = "5 mm ± 0.1 mm"
    tree.setdefault("host", {}).setdefault("enclosure", {}).setdefault("openings", []).append({"name": "x", "width": "1 mm"})  # fmt: skip
    tree["host"]["enclosure"]["openings"].reverse()
    after = saved(text, tree, checker)
    again = tree_of(after.encode())
    assert again["job"]["reference"] == "K-9"
    assert again["mount"]["post"]["wall"] == "5 mm ± 0.1 mm"
    assert again["host"]["enclosure"]["openings"][0]["name"] == "x"
    for comment in (
        "# all on one line",
        "# by hand",
        "# the end",
        "# What holds it.",
        "# the front",
    ):
        # The comment on a value that was replaced as a whole may go with it.
        if comment.encode() in text and comment != "# by hand":
            assert comment in after


def test_a_json_description_stays_json(checker: Any, tree_of: Callable[[bytes], Tree]) -> None:
    import json  # noqa: PLC0415

    data = b'{"job": {"stage": "plan"}, "mount": {"kind": "side-post"}}'
    tree = tree_of(data)
    tree["collector"] = {"mass": "42 kg", "blades": "11"}
    read = json.loads(saved(data, tree, checker, "a.json"))
    assert read == {"job": {"stage": "plan"}, "mount": {"kind": "side-post"}, "collector": {"mass": "42 kg", "blades": 11}}  # fmt: skip


def test_what_no_file_can_hold_is_left_as_it_was_and_named(checker: Any, tree_of: Callable[[bytes], Tree]) -> None:  # fmt: skip
    tree = tree_of(SMALL)
    tree["job"]["reference"] = "K\u200b-2"
    tree["job"]["title"] = "kept"
    done = put_into(SMALL, tree, checker.rulebook.layout.root, "a.yaml")
    assert done.left_out == ("job.reference",)
    assert "reference: K-1 " in done.text
    assert "title: kept" in done.text


def test_a_wrong_unit_is_saved_as_it_was_typed(checker: Any, tree_of: Callable[[bytes], Tree]) -> None:  # fmt: skip
    tree = tree_of(SMALL)
    tree["mount"]["post"]["free_length"] = "180 cn"
    assert "free_length: 180 cn\n" in saved(SMALL, tree, checker)


def test_unknown_names_stay_until_they_are_taken_out(checker: Any, tree_of: Callable[[bytes], Tree]) -> None:  # fmt: skip
    data = SMALL.replace(b"  kind: side-post\n", b"  kind: side-post\n  knd: [1, 2]   # a slip\n")
    tree = tree_of(data)
    assert saved(data, tree, checker).encode() == data
    del tree["mount"]["knd"]
    after = saved(data, tree, checker)
    assert "knd" not in after
    assert "# measured twice" in after


def _random_edits(path: Path, rounds: int, checker: Any, tree_of: Callable[[bytes], Tree], mangle: Callable[[Tree, random.Random], None]) -> None:  # fmt: skip
    chance = random.Random(f"save {path.name}")
    data = path.read_bytes()
    comments = [line.strip() for line in data.decode().splitlines() if line.startswith("#")]
    for _ in range(rounds):
        tree = tree_of(data)
        for _ in range(chance.randrange(1, 4)):
            mangle(tree, chance)
        text = put_into(data, tree, checker.rulebook.layout.root, "a.yaml").text
        for comment in comments:
            assert comment in text
        # Saving what was read back changes nothing.
        assert saved(text.encode(), tree_of(text.encode()), checker) == text
        data = text.encode()


@pytest.mark.slow
@pytest.mark.parametrize("path", [PLAN, FIXTURES / "wall-bracket-old-lathe.yaml"], ids=lambda p: p.stem)  # fmt: skip
def test_many_changes_one_after_the_other(path: Path, checker: Any, tree_of: Callable[[bytes], Tree], mangle: Callable[[Tree, random.Random], None]) -> None:  # fmt: skip
    _random_edits(path, 15, checker, tree_of, mangle)
