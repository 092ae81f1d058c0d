"""Heights in a drain: fall, seal of the trap, air gap, and whether they fit.

The seal is sized on what the fan gives with a blocked inlet, not on what it runs
at, and on the lightest liquid that may stand in it: oil needs more depth than
water. A sag in a hose is a trap that nobody drew.
"""

from __future__ import annotations

import math

from ._bounds import require_at_least, require_positive, require_within
from .dimensions import Density, Length, Number, Pressure, Speed, SurfaceTension, Volume
from .limits import OutOfRange

__all__ = [
    "air_gap",
    "drain_height_needed",
    "drain_height_spare",
    "drain_slope",
    "draw_through_trap_depth",
    "draw_through_trap_half_depth",
    "fall",
    "film_flooding_velocity",
    "sag_blocked_share",
    "sag_volume",
    "trap_depth_needed",
    "trap_seal_depth",
]

_GRAVITY = 9.80665


def fall(slope: Number, length: Length) -> Length:
    """Fall h = S L of a run, m.

    Source: geometry. Confidence: checked.

    slope: fall over length [1], -1 to 1; negative where the run rises
    length: length of the run [m], >= 0
    Returns [m].
    Valid for: straight runs.
    Raises OutOfRange: outside those ranges.

    >>> fall(0.02, 3.0)  # arithmetic of the formula
    0.06
    """
    require_within(slope, -1.0, 1.0, "slope", "", "a run of pipe or duct")
    require_at_least(length, 0.0, "length", "m")
    return slope * length


def drain_slope(start_height: Length, end_height: Length, length: Length) -> Number:
    """Slope S = (H_start - H_end)/L of a run from the heights of its ends, 1.

    Source: geometry. Confidence: checked.

    start_height: height of the invert where the liquid enters [m], from one datum
    end_height: height of the invert where it leaves [m], from the same datum
    length: length of the run [m], at least the difference of the heights
    Returns [1]: negative where the run rises.
    Valid for: straight runs without a sag.
    Raises OutOfRange: a run shorter than it falls.

    >>> drain_slope(1.06, 1.00, 3.0)
    0.02
    >>> drain_slope(0.125, 0.0, 12.0)  # one eighth of an inch in 12 feet is no 1 per cent
    0.0104
    """
    require_positive(length, "length", "m")
    if abs(start_height - end_height) > length * (1.0 + 1e-9):
        raise OutOfRange(
            f"The run is {length:.6g} m long and its ends differ by "
            f"{abs(start_height - end_height):.6g} m; it cannot be shorter than it falls."
        )
    return (start_height - end_height) / length


def trap_seal_depth(pressure: Pressure, density: Density) -> Length:
    """Seal depth h = p/(rho g) that just holds a suction, m.

    Source: hydrostatics, textbook. Confidence: checked.

    pressure: suction at the drain port with the inlet blocked, as a magnitude [Pa], >= 0
    density: density of the lightest liquid that may stand in the trap [kg/m3], > 0
    Returns [m].
    Valid for: a primed trap; it evaporates and empties at a long stop.
    Raises OutOfRange: outside those ranges.

    >>> trap_seal_depth(500.0, 870.0)  # arithmetic of the formula
    0.0586
    """
    require_at_least(pressure, 0.0, "suction at the drain port", "Pa")
    require_positive(density, "density of the liquid", "kg/m3")
    return pressure / (density * _GRAVITY)


