"""What the numbers of an engineering function mean: one alias a dimension.

A parameter annotated ``Force`` is a plain float for Python and for mypy; the
unit beside it, always coherent SI, is what the rule language reads to check the
dimension of every formula before any description is read. A function can
therefore be called from a rule as soon as it is annotated; there is no second
list of signatures to keep in step.
"""

from __future__ import annotations

from typing import Annotated

__all__ = [
    "Acceleration",
    "Angle",
    "Area",
    "Capacitance",
    "Concentration",
    "Conductance",
    "Current",
    "CurrentSquaredTime",
    "Date",
    "Density",
    "DynamicViscosity",
    "Energy",
    "Flow",
    "Force",
    "Frequency",
    "Impedance",
    "Inertia",
    "KinematicViscosity",
    "Length",
    "Level",
    "LinearMass",
    "Mass",
    "MassFlow",
    "Moment",
    "Number",
    "Power",
    "Pressure",
    "PressureGradient",
    "Resistance",
    "ResistancePerLength",
    "Resistivity",
    "RotationalStiffness",
    "SecondMoment",
    "SectionModulus",
    "Speed",
    "Stiffness",
    "Stress",
    "SurfaceTension",
    "Temperature",
    "TemperatureDifference",
    "ThermalExpansion",
    "ThermalFactor",
    "Time",
    "Voltage",
    "Volume",
]

Number = Annotated[float, "1"]
Length = Annotated[float, "m"]
Area = Annotated[float, "m2"]
Volume = Annotated[float, "m3"]
SectionModulus = Annotated[float, "m3"]
SecondMoment = Annotated[float, "m4"]
Angle = Annotated[float, "rad"]
Time = Annotated[float, "s"]
Date = Annotated[float, "date"]
Frequency = Annotated[float, "Hz"]
Speed = Annotated[float, "m/s"]
Acceleration = Annotated[float, "m/s2"]
Flow = Annotated[float, "m3/s"]
Mass = Annotated[float, "kg"]
LinearMass = Annotated[float, "kg/m"]
MassFlow = Annotated[float, "kg/s"]
Density = Annotated[float, "kg/m3"]
Concentration = Annotated[float, "kg/m3"]
Inertia = Annotated[float, "kg*m2"]
Force = Annotated[float, "N"]
Moment = Annotated[float, "N*m"]
Stiffness = Annotated[float, "N/m"]
SurfaceTension = Annotated[float, "N/m"]
RotationalStiffness = Annotated[float, "N*m/rad"]
Stress = Annotated[float, "Pa"]
Pressure = Annotated[float, "Pa"]
PressureGradient = Annotated[float, "Pa/m"]
DynamicViscosity = Annotated[float, "Pa*s"]
KinematicViscosity = Annotated[float, "m2/s"]
Energy = Annotated[float, "J"]
Power = Annotated[float, "W"]
# A point on the kelvin scale, not a difference: the language lets two of them be
# subtracted and nothing else.
Temperature = Annotated[float, "temperature"]
TemperatureDifference = Annotated[float, "K"]
ThermalExpansion = Annotated[float, "1/K"]
# Decibels: a dimension of its own, so that only level functions combine them.
Level = Annotated[float, "dB"]
Current = Annotated[float, "A"]
CurrentSquaredTime = Annotated[float, "A2*s"]
# The k of the adiabatic equation. Its unit is written per mm2 everywhere, so the list of units
# has no coherent spelling; only the dimension is read here, the float is in A·s^½/m².
ThermalFactor = Annotated[float, "A*s^0.5/mm2"]
Voltage = Annotated[float, "V"]
Resistance = Annotated[float, "ohm"]
Impedance = Annotated[float, "ohm"]
ResistancePerLength = Annotated[float, "ohm/m"]
Resistivity = Annotated[float, "ohm*m"]
Conductance = Annotated[float, "S"]
Capacitance = Annotated[float, "F"]
