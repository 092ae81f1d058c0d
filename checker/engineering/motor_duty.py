"""What heats a motor beyond its plate: unbalance, hot or thin air, starting.

Unbalance: `nema_voltage_unbalance`, `voltage_unbalance_factor`, `current_unbalance`.
Derating: `derated_power`, `rated_power_for_load`, `iec_temperature_rise_limit`. Starting:
`nema_allowed_starts`, `run_up_time`, `three_phase_locked_rotor_current`,
`single_phase_locked_rotor_current`. The factors by unbalance, ambient and altitude and the
starts by horsepower are published tables; they come in as arguments.
"""

from __future__ import annotations

import math

from ._bounds import require_positive, require_within
from .dimensions import (
    Current,
    Frequency,
    Inertia,
    Length,
    Moment,
    Number,
    Power,
    Temperature,
    TemperatureDifference,
    Time,
    Voltage,
)
from .limits import OutOfRange

__all__ = [
    "current_unbalance",
    "derated_power",
    "iec_temperature_rise_limit",
    "nema_allowed_starts",
    "nema_voltage_unbalance",
    "rated_power_for_load",
    "run_up_time",
    "single_phase_locked_rotor_current",
    "three_phase_locked_rotor_current",
    "voltage_unbalance_factor",
]

# The horsepower of NEMA and of the National Electrical Code, 550 ft·lbf/s.
_HORSEPOWER = 745.69987158227022


def _largest_deviation(first: float, second: float, third: float, what: str, unit: str) -> Number:
    values = (first, second, third)
    for value in values:
        require_positive(value, what, unit)
    mean = math.fsum(values) / 3.0
    return max(abs(value - mean) for value in values) / mean


def _require_factor(factor: Number) -> None:
    # Cool dense air gives factors above 1 in makers' tables; they are not to be used.
    if not 0.0 < factor <= 1.0:
        raise OutOfRange(f"The derating factor is {factor:g}; it lies above 0 and is at most 1.")


def nema_voltage_unbalance(first: Voltage, second: Voltage, third: Voltage) -> Number:
    """Voltage unbalance by largest deviation u = max|Ui - Uavg|/Uavg [1].

    Source: NEMA MG 1, definition of voltage unbalance. Confidence: checked.

    first: voltage between lines 1 and 2 [V], > 0
    second: voltage between lines 2 and 3 [V], > 0
    third: voltage between lines 3 and 1 [V], > 0
    Returns [1].
    Valid for: three readings within one minute, on load. It is not the ratio of negative to
        positive sequence, for which see `voltage_unbalance_factor`.
    Raises OutOfRange: a voltage not above zero.

    >>> nema_voltage_unbalance(460.0, 467.0, 450.0)     # printed 1.96 %
    0.0196
    """
    return _largest_deviation(first, second, third, "line voltage", "V")


def voltage_unbalance_factor(first: Voltage, second: Voltage, third: Voltage) -> Number:
    """Negative over positive sequence √((1 - √(3 - 6β))/(1 + √(3 - 6β))) [1].

    Source: IEC 61000-4-30, β = ΣU⁴/(ΣU²)² of the three line voltages; IEC 60034-1 limits it.
    Confidence: from-memory.

    first: voltage between lines 1 and 2 [V], > 0
    second: voltage between lines 2 and 3 [V], > 0
    third: voltage between lines 3 and 1 [V], > 0
    Returns [1].
    Valid for: sinusoidal voltages between three lines.
    Raises OutOfRange: a voltage not above zero; three voltages that close no triangle.

    >>> voltage_unbalance_factor(460.0, 467.0, 450.0)     # arithmetic of the formula
    0.02147
    """
    squares = []
    for voltage in (first, second, third):
        require_positive(voltage, "line voltage", "V")
        squares.append(voltage**2)
    if not 2.0 * max(first, second, third) <= (first + second + third) * (1.0 + 1e-12):
        raise OutOfRange(
            f"Line voltages of {first:g} V, {second:g} V and {third:g} V close no triangle; one "
            "reading is wrong."
        )
    a, b, c = squares
    # 6β - 2 written out: the difference of the text loses all digits near balance.
    excess = 2.0 * ((a - b) ** 2 + (b - c) ** 2 + (c - a) ** 2) / (a + b + c) ** 2
    return math.sqrt(excess) / (1.0 + math.sqrt(max(1.0 - excess, 0.0)))