def trap_depth_needed(
    pressure: Pressure, density: Density, factor: Number, allowance: Length
) -> Length:
    """Trap depth max(k h, h + a) needed over the seal depth, m.

    Source: hydrostatics; factor and allowance are a rule's parameters. Confidence:
    common-practice.

    pressure: suction at the drain port with the inlet blocked, as a magnitude [Pa], >= 0
    density: density of the lightest liquid that may stand in the trap [kg/m3], > 0
    factor: multiple of the seal depth k [1], >= 1
    allowance: addition to the seal depth a [m], >= 0
    Returns [m].
    Valid for: a primed trap.
    Raises OutOfRange: outside those ranges.

    >>> trap_depth_needed(500.0, 870.0, 1.5, 0.025)  # arithmetic: 87.9 mm
    0.0879
    """
    require_at_least(factor, 1.0, "factor on the seal depth")
    require_at_least(allowance, 0.0, "allowance on the seal depth", "m")
    seal = trap_seal_depth(pressure, density)
    return max(factor * seal, seal + allowance)


def draw_through_trap_depth(pressure_head: Length) -> Length:
    """Depth P1 = suction head + 1 in of a condensate trap before the fan, m.

    Source: air-handling-unit installation manual, condensate trap of a draw-through unit.
    Confidence: checked.

    pressure_head: suction at the drain pan as a column of the liquid [m], >= 0
    Returns [m].
    Valid for: water in general ventilation; oil needs trap_depth_needed.
    Raises OutOfRange: a negative head.

    >>> draw_through_trap_depth(2 * 0.0254) / 0.0254  # printed: 3 in
    3.0
    """
    require_at_least(pressure_head, 0.0, "suction head", "m")
    return pressure_head + 0.0254


def draw_through_trap_half_depth(pressure_head: Length) -> Length:
    """Half-depth P1/2 that the same trap keeps below its outlet at standstill, m.

    Source: air-handling-unit installation manual, condensate trap of a draw-through unit.
    Confidence: checked.

    pressure_head: suction at the drain pan as a column of the liquid [m], >= 0
    Returns [m].
    Valid for: water in general ventilation.
    Raises OutOfRange: a negative head.

    >>> draw_through_trap_half_depth(2 * 0.0254) / 0.0254  # printed: 1.5 in
    1.5
    """
    return draw_through_trap_depth(pressure_head) / 2.0


def air_gap(bore: Length, least: Length) -> Length:
    """Air gap max(2 D, least) between a drain's end and the liquid below it, m.

    Source: UK water-regulations glossary, air gap: twice the bore and at least 20 mm (EN 1717 types
    AA and AB). Confidence: checked.

    bore: internal diameter of the drain [m], > 0
    least: least gap whatever the bore [m], >= 0
    Returns [m].
    Valid for: a discharge within 15 degrees of the vertical.
    Raises OutOfRange: outside those ranges.

    >>> air_gap(0.019, 0.020)
    0.038
    """
    require_positive(bore, "bore of the drain", "m")
    require_at_least(least, 0.0, "least air gap", "m")
    return max(2.0 * bore, least)


def drain_height_needed(trap: Length, total_fall: Length, gap: Length, head: Length) -> Length:
    """Height h_trap + S L + gap + h_v that a drain needs from port to entry, m.

    Source: sum of heights. Confidence: common-practice.

    trap: depth of the trap [m], >= 0
    total_fall: fall of all runs together [m], >= 0
    gap: air gap above the liquid [m], >= 0
    head: head that drives the flow through entry and bends [m], >= 0
    Returns [m].
    Valid for: heights from one datum.
    Raises OutOfRange: a negative height.

    >>> drain_height_needed(0.0879, 0.060, 0.050, 0.0)  # arithmetic: 197.9 mm
    0.1979
    """
    require_at_least(trap, 0.0, "depth of the trap", "m")
    require_at_least(total_fall, 0.0, "fall of the runs", "m")
    require_at_least(gap, 0.0, "air gap", "m")
    require_at_least(head, 0.0, "driving head", "m")
    return trap + total_fall + gap + head


def drain_height_spare(port_height: Length, entry_height: Length, needed: Length) -> Length:
    """Height H_port - H_entry - h left over between the drain port and its entry, m.

    Source: sum of heights. Confidence: common-practice.

    port_height: height of the drain port on the unit [m], from one datum
    entry_height: height of the entry at the tank or container [m], from the same datum
    needed: height the drain needs [m], >= 0
    Returns [m]: negative where the drain does not fit.
    Valid for: heights from one datum.
    Raises OutOfRange: a negative need.

    >>> drain_height_spare(1.200, 0.900, 0.1979)
    0.1021
    """
    require_at_least(needed, 0.0, "height the drain needs", "m")
    return port_height - entry_height - needed


