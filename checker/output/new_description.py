"""A description to fill in: every field that is needed, empty, with what it means above it."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Mapping
from pathlib import Path

from checker.asking.starting import Need
from checker.installation.fields import Field, Layout, Section
from checker.installation.record import Installation
from checker.output.field_words import LONGEST_CONDITION, condition_in_words, kind_in_words
from checker.places import SCHEMAS

__all__ = ["draw_item", "is_wanted", "render", "schema_for"]

_WIDTH = 98
_STEP = "  "
_HEAD = """\
{kind} {stage}. Write what you know behind the colons, every value with its unit: 28 kg, 3/8 in, 400 V. \
Where it matters, with its tolerance: 28 kg ± 0.5 kg, or with where it comes from: \
{{is: 28 kg, origin: nameplate}} (nameplate, measured, drawing, maker, estimated). What stays empty counts as \
not stated; the check says which answers wait for it. 'Only where' means: otherwise leave it empty.
"""
_STAGES = {"plan": "at the planning stage", "fitted": "once fitted"}


def render(
    installation: Installation, needs: Mapping[str, Need], *, schema: str, name: str = "FILE"
) -> str:
    """The whole file. schema: where an editor finds the schema. name: what the file will be called."""
    layout = installation.record.layout
    kind = str(installation.value("mount.kind")).replace("-", " ").capitalize()
    stage = _STAGES.get(str(installation.value("job.stage")), "")
    lines = [f"# yaml-language-server: $schema={schema}", "#"]
    lines += _comment(_HEAD.format(kind=kind, stage=stage), "")
    lines += [
        "#",
        f"# To be asked field by field:  mistwright ask {name}",
        f"# To check it at any time:     mistwright check {name}",
    ]
    stated = {
        f.path: fact.text
        for f, fact in zip(layout.fields, installation.record.facts, strict=True)
        if fact is not None
    }
    lines += _section(layout.root, needs, stated, "")
    return "\n".join(lines) + "\n"


def schema_for(path: Path | None) -> str:
    """What the first line names as the schema: relative inside a checkout, else its real path."""
    schema = SCHEMAS / "installation.schema.json"
    if path is not None:
        folder = path.resolve().parent
        if folder.is_relative_to(SCHEMAS.parent):
            return f"{'../' * len(folder.relative_to(SCHEMAS.parent).parts)}schemas/{schema.name}"
    text = schema.as_posix()
    # Editors read up to the first space; a file address has none.
    return schema.as_uri() if any(c.isspace() or c == "%" for c in text) else text


def is_wanted(child: Field | Section, needs: Mapping[str, Need]) -> bool:
    """Whether a field, or anything below a section or a list, is needed."""
    if isinstance(child, Section):
        return any(is_wanted(c, needs) for c in child.children.values())
    if child.path in needs:
        return True
    return child.item is not None and is_wanted(child.item.root, needs)


def nothing_waits(section: Section, needs: Mapping[str, Need]) -> bool:
    """Whether a section may be left out as a whole; what files the job is asked all the same."""
    if section.path == "job":
        return False
    for child in section.children.values():
        if isinstance(child, Section):
            waits = is_wanted(child, needs) and not nothing_waits(child, needs)
        else:
            need = needs.get(child.path)
            waits = need is not None and not need.may_be_left_out
        if waits:
            return False
    return True


def draw_item(layout: Layout, needs: Mapping[str, Need], margin: str, *, comments: bool) -> list[str]:  # fmt: skip
    """The lines of one item of a list, its dash at the margin."""
    lines = _section(layout.root, needs, {}, margin + _STEP, comments=comments)
    while lines and not lines[0]:
        lines.pop(0)
    first = next((i for i, line in enumerate(lines) if not line.lstrip().startswith("#")), None)
    if first is not None:
        lines[first] = f"{margin}- {lines[first].lstrip()}"
    return [line for line in lines if line]


def _section(
    section: Section,
    needs: Mapping[str, Need],
    stated: Mapping[str, str],
    margin: str,
    *,
    comments: bool = True,
) -> list[str]:
    lines: list[str] = []
    for name, child in section.children.items():
        if not is_wanted(child, needs):
            continue
        if isinstance(child, Section):
            lines.append("")
            if comments:
                whole = " May be left out as a whole." if nothing_waits(child, needs) else ""
                lines += _comment(child.description + whole, margin)
            lines.append(f"{margin}{name}:")
            lines += _section(child, needs, stated, margin + _STEP, comments=comments)
            continue
        if child.item is not None:
            lines.append("")
        if comments:
            for words in _words(child, needs):
                lines += _comment(words, margin)
        value = stated.get(child.path)
        lines.append(f"{margin}{name}:" + (f" {value}" if value else ""))
        if child.item is not None:
            lines += draw_item(child.item, needs, margin + _STEP, comments=comments)
    return lines


def _words(field: Field, needs: Mapping[str, Need]) -> Iterator[str]:
    need = needs.get(field.path, Need((), may_be_left_out=True))
    if field.item is None:
        yield f"{field.description} [{kind_in_words(field)}]"
    else:
        yield (
            f"{field.description} One item for each: copy the lines from '-' on. "
            f"If there is none, delete them and write '{field.name}: []'."
        )
    where = f"Where: {field.where} " if field.where else ""
    conditions = [condition_in_words(c) for c in need.only_where]
    together = ", or ".join(conditions)
    if conditions and all(conditions) and len(together) <= LONGEST_CONDITION:
        where += f"Only where {together}."
    elif need.may_be_left_out:
        where += "May be left out."
    if where:
        yield where


def _comment(text: str, margin: str) -> list[str]:
    return textwrap.wrap(
        text,
        _WIDTH,
        initial_indent=f"{margin}# ",
        subsequent_indent=f"{margin}# ",
        break_on_hyphens=False,
        break_long_words=False,
    )
