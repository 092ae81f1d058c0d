"""Heights above the floor and free widths: clearances whose place across is not described."""

from __future__ import annotations

from checker.findings import Extent
from checker.geometry.stated import Stated

__all__ = ["heights", "widths"]

# Each stands on the floor in a row of its own: where it is, sideways, no description says.
_HEIGHTS = (
    ("gauge.height", "gauge"),
    ("surroundings.controls.isolator_handle_height", "isolator handle"),
    ("surroundings.controls.lowest_control_height", "lowest hand control"),
    ("surroundings.controls.lowest_device_height", "lowest device in the starter box"),
    ("surroundings.controls.highest_device_height", "highest device in the starter box"),
    ("surroundings.sprinkler.top_height", "highest part near the sprinkler"),
    ("surroundings.sprinkler.deflector_height", "sprinkler deflector"),
    ("surroundings.hoist.lift_over", "to lift over"),
    ("surroundings.hoist.hook_height", "hook at its highest"),
)  # fmt: skip
_HEIGHTS_OF_MEMBERS = (
    ("surroundings.service_points", "hand_height", "hands"),
    ("surroundings.passages", "headroom", "headroom"),
    ("surroundings.escape_routes", "projection_height", "lowest thing over it"),
    ("surroundings.escape_routes", "ceiling_height", "ceiling"),
)
_WIDTHS_OF_MEMBERS = (
    ("surroundings.passages", "width", "width"),
    ("surroundings.escape_routes", "width", "width"),
    ("surroundings.moving_parts", "gap", "gap"),
    ("surroundings.service_points", "free_length", "free to draw out"),
    ("surroundings.service_points", "free_width", "free width on the way out"),
    ("surroundings.electrical_panels", "front_distance", "free in front"),
    ("surroundings.electrical_panels", "clear_width", "free width in front"),
    ("surroundings.electrical_panels", "rear_distance", "free behind"),
    ("surroundings.electrical_panels", "door_passage", "past the open door"),
    ("surroundings.drilled_places", "free_depth", "free depth behind"),
)


def heights(stated: Stated) -> tuple[Extent, ...]:
    """Every stated height above the floor that people, hands or the unit depend on."""
    found: list[Extent] = []
    for path, name in _HEIGHTS:
        found += _extent(stated, path, name, "heights", "vertical")
    return (*found, *_of_members(stated, _HEIGHTS_OF_MEMBERS, "heights", "vertical"))


def widths(stated: Stated) -> tuple[Extent, ...]:
    """Every stated free width."""
    found = _extent(stated, "surroundings.sprinkler.passing_distance", "sprinkler head to what passes it", "widths", "horizontal")  # fmt: skip
    return (*found, *_of_members(stated, _WIDTHS_OF_MEMBERS, "widths", "horizontal"))


def _of_members(
    stated: Stated, rows: tuple[tuple[str, str, str], ...], view: str, axis: str
) -> list[Extent]:
    found: list[Extent] = []
    for path, field, words in rows:
        for number, member in enumerate(stated.members(path), 1):
            name = f"{member.word('name') or f'no. {number}'}: {words}"
            found += _extent(member, field, name, view, axis)
    return found


def _extent(stated: Stated, path: str, name: str, view: str, axis: str) -> list[Extent]:
    length = stated.length(path)
    return [] if length is None else stated.extent(path, name, view, axis, 0.0, length)
