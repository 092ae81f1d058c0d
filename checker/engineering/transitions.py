"""Loss coefficients of changes of bore, dampers and rain caps.

Closing in costs little, opening out several times as much, a step most of all.
Nothing is read beyond the ends of a table. For dampers and caps the straight line
between two points lies above the curve, on the cautious side.
"""

from __future__ import annotations

import math

from ._bounds import interpolated, require_positive, require_within
from .dimensions import Angle, Length, Number
from .limits import OutOfRange

__all__ = [
    "butterfly_damper_coefficient",
    "cone_contraction_coefficient",
    "rain_cap_coefficient",
    "reducer_area_ratio",
    "step_contraction_coefficient",
    "step_expansion_coefficient",
    "tabulated_cone_contraction_coefficient",
    "tabulated_cone_expansion_coefficient",
    "tabulated_step_contraction_coefficient",
]

_SMACNA = "SMACNA HVAC Systems Duct Design, table"


def reducer_area_ratio(smaller_bore: Length, larger_bore: Length) -> Number:
    """Area ratio (D2/D1)^2 of a change of bore, 1.

    Source: geometry. Confidence: checked.

    smaller_bore: internal diameter of the narrow side [m], > 0
    larger_bore: internal diameter of the wide side [m], at least the smaller
    Returns [1]: 1 where nothing narrows.
    Valid for: round ducts.
    Raises OutOfRange: a narrow side that is the wider.

    >>> reducer_area_ratio(0.140, 0.150)  # arithmetic of the formula
    0.871
    """
    require_positive(smaller_bore, "smaller bore", "m")
    require_positive(larger_bore, "larger bore", "m")
    if smaller_bore > larger_bore:
        raise OutOfRange(
            f"The narrow side has a bore of {smaller_bore:.6g} m and the wide side "
            f"{larger_bore:.6g} m; they are exchanged."
        )
    return (smaller_bore / larger_bore) ** 2


def step_expansion_coefficient(smaller_bore: Length, larger_bore: Length) -> Number:
    """Loss coefficient C = (1 - A1/A2)^2 of a sudden expansion, 1.

    Source: Borda and Carnot, textbook; printed tables equal it. Confidence: checked.

    smaller_bore: internal diameter before the step [m], > 0
    larger_bore: internal diameter after the step [m], at least the smaller
    Returns [1], on the velocity pressure of the smaller bore.
    Valid for: turbulent flow.
    Raises OutOfRange: bores that are exchanged.

    >>> step_expansion_coefficient(0.4**0.5, 1.0)  # printed: 0.36
    0.36
    """
    return (1.0 - reducer_area_ratio(smaller_bore, larger_bore)) ** 2


def tabulated_step_contraction_coefficient(velocity_ratio: Number) -> Number:
    """Loss coefficient C of a sudden contraction by the ratio of velocities, 1.

    Source: technical manual for ventilation units, table of C values, sudden contraction.
    Confidence: checked.

    velocity_ratio: velocity before over velocity after, V1/V2 = A2/A1 [1], 0 to 0.75
    Returns [1], on the velocity pressure of the smaller bore.
    Valid for: sharp steps. The textbook 0.5 (1 - A2/A1) is lower at 0.25 and is not used.
    Raises OutOfRange: outside that range.

    >>> tabulated_step_contraction_coefficient(0.25)  # printed: 0.45
    0.45
    """
    return interpolated(
        velocity_ratio,
        (0.0, 0.25, 0.5, 0.75),
        (0.50, 0.45, 0.32, 0.18),
        "velocity ratio",
        "",
        "the table of sudden contractions",
    )


def step_contraction_coefficient(larger_bore: Length, smaller_bore: Length) -> Number:
    """Loss coefficient C of a sharp-edged sudden contraction, 1.

    Source: Rennels and Hudson, Pipe Flow, 1st edition 2012, by the library fluids. Confidence:
    checked (the formula read in the library's documentation, which cites the book).

    larger_bore: internal diameter before the step [m], > 0
    smaller_bore: internal diameter after the step [m], up to the larger
    Returns [1], on the velocity pressure of the smaller bore.
    Valid for: turbulent flow.
    Raises OutOfRange: bores that are exchanged.

    >>> step_contraction_coefficient(0.150, 0.125)  # independent: 0.185
    0.185
    """
    from fluids.fittings import contraction_sharp  # noqa: PLC0415  # 0.1 s to import

    if reducer_area_ratio(smaller_bore, larger_bore) == 1.0:
        return 0.0
    return float(contraction_sharp(larger_bore, smaller_bore, method="Rennels"))


