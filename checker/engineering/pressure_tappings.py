"""The gauge that shows how loaded a filter is: where its tubes sit and what it then reads.

Position: `hood_tapping_distance`. Reading: `filter_differential`, `gauge_reading`,
`differential_at_flow`, `trapped_liquid_pressure`.
"""

from __future__ import annotations

import math
from typing import Literal

from ._bounds import require_at_least, require_positive
from .dimensions import Angle, Density, Flow, Length, Pressure
from .limits import OutOfRange

__all__ = [
    "Hood",
    "TubeEnd",
    "differential_at_flow",
    "filter_differential",
    "gauge_reading",
    "hood_tapping_distance",
    "trapped_liquid_pressure",
]

Hood = Literal["tapered", "plain", "flanged"]
TubeEnd = Literal["before-filter", "after-filter", "room"]

_STANDARD_GRAVITY = 9.80665
_DIAMETERS_DOWNSTREAM = {"tapered": 1.0, "plain": 3.0, "flanged": 3.0}


def hood_tapping_distance(hood: Hood, bore: Length) -> Length:
    """Distance of the static tapping downstream of a hood or spigot [m].

    Source: UFGS 23 08 01.00 20 (US public specification), hood static pressure: one duct diameter
    from a tapered hood, three from a plain or flanged one. Confidence: checked.

    hood: tapered, plain or flanged
    bore: of the duct [m], > 0
    Returns [m].
    Valid for: straight duct up to the tapping.
    Raises OutOfRange: another hood, or bore not above zero.

    >>> hood_tapping_distance("flanged", 0.150)
    0.45
    """
    if hood not in _DIAMETERS_DOWNSTREAM:
        raise OutOfRange(
            f"The hood is {hood!r}; tapping distances are stated for tapered, plain and flanged."
        )
    require_positive(bore, "bore", "m")
    return _DIAMETERS_DOWNSTREAM[hood] * bore


def filter_differential(before: Pressure, after: Pressure) -> Pressure:
    """Pressure difference over a filter stage Δp [Pa].

    Source: Δp = p1 - p2, whichever side the fan is on. Confidence: common-practice.

    before: static pressure on the dirty side, against the room [Pa], negative before a fan
    after: static pressure on the clean side, against the room [Pa]
    Returns [Pa], positive while air goes through the filter the right way.
    Valid for: both tappings in ducts of about one size.

    >>> filter_differential(-350.0, -500.0)
    150.0
    """
    return before - after


def gauge_reading(
    high_tube: TubeEnd, low_tube: TubeEnd, before: Pressure, after: Pressure
) -> Pressure:
    """What a gauge shows with its two tubes where they are [Pa].

    Source: a differential gauge shows the pressure at its + port less that at its - port.
    Confidence: common-practice.

    high_tube: where the tube of the + port ends
    low_tube: where the tube of the - port ends
    before: static pressure on the dirty side, against the room [Pa]
    after: static pressure on the clean side, against the room [Pa]
    Returns [Pa]: negative with the tubes crossed, and not the filter's loss where one is open to
        the room.
    Valid for: dry, open tubes.
    Raises OutOfRange: another end, or both tubes at one place.

    >>> gauge_reading("after-filter", "before-filter", -350.0, -500.0)
    -150.0
    """
    pressures = {"before-filter": before, "after-filter": after, "room": 0.0}
    for end in (high_tube, low_tube):
        if end not in pressures:
            raise OutOfRange(f"A tube ends at {end!r}; it ends at {', '.join(pressures)}.")
    if high_tube == low_tube:
        raise OutOfRange(f"Both tubes end at {high_tube!r}; a gauge needs two different places.")
    return pressures[high_tube] - pressures[low_tube]


def differential_at_flow(differential: Pressure, flow: Flow, other_flow: Flow) -> Pressure:
    """Pressure difference of a fibre filter carried to another flow Δp2 [Pa].

    Source: fibre media are about linear in flow, Δp2 = Δp1 Q2/Q1. Confidence: common-practice.

    differential: at the flow it was read at [Pa]
    flow: during the reading [m³/s], > 0
    other_flow: at which it is to be compared [m³/s], >= 0
    Returns [Pa].
    Valid for: fibre media; separators and baffles follow the square of the flow.
    Raises OutOfRange: a flow outside its range.

    >>> differential_at_flow(150.0, 600 / 3600, 500 / 3600)
    125.0
    """
    require_positive(flow, "flow during the reading", "m³/s")
    require_at_least(other_flow, 0.0, "flow to compare at", "m³/s")
    return differential * other_flow / flow


def trapped_liquid_pressure(density: Density, length: Length, slope: Angle) -> Pressure:
    """Error of a gauge from a slug of liquid standing in one of its tubes Δp [Pa].

    Source: hydrostatics, Δp = ρgL sin α. Confidence: common-practice.

    density: of the liquid [kg/m³], > 0
    length: of the slug along the tube [m], >= 0
    slope: of the tube there, from level [rad], 0 to π/2
    Returns [Pa].
    Valid for: a slug that fills the bore.
    Raises OutOfRange: a value outside its range.

    >>> trapped_liquid_pressure(870.0, 0.030, 1.5707963)
    256.0
    """
    require_positive(density, "density", "kg/m³")
    require_at_least(length, 0.0, "length of the slug", "m")
    if not 0.0 <= slope <= math.pi / 2.0 + 1e-9:
        raise OutOfRange(
            f"The slope is {math.degrees(slope):g} degrees; a tube lies between 0 and 90 degrees "
            "from level."
        )
    return density * _STANDARD_GRAVITY * length * math.sin(slope)
