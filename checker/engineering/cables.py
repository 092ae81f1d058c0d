"""Current a cable may carry where it lies, and how tightly it may be bent.

IEC world: `iec_cable_capacity`, `iec_least_tabulated_capacity`. NEC world:
`nec_conductor_capacity`, `nec_motor_conductor_least_capacity`, `awg_conductor_area`. Both:
`ambient_temperature_factor`, `least_bend_radius`. Tabulated capacities and grouping factors
are published tables; they come in as arguments.
"""

from __future__ import annotations

import math

from ._bounds import require_positive, require_within
from .dimensions import Area, Current, Length, Number, Temperature
from .limits import OutOfRange

__all__ = [
    "ambient_temperature_factor",
    "awg_conductor_area",
    "iec_cable_capacity",
    "iec_least_tabulated_capacity",
    "least_bend_radius",
    "nec_conductor_capacity",
    "nec_motor_conductor_least_capacity",
]


def _product(ambient: Number, grouping: Number, other: Number) -> Number:
    # Air below the reference gives an ambient factor above 1; the others only take away.
    require_positive(ambient, "ambient factor")
    for value, what in ((grouping, "grouping factor"), (other, "other factor")):
        if not 0.0 < value <= 1.0:
            raise OutOfRange(f"The {what} is {value:g}; it lies above 0 and is at most 1.")
    return ambient * grouping * other


def ambient_temperature_factor(
    conductor: Temperature, reference: Temperature, ambient: Temperature
) -> Number:
    """Factor for air that is not the table's Ca = √((θc - θa)/(θc - θr)) [1].

    Source: formula behind IEC 60364-5-52:2009, Table B.52.14, IEC 60204-1, Annex D, and the
    ambient factors of NFPA 70 (NEC) 310.15. Confidence: checked.

    conductor: highest temperature of the conductor [K]: 343.15 for 70 °C PVC, 363.15 for 90 °C
        XLPE or EPR
    reference: air temperature of the capacity table [K], below the conductor's: 303.15 in
        IEC 60364-5-52 and the NEC, 313.15 in IEC 60204-1
    ambient: hottest air on the route [K], below the conductor's
    Returns [1]. Above 1 in cooler air; use 1 there, as BS 7671 and IEC differ.
    Valid for: cables in air. A capacity taken at 40 °C already includes the 40 °C factor.
    Raises OutOfRange: air or reference as hot as the conductor may be, or hotter.

    >>> ambient_temperature_factor(343.15, 303.15, 318.15)     # printed 0.79
    0.79
    """
    require_positive(ambient, "ambient temperature", "K")
    require_positive(reference, "reference temperature", "K")
    for value, what in ((reference, "reference"), (ambient, "air")):
        if not value < conductor:
            raise OutOfRange(
                f"The {what} temperature is {value - 273.15:g} °C and the conductor may reach "
                f"{conductor - 273.15:g} °C; such a conductor can carry no current there."
            )
    return math.sqrt((conductor - ambient) / (conductor - reference))


def iec_cable_capacity(
    tabulated: Current, ambient: Number, grouping: Number, other: Number
) -> Current:
    """Current a cable carries where it lies Iz = Iz0·Ca·Cg·Ci [A].

    Source: IEC 60364-5-52, 523, correction factors. Confidence: checked.

    tabulated: capacity of the table for size, insulation, method and loaded cores [A], > 0
    ambient: factor Ca for the air temperature [1], > 0
    grouping: factor Cg for circuits side by side [1], above 0 to 1
    other: product of what else applies, such as thermal insulation [1], above 0 to 1
    Returns [A].
    Valid for: factors made for the table's reference temperature and method.
    Raises OutOfRange: a value outside its range.

    >>> iec_cable_capacity(60.0, 0.79, 0.70, 1.0)     # printed 33.18 A
    33.18
    """
    require_positive(tabulated, "tabulated capacity", "A")
    return tabulated * _product(ambient, grouping, other)


