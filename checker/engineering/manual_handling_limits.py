"""When the lifting equation does not apply, and the regulator's simpler filter.

The filter of the UK Health and Safety Executive sorts out lifts that need no closer
look. Its figures are no limits: a mass above them asks for a detailed assessment or
a lifting aid, and one below them is not thereby harmless.
"""

from __future__ import annotations

import math
from typing import Literal

from ._bounds import require_at_least, require_within
from .dimensions import Angle, Frequency, Mass, Number, Speed, Temperature
from .limits import OutOfRange

__all__ = [
    "HandsReach",
    "HandsZone",
    "Sex",
    "lifting_equation_applies",
    "lifting_filter_frequency_factor",
    "lifting_filter_mass",
    "lifting_filter_twist_factor",
    "team_lifting_factor",
]

HandsZone = Literal[
    "above-shoulder",
    "elbow-to-shoulder",
    "knuckle-to-elbow",
    "mid-lower-leg-to-knuckle",
    "below-mid-lower-leg",
]
HandsReach = Literal["close", "far"]
Sex = Literal["man", "woman"]

# HSE lifting and lowering risk filter (L23, 4th ed.; INDG143 rev. 4), kg: hands close, hands far.
_FILTER: dict[Sex, dict[HandsZone, tuple[float, float]]] = {
    "man": {
        "above-shoulder": (10.0, 5.0),
        "elbow-to-shoulder": (20.0, 10.0),
        "knuckle-to-elbow": (25.0, 15.0),
        "mid-lower-leg-to-knuckle": (20.0, 10.0),
        "below-mid-lower-leg": (10.0, 5.0),
    },
    "woman": {
        "above-shoulder": (7.0, 3.0),
        "elbow-to-shoulder": (13.0, 7.0),
        "knuckle-to-elbow": (16.0, 10.0),
        "mid-lower-leg-to-knuckle": (13.0, 7.0),
        "below-mid-lower-leg": (7.0, 3.0),
    },
}
# Operations a minute, from and to, and what is left of the filter's mass. Nothing is printed
# between these bands, so nothing is given there.
_FREQUENCY_BANDS = ((0.0, 0.5, 1.0), (1.0, 2.0, 0.7), (5.0, 8.0, 0.5), (12.0, math.inf, 0.2))
_ROUNDING = 1e-9


def lifting_equation_applies(
    one_hand: bool,
    seated_or_kneeling: bool,
    restricted_space: bool,
    unstable_load: bool,
    carrying_pushing_or_pulling: bool,
    wheelbarrow_or_shovel: bool,
    on_ladder: bool,
    hand_speed: Speed,
    floor_friction: Number,
    air_temperature: Temperature,
    relative_humidity: Number,
) -> bool:
    """Whether the revised NIOSH lifting equation may be used for a lift.

    Source: NIOSH 94-110, Applications Manual for the Revised NIOSH Lifting Equation, rev. 2021,
    p. 6. Confidence: checked; that a ladder gives no footing is this function's reading
    (common-practice). More than 8 h is refused by lifting_duration.

    one_hand: lifted with one hand
    seated_or_kneeling: lifted while seated or kneeling
    restricted_space: too little room to move
    unstable_load: a centre of mass that wanders, such as oil left in a tray
    carrying_pushing_or_pulling: more than a step or two with the load, or pushed, or pulled
    wheelbarrow_or_shovel: lifted with either
    on_ladder: standing on a ladder or a step
    hand_speed: of the lift [m/s], 0 to 30 in/s; floor to table in a second is faster
    floor_friction: between sole and floor [-], >= 0.4; an oily floor has less
    air_temperature: at the place of work [temperature], 19 °C to 26 °C
    relative_humidity: at the place of work [-], 0.35 to 0.50
    Returns True. Raises OutOfRange: a condition under which the equation does not apply, the first
    one met in this order.

    >>> lifting_equation_applies(
    ...     False, False, False, True, False, False, False, 0.3, 0.6, 293.15, 0.45
    ... )
    Traceback (most recent call last):
    checker.engineering.limits.OutOfRange: The load is unstable; the lifting equation does not apply
    to it.
    """
    for refused, condition in (
        (one_hand, "The load is lifted with one hand"),
        (seated_or_kneeling, "The load is lifted while seated or kneeling"),
        (restricted_space, "The load is lifted in a restricted space"),
        (unstable_load, "The load is unstable"),
        (carrying_pushing_or_pulling, "The load is carried, pushed or pulled as well as lifted"),
        (wheelbarrow_or_shovel, "The load is lifted with a wheelbarrow or a shovel"),
        (on_ladder, "The load is lifted from a ladder"),
    ):
        if refused:
            raise OutOfRange(f"{condition}; the lifting equation does not apply to it.")
    method = "the lifting equation"
    require_within(hand_speed, 0.0, 0.762, "speed of the hands", "m/s", method)
    require_at_least(
        floor_friction, 0.4, "friction between sole and floor, for the lifting equation to apply,"
    )
    require_within(air_temperature - 273.15, 19.0, 26.0, "air temperature", "°C", method)
    require_within(relative_humidity * 100.0, 35.0, 50.0, "relative humidity", "%", method)
    return True


