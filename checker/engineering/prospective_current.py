"""Prospective short-circuit current: from the transformer down, or from a tester's reading.

Transformer and network: `transformer_rated_current`, `transformer_impedance`,
`network_impedance`, `three_phase_fault_current_at_transformer`. Path:
`three_phase_fault_current`, `line_neutral_fault_current`. Reading of a tester:
`three_phase_from_line_neutral_current`, `three_phase_from_line_line_current`. Resistances
and reactances add along a path, each for itself. What the current heats stands in
`adiabatic`.
"""

from __future__ import annotations

import math

from ._bounds import require_at_least, require_positive
from .dimensions import Current, Impedance, Number, Power, Voltage
from .limits import OutOfRange

__all__ = [
    "line_neutral_fault_current",
    "network_impedance",
    "three_phase_fault_current",
    "three_phase_fault_current_at_transformer",
    "three_phase_from_line_line_current",
    "three_phase_from_line_neutral_current",
    "transformer_impedance",
    "transformer_rated_current",
]


def _require_uk(uk: Number) -> None:
    if not 0.0 < uk < 1.0:
        raise OutOfRange(f"The short-circuit voltage is {uk:g}; it lies between 0 and 1.")


def transformer_rated_current(rating: Power, voltage: Voltage) -> Current:
    """Rated current of a three-phase transformer S/(√3 U) [A].

    Source: textbook. Confidence: checked (the guide's and the sheet's figures follow from it).

    rating: S [VA], > 0
    voltage: no-load voltage between lines of this side [V], > 0
    Returns [A].
    Valid for: three-phase transformers.
    Raises OutOfRange: a value not above zero.

    >>> transformer_rated_current(400e3, 420.0)     # arithmetic of the formula
    549.9
    """
    require_positive(rating, "rating of the transformer", "VA")
    require_positive(voltage, "voltage between lines", "V")
    return rating / (math.sqrt(3.0) * voltage)


def transformer_impedance(rating: Power, voltage: Voltage, uk: Number) -> Impedance:
    """Impedance of a transformer, one phase, uk·U²/S [Ω].

    Source: electrical installation guide, short circuit at transformer secondary; project
    short-circuit sheet (2025). Confidence: checked.

    rating: S [VA], > 0
    voltage: no-load voltage between lines of this side [V], > 0
    uk: short-circuit voltage of the plate [1], between 0 and 1; 0.04 to 0.06 is usual
    Returns [Ω]; nearly all reactance.
    Valid for: three-phase transformers.
    Raises OutOfRange: a value outside its range.

    >>> transformer_impedance(2000e3, 380.0, 0.0575) * 1000     # printed 4.1515 mΩ
    4.1515
    """
    _require_uk(uk)
    require_positive(rating, "rating of the transformer", "VA")
    require_positive(voltage, "voltage between lines", "V")
    return uk * voltage**2 / rating


def network_impedance(fault_power: Power, voltage: Voltage) -> Impedance:
    """Impedance of the network before a transformer, seen from its secondary, U²/Sk [Ω].

    Source: electrical installation guide, short circuit at transformer secondary; project
    short-circuit sheet (2025). Confidence: checked.

    fault_power: short-circuit power of the network at the transformer [VA], > 0
    voltage: no-load secondary voltage between lines [V], > 0
    Returns [Ω]; nearly all reactance.
    Valid for: three-phase networks.
    Raises OutOfRange: a value not above zero.

    >>> network_impedance(500e6, 380.0) * 1000     # printed 0.2888 mΩ
    0.2888
    """
    require_positive(fault_power, "short-circuit power of the network", "VA")
    require_positive(voltage, "voltage between lines", "V")
    return voltage**2 / fault_power