def film_flooding_velocity(
    tension: SurfaceTension, liquid: Density, air: Density, constant: Number
) -> Speed:
    """Air velocity K (sigma g (rho_l - rho_g)/rho_g^2)^(1/4) that carries a film up a riser, m/s.

    Source: Kutateladze number; the constant 3.1 of Taitel, Barnea and Dukler 1980 for vertical
    annular flow, quoted in technical notes. Confidence: checked.

    tension: surface tension of the liquid [N/m], > 0
    liquid: density of the liquid [kg/m3], above that of the air
    air: density of the air [kg/m3], > 0
    constant: K [1], 1 to 4; 3.1 complete, 1.9 to 2.5 the onset (from memory)
    Returns [m/s].
    Valid for: vertical risers; advice only, no guarantee that oil drains below it.
    Raises OutOfRange: outside those ranges.

    >>> film_flooding_velocity(0.03, 870.0, 1.2, 3.1)  # arithmetic of the formula
    11.32
    """
    require_positive(tension, "surface tension", "N/m")
    require_positive(air, "density of the air", "kg/m3")
    if not liquid > air:
        raise OutOfRange(
            f"The liquid has {liquid:.6g} kg/m3 and the air {air:.6g} kg/m3; the liquid must be "
            "the heavier."
        )
    require_within(constant, 1.0, 4.0, "flooding constant", "", "the flooding criterion")
    return float(constant * (tension * _GRAVITY * (liquid - air) / air**2) ** 0.25)


def sag_blocked_share(sag: Length, bore: Length) -> Number:
    """Share of the cross-section that liquid standing in a sag blocks, 1.

    Source: segment of a circle, geometry. Confidence: checked.

    sag: depth of the sag below the line of fall [m], >= 0
    bore: internal diameter [m], > 0
    Returns [1]: 1 from a sag of one bore on.
    Valid for: liquid up to the level where it can run on.
    Raises OutOfRange: outside those ranges.

    >>> sag_blocked_share(0.030, 0.150)  # arithmetic of the formula
    0.142
    """
    require_at_least(sag, 0.0, "sag", "m")
    require_positive(bore, "bore", "m")
    if sag >= bore:
        return 1.0
    angle = 2.0 * math.acos(1.0 - 2.0 * sag / bore)
    return (angle - math.sin(angle)) / (2.0 * math.pi)


def sag_volume(sag: Length, span: Length, bore: Length) -> Volume:
    """Volume of liquid that stands in a sag between two supports, m3.

    Source: segment of a circle along an assumed parabola (Simpson's rule). Confidence:
    common-practice.

    sag: depth of the sag at mid-span below the line of fall [m], >= 0
    span: distance between the supports [m], > 0
    bore: internal diameter [m], > 0
    Returns [m3].
    Valid for: shallow sags, up to a tenth of the span.
    Raises OutOfRange: outside those ranges.

    >>> sag_volume(0.030, 1.5, 0.150) * 1e3  # about 2.25 L
    2.25
    """
    require_positive(span, "span between the supports", "m")
    require_within(sag / span, 0.0, 0.1, "sag over span", "", "the parabola of a shallow sag")
    steps = 40  # within a hundred-thousandth of the integral
    shares = [
        sag_blocked_share(sag * (1.0 - (step / steps) ** 2), bore) for step in range(steps + 1)
    ]
    simpson = shares[0] + shares[-1] + 4.0 * sum(shares[1:-1:2]) + 2.0 * sum(shares[2:-1:2])
    return simpson / (3.0 * steps) * span * math.pi * bore**2 / 4.0
