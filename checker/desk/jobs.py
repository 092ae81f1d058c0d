"""The folder's jobs: listed with their verdicts, opened, saved, begun, printed."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from pathlib import PurePosixPath
from typing import Any

from checker.absent import Absent
from checker.asking.beginning import drawn
from checker.checking.judging import judge
from checker.desk.fitted import beside, nameless, without_plan
from checker.desk.folder import ChangedMeanwhile, Folder, Listed, site_name
from checker.desk.saving import put_into
from checker.desk.typed import shown
from checker.errors import Mistakes, Place, fault
from checker.grades import Grade
from checker.installation.binding import bind
from checker.installation.merging import merge
from checker.installation.record import Installation
from checker.output.html import render as draw_report
from checker.output.sheet_html import render as draw_sheet
from checker.reading import plain, read_yaml
from checker.reporting.fitting_sheet import sheet_for
from checker.reporting.reports import report_on
from checker.running import Checker

__all__ = ["Jobs"]

_SITE_HEAD = (
    "# What was measured or changed on site, over the plan {plan}.\n\njob:\n  stage: fitted\n"
)


class Jobs:
    """The descriptions of one folder, checked by one checker."""

    def __init__(self, folder: Folder, checker: Checker) -> None:
        self.folder = folder
        self.checker = checker
        self._known: dict[str, dict[str, Any]] = {}

    def about(self) -> dict[str, str]:
        """The folder's name, and what tells it from another in the browser's own store."""
        root = str(self.folder.root).encode("utf-8", "surrogateescape")
        return {"name": self.folder.root.name or "/", "key": hashlib.sha256(root).hexdigest()[:16]}

    def listed(self) -> Iterator[dict[str, Any]]:
        """First every name, so that the list shows at once, then each job with its verdict."""
        found = self.folder.listed()
        yield {"names": [{"name": one.name, "fitted": one.fitted} for one in found]}
        for one in found:
            yield self._told(one)

    def opened(self, name: str) -> dict[str, Any]:
        """The values of a description as the page holds them, and those found on site beside them."""
        version = self.folder.read(name)
        root = self.checker.rulebook.layout.root
        tree = shown(read_yaml(version.data, name), root)
        if not isinstance(tree, dict):
            fault("this is not a group of fields", Place(name), expected="fields such as 'job:' and 'collector:'")  # fmt: skip
        told = {"name": name, "tree": tree, "etag": version.digest, "site": None, "may_fit": False}
        site = site_name(name)
        if name == site or PurePosixPath(name).stem.endswith(".fitted"):
            return told
        told["may_fit"] = True
        try:
            found = self.folder.read(site)
        except Mistakes:
            if self.folder.path_of(site).exists():
                raise
            return told
        over = shown(read_yaml(found.data, site), root)
        told["site"] = {
            "name": site, "etag": found.digest, "tree": beside(over, tree, root), "nameless": nameless(tree, root),
        }  # fmt: skip
        return told

    def saved(self, name: str, tree: Any, etag: str, *, plan: Any = None, into: Any = None) -> dict[str, Any]:  # fmt: skip
        """Put a tree into a file, or into a new one beside it.

        etag: the version that the tree was read from. plan: the plan's tree, where the tree
        is what was found on site. into: the new file's name.
        Raises ChangedMeanwhile where the file is no longer that version.
        """
        root = self.checker.rulebook.layout.root
        tree = tree if plan is None else without_plan(tree, plan, root)
        self.folder.path_of(into if isinstance(into, str) else name)
        with self.folder.lock:
            base = self.folder.served(etag)
            if isinstance(into, str):
                if base is None:
                    base = self.folder.read(name).data
                target, instead_of = into, None
            else:
                if self.folder.read(name).digest != etag:
                    raise ChangedMeanwhile
                base = base or self.folder.read(name).data
                target, instead_of = name, etag
            done = put_into(base, tree, root, name)
            if instead_of is not None and done.text.encode("utf-8") == base:
                return {"name": target, "etag": etag, "left_out": list(done.left_out)}
            version = self.folder.write(target, done.text, instead_of)
        told = {"name": target, "etag": version.digest, "left_out": list(done.left_out)}
        if plan is not None:
            # Where the members now stand in the site's file, which has fewer than the page.
            told["places"] = beside(shown(read_yaml(version.data, target), root), plan, root)
        return told

    def begun(self, name: str, kind: str, stage: str, jurisdiction: str) -> dict[str, Any]:
        """A new description for a kind of mount."""
        if not name.endswith((".yaml", ".yml")):
            name += ".yaml"
        path = self.folder.path_of(name)
        text = drawn(self.checker, kind, stage, jurisdiction or None, path)
        return {"name": name, "etag": self._made(name, text)}

    def fitting(self, name: str) -> dict[str, Any]:
        """A new file for what is found on site for a plan."""
        self.folder.read(name)
        site = site_name(name)
        return {"name": site, "etag": self._made(site, _SITE_HEAD.format(plan=PurePosixPath(name).name))}  # fmt: skip

    def _made(self, name: str, text: str) -> str:
        try:
            return self.folder.write(name, text, None).digest
        except ChangedMeanwhile:
            fault("there is a file of that name already", Place(name), hint="choose another name")

    def report(self, name: str, fitted: bool) -> str:
        """The report on what is saved, as a page."""
        installation, plan = self._read(name, fitted)
        return draw_report(report_on(self.checker.rulebook_for(installation), installation, plan))

    def sheet(self, name: str, fitted: bool) -> str:
        """The fitting sheet of what is saved, as a page."""
        installation, _ = self._read(name, fitted)
        return draw_sheet(sheet_for(self.checker.rulebook_for(installation), installation))

    def _read(self, name: str, fitted: bool) -> tuple[Installation, Installation | None]:
        data = self.folder.read(name).data
        if not fitted:
            return bind(data, name), None
        site = site_name(name)
        return merge(data, name, self.folder.read(site).data, site), bind(data, name)

    def _told(self, one: Listed) -> dict[str, Any]:
        """A job's verdict; what was found for the same bytes before is not worked out again."""
        told: dict[str, Any] = {"name": one.name, "fitted": one.fitted}
        try:
            data = self.folder.read(one.name).data
            site = None if one.fitted is None else self.folder.read(one.fitted).data
        except Mistakes as error:
            return {**told, "mistake": error.mistakes[0].what}
        key = hashlib.sha256(b"\0".join([one.name.encode(), data, site or b""])).hexdigest()
        if key not in self._known:
            self._known[key] = self._judged(one, data, site)
        return {**told, **self._known[key]}

    def _judged(self, one: Listed, data: bytes, site: bytes | None) -> dict[str, Any]:
        try:
            plan = bind(data, one.name)
            installation = plan if site is None else merge(data, one.name, site, one.fitted or "")
            judged = judge(self.checker.rulebook_for(installation), installation, None if site is None else plan)  # fmt: skip
        except Mistakes as error:
            said = {} if PurePosixPath(one.name).stem.endswith(".fitted") else _said(data, one.name)
            return {**said, "mistake": f"{len(error.mistakes)} cannot be read: {error.mistakes[0].what}"}  # fmt: skip
        return {
            **{key: _stated(installation, path) for key, path in _HEAD.items()},
            "verdict": judged.verdict.value,
            "counts": {g.word: judged.counts[g] for g in Grade},
        }


_HEAD = {"reference": "job.reference", "title": "job.title", "site": "job.site", "stage": "job.stage", "kind": "mount.kind"}  # fmt: skip


def _stated(installation: Installation, path: str) -> str:
    value = installation.value(path)
    return "" if isinstance(value, Absent) else str(value)


def _said(data: bytes, name: str) -> dict[str, str]:
    """What a description that cannot be bound says of itself all the same."""
    try:
        tree = plain(read_yaml(data, name))
    except Mistakes:
        return {}
    said = {}
    for key, path in _HEAD.items():
        section, _, field = path.partition(".")
        below = tree.get(section) if isinstance(tree, dict) else None
        value = below.get(field) if isinstance(below, dict) else None
        if isinstance(value, str):
            said[key] = value
    return said
