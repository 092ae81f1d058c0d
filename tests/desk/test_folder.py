"""Opened, saved, begun: one file, several windows, whole or not at all."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Any

import pytest

PLAN = "turning-cell-side-post.yaml"
SITE = "turning-cell-side-post.fitted.yaml"


def edited(client: Any, name: str, value: str) -> tuple[dict[str, Any], Any]:
    opened = client.post("open", {"name": name}).told
    opened["tree"]["job"]["title"] = value
    answer = client.post("save", {"name": name, "tree": opened["tree"], "etag": opened["etag"]})
    return opened, answer


def test_the_second_save_is_told_and_nothing_is_lost(client: Any) -> None:
    name = client.put(PLAN)
    mine = client.post("open", {"name": name}).told
    _, first = edited(client, name, "Theirs")
    assert first.status == 200
    theirs = (client.root / name).read_bytes()
    mine["tree"]["job"]["title"] = "Mine"
    mine["tree"]["duct"]["parts"].reverse()
    second = client.post("save", {"name": name, "tree": mine["tree"], "etag": mine["etag"]})
    assert second.status == 409
    assert (client.root / name).read_bytes() == theirs
    # Kept in a new file, it is put into the text that it was read from.
    kept = client.post("save", {"name": name, "tree": mine["tree"], "etag": mine["etag"], "into": "mine.yaml"})  # fmt: skip
    assert kept.status == 200
    text = (client.root / "mine.yaml").read_text(encoding="utf-8")
    assert "title: Mine" in text
    assert "Theirs" not in text
    again = client.post("save", {"name": name, "tree": mine["tree"], "etag": mine["etag"], "into": "mine.yaml"})  # fmt: skip
    assert again.status == 409


def test_a_save_after_the_file_was_changed_by_an_editor_is_told(client: Any) -> None:
    name = client.put(PLAN)
    opened = client.post("open", {"name": name}).told
    path = client.root / name
    path.write_text(path.read_text(encoding="utf-8") + "# by an editor\n", encoding="utf-8")
    assert client.post("save", {"name": name, "tree": opened["tree"], "etag": opened["etag"]}).status == 409  # fmt: skip
    path.unlink()
    assert client.post("save", {"name": name, "tree": opened["tree"], "etag": opened["etag"]}).status == 422  # fmt: skip
    assert not path.exists()


def test_saves_one_after_the_other_go_on_from_each_other(client: Any) -> None:
    name = client.put(PLAN)
    opened = client.post("open", {"name": name}).told
    etag = opened["etag"]
    for value in ("One", "Two", "Three"):
        opened["tree"]["job"]["title"] = value
        answer = client.post("save", {"name": name, "tree": opened["tree"], "etag": etag})
        assert answer.status == 200
        etag = answer.told["etag"]
    assert "title: Three" in (client.root / name).read_text(encoding="utf-8")


def test_it_is_written_whole_or_not_at_all(client: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    name = client.put(PLAN)
    before = (client.root / name).read_bytes()

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    _, answer = edited(client, name, "Never there")
    assert answer.status == 422
    assert "No space left" in answer.told["text"]
    assert (client.root / name).read_bytes() == before
    assert [p.name for p in client.root.iterdir()] == [name]


def test_a_link_inside_the_folder_stays_a_link(client: Any) -> None:
    name = client.put(PLAN)
    (client.root / "link.yaml").symlink_to(name)
    _, answer = edited(client, "link.yaml", "By the link")
    assert answer.status == 200
    assert (client.root / "link.yaml").is_symlink()
    assert "By the link" in (client.root / name).read_text(encoding="utf-8")


def test_a_new_job_is_begun_once(client: Any) -> None:
    body = {"name": "k-1", "kind": "wall-bracket", "stage": "plan", "jurisdiction": "GB"}
    answer = client.post("new", body)
    assert answer.told["name"] == "k-1.yaml"
    text = (client.root / "k-1.yaml").read_text(encoding="utf-8")
    assert "kind: wall-bracket" in text
    assert "jurisdiction: GB" in text
    again = client.post("new", body)
    assert again.status == 422
    assert "already" in again.told["text"]
    assert client.post("new", {**body, "name": "k-2", "kind": "no-such"}).status == 422
    assert client.post("new", {**body, "name": "no/such/folder/k-3"}).status == 422
    assert sorted(p.name for p in client.root.iterdir()) == ["k-1.yaml"]


def test_what_is_found_on_site_goes_into_its_own_file(client: Any) -> None:
    client.put(PLAN)
    plan = (client.root / PLAN).read_bytes()
    assert client.post("open", {"name": PLAN}).told["site"] is None
    made = client.post("fit", {"name": PLAN}).told
    assert made["name"] == SITE
    assert client.post("fit", {"name": PLAN}).status == 422
    opened = client.post("open", {"name": PLAN}).told
    site = opened["site"]
    tree = site["tree"]
    tree.setdefault("collector", {})["mass"] = {"is": "47 kg", "origin": "measured"}
    parts = [{} for _ in opened["tree"]["duct"]["parts"]]
    parts[2] = {"diameter": "182 mm"}
    parts.append({"name": "a bend more", "kind": "bend"})
    tree["duct"] = {"parts": parts}
    done = client.post("save", {"name": SITE, "tree": tree, "etag": site["etag"], "plan": opened["tree"]})  # fmt: skip
    assert done.status == 200
    text = (client.root / SITE).read_text(encoding="utf-8")
    third = opened["tree"]["duct"]["parts"][2]["name"]
    assert text.count("- ") == 2
    assert f"name: {third}" in text
    assert "diameter: 182 mm" in text
    assert "a bend more" in text
    assert (client.root / PLAN).read_bytes() == plan
    # Opened again the members stand beside the plan's.
    again = client.post("open", {"name": PLAN}).told["site"]["tree"]["duct"]["parts"]
    assert again[2]["diameter"] == "182 mm"
    assert again[-1]["name"] == "a bend more"
    assert again[0] == {}
    assert done.told["places"]["duct"]["parts"] == again


def test_jobs_are_listed_with_the_verdicts_of_the_command_line(client: Any, checker: Any) -> None:
    import json  # noqa: PLC0415

    client.put(PLAN, f"hall-b/{PLAN}")
    client.put(f"fitted/{SITE}", f"hall-b/{SITE}")
    client.put("wall-bracket-old-lathe.yaml")
    (client.root / "broken.yaml").write_text("job: {stage: plan}\nmount: {knd: x}\n")
    (client.root / "no.yaml").write_text(": : :\n")
    (client.root / "outside.yaml").symlink_to("/etc/hostname")
    (client.root / "README.md").write_text("x")
    lines = [json.loads(line) for line in client.get("api/jobs").body.splitlines()]
    names = [one["name"] for one in lines[0]["names"]]
    assert names == ["broken.yaml", "no.yaml", "wall-bracket-old-lathe.yaml", f"hall-b/{PLAN}"]
    told = {one["name"]: one for one in lines[1:]}
    assert list(told) == names
    lathe = checker.report(str(client.root / "wall-bracket-old-lathe.yaml"), working=False)
    assert (told["wall-bracket-old-lathe.yaml"]["verdict"], told["wall-bracket-old-lathe.yaml"]["counts"]) == (lathe.verdict.value, lathe.counts)  # fmt: skip
    cell = checker.report(str(client.root / "hall-b" / PLAN), str(client.root / "hall-b" / SITE), working=False)  # fmt: skip
    assert (told[f"hall-b/{PLAN}"]["verdict"], told[f"hall-b/{PLAN}"]["counts"]) == (cell.verdict.value, cell.counts)  # fmt: skip
    assert "mistake" in told["broken.yaml"]
    assert "mistake" in told["no.yaml"]


def test_report_and_sheet_are_those_of_the_command_line(client: Any, checker: Any) -> None:
    from checker.output.sheet_html import render as draw_sheet  # noqa: PLC0415

    name = client.put(PLAN)
    page = client.get(f"report?name={name}")
    assert page.status == 200
    assert b"K-2047" in page.body
    assert b"<script" not in page.body
    printed = client.get(f"sheet?name={name}").body.decode()
    assert printed == draw_sheet(checker.sheet(str(client.root / name))).replace(str(client.root / name), name)  # fmt: skip
    (client.root / "no.yaml").write_text("job: {stage: plan}\n")
    assert client.get("report?name=no.yaml").status == 422


def test_a_description_that_is_no_yaml_is_told_with_its_place(client: Any) -> None:
    (client.root / "no.yaml").write_text("job:\n  stage: plan\n  stage: plan\n")
    answer = client.post("open", {"name": "no.yaml"})
    assert answer.status == 422
    assert "no.yaml:3:3: 'stage' stands here a second time" in answer.told["text"]
    (client.root / "list.yaml").write_text("- a\n")
    assert client.post("open", {"name": "list.yaml"}).status == 422


def test_the_form_has_every_field_and_says_who_reads_it(client: Any, checker: Any) -> None:
    told = client.get("api/form").told
    mass = told["fields"]["children"]["collector"]["children"]["mass"]
    assert mass["units"][0] == "kg"
    assert mass["where"]
    assert mass["usual"]
    assert "load/host-capacity" in mass["rules"]
    assert all(rule in told["rules"] for rule in mass["rules"])

    def count(spec: dict[str, Any]) -> int:
        if "children" in spec:
            return sum(count(c) for c in spec["children"].values())
        return 1 + (count(spec["item"]) if "item" in spec else 0)

    assert count(told["fields"]) == len(list(checker.rulebook.layout.walk()))


def test_where_nobody_installed_it_one_plain_message(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:  # fmt: skip
    import sys  # noqa: PLC0415

    from click.testing import CliRunner  # noqa: PLC0415

    from checker.commands.desk import command  # noqa: PLC0415

    for name in [m for m in sys.modules if m.startswith("checker.desk")]:
        monkeypatch.delitem(sys.modules, name)
    monkeypatch.setitem(sys.modules, "uvicorn", None)
    run = CliRunner().invoke(command, [str(tmp_path), "--no-open"])
    assert run.exit_code == 2
    assert "pip install 'mistwright[desk]'" in run.output
    assert "Traceback" not in run.output


def test_a_folder_that_is_not_there_is_told(tmp_path: Path) -> None:
    from click.testing import CliRunner  # noqa: PLC0415

    from checker.commands.desk import command  # noqa: PLC0415

    run = CliRunner().invoke(command, [str(tmp_path / "none"), "--no-open"])
    assert run.exit_code == 3
    assert "there is no such folder" in run.output


def test_a_port_in_use_is_told(client: Any, tmp_path: Path) -> None:
    from click.testing import CliRunner  # noqa: PLC0415

    from checker.commands.desk import command  # noqa: PLC0415

    run = CliRunner().invoke(command, [str(tmp_path), "--no-open", "--port", str(client.desk.port)])
    assert run.exit_code == 3
    assert "the port cannot be used" in run.output
