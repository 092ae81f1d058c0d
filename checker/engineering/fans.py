"""A fan on a duct with filters: curve, system, and where the two meet.

A curve is given as two lists, flows and pressures, in rising order of flow. It is
read by straight lines between its points and never beyond its ends: the flow on a
nameplate is free air, and beyond the last point nobody has measured anything. A
curve that rises and falls can meet the system more than once; then the fan may run
at either point, and no single working point is returned.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from ._bounds import interpolated, require_at_least, require_positive
from .dimensions import Flow, Number, Pressure
from .limits import OutOfRange

__all__ = [
    "fan_pressure",
    "shut_off_pressure",
    "system_pressure",
    "working_point_count",
    "working_point_flow",
    "working_point_pressure",
]


def _require_curve(flows: Sequence[Flow], pressures: Sequence[Pressure]) -> None:
    if len(flows) != len(pressures):
        raise OutOfRange(
            f"The fan curve has {len(flows)} flows and {len(pressures)} pressures; "
            "each point needs both."
        )
    if len(flows) < 2:
        raise OutOfRange(f"A fan curve needs at least two points, not {len(flows)}.")
    for flow, pressure in zip(flows, pressures, strict=True):
        require_at_least(flow, 0.0, "flow of a point of the fan curve", "m3/s")
        require_at_least(pressure, 0.0, "pressure of a point of the fan curve", "Pa")
    for left, right in pairwise(flows):
        if not left < right:
            raise OutOfRange(
                f"The fan curve has a flow of {right:.6g} m3/s after {left:.6g} m3/s; "
                "its points must stand in rising order of flow."
            )


def fan_pressure(flow: Flow, flows: Sequence[Flow], pressures: Sequence[Pressure]) -> Pressure:
    """Fan pressure at a flow, by straight lines between the points of the curve, Pa.

    Source: linear interpolation, no extrapolation. Confidence: common-practice.

    flow: volume flow [m3/s], within the curve
    flows: flows of the curve's points [m3/s], rising
    pressures: pressures of the curve's points [Pa], in the same order
    Returns [Pa].
    Valid for: the density and speed of the curve.
    Raises OutOfRange: beyond the ends of the curve, or a list that is no curve.

    >>> fan_pressure(0.15, [0.0, 0.1, 0.2], [900.0, 800.0, 400.0])
    600.0
    """
    _require_curve(flows, pressures)
    return interpolated(flow, flows, pressures, "flow", "m3/s", "the fan curve")


def shut_off_pressure(flows: Sequence[Flow], pressures: Sequence[Pressure]) -> Pressure:
    """Highest pressure the fan gives at blocked inlet or anywhere on its curve, Pa.

    Source: reading of the curve; a drain trap is sized on it. Confidence: common-practice.

    flows: flows of the curve's points [m3/s], rising, the first at zero flow
    pressures: pressures of the curve's points [Pa], in the same order
    Returns [Pa]: the largest on the curve, which a rising-falling curve has beside zero flow.
    Valid for: the density and speed of the curve.
    Raises OutOfRange: a curve that does not start at zero flow.

    >>> shut_off_pressure([0.0, 0.1, 0.2], [900.0, 950.0, 400.0])
    950.0
    """
    _require_curve(flows, pressures)
    if flows[0] != 0.0:
        raise OutOfRange(
            f"The fan curve starts at {flows[0]:.6g} m3/s; the pressure at blocked inlet "
            "is not on it."
        )
    return max(pressures)


def system_pressure(
    flow: Flow, duct_pressure: Pressure, filter_pressure: Pressure, reference_flow: Flow
) -> Pressure:
    """Pressure dp_duct (Q/Q_0)^2 + dp_filter (Q/Q_0) the system needs at a flow, Pa.

    Source: turbulent losses by the square, definition of the loss coefficient; fibre media in
    proportion to flow, Wheat 1963. Confidence: checked (Wheat by its abstract).

    flow: volume flow [m3/s], >= 0
    duct_pressure: loss of ducts, fittings and entry at the reference flow [Pa], >= 0
    filter_pressure: loss of all filter stages at the reference flow [Pa], >= 0
    reference_flow: flow both losses were found at [m3/s], > 0
    Returns [Pa].
    Valid for: flows near the reference; a separator that is not linear belongs to the duct.
    Raises OutOfRange: outside those ranges.

    >>> system_pressure(300.0, 116.0, 150.0, 600.0)  # arithmetic of the formula
    104.0
    """
    require_at_least(flow, 0.0, "flow", "m3/s")
    require_at_least(duct_pressure, 0.0, "duct loss", "Pa")
    require_at_least(filter_pressure, 0.0, "filter loss", "Pa")
    require_positive(reference_flow, "reference flow", "m3/s")
    share = flow / reference_flow
    return duct_pressure * share**2 + filter_pressure * share


def _crossing(left: Flow, right: Flow, surplus: Sequence[float], curvature: float) -> Flow:
    """Bisect one monotone piece to the last bit of the flow.

    ``surplus`` holds the surplus of fan over system at both ends; inside the piece
    it is their straight line plus the bow of the square term.
    """
    width = right - left
    low, high = left, right
    for _ in range(200):
        middle = 0.5 * (low + high)
        if not low < middle < high:
            break
        share = (middle - left) / width
        line = surplus[0] + share * (surplus[1] - surplus[0])
        value = line + curvature * (middle - left) * (right - middle)
        if (value > 0.0) == (surplus[0] > 0.0):
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)


def _working_flows(
    flows: Sequence[Flow],
    pressures: Sequence[Pressure],
    duct_pressure: Pressure,
    filter_pressure: Pressure,
    reference_flow: Flow,
) -> list[Flow]:
    """All flows at which fan and system agree, in rising order.

    On each straight piece of the curve the surplus of the fan is a parabola that
    opens downwards. Cut at its top it is monotone, so that a change of sign brackets
    one crossing and none is missed.
    """
    _require_curve(flows, pressures)
    ends = [
        pressure - system_pressure(flow, duct_pressure, filter_pressure, reference_flow)
        for flow, pressure in zip(flows, pressures, strict=True)
    ]
    curvature = duct_pressure / reference_flow**2
    marks: list[tuple[Flow, float]] = [(flows[0], ends[0])]
    for (left, right), (before, after) in zip(pairwise(flows), pairwise(ends), strict=True):
        width = right - left
        if curvature > 0.0:
            top = 0.5 * (left + right) + 0.5 * (after - before) / (width * curvature)
            if left < top < right:
                share = (top - left) / width
                line = before + share * (after - before)
                marks.append((top, line + curvature * (top - left) * (right - top)))
        marks.append((right, after))
    found = [flow for flow, surplus in marks if surplus == 0.0]
    for (left, before), (right, after) in pairwise(marks):
        if before < 0.0 < after or after < 0.0 < before:
            found.append(_crossing(left, right, (before, after), curvature))
    return sorted(found)


def working_point_count(
    flows: Sequence[Flow],
    pressures: Sequence[Pressure],
    duct_pressure: Pressure,
    filter_pressure: Pressure,
    reference_flow: Flow,
) -> Number:
    """Number of flows at which the fan curve meets the system, 1.

    Source: where the fan curve meets the system curve, by definition. Confidence: checked.

    flows: flows of the curve's points [m3/s], rising
    pressures: pressures of the curve's points [Pa], in the same order
    duct_pressure: loss of ducts, fittings and entry at the reference flow [Pa], >= 0
    filter_pressure: loss of all filter stages at the reference flow [Pa], >= 0
    reference_flow: flow both losses were found at [m3/s], > 0
    Returns [1]: 1 is sound, 2 or more lets the fan hunt, 0 means they do not meet on the curve.
    Valid for: the density and speed of the curve.
    Raises OutOfRange: a list that is no curve, or a loss outside its range.

    >>> working_point_count([0.05, 0.1, 0.2, 0.3], [200.0, 500.0, 480.0, 100.0], 300.0, 0.0, 0.1)
    1.0
    >>> working_point_count([0.05, 0.1, 0.2, 0.3], [200.0, 500.0, 480.0, 100.0], 1.0, 420.0, 0.1)
    2.0
    """
    return float(
        len(_working_flows(flows, pressures, duct_pressure, filter_pressure, reference_flow))
    )


def working_point_flow(
    flows: Sequence[Flow],
    pressures: Sequence[Pressure],
    duct_pressure: Pressure,
    filter_pressure: Pressure,
    reference_flow: Flow,
) -> Flow:
    """Flow Q at which the fan gives what the system needs, m3/s.

    Source: where the fan curve meets the system curve, by definition. Confidence: checked.

    flows: flows of the curve's points [m3/s], rising
    pressures: pressures of the curve's points [Pa], in the same order
    duct_pressure: loss of ducts, fittings and entry at the reference flow [Pa], >= 0
    filter_pressure: loss of all filter stages at the reference flow [Pa], >= 0
    reference_flow: flow both losses were found at [m3/s], > 0
    Returns [m3/s].
    Valid for: the density and speed of the curve.
    Raises OutOfRange: where they do not meet on the curve, or meet more than once.

    >>> flows = [0.0, 200.0, 400.0, 600.0, 800.0, 1000.0, 1200.0]
    >>> pressures = [900.0, 880.0, 820.0, 720.0, 570.0, 370.0, 120.0]
    >>> working_point_flow(flows, pressures, 116.0, 150.0, 600.0)  # independent: 891.2
    891.2
    >>> working_point_flow(flows, pressures, 10.0, 15.0, 600.0)
    Traceback (most recent call last):
    checker.engineering.limits.OutOfRange: At the last point of its curve, 1200 m3/s, the fan still
    gives 120 Pa and the system needs 70 Pa; the working point lies beyond the curve.
    """
    found = _working_flows(flows, pressures, duct_pressure, filter_pressure, reference_flow)
    if len(found) == 1:
        return found[0]
    if found:
        listed = ", ".join(f"{flow:.4g} m3/s" for flow in found)
        raise OutOfRange(
            f"Fan and system meet {len(found)} times, at {listed}; the fan may run at any of them."
        )
    needs = system_pressure(flows[-1], duct_pressure, filter_pressure, reference_flow)
    if pressures[-1] > needs:
        raise OutOfRange(
            f"At the last point of its curve, {flows[-1]:.6g} m3/s, the fan still gives "
            f"{pressures[-1]:.4g} Pa and the system needs {needs:.4g} Pa; the working point lies "
            "beyond the curve."
        )
    needs = system_pressure(flows[0], duct_pressure, filter_pressure, reference_flow)
    raise OutOfRange(
        f"From the first point of its curve, {flows[0]:.6g} m3/s, on the fan gives less than the "
        f"system needs, there {pressures[0]:.4g} Pa against {needs:.4g} Pa; the working point "
        "lies before the curve."
    )


def working_point_pressure(
    flows: Sequence[Flow],
    pressures: Sequence[Pressure],
    duct_pressure: Pressure,
    filter_pressure: Pressure,
    reference_flow: Flow,
) -> Pressure:
    """Fan pressure p at the working point, Pa.

    Source: where the fan curve meets the system curve, by definition. Confidence: checked.

    flows: flows of the curve's points [m3/s], rising
    pressures: pressures of the curve's points [Pa], in the same order
    duct_pressure: loss of ducts, fittings and entry at the reference flow [Pa], >= 0
    filter_pressure: loss of all filter stages at the reference flow [Pa], >= 0
    reference_flow: flow both losses were found at [m3/s], > 0
    Returns [Pa].
    Valid for: the density and speed of the curve.
    Raises OutOfRange: where they do not meet on the curve, or meet more than once.

    >>> flows = [0.0, 200.0, 400.0, 600.0, 800.0, 1000.0, 1200.0]
    >>> pressures = [900.0, 880.0, 820.0, 720.0, 570.0, 370.0, 120.0]
    >>> working_point_pressure(flows, pressures, 116.0, 150.0, 600.0)  # independent: 478.8
    478.8
    """
    flow = working_point_flow(flows, pressures, duct_pressure, filter_pressure, reference_flow)
    return fan_pressure(flow, flows, pressures)
