"""Resistance of conductors, and the voltage lost along them.

Resistance: `resistance_per_length`, `conductor_resistance_at_temperature`,
`bonding_resistance_expected`. Voltage drop: `three_phase_voltage_drop`,
`single_phase_voltage_drop`, `voltage_drop_from_table`, `voltage_drop_limit`. Running and
starting differ only in current and power factor: at start the locked-rotor current and
about 0.35. That is the upper bound, as a stalled motor draws less at a lower voltage.
"""

from __future__ import annotations

import math

from ._bounds import require_at_least, require_positive, require_within
from .dimensions import (
    Area,
    Current,
    Length,
    Number,
    Resistance,
    ResistancePerLength,
    Resistivity,
    Temperature,
    Voltage,
)
from .limits import OutOfRange

__all__ = [
    "bonding_resistance_expected",
    "conductor_resistance_at_temperature",
    "resistance_per_length",
    "single_phase_voltage_drop",
    "three_phase_voltage_drop",
    "voltage_drop_from_table",
    "voltage_drop_limit",
]

# Copper, per kelvin from 20 °C.
_TEMPERATURE_COEFFICIENT = 0.00393


def resistance_per_length(resistivity: Resistivity, area: Area) -> ResistancePerLength:
    """Resistance of a conductor per metre ρ/S [Ω/m].

    Source: Ohm's law, textbook; IEC 60364-5-52, Annex G, with ρ1 = 0.0225 Ω·mm²/m for copper
    hot in service. Confidence: checked.

    resistivity: ρ at the temperature wanted [Ω·m], > 0
    area: cross-section of the conductor [m²], > 0
    Returns [Ω/m], one way.
    Valid for: small sections, where skin effect does not count.
    Raises OutOfRange: a value not above zero.

    >>> 2 * resistance_per_length(0.0225e-6, 2.5e-6) * 1000     # printed 18 mV/A/m
    18.0
    """
    require_positive(resistivity, "resistivity", "Ω·m")
    require_positive(area, "cross-section of the conductor", "m²")
    return resistivity / area


def conductor_resistance_at_temperature(
    at_20_degrees: ResistancePerLength, temperature: Temperature
) -> ResistancePerLength:
    """Resistance of a copper conductor per metre, warm R20·(1 + 0.00393·(θ - 20)) [Ω/m].

    Source: temperature coefficient of copper, for the resistances of IEC 60228. Confidence:
    from-memory (it reproduces the voltage-drop tables 4E1A and 4E4B of BS 7671).

    at_20_degrees: resistance of the class and size at 20 °C [Ω/m], > 0
    temperature: of the conductor [K], 253.15 to 523.15
    Returns [Ω/m], one way.
    Valid for: copper.
    Raises OutOfRange: a resistance not above zero, a temperature outside its range.

    >>> conductor_resistance_at_temperature(12.1e-3, 363.15) * 1000
    15.43
    """
    require_positive(at_20_degrees, "resistance per metre", "Ω/m")
    require_within(
        temperature, 253.15, 523.15, "conductor temperature", "K", "the coefficient of copper"
    )
    return at_20_degrees * (1.0 + _TEMPERATURE_COEFFICIENT * (temperature - 293.15))


def bonding_resistance_expected(
    resistivity: Resistivity, length: Length, area: Area, contacts: Resistance
) -> Resistance:
    """Resistance to expect of a protective bonding path ρL/S + contacts [Ω].

    Source: IEC 60204-1, 18.2.2: a reading in the range expected from length, section and
    material. Confidence: from-memory.

    resistivity: at the temperature of the test [Ω·m], > 0; copper at 20 °C about 1.8e-8
    length: of the protective conductor, one way [m], at least 0
    area: of the protective conductor [m²], > 0
    contacts: allowance for all joints of the path [Ω], at least 0
    Returns [Ω].
    Valid for: a path of one section; add the parts of a longer one.
    Raises OutOfRange: a value outside its range.

    >>> bonding_resistance_expected(1.80e-8, 10.0, 2.5e-6, 0.0)     # arithmetic of the formula
    0.072
    """
    require_at_least(length, 0.0, "length of the protective conductor", "m")
    require_at_least(contacts, 0.0, "allowance for joints", "Ω")
    return resistance_per_length(resistivity, area) * length + contacts


def _drop_per_conductor(
    current: Current,
    length: Length,
    resistance: ResistancePerLength,
    reactance: ResistancePerLength,
    power_factor: Number,
) -> Voltage:
    require_at_least(current, 0.0, "current", "A")
    require_at_least(length, 0.0, "length of the cable", "m")
    require_positive(resistance, "resistance per metre", "Ω/m")
    require_at_least(reactance, 0.0, "reactance per metre", "Ω/m")
    if not 0.0 <= power_factor <= 1.0:
        raise OutOfRange(f"The power factor is {power_factor:g}; it lies between 0 and 1.")
    across = math.sqrt(1.0 - power_factor**2)
    return current * length * (resistance * power_factor + reactance * across)


