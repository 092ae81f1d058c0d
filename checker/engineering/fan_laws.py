"""A fan at another speed or density than its curve was measured at.

Data for 60 Hz on a 50 Hz supply, and a curve for 1.2 kg/m3 at a warm or high
site, are the same question. A speed above the nameplate's is no matter of these
laws: power rises with its cube.
"""

from __future__ import annotations

from collections.abc import Sequence

from ._bounds import require_at_least, require_positive
from .dimensions import Flow, Number, Power, Pressure
from .fans import working_point_flow, working_point_pressure

__all__ = [
    "scaled_fan_flow",
    "scaled_fan_power",
    "scaled_fan_pressure",
    "working_point_flow_at",
    "working_point_position",
    "working_point_pressure_at",
]


def scaled_fan_flow(flow: Flow, speed_ratio: Number, diameter_ratio: Number) -> Flow:
    """Flow Q n D^3 of a fan at another speed or of a similar fan of another size, m3/s.

    Source: fan laws, as worked for a pump in Flow of Fluids, Technical Paper No. 410 (2009),
    example 7-33. Confidence: checked.

    flow: flow the data give [m3/s], >= 0
    speed_ratio: actual speed over that of the data [1], > 0
    diameter_ratio: actual wheel diameter over that of the data [1], > 0; 1 for the same fan
    Returns [m3/s].
    Valid for: the same system, or a point of the curve.
    Raises OutOfRange: outside those ranges.

    >>> scaled_fan_flow(400.0, 1700 / 3500, 1.0)  # printed: 194.3
    194.3
    """
    require_at_least(flow, 0.0, "flow", "m3/s")
    require_positive(speed_ratio, "ratio of speeds")
    require_positive(diameter_ratio, "ratio of wheel diameters")
    return flow * speed_ratio * diameter_ratio**3


def scaled_fan_pressure(
    pressure: Pressure, speed_ratio: Number, diameter_ratio: Number, density_ratio: Number
) -> Pressure:
    """Pressure p n^2 D^2 rho of a fan at another speed, size or density, Pa.

    Source: fan laws, as worked for a pump in Flow of Fluids, Technical Paper No. 410 (2009),
    example 7-33. Confidence: checked.

    pressure: pressure the data give [Pa], >= 0
    speed_ratio: actual speed over that of the data [1], > 0
    diameter_ratio: actual wheel diameter over that of the data [1], > 0; 1 for the same fan
    density_ratio: actual density over that of the data [1], > 0
    Returns [Pa].
    Valid for: the same system, or a point of the curve.
    Raises OutOfRange: outside those ranges.

    >>> scaled_fan_pressure(5.0, 3.0, 1.0, 1.0)  # printed: 45
    45.0
    """
    require_at_least(pressure, 0.0, "pressure", "Pa")
    require_positive(speed_ratio, "ratio of speeds")
    require_positive(diameter_ratio, "ratio of wheel diameters")
    require_positive(density_ratio, "ratio of densities")
    return pressure * speed_ratio**2 * diameter_ratio**2 * density_ratio


def scaled_fan_power(
    power: Power, speed_ratio: Number, diameter_ratio: Number, density_ratio: Number
) -> Power:
    """Power P n^3 D^5 rho of a fan at another speed, size or density, W.

    Source: fan laws, as worked for a pump in Flow of Fluids, Technical Paper No. 410 (2009),
    example 7-33. Confidence: checked.

    power: shaft power the data give [W], >= 0
    speed_ratio: actual speed over that of the data [1], > 0
    diameter_ratio: actual wheel diameter over that of the data [1], > 0; 1 for the same fan
    density_ratio: actual density over that of the data [1], > 0
    Returns [W].
    Valid for: the same system, or a point of the curve.
    Raises OutOfRange: outside those ranges.

    >>> scaled_fan_power(20.0, 1.0, 2.0, 1.0)  # printed: 640
    640.0
    """
    require_at_least(power, 0.0, "power", "W")
    require_positive(speed_ratio, "ratio of speeds")
    require_positive(diameter_ratio, "ratio of wheel diameters")
    require_positive(density_ratio, "ratio of densities")
    return power * speed_ratio**3 * diameter_ratio**5 * density_ratio


