"""Every spelling of a unit that a description or a rule may use.

The list is closed. Each row states the unit's canonical spelling, the other ways
people write it, its kind, the factor and the offset to coherent SI, the exponents
of length, mass, time, current, temperature, luminous intensity and sound level,
and the expression that says the same to pint. A test derives every factor and
every exponent from that expression again, so pint defines what each unit means
without costing its 0.3 s of import at every run.

The kind tells apart what the exponents cannot: torque from energy, an angle
from a ratio, a temperature from a difference of temperatures.
"""

from __future__ import annotations

__all__ = ["DIMENSION_NAMES", "ROWS"]

DIMENSION_NAMES = (
    "length",
    "mass",
    "time",
    "current",
    "temperature",
    "luminous intensity",
    "level",
)

Row = tuple[str, tuple[str, ...], str, float, float, tuple[float, ...], str]

# fmt: off
ROWS: tuple[Row, ...] = (
    # length
    ("m", ("metre", "meter"), "length", 1.0, 0.0, (1, 0, 0, 0, 0, 0, 0), "m"),
    ("cm", (), "length", 0.01, 0.0, (1, 0, 0, 0, 0, 0, 0), "cm"),
    ("mm", (), "length", 0.001, 0.0, (1, 0, 0, 0, 0, 0, 0), "mm"),
    ("um", ("μm", "micron"), "length", 1e-06, 0.0, (1, 0, 0, 0, 0, 0, 0), "micrometer"),
    ("km", (), "length", 1000.0, 0.0, (1, 0, 0, 0, 0, 0, 0), "km"),
    ("in", ("inch", "inches"), "length", 0.0254, 0.0, (1, 0, 0, 0, 0, 0, 0), "inch"),
    ("ft", ("foot", "feet"), "length", 0.3048, 0.0, (1, 0, 0, 0, 0, 0, 0), "foot"),
    # area
    ("m2", ("m²", "m^2"), "area", 1.0, 0.0, (2, 0, 0, 0, 0, 0, 0), "m**2"),
    ("cm2", ("cm²", "cm^2"), "area", 0.0001, 0.0, (2, 0, 0, 0, 0, 0, 0), "cm**2"),
    ("mm2", ("mm²", "mm^2", "sqmm"), "area", 1e-06, 0.0, (2, 0, 0, 0, 0, 0, 0), "mm**2"),
    ("in2", ("in²", "in^2", "sq in"), "area", 0.00064516, 0.0, (2, 0, 0, 0, 0, 0, 0), "inch**2"),
    ("ft2", ("ft²", "ft^2", "sq ft"), "area", 0.09290304, 0.0, (2, 0, 0, 0, 0, 0, 0), "foot**2"),
    # volume
    ("m3", ("m³", "m^3"), "volume", 1.0, 0.0, (3, 0, 0, 0, 0, 0, 0), "m**3"),
    ("L", ("l", "litre", "liter", "dm3", "dm³"), "volume", 0.001, 0.0, (3, 0, 0, 0, 0, 0, 0), "liter"),
    ("mL", ("ml",), "volume", 1e-06, 0.0, (3, 0, 0, 0, 0, 0, 0), "milliliter"),
    ("cm3", ("cm³", "cm^3"), "volume", 1e-06, 0.0, (3, 0, 0, 0, 0, 0, 0), "cm**3"),
    ("mm3", ("mm³", "mm^3"), "volume", 1e-09, 0.0, (3, 0, 0, 0, 0, 0, 0), "mm**3"),
    ("in3", ("in³", "in^3"), "volume", 1.6387064e-05, 0.0, (3, 0, 0, 0, 0, 0, 0), "inch**3"),
    ("ft3", ("ft³", "ft^3"), "volume", 0.028316846592, 0.0, (3, 0, 0, 0, 0, 0, 0), "foot**3"),
    ("US gal", ("US gallon",), "volume", 0.003785411784, 0.0, (3, 0, 0, 0, 0, 0, 0), "gallon"),
    ("imp gal", ("imperial gallon",), "volume", 0.00454609, 0.0, (3, 0, 0, 0, 0, 0, 0), "imperial_gallon"),
    # second moment of area
    ("m4", ("m⁴", "m^4"), "second moment of area", 1.0, 0.0, (4, 0, 0, 0, 0, 0, 0), "m**4"),
    ("cm4", ("cm⁴", "cm^4"), "second moment of area", 1e-08, 0.0, (4, 0, 0, 0, 0, 0, 0), "cm**4"),
    ("mm4", ("mm⁴", "mm^4"), "second moment of area", 1e-12, 0.0, (4, 0, 0, 0, 0, 0, 0), "mm**4"),
    ("in4", ("in⁴", "in^4"), "second moment of area", 4.162314256e-07, 0.0, (4, 0, 0, 0, 0, 0, 0), "inch**4"),
    # time
    ("s", ("sec", "second", "seconds"), "time", 1.0, 0.0, (0, 0, 1, 0, 0, 0, 0), "second"),
    ("ms", (), "time", 0.001, 0.0, (0, 0, 1, 0, 0, 0, 0), "millisecond"),
    ("min", ("minute", "minutes"), "time", 60.0, 0.0, (0, 0, 1, 0, 0, 0, 0), "minute"),
    ("h", ("hr", "hour", "hours"), "time", 3600.0, 0.0, (0, 0, 1, 0, 0, 0, 0), "hour"),
    ("d", ("day", "days"), "time", 86400.0, 0.0, (0, 0, 1, 0, 0, 0, 0), "day"),
    ("week", ("weeks",), "time", 604800.0, 0.0, (0, 0, 1, 0, 0, 0, 0), "week"),
    # frequency
    ("Hz", ("1/s", "/s"), "frequency", 1.0, 0.0, (0, 0, -1, 0, 0, 0, 0), "1/second"),
    ("kHz", (), "frequency", 1000.0, 0.0, (0, 0, -1, 0, 0, 0, 0), "1000/second"),
    ("rpm", ("r/min", "rev/min", "1/min", "/min", "min-1"), "frequency", 0.016666666666666666, 0.0, (0, 0, -1, 0, 0, 0, 0), "1/minute"),
    ("1/h", ("/h", "per hour"), "frequency", 0.0002777777777777778, 0.0, (0, 0, -1, 0, 0, 0, 0), "1/hour"),
    ("1/d", ("/d", "per day"), "frequency", 1.1574074074074073e-05, 0.0, (0, 0, -1, 0, 0, 0, 0), "1/day"),
    # speed
    ("m/s", (), "speed", 1.0, 0.0, (1, 0, -1, 0, 0, 0, 0), "m/s"),
    ("mm/s", (), "speed", 0.001, 0.0, (1, 0, -1, 0, 0, 0, 0), "mm/s"),
    ("m/min", (), "speed", 0.016666666666666666, 0.0, (1, 0, -1, 0, 0, 0, 0), "m/minute"),
    ("km/h", (), "speed", 0.2777777777777778, 0.0, (1, 0, -1, 0, 0, 0, 0), "km/hour"),
    ("ft/min", ("fpm", "ft/minute"), "speed", 0.00508, 0.0, (1, 0, -1, 0, 0, 0, 0), "foot/minute"),
    ("ft/s", (), "speed", 0.3048, 0.0, (1, 0, -1, 0, 0, 0, 0), "foot/second"),
    ("in/s", (), "speed", 0.0254, 0.0, (1, 0, -1, 0, 0, 0, 0), "inch/second"),
    ("L/(s*m2)", ("L/(s·m²)", "L/s/m2", "L/s/m²", "l/(s·m²)"), "speed", 0.001, 0.0, (1, 0, -1, 0, 0, 0, 0), "liter/second/m**2"),
    ("m3/(h*m2)", ("m³/(h·m²)", "m3/h/m2", "m³/h/m²"), "speed", 0.0002777777777777778, 0.0, (1, 0, -1, 0, 0, 0, 0), "m**3/hour/m**2"),
    # acceleration
    ("m/s2", ("m/s²", "m/s^2"), "acceleration", 1.0, 0.0, (1, 0, -2, 0, 0, 0, 0), "m/s**2"),
    # flow
    ("m3/s", ("m³/s", "m^3/s"), "flow", 1.0, 0.0, (3, 0, -1, 0, 0, 0, 0), "m**3/second"),
    ("m3/h", ("m³/h", "m^3/h", "cbm/h"), "flow", 0.0002777777777777778, 0.0, (3, 0, -1, 0, 0, 0, 0), "m**3/hour"),
    ("m3/min", ("m³/min", "m^3/min"), "flow", 0.016666666666666666, 0.0, (3, 0, -1, 0, 0, 0, 0), "m**3/minute"),
    ("L/s", ("l/s",), "flow", 0.001, 0.0, (3, 0, -1, 0, 0, 0, 0), "liter/second"),
    ("L/min", ("l/min",), "flow", 1.666666666666667e-05, 0.0, (3, 0, -1, 0, 0, 0, 0), "liter/minute"),
    ("L/h", ("l/h",), "flow", 2.7777777777777787e-07, 0.0, (3, 0, -1, 0, 0, 0, 0), "liter/hour"),
    ("mL/min", ("ml/min",), "flow", 1.666666666666667e-08, 0.0, (3, 0, -1, 0, 0, 0, 0), "milliliter/minute"),
    ("ft3/min", ("cfm", "CFM", "ft³/min"), "flow", 0.0004719474432, 0.0, (3, 0, -1, 0, 0, 0, 0), "foot**3/minute"),
    ("US gal/min", ("gpm", "US gpm"), "flow", 6.30901964e-05, 0.0, (3, 0, -1, 0, 0, 0, 0), "gallon/minute"),
    ("US gal/h", ("gph",), "flow", 1.0515032733333332e-06, 0.0, (3, 0, -1, 0, 0, 0, 0), "gallon/hour"),
    # mass
    ("kg", (), "mass", 1.0, 0.0, (0, 1, 0, 0, 0, 0, 0), "kg"),
    ("g", (), "mass", 0.001, 0.0, (0, 1, 0, 0, 0, 0, 0), "gram"),
    ("mg", (), "mass", 1e-06, 0.0, (0, 1, 0, 0, 0, 0, 0), "mg"),
    ("t", ("tonne", "tonnes"), "mass", 1000.0, 0.0, (0, 1, 0, 0, 0, 0, 0), "metric_ton"),
    ("lb", ("lbs", "pound", "pounds"), "mass", 0.45359237, 0.0, (0, 1, 0, 0, 0, 0, 0), "pound"),
    ("oz", (), "mass", 0.028349523125, 0.0, (0, 1, 0, 0, 0, 0, 0), "ounce"),
    # linear mass
    ("kg/m", (), "linear mass", 1.0, 0.0, (-1, 1, 0, 0, 0, 0, 0), "kg/m"),
    ("lb/ft", (), "linear mass", 1.488163943569554, 0.0, (-1, 1, 0, 0, 0, 0, 0), "pound/foot"),
    # areal mass
    ("kg/m2", ("kg/m²", "kg/m^2"), "areal mass", 1.0, 0.0, (-2, 1, 0, 0, 0, 0, 0), "kg/m**2"),
    ("g/m2", ("g/m²", "g/m^2"), "areal mass", 0.001, 0.0, (-2, 1, 0, 0, 0, 0, 0), "g/m**2"),
    # density
    ("kg/m3", ("kg/m³", "kg/m^3"), "density", 1.0, 0.0, (-3, 1, 0, 0, 0, 0, 0), "kg/m**3"),
    ("g/cm3", ("g/cm³", "kg/L", "kg/l", "g/mL", "g/ml"), "density", 1000.0, 0.0, (-3, 1, 0, 0, 0, 0, 0), "g/cm**3"),
    ("g/L", ("g/l",), "density", 1.0, 0.0, (-3, 1, 0, 0, 0, 0, 0), "g/liter"),
    ("g/m3", ("g/m³",), "density", 0.001, 0.0, (-3, 1, 0, 0, 0, 0, 0), "g/m**3"),
    ("mg/m3", ("mg/m³", "mg/m^3"), "density", 1e-06, 0.0, (-3, 1, 0, 0, 0, 0, 0), "mg/m**3"),
    ("ug/m3", ("μg/m3", "μg/m³"), "density", 1e-09, 0.0, (-3, 1, 0, 0, 0, 0, 0), "microgram/m**3"),
    ("lb/ft3", ("lb/ft³",), "density", 16.01846337396015, 0.0, (-3, 1, 0, 0, 0, 0, 0), "pound/foot**3"),
    # mass flow
    ("kg/s", (), "mass flow", 1.0, 0.0, (0, 1, -1, 0, 0, 0, 0), "kg/s"),
    ("kg/h", (), "mass flow", 0.0002777777777777778, 0.0, (0, 1, -1, 0, 0, 0, 0), "kg/hour"),
    ("g/h", (), "mass flow", 2.7777777777777776e-07, 0.0, (0, 1, -1, 0, 0, 0, 0), "g/hour"),
    ("mg/h", (), "mass flow", 2.7777777777777777e-10, 0.0, (0, 1, -1, 0, 0, 0, 0), "mg/hour"),
    ("mg/s", (), "mass flow", 1e-06, 0.0, (0, 1, -1, 0, 0, 0, 0), "mg/second"),
    # moment of inertia
    ("kg*m2", ("kg·m2", "kg·m²", "kgm2", "kgm²"), "moment of inertia", 1.0, 0.0, (2, 1, 0, 0, 0, 0, 0), "kg*m**2"),
    ("lb*ft2", ("lb·ft2", "lb·ft²"), "moment of inertia", 0.0421401100938048, 0.0, (2, 1, 0, 0, 0, 0, 0), "pound*foot**2"),
    # force
    ("N", (), "force", 1.0, 0.0, (1, 1, -2, 0, 0, 0, 0), "newton"),
    ("daN", (), "force", 10.0, 0.0, (1, 1, -2, 0, 0, 0, 0), "decanewton"),
    ("kN", (), "force", 1000.0, 0.0, (1, 1, -2, 0, 0, 0, 0), "kilonewton"),
    ("lbf", (), "force", 4.4482216152605005, 0.0, (1, 1, -2, 0, 0, 0, 0), "force_pound"),
    ("kgf", (), "force", 9.80665, 0.0, (1, 1, -2, 0, 0, 0, 0), "force_kilogram"),
    # torque
    ("N*m", ("N·m", "Nm", "N m"), "torque", 1.0, 0.0, (2, 1, -2, 0, 0, 0, 0), "newton*meter"),
    ("kN*m", ("kN·m", "kNm"), "torque", 1000.0, 0.0, (2, 1, -2, 0, 0, 0, 0), "kilonewton*meter"),
    ("N*mm", ("N·mm", "Nmm"), "torque", 0.001, 0.0, (2, 1, -2, 0, 0, 0, 0), "newton*millimeter"),
    ("lbf*ft", ("lbf·ft", "lbf ft", "lb·ft", "ft·lbf", "ft-lb", "lb-ft"), "torque", 1.3558179483314006, 0.0, (2, 1, -2, 0, 0, 0, 0), "force_pound*foot"),
    ("lbf*in", ("lbf·in", "lbf in", "in·lbf", "in-lb", "lb-in"), "torque", 0.11298482902761671, 0.0, (2, 1, -2, 0, 0, 0, 0), "force_pound*inch"),
    # rotational stiffness
    ("N*m/rad", ("N·m/rad", "Nm/rad"), "rotational stiffness", 1.0, 0.0, (2, 1, -2, 0, 0, 0, 0), "newton*meter"),
    ("kN*m/rad", ("kN·m/rad", "kNm/rad"), "rotational stiffness", 1000.0, 0.0, (2, 1, -2, 0, 0, 0, 0), "kilonewton*meter"),
    ("lbf*ft/rad", ("lbf·ft/rad",), "rotational stiffness", 1.3558179483314006, 0.0, (2, 1, -2, 0, 0, 0, 0), "force_pound*foot"),
    # stiffness
    ("N/m", (), "stiffness", 1.0, 0.0, (0, 1, -2, 0, 0, 0, 0), "newton/meter"),
    ("N/mm", (), "stiffness", 1000.0, 0.0, (0, 1, -2, 0, 0, 0, 0), "newton/millimeter"),
    ("kN/m", (), "stiffness", 1000.0, 0.0, (0, 1, -2, 0, 0, 0, 0), "kilonewton/meter"),
    ("lbf/in", (), "stiffness", 175.12683524647645, 0.0, (0, 1, -2, 0, 0, 0, 0), "force_pound/inch"),
    # pressure
    ("Pa", (), "pressure", 1.0, 0.0, (-1, 1, -2, 0, 0, 0, 0), "pascal"),
    ("hPa", (), "pressure", 100.0, 0.0, (-1, 1, -2, 0, 0, 0, 0), "hectopascal"),
    ("kPa", (), "pressure", 1000.0, 0.0, (-1, 1, -2, 0, 0, 0, 0), "kilopascal"),
    ("MPa", ("N/mm2", "N/mm²", "N/mm^2"), "pressure", 1000000.0, 0.0, (-1, 1, -2, 0, 0, 0, 0), "megapascal"),
    ("GPa", ("kN/mm2", "kN/mm²"), "pressure", 1000000000.0, 0.0, (-1, 1, -2, 0, 0, 0, 0), "gigapascal"),
    ("mbar", (), "pressure", 100.0, 0.0, (-1, 1, -2, 0, 0, 0, 0), "millibar"),
    ("bar", (), "pressure", 100000.0, 0.0, (-1, 1, -2, 0, 0, 0, 0), "bar"),
    ("psi", ("lbf/in2", "lbf/in²"), "pressure", 6894.7572931683635, 0.0, (-1, 1, -2, 0, 0, 0, 0), "psi"),
    ("ksi", (), "pressure", 6894757.293168363, 0.0, (-1, 1, -2, 0, 0, 0, 0), "ksi"),
    ("inH2O", ("in wg", "in.wg", "inwg", "inH₂O"), "pressure", 249.08891, 0.0, (-1, 1, -2, 0, 0, 0, 0), "25.4*9.80665 pascal"),
    ("mmH2O", ("mm wg", "mmwg", "mmH₂O"), "pressure", 9.80665, 0.0, (-1, 1, -2, 0, 0, 0, 0), "9.80665 pascal"),
    # pressure gradient
    ("Pa/m", (), "pressure gradient", 1.0, 0.0, (-2, 1, -2, 0, 0, 0, 0), "pascal/meter"),
    ("inH2O/100ft", ("in wg/100 ft",), "pressure gradient", 8.172208333333332, 0.0, (-2, 1, -2, 0, 0, 0, 0), "25.4*9.80665 pascal/(100*foot)"),
    # dynamic viscosity
    ("Pa*s", ("Pa·s", "Pas"), "dynamic viscosity", 1.0, 0.0, (-1, 1, -1, 0, 0, 0, 0), "pascal*second"),
    ("mPa*s", ("mPa·s", "mPas", "cP"), "dynamic viscosity", 0.001, 0.0, (-1, 1, -1, 0, 0, 0, 0), "millipascal*second"),
    # kinematic viscosity
    ("m2/s", ("m²/s",), "kinematic viscosity", 1.0, 0.0, (2, 0, -1, 0, 0, 0, 0), "m**2/second"),
    ("cSt", ("mm2/s", "mm²/s"), "kinematic viscosity", 1e-06, 0.0, (2, 0, -1, 0, 0, 0, 0), "mm**2/second"),
    # energy
    ("J", (), "energy", 1.0, 0.0, (2, 1, -2, 0, 0, 0, 0), "joule"),
    ("kJ", (), "energy", 1000.0, 0.0, (2, 1, -2, 0, 0, 0, 0), "kilojoule"),
    ("MJ", (), "energy", 1000000.0, 0.0, (2, 1, -2, 0, 0, 0, 0), "megajoule"),
    ("kWh", (), "energy", 3600000.0, 0.0, (2, 1, -2, 0, 0, 0, 0), "kilowatt_hour"),
    # power
    ("W", (), "power", 1.0, 0.0, (2, 1, -3, 0, 0, 0, 0), "watt"),
    ("VA", (), "power", 1.0, 0.0, (2, 1, -3, 0, 0, 0, 0), "watt"),
    ("kW", (), "power", 1000.0, 0.0, (2, 1, -3, 0, 0, 0, 0), "kilowatt"),
    ("kVA", (), "power", 1000.0, 0.0, (2, 1, -3, 0, 0, 0, 0), "kilowatt"),
    ("hp", (), "power", 745.6998715822701, 0.0, (2, 1, -3, 0, 0, 0, 0), "horsepower"),
    # irradiance
    ("W/m2", ("W/m²",), "irradiance", 1.0, 0.0, (0, 1, -3, 0, 0, 0, 0), "watt/m**2"),
    # fire load
    ("MJ/m2", ("MJ/m²",), "fire load", 1000000.0, 0.0, (0, 1, -2, 0, 0, 0, 0), "megajoule/m**2"),
    # temperature
    ("degC", ("°C", "deg C", "℃", "Cel"), "temperature", 1.0, 273.15, (0, 0, 0, 0, 1, 0, 0), "degC"),
    ("degF", ("°F", "deg F", "℉"), "temperature", 0.5555555555555556, 255.37222222222223, (0, 0, 0, 0, 1, 0, 0), "degF"),
    # temperature difference
    ("K", (), "temperature difference", 1.0, 0.0, (0, 0, 0, 0, 1, 0, 0), "kelvin"),
    ("delta degF", ("Δ°F",), "temperature difference", 0.5555555555555556, 0.0, (0, 0, 0, 0, 1, 0, 0), "delta_degF"),
    # angle
    ("rad", (), "angle", 1.0, 0.0, (0, 0, 0, 0, 0, 0, 0), "radian"),
    ("deg", ("°", "degree", "degrees"), "angle", 0.017453292519943295, 0.0, (0, 0, 0, 0, 0, 0, 0), "degree"),
    # ratio
    ("%", ("percent",), "ratio", 0.01, 0.0, (0, 0, 0, 0, 0, 0, 0), "0.01"),
    ("mm/m", (), "ratio", 0.001, 0.0, (0, 0, 0, 0, 0, 0, 0), "0.001"),
    ("m/m", (), "ratio", 1.0, 0.0, (0, 0, 0, 0, 0, 0, 0), "1"),
    ("in/ft", (), "ratio", 0.08333333333333333, 0.0, (0, 0, 0, 0, 0, 0, 0), "1/12"),
    ("1", (), "ratio", 1.0, 0.0, (0, 0, 0, 0, 0, 0, 0), "1"),
    # level
    ("dB", ("dBA", "dB(A)", "dB(C)"), "level", 1.0, 0.0, (0, 0, 0, 0, 0, 0, 1), "level"),
    # current
    ("A", (), "current", 1.0, 0.0, (0, 0, 0, 1, 0, 0, 0), "ampere"),
    ("mA", (), "current", 0.001, 0.0, (0, 0, 0, 1, 0, 0, 0), "milliampere"),
    ("kA", (), "current", 1000.0, 0.0, (0, 0, 0, 1, 0, 0, 0), "kiloampere"),
    # voltage
    ("V", (), "voltage", 1.0, 0.0, (2, 1, -3, -1, 0, 0, 0), "volt"),
    ("mV", (), "voltage", 0.001, 0.0, (2, 1, -3, -1, 0, 0, 0), "millivolt"),
    ("kV", (), "voltage", 1000.0, 0.0, (2, 1, -3, -1, 0, 0, 0), "kilovolt"),
    # resistance
    ("ohm", ("Ω", "ohms"), "resistance", 1.0, 0.0, (2, 1, -3, -2, 0, 0, 0), "ohm"),
    ("mohm", ("mΩ", "milliohm"), "resistance", 0.001, 0.0, (2, 1, -3, -2, 0, 0, 0), "milliohm"),
    ("kohm", ("kΩ",), "resistance", 1000.0, 0.0, (2, 1, -3, -2, 0, 0, 0), "kiloohm"),
    ("Mohm", ("MΩ", "megohm"), "resistance", 1000000.0, 0.0, (2, 1, -3, -2, 0, 0, 0), "megaohm"),
    # resistance per length
    ("ohm/m", ("Ω/m",), "resistance per length", 1.0, 0.0, (1, 1, -3, -2, 0, 0, 0), "ohm/meter"),
    ("ohm/km", ("Ω/km", "mohm/m", "mΩ/m"), "resistance per length", 0.001, 0.0, (1, 1, -3, -2, 0, 0, 0), "ohm/kilometer"),
    ("mV/(A*m)", ("mV/A/m", "mV/(A·m)"), "resistance per length", 0.001, 0.0, (1, 1, -3, -2, 0, 0, 0), "millivolt/ampere/meter"),
    # resistivity
    ("ohm*m", ("Ω·m",), "resistivity", 1.0, 0.0, (3, 1, -3, -2, 0, 0, 0), "ohm*meter"),
    ("ohm*mm2/m", ("Ω·mm²/m",), "resistivity", 1e-06, 0.0, (3, 1, -3, -2, 0, 0, 0), "ohm*mm**2/meter"),
    # let-through
    ("A2*s", ("A²s", "A²·s", "A2s"), "let-through", 1.0, 0.0, (0, 0, 1, 2, 0, 0, 0), "ampere**2*second"),
    ("kA2*s", ("kA²s", "kA²·s", "kA2s"), "let-through", 1000000.0, 0.0, (0, 0, 1, 2, 0, 0, 0), "kiloampere**2*second"),
    # conductance
    ("S", (), "conductance", 1.0, 0.0, (-2, -1, 3, 2, 0, 0, 0), "siemens"),
    # capacitance
    ("F", (), "capacitance", 1.0, 0.0, (-2, -1, 4, 2, 0, 0, 0), "farad"),
    ("uF", ("μF",), "capacitance", 1e-06, 0.0, (-2, -1, 4, 2, 0, 0, 0), "microfarad"),
    # current density
    ("A/mm2", ("A/mm²",), "current density", 1000000.0, 0.0, (-2, 0, 0, 1, 0, 0, 0), "ampere/mm**2"),
    # thermal factor
    ("A*s^0.5/mm2", ("A·s^½/mm²", "A·√s/mm²"), "thermal factor", 1000000.0, 0.0, (-2, 0, 0.5, 1, 0, 0, 0), "ampere*second**0.5/mm**2"),
    ("A*s^0.5/m2", ("A·√s/m²",), "thermal factor", 1.0, 0.0, (-2, 0, 0.5, 1, 0, 0, 0), "ampere*second**0.5/m**2"),
    # illuminance
    ("lx", ("lux",), "illuminance", 1.0, 0.0, (-2, 0, 0, 0, 0, 1, 0), "lux"),
    # surface tension
    ("mN/m", (), "surface tension", 0.001, 0.0, (0, 1, -2, 0, 0, 0, 0), "millinewton/meter"),
    # heat of combustion
    ("MJ/kg", (), "heat of combustion", 1000000.0, 0.0, (2, 0, -2, 0, 0, 0, 0), "megajoule/kg"),
    # specific volume flow
    ("m3/(h*kW)", ("m³/(h·kW)",), "specific volume flow", 2.7777777777777776e-07, 0.0, (1, -1, 2, 0, 0, 0, 0), "m**3/hour/kilowatt"),
    # thermal expansion
    ("1/K", ("/K",), "thermal expansion", 1.0, 0.0, (0, 0, 0, 0, -1, 0, 0), "1/kelvin"),
)
# fmt: on