def current_unbalance(first: Current, second: Current, third: Current) -> Number:
    """Current unbalance by largest deviation max|Ii - Iavg|/Iavg [1].

    Source: NEMA's definition of voltage unbalance, put to currents. Confidence: common-practice.

    first: running current of line 1 [A], > 0
    second: running current of line 2 [A], > 0
    third: running current of line 3 [A], > 0
    Returns [1].
    Valid for: one motor under steady load.
    Raises OutOfRange: a current not above zero: a dead line is a fault, not an unbalance.

    >>> current_unbalance(4.9, 4.6, 4.5)     # arithmetic of the formula
    0.05
    """
    return _largest_deviation(first, second, third, "running current", "A")


def derated_power(rated_power: Power, factor: Number) -> Power:
    """Power a motor may give where it stands P·f [W].

    Source: drive maker's altitude page (50 hp × 0.94 = 47 hp at 6000 ft). Confidence: checked.

    rated_power: power of the plate [W], > 0
    factor: for altitude, ambient or unbalance, or the product of them [1], above 0 to 1
    Returns [W].
    Valid for: the cooling and duty the factor was published for.
    Raises OutOfRange: a power not above zero, a factor outside its range.

    >>> derated_power(50.0, 0.94)     # printed, both in hp
    47.0
    """
    require_positive(rated_power, "rated power", "W")
    _require_factor(factor)
    return rated_power * factor


def rated_power_for_load(load: Power, factor: Number) -> Power:
    """Plate power a motor needs to carry a load where it stands P/f [W].

    Source: motor maker's application manual, p. 567, worked examples. Confidence: checked.

    load: power absorbed at the shaft [W], > 0
    factor: for altitude, ambient or unbalance, or the product of them [1], above 0 to 1
    Returns [W]; order the next standard size up.
    Valid for: the cooling and duty the factor was published for.
    Raises OutOfRange: a power not above zero, a factor outside its range.

    >>> rated_power_for_load(25.0, 0.86)     # in hp; printed: order 30 hp
    29.07
    """
    require_positive(load, "absorbed power", "W")
    _require_factor(factor)
    return load / factor


def iec_temperature_rise_limit(
    rise: TemperatureDifference, ambient: Temperature, altitude: Length
) -> TemperatureDifference:
    """Limit of winding temperature rise in hot or thin air [K].

    Source: IEC 60034-1, corrections to the limits of temperature rise: less the kelvins above
    40 °C; less 1 % per 100 m above 1000 m. Confidence: from-memory.

    rise: limit of the insulation class at 40 °C and 1000 m [K], > 0
    ambient: hottest air at the motor [K], 263.15 to 333.15
    altitude: height of the site above sea level [m], 0 to 4000
    Returns [K]: the limit as given up to 40 °C and 1000 m, where no credit is taken.
    Valid for: air-cooled windings measured by resistance.
    Raises OutOfRange: a value outside its range, or air that leaves no rise at all.

    >>> iec_temperature_rise_limit(80.0, 323.15, 2000.0)     # arithmetic of the formula
    63.0
    """
    require_positive(rise, "limit of temperature rise", "K")
    belongs_to = "the correction of the temperature rise"
    require_within(ambient, 263.15, 333.15, "ambient temperature", "K", belongs_to)
    require_within(altitude, 0.0, 4000.0, "altitude", "m", belongs_to)
    left = rise - max(ambient - 313.15, 0.0)
    if not left > 0.0:
        raise OutOfRange(
            f"Air of {ambient - 273.15:g} °C leaves nothing of a temperature rise of {rise:g} K "
            "stated for 40 °C."
        )
    return left * (1.0 - max(altitude - 1000.0, 0.0) / 10_000.0)


