"""A motor's plate: the connection of its windings and its full-load current.

Connection: `winding_voltage`, `winding_voltage_deviation`, `plate_voltage_ratio_deviation`,
`plate_current_ratio_deviation`. Current: `three_phase_full_load_current`,
`single_phase_full_load_current`. A supply of another voltage or frequency stands in
`supply_deviation`; unbalance, derating and starting in `motor_duty`.
"""

from __future__ import annotations

import math
from typing import Literal

from ._bounds import require_positive
from .dimensions import Current, Number, Power, Voltage
from .limits import OutOfRange

__all__ = [
    "plate_current_ratio_deviation",
    "plate_voltage_ratio_deviation",
    "single_phase_full_load_current",
    "three_phase_full_load_current",
    "winding_voltage",
    "winding_voltage_deviation",
]

_Connection = Literal["star", "delta", "series", "parallel"]
_Marking = Literal["star-delta", "series-parallel"]


def _require_share(value: Number, what: str) -> None:
    if not 0.0 < value <= 1.0:
        raise OutOfRange(f"The {what} is {value:g}; it lies above 0 and is at most 1.")


def _plate_ratio(marking: _Marking) -> Number:
    if marking == "star-delta":
        return math.sqrt(3.0)
    if marking == "series-parallel":
        return 2.0
    raise OutOfRange(f"The marking is {marking!r}; star-delta and series-parallel are known.")


def winding_voltage(line_voltage: Voltage, connection: _Connection) -> Voltage:
    """Voltage across one winding, or one half of a split winding, Ua [V].

    Source: IEC 60034-8, terminal markings; suppliers' connection pages: star for the higher,
    delta for the lower voltage of the plate. Confidence: checked (series and parallel:
    from-memory).

    line_voltage: voltage between lines [V], > 0
    connection: links fitted: star, delta, series or parallel
    Returns [V]: U in delta and in parallel, U/√3 in star, U/2 in series.
    Valid for: comparison with the lower voltage of the plate pair, whose winding it is.
    Raises OutOfRange: a voltage not above zero, another connection.

    >>> winding_voltage(400.0, "star")
    230.9
    """
    require_positive(line_voltage, "line voltage", "V")
    if connection in ("delta", "parallel"):
        return line_voltage
    if connection == "star":
        return line_voltage / math.sqrt(3.0)
    if connection == "series":
        return line_voltage / 2.0
    raise OutOfRange(
        f"The connection is {connection!r}; star, delta, series and parallel are known."
    )


def winding_voltage_deviation(
    line_voltage: Voltage, connection: _Connection, lower_plate_voltage: Voltage
) -> Number:
    """Deviation of the winding's voltage from the one it is made for d = Ua/Uw - 1 [1].

    Source: IEC 60034-8, terminal markings; suppliers' connection pages. Confidence: checked
    (series and parallel: from-memory).

    line_voltage: measured voltage between lines [V], > 0
    connection: links fitted: star, delta, series or parallel
    lower_plate_voltage: lower voltage of the plate pair, that of delta or of parallel [V], > 0
    Returns [1]: +0.73 is delta where star belongs, -0.42 is star where delta belongs.
    Valid for: a plate with one pair of voltages.
    Raises OutOfRange: a voltage not above zero, another connection.

    >>> winding_voltage_deviation(400.0, "delta", 230.0)     # 230/400 V plate linked for 230 V
    0.739
    """
    applied = winding_voltage(line_voltage, connection)
    require_positive(lower_plate_voltage, "lower plate voltage", "V")
    return applied / lower_plate_voltage - 1.0


