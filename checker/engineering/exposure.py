"""Mist in the air of the shop: steady room concentrations, shift averages, mixtures.

Room: `steady_concentration_returned`, `steady_concentration_discharged`,
`concentration_from_returned_air`, `penetration_hidden_by_escape`.
Person: `shift_average_concentration`, `mixture_index`.
Liquid: `collected_mist_rate`.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from ._bounds import require_at_least, require_positive, require_within
from .dimensions import Concentration, Flow, MassFlow, Number, Time
from .limits import OutOfRange

__all__ = [
    "collected_mist_rate",
    "concentration_from_returned_air",
    "mixture_index",
    "penetration_hidden_by_escape",
    "shift_average_concentration",
    "steady_concentration_discharged",
    "steady_concentration_returned",
]

_EIGHT_HOURS = 8.0 * 3600.0
_DAY = 24.0 * 3600.0


def _require_share(value: Number, what: str) -> None:
    require_within(value, 0.0, 1.0, what, "", "an efficiency as a fraction")


def _require_mixing(mixing_factor: Number) -> None:
    require_within(mixing_factor, 1.0, 10.0, "mixing factor", "", "dilution ventilation practice")


def steady_concentration_returned(
    generation: MassFlow,
    capture_efficiency: Number,
    filter_efficiency: Number,
    unit_flow: Flow,
    outdoor_air: Flow,
    mixing_factor: Number,
) -> Concentration:
    """Steady mist concentration in a shop whose unit blows the cleaned air back C [kg/m³].

    Source: mass balance of a well-mixed room, C = K G (1 - ηc ηf)/(Qo + ηf Qe), the quantities
    being those of the NIOSH recirculation criteria study (Astleford, 1975). Confidence:
    common-practice (derived here; the tests march the balance through time).

    generation: mist the process makes G [kg/s], >= 0
    capture_efficiency: share the enclosure leads to the unit ηc [1], 0 to 1
    filter_efficiency: share the unit keeps back ηf [1], 0 to 1
    unit_flow: air through the unit Qe [m³/s], >= 0
    outdoor_air: outdoor air into the room Qo [m³/s], >= 0
    mixing_factor: K [1], 1 (well mixed) to 10
    Returns [kg/m³].
    Valid for: liquid mist; vapour passes every mist filter (enter it with an efficiency of 0).
    Raises OutOfRange: a value outside its range, or nothing that removes mist from the room.

    >>> steady_concentration_returned(20e-3 / 3600, 0.98, 0.95, 1000 / 3600, 5000 / 3600, 1) * 1e6
    0.232
    """
    require_at_least(generation, 0.0, "generation of mist", "kg/s")
    _require_share(capture_efficiency, "capture efficiency")
    _require_share(filter_efficiency, "filter efficiency")
    require_at_least(unit_flow, 0.0, "flow of the unit", "m³/s")
    require_at_least(outdoor_air, 0.0, "flow of outdoor air", "m³/s")
    _require_mixing(mixing_factor)
    removal = outdoor_air + filter_efficiency * unit_flow
    require_positive(removal, "flow that takes mist out of the room", "m³/s")
    released = generation * (1.0 - capture_efficiency * filter_efficiency)
    return mixing_factor * released / removal


def steady_concentration_discharged(
    generation: MassFlow,
    capture_efficiency: Number,
    unit_flow: Flow,
    outdoor_air: Flow,
    mixing_factor: Number,
) -> Concentration:
    """Steady mist concentration in a shop whose unit blows outdoors C [kg/m³].

    Source: mass balance of a well-mixed room, C = K G (1 - ηc)/(Qo + Qe). Confidence:
    common-practice (derived here; the tests march the balance through time).

    generation: mist the process makes G [kg/s], >= 0
    capture_efficiency: share the enclosure leads to the unit ηc [1], 0 to 1
    unit_flow: air the unit takes from the room and clean make-up air replaces Qe [m³/s], >= 0
    outdoor_air: other outdoor air into the room Qo [m³/s], >= 0
    mixing_factor: K [1], 1 (well mixed) to 10
    Returns [kg/m³].
    Valid for: make-up air that is clean and does arrive, whatever the wind and the doors.
    Raises OutOfRange: a value outside its range, or no air at all.

    >>> steady_concentration_discharged(20e-3 / 3600, 0.98, 1000 / 3600, 5000 / 3600, 1) * 1e6
    0.0667
    """
    # Air blown outdoors takes out of the room what a perfect filter would.
    require_at_least(generation, 0.0, "generation of mist", "kg/s")
    _require_share(capture_efficiency, "capture efficiency")
    require_at_least(unit_flow, 0.0, "flow of the unit", "m³/s")
    require_at_least(outdoor_air, 0.0, "flow of outdoor air", "m³/s")
    _require_mixing(mixing_factor)
    removal = outdoor_air + unit_flow
    require_positive(removal, "flow that takes mist out of the room", "m³/s")
    return mixing_factor * generation * (1.0 - capture_efficiency) / removal


def concentration_from_returned_air(
    outlet_concentration: Concentration,
    unit_flow: Flow,
    units: Number,
    outdoor_air: Flow,
    mixing_factor: Number,
) -> Concentration:
    """Room concentration that returned air alone brings about, upper bound C [kg/m³].

    Source: dilution of a known release, C = K N c Qe/Qo. Confidence: common-practice.

    outlet_concentration: mist in the air the unit returns c [kg/m³], >= 0
    unit_flow: air through one unit Qe [m³/s], >= 0
    units: like units in the room N [1], >= 0
    outdoor_air: outdoor air into the room Qo [m³/s], > 0
    mixing_factor: K [1], 1 (well mixed) to 10
    Returns [kg/m³].
    Valid for: an upper bound; it leaves out that the units clean the room air as well.
    Raises OutOfRange: a value outside its range.

    >>> concentration_from_returned_air(1e-6, 800 / 3600, 6, 12000 / 3600, 3) * 1e6
    1.2
    """
    require_at_least(outlet_concentration, 0.0, "concentration in the returned air", "kg/m³")
    require_at_least(unit_flow, 0.0, "flow of the unit", "m³/s")
    require_at_least(units, 0.0, "number of units")
    require_positive(outdoor_air, "flow of outdoor air", "m³/s")
    _require_mixing(mixing_factor)
    return mixing_factor * units * outlet_concentration * unit_flow / outdoor_air


def penetration_hidden_by_escape(capture_efficiency: Number) -> Number:
    """Filter penetration below which escape past the enclosure governs the room P [1].

    Source: mass balance of a well-mixed room: the filter passes ηc P, the enclosure loses
    1 - ηc; they are equal at P = (1 - ηc)/ηc. Confidence: common-practice (derived here).

    capture_efficiency: share the enclosure leads to the unit ηc [1], above 0 and at most 1
    Returns [1]; below it, sealing the machine does more than a better filter. Above 1 it says
        that no filter matters as much as the escape.
    Valid for: air blown back into the room.
    Raises OutOfRange: efficiency not above 0, or above 1.

    >>> penetration_hidden_by_escape(0.98)
    0.0204
    """
    _require_share(capture_efficiency, "capture efficiency")
    require_positive(capture_efficiency, "capture efficiency")
    return (1.0 - capture_efficiency) / capture_efficiency


def shift_average_concentration(
    concentrations: Sequence[Concentration], durations: Sequence[Time]
) -> Concentration:
    """Equivalent eight-hour exposure of a working shift E [kg/m³].

    Source: 29 CFR 1910.1000(d)(1)(i), E = (Ca Ta + Cb Tb + ...)/8. Confidence: checked.

    concentrations: in the breathing zone during each period [kg/m³], >= 0
    durations: of the same periods [s], each above 0, together at most 24 h
    Returns [kg/m³].
    Valid for: eight-hour limits; the eight stays eight however long the shift.
    Raises OutOfRange: lists of unequal length or empty, or a value outside its range.

    >>> shift_average_concentration([150.0, 75.0, 50.0], [2 * 3600, 2 * 3600, 4 * 3600])
    81.25
    """
    if len(concentrations) == 0 or len(concentrations) != len(durations):
        raise OutOfRange(
            f"There are {len(concentrations)} concentrations and {len(durations)} durations; each "
            "period of the shift needs one of both, and there must be at least one."
        )
    for concentration, duration in zip(concentrations, durations, strict=True):
        require_at_least(concentration, 0.0, "concentration", "kg/m³")
        require_positive(duration, "period of the shift", "s")
    total = math.fsum(durations)
    require_within(total, 0.0, _DAY, "sum of the periods", "s", "a day")
    return math.fsum(c * t for c, t in zip(concentrations, durations, strict=True)) / _EIGHT_HOURS


def mixture_index(
    concentrations: Sequence[Concentration], limits: Sequence[Concentration]
) -> Number:
    """Equivalent exposure to a mixture Em [1].

    Source: 29 CFR 1910.1000(d)(2)(i), Em = C1/L1 + C2/L2 + ..., not to exceed one. Confidence:
    checked.

    concentrations: eight-hour exposure to each substance [kg/m³], >= 0
    limits: limit of the same substances in the same fraction [kg/m³], > 0
    Returns [1].
    Valid for: substances that harm in the same way.
    Raises OutOfRange: lists of unequal length or empty, or a value outside its range.

    >>> mixture_index([500.0, 45.0, 40.0], [1000.0, 200.0, 200.0])
    0.925
    """
    if len(concentrations) == 0 or len(concentrations) != len(limits):
        raise OutOfRange(
            f"There are {len(concentrations)} concentrations and {len(limits)} limits; each "
            "substance needs one of both, and there must be at least one."
        )
    for concentration, limit in zip(concentrations, limits, strict=True):
        require_at_least(concentration, 0.0, "concentration", "kg/m³")
        require_positive(limit, "limit of a substance", "kg/m³")
    return math.fsum(
        concentration / limit for concentration, limit in zip(concentrations, limits, strict=True)
    )


def collected_mist_rate(
    inlet_concentration: Concentration, outlet_concentration: Concentration, unit_flow: Flow
) -> MassFlow:
    """Mass of mist the unit keeps back in a time [kg/s].

    Source: mass balance over the unit, (C1 - C2) Q. Confidence: common-practice.

    inlet_concentration: mist in the air going in [kg/m³], >= 0
    outlet_concentration: mist in the air coming out [kg/m³], from 0 to the one going in
    unit_flow: air through the unit [m³/s], >= 0
    Returns [kg/s]; divided by the density of the liquid, the flow to drain.
    Valid for: mist; liquid carried over as splashes must be measured in a jug.
    Raises OutOfRange: a value outside its range.

    >>> collected_mist_rate(50e-6, 0.0, 600 / 3600) * 3600 * 1000      # g/h
    30.0
    """
    require_at_least(inlet_concentration, 0.0, "concentration going in", "kg/m³")
    require_at_least(outlet_concentration, 0.0, "concentration coming out", "kg/m³")
    require_at_least(unit_flow, 0.0, "flow of the unit", "m³/s")
    if outlet_concentration > inlet_concentration:
        raise OutOfRange(
            f"The air comes out with {outlet_concentration * 1e6:g} mg/m³ and goes in with "
            f"{inlet_concentration * 1e6:g} mg/m³; a filter cannot add mist."
        )
    return (inlet_concentration - outlet_concentration) * unit_flow