def iec_least_tabulated_capacity(
    needed: Current, ambient: Number, grouping: Number, other: Number
) -> Current:
    """Capacity to look for in the table It = In/(Ca·Cg·Ci) [A].

    Source: IEC 60364-5-52, 523, correction factors; electrical contractor's page with a worked
    motor cable. Confidence: checked.

    needed: capacity wanted where the cable lies, often the device's rated current [A], > 0
    ambient: factor Ca for the air temperature [1], > 0
    grouping: factor Cg for circuits side by side [1], above 0 to 1
    other: product of what else applies [1], above 0 to 1
    Returns [A].
    Valid for: factors made for the table's reference temperature and method.
    Raises OutOfRange: a value outside its range.

    >>> iec_least_tabulated_capacity(40.0, 0.94, 1.0, 1.0)     # printed 42.55 A
    42.55
    """
    require_positive(needed, "capacity needed", "A")
    return needed / _product(ambient, grouping, other)


def nec_conductor_capacity(
    at_insulation_rating: Current, ambient: Number, adjustment: Number, at_terminals: Current
) -> Current:
    """Ampacity of a conductor where it lies, capped by its terminals [A].

    Source: NFPA 70 (NEC) 310.15 with Table 310.16, and 110.14(C). Confidence: checked.

    at_insulation_rating: ampacity in the column of the conductor's insulation [A], > 0
    ambient: correction factor of the same column for the air temperature [1], > 0
    adjustment: factor for more than three current-carrying conductors [1], above 0 to 1
    at_terminals: ampacity in the column of the lowest-rated terminal [A], > 0
    Returns [A]: the smaller of the derated ampacity and that of the terminals, which is not
        derated.
    Valid for: Table 310.16 at 30 °C. The caps of 240.4(D) on small conductors are another rule.
    Raises OutOfRange: a value outside its range.

    >>> nec_conductor_capacity(25.0, 0.88, 1.0, 25.0)     # printed 22 A
    22.0
    """
    require_positive(at_insulation_rating, "ampacity at the insulation's temperature", "A")
    require_positive(at_terminals, "ampacity at the terminals' temperature", "A")
    return min(at_insulation_rating * _product(ambient, adjustment, 1.0), at_terminals)


def nec_motor_conductor_least_capacity(table_current: Current) -> Current:
    """Least ampacity of the conductors of one motor, 125 % [A].

    Source: NFPA 70 (NEC) 430.22, with the table current of 430.6(A)(1). Confidence: checked.

    table_current: full-load current of the code's table, not of the plate [A], > 0
    Returns [A].
    Valid for: one motor, continuous duty.
    Raises OutOfRange: a current not above zero.

    >>> nec_motor_conductor_least_capacity(22.0)     # printed 27.5 A
    27.5
    """
    require_positive(table_current, "table current", "A")
    return 1.25 * table_current


def awg_conductor_area(gauge: Number) -> Area:
    """Area of a conductor of an American Wire Gauge number [m²].

    Source: ASTM B258, diameter 0.127 mm · 92^((36 - n)/39). Confidence: from-memory (12 AWG
    gives the 6530 circular mils printed for it).

    gauge: AWG number [1], -3 to 40: 0 for 1/0, -1 for 2/0, -2 for 3/0, -3 for 4/0
    Returns [m²], of the metal.
    Valid for: the nominal area, solid or stranded. It is not a metric size.
    Raises OutOfRange: a number outside its range or not whole.

    >>> awg_conductor_area(12.0) * 1e6
    3.31
    """
    require_within(gauge, -3.0, 40.0, "gauge number", "", "the American Wire Gauge")
    if not float(gauge).is_integer():
        raise OutOfRange(f"The gauge number is {gauge:g}; it is a whole number.")
    diameter = 0.127e-3 * math.pow(92.0, (36.0 - gauge) / 39.0)
    return math.pi * diameter**2 / 4.0


def least_bend_radius(outside_diameter: Length, multiple: Number) -> Length:
    """Smallest radius a cable may be bent to R = n D [m].

    Source: cable maker's bend-radius tables (n by duty and diameter); EN 60204-1, clause 13, at
    least 10 D where the cable moves. Confidence: checked.

    outside_diameter: D over the sheath [m], > 0
    multiple: n for the duty [1], > 0
    Returns [m], to the inside of the bend.
    Valid for: the kind of cable the multiple was published for.
    Raises OutOfRange: a value not above zero.

    >>> least_bend_radius(0.010, 10.0)
    0.1
    """
    require_positive(outside_diameter, "outside diameter of the cable", "m")
    require_positive(multiple, "multiple of the diameter")
    return multiple * outside_diameter
