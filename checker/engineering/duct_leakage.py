"""Air that leaks through the joints of a duct: what a class permits, what a test found.

Surface: `round_duct_surface`, `rectangular_duct_surface`.
European classes: `permitted_leakage`, `tightness_class_met`.
American classes: `smacna_permitted_leakage`, `smacna_leakage_class`.
"""

from __future__ import annotations

import math
from typing import Literal

from ._bounds import require_at_least, require_positive, require_within
from .dimensions import Area, Flow, Length, Number, Pressure
from .limits import OutOfRange

__all__ = [
    "TightnessClass",
    "TightnessClassOrNone",
    "permitted_leakage",
    "rectangular_duct_surface",
    "round_duct_surface",
    "smacna_leakage_class",
    "smacna_permitted_leakage",
    "tightness_class_met",
]

TightnessClass = Literal["ATC 6", "A", "B", "C", "D", "ATC 1"]
TightnessClassOrNone = Literal["ATC 6", "A", "B", "C", "D", "ATC 1", "none"]

# Litres a second per square metre at 1 Pa. EN 16798-3 calls A to D ATC 5 to ATC 2.
# The page they were read on heads them m³/h per m²; with its factor of a thousandth they
# are m³/s per m², which alone agrees with class D as stated for EN 12237.
_FACTORS = {"ATC 6": 0.0675, "A": 0.027, "B": 0.009, "C": 0.003, "D": 0.001, "ATC 1": 0.00033}
_EXPONENT = 0.65
# Highest pressure of class C in EN 1507, as reproduced in a duct maker's standards page.
_HIGHEST_TEST_PRESSURE = 2000.0

_CUBIC_FOOT_PER_MINUTE = 0.3048**3 / 60.0
_HUNDRED_SQUARE_FEET = 100.0 * 0.3048**2
_INCH_OF_WATER = 249.089


def _require_test_pressure(pressure: Pressure) -> None:
    require_positive(pressure, "pressure across the duct wall", "Pa")
    formula = "the leakage formula of the duct classes"
    require_within(
        pressure, 0.0, _HIGHEST_TEST_PRESSURE, "pressure across the duct wall", "Pa", formula
    )


def _smacna_unit(pressure: Pressure, surface: Area) -> Flow:
    _require_test_pressure(pressure)
    require_positive(surface, "surface of the duct", "m²")
    per_area = _CUBIC_FOOT_PER_MINUTE / _HUNDRED_SQUARE_FEET
    return per_area * surface * math.pow(pressure / _INCH_OF_WATER, _EXPONENT)


def round_duct_surface(bore: Length, length: Length) -> Area:
    """Surface of a round duct A [m²].

    Source: A = πDL. Confidence: common-practice.

    bore: inside diameter [m], > 0
    length: of the run [m], >= 0
    Returns [m²].
    Valid for: straight runs; take fittings along their centre line.
    Raises OutOfRange: a value outside its range.

    >>> round_duct_surface(0.160, 5.0)
    2.513
    """
    require_positive(bore, "bore", "m")
    require_at_least(length, 0.0, "length", "m")
    return math.pi * bore * length


def rectangular_duct_surface(width: Length, height: Length, length: Length) -> Area:
    """Surface of a rectangular duct or of a plenum's four sides A [m²].

    Source: A = 2(a + b)L. Confidence: common-practice.

    width: inside [m], > 0
    height: inside [m], > 0
    length: of the run [m], >= 0
    Returns [m²].
    Valid for: straight runs.
    Raises OutOfRange: a value outside its range.

    >>> rectangular_duct_surface(0.4, 0.3, 2.0)
    2.8
    """
    require_positive(width, "width", "m")
    require_positive(height, "height", "m")
    require_at_least(length, 0.0, "length", "m")
    return 2.0 * (width + height) * length


