"""A supply that is not the plate's: voltage, frequency, and what the fan makes of it.

Motor: `volts_per_hertz_ratio`, `iec_zone_a_utilisation`, `iec_zone_b_utilisation`,
`nema_combined_deviation`, `nema_deviation_utilisation`. Fan on another frequency:
`fan_speed_at_frequency`, `fan_flow_at_frequency`, `fan_pressure_at_frequency`,
`fan_power_at_frequency`. A ratio of 1 in volts per hertz keeps the iron content and
still lets a 50 Hz fan draw 73 % more power at 60 Hz.
"""

from __future__ import annotations

from ._bounds import require_positive
from .dimensions import Flow, Frequency, Number, Power, Pressure, Voltage
from .fan_laws import scaled_fan_flow, scaled_fan_power, scaled_fan_pressure

__all__ = [
    "fan_flow_at_frequency",
    "fan_power_at_frequency",
    "fan_pressure_at_frequency",
    "fan_speed_at_frequency",
    "iec_zone_a_utilisation",
    "iec_zone_b_utilisation",
    "nema_combined_deviation",
    "nema_deviation_utilisation",
    "volts_per_hertz_ratio",
]


def _deviation(value: float, rated: float, what: str, unit: str) -> Number:
    require_positive(value, what, unit)
    require_positive(rated, f"rated {what}", unit)
    return value / rated - 1.0


def _speed_ratio(frequency: Frequency, rated_frequency: Frequency) -> Number:
    return 1.0 + _deviation(frequency, rated_frequency, "frequency", "Hz")


def volts_per_hertz_ratio(
    voltage: Voltage, frequency: Frequency, rated_voltage: Voltage, rated_frequency: Frequency
) -> Number:
    """Flux of the motor against its rated flux r = (U/f)/(Un/fn) [1].

    Source: law of induction, U proportional to f times flux; the limits put on r are practice.
    Confidence: checked.

    voltage: supply voltage [V], > 0
    frequency: supply frequency [Hz], > 0
    rated_voltage: plate voltage for the links fitted [V], > 0
    rated_frequency: frequency of that plate line [Hz], > 0
    Returns [1]: above 1 the iron saturates, below 1 torque is lost.
    Valid for: motors run straight from the line. It says nothing about the fan's power.
    Raises OutOfRange: a value not above zero.

    >>> volts_per_hertz_ratio(480.0, 60.0, 400.0, 50.0)
    1.0
    """
    return (1.0 + _deviation(voltage, rated_voltage, "voltage", "V")) / (
        1.0 + _deviation(frequency, rated_frequency, "frequency", "Hz")
    )


def iec_zone_a_utilisation(
    voltage: Voltage, rated_voltage: Voltage, frequency: Frequency, rated_frequency: Frequency
) -> Number:
    """Use made of zone A, the larger of |ΔU|/5 % and |Δf|/2 % [1].

    Source: IEC 60034-1, 7.3, figure of voltage and frequency limits for motors (axis marks).
    Confidence: checked (clause number from-memory).

    voltage: supply voltage [V], > 0
    rated_voltage: plate voltage for the links fitted [V], > 0
    frequency: supply frequency [Hz], > 0
    rated_frequency: plate frequency [Hz], > 0
    Returns [1]: up to 1 inside zone A.
    Valid for: the rectangle. The zone's corners are cut where voltage and frequency deviate in
        opposite directions: test `volts_per_hertz_ratio` as well.
    Raises OutOfRange: a value not above zero.

    >>> iec_zone_a_utilisation(415.0, 400.0, 50.0, 50.0)
    0.75
    """
    in_voltage = abs(_deviation(voltage, rated_voltage, "voltage", "V")) / 0.05
    in_frequency = abs(_deviation(frequency, rated_frequency, "frequency", "Hz")) / 0.02
    return max(in_voltage, in_frequency)


def iec_zone_b_utilisation(
    voltage: Voltage, rated_voltage: Voltage, frequency: Frequency, rated_frequency: Frequency
) -> Number:
    """Use made of zone B, the larger of |ΔU|/10 % and Δf/+3 % or Δf/-5 % [1].

    Source: IEC 60034-1, 7.3, figure of voltage and frequency limits for motors (axis marks).
    Confidence: checked (clause number from-memory).

    voltage: supply voltage [V], > 0
    rated_voltage: plate voltage for the links fitted [V], > 0
    frequency: supply frequency [Hz], > 0
    rated_frequency: plate frequency [Hz], > 0
    Returns [1]: up to 1 inside zone B, which is no zone to run in for long.
    Valid for: the rectangle; see `iec_zone_a_utilisation` for its corners.
    Raises OutOfRange: a value not above zero.

    >>> iec_zone_b_utilisation(208.0, 230.0, 60.0, 60.0)
    0.957
    """
    in_voltage = abs(_deviation(voltage, rated_voltage, "voltage", "V")) / 0.10
    off_frequency = _deviation(frequency, rated_frequency, "frequency", "Hz")
    return max(in_voltage, off_frequency / 0.03, -off_frequency / 0.05)


