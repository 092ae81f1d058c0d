"""Oil mist against its lower explosive limit, and what passes before a damper closes.

Averages only: near the spindle the mist is richer than the duct's mean, and a flash
point measured on liquid says nothing of a mist.
"""

from __future__ import annotations

from ._bounds import require_at_least, require_positive
from .dimensions import Concentration, Flow, Length, MassFlow, Number, Speed, Time

__all__ = [
    "lower_explosive_limit_share",
    "mean_mist_concentration",
    "oil_rate_at_concentration",
    "travel_before_damper_closes",
]


def mean_mist_concentration(oil_rate: MassFlow, air_flow: Flow) -> Concentration:
    """Mean concentration of the oil that goes off into an air flow C [kg/m³].

    Source: mass balance, C = m/Q. Confidence: common-practice.

    oil_rate: oil lost to the air stream [kg/s], >= 0
    air_flow: extracted air [m³/s], > 0
    Returns [kg/m³].
    Valid for: the mean over the duct.
    Raises OutOfRange: a value outside its range.

    >>> mean_mist_concentration(7.5 / 3600, 600 / 3600) * 1000       # g/m3
    12.5
    """
    require_at_least(oil_rate, 0.0, "oil lost to the air", "kg/s")
    require_positive(air_flow, "air flow", "m³/s")
    return oil_rate / air_flow


def oil_rate_at_concentration(concentration: Concentration, air_flow: Flow) -> MassFlow:
    """Oil that must go off to reach a mean concentration m [kg/s].

    Source: mass balance, m = C Q. Confidence: common-practice.

    concentration: mean in the duct [kg/m³], >= 0
    air_flow: extracted air [m³/s], >= 0
    Returns [kg/s].
    Valid for: the mean over the duct.
    Raises OutOfRange: a value outside its range.

    >>> oil_rate_at_concentration(50e-3, 600 / 3600) * 3600          # kg/h
    30.0
    """
    require_at_least(concentration, 0.0, "concentration", "kg/m³")
    require_at_least(air_flow, 0.0, "air flow", "m³/s")
    return concentration * air_flow


def lower_explosive_limit_share(
    concentration: Concentration, lower_explosive_limit: Concentration
) -> Number:
    """Share of the lower explosive limit that a mean concentration reaches [1].

    Source: ratio; 25 % is the bound of US mechanical codes for spray booths, 50 mg/l the limit the
    International Association of Classification Societies gives for oil mist. Confidence: checked.

    concentration: mean in the duct [kg/m³], >= 0
    lower_explosive_limit: of the mist [kg/m³], > 0; a US data sheet on mineral oil mist calls it
        unknown
    Returns [1].
    Valid for: advice; never a proof that a mist cannot burn.
    Raises OutOfRange: a value outside its range.

    >>> lower_explosive_limit_share(12.5e-3, 50e-3)
    0.25
    """
    require_at_least(concentration, 0.0, "concentration", "kg/m³")
    require_positive(lower_explosive_limit, "lower explosive limit", "kg/m³")
    return concentration / lower_explosive_limit


def travel_before_damper_closes(velocity: Speed, closing_time: Time) -> Length:
    """Way the air goes in a duct while a damper is closing x [m].

    Source: x = V t. Confidence: common-practice.

    velocity: in the duct [m/s], >= 0
    closing_time: from the signal to shut [s], >= 0
    Returns [m]; a unit nearer than this is reached before the damper is shut.
    Valid for: air at duct velocity; a flame front can run ahead of it.
    Raises OutOfRange: a value outside its range.

    >>> travel_before_damper_closes(12.0, 3.0)
    36.0
    """
    require_at_least(velocity, 0.0, "duct velocity", "m/s")
    require_at_least(closing_time, 0.0, "closing time", "s")
    return velocity * closing_time