def permitted_leakage(tightness_class: TightnessClass, pressure: Pressure, surface: Area) -> Flow:
    """Leakage a tightness class permits q [m³/s].

    Source: EN 12237 (round), EN 1507 (rectangular) and EN 16798-3, q = f p^0.65 A with f 0.027
    (A), 0.009 (B), 0.003 (C), 0.001 (D) l/s per m². Confidence: checked (quoted table).

    tightness_class: A, B, C or D, or ATC 6 (worse than A), ATC 1 (better than D)
    pressure: across the duct wall, suction or pressure alike [Pa], above 0 and at most 2000
    surface: of the duct [m²], >= 0
    Returns [m³/s].
    Valid for: ducts; L1 to L3 are classes of air-handling unit casings and refused.
    Raises OutOfRange: another class, or a value outside its range.

    >>> permitted_leakage("C", 500.0, 2.513) * 3600      # m3/h, arithmetic of the formula
    1.54
    """
    if tightness_class not in _FACTORS:
        raise OutOfRange(
            f"The tightness class is {tightness_class!r}; ducts have {', '.join(_FACTORS)}."
        )
    _require_test_pressure(pressure)
    require_at_least(surface, 0.0, "surface of the duct", "m²")
    return _FACTORS[tightness_class] * 1e-3 * math.pow(pressure, _EXPONENT) * surface


def tightness_class_met(leakage: Flow, pressure: Pressure, surface: Area) -> TightnessClassOrNone:
    """Tightest class whose permitted leakage a test does not exceed.

    Source: EN 12237, EN 1507 and EN 16798-3, as `permitted_leakage`. Confidence: checked (quoted
    table).

    leakage: measured at the pressure [m³/s], >= 0
    pressure: across the duct wall during the test [Pa], above 0 and at most 2000
    surface: of the tested duct [m²], > 0
    Returns the class, or none.
    Valid for: ducts.
    Raises OutOfRange: a value outside its range.

    >>> tightness_class_met(1.5 / 3600, 500.0, 2.513)
    'C'
    """
    require_at_least(leakage, 0.0, "leakage", "m³/s")
    require_positive(surface, "surface of the duct", "m²")
    tightest_first: tuple[TightnessClass, ...] = ("ATC 1", "D", "C", "B", "A", "ATC 6")
    for tightness_class in tightest_first:
        if leakage <= permitted_leakage(tightness_class, pressure, surface):
            return tightness_class
    return "none"


def smacna_permitted_leakage(leakage_class: Number, pressure: Pressure, surface: Area) -> Flow:
    """Leakage an American leakage class permits q [m³/s].

    Source: SMACNA HVAC Air Duct Leakage Test Manual, F = C_L p^0.65 in cubic feet a minute per
    100 square feet, p in inches of water. Confidence: checked (quoted formula).

    leakage_class: C_L [1], > 0, such as 3, 6, 12 for round and 6, 12, 24 for rectangular metal
    pressure: across the duct wall [Pa], above 0 and at most 2000
    surface: of the duct [m²], > 0
    Returns [m³/s].
    Valid for: ducts.
    Raises OutOfRange: a value outside its range.

    >>> smacna_permitted_leakage(12, 1.0, 1.0) * 1000    # l/s per m2 at 1 Pa
    0.0169
    """
    require_positive(leakage_class, "leakage class")
    return leakage_class * _smacna_unit(pressure, surface)


def smacna_leakage_class(leakage: Flow, pressure: Pressure, surface: Area) -> Number:
    """American leakage class of a measured or allowed leakage C_L [1].

    Source: SMACNA HVAC Air Duct Leakage Test Manual, C_L = F/p^0.65; ASHRAE Handbook
    Fundamentals (SI), Duct Design, the same from a share of the fan flow. Confidence: checked.

    leakage: at the pressure [m³/s], >= 0
    pressure: across the duct wall [Pa], above 0 and at most 2000
    surface: of the duct [m²], > 0
    Returns [1].
    Valid for: ducts.
    Raises OutOfRange: a value outside its range.

    >>> smacna_leakage_class(0.003e-3, 1.0, 1.0)         # European class C
    2.13
    """
    require_at_least(leakage, 0.0, "leakage", "m³/s")
    return leakage / _smacna_unit(pressure, surface)
