"""What a filter class promises, and what stages in a row let through.

Classes: `minimum_efficiency_en_1822`, `minimum_local_efficiency_en_1822`,
`minimum_efficiency_iso_29463`, `iso_16890_group`, `iso_16890_class_value`.
Stages: `series_efficiency`, `outlet_concentration`.
All of it is said of the new, dry, seated element; a wet or torn one keeps none of it.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Literal

from ._bounds import require_at_least, require_within
from .dimensions import Concentration, Number
from .limits import OutOfRange

__all__ = [
    "ClassEn1822",
    "ClassIso29463",
    "GroupIso16890",
    "LocalClassEn1822",
    "iso_16890_class_value",
    "iso_16890_group",
    "minimum_efficiency_en_1822",
    "minimum_efficiency_iso_29463",
    "minimum_local_efficiency_en_1822",
    "outlet_concentration",
    "series_efficiency",
]

ClassEn1822 = Literal["E10", "E11", "E12", "H13", "H14", "U15", "U16", "U17"]
LocalClassEn1822 = Literal["H13", "H14", "U15", "U16", "U17"]
ClassIso29463 = Literal[
    "15E", "20E", "25E", "30E", "35H", "40H", "45H", "50U", "55U", "60U", "65U", "70U", "75U"
]
GroupIso16890 = Literal["ISO ePM1", "ISO ePM2.5", "ISO ePM10", "ISO Coarse"]

# Printed in per cent, kept so that they can be compared with the page.
_EN_1822_PER_CENT = {
    "E10": 85.0,
    "E11": 95.0,
    "E12": 99.5,
    "H13": 99.95,
    "H14": 99.995,
    "U15": 99.9995,
    "U16": 99.99995,
    "U17": 99.999995,
}
_EN_1822_LOCAL_PER_CENT = {
    "H13": 99.75,
    "H14": 99.975,
    "U15": 99.9975,
    "U16": 99.99975,
    "U17": 99.9999,
}
_ISO_29463_PER_CENT = {
    "15E": 95.0,
    "20E": 99.0,
    "25E": 99.5,
    "30E": 99.9,
    "35H": 99.95,
    "40H": 99.99,
    "45H": 99.995,
    "50U": 99.999,
    "55U": 99.9995,
    "60U": 99.9999,
    "65U": 99.99995,
    "70U": 99.99999,
    "75U": 99.999995,
}


def _fraction(table: dict[str, float], filter_class: str, standard: str) -> Number:
    if filter_class not in table:
        raise OutOfRange(
            f"The filter class is {filter_class!r}; {standard} has {', '.join(table)}."
        )
    return table[filter_class] / 100.0


def _require_share(value: Number, what: str) -> None:
    require_within(value, 0.0, 1.0, what, "", "an efficiency as a fraction")


def minimum_efficiency_en_1822(filter_class: ClassEn1822) -> Number:
    """Lowest overall efficiency of a class at the most penetrating particle size [1].

    Source: EN 1822-1, classification table, integral values. Confidence: checked.

    filter_class: E10, E11, E12, H13, H14, U15, U16 or U17
    Returns [1].
    Valid for: the test aerosol at 0.1 µm to 0.3 µm and the rated flow.
    Raises OutOfRange: a class the standard does not have.

    >>> minimum_efficiency_en_1822("H13")
    0.9995
    """
    return _fraction(_EN_1822_PER_CENT, filter_class, "EN 1822-1")


def minimum_local_efficiency_en_1822(filter_class: LocalClassEn1822) -> Number:
    """Lowest efficiency of a class at any place of its face [1].

    Source: EN 1822-1, classification table, local values. Confidence: checked.

    filter_class: H13, H14, U15, U16 or U17; E classes have no local value
    Returns [1].
    Valid for: the test aerosol at 0.1 µm to 0.3 µm and the rated flow.
    Raises OutOfRange: a class without a local value.

    >>> minimum_local_efficiency_en_1822("H14")
    0.99975
    """
    return _fraction(_EN_1822_LOCAL_PER_CENT, filter_class, "the leak test of EN 1822-1")


def minimum_efficiency_iso_29463(filter_class: ClassIso29463) -> Number:
    """Lowest overall efficiency of a class at the most penetrating particle size [1].

    Source: ISO 29463-1, classification table. Confidence: checked (35H to 75U on three pages, 15E
    to 30E on one).

    filter_class: number and letter, such as 15E, 35H or 75U
    Returns [1].
    Valid for: the test aerosol and the rated flow. The number is no efficiency: 15E keeps 95 %.
    Raises OutOfRange: a class the standard does not have.

    >>> minimum_efficiency_iso_29463("45H")
    0.99995
    """
    return _fraction(_ISO_29463_PER_CENT, filter_class, "ISO 29463-1")


def iso_16890_group(epm1_minimum: Number, epm25_minimum: Number, epm10: Number) -> GroupIso16890:
    """Finest group that a filter's efficiencies allow.

    Source: ISO 16890-1, table of filter groups: 50 % or more, for PM1 and PM2.5 as the lowest of
    new and discharged. Confidence: checked.

    epm1_minimum: lowest efficiency on PM1 [1], 0 to 1
    epm25_minimum: lowest efficiency on PM2.5 [1], 0 to 1
    epm10: efficiency on PM10 [1], 0 to 1
    Returns the name of the group.
    Valid for: filters tested to ISO 16890; the F and G names of EN 779 do not translate.
    Raises OutOfRange: an efficiency outside 0 to 1, or one that falls with the particle size.

    >>> iso_16890_group(0.62, 0.71, 0.88)
    'ISO ePM1'
    """
    _require_share(epm1_minimum, "efficiency on PM1")
    _require_share(epm25_minimum, "efficiency on PM2.5")
    _require_share(epm10, "efficiency on PM10")
    if not epm1_minimum <= epm25_minimum <= epm10:
        raise OutOfRange(
            f"The efficiencies on PM1, PM2.5 and PM10 are {epm1_minimum:g}, {epm25_minimum:g} and "
            f"{epm10:g}; in ISO 16890 they cannot fall as the particles grow."
        )
    if epm1_minimum >= 0.5:
        return "ISO ePM1"
    if epm25_minimum >= 0.5:
        return "ISO ePM2.5"
    if epm10 >= 0.5:
        return "ISO ePM10"
    return "ISO Coarse"


def iso_16890_class_value(efficiency: Number) -> Number:
    """Efficiency that may be printed beside the group [1].

    Source: ISO 16890-1, reporting: rounded down to the next 5 %, above 95 % printed as "> 95 %".
    Confidence: checked.

    efficiency: mean efficiency on the group's particles [1], 0.5 to 1
    Returns [1], 0.95 standing also for "> 95 %".
    Valid for: the ePM groups; ISO Coarse prints its initial arrestance instead.
    Raises OutOfRange: an efficiency below 0.5 or above 1.

    >>> iso_16890_class_value(0.64)
    0.6
    """
    require_within(efficiency, 0.5, 1.0, "efficiency", "", "an ePM group of ISO 16890")
    # The slack keeps 0.85, which binary fractions hold as a little less, at 0.85.
    return min(math.floor(efficiency * 20.0 + 1e-9), 19) / 20.0


def series_efficiency(efficiencies: Sequence[Number]) -> Number:
    """Efficiency of stages one after another [1].

    Source: product of the penetrations, 1 - Π(1 - ηi). Confidence: common-practice.

    efficiencies: of each stage for the particles that reach it [1], 0 to 1, at least one
    Returns [1].
    Valid for: efficiencies of one particle size; a pre-filter leaves the finest mist to the next
        stage, so mean efficiencies overstate the result.
    Raises OutOfRange: no stage, or an efficiency outside 0 to 1.

    >>> series_efficiency([0.5, 0.8, 0.9])
    0.99
    """
    if len(efficiencies) == 0:
        raise OutOfRange("No stage was given; a row of filters has at least one.")
    for efficiency in efficiencies:
        _require_share(efficiency, "efficiency of a stage")
    return 1.0 - math.prod(1.0 - efficiency for efficiency in efficiencies)


def outlet_concentration(inlet: Concentration, efficiency: Number) -> Concentration:
    """Mist left in the air after a filter C2 [kg/m³].

    Source: penetration, C2 = C1 (1 - η). Confidence: common-practice.

    inlet: mist in the air going in [kg/m³], >= 0
    efficiency: of the filter for that mist [1], 0 to 1
    Returns [kg/m³].
    Valid for: droplets; vapour passes.
    Raises OutOfRange: a value outside its range.

    >>> outlet_concentration(20e-6, 0.9995) * 1e6
    0.010
    """
    require_at_least(inlet, 0.0, "concentration going in", "kg/m³")
    _require_share(efficiency, "efficiency")
    return inlet * (1.0 - efficiency)
