"""The area from which the cones of a group of anchors break out of the concrete.

By EN 1992-4. Each anchor's idealised cone is a square of 3 h_ef at the surface;
neighbours overlap and edges cut it.
"""

from __future__ import annotations

import math

from ._bounds import require_at_least, require_positive, require_within
from .dimensions import Area, Length, Number
from .limits import OutOfRange

__all__ = [
    "cone_area_ratio",
    "cone_characteristic_edge_distance",
    "cone_characteristic_spacing",
    "cone_projected_length",
    "cone_reference_area",
    "narrow_member_embedment",
]


def cone_characteristic_spacing(embedment: Length) -> Length:
    """Spacing beyond which two cones do not meet, s_cr,N = 3 h_ef, m.

    Source: EN 1992-4:2018, 7.2.1.4; CEN/TS 1992-4-2:2009, 6.2.5.2, note. Confidence: checked.

    embedment: effective embedment h_ef, or h'_ef in a narrow member [m], > 0
    Returns [m]. Valid for: anchors whose approval gives no other value.
    Raises OutOfRange: embedment not above 0.

    >>> cone_characteristic_spacing(0.080)
    0.240
    """
    require_positive(embedment, "effective embedment", "m")
    return 3.0 * embedment


def cone_characteristic_edge_distance(embedment: Length) -> Length:
    """Distance beyond which an edge does not cut the cone, c_cr,N = 1.5 h_ef, m.

    Source: EN 1992-4:2018, 7.2.1.4; CEN/TS 1992-4-2:2009, 6.2.5.2, note. Confidence: checked.

    embedment: effective embedment h_ef, or h'_ef in a narrow member [m], > 0
    Returns [m]. Valid for: anchors whose approval gives no other value.
    Raises OutOfRange: embedment not above 0.

    >>> cone_characteristic_edge_distance(0.080)
    0.120
    """
    return 0.5 * cone_characteristic_spacing(embedment)


def cone_reference_area(embedment: Length) -> Area:
    """Area of one undisturbed cone at the concrete's surface, A⁰_c,N = s_cr,N², m².

    Source: EN 1992-4:2018, 7.2.1.4; CEN/TS 1992-4-2:2009, Equation (7). Confidence: checked.

    embedment: effective embedment h_ef, or h'_ef in a narrow member [m], > 0
    Returns [m²]. Raises OutOfRange: embedment not above 0.

    >>> cone_reference_area(0.5 / 3.0)  # base-plate calculation sheet: 250 000 mm²
    0.250
    """
    return cone_characteristic_spacing(embedment) ** 2


def cone_projected_length(
    embedment: Length,
    anchors_in_line: Number,
    spacing: Length,
    first_edge: Length,
    last_edge: Length,
) -> Length:
    """Length of a rectangular group's cone in one direction, between edges, m.

    Source: EN 1992-4:2018, 7.2.1.4; CEN/TS 1992-4-2:2009, Figure 4. Confidence: checked.

    embedment: effective embedment h_ef, or h'_ef in a narrow member [m], > 0
    anchors_in_line: tensioned anchors in this direction, a whole number >= 1
    spacing: distance between neighbours [m], > 0; idle for one anchor
    first_edge: from the first anchor to the concrete's edge before it [m], > 0
    last_edge: from the last anchor to the concrete's edge behind it [m], > 0
    Returns [m]; by the method, an edge counts up to 1.5 h_ef and a spacing up to 3 h_ef. The
    product of the two directions is A_c,N. Raises OutOfRange: count not whole, a
    distance not above 0.

    >>> cone_projected_length(0.300, 2, 0.300, 5.0, 5.0)  # 450 + 300 + 450 mm
    1.200
    """
    require_positive(first_edge, "distance to the edge before the first anchor", "m")
    require_positive(last_edge, "distance to the edge behind the last anchor", "m")
    require_at_least(anchors_in_line, 1.0, "number of anchors in line")
    if anchors_in_line != math.floor(anchors_in_line):
        raise OutOfRange(
            f"The number of anchors in line is {anchors_in_line:.6g}; it must be whole."
        )
    reach = cone_characteristic_edge_distance(embedment)
    between = 0.0
    if anchors_in_line > 1.0:
        require_positive(spacing, "spacing of the anchors", "m")
        between = (anchors_in_line - 1.0) * min(spacing, 2.0 * reach)
    return min(first_edge, reach) + between + min(last_edge, reach)


def cone_area_ratio(length: Length, width: Length, embedment: Length) -> Number:
    """Area of a group's cone over that of one undisturbed cone, A_c,N / A⁰_c,N.

    Source: EN 1992-4:2018, 7.2.1.4; CEN/TS 1992-4-2:2009, Equation (4). Confidence: checked.

    length: projected length of the cone in one direction, by cone_projected_length [m], > 0
    width: projected length in the other direction [m], > 0
    embedment: effective embedment h_ef, or h'_ef in a narrow member [m], > 0
    Returns [-]. Raises OutOfRange: a dimension not above 0.

    >>> cone_area_ratio(1.200, 1.200, 0.300)  # engineering brief, example 1: 1.778
    1.778
    """
    require_positive(length, "projected length of the cone", "m")
    require_positive(width, "projected width of the cone", "m")
    return length * width / cone_reference_area(embedment)


def narrow_member_embedment(
    largest_edge_distance: Length, largest_spacing: Length, embedment: Length
) -> Length:
    """Embedment to calculate with between three or four near edges, h'_ef, m.

    Source: EN 1992-4:2018, 7.2.1.4; CEN/TS 1992-4-2:2009, 6.2.5.7, Equations (13) and (14) and
    Figure 6: max(c_max/1.5, s_max/3). Confidence: checked.

    largest_edge_distance: c_max, the largest of the near edges' distances [m], up to 1.5 h_ef
    largest_spacing: s_max, the largest spacing of neighbours [m], up to 3 h_ef; 0 for one anchor
    embedment: effective embedment h_ef [m], > 0
    Returns [m], at most h_ef. Valid for: at least three edges nearer than 1.5 h_ef; s_cr,N, c_cr,N
    and N⁰ then all follow from h'_ef. Raises OutOfRange: a distance outside its range.

    >>> narrow_member_embedment(0.120, 0.210, 0.200)  # CEN/TS 1992-4-2, Figure 6: 80 mm
    0.080
    """
    require_positive(largest_edge_distance, "largest edge distance", "m")
    reach = cone_characteristic_edge_distance(embedment)
    require_within(
        largest_edge_distance, 0.0, reach, "largest edge distance", "m", "the narrow-member rule"
    )
    require_within(
        largest_spacing, 0.0, 2.0 * reach, "largest spacing", "m", "the narrow-member rule"
    )
    return max(largest_edge_distance / 1.5, largest_spacing / 3.0)