def lifting_filter_mass(zone: HandsZone, reach: HandsReach, sex: Sex) -> Mass:
    """Mass below which a lift in one zone of the body needs no closer look, kg.

    Source: HSE, L23 Manual handling, 4th ed., and INDG143 rev. 4, lifting and lowering risk filter.
    Confidence: checked.

    zone: of the hands, between heights on the body of the one who lifts
    reach: "close", hands near the trunk, or "far", arms outstretched
    sex: "man" or "woman"
    Returns [kg]. Valid for: up to about 30 lifts an hour, both hands, no twist; with the hands in
    several zones take the least.

    >>> lifting_filter_mass("elbow-to-shoulder", "far", "man")
    10.0
    """
    close, far = _FILTER[sex][zone]
    return close if reach == "close" else far


def lifting_filter_twist_factor(twist: Angle) -> Number:
    """What twisting leaves of the filter's mass.

    Source: HSE, INDG143 rev. 4: 10 % less beyond 45°, 20 % less beyond 90°. Confidence: checked.

    twist: of the trunk to the side during the lift [rad], 0 to 180°
    Returns [-]. Raises OutOfRange: angle outside its range.

    >>> lifting_filter_twist_factor(math.radians(50.0))
    0.9
    """
    degrees = math.degrees(twist)
    require_within(degrees, 0.0, 180.0, "twist of the trunk", "degrees", "the lifting filter")
    if degrees <= 45.0 + _ROUNDING:
        return 1.0
    return 0.9 if degrees <= 90.0 + _ROUNDING else 0.8


def lifting_filter_frequency_factor(frequency: Frequency) -> Number:
    """What repetition leaves of the filter's mass.

    Source: HSE, INDG143 rev. 4: 30 % less once or twice a minute, 50 % less 5 to 8 times, 80 % less
    more than 12 times. Confidence: checked.

    frequency: lifts [Hz], >= 0; 1 lift a minute is 1/60 Hz
    Returns [-]; 1 up to 30 an hour. Raises OutOfRange: a frequency between the printed bands, which
    the guidance leaves open.

    >>> lifting_filter_frequency_factor(2 / 60)
    0.7
    """
    per_minute = frequency * 60.0
    require_at_least(per_minute, 0.0, "frequency of lifting", "lifts a minute")
    for lowest, highest, factor in _FREQUENCY_BANDS:
        # The last band begins beyond its lower end.
        begins = (
            per_minute > lowest + _ROUNDING
            if highest == math.inf
            else (per_minute >= lowest - _ROUNDING)
        )
        if begins and per_minute <= highest + _ROUNDING:
            return factor
    raise OutOfRange(
        f"The frequency of lifting is {per_minute:.4g} a minute; the lifting filter gives a factor "
        f"up to 0.5, from 1 to 2, from 5 to 8, and above 12 a minute."
    )


def team_lifting_factor(people: Number) -> Number:
    """What a team can lift over the sum of what its members can lift.

    Source: HSE, L23 Manual handling, 4th ed.: two people two thirds. Confidence: checked; three
    people one half: from-memory.

    people: in the team, 1, 2 or 3
    Returns [-]. Raises OutOfRange: any other number.

    >>> (20.0 + 20.0) * team_lifting_factor(2)  # printed 26.6 kg
    26.7
    """
    factors: dict[Number, Number] = {1.0: 1.0, 2.0: 2.0 / 3.0, 3.0: 0.5}
    if people not in factors:
        raise OutOfRange(
            f"The team has {people:.6g} people; the guidance covers one, two or three."
        )
    return factors[people]
