"""What stands where a file of the rules should, and the names of rules and overlays."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from attacks import command
from campaign import told_well
from mutations import ROOT
from test_bad_yaml import BOMB, HEAD

from checker.errors import Mistakes
from checker.rulebook.loading import load_rulebook
from checker.rulebook.overlays import find_overlay


def _rules(folder: Path) -> Path:
    shutil.copytree(ROOT / "tests" / "data" / "bench", folder / "rules")
    return folder / "rules"


RULE_FILES: list[tuple[str, Callable[[Path], None], str]] = [
    ("a folder", lambda at: at.mkdir(), "this is a folder"),
    ("a pipe", os.mkfifo, "this is not a file"),
    ("a link to nothing", lambda at: at.symlink_to("nowhere"), "there is no such file"),
    ("a link to a device", lambda at: at.symlink_to("/dev/zero"), "this is not a file"),
    ("nothing", lambda at: at.write_bytes(b""), "the file is empty"),
    ("a picture", lambda at: at.write_bytes(b"\x89PNG\r\n\x1a\n\0"), "the file is not UTF-8 text"),
    ("a bomb", lambda at: at.write_text(BOMB), "an anchor"),
]


@pytest.mark.parametrize(
    ("make", "what"), [c[1:] for c in RULE_FILES], ids=[c[0] for c in RULE_FILES]
)
@pytest.mark.parametrize("place", ["load/x.yaml", "tables/x.yaml", "derived/x.yaml", "sources/x.yaml"])  # fmt: skip
def test_in_the_place_of_a_file_of_the_rules(
    make: Callable[[Path], None], what: str, place: str, tmp_path: Path
) -> None:
    rules = _rules(tmp_path)
    (rules / place).parent.mkdir(exist_ok=True)
    make(rules / place)
    with pytest.raises(Mistakes, match=what) as caught:
        load_rulebook([rules], shipped=False)
    told_well(str(caught.value))


@pytest.mark.parametrize("name", ["\x1b[2J.yaml", "a\nb.yaml", os.fsdecode(b"\xff.yaml"), "\u202ea.yaml"], ids=ascii)  # fmt: skip
@pytest.mark.parametrize("place", ["load", "tables", "derived", "local/x"])
def test_a_name_of_a_rule_that_cannot_be_shown(name: str, place: str, tmp_path: Path) -> None:
    """A rule's name is printed in every finding: it is refused where it cannot be."""
    rules = _rules(tmp_path)
    (rules / place).mkdir(exist_ok=True, parents=True)
    shutil.copy(rules / "load" / "capacity.yaml", rules / place / name)
    with pytest.raises(Mistakes, match="a file's name with a character that cannot") as caught:
        load_rulebook([rules], shipped=False)
    told_well(str(caught.value))


def test_a_spoilt_rulebook_stops_the_command(tmp_path: Path) -> None:
    rules = _rules(tmp_path)
    (rules / "load" / "x.yaml").write_bytes(b"\x89PNG\r\n\x1a\n\0")
    (tmp_path / "plan.yaml").write_text(HEAD, encoding="utf-8")
    left = command("check", tmp_path / "plan.yaml", "--rules", rules)
    assert left.status == 3
    assert "x.yaml:1:1: the file is not UTF-8 text" in left.err


def test_an_overlay_that_would_walk_out_of_its_folder(tmp_path: Path) -> None:
    (tmp_path / "outside.yaml").write_text("title: x\n", encoding="utf-8")
    rules = tmp_path / "rules"
    (rules / "local").mkdir(parents=True)
    (rules / "local" / "GB.yaml").write_text("title: x\n", encoding="utf-8")
    assert find_overlay("GB", [rules]).name == "GB"
    for name in ("../../outside", "/etc/passwd", "..", ".", "", "GB/../GB", "GB\0", "x" * 5000, "*", "GB.yaml"):  # fmt: skip
        with pytest.raises(Mistakes, match="there is no local overlay") as caught:
            find_overlay(name, [rules])
        assert max(map(len, str(caught.value).split("\n"))) < 200


@pytest.mark.parametrize("name", ["../GB", "/etc/passwd", "x" * 4000, "..", "GB.yaml", "*"], ids=lambda n: n[:12])  # fmt: skip
def test_an_overlay_named_by_a_description(name: str) -> None:
    left = command("check", "-", stdin=HEAD.replace("plan,", f"plan, local: '{name}',").encode())
    assert left.status == 3
    assert "there is no local overlay" in left.err
    told_well(left.err)