def plate_voltage_ratio_deviation(lower: Voltage, higher: Voltage, marking: _Marking) -> Number:
    """Deviation of the pair of plate voltages from the ratio its marking calls for [1].

    Source: IEC 60034-8, terminal markings: √3 for star and delta; 2 for series and parallel
    (nine-lead machines). Confidence: checked (series and parallel: from-memory).

    lower: lower voltage of the pair [V], > 0
    higher: higher voltage of the pair [V], above the lower
    marking: star-delta or series-parallel
    Returns [1]: near 0 where the plate was read correctly.
    Valid for: a plate with one pair of voltages.
    Raises OutOfRange: a pair that does not rise, another marking.

    >>> plate_voltage_ratio_deviation(230.0, 400.0, "star-delta")
    0.004
    """
    require_positive(lower, "lower plate voltage", "V")
    if not (higher > lower and math.isfinite(higher)):
        raise OutOfRange(
            f"The plate voltages are {lower:g} V and {higher:g} V; the second is the higher one."
        )
    return higher / lower / _plate_ratio(marking) - 1.0


def plate_current_ratio_deviation(
    at_lower_voltage: Current, at_higher_voltage: Current, marking: _Marking
) -> Number:
    """Deviation of the pair of plate currents from the ratio its marking calls for [1].

    Source: same power at both voltages of the plate: the currents stand as the voltages, the
    other way round. Confidence: checked.

    at_lower_voltage: plate current in delta, or in parallel [A], > 0
    at_higher_voltage: plate current in star, or in series [A], > 0
    marking: star-delta or series-parallel
    Returns [1]: near 0 where both currents were read correctly and in this order.
    Valid for: one motor, one frequency.
    Raises OutOfRange: a current not above zero, another marking.

    >>> plate_current_ratio_deviation(4.6, 2.6, "star-delta")
    0.02
    """
    require_positive(at_lower_voltage, "plate current at the lower voltage", "A")
    require_positive(at_higher_voltage, "plate current at the higher voltage", "A")
    return at_lower_voltage / at_higher_voltage / _plate_ratio(marking) - 1.0


def three_phase_full_load_current(
    output: Power, line_voltage: Voltage, power_factor: Number, efficiency: Number
) -> Current:
    """Full-load current of a three-phase motor I = P/(√3 U cos φ η) [A].

    Source: textbook; sheet "Rated currents of three-phase motors" with cos φ and efficiency.
    Confidence: checked (all ten currents of the sheet follow from it).

    output: shaft power of the plate [W], > 0
    line_voltage: voltage between lines [V], > 0
    power_factor: cos φ at full load [1], above 0 to 1
    efficiency: η at full load [1], above 0 to 1
    Returns [A], in the line.
    Valid for: rated load; the plate decides where it states a current.
    Raises OutOfRange: a value outside its range.

    >>> three_phase_full_load_current(1500.0, 400.0, 0.81, 0.74)     # printed 3.6 A
    3.61
    """
    require_positive(output, "shaft power", "W")
    require_positive(line_voltage, "line voltage", "V")
    _require_share(power_factor, "power factor")
    _require_share(efficiency, "efficiency")
    return output / (math.sqrt(3.0) * line_voltage * power_factor * efficiency)


def single_phase_full_load_current(
    output: Power, voltage: Voltage, power_factor: Number, efficiency: Number
) -> Current:
    """Full-load current of a single-phase motor I = P/(U cos φ η) [A].

    Source: textbook; electrical contractor's page with a worked motor cable. Confidence: checked.

    output: shaft power of the plate [W], > 0
    voltage: supply voltage [V], > 0
    power_factor: cos φ at full load [1], above 0 to 1
    efficiency: η at full load [1], above 0 to 1
    Returns [A].
    Valid for: rated load; the plate decides where it states a current.
    Raises OutOfRange: a value outside its range.

    >>> single_phase_full_load_current(4500.0, 230.0, 0.7, 0.75)     # printed 37.3 A
    37.3
    """
    require_positive(output, "shaft power", "W")
    require_positive(voltage, "supply voltage", "V")
    _require_share(power_factor, "power factor")
    _require_share(efficiency, "efficiency")
    return output / (voltage * power_factor * efficiency)