def nema_combined_deviation(
    voltage: Voltage, rated_voltage: Voltage, frequency: Frequency, rated_frequency: Frequency
) -> Number:
    """Deviations of voltage and frequency together |ΔU| + |Δf| [1].

    Source: NEMA MG 1-2011 (condensed), 12.44.1, at most 10 % together. Confidence: checked.

    voltage: supply voltage [V], > 0
    rated_voltage: plate voltage for the links fitted [V], > 0
    frequency: supply frequency [Hz], > 0
    rated_frequency: plate frequency [Hz], > 0
    Returns [1]: up to 0.10 is allowed, if |Δf| is at most 0.05.
    Valid for: motors to NEMA MG 1.
    Raises OutOfRange: a value not above zero.

    >>> nema_combined_deviation(0.949 * 230.0, 230.0, 1.016 * 60.0, 60.0)     # printed 6.7 %
    0.067
    """
    in_voltage = abs(_deviation(voltage, rated_voltage, "voltage", "V"))
    return in_voltage + abs(_deviation(frequency, rated_frequency, "frequency", "Hz"))


def nema_deviation_utilisation(
    voltage: Voltage, rated_voltage: Voltage, frequency: Frequency, rated_frequency: Frequency
) -> Number:
    """Use made of the allowance, the larger of (|ΔU| + |Δf|)/10 % and |Δf|/5 % [1].

    Source: NEMA MG 1-2011 (condensed), 12.44.1. Confidence: checked.

    voltage: supply voltage [V], > 0
    rated_voltage: plate voltage for the links fitted [V], > 0
    frequency: supply frequency [Hz], > 0
    rated_frequency: plate frequency [Hz], > 0
    Returns [1]: up to 1 inside the allowance. The voltage's own 10 % is part of the sum.
    Valid for: motors to NEMA MG 1.
    Raises OutOfRange: a value not above zero.

    >>> nema_deviation_utilisation(253.0, 230.0, 60.0, 60.0)     # the upper limit of 230 V
    1.0
    """
    in_frequency = abs(_deviation(frequency, rated_frequency, "frequency", "Hz"))
    together = nema_combined_deviation(voltage, rated_voltage, frequency, rated_frequency)
    return max(together / 0.10, in_frequency / 0.05)


def fan_speed_at_frequency(
    speed: Frequency, frequency: Frequency, rated_frequency: Frequency
) -> Frequency:
    """Speed of a fan on another frequency n2 = n1 f2/f1 [1/s].

    Source: synchronous speed is proportional to frequency; slip ignored. Confidence: from-memory.

    speed: fan speed at the rated frequency [1/s], > 0
    frequency: supply frequency [Hz], > 0
    rated_frequency: frequency the speed belongs to [Hz], > 0
    Returns [1/s]: compare it with the highest speed of the impeller.
    Valid for: a fan on the shaft of a cage motor; the loaded motor turns a little slower.
    Raises OutOfRange: a value not above zero.

    >>> fan_speed_at_frequency(48.0, 60.0, 50.0)
    57.6
    """
    require_positive(speed, "fan speed", "1/s")
    return speed * _speed_ratio(frequency, rated_frequency)


def fan_flow_at_frequency(flow: Flow, frequency: Frequency, rated_frequency: Frequency) -> Flow:
    """Flow of a fan in the same duct on another frequency Q2 = Q1 f2/f1 [m³/s].

    Source: fan laws, textbook companion page and HVAC handbook pages. Confidence: checked.

    flow: volume flow at the rated frequency [m³/s], at least 0
    frequency: supply frequency [Hz], > 0
    rated_frequency: frequency the flow belongs to [Hz], > 0
    Returns [m³/s].
    Valid for: a duct whose loss rises with the square of the flow; slip ignored.
    Raises OutOfRange: a flow below zero, a frequency not above zero.

    >>> fan_flow_at_frequency(0.5, 60.0, 50.0)
    0.6
    """
    return scaled_fan_flow(flow, _speed_ratio(frequency, rated_frequency), 1.0)


def fan_pressure_at_frequency(
    pressure: Pressure, frequency: Frequency, rated_frequency: Frequency
) -> Pressure:
    """Pressure of a fan in the same duct on another frequency p2 = p1 (f2/f1)² [Pa].

    Source: fan laws, textbook companion page and HVAC handbook pages. Confidence: checked.

    pressure: fan pressure at the rated frequency [Pa], at least 0
    frequency: supply frequency [Hz], > 0
    rated_frequency: frequency the pressure belongs to [Hz], > 0
    Returns [Pa].
    Valid for: a duct whose loss rises with the square of the flow; slip ignored.
    Raises OutOfRange: a pressure below zero, a frequency not above zero.

    >>> fan_pressure_at_frequency(1000.0, 55.0, 50.0)     # printed +21 % for +10 % of speed
    1210.0
    """
    return scaled_fan_pressure(pressure, _speed_ratio(frequency, rated_frequency), 1.0, 1.0)


def fan_power_at_frequency(power: Power, frequency: Frequency, rated_frequency: Frequency) -> Power:
    """Power a fan absorbs in the same duct on another frequency P2 = P1 (f2/f1)³ [W].

    Source: fan laws, textbook companion page and HVAC handbook pages. Confidence: checked.

    power: power at the shaft at the rated frequency [W], at least 0
    frequency: supply frequency [Hz], > 0
    rated_frequency: frequency the power belongs to [Hz], > 0
    Returns [W].
    Valid for: a duct whose loss rises with the square of the flow; slip ignored.
    Raises OutOfRange: a power below zero, a frequency not above zero.

    >>> fan_power_at_frequency(750.0, 60.0, 50.0)     # arithmetic of the formula
    1296.0
    """
    return scaled_fan_power(power, _speed_ratio(frequency, rated_frequency), 1.0, 1.0)
