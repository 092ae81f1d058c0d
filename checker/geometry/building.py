"""The parts of the two views and the dimensions between them.

The side view looks across the direction of the offset: the host on the left, the duct
unrolled into the plane of the paper. The front view looks along it, the drain unrolled
to the right. The mount's axis (of the post, or the face of the wall) is x = 0, the floor
z = 0. What nobody stated is placed so that it can be seen, and names what is missing.
"""

from __future__ import annotations

from checker.findings import Extent, Geometry, Mark, Shape
from checker.geometry.free_spaces import heights, widths
from checker.geometry.pipework import Drain, Duct, drain_of, duct_of
from checker.geometry.stated import Stated, written
from checker.installation.record import Installation

__all__ = ["geometry_of"]

# Sizes at which what nobody stated is drawn. They enter no calculation, and each such part says so.
_WIDTH, _DEPTH, _HEIGHT = 0.45, 0.45, 0.7
_SEAT = {"side-post": 1.5, "floor-stand": 1.4, "roof-plate": 2.1, "wall-bracket": 1.5}
_POST, _FREE_LENGTH, _STAND = 0.08, 0.6, 0.6
_HOST_WIDTH, _HOST_HEIGHT = 0.9, 1.8
_PLATE, _BRACKET = 0.02, 0.08
_READ_AT = 1.5


def geometry_of(installation: Installation) -> Geometry:
    """The parts, pipes, dimensions and marks of one installation."""
    return _Builder(Stated.of(installation)).built()


