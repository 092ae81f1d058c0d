"""Earth faults: the loop, the device that must clear it, and the protective conductor.

Loop: `earth_fault_loop_impedance`, `earth_fault_current`, `largest_loop_impedance`,
`largest_cold_loop_reading`, `longest_disconnection_time`. TT: `touch_voltage`,
`largest_electrode_resistance`. Protective conductor: `iec_protective_conductor_size`,
`iec_separate_protective_conductor_size`, `nec_upsized_grounding_conductor`. Heating by the
fault stands in `adiabatic`. The NEC has no loop impedance and no disconnection time: no
function of the first two groups belongs to it.
"""

from __future__ import annotations

from typing import Literal

from ._bounds import require_at_least, require_positive
from .dimensions import Area, Current, Impedance, Length, Number, ResistancePerLength, Time, Voltage
from .limits import OutOfRange

__all__ = [
    "earth_fault_current",
    "earth_fault_loop_impedance",
    "iec_protective_conductor_size",
    "iec_separate_protective_conductor_size",
    "largest_cold_loop_reading",
    "largest_electrode_resistance",
    "largest_loop_impedance",
    "longest_disconnection_time",
    "nec_upsized_grounding_conductor",
    "touch_voltage",
]

# IEC 60364-4-41, Table 41.1, alternating current: upper end of each band of U0 [V], then the
# seconds for TN and for TT.
_FINAL_CIRCUITS = ((120.0, 0.8, 0.3), (230.0, 0.4, 0.2), (400.0, 0.2, 0.07), (1000.0, 0.1, 0.04))


def earth_fault_loop_impedance(
    external: Impedance,
    line: ResistancePerLength,
    protective: ResistancePerLength,
    length: Length,
    multiplier: Number,
) -> Impedance:
    """Earth fault loop impedance at the end of a circuit Zs = Ze + (r1 + r2)·L·F [Ω].

    Source: BS 7671, Zs = Ze + (R1 + R2). Confidence: checked.

    external: Ze, or the loop impedance at the board that feeds the circuit [Ω], > 0
    line: resistance of the line conductor at 20 °C [Ω/m], > 0
    protective: resistance of the protective conductor at 20 °C [Ω/m], > 0
    length: of the cable, one way [m], at least 0
    multiplier: from 20 °C to the temperature at the fault, at least 1; 1.2 for 70 °C
    Returns [Ω].
    Valid for: small sections; magnitudes are added, which never gives too little.
    Raises OutOfRange: a value outside its range.

    >>> earth_fault_loop_impedance(0.35, 7.41e-3, 7.41e-3, 40.0, 1.2)     # arithmetic
    1.061
    """
    require_positive(external, "loop impedance up to the circuit", "Ω")
    require_positive(line, "resistance of the line conductor", "Ω/m")
    require_positive(protective, "resistance of the protective conductor", "Ω/m")
    require_at_least(length, 0.0, "length of the cable", "m")
    require_at_least(multiplier, 1.0, "multiplier for temperature")
    return external + (line + protective) * length * multiplier


def earth_fault_current(voltage_to_earth: Voltage, loop_impedance: Impedance) -> Current:
    """Current of an earth fault U0/Zs [A].

    Source: Ohm's law; IEC 60364-4-41, 411.4. Confidence: checked.

    voltage_to_earth: U0, nominal, line to earth [V], > 0
    loop_impedance: Zs at the point of the fault [Ω], > 0
    Returns [A].
    Valid for: a fault of no impedance of its own.
    Raises OutOfRange: a value not above zero.

    >>> earth_fault_current(230.0, 1.0614)     # arithmetic of the formula
    216.7
    """
    require_positive(voltage_to_earth, "voltage to earth", "V")
    require_positive(loop_impedance, "loop impedance", "Ω")
    return voltage_to_earth / loop_impedance


