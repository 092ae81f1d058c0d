"""A plan and what was found on site, merged field by field.

The site's file holds only what was measured or changed. Members of a list are
matched by the field that names them (the first text of the item: ``at``, ``name``,
``role``); one that the plan does not have is added. Every value keeps the file and
the line it was read from.
"""

from __future__ import annotations

import hashlib
from typing import Any, NamedTuple

from checker.errors import Mistake, Mistakes
from checker.installation.binding import bind_node
from checker.installation.fields import Field, Layout, Section
from checker.installation.record import Installation
from checker.installation.schema import installation_layout
from checker.reading import Mark, Node, place_of, read_yaml

__all__ = ["SiteMark", "merge", "merge_nodes"]


class SiteMark(NamedTuple):
    """A mark in the site's file; it carries the file's name along."""

    line: int
    column: int
    file: str


def merge(plan: bytes, plan_name: str, site: bytes, site_name: str) -> Installation:
    """The installation as planned, with the site's values over it, at stage ``fitted``.

    Raises Mistakes for either file, and for a list member of the site's file that has no name.
    """
    layout = installation_layout()
    over = _marked(read_yaml(site, site_name), site_name)
    merged = merge_nodes(read_yaml(plan, plan_name), over, layout, site_name)
    record = bind_node(merged, layout, plan_name)
    digest = hashlib.sha256(
        hashlib.sha256(plan).digest() + hashlib.sha256(site).digest()
    ).hexdigest()
    return Installation(record, plan_name, digest)


def merge_nodes(under: Node, over: Node, layout: Layout, site_name: str) -> Node:
    """A plan's node with the site's over it, at stage ``fitted``.

    Raises Mistakes where the site's is no group of fields or has a member without a name.
    """
    if not isinstance(over[0], dict):
        raise Mistakes(
            [
                Mistake(
                    "the site's file is not a group of fields",
                    place_of(over[1], site_name),
                    expected="the fields that were measured or changed",
                )
            ]
        )
    merged = _section(under, over, layout.root, layout, site_name)
    job = merged[0].get("job")
    if (
        job is not None
        and isinstance(job[1][0], dict)
        and "stage" not in (over[0].get("job", (None, ({}, None)))[1][0] or ())
    ):
        job[1][0]["stage"] = (over[1], ("fitted", over[1]))
    return merged


def _section(under: Node, over: Node, section: Section, layout: Layout, name: str) -> Node:
    if not (isinstance(under[0], dict) and isinstance(over[0], dict)):
        return over
    merged = dict(under[0])
    for key, (mark, node) in over[0].items():
        below = merged.get(key)
        target = section.children.get(key)
        if below is None or target is None:
            merged[key] = (mark, node)
        elif isinstance(target, Section):
            merged[key] = (mark, _section(below[1], node, target, layout, name))
        elif (
            target.item is not None and isinstance(node[0], list) and isinstance(below[1][0], list)
        ):
            merged[key] = (mark, _list(below[1], node, target, name))
        elif node[0] is not None:
            merged[key] = (mark, node)
    return merged, under[1]


def _list(under: Node, over: Node, field: Field, name: str) -> Node:
    layout = field.item
    assert layout is not None  # noqa: S101 - only lists come here
    naming = next(
        (
            f.name
            for f in layout.fields
            if f.type == "text" and "." not in f.path.rpartition("[].")[2]
        ),
        None,
    )
    members = list(under[0])
    for member in over[0]:
        label = _name_of(member, naming)
        if label is None:
            raise Mistakes(
                [
                    Mistake(
                        f"an item of {field.path} that has no name",
                        place_of(member[1], name),
                        expected=f"'{naming}:' as in the plan, to know which one it is",
                    )
                ]
            )
        for i, planned in enumerate(members):
            if _name_of(planned, naming) == label:
                members[i] = _section(planned, member, layout.root, layout, name)
                break
        else:
            members.append(member)
    return members, under[1]


def _name_of(member: Node, naming: str | None) -> Any:
    if naming is None or not isinstance(member[0], dict) or naming not in member[0]:
        return None
    return member[0][naming][1][0]


def _marked(node: Node, name: str) -> Node:
    value, mark = node
    if isinstance(value, dict):
        return {k: (_mark(m, name), _marked(n, name)) for k, (m, n) in value.items()}, _mark(
            mark, name
        )
    if isinstance(value, list):
        return [_marked(n, name) for n in value], _mark(mark, name)
    return value, _mark(mark, name)


def _mark(mark: Mark, name: str) -> SiteMark:
    return SiteMark(mark.line, mark.column, name)