def three_phase_fault_current_at_transformer(
    rating: Power, voltage: Voltage, uk: Number
) -> Current:
    """Largest three-phase fault current at a transformer's terminals S/(√3 U uk) [A].

    Source: electrical installation guide, short circuit at transformer secondary. Confidence:
    checked.

    rating: S [VA], > 0
    voltage: no-load secondary voltage between lines [V], > 0
    uk: short-circuit voltage of the plate [1], between 0 and 1
    Returns [A], an upper bound: the network behind is taken as infinite.
    Valid for: one transformer, no motors feeding back.
    Raises OutOfRange: a value outside its range.

    >>> three_phase_fault_current_at_transformer(400e3, 420.0, 0.04) / 1000     # arithmetic
    13.75
    """
    _require_uk(uk)
    return transformer_rated_current(rating, voltage) / uk


def three_phase_fault_current(
    voltage: Voltage, resistance: Impedance, reactance: Impedance
) -> Current:
    """Three-phase fault current at the end of a path U/(√3 √(R² + X²)) [A].

    Source: electrical installation guide; project short-circuit sheet (2025). Confidence:
    checked.

    voltage: no-load voltage between lines [V], > 0
    resistance: sum of the resistances of one phase up to the fault [Ω], at least 0
    reactance: sum of the reactances of one phase up to the fault [Ω], at least 0
    Returns [A].
    Valid for: bolted faults, no motors feeding back.
    Raises OutOfRange: a value outside its range, a path of no impedance.

    >>> three_phase_fault_current(380.0, 2.5375e-3, 7.2528e-3) / 1000     # printed 28.55 kA
    28.55
    """
    require_positive(voltage, "voltage between lines", "V")
    require_at_least(resistance, 0.0, "resistance of the path", "Ω")
    require_at_least(reactance, 0.0, "reactance of the path", "Ω")
    impedance = math.hypot(resistance, reactance)
    require_positive(impedance, "impedance of the path", "Ω")
    return voltage / (math.sqrt(3.0) * impedance)


def line_neutral_fault_current(
    voltage_to_neutral: Voltage, line: Impedance, neutral: Impedance
) -> Current:
    """Fault current between line and neutral U0/(Z + Zn) [A].

    Source: Ohm's law, textbook. Confidence: from-memory.

    voltage_to_neutral: U0 [V], > 0
    line: impedance of one line up to the fault, source included [Ω], > 0
    neutral: impedance of the neutral on the way back [Ω], at least 0
    Returns [A], never too much as magnitudes are added: use it where the least current counts.
    Valid for: bolted faults.
    Raises OutOfRange: a value outside its range.

    >>> line_neutral_fault_current(230.0, 0.05, 0.05)     # arithmetic of the formula
    2300.
    """
    require_positive(voltage_to_neutral, "voltage to neutral", "V")
    require_positive(line, "impedance of the line", "Ω")
    require_at_least(neutral, 0.0, "impedance of the neutral", "Ω")
    return voltage_to_neutral / (line + neutral)


def three_phase_from_line_neutral_current(line_neutral: Current) -> Current:
    """Three-phase fault current from a reading between line and neutral, 2 I [A].

    Source: Ohm's law, U0/Z against U0/(2 Z) where line and neutral are alike. Confidence:
    checked.

    line_neutral: prospective fault current read between line and neutral [A], > 0
    Returns [A].
    Valid for: a neutral of the lines' section, all the way from the source. At a transformer's
        terminals, where nearly all impedance is common, it doubles too much.
    Raises OutOfRange: a current not above zero.

    >>> three_phase_from_line_neutral_current(3200.0)     # arithmetic of the formula
    6400.
    """
    require_positive(line_neutral, "fault current between line and neutral", "A")
    return 2.0 * line_neutral


def three_phase_from_line_line_current(line_line: Current) -> Current:
    """Three-phase fault current from a reading between two lines, 2/√3 I [A].

    Source: Ohm's law, U0/Z against √3 U0/(2 Z). Confidence: checked.

    line_line: prospective fault current read between two lines [A], > 0
    Returns [A].
    Valid for: three lines alike.
    Raises OutOfRange: a current not above zero.

    >>> three_phase_from_line_line_current(1000.0)     # arithmetic of the formula
    1154.7
    """
    require_positive(line_line, "fault current between lines", "A")
    return 2.0 / math.sqrt(3.0) * line_line