def cone_contraction_coefficient(
    larger_bore: Length, smaller_bore: Length, angle: Angle, factor: Number
) -> Number:
    """Loss coefficient C of a conical reducer in the direction of closing in, 1.

    Source: Rennels and Hudson, Pipe Flow, 1st edition 2012, by the library fluids.
    Confidence: from-memory.

    larger_bore: internal diameter before the cone [m], > 0
    smaller_bore: internal diameter after the cone [m], up to the larger
    angle: included angle of the cone [rad], 5 to 180 degrees
    factor: Darcy friction factor in the smaller bore [1], > 0
    Returns [1], on the velocity pressure of the smaller bore.
    Valid for: turbulent flow. Opening out costs several times as much.
    Raises OutOfRange: bores that are exchanged, an angle outside that range.

    >>> import math
    >>> cone_contraction_coefficient(0.150, 0.125, math.radians(30.0), 0.0203)  # independent: 0.024
    0.024
    """
    from fluids.fittings import contraction_conical  # noqa: PLC0415  # 0.1 s to import

    require_within(math.degrees(angle), 5.0, 180.0, "included angle", "degrees", "the cone formula")
    require_positive(factor, "friction factor")
    if reducer_area_ratio(smaller_bore, larger_bore) == 1.0:
        return 0.0
    return float(
        contraction_conical(
            larger_bore, smaller_bore, angle=math.degrees(angle), fd=factor, method="Rennels"
        )
    )


def tabulated_cone_contraction_coefficient(area_ratio: Number, angle: Angle) -> Number:
    """Loss coefficient C of a cone that closes in, by table, 1.

    Source: SMACNA HVAC Systems Duct Design, table A-9A, area ratio 2. Confidence: checked.

    area_ratio: wide area over narrow area [1], 1 to 2
    angle: included angle of the cone [rad], 10 to 180 degrees
    Returns [1], on the velocity pressure of the narrow side.
    Valid for: area ratio 2; for a smaller ratio the value is an upper bound.
    Raises OutOfRange: outside those ranges.

    >>> import math
    >>> tabulated_cone_contraction_coefficient(2.0, math.radians(30.0))  # printed: 0.05
    0.05
    """
    require_within(area_ratio, 1.0, 2.0, "area ratio", "", f"{_SMACNA} A-9A as an upper bound")
    return interpolated(
        math.degrees(angle),
        (10.0, 40.0, 60.0, 90.0, 180.0),
        (0.05, 0.05, 0.06, 0.12, 0.26),
        "included angle",
        "degrees",
        f"{_SMACNA} A-9A",
    )


def tabulated_cone_expansion_coefficient(area_ratio: Number, angle: Angle) -> Number:
    """Loss coefficient C of a cone that opens out, by table, 1.

    Source: SMACNA HVAC Systems Duct Design, table A-8A, area ratio 2, Reynolds number below
    200 000. Confidence: checked.

    area_ratio: wide area over narrow area [1], 1 to 2
    angle: included angle of the cone [rad], 16 to 60 degrees
    Returns [1], on the velocity pressure of the narrow side.
    Valid for: area ratio 2; for a smaller ratio the value is an upper bound.
    Raises OutOfRange: outside those ranges.

    >>> import math
    >>> tabulated_cone_expansion_coefficient(2.0, math.radians(30.0))  # printed: 0.32
    0.32
    """
    require_within(area_ratio, 1.0, 2.0, "area ratio", "", f"{_SMACNA} A-8A as an upper bound")
    return interpolated(
        math.degrees(angle),
        (16.0, 20.0, 30.0, 60.0),
        (0.14, 0.19, 0.32, 0.33),
        "included angle",
        "degrees",
        f"{_SMACNA} A-8A",
    )


def rain_cap_coefficient(height_ratio: Number) -> Number:
    """Loss coefficient C of a stack head or rain cap over a round outlet, 1.

    Source: SMACNA HVAC Systems Duct Design, table A-13A, 0 degrees. Confidence: checked.

    height_ratio: free height under the cap over the bore L/D [1], 0.1, 0.25 to 0.5
    Returns [1], on the velocity pressure in the outlet.
    Valid for: caps of the tabulated kind.
    Raises OutOfRange: outside that range.

    >>> rain_cap_coefficient(0.25)  # printed: 1.9
    1.9
    """
    return interpolated(
        height_ratio,
        (0.1, 0.25, 0.5),
        (4.0, 1.9, 1.2),
        "height ratio of the cap",
        "",
        f"{_SMACNA} A-13A",
    )


def butterfly_damper_coefficient(angle: Angle) -> Number:
    """Loss coefficient C of a butterfly damper in a round duct, 1.

    Source: SMACNA HVAC Systems Duct Design, table A-15A. Confidence: checked.

    angle: angle of the blade from fully open [rad], 0 to 60 degrees
    Returns [1], on the velocity pressure in the duct.
    Valid for: single flat blades. 20 degrees from open already cost 1.5 velocity pressures.
    Raises OutOfRange: outside that range.

    >>> import math
    >>> butterfly_damper_coefficient(math.radians(20.0))  # printed: 1.5
    1.5
    """
    return interpolated(
        math.degrees(angle),
        (0.0, 10.0, 20.0, 30.0, 40.0, 50.0, 60.0),
        (0.20, 0.52, 1.5, 4.5, 11.0, 29.0, 108.0),
        "angle of the damper",
        "degrees",
        f"{_SMACNA} A-15A",
    )