def largest_loop_impedance(
    voltage_to_earth: Voltage, voltage_factor: Number, operating_current: Current
) -> Impedance:
    """Largest earth fault loop impedance a device can clear in time Cmin·U0/Ia [Ω].

    Source: BS 7671:2018, Table 41.3 (Cmin 0.95); IEC 60364-4-41, 411.4.4 (no factor).
    Confidence: checked.

    voltage_to_earth: U0, nominal, line to earth [V], > 0
    voltage_factor: Cmin for a low supply [1], above 0 to 1
    operating_current: Ia that opens the device within the required time [A], > 0
    Returns [Ω], at the temperature of the fault.
    Valid for: TN systems. A motor's overload relay is no such device.
    Raises OutOfRange: a value outside its range.

    >>> largest_loop_impedance(230.0, 0.95, 10 * 16.0)     # C16, printed 1.37
    1.37
    """
    require_positive(voltage_to_earth, "voltage to earth", "V")
    require_positive(operating_current, "operating current of the device", "A")
    if not 0.0 < voltage_factor <= 1.0:
        raise OutOfRange(
            f"The voltage factor is {voltage_factor:g}; it lies above 0 and is at most 1."
        )
    return voltage_factor * voltage_to_earth / operating_current


def largest_cold_loop_reading(limit: Impedance, share: Number) -> Impedance:
    """Largest reading of a cold loop that leaves room for its warming [Ω].

    Source: BS 7671 training and reference pages, 80 % of the tabulated limit; IEC 60364-6 takes
    two thirds (from memory). Confidence: checked.

    limit: largest loop impedance at the temperature of the fault [Ω], > 0
    share: of it that a cold reading may reach [1], above 0 to 1
    Returns [Ω].
    Valid for: readings taken with the conductors at room temperature.
    Raises OutOfRange: a value outside its range.

    >>> largest_cold_loop_reading(1.37, 0.8)     # printed 1.10
    1.10
    """
    require_positive(limit, "largest loop impedance", "Ω")
    if not 0.0 < share <= 1.0:
        raise OutOfRange(f"The share is {share:g}; it lies above 0 and is at most 1.")
    return share * limit


def longest_disconnection_time(
    system: Literal["TN", "TT"], circuit: Literal["final", "distribution"], voltage: Voltage
) -> Time:
    """Longest time in which an earth fault must be disconnected [s].

    Source: IEC 60364-4-41, Table 41.1, alternating current, and 411.3.2.3 and 411.3.2.4.
    Confidence: checked.

    system: earthing system, TN or TT
    circuit: final (to 32 A for fixed equipment, to 63 A with socket-outlets), or distribution
        and larger final circuits
    voltage: U0, nominal, line to earth [V], above 50 to 1000
    Returns [s].
    Valid for: alternating current in the IEC world. TT may take the times of TN where an
        overcurrent device disconnects and all extraneous parts are bonded. IT is another matter.
    Raises OutOfRange: another system or circuit, a voltage outside its range.

    >>> longest_disconnection_time("TN", "final", 230.0)
    0.4
    """
    if system not in ("TN", "TT"):
        raise OutOfRange(f"The earthing system is {system!r}; times are stated for TN and TT.")
    if circuit not in ("final", "distribution"):
        raise OutOfRange(f"The circuit is {circuit!r}; it is final or distribution.")
    if not 50.0 < voltage <= 1000.0:
        raise OutOfRange(
            f"The voltage to earth is {voltage:g} V; disconnection times are stated above 50 V "
            "and up to 1000 V alternating."
        )
    if circuit == "distribution":
        return 5.0 if system == "TN" else 1.0
    _, in_tn, in_tt = next(row for row in _FINAL_CIRCUITS if voltage <= row[0])
    return in_tn if system == "TN" else in_tt


def touch_voltage(resistance: Impedance, residual_current: Current) -> Voltage:
    """Voltage on exposed parts while a residual-current device still holds RA·IΔn [V].

    Source: IEC 60364-4-41, 411.5.3, at most 50 V. Confidence: checked.

    resistance: RA of earth electrode and protective conductor together [Ω], > 0
    residual_current: IΔn rated on the device [A], > 0
    Returns [V].
    Valid for: TT systems, alternating current.
    Raises OutOfRange: a value not above zero.

    >>> touch_voltage(200.0, 0.030)     # arithmetic of the formula
    6.0
    """
    require_positive(resistance, "resistance to earth", "Ω")
    require_positive(residual_current, "rated residual current", "A")
    return resistance * residual_current


