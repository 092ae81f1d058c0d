"""Whether a stand falls over, what its anchors then hold, and what a journey does to it.

Moments are about the edge over which the stand would tip. The partial factors are
arguments, because a national annex may change them; EN 1990 recommends, for loss of
equilibrium, 0.90 on weight that holds, 1.10 on weight that tips and 1.50 on other
loads that tip.
"""

from __future__ import annotations

from typing import Literal

from ._bounds import require_at_least, require_positive, require_within
from .dimensions import Force, Length, Mass, Moment, Number

__all__ = [
    "anchor_tension",
    "overturning_design_moment",
    "stabilising_design_moment",
    "stability_ratio",
    "transit_horizontal_force",
    "transit_vertical_force",
]

_STANDARD_GRAVITY = 9.80665  # m/s², ISO 80000-3


def stabilising_design_moment(weight: Force, lever: Length, partial_factor: Number) -> Moment:
    """Design moment that holds a stand down, M_stb = γ_G,inf·G·b, N·m.

    Source: EN 1990:2002, 6.4.2 and Table A1.2(A), recommended γ_G,inf 0.90, as printed in Steel
    Buildings in Europe, Part 3, Table 3.1. Confidence: checked.

    weight: permanent load that holds, without anything that may be taken away [N], >= 0
    lever: from the weight's line to the tipping edge, in the worst direction [m], > 0
    partial_factor: γ_G,inf [-], above 0 up to 1
    Returns [N·m]. Raises OutOfRange: a value outside its range.

    >>> stabilising_design_moment(95 * 9.81, 0.4, 0.90)  # arithmetic of the formula
    335.5
    """
    require_at_least(weight, 0.0, "stabilising weight", "N")
    require_positive(lever, "lever of the stabilising weight", "m")
    require_positive(partial_factor, "partial factor on the stabilising weight")
    require_within(
        partial_factor,
        0.0,
        1.0,
        "partial factor on the stabilising weight",
        "",
        "Table A1.2(A) of EN 1990",
    )
    return partial_factor * weight * lever


def overturning_design_moment(
    horizontal_force: Force, height: Length, other_moment: Moment, partial_factor: Number
) -> Moment:
    """Design moment that tips a stand, M_dst = γ_Q·(H·h + M), N·m.

    Source: EN 1990:2002, 6.4.2 and Table A1.2(A), recommended γ_Q 1.50, as printed in Steel
    Buildings in Europe, Part 3, Table 3.1. Confidence: checked.

    horizontal_force: H, a pull or a push on the stand [N], >= 0
    height: h, of that force above the tipping edge [m], >= 0
    other_moment: any other moment that tips, before its factor [N·m], >= 0
    partial_factor: γ_Q [-], >= 1
    Returns [N·m]. Raises OutOfRange: a value outside its range.

    >>> overturning_design_moment(300.0, 1.5, 0.0, 1.50)  # arithmetic of the formula
    675.0
    """
    require_at_least(horizontal_force, 0.0, "horizontal force", "N")
    require_at_least(height, 0.0, "height of the horizontal force", "m")
    require_at_least(other_moment, 0.0, "other overturning moment", "N·m")
    require_at_least(partial_factor, 1.0, "partial factor on the overturning load")
    return partial_factor * (horizontal_force * height + other_moment)


def stability_ratio(stabilising_moment: Moment, overturning_moment: Moment) -> Number:
    """Moment that holds over moment that tips, M_stb/M_dst.

    Source: statics; for characteristic moments 1.5 is a usual aim, for design moments 1 is the
    limit of EN 1990:2002, 6.4.2. Confidence: checked for EN 1990, common-practice for 1.5.

    stabilising_moment: moment that holds about the tipping edge [N·m], >= 0
    overturning_moment: moment that tips about the same edge [N·m], > 0
    Returns [-]. Raises OutOfRange: nothing tips, or a moment below 0.

    >>> stability_ratio(335.5, 675.0)
    0.50
    """
    require_at_least(stabilising_moment, 0.0, "stabilising moment", "N·m")
    require_positive(overturning_moment, "overturning moment", "N·m")
    return stabilising_moment / overturning_moment


