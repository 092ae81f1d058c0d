"""Entries to a duct and what one static reading behind them says of the flow.

Static pressure in a suction duct is below the room's; every pressure here is its
magnitude.
"""

from __future__ import annotations

import math
from typing import Literal

from ._bounds import interpolated, require_at_least, require_positive, require_within
from .dimensions import Angle, Area, Density, Flow, Number, Pressure
from .limits import OutOfRange

__all__ = [
    "Entry",
    "bellmouth_entry_coefficient",
    "coefficient_of_entry",
    "entry_coefficient",
    "flow_from_hood_pressure",
    "hood_pressure",
    "measured_coefficient_of_entry",
    "tapered_hood_coefficient",
    "velocity_pressure_from_hood_pressure",
]

Entry = Literal["plain", "flanged", "bellmouth", "flush"]

# A plain duct end is 0.93 in the hygiene manual and 1.00 in the duct-design table;
# of two published values the larger loss stands here.
_ENTRY = {"plain": 1.00, "flanged": 0.49, "bellmouth": 0.04, "flush": 0.50}
_SMACNA = "SMACNA HVAC Systems Duct Design, table A-12"


def entry_coefficient(entry: Entry) -> Number:
    """Entry loss coefficient F_h of a duct end, 1.

    Source: ACGIH Industrial Ventilation, 24th edition, hood entry losses (flanged 0.49,
    bellmouth 0.04); SMACNA HVAC Systems Duct Design, table A-12 (plain end 1.00, flush with a
    wall 0.50). Confidence: checked.

    entry: "plain", "flanged", "bellmouth" or "flush"
    Returns [1], on the velocity pressure in the duct.
    Valid for: round duct ends in free air, "flush" for a hole in the wall of an enclosure.
    Raises OutOfRange: another word.

    >>> entry_coefficient("flanged")  # printed: 0.49
    0.49
    """
    if entry not in _ENTRY:
        raise OutOfRange(
            f"The entry {entry!r} is in no table used here; the words are plain, flanged, "
            "bellmouth and flush."
        )
    return _ENTRY[entry]


def bellmouth_entry_coefficient(radius_ratio: Number) -> Number:
    """Entry loss coefficient F_h of a bellmouth without a wall, 1.

    Source: SMACNA HVAC Systems Duct Design, table A-12. Confidence: checked.

    radius_ratio: radius of the lip over the bore r/D [1], 0.05 to 0.20
    Returns [1], on the velocity pressure in the duct.
    Valid for: bellmouths in free air.
    Raises OutOfRange: outside that range.

    >>> bellmouth_entry_coefficient(0.10)  # printed: 0.15
    0.15
    """
    return interpolated(
        radius_ratio, (0.05, 0.10, 0.20), (0.40, 0.15, 0.03), "radius ratio", "", _SMACNA
    )


def tapered_hood_coefficient(angle: Angle) -> Number:
    """Entry loss coefficient F_h of a tapered round hood, 1.

    Source: SMACNA HVAC Systems Duct Design, table A-12. Confidence: checked.

    angle: included angle of the taper [rad], 20 to 180 degrees
    Returns [1], on the velocity pressure in the duct.
    Valid for: round hoods; 40 degrees lose least.
    Raises OutOfRange: outside that range.

    >>> import math
    >>> tapered_hood_coefficient(math.radians(60.0))  # printed: 0.09
    0.09
    """
    return interpolated(
        math.degrees(angle),
        (20.0, 40.0, 60.0, 80.0, 100.0, 120.0, 180.0),
        (0.11, 0.06, 0.09, 0.14, 0.18, 0.27, 0.50),
        "included angle of the hood",
        "degrees",
        _SMACNA,
    )


def hood_pressure(pressure: Pressure, coefficient: Number) -> Pressure:
    """Hood static pressure SP_h = VP (1 + F_h), as a magnitude, Pa.

    Source: ACGIH Industrial Ventilation, hood static pressure. Confidence: checked.

    pressure: velocity pressure in the duct [Pa], >= 0
    coefficient: entry loss coefficient F_h [1], >= 0
    Returns [Pa].
    Valid for: a tap one diameter behind a tapered hood, three behind a plain or flanged end.
    Raises OutOfRange: outside those ranges.

    >>> hood_pressure(2.0, 0.6)  # printed: 3.2
    3.2
    """
    require_at_least(pressure, 0.0, "velocity pressure", "Pa")
    require_at_least(coefficient, 0.0, "entry loss coefficient")
    return pressure * (1.0 + coefficient)