def largest_electrode_resistance(residual_current: Current, touch_limit: Voltage) -> Impedance:
    """Largest resistance to earth in a TT system UL/IΔn [Ω].

    Source: IEC 60364-4-41, 411.5.3. Confidence: checked.

    residual_current: IΔn rated on the device [A], > 0
    touch_limit: UL, 50 V alternating [V], > 0
    Returns [Ω], a ceiling: an electrode that stays good the year round is far lower.
    Valid for: TT systems, alternating current.
    Raises OutOfRange: a value not above zero.

    >>> largest_electrode_resistance(0.030, 50.0)     # printed 1667
    1667.
    """
    require_positive(residual_current, "rated residual current", "A")
    require_positive(touch_limit, "limit of touch voltage", "V")
    return touch_limit / residual_current


def iec_protective_conductor_size(line_area: Area) -> Area:
    """Smallest section of a protective conductor without calculation [m²].

    Source: IEC 60364-5-54, Table 54.2 (BS 7671 Table 54.7, IEC 60204-1 Table 1): S to 16 mm²,
    then 16 mm², then S/2 above 35 mm². Confidence: checked.

    line_area: section of the line conductors [m²], > 0
    Returns [m²]; the next standard size up.
    Valid for: the same metal as the line conductors. The adiabatic equation may allow less.
    Raises OutOfRange: a section not above zero.

    >>> iec_protective_conductor_size(25e-6) * 1e6
    16.0
    """
    require_positive(line_area, "section of the line conductors", "m²")
    # A section written in mm² and carried to m² and back may miss 16 or 35 by the last bit.
    if line_area <= 16e-6 * (1.0 + 1e-9):
        return line_area
    return 16e-6 if line_area <= 35e-6 * (1.0 + 1e-9) else line_area / 2.0


def iec_separate_protective_conductor_size(line_area: Area, protected: bool) -> Area:
    """Smallest section of a protective conductor that is no core of the cable [m²].

    Source: IEC 60364-5-54 (BS 7671, 543.1.1): at least 2.5 mm² where protected against
    mechanical damage, else 4 mm²; Table 54.2 for the rest. Confidence: checked.

    line_area: section of the line conductors [m²], > 0
    protected: whether it is protected against mechanical damage
    Returns [m²]; the next standard size up.
    Valid for: copper.
    Raises OutOfRange: a section not above zero.

    >>> iec_separate_protective_conductor_size(1.5e-6, False) * 1e6
    4.0
    """
    return max(iec_protective_conductor_size(line_area), 2.5e-6 if protected else 4e-6)


def nec_upsized_grounding_conductor(
    tabulated: Area, line_area: Area, required_line_area: Area
) -> Area:
    """Equipment grounding conductor that grows with upsized line conductors [m²].

    Source: NFPA 70 (NEC) 250.122(B), in proportion of the areas, and 250.122(A), never above the
    line conductors. Confidence: checked.

    tabulated: of Table 250.122 for the overcurrent device [m²], > 0
    line_area: of the line conductors installed [m²], at least the area required
    required_line_area: that would have had the ampacity needed [m²], > 0
    Returns [m²]; the next standard size up.
    Valid for: copper with copper, aluminium with aluminium.
    Raises OutOfRange: an area not above zero, line conductors smaller than required.

    >>> nec_upsized_grounding_conductor(2.0, 10.0, 5.0)     # arithmetic of the formula
    4.0
    """
    require_positive(tabulated, "tabulated grounding conductor", "m²")
    require_positive(required_line_area, "required line conductor", "m²")
    require_at_least(line_area, required_line_area, "line conductor installed", "m²")
    return min(tabulated * line_area / required_line_area, line_area)
