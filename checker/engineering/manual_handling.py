"""Revised NIOSH lifting equation: the mass nearly all healthy workers can lift.

RWL = LC·HM·VM·DM·AM·FM·CM, one function a multiplier. Metric constants; lengths in
m, angles in rad, lifts as a frequency in Hz (1 lift a minute is 1/60 Hz). Where a
measured value is smaller than the method's least (horizontal distance and travel
25 cm, 0.2 lifts a minute), the method itself puts the least value in its place; past
its greatest values the multiplier, and so the recommended weight, is zero. Placing a
unit on a bracket needs control at the end of the lift: evaluate start and end, and
take the lower.
"""

from __future__ import annotations

import math
from typing import Literal

from ._bounds import interpolated, require_at_least, require_positive, require_within
from .dimensions import Angle, Frequency, Length, Mass, Number, Time
from .limits import OutOfRange

__all__ = [
    "Coupling",
    "LiftingDuration",
    "lifting_asymmetry_multiplier",
    "lifting_average_frequency",
    "lifting_coupling_multiplier",
    "lifting_distance_multiplier",
    "lifting_duration",
    "lifting_frequency_multiplier",
    "lifting_horizontal_distance_estimate",
    "lifting_horizontal_multiplier",
    "lifting_index",
    "lifting_vertical_multiplier",
    "recommended_weight_limit",
]

Coupling = Literal["good", "fair", "poor"]
LiftingDuration = Literal["short", "moderate", "long"]

_LOAD_CONSTANT = 23.0  # kg, Applications Manual, p. 7
_KNUCKLE_HEIGHT = 0.75  # m, where Tables 5 and 7 change column
# What is converted from centimetres, degrees or lifts a minute must not miss its own limit.
_ROUNDING = 1.0 + 1e-9

# Table 5, p. 15: lifts a minute; then by duration FM for hands below and from 75 cm up. A column
# ends at its last frequency with a multiplier above zero.
_LIFTS_A_MINUTE = (0.2, 0.5, *(float(count) for count in range(1, 16)))
_SHORT = (1.00, 0.97, 0.94, 0.91, 0.88, 0.84, 0.80, 0.75, 0.70, 0.60, 0.52, 0.45, 0.41, 0.37)
_MODERATE = (0.95, 0.92, 0.88, 0.84, 0.79, 0.72, 0.60, 0.50, 0.42, 0.35, 0.30, 0.26)
_LONG = (0.85, 0.81, 0.75, 0.65, 0.55, 0.45, 0.35, 0.27, 0.22, 0.18)
_FREQUENCY_MULTIPLIERS: dict[LiftingDuration, tuple[tuple[float, ...], tuple[float, ...]]] = {
    "short": (_SHORT, (*_SHORT, 0.34, 0.31, 0.28)),
    "moderate": (_MODERATE, (*_MODERATE, 0.23, 0.21)),
    "long": (_LONG, (*_LONG, 0.15, 0.13)),
}
# Table 7, p. 18: hands below and from 75 cm up.
_COUPLING_MULTIPLIERS: dict[Coupling, tuple[float, float]] = {
    "good": (1.00, 1.00),
    "fair": (0.95, 1.00),
    "poor": (0.90, 0.90),
}


def _is_high(height: Length) -> bool:
    require_at_least(height, 0.0, "height of the hands", "m")
    return height * _ROUNDING >= _KNUCKLE_HEIGHT


def lifting_horizontal_distance_estimate(container_width: Length, height: Length) -> Length:
    """Horizontal distance of the hands where it cannot be measured, H, m.

    Source: NIOSH 94-110, Applications Manual for the Revised NIOSH Lifting Equation, rev. 2021,
    p. 8: 20 cm + W/2, or 25 cm + W/2 with the hands below 25 cm. Confidence: checked.

    container_width: W, of the load away from the body [m], > 0
    height: V, of the hands above the floor [m], >= 0
    Returns [m]. Raises OutOfRange: a value outside its range.

    >>> lifting_horizontal_distance_estimate(0.40, 0.75)
    0.40
    """
    require_positive(container_width, "width of the load", "m")
    require_at_least(height, 0.0, "height of the hands", "m")
    return (0.20 if height * _ROUNDING >= 0.25 else 0.25) + container_width / 2.0


def lifting_horizontal_multiplier(horizontal_distance: Length) -> Number:
    """Horizontal multiplier, HM = 25 cm/H.

    Source: NIOSH 94-110, rev. 2021, pp. 7-8. Confidence: checked.

    horizontal_distance: H, from between the ankles to between the hands [m], > 0
    Returns [-]; by the method 1 up to 25 cm and 0 above 63 cm. Raises OutOfRange: H not above 0.

    >>> lifting_horizontal_multiplier(0.50)
    0.50
    """
    require_positive(horizontal_distance, "horizontal distance of the hands", "m")
    if horizontal_distance > 0.63 * _ROUNDING:
        return 0.0
    return 0.25 / max(0.25, horizontal_distance)


