"""Viscosity index, and the second point of an oil of which only the first is stated.

A grade and an index say as much as the viscosities at 40 and at 100 degrees
Celsius. The inverse here gives the second, from which ``liquid_viscosity`` goes on.
"""

from __future__ import annotations

import math

from ._bounds import require_positive, require_within
from .dimensions import KinematicViscosity, Number
from .limits import OutOfRange

__all__ = [
    "viscosity_at_100_celsius",
    "viscosity_grade_lower_limit",
    "viscosity_grade_upper_limit",
    "viscosity_index",
]

_INDEX = "the viscosity index"
# ASTM D2270, table X2.1: from this viscosity at 100 degrees on (mm2/s), the
# coefficients a, b, c of L and d, e, f of H, each a parabola of that viscosity.
_INDEX_ROWS = (
    (2.0, (1.14673, 1.7576, -0.109), (0.84155, 1.5521, -0.077)),
    (3.8, (3.38095, -15.4952, 33.196), (0.78571, 1.7929, -0.183)),
    (4.4, (2.5, -7.2143, 13.812), (0.82143, 1.5679, 0.119)),
    (5.0, (0.101, 16.635, -45.469), (0.04985, 9.1613, -18.557)),
    (6.4, (3.35714, -23.5643, 78.466), (0.22619, 7.7369, -16.656)),
    (7.0, (0.01191, 21.475, -72.87), (0.79762, -0.7321, 14.61)),
    (7.7, (0.41858, 16.1558, -56.04), (0.05794, 10.5156, -28.24)),
    (9.0, (0.88779, 7.5527, -16.6), (0.26665, 6.7015, -10.81)),
    (12.0, (0.7672, 10.7972, -38.18), (0.20073, 8.4658, -22.49)),
    (15.0, (0.97305, 5.3135, -2.2), (0.28889, 5.9741, -4.93)),
    (18.0, (0.97256, 5.25, -0.98), (0.24504, 7.416, -16.73)),
    (22.0, (0.91413, 7.4759, -21.82), (0.20323, 9.1267, -34.23)),
    (28.0, (0.87031, 9.7157, -50.77), (0.18411, 10.1015, -46.75)),
    (40.0, (0.84703, 12.6752, -133.31), (0.17029, 11.4866, -80.62)),
    (55.0, (0.85921, 11.1009, -83.19), (0.1713, 11.368, -76.94)),
    (70.0, (0.83531, 14.6731, -216.246), (0.16841, 11.8493, -96.947)),
)


def _index_limit(coefficients: tuple[float, float, float], at_100: float) -> float:
    square, linear, constant = coefficients
    return (square * at_100 + linear) * at_100 + constant


def viscosity_index(at_40: KinematicViscosity, at_100: KinematicViscosity) -> Number:
    """Viscosity index VI of an oil, 1.

    Source: ASTM D2270, procedures A and B, with the parabolas of table X2.1. Confidence: checked.

    at_40: kinematic viscosity at 40 degC [m2/s], above that at 100 degC
    at_100: kinematic viscosity at 100 degC [m2/s], 2e-6 to 500e-6
    Returns [1], not rounded.
    Valid for: petroleum products.
    Raises OutOfRange: outside those ranges.

    >>> viscosity_index(73.30e-6, 8.86e-6)  # published: 92
    92.
    """
    require_within(at_100, 2e-6, 500e-6, "viscosity at 100 degrees Celsius", "m2/s", _INDEX)
    if not at_40 > at_100:
        raise OutOfRange(
            f"The viscosity at 40 degrees Celsius is {at_40 * 1e6:.4g} mm2/s and at 100 degrees "
            f"{at_100 * 1e6:.4g} mm2/s; the first must be the larger."
        )
    warm, cool = 1e6 * at_100, 1e6 * at_40
    _, for_low, for_high = [row for row in _INDEX_ROWS if row[0] <= warm * (1.0 + 1e-12)][-1]
    low, high = _index_limit(for_low, warm), _index_limit(for_high, warm)
    if cool >= high:
        return 100.0 * (low - cool) / (low - high)
    exponent = math.log10(high / cool) / math.log10(warm)
    return float(100.0 + (10.0**exponent - 1.0) / 0.00715)


def viscosity_at_100_celsius(at_40: KinematicViscosity, index: Number) -> KinematicViscosity:
    """Kinematic viscosity at 100 degC from that at 40 degC and the viscosity index, m2/s.

    Source: ASTM D2270 turned round; it gives the second point that ASTM D341 needs. Confidence:
    checked.

    at_40: kinematic viscosity at 40 degC [m2/s], above 2e-6
    index: viscosity index [1], 0 to 400
    Returns [m2/s].
    Valid for: petroleum products with 2 mm2/s and more at 100 degC.
    Raises OutOfRange: outside those ranges, or an oil too thin for the index.

    >>> viscosity_at_100_celsius(73.30e-6, 92.426) * 1e6
    8.86
    """
    require_within(index, 0.0, 400.0, "viscosity index", "", "the relation used here")
    require_positive(at_40, "viscosity at 40 degrees Celsius", "m2/s")
    low, high = 2e-6, min(at_40 * (1.0 - 1e-12), 500e-6)
    if low >= high or not viscosity_index(at_40, low) <= index <= viscosity_index(at_40, high):
        raise OutOfRange(
            f"No viscosity at 100 degrees Celsius from 2 mm2/s on belongs to "
            f"{at_40 * 1e6:.4g} mm2/s at 40 degrees with a viscosity index of {index:.4g}."
        )
    for _ in range(200):
        middle = 0.5 * (low + high)
        if not low < middle < high:
            break
        if viscosity_index(at_40, middle) < index:
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)


def viscosity_grade_lower_limit(grade: KinematicViscosity) -> KinematicViscosity:
    """Lowest kinematic viscosity at 40 degC of an ISO viscosity grade, m2/s.

    Source: ISO 3448, limits of 10 per cent about the midpoint. Confidence: checked.

    grade: midpoint viscosity, the number of the grade in mm2/s [m2/s], > 0
    Returns [m2/s].
    Valid for: viscosity grades VG 2 to VG 3200.
    Raises OutOfRange: a grade that is not positive.

    >>> viscosity_grade_lower_limit(46e-6) * 1e6  # printed: 41.4
    41.4
    """
    require_positive(grade, "viscosity grade", "m2/s")
    return 0.9 * grade


def viscosity_grade_upper_limit(grade: KinematicViscosity) -> KinematicViscosity:
    """Highest kinematic viscosity at 40 degC of an ISO viscosity grade, m2/s.

    Source: ISO 3448, limits of 10 per cent about the midpoint. Confidence: checked.

    grade: midpoint viscosity, the number of the grade in mm2/s [m2/s], > 0
    Returns [m2/s].
    Valid for: viscosity grades VG 2 to VG 3200; a drain is sized on this end.
    Raises OutOfRange: a grade that is not positive.

    >>> viscosity_grade_upper_limit(46e-6) * 1e6  # printed: 50.6
    50.6
    """
    require_positive(grade, "viscosity grade", "m2/s")
    return 1.1 * grade
