"""Local overlays: what a place, a customer or a company changes, and why.

An overlay changes named parameters, switches rules off, and may bring rules, tables
and sources of its own in the folder of its name. Later overlays win over earlier
ones; every change keeps the value it replaced, so that a report can show it.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import Path

from checker.errors import Mistake, Mistakes, Place, near
from checker.formulas.types import Items, Numeric, Text, Type, say
from checker.rulebook.files import File, overlay_names, read_file
from checker.rulebook.model import Parameter, Source
from checker.rulebook.parts import basis_from, parameter_value
from checker.units.quantities import NotAQuantity

__all__ = [
    "Change", "Overlay", "changes_for", "find_overlay", "refuse_unknown_targets",
]  # fmt: skip


@dataclass(frozen=True, slots=True)
class Change:
    """One entry of an overlay; ``parameter`` is None where a rule is switched off."""

    overlay: str
    file: File
    path: tuple[str | int, ...]
    target: str
    parameter: str | None


@dataclass(slots=True)
class Overlay:
    """An overlay as it was found: its file, and the folder of what it adds."""

    name: str
    file: File
    folder: Path | None
    changes: list[Change] = field(default_factory=list)


def find_overlay(name: str, roots: Iterable[Path], place: Place | None = None) -> Overlay:
    """The overlay of a name; the last folder that has one wins.

    Raises Mistakes where none has, or where it does not fit its schema.
    """
    roots = list(roots)
    for root in reversed(roots):
        path = root / "local" / f"{name}.yaml"
        # The name comes from a command line or a description: it may not walk out of the
        # folder, and what is no file name at all (4000 letters) may not reach the system.
        if name in overlay_names([root]):
            file = read_file(path, f"{root.name}/local/{name}.yaml", "overlay")
            folder = root / "local" / name
            overlay = Overlay(name, file, folder if folder.is_dir() else None)
            overlay.changes = list(_changes(overlay))
            return overlay
    known = overlay_names(roots)
    raise Mistakes(
        [
            Mistake(
                f"there is no local overlay '{name[:60]}'",
                place or Place("--local"),
                expected="one of " + ", ".join(known),
                hint=near(name, known),
            )
        ]
    )


def _changes(overlay: Overlay) -> Iterable[Change]:
    for i, entry in enumerate(overlay.file.data.get("replace", ())):
        targets = [key for key in ("rule", "derived") if key in entry]
        if len(targets) != 1:
            raise Mistakes(
                [
                    overlay.file.mistake(
                        "name one rule or one derived value", "replace", i, hint="rule: FAMILY/NAME"
                    )
                ]
            )
        target = entry["rule"] if targets == ["rule"] else f"derived.{entry['derived']}"
        yield Change(overlay.name, overlay.file, ("replace", i), target, entry["parameter"])
    for i, entry in enumerate(overlay.file.data.get("switch_off", ())):
        yield Change(overlay.name, overlay.file, ("switch_off", i), entry["rule"], None)


def refuse_unknown_targets(overlays: list[Overlay], known: Iterable[str]) -> None:
    """Refuse a change of a rule or a derived value that does not exist; raises Mistakes."""
    names = list(known)
    mistakes = [
        change.file.mistake(
            f"there is no rule '{change.target}'"
            if not change.target.startswith("derived.")
            else f"there is no {change.target}",
            *change.path,
            hint=near(change.target, names),
        )
        for overlay in overlays
        for change in overlay.changes
        if change.target not in names
    ]
    if mistakes:
        raise Mistakes(mistakes)


def changes_for(
    target: str,
    overlays: list[Overlay],
    parameters: dict[str, Parameter],
    sources: dict[str, Source],
) -> tuple[dict[str, Parameter], tuple[str, ...], str]:
    """What the overlays change in one rule or derived value.

    Returns the changed parameters, a sentence for each change, and why the rule is
    switched off ('' where it is not). Raises Mistakes for a parameter that does not
    exist, or a value of another dimension.
    """
    changed: dict[str, Parameter] = {}
    sentences: list[str] = []
    off = ""
    for overlay in overlays:
        for change in overlay.changes:
            if change.target != target:
                continue
            entry = change.file.data[change.path[0]][change.path[1]]
            basis = basis_from(change.file, sources, *change.path, "basis")
            if change.parameter is None:
                off = f"Switched off by the local overlay {overlay.name}: {entry['why']} ({basis})"
                sentences.append(
                    f"{overlay.name}: {target} is switched off. {entry['why']} ({basis}; {basis.confidence})"
                )
                continue
            before = changed.get(change.parameter) or parameters.get(change.parameter)
            if before is None:
                raise Mistakes(
                    [
                        change.file.mistake(
                            f"'{target}' has no parameter '{change.parameter}'",
                            *change.path,
                            "parameter",
                            hint=near(change.parameter, parameters)
                            or "it has " + (", ".join(parameters) or "none"),
                        )
                    ]
                )
            after = _parameter(change, before, entry, sources)
            changed[change.parameter] = after
            sentences.append(
                f"{overlay.name}: {target}: {change.parameter} is {after.text} instead of {before.text}. {entry['why']} ({basis}; {basis.confidence})"
            )
    return changed, tuple(sentences), off


def _parameter(
    change: Change, before: Parameter, entry: dict[str, object], sources: dict[str, Source]
) -> Parameter:
    value = entry["value"]
    try:
        kind, si, unit = parameter_value(value)
    except NotAQuantity as error:
        raise Mistakes(
            [
                change.file.mistake(
                    f"the parameter '{before.name}': {error.what}",
                    *change.path,
                    "value",
                    found=repr(value),
                    hint=error.hint,
                )
            ]
        ) from None
    if not _same(kind, before.type):
        raise Mistakes(
            [
                change.file.mistake(
                    f"'{before.name}' changes its dimension",
                    *change.path,
                    "value",
                    found=f"{value}: {say(kind)}",
                    expected=f"{before.text}: {say(before.type)}",
                )
            ]
        )
    text = ", ".join(map(str, value)) if isinstance(value, list) else str(value)
    basis = basis_from(change.file, sources, *change.path, "basis")
    return Parameter(
        before.name, kind, si, text, unit, basis, str(entry["why"]), change.file.place(*change.path)
    )


def _same(kind: Type, wanted: Type) -> bool:
    match kind, wanted:
        case Numeric(), Numeric():
            return kind.dimension == wanted.dimension and kind.point == wanted.point
        case Items(of=a), Items(of=b):
            return _same(a, b)
        case Text(), Text():
            return True
    return type(kind) is type(wanted)