def lifting_vertical_multiplier(height: Length) -> Number:
    """Vertical multiplier, VM = 1 − 0.003·|V − 75| with V in cm.

    Source: NIOSH 94-110, rev. 2021, pp. 7 and 9. Confidence: checked.

    height: V, of the hands above the floor at the point evaluated [m], >= 0
    Returns [-]; by the method 0 above 175 cm. Raises OutOfRange: V below 0.

    >>> lifting_vertical_multiplier(0.55)
    0.94
    """
    require_at_least(height, 0.0, "height of the hands", "m")
    return 0.0 if height > 1.75 * _ROUNDING else 1.0 - 0.3 * abs(height - 0.75)


def lifting_distance_multiplier(travel: Length) -> Number:
    """Distance multiplier, DM = 0.82 + 4.5/D with D in cm.

    Source: NIOSH 94-110, rev. 2021, pp. 7 and 10-11. Confidence: checked.

    travel: D, height of the hands at the end less that at the start, without its sign [m], >= 0
    Returns [-]; by the method 1 up to 25 cm and 0 above 175 cm. Raises OutOfRange: D below 0.

    >>> lifting_distance_multiplier(0.95)
    0.87
    """
    require_at_least(travel, 0.0, "vertical travel", "m")
    return 0.0 if travel > 1.75 * _ROUNDING else 0.82 + 0.045 / max(0.25, travel)


def lifting_asymmetry_multiplier(asymmetry: Angle) -> Number:
    """Asymmetry multiplier, AM = 1 − 0.0032·A with A in degrees.

    Source: NIOSH 94-110, rev. 2021, pp. 7 and 12. Confidence: checked.

    asymmetry: A, of the load from straight ahead [rad], 0 to 180°
    Returns [-]; by the method 0 above 135°. Raises OutOfRange: angle outside its range.

    >>> lifting_asymmetry_multiplier(math.radians(45.0))
    0.86
    """
    degrees = math.degrees(asymmetry)
    require_within(degrees, 0.0, 180.0, "asymmetry angle", "degrees", "the lifting equation")
    return 0.0 if degrees > 135.0 * _ROUNDING else 1.0 - 0.0032 * max(0.0, degrees)


def lifting_duration(work_time: Time, recovery_time: Time) -> LiftingDuration:
    """Duration category of a spell of lifting.

    Source: NIOSH 94-110, rev. 2021, pp. 13-14: short up to 1 h with a recovery at least as long
    (1994: 1.2 times as long), moderate up to 2 h with 0.3 times, long up to 8 h. Confidence:
    checked.

    work_time: uninterrupted lifting [s], above 0 up to 8 h
    recovery_time: light work or rest before the next lifting [s], >= 0
    Returns "short", "moderate" or "long". Raises OutOfRange: more than 8 h, or a recovery too short
    to end the spell: then the next spell's work time is to be added.

    >>> lifting_duration(75 * 60, 8 * 3600)  # p. 14: 30 min and 45 min, too short a rest between
    'moderate'
    """
    hours = work_time / 3600.0
    require_positive(hours, "work time", "h")
    require_within(hours, 0.0, 8.0, "work time", "h", "the lifting equation")
    require_at_least(recovery_time, 0.0, "recovery time", "s")
    if hours > 2.0 * _ROUNDING:
        return "long"
    short = hours <= 1.0 * _ROUNDING
    needed = work_time * (1.0 if short else 0.3)
    if recovery_time * _ROUNDING < needed:
        raise OutOfRange(
            f"The recovery time is {recovery_time / 60.0:.4g} min after {work_time / 60.0:.4g} min "
            f"of lifting; it must be at least {needed / 60.0:.4g} min for the lifting equation, or "
            f"the work time of the next spell is to be added."
        )
    return "short" if short else "moderate"


def lifting_average_frequency(lift_rate: Frequency, work_time: Time) -> Frequency:
    """Frequency of lifting averaged over 15 min, where lifting fills only a part of them, F, Hz.

    Source: NIOSH 94-110, rev. 2021, p. 16, special frequency adjustment. Confidence: checked.

    lift_rate: while lifting [Hz], above 0 up to 15 a minute
    work_time: lifting within the 15 min [s], above 0 up to 15 min
    Returns [Hz]. Raises OutOfRange: a value outside its range.

    >>> 60 * lifting_average_frequency(10 / 60, 8 * 60)  # p. 16: 5.33 a minute
    5.33
    """
    per_minute = lift_rate * 60.0
    require_positive(per_minute, "rate of lifting", "lifts a minute")
    require_within(
        per_minute, 0.0, 15.0, "rate of lifting", "lifts a minute", "the frequency adjustment"
    )
    require_positive(work_time, "work time", "s")
    require_within(work_time, 0.0, 900.0, "work time", "s", "the frequency adjustment")
    return lift_rate * work_time / 900.0


