"""The duct and the drain unrolled into one plane: lengths and levels true, bends flattened.

A part's rise is the difference of its stated levels; what it runs along follows from its
length. Where a length or a level is not stated the part is drawn, and says what it lacks.
"""

from __future__ import annotations

from typing import NamedTuple

from checker.findings import Extent, PipeRun
from checker.geometry.stated import Stated, written

__all__ = ["Drain", "Duct", "drain_of", "duct_of"]

Point = tuple[float, float]
# What is drawn where nothing is stated.
_LENGTH, _BORE, _DRAIN_BORE, _TRAP_WIDTH = 0.3, 0.16, 0.025, 0.12


class Duct(NamedTuple):
    """The duct's parts; ``take_off`` is the level where it leaves the host, ``left`` its far end."""

    runs: tuple[PipeRun, ...]
    take_off: float | None
    left: float
    notes: tuple[str, ...]


class Drain(NamedTuple):
    """The drain's parts and its levels."""

    runs: tuple[PipeRun, ...]
    extents: tuple[Extent, ...]
    notes: tuple[str, ...]


def duct_of(stated: Stated, across: Point, seat: float, top: float) -> Duct:
    """The duct before the unit, ending at its face towards the host, and behind it from its top."""
    parts = list(stated.members("duct.parts"))
    before = [p for p in parts if p.word("side") != "after-unit" and p.word("kind") in _LONG]
    after = [p for p in parts if p.word("side") == "after-unit" and p.word("kind") in _LONG]
    notes: list[str] = []
    middle = seat + (top - seat) / 2
    pieces = _chain(before, middle, "level_start", "level_end", notes)
    # The last part meets the unit: all is moved so that it does.
    end = pieces[-1][1][-1][0] if pieces else 0.0
    bore = _bore(before[-1], "diameter", _BORE)[0] if pieces else 0.0
    upright = bool(pieces) and abs(pieces[-1][1][0][0] - end) < bore / 2
    shift = across[0] - end - (bore / 2 if upright else 0.0)
    runs = [_run("duct", "side", p, _moved(line, shift), missing, "diameter", _BORE) for p, line, missing in pieces]  # fmt: skip
    middle_x = (across[0] + across[1]) / 2
    for part, line, missing in _chain(after, top, "level_start", "level_end", notes):
        runs.append(_run("duct", "side", part, _moved(line, middle_x), missing, "diameter", _BORE))
    left = min((x for run in runs for x, _ in run.points), default=across[0])
    take_off = before[0].length("level_start") if before else None
    return Duct(tuple(runs), take_off, left, tuple(notes))


_LONG = ("straight", "flexible", "other")


def drain_of(stated: Stated, across: Point, seat: float) -> Drain:
    """The drain from the unit's port onwards, to the right."""
    parts = list(stated.members("drain.segments"))
    notes: list[str] = []
    port = stated.length("drain.port_height")
    start = seat if port is None else port
    pieces = _chain(parts, start, "start_level", "end_level", notes)
    runs = tuple(
        _run("drain", "front", p, _moved(line, across[1] - 0.08), missing, "bore", _DRAIN_BORE)
        for p, line, missing in pieces
    )
    extents: list[Extent] = []
    for path, name in _LEVELS:
        level = stated.length(path)
        if level is not None:
            extents += stated.extent(path, name, "front", "vertical", 0.0, level)
    for part, line, _ in pieces:
        depth = part.length("seal_depth")
        if part.word("kind") == "trap" and depth is not None:
            overflow = line[-1][1]
            extents += part.extent("seal_depth", "seal of the trap", "front", "vertical", overflow - depth, overflow)  # fmt: skip
    return Drain(runs, tuple(extents), tuple(notes))


_LEVELS = (
    ("drain.port_height", "drain port"),
    ("drain.outlet_level", "open end of the drain"),
    ("drain.liquid_level", "liquid below the open end"),
)


def _chain(
    parts: list[Stated], level: float, start_path: str, end_path: str, notes: list[str]
) -> list[tuple[Stated, list[Point], tuple[str, ...]]]:
    """The parts one behind the other, each from its stated level to its stated level."""
    found: list[tuple[Stated, list[Point], tuple[str, ...]]] = []
    x, z = 0.0, level
    for part in parts:
        start, end = part.length(start_path), part.length(end_path)
        missing = tuple(p for p, v in ((start_path, start), (end_path, end)) if v is None)
        z = z if start is None else start
        rise = 0.0 if end is None else end - z
        if part.word("kind") == "trap":
            line, lacks = _trap(part, x, z, z + rise)
        else:
            line, lacks = _line(part, x, z, rise, notes)
        found.append((part, line, (*lacks, *missing)))
        x, z = line[-1]
    return found


def _line(
    part: Stated, x: float, z: float, rise: float, notes: list[str]
) -> tuple[list[Point], tuple[str, ...]]:
    length = part.length("length")
    if length is None:
        return [(x, z), (x + max(_LENGTH, abs(rise)), z + rise)], ("length",)
    if abs(rise) > length + 1e-6:
        name = part.word("name") or part.prefix.rstrip(".")
        notes.append(f"The stated levels of '{name}' lie further apart than it is long; it is drawn upright from level to level.")  # fmt: skip
        return [(x, z), (x, z + rise)], ()
    along = max(length**2 - rise**2, 0.0) ** 0.5
    return [(x, z), (x + along, z + rise)], ()


def _trap(part: Stated, x: float, z: float, overflow: float) -> tuple[list[Point], tuple[str, ...]]:
    """A trap as a U: down to the foot of its seal, up to its overflow."""
    seal = part.length("seal_depth")
    foot = overflow - (_LENGTH if seal is None else seal)
    across = x + _TRAP_WIDTH
    line = [(x, z), (x, foot), (across, foot), (across, overflow)]
    return line, ("seal_depth",) if seal is None else ()


def _run(
    system: str, view: str, part: Stated, line: list[Point], missing: tuple[str, ...], path: str, drawn: float
) -> PipeRun:  # fmt: skip
    bore, no_bore = _bore(part, path, drawn)
    return PipeRun(
        system, part.word("name"), part.word("kind"), view,
        tuple((written(x), written(z)) for x, z in line), bore, (*missing, *no_bore),
    )  # fmt: skip


def _bore(part: Stated, path: str, drawn: float) -> tuple[float, tuple[str, ...]]:
    bore, missing = part.or_drawn(path, drawn)
    return written(bore), missing


def _moved(line: list[Point], by: float) -> list[Point]:
    return [(x + by, z) for x, z in line]
