"""Fuses and breakers: when they hold, when they trip, and the cable they still protect.

`conventional_holding_current`, `conventional_operating_current`,
`least_cable_capacity_for_device`, `magnetic_trip_lowest_current`,
`magnetic_trip_highest_current`. All are limits of the product standards; an adjustable
breaker's setting and its data sheet come first.
"""

from __future__ import annotations

from typing import Literal

from ._bounds import require_positive
from .dimensions import Current, Number
from .limits import OutOfRange

__all__ = [
    "conventional_holding_current",
    "conventional_operating_current",
    "least_cable_capacity_for_device",
    "magnetic_trip_highest_current",
    "magnetic_trip_lowest_current",
]

_Device = Literal["IEC 60898-1", "IEC 60947-2", "gG"]
_Curve = Literal["B", "C", "D"]

_MAGNETIC_BANDS = {"B": (3.0, 5.0), "C": (5.0, 10.0), "D": (10.0, 20.0)}


def _conventional_factors(device: _Device, rated_current: Current) -> tuple[Number, Number]:
    """Holding and operating current over rated current of a device."""
    require_positive(rated_current, "rated current of the device", "A")
    if device == "IEC 60898-1":
        return 1.13, 1.45
    if device == "IEC 60947-2":
        return 1.05, 1.30
    if device == "gG":
        # A rating typed in another unit is the same rating, whatever the last bit of the float says.
        if rated_current >= 16.0 * (1.0 - 1e-9):
            return 1.25, 1.6
        return (1.5, 1.9) if rated_current > 4.0 * (1.0 + 1e-9) else (1.5, 2.1)
    raise OutOfRange(
        f"The device is {device!r}; breakers to IEC 60898-1 and IEC 60947-2 and gG fuses are known."
    )


def _magnetic_band(curve: _Curve, rated_current: Current) -> tuple[Current, Current]:
    require_positive(rated_current, "rated current of the breaker", "A")
    if curve not in _MAGNETIC_BANDS:
        raise OutOfRange(f"The characteristic is {curve!r}; B, C and D are known.")
    lowest, highest = _MAGNETIC_BANDS[curve]
    return lowest * rated_current, highest * rated_current


def conventional_holding_current(device: _Device, rated_current: Current) -> Current:
    """Current the device must carry for the conventional time without opening I1 [A].

    Source: IEC 60898-1 (1.13 In), IEC 60947-2 (1.05 In), IEC 60269 (gG 1.25 In). Confidence:
    checked (gG below 16 A, 1.5 In: from-memory).

    device: standard of the breaker, or gG
    rated_current: In, or the thermal setting where it can be set [A], > 0
    Returns [A].
    Valid for: the reference ambient of the device.
    Raises OutOfRange: a current not above zero, another device.

    >>> conventional_holding_current("IEC 60898-1", 16.0)     # 1.13 In holds, it does not trip
    18.08
    """
    return _conventional_factors(device, rated_current)[0] * rated_current


def conventional_operating_current(device: _Device, rated_current: Current) -> Current:
    """Current that opens the device within the conventional time I2 [A].

    Source: IEC 60898-1 (1.45 In), IEC 60947-2 (1.30 In), IEC 60269 (gG 1.6 In, 1.9 In below
    16 A). Confidence: checked (gG up to 4 A, 2.1 In: from-memory).

    device: standard of the breaker, or gG
    rated_current: In, or the thermal setting where it can be set [A], > 0
    Returns [A].
    Valid for: the reference ambient of the device; the conventional time is an hour or more.
    Raises OutOfRange: a current not above zero, another device.

    >>> conventional_operating_current("gG", 16.0)
    25.6
    """
    return _conventional_factors(device, rated_current)[1] * rated_current


def least_cable_capacity_for_device(device: _Device, rated_current: Current) -> Current:
    """Least corrected capacity of a cable the device protects max(In, I2/1.45) [A].

    Source: IEC 60364-4-43, 433.1: In <= Iz and I2 <= 1.45 Iz. Confidence: checked (gG up to
    4 A: from-memory).

    device: standard of the breaker, or gG
    rated_current: In, or the thermal setting where it can be set [A], > 0
    Returns [A].
    Valid for: a device that protects against overload. Where a motor's relay does, the relay's
        setting is held against the cable instead.
    Raises OutOfRange: a current not above zero, another device.

    >>> least_cable_capacity_for_device("gG", 16.0)     # arithmetic of the formula
    17.66
    """
    operating = conventional_operating_current(device, rated_current)
    return max(rated_current, operating / 1.45)


def magnetic_trip_lowest_current(curve: _Curve, rated_current: Current) -> Current:
    """Current up to which the magnetic trip must not act at once [A].

    Source: IEC 60898-1, instantaneous characteristics: B 3 In, C 5 In, D 10 In. Confidence:
    checked.

    curve: characteristic of the breaker: B, C or D
    rated_current: In [A], > 0
    Returns [A], r.m.s.: a starting current must stay below it.
    Valid for: alternating current.
    Raises OutOfRange: a current not above zero, another characteristic.

    >>> magnetic_trip_lowest_current("C", 10.0)
    50.0
    """
    return _magnetic_band(curve, rated_current)[0]


def magnetic_trip_highest_current(curve: _Curve, rated_current: Current) -> Current:
    """Current from which the magnetic trip must act at once Ia [A].

    Source: IEC 60898-1, instantaneous characteristics: B 5 In, C 10 In, D 20 In. Confidence:
    checked.

    curve: characteristic of the breaker: B, C or D
    rated_current: In [A], > 0
    Returns [A], r.m.s.: a fault current must reach it.
    Valid for: alternating current, disconnection within 0.1 s and so within 0.4 s.
    Raises OutOfRange: a current not above zero, another characteristic.

    >>> magnetic_trip_highest_current("C", 16.0)
    160.0
    """
    return _magnetic_band(curve, rated_current)[1]