def working_point_flow_at(
    flows: Sequence[Flow],
    pressures: Sequence[Pressure],
    duct_pressure: Pressure,
    filter_pressure: Pressure,
    reference_flow: Flow,
    speed_ratio: Number,
    density_ratio: Number,
) -> Flow:
    """Flow Q of the working point at another speed and density than the curve's, m3/s.

    Source: fan laws, as in scaled_fan_flow, applied to every point of the curve. Confidence:
    checked.

    flows: flows of the curve's points [m3/s], rising
    pressures: pressures of the curve's points [Pa], in the same order
    duct_pressure: loss of ducts on site, at site density and reference flow [Pa], >= 0
    filter_pressure: loss of all filter stages at the reference flow [Pa], >= 0
    reference_flow: flow both losses were found at [m3/s], > 0
    speed_ratio: actual speed over that of the curve [1], > 0
    density_ratio: density on site over that of the curve [1], > 0
    Returns [m3/s].
    Valid for: speeds the fan and its motor are made for.
    Raises OutOfRange: where they do not meet on the curve, or meet more than once.

    >>> curve = [0.0, 0.1, 0.2], [900.0, 800.0, 400.0]
    >>> working_point_flow_at(*curve, 600.0, 0.0, 0.15, 1.0, 1.0)
    0.15
    >>> working_point_flow_at(*curve, 600.0, 0.0, 0.15, 50 / 60, 1.0)  # follows the speed
    0.125
    """
    require_positive(speed_ratio, "ratio of speeds")
    require_positive(density_ratio, "ratio of densities")
    # n^2 rho p(Q/n) = duct Q^2 + filter Q, divided by n^2 rho and written in q = Q/n.
    duct = duct_pressure / density_ratio
    media = filter_pressure / (speed_ratio * density_ratio)
    return speed_ratio * working_point_flow(flows, pressures, duct, media, reference_flow)


def working_point_pressure_at(
    flows: Sequence[Flow],
    pressures: Sequence[Pressure],
    duct_pressure: Pressure,
    filter_pressure: Pressure,
    reference_flow: Flow,
    speed_ratio: Number,
    density_ratio: Number,
) -> Pressure:
    """Fan pressure p of the working point at another speed and density than the curve's, Pa.

    Source: fan laws, as in scaled_fan_flow, applied to every point of the curve. Confidence:
    checked.

    flows: flows of the curve's points [m3/s], rising
    pressures: pressures of the curve's points [Pa], in the same order
    duct_pressure: loss of ducts on site, at site density and reference flow [Pa], >= 0
    filter_pressure: loss of all filter stages at the reference flow [Pa], >= 0
    reference_flow: flow both losses were found at [m3/s], > 0
    speed_ratio: actual speed over that of the curve [1], > 0
    density_ratio: density on site over that of the curve [1], > 0
    Returns [Pa].
    Valid for: speeds the fan and its motor are made for.
    Raises OutOfRange: where they do not meet on the curve, or meet more than once.

    >>> curve = [0.0, 0.1, 0.2], [900.0, 800.0, 400.0]
    >>> working_point_pressure_at(*curve, 600.0, 0.0, 0.15, 50 / 60, 1.0)  # 600 x 0.6944
    416.7
    """
    require_positive(speed_ratio, "ratio of speeds")
    require_positive(density_ratio, "ratio of densities")
    duct = duct_pressure / density_ratio
    media = filter_pressure / (speed_ratio * density_ratio)
    pressure = working_point_pressure(flows, pressures, duct, media, reference_flow)
    return scaled_fan_pressure(pressure, speed_ratio, 1.0, density_ratio)


def working_point_position(flow: Flow, flows: Sequence[Flow]) -> Number:
    """Position Q/Q_max of a flow along the fan curve, 1.

    Source: definition; a point far to the left is near surge. Confidence: common-practice.

    flow: flow of the working point, at the curve's speed [m3/s], >= 0
    flows: flows of the curve's points [m3/s], the last above 0
    Returns [1]: 0 at blocked inlet, 1 at the last point, above 1 beyond it.
    Valid for: any fan curve.
    Raises OutOfRange: a curve that ends at zero flow.

    >>> working_point_position(0.05, [0.0, 0.1, 0.2])
    0.25
    """
    require_at_least(flow, 0.0, "flow", "m3/s")
    last = max(flows, default=0.0)
    require_positive(last, "last flow of the fan curve", "m3/s")
    return flow / last