def three_phase_voltage_drop(
    current: Current,
    length: Length,
    resistance: ResistancePerLength,
    reactance: ResistancePerLength,
    power_factor: Number,
) -> Voltage:
    """Voltage drop between lines of a three-phase circuit √3·I·L·(r cos φ + x sin φ) [V].

    Source: IEC 60364-5-52:2009, Annex G, whose u (b = 1) is the drop in one line, √3 less.
    Confidence: checked.

    current: in each line, running or locked rotor [A], at least 0
    length: of the cable, one way [m], at least 0
    resistance: of one conductor, warm [Ω/m], > 0
    reactance: of one conductor [Ω/m], at least 0; 0.08e-3 where nothing else is known
    power_factor: cos φ of the load, lagging [1], 0 to 1; about 0.35 at start
    Returns [V], to be divided by the voltage between lines.
    Valid for: a balanced inductive load, drops that are small against the voltage. The part at
        right angles is left out as in the annex: at start with a cos φ of 0.35 a true drop of 2 %
        reads a twentieth of itself too low.
    Raises OutOfRange: a value outside its range.

    >>> three_phase_voltage_drop(3.6, 30.0, 15.0e-3, 0.08e-3, 0.8)     # arithmetic of the formula
    2.254
    """
    return math.sqrt(3.0) * _drop_per_conductor(
        current, length, resistance, reactance, power_factor
    )


def single_phase_voltage_drop(
    current: Current,
    length: Length,
    resistance: ResistancePerLength,
    reactance: ResistancePerLength,
    power_factor: Number,
) -> Voltage:
    """Voltage drop of a single-phase circuit, out and back 2·I·L·(r cos φ + x sin φ) [V].

    Source: IEC 60364-5-52:2009, Annex G (b = 2). Confidence: checked.

    current: running or locked rotor [A], at least 0
    length: of the cable, one way [m], at least 0
    resistance: of one conductor, warm [Ω/m], > 0
    reactance: of one conductor [Ω/m], at least 0; 0.08e-3 where nothing else is known
    power_factor: cos φ of the load, lagging [1], 0 to 1; about 0.35 at start
    Returns [V], to be divided by the supply voltage.
    Valid for: line and neutral of one section, drops that are small against the voltage. The
        part at right angles is left out as in the annex: at start with a cos φ of 0.35 a true
        drop of 2 % reads a twentieth of itself too low.
    Raises OutOfRange: a value outside its range.

    >>> single_phase_voltage_drop(32.0, 30.0, 0.0225e-6 / 6e-6, 0.0, 1.0)     # printed 7.20 V
    7.20
    """
    return 2.0 * _drop_per_conductor(current, length, resistance, reactance, power_factor)


def voltage_drop_from_table(
    drop_per_ampere_metre: ResistancePerLength, current: Current, length: Length
) -> Voltage:
    """Voltage drop from a tabulated value, mV/A/m times I times L [V].

    Source: BS 7671, Appendix 4, voltage-drop tables. Confidence: checked.

    drop_per_ampere_metre: of the table for size, phases and temperature [Ω/m], > 0
    current: [A], at least 0
    length: of the cable, one way [m], at least 0
    Returns [V]; the table already counts the way back, or √3.
    Valid for: conductors at the temperature of the table.
    Raises OutOfRange: a value outside its range.

    >>> voltage_drop_from_table(7.5e-3, 32.0, 30.0)     # printed 7.20 V
    7.20
    """
    require_positive(drop_per_ampere_metre, "tabulated voltage drop", "V/(A·m)")
    require_at_least(current, 0.0, "current", "A")
    require_at_least(length, 0.0, "length of the cable", "m")
    return drop_per_ampere_metre * current * length


def voltage_drop_limit(basic_limit: Number, length: Length) -> Number:
    """Allowed voltage drop of a long installation [1].

    Source: IEC 60364-5-52, Table G.52.1, note: 0.005 % more for each metre beyond 100 m, at most
    0.5 % more. Confidence: checked.

    basic_limit: of the table for supply and use, a part of the nominal voltage [1], > 0
    length: of the wiring from the origin of the installation [m], at least 0
    Returns [1]; the basic limit itself up to 100 m.
    Valid for: installations fed from public and from private low-voltage supplies.
    Raises OutOfRange: a value outside its range.

    >>> voltage_drop_limit(0.05, 160.0)     # arithmetic of the note
    0.053
    """
    require_positive(basic_limit, "basic limit of the voltage drop")
    require_at_least(length, 0.0, "length of the wiring", "m")
    return basic_limit + min(0.00005 * max(length - 100.0, 0.0), 0.005)