def lifting_frequency_multiplier(
    frequency: Frequency, duration: LiftingDuration, height_at_start: Length
) -> Number:
    """Frequency multiplier, FM.

    Source: NIOSH 94-110, rev. 2021, Table 5, p. 15, between its rows in a straight line (p. 7).
    Confidence: checked; that nothing is left between a column's last multiplier and the zero under
    it is this function's reading of "above the maximum frequency" (common-practice).

    frequency: F, lifts averaged over 15 min [Hz], >= 0; 1 lift a minute is 1/60 Hz
    duration: "short" (up to 1 h), "moderate" (up to 2 h) or "long" (up to 8 h), by lifting_duration
    height_at_start: V, of the hands at the start of the lift, also for the end [m], >= 0
    Returns [-]; by the method that of 0.2 a minute for rarer lifts, and 0 past the column's end.
    Raises OutOfRange: a value below 0.

    >>> lifting_frequency_multiplier(3 / 60, "short", 0.55)
    0.88
    """
    per_minute = frequency * 60.0
    require_at_least(per_minute, 0.0, "frequency of lifting", "lifts a minute")
    column = _FREQUENCY_MULTIPLIERS[duration][_is_high(height_at_start)]
    rows = _LIFTS_A_MINUTE[: len(column)]
    if per_minute > rows[-1] * _ROUNDING:
        return 0.0
    counted = min(max(rows[0], per_minute), rows[-1])
    return interpolated(counted, rows, column, "frequency of lifting", "lifts a minute", "Table 5")


def lifting_coupling_multiplier(coupling: Coupling, height: Length) -> Number:
    """Coupling multiplier, CM, for how the hands hold the load.

    Source: NIOSH 94-110, rev. 2021, Table 7, p. 18. Confidence: checked.

    coupling: "good" (proper handles), "fair" (fingers bent under), "poor" (no grip, or a container
        over 40 cm long or 30 cm high)
    height: V, of the hands above the floor at the point evaluated [m], >= 0
    Returns [-]. Raises OutOfRange: V below 0.

    >>> lifting_coupling_multiplier("fair", 0.55)
    0.95
    """
    return _COUPLING_MULTIPLIERS[coupling][_is_high(height)]


def recommended_weight_limit(
    horizontal: Number,
    vertical: Number,
    distance: Number,
    asymmetry: Number,
    frequency: Number,
    coupling: Number,
) -> Mass:
    """Recommended weight limit, RWL = 23 kg·HM·VM·DM·AM·FM·CM, kg.

    Source: NIOSH 94-110, rev. 2021, p. 7. Confidence: checked.

    horizontal: HM [-], 0 to 1
    vertical: VM [-], 0 to 1
    distance: DM [-], 0 to 1
    asymmetry: AM [-], 0 to 1
    frequency: FM [-], 0 to 1
    coupling: CM [-], 0 to 1
    Returns [kg]; 0 where the method allows no lift. Raises OutOfRange: a multiplier outside 0 to 1.

    >>> recommended_weight_limit(1, 0.94, 0.87, 1, 0.88, 0.95)  # solved metric exercise: 15.7 kg
    15.7
    """
    product = _LOAD_CONSTANT
    for value, name in (
        (horizontal, "horizontal multiplier"),
        (vertical, "vertical multiplier"),
        (distance, "distance multiplier"),
        (asymmetry, "asymmetry multiplier"),
        (frequency, "frequency multiplier"),
        (coupling, "coupling multiplier"),
    ):
        require_within(value, 0.0, 1.0, name, "", "the lifting equation")
        product *= value
    return product


def lifting_index(load: Mass, weight_limit: Mass) -> Number:
    """Lifting index, LI = load/RWL.

    Source: NIOSH 94-110, rev. 2021, pp. 1 and 20: 1 is the goal; above 3 many workers are at
    elevated risk. Confidence: checked.

    load: mass lifted, with its container [kg], >= 0
    weight_limit: RWL, the lower of start and end [kg], > 0
    Returns [-]. Raises OutOfRange: a limit of 0, where the method allows no lift at all.

    >>> lifting_index(12.0, 15.7)  # solved metric exercise
    0.76
    """
    require_at_least(load, 0.0, "load lifted", "kg")
    require_positive(weight_limit, "recommended weight limit", "kg")
    return load / weight_limit
