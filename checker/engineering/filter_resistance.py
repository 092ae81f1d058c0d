"""Resistance of filter stages at another flow and at the end of their life.

A system that works with clean filters works for one week. The exposure side of a
filter, its class and what it lets through, is a different subject.
"""

from __future__ import annotations

from ._bounds import require_at_least, require_positive
from .dimensions import Flow, Number, Pressure

__all__ = ["assumed_final_resistance", "filter_resistance_at_flow"]


def filter_resistance_at_flow(resistance: Pressure, quoted_flow: Flow, flow: Flow) -> Pressure:
    """Resistance dp Q/Q_0 of a fibre filter at another flow, Pa.

    Source: Wheat, The air flow resistance of glass fibre filter paper, Canadian Journal of
    Chemical Engineering 41 (1963), streamline flow. Confidence: checked (its abstract).

    resistance: resistance on the data sheet [Pa], >= 0
    quoted_flow: flow it belongs to [m3/s], > 0
    flow: flow wanted [m3/s], >= 0
    Returns [Pa].
    Valid for: fibre media near the quoted flow; louvres and cyclones follow the square.
    Raises OutOfRange: outside those ranges.

    >>> filter_resistance_at_flow(150.0, 600.0, 800.0)  # arithmetic of the formula
    200.0
    """
    require_at_least(resistance, 0.0, "filter resistance", "Pa")
    require_positive(quoted_flow, "quoted flow", "m3/s")
    require_at_least(flow, 0.0, "flow", "m3/s")
    return resistance * flow / quoted_flow


def assumed_final_resistance(clean: Pressure, factor: Number, margin: Pressure) -> Pressure:
    """Final resistance max(k dp, dp + m) assumed where the maker states none, Pa.

    Source: no standard; both numbers are a rule's parameters. Confidence: common-practice.

    clean: clean resistance [Pa], >= 0
    factor: multiple of the clean resistance k [1], >= 1
    margin: addition to the clean resistance m [Pa], >= 0
    Returns [Pa].
    Valid for: coarse and fine stages; the change-out value on the filter's label prevails.
    Raises OutOfRange: outside those ranges.

    >>> assumed_final_resistance(40.0, 3.0, 100.0)
    140.0
    """
    require_at_least(clean, 0.0, "clean resistance", "Pa")
    require_at_least(factor, 1.0, "factor on the clean resistance")
    require_at_least(margin, 0.0, "margin on the clean resistance", "Pa")
    return max(factor * clean, clean + margin)
