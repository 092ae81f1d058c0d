"""Overload protection of a motor: dial, trip class, and the NEC's largest settings.

Relay: `overload_dial_position`, `trip_class_shortest_time`, `trip_class_longest_time`,
`trip_class_longest_warm_time`, `trip_time_at_multiple`. NEC: `nec_overload_largest_trip`,
`nec_overload_largest_trip_for_rise`, `nec_overload_largest_trip_if_no_start`,
`nec_thermal_protector_largest_trip`.

In the NEC the plate current sizes the overload protection, and the current of the code's
table everything else; the argument's name says which is wanted.
"""

from __future__ import annotations

import math
from typing import Literal

from ._bounds import require_at_least, require_positive, require_within
from .dimensions import Current, Number, TemperatureDifference, Time
from .limits import OutOfRange

__all__ = [
    "nec_overload_largest_trip",
    "nec_overload_largest_trip_for_rise",
    "nec_overload_largest_trip_if_no_start",
    "nec_thermal_protector_largest_trip",
    "overload_dial_position",
    "trip_class_longest_time",
    "trip_class_longest_warm_time",
    "trip_class_shortest_time",
    "trip_time_at_multiple",
]

_TripClass = Literal["10A", "10", "20", "30"]

# IEC 60947-4-1: seconds from cold at 7.2 times the setting, and from warm at 1.5 times it.
_SHORTEST_COLD = {"10A": 2.0, "10": 4.0, "20": 6.0, "30": 9.0}
_LONGEST_COLD = {"10A": 10.0, "10": 10.0, "20": 20.0, "30": 30.0}
_LONGEST_WARM = {"10A": 120.0, "10": 240.0, "20": 480.0, "30": 720.0}


def _of_class(times: dict[str, Time], trip_class: _TripClass) -> Time:
    if trip_class not in times:
        known = ", ".join(times)
        raise OutOfRange(f"The trip class is {trip_class!r}; times are known for {known}.")
    return times[trip_class]


def _times(current: Current, factor: Number, what: str) -> Current:
    require_positive(current, what, "A")
    return current * factor


def overload_dial_position(setting: Current, lowest: Current, highest: Current) -> Number:
    """Place of a setting on the dial (Ir - Imin)/(Imax - Imin) [1].

    Source: geometry of the scale; a setting in its end tenths is hard to set. Confidence:
    common-practice.

    setting: current to be set [A], > 0
    lowest: lower end of the scale [A], > 0
    highest: upper end of the scale [A], above the lower
    Returns [1]: 0 at the lower end, 1 at the upper; outside 0 to 1 the relay does not reach.
    Valid for: relays with one scale.
    Raises OutOfRange: a current not above zero, a scale that does not rise.

    >>> overload_dial_position(4.9, 4.5, 6.5)     # arithmetic of the formula
    0.2
    """
    require_positive(setting, "overload setting", "A")
    require_positive(lowest, "lower end of the dial", "A")
    if not (highest > lowest and math.isfinite(highest)):
        raise OutOfRange(f"The dial runs from {lowest:g} A to {highest:g} A; it must rise.")
    return (setting - lowest) / (highest - lowest)


def trip_class_shortest_time(trip_class: _TripClass) -> Time:
    """Shortest trip time from cold at 7.2 times the setting [s].

    Source: IEC 60947-4-1, trip classes. Confidence: checked.

    trip_class: class on the relay: 10A, 10, 20 or 30
    Returns [s]: the motor must have run up before.
    Valid for: 7.2 Ir, all poles; see `trip_time_at_multiple`.
    Raises OutOfRange: another class.

    >>> trip_class_shortest_time("10")
    4.0
    """
    return _of_class(_SHORTEST_COLD, trip_class)


def trip_class_longest_time(trip_class: _TripClass) -> Time:
    """Longest trip time from cold at 7.2 times the setting [s].

    Source: IEC 60947-4-1, trip classes. Confidence: checked.

    trip_class: class on the relay: 10A, 10, 20 or 30
    Returns [s]: the motor must bear its stall that long.
    Valid for: 7.2 Ir, all poles; see `trip_time_at_multiple`.
    Raises OutOfRange: another class.

    >>> trip_class_longest_time("20")
    20.0
    """
    return _of_class(_LONGEST_COLD, trip_class)


def trip_class_longest_warm_time(trip_class: _TripClass) -> Time:
    """Longest trip time from warm at 1.5 times the setting [s].

    Source: IEC 60947-4-1 and EN 60947-4-2, trip classes, in a soft starter's operating
    instructions, p. 14. Confidence: checked.

    trip_class: class on the relay: 10A, 10, 20 or 30
    Returns [s].
    Valid for: 1.5 Ir, all poles, after running at the setting.
    Raises OutOfRange: another class.

    >>> trip_class_longest_warm_time("10") / 60
    4.0
    """
    return _of_class(_LONGEST_WARM, trip_class)


