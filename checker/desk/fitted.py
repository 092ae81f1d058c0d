"""A plan and what was found on site, side by side: the same member at the same place in both.

The site's file holds only what was measured or changed, and names the members of lists. On
the page each list of it has the plan's members in the plan's order, then those that only the
site has, so that one path leads to the planned value and to the measured one.
"""

from __future__ import annotations

from typing import Any

from checker.asking.starting import naming_field
from checker.installation.fields import Field, Section

__all__ = ["beside", "nameless", "without_plan"]


def beside(site: Any, plan: Any, section: Section) -> Any:
    """The site's tree with its lists laid beside the plan's."""
    if not isinstance(site, dict):
        return site
    planned = plan if isinstance(plan, dict) else {}
    found: dict[str, Any] = dict(site)
    for key, target in section.children.items():
        there = planned.get(key)
        if isinstance(target, Section):
            below = beside(site.get(key, {}), there, target)
            if below:
                found[key] = below
        elif target.item is not None and isinstance(site.get(key, []), list):
            members = _beside(site.get(key, []), there if isinstance(there, list) else [], target)
            if members or key in site:
                found[key] = members
    return found


def without_plan(site: Any, plan: Any, section: Section) -> Any:
    """The site's tree with nothing (None) for the plan's members of which it says nothing.

    Those of which it does say something carry the name that the plan gives them.
    """
    if not isinstance(site, dict):
        return site
    planned = plan if isinstance(plan, dict) else {}
    found: dict[str, Any] = {}
    for key, value in site.items():
        target, there = section.children.get(key), planned.get(key)
        if isinstance(target, Section):
            found[key] = without_plan(value, there, target)
        elif isinstance(target, Field) and target.item is not None and isinstance(value, list):
            members = _without(value, there if isinstance(there, list) else [], target)
            if not value or any(m is not None for m in members):
                found[key] = members
        else:
            found[key] = value
    return found


def nameless(plan: Any, section: Section, path: str = "") -> list[str]:
    """The planned members that no site file can speak of: without a name, or with another's."""
    found: list[str] = []
    if not isinstance(plan, dict):
        return found
    for key, target in section.children.items():
        below, there = f"{path}.{key}" if path else key, plan.get(key)
        if isinstance(target, Section):
            found += nameless(there, target, below)
        elif target.item is not None and isinstance(there, list):
            naming, seen = naming_field(target), set()
            for i, member in enumerate(there):
                name = member.get(naming) if isinstance(member, dict) and naming else None
                if name is None or str(name) in seen:
                    found.append(f"{below}[{i}]")
                seen.add(str(name))
                found += nameless(member, target.item.root, f"{below}[{i}]")
    return found


def _beside(site: list[Any], plan: list[Any], field: Field) -> list[Any]:
    assert field.item is not None  # noqa: S101 - only lists come here
    naming = naming_field(field) or ""
    left = list(site)
    members = []
    for planned in plan:
        name = planned.get(naming) if isinstance(planned, dict) else None
        own = next((m for m in left if name is not None and isinstance(m, dict) and m.get(naming) == name), None)  # fmt: skip
        if own is not None:
            left.remove(own)
        members.append(beside({} if own is None else own, planned, field.item.root))
    return [*members, *left]


def _without(site: list[Any], plan: list[Any], field: Field) -> list[Any]:
    assert field.item is not None  # noqa: S101 - only lists come here
    naming = naming_field(field) or ""
    members: list[Any] = []
    for i, member in enumerate(site):
        if i >= len(plan) or not isinstance(member, dict):
            members.append(member)
            continue
        planned = plan[i] if isinstance(plan[i], dict) else {}
        inside = without_plan(member, planned, field.item.root)
        says = {k for k, v in inside.items() if k != naming and v not in (None, "", {})}
        members.append({**inside, naming: planned.get(naming)} if says else None)
    return members
