"""Switching a motor: contactor, isolator, and the device that must let it start.

Contactor and isolator: `ac3_making_capacity`, `ac3_breaking_capacity`, `ac23_making_capacity`,
`ac23_breaking_capacity`, `nec_disconnect_least_rating`, `nec_assumed_locked_rotor_current`.
The short-circuit device: `inrush_rms_equivalent`, `nec_short_circuit_device_limit`; what trips
a breaker stands in `overcurrent_devices`.
"""

from __future__ import annotations

import math

from ._bounds import require_at_least, require_positive, require_within
from .dimensions import Current, Number

__all__ = [
    "ac3_breaking_capacity",
    "ac3_making_capacity",
    "ac23_breaking_capacity",
    "ac23_making_capacity",
    "inrush_rms_equivalent",
    "nec_assumed_locked_rotor_current",
    "nec_disconnect_least_rating",
    "nec_short_circuit_device_limit",
]


def _times(current: Current, factor: Number, what: str) -> Current:
    require_positive(current, what, "A")
    return current * factor


def ac3_making_capacity(rated_current: Current) -> Current:
    """Current a contactor must make in category AC-3, 10 Ie [A].

    Source: IEC 60947-4-1, utilization categories, in contactor data sheets. Confidence: checked.

    rated_current: Ie of the contactor in AC-3 at the voltage used [A], > 0
    Returns [A].
    Valid for: occasional making; cage motors. The AC-1 figure on the plate is another matter.
    Raises OutOfRange: a current not above zero.

    >>> ac3_making_capacity(80.0)
    800.0
    """
    return _times(rated_current, 10.0, "rated current in AC-3")


def ac3_breaking_capacity(rated_current: Current) -> Current:
    """Current a contactor must break in category AC-3, 8 Ie [A].

    Source: IEC 60947-4-1, utilization categories, in contactor data sheets. Confidence: checked.

    rated_current: Ie of the contactor in AC-3 at the voltage used [A], > 0
    Returns [A].
    Valid for: occasional breaking of a stalled cage motor.
    Raises OutOfRange: a current not above zero.

    >>> ac3_breaking_capacity(80.0)
    640.0
    """
    return _times(rated_current, 8.0, "rated current in AC-3")


def ac23_making_capacity(rated_current: Current) -> Current:
    """Current a switch must make in category AC-23, 10 Ie [A].

    Source: IEC 60947-3, utilization categories. Confidence: from-memory.

    rated_current: Ie of the switch in AC-23 at the voltage used [A], > 0
    Returns [A].
    Valid for: occasional switching of motors by a switch-disconnector.
    Raises OutOfRange: a current not above zero.

    >>> ac23_making_capacity(16.0)     # arithmetic of the formula
    160.0
    """
    return _times(rated_current, 10.0, "rated current in AC-23")


def ac23_breaking_capacity(rated_current: Current) -> Current:
    """Current a switch must break in category AC-23, 8 Ie [A].

    Source: IEC 60947-3, utilization categories. Confidence: from-memory.

    rated_current: Ie of the switch in AC-23 at the voltage used [A], > 0
    Returns [A]: it must reach the locked-rotor current of the largest motor and all other loads.
    Valid for: occasional switching of motors by a switch-disconnector.
    Raises OutOfRange: a current not above zero.

    >>> ac23_breaking_capacity(4.9)     # arithmetic of the formula
    39.2
    """
    return _times(rated_current, 8.0, "rated current in AC-23")


def inrush_rms_equivalent(locked_rotor_current: Current, peak_ratio: Number) -> Current:
    """First peak of a starting current as an r.m.s. current I·r/√2 [A].

    Source: EN/IEC 60034-12:2016, note 4 to the scope: the instantaneous peak may reach 1.8 to
    2.8 times the steady r.m.s. locked-rotor current. Confidence: checked.

    locked_rotor_current: steady r.m.s. value [A], > 0
    peak_ratio: instantaneous peak over that r.m.s. value [1], 1.414 (no offset) to 2.83 (full)
    Returns [A]: to compare with a breaker's magnetic trip, which is stated in r.m.s.
    Valid for: the first half-cycle.
    Raises OutOfRange: a current not above zero, a ratio outside its range.

    >>> inrush_rms_equivalent(34.3, 2.8)     # arithmetic of the formula
    67.9
    """
    require_within(
        peak_ratio, 1.414, 2.0 * math.sqrt(2.0), "ratio of peak to r.m.s.", "", "an offset sine"
    )
    return _times(locked_rotor_current, peak_ratio / math.sqrt(2.0), "locked-rotor current")


def nec_assumed_locked_rotor_current(table_current: Current) -> Current:
    """Locked-rotor current to assume where none is known, 6 times full load [A].

    Source: NFPA 70 (NEC) 430.110(C)(3). Confidence: checked.

    table_current: full-load current of the code's table [A], > 0
    Returns [A].
    Valid for: sizing a disconnect for combined loads; a code letter or a table comes first.
    Raises OutOfRange: a current not above zero.

    >>> nec_assumed_locked_rotor_current(7.6)     # arithmetic of the formula
    45.6
    """
    return _times(table_current, 6.0, "table current")


def nec_disconnect_least_rating(table_current: Current) -> Current:
    """Least ampere rating of a motor's disconnect, 115 % [A].

    Source: NFPA 70 (NEC) 430.110(A). Confidence: checked.

    table_current: full-load current of the code's table [A], > 0
    Returns [A].
    Valid for: one motor; a switch rated in horsepower is matched by horsepower instead.
    Raises OutOfRange: a current not above zero.

    >>> nec_disconnect_least_rating(28.0)     # printed 32.2 A
    32.2
    """
    return _times(table_current, 1.15, "table current")


def nec_short_circuit_device_limit(table_current: Current, share: Number) -> Current:
    """Largest short-circuit device of a motor branch before rounding up [A].

    Source: NFPA 70 (NEC) 430.52, with the shares of Table 430.52. Confidence: checked.

    table_current: full-load current of the code's table [A], > 0
    share: of that current for the kind of device [1], at least 1: 1.75 for a time-delay fuse,
        2.5 for an inverse-time breaker
    Returns [A]; the next standard size up is allowed where this is none.
    Valid for: one motor. Such a device does not protect the conductors against overload.
    Raises OutOfRange: a current not above zero, a share below 1.

    >>> nec_short_circuit_device_limit(28.0, 2.5)     # printed 70 A
    70.0
    """
    require_at_least(share, 1.0, "share of the table current")
    return _times(table_current, share, "table current")