def trip_time_at_multiple(time_at_7_2: Time, multiple: Number) -> Time:
    """Trip time at another multiple of the setting t = t(7.2 Ir) (7.2/m)² [s].

    Source: heating without loss, I²t constant; no standard states it. Confidence:
    common-practice.

    time_at_7_2: trip time at 7.2 times the setting [s], > 0
    multiple: locked-rotor current over the setting [1], 5 to 9
    Returns [s]. Under 7.2 a real relay loses heat and takes longer.
    Valid for: a few seconds; for more, use the curve on the relay's data sheet.
    Raises OutOfRange: a time not above zero, a multiple outside its range.

    >>> trip_time_at_multiple(4.0, 6.0)     # arithmetic of the formula
    5.76
    """
    require_positive(time_at_7_2, "trip time", "s")
    require_within(multiple, 5.0, 9.0, "multiple of the setting", "", "scaling by I²t")
    return time_at_7_2 * (7.2 / multiple) ** 2


def nec_overload_largest_trip(plate_current: Current, service_factor: Number) -> Current:
    """Largest trip current of a separate overload device by service factor [A].

    Source: NFPA 70 (NEC) 430.32(A)(1): 125 % for a service factor of 1.15 or more, else 115 %.
    Confidence: checked.

    plate_current: full-load current on the plate for the connection used [A], > 0
    service_factor: on the plate [1], at least 1
    Returns [A]. Many dials include the margin already: then the dial is set to the plate.
    Valid for: continuous duty above 1 hp. A rise of 40 °C on the plate allows 125 % too; see
        `nec_overload_largest_trip_for_rise`.
    Raises OutOfRange: a current not above zero, a service factor below 1.

    >>> nec_overload_largest_trip(26.0, 1.0)     # printed 29.9 A
    29.9
    """
    require_at_least(service_factor, 1.0, "service factor")
    return _times(plate_current, 1.25 if service_factor >= 1.15 else 1.15, "plate current")


def nec_overload_largest_trip_for_rise(
    plate_current: Current, marked_rise: TemperatureDifference
) -> Current:
    """Largest trip current of a separate overload device by temperature rise [A].

    Source: NFPA 70 (NEC) 430.32(A)(1): 125 % for a marked rise of 40 °C or less, else 115 %.
    Confidence: checked.

    plate_current: full-load current on the plate for the connection used [A], > 0
    marked_rise: temperature rise marked on the plate [K], > 0
    Returns [A].
    Valid for: continuous duty above 1 hp. The code lists rise and service factor separately.
    Raises OutOfRange: a value not above zero.

    >>> nec_overload_largest_trip_for_rise(24.0, 40.0)
    30.0
    """
    require_positive(marked_rise, "marked temperature rise", "K")
    return _times(plate_current, 1.25 if marked_rise <= 40.0 else 1.15, "plate current")


def nec_overload_largest_trip_if_no_start(
    plate_current: Current, service_factor: Number
) -> Current:
    """Largest trip current where the motor does not start on the usual one [A].

    Source: NFPA 70 (NEC) 430.32(C): 140 % for a service factor of 1.15 or more, else 130 %.
    Confidence: checked.

    plate_current: full-load current on the plate for the connection used [A], > 0
    service_factor: on the plate [1], at least 1
    Returns [A].
    Valid for: a relay that trips while starting; find out why first.
    Raises OutOfRange: a current not above zero, a service factor below 1.

    >>> nec_overload_largest_trip_if_no_start(10.0, 1.12)     # printed: 130 %
    13.0
    """
    require_at_least(service_factor, 1.0, "service factor")
    return _times(plate_current, 1.40 if service_factor >= 1.15 else 1.30, "plate current")


def nec_thermal_protector_largest_trip(table_current: Current) -> Current:
    """Largest ultimate trip current of a motor's built-in thermal protector [A].

    Source: NFPA 70 (NEC) 430.32(A)(2): 170 % to 9 A, 156 % to 20 A, 140 % above. Confidence:
    checked.

    table_current: full-load current of the code's table [A], > 0
    Returns [A]. The code writes 9.1 A where the second band starts; it starts above 9 A here.
    Valid for: continuous duty above 1 hp.
    Raises OutOfRange: a current not above zero.

    >>> nec_thermal_protector_largest_trip(9.0)
    15.3
    """
    factor = 1.70 if table_current <= 9.0 else 1.56 if table_current <= 20.0 else 1.40
    return _times(table_current, factor, "table current")