def anchor_tension(
    overturning_moment: Moment,
    weight: Force,
    weight_lever: Length,
    bolt_lever: Length,
    bolts: Number,
) -> Force:
    """Tension in each anchor on the lifting side of a base plate, (M − G·b)/(n·z), N.

    Source: statics, moments about the pressed edge of a stiff base plate. Confidence:
    common-practice.

    overturning_moment: design moment that tips [N·m], >= 0
    weight: design weight that holds [N], >= 0
    weight_lever: b, from the weight's line to the pressed edge [m], >= 0
    bolt_lever: z, from the tensioned anchors to the pressed edge [m], > 0
    bolts: n, tensioned anchors sharing the pull [-], >= 1
    Returns [N]; 0 while the weight alone holds the plate down. Valid for: a plate stiff enough not
    to pry; pressure at the edge, so for a soft floor take z and b shorter.
    Raises OutOfRange: a value outside its range.

    >>> anchor_tension(675.0, 0.9 * 95 * 9.81, 0.25, 0.5, 2)  # arithmetic of the formula
    4.65e2
    """
    require_at_least(overturning_moment, 0.0, "overturning moment", "N·m")
    require_at_least(weight, 0.0, "stabilising weight", "N")
    require_at_least(weight_lever, 0.0, "lever of the stabilising weight", "m")
    require_positive(bolt_lever, "lever of the tensioned anchors", "m")
    require_at_least(bolts, 1.0, "number of tensioned anchors")
    return max(0.0, overturning_moment - weight * weight_lever) / (bolt_lever * bolts)


def transit_horizontal_force(mass: Mass, coefficient: Number) -> Force:
    """Horizontal force on a unit that stays fitted during a journey, F = c·m·g, N.

    Source: EN 12195-1:2010, Clause 5. Confidence: checked (its road coefficients, as a CTU Code
    training page and an insurers' load-securing handbook print them: 0.8 forward, 0.5 to the sides
    and rear, 0.6 where it may tip).

    mass: mass of the unit as it travels [kg], > 0
    coefficient: c, acceleration in units of g [-], above 0 up to 4 (rail with shunting)
    Returns [N]. Valid for: quasi-static loads on a stiff mount; a slender post that sways at the
    vehicle's own frequency takes more. Raises OutOfRange: a value outside its range.

    >>> transit_horizontal_force(60.0, 0.8)  # arithmetic of the formula
    4.71e2
    """
    require_positive(mass, "mass in transit", "kg")
    require_positive(coefficient, "acceleration coefficient")
    require_within(
        coefficient, 0.0, 4.0, "acceleration coefficient", "", "transport by any carrier"
    )
    return coefficient * mass * _STANDARD_GRAVITY


def transit_vertical_force(
    mass: Mass, coefficient: Number, phase: Literal["heavy", "light"]
) -> Force:
    """Vertical force of a unit during a journey, (1 ± c)·m·g, N.

    Source: an insurers' packaging handbook, 1.3.1, Table 1, quoting the packing guidelines that
    came before the CTU Code. Confidence: checked.

    mass: mass of the unit as it travels [kg], > 0
    coefficient: c, swing of the vertical acceleration about 1 g [-], 0 to 1 (open sea: 0.8)
    phase: "heavy", pressed down, or "light", when it tips most easily
    Returns [N]. Raises OutOfRange: a value outside its range.

    >>> transit_vertical_force(60.0, 0.8, "light")  # arithmetic of the formula
    1.18e2
    """
    require_positive(mass, "mass in transit", "kg")
    require_within(
        coefficient, 0.0, 1.0, "vertical acceleration coefficient", "", "a load that stays down"
    )
    sign = 1.0 if phase == "heavy" else -1.0
    return (1.0 + sign * coefficient) * mass * _STANDARD_GRAVITY