class _Builder:
    def __init__(self, stated: Stated) -> None:
        self.stated = stated
        self.kind = stated.word("mount.kind")
        self.shapes: list[Shape] = []
        self.extents: list[Extent] = []
        self.notes: list[str] = []

    def built(self) -> Geometry:
        stated = self.stated
        seat, no_seat = self._seat()
        height, no_height = stated.or_drawn("collector.height", _HEIGHT)
        width, no_width = stated.or_drawn("collector.width", _WIDTH)
        depth, no_depth = stated.or_drawn("collector.depth", _DEPTH)
        offset, no_offset = stated.or_drawn("mount.offset", 0.0)
        # A wall's face is x = 0, and the unit hangs before it; a post stands below the unit.
        front, side = (-width / 2, width / 2), (offset - depth / 2, offset + depth / 2)
        duct = duct_of(stated, side, seat, seat + height)
        drain = drain_of(stated, front, seat)
        self._host(seat, duct)
        self._mount(seat, no_seat)
        self._shape("collector", "unit", "side", side[0], seat, depth, height, (*no_depth, *no_height, *no_seat, *no_offset))  # fmt: skip
        self._receiver(drain)
        self._shape("collector", "unit", "front", front[0], seat, width, height, (*no_width, *no_height, *no_seat))  # fmt: skip
        self._unit_extents(seat, seat + height, front, side)
        ceiling = self._ceiling(seat + height, (*no_seat, *no_height))
        extents = (*self.extents, *drain.extents, *heights(stated), *widths(stated))
        notes = (*self.notes, *duct.notes, *drain.notes)
        return Geometry(
            self.kind, tuple(self.shapes), (*duct.runs, *drain.runs), extents,
            self._marks(front, side, seat + height), ceiling, notes,
        )  # fmt: skip

    def _seat(self) -> tuple[float, tuple[str, ...]]:
        """Height of the plate that the unit stands on, and what is missing for it."""
        underside = self.stated.length("mount.underside_height")
        if underside is not None:
            return underside, ()
        length = self.stated.length("mount.post.free_length")
        if self.kind == "floor-stand" and length is not None:
            return length, ()
        return _SEAT[self.kind], ("underside_height",)

    def _mount(self, seat: float, no_seat: tuple[str, ...]) -> None:
        if self.kind == "roof-plate":
            for view in ("side", "front"):
                self._shape(
                    "plate", "roof plate", view, -0.3, seat - _PLATE, 0.6, _PLATE, ("size",)
                )
        elif self.kind == "wall-bracket":
            self._shape("wall", "wall or frame", "side", -0.1, 0.0, 0.1, seat + 1.0, ("size",))
            self._shape("plate", "bracket", "side", 0.0, seat - 0.04, 0.4, 0.04, ("size",))
            self._shape("plate", "bracket", "front", -0.2, seat - 0.04, 0.4, 0.04, ("size",))
        else:
            self._post(seat, no_seat)

    def _post(self, seat: float, no_seat: tuple[str, ...]) -> None:
        stated = self.stated
        free, no_free = stated.or_drawn("mount.post.free_length", _FREE_LENGTH)
        width, no_width = stated.or_drawn("mount.post.width", _POST)
        depth = stated.length("mount.post.depth")
        whole = stated.length("mount.post.whole_length")
        held = seat - free
        foot = held if whole is None else seat - whole
        if held < -1e-6 or foot < -1e-6:
            self.notes.append("The post is longer than the unit's underside is high: it is drawn through the floor.")  # fmt: skip
        missing = (*no_width, *no_free, *no_seat)
        for view, size in (("side", width), ("front", width if depth is None else depth)):
            self._shape("post", "post", view, -size / 2, foot, size, seat - foot, missing)
        self._extent("mount.post.free_length", "free length of the post", "side", "vertical", held, seat)  # fmt: skip
        if self.kind == "floor-stand":
            base, no_base = stated.or_drawn("mount.stand.base_width", _STAND)
            for view in ("side", "front"):
                self._shape("base", "stand", view, -base / 2, 0.0, base, 0.05, no_base)
            self._extent("mount.stand.base_width", "base of the stand", "side", "horizontal", -base / 2, base / 2)  # fmt: skip
            return
        spacing = stated.length("mount.brackets.spacing")
        for level in (held,) if spacing is None else (held, held - spacing):
            self._shape("plate", "bracket", "side", -width / 2 - 0.1, level - _BRACKET / 2, 0.1, _BRACKET, ("size",))  # fmt: skip
        if spacing is not None:
            self._extent("mount.brackets.spacing", "between the brackets", "side", "vertical", held - spacing, held)  # fmt: skip

    def _host(self, seat: float, duct: Duct) -> None:
        """The host's outline: of its sizes only a level of its roof is ever known."""
        if self.kind == "roof-plate":
            left, right, roof = min(duct.left - 0.2, -0.8), 0.8, seat - _PLATE
            self._shape("host", "host", "front", -0.8, 0.0, 1.6, roof, ("width",))
        else:
            right = -0.15 if self.kind == "wall-bracket" else -_POST / 2 - 0.1
            left = min(duct.left - 0.2, right - _HOST_WIDTH)
            roof = _HOST_HEIGHT if duct.take_off is None else duct.take_off
        missing = (
            ("depth",) if self.kind == "roof-plate" or duct.take_off is not None else ("size",)
        )
        self._shape("host", "host", "side", left, 0.0, right - left, roof, missing)

    def _ceiling(self, top: float, missing: tuple[str, ...]) -> float | None:
        gap = self.stated.length("surroundings.outlet.ceiling_gap")
        if gap is None:
            return None
        if missing:
            self.notes.append("The ceiling is drawn its stated gap above a unit whose own place is not stated.")  # fmt: skip
        self._extent("surroundings.outlet.ceiling_gap", "free above the outlet", "side", "vertical", top, top + gap)  # fmt: skip
        return written(top + gap)

    def _receiver(self, drain: Drain) -> None:
        """What the drain runs into, up to the liquid's highest level."""
        level = self.stated.length("drain.liquid_level")
        if level is not None and drain.runs:
            end = drain.runs[-1].points[-1][0]
            label = self.stated.word("drain.destination").replace("-", " ") or "end of the drain"
            self._shape("receiver", label, "front", end - 0.15, 0.0, 0.4, level, ("size",))

    def _unit_extents(
        self, seat: float, top: float, front: tuple[float, float], side: tuple[float, float]
    ) -> None:
        self._extent("collector.height", "height of the unit", "side", "vertical", seat, top)
        self._extent("mount.underside_height", "underside above the floor", "side", "vertical", 0.0, seat)  # fmt: skip
        self._extent("collector.depth", "depth of the unit", "side", "horizontal", *side)
        self._extent("collector.width", "width of the unit", "front", "horizontal", *front)
        if self.stated.length("mount.offset"):
            middle = (side[0] + side[1]) / 2
            self._extent("mount.offset", "offset to the centre of gravity", "side", "horizontal", 0.0, middle)  # fmt: skip

    def _marks(
        self, front: tuple[float, float], side: tuple[float, float], top: float
    ) -> tuple[Mark, ...]:
        found = []
        handle = "surroundings.controls.isolator_handle_height"
        for part, path, x in (("gauge", "gauge.height", front[0] - 0.15), ("isolator", handle, front[0] - 0.4)):  # fmt: skip
            height, missing = self.stated.or_drawn(path, _READ_AT)
            found.append(Mark(part, part, "front", written(x), written(height), (*missing, "place across")))  # fmt: skip
        middle = (side[0] + side[1]) / 2
        match self.stated.word("surroundings.outlet.blows"):
            case "up":
                found.append(Mark("outlet-up", "outlet", "side", written(middle), written(top), ()))
            case "sideways":
                found.append(Mark("outlet-sideways", "outlet", "side", written(side[1]), written(top - 0.12), ("place",)))  # fmt: skip
            case "down":
                found.append(Mark("outlet-down", "outlet", "side", written(side[1] + 0.08), written(top), ("place",)))  # fmt: skip
        return tuple(found)

    def _shape(
        self, part: str, label: str, view: str, left: float, bottom: float, width: float, height: float,
        missing: tuple[str, ...],
    ) -> None:  # fmt: skip
        self.shapes.append(
            Shape(part, label, view, written(left), written(bottom), written(width), written(height), missing)
        )  # fmt: skip

    def _extent(
        self, field: str, name: str, view: str, axis: str, start: float, end: float
    ) -> None:
        self.extents += self.stated.extent(field, name, view, axis, start, end)