def coefficient_of_entry(coefficient: Number) -> Number:
    """Coefficient of entry C_e = 1/sqrt(1 + F_h), 1.

    Source: ACGIH Industrial Ventilation, coefficient of entry. Confidence: checked.

    coefficient: entry loss coefficient F_h [1], >= 0
    Returns [1]: 1 for an entry without loss.
    Valid for: simple hoods.
    Raises OutOfRange: a negative coefficient.

    >>> coefficient_of_entry(0.49)  # arithmetic of the formula
    0.8192
    """
    require_at_least(coefficient, 0.0, "entry loss coefficient")
    return 1.0 / math.sqrt(1.0 + coefficient)


def measured_coefficient_of_entry(pressure: Pressure, hood: Pressure) -> Number:
    """Coefficient of entry C_e = sqrt(VP/SP_h) from two readings, 1.

    Source: ACGIH Industrial Ventilation, coefficient of entry. Confidence: checked.

    pressure: velocity pressure in the duct [Pa], > 0
    hood: hood static pressure as a magnitude [Pa], at least the velocity pressure
    Returns [1].
    Valid for: simple hoods.
    Raises OutOfRange: a hood pressure below the velocity pressure, which no hood can show.

    >>> measured_coefficient_of_entry(0.4, 0.8)  # printed: 0.7
    0.7
    """
    require_positive(pressure, "velocity pressure", "Pa")
    require_positive(hood, "hood static pressure", "Pa")
    if hood < pressure:
        raise OutOfRange(
            f"The hood static pressure is {hood:.6g} Pa and the velocity pressure "
            f"{pressure:.6g} Pa; accelerating the air alone takes as much as the second."
        )
    return math.sqrt(pressure / hood)


def velocity_pressure_from_hood_pressure(hood: Pressure, entry: Number) -> Pressure:
    """Velocity pressure VP = C_e^2 SP_h behind a hood, Pa.

    Source: ACGIH Industrial Ventilation, coefficient of entry. Confidence: checked.

    hood: hood static pressure as a magnitude [Pa], >= 0
    entry: coefficient of entry C_e [1], above 0 to 1
    Returns [Pa].
    Valid for: simple hoods.
    Raises OutOfRange: outside those ranges.

    >>> velocity_pressure_from_hood_pressure(2.56, 0.92)  # printed: 2.17
    2.17
    """
    require_at_least(hood, 0.0, "hood static pressure", "Pa")
    require_positive(entry, "coefficient of entry")
    require_within(entry, 0.0, 1.0, "coefficient of entry", "", "the definition")
    return entry**2 * hood


def flow_from_hood_pressure(area: Area, hood: Pressure, entry: Number, density: Density) -> Flow:
    """Flow Q = C_e A sqrt(2 SP_h/rho) from one static reading behind the hood, m3/s.

    Source: ACGIH Industrial Ventilation, flow from hood static pressure; 1.29 C_e A sqrt(SP_h)
    is the same at 1.2018 kg/m3. Confidence: checked.

    area: cross-section of the duct at the tap [m2], > 0
    hood: hood static pressure as a magnitude [Pa], >= 0
    entry: coefficient of entry C_e [1], above 0 to 1
    density: density of the air [kg/m3], > 0
    Returns [m3/s].
    Valid for: a reading before the filters load; a later change shows a changed flow.
    Raises OutOfRange: outside those ranges.

    >>> flow_from_hood_pressure(0.0176715, 150.0, 0.8192, 1.2)  # arithmetic of the formula
    0.2289
    """
    require_positive(area, "area of the duct", "m2")
    require_positive(density, "density", "kg/m3")
    pressure = velocity_pressure_from_hood_pressure(hood, entry)
    return area * math.sqrt(2.0 * pressure / density)