def nema_allowed_starts(
    most_starts: Frequency, inertia_of_one_start_an_hour: Inertia, load_inertia: Inertia
) -> Frequency:
    """Starts a motor may make min(A, B/Wk²) [1/s].

    Source: NEMA MG 10, Table 2-3, in the EASA Electrical Engineering Handbook. Confidence:
    checked.

    most_starts: column A, most starts in an hour [1/s], > 0
    inertia_of_one_start_an_hour: column B, starts per hour times load Wk² [kg m²], > 0; the
        number printed in lb ft² is the load inertia at which one start an hour is left
    load_inertia: inertia of wheel and coupling at the motor's speed [kg m²], > 0
    Returns [1/s]. A rest of at least column C between starts comes on top.
    Valid for: Design A and B cage motors of the table, full voltage.
    Raises OutOfRange: a value not above zero.

    >>> lb_ft2 = 0.0421401101
    >>> nema_allowed_starts(1.0, 122.0 * lb_ft2, 50.0 * lb_ft2) * 3600     # printed 2.44
    2.44
    """
    require_positive(most_starts, "number of starts in an hour", "1/s")
    require_positive(inertia_of_one_start_an_hour, "inertia of one start an hour", "kg·m²")
    require_positive(load_inertia, "load inertia", "kg·m²")
    return min(most_starts, inertia_of_one_start_an_hour / load_inertia / 3600.0)


def run_up_time(inertia: Inertia, speed: Frequency, accelerating_torque: Moment) -> Time:
    """Time to run up from rest t = 2π n J/M [s].

    Source: Newton's law for rotation, textbook. Confidence: from-memory.

    inertia: motor and load together at the motor's speed [kg m²], > 0
    speed: full speed [1/s], > 0
    accelerating_torque: mean of motor torque less load torque on the way up [N m], > 0
    Returns [s].
    Valid for: an estimate; a stopwatch at commissioning decides.
    Raises OutOfRange: a value not above zero; a torque not above zero never starts the load.

    >>> run_up_time(0.05, 48.0, 7.5)     # arithmetic of the formula
    2.01
    """
    require_positive(inertia, "inertia", "kg·m²")
    require_positive(speed, "full speed", "1/s")
    require_positive(accelerating_torque, "accelerating torque", "N·m")
    return 2.0 * math.pi * speed * inertia / accelerating_torque


def _locked_rotor_power(power_per_horsepower: Power, rated_power: Power) -> Power:
    require_positive(power_per_horsepower, "locked-rotor apparent power of one horsepower", "VA")
    require_positive(rated_power, "rated power", "W")
    return power_per_horsepower * rated_power / _HORSEPOWER


def three_phase_locked_rotor_current(
    power_per_horsepower: Power, rated_power: Power, line_voltage: Voltage
) -> Current:
    """Locked-rotor current from the code letter I = (S/hp)·P/(√3 U) [A].

    Source: NFPA 70 (NEC) 430.7(B), kilovolt-amperes per horsepower. Confidence: from-memory.

    power_per_horsepower: locked-rotor apparent power of one horsepower [VA], > 0; the upper end
        of the letter's band is the worst case
    rated_power: power of the plate [W], > 0
    line_voltage: rated voltage between lines [V], > 0
    Returns [A], in the line.
    Valid for: starting at full voltage.
    Raises OutOfRange: a value not above zero.

    >>> three_phase_locked_rotor_current(7990.0, 5 * 745.7, 230.0)     # arithmetic of the formula
    100.3
    """
    require_positive(line_voltage, "line voltage", "V")
    return _locked_rotor_power(power_per_horsepower, rated_power) / (math.sqrt(3.0) * line_voltage)


def single_phase_locked_rotor_current(
    power_per_horsepower: Power, rated_power: Power, voltage: Voltage
) -> Current:
    """Locked-rotor current from the code letter I = (S/hp)·P/U [A].

    Source: NFPA 70 (NEC) 430.7(B), kilovolt-amperes per horsepower. Confidence: from-memory.

    power_per_horsepower: locked-rotor apparent power of one horsepower [VA], > 0; the upper end
        of the letter's band is the worst case
    rated_power: power of the plate [W], > 0
    voltage: rated voltage [V], > 0
    Returns [A].
    Valid for: starting at full voltage.
    Raises OutOfRange: a value not above zero.

    >>> single_phase_locked_rotor_current(11040.0, 745.7, 115.0)     # arithmetic of the formula
    96.0
    """
    require_positive(voltage, "supply voltage", "V")
    return _locked_rotor_power(power_per_horsepower, rated_power) / voltage
