"""Properties of the steel tubes that posts are made of.

A tube is named by what can be read off it or its certificate: shape, finish,
width, depth, wall. Cold-formed and hot-finished tubes of one name differ by three
per cent in stiffness, because the corners differ. A round tube is given its
outside diameter as width and again as depth.
"""

from __future__ import annotations

import math
from typing import Literal, get_args

from ._bounds import require_positive
from .dimensions import Area, Density, Length, LinearMass, Number, SecondMoment, SectionModulus
from .limits import OutOfRange

__all__ = [
    "Axis",
    "Face",
    "Finish",
    "Shape",
    "tube_area",
    "tube_corner_radius",
    "tube_elastic_section_modulus",
    "tube_linear_mass",
    "tube_plastic_section_modulus",
    "tube_radius_of_gyration",
    "tube_second_moment",
]

Shape = Literal["square", "rectangular", "round"]
Finish = Literal["cold-formed", "hot-finished"]
Face = Literal["outside", "inside"]
Axis = Literal["major", "minor"]


_SHAPES = get_args(Shape)


def _millimetres(length: Length) -> str:
    return f"{length * 1e3:.4g} mm"


def _size(*lengths: Length) -> str:
    return " × ".join(map(_millimetres, lengths))


def _refuse_impossible(
    shape: Shape, finish: Finish, width: Length, depth: Length, wall: Length
) -> None:
    if shape not in _SHAPES:
        raise OutOfRange(f"The tube's shape is {shape!r}; it is one of {_SHAPES}.")
    require_positive(width, "tube's width", "m")
    require_positive(depth, "tube's depth", "m")
    require_positive(wall, "tube's wall", "m")
    if shape != "rectangular" and not math.isclose(width, depth, rel_tol=1e-9):
        raise OutOfRange(
            f"The {shape} tube is {_size(width, depth, wall)}; the width and the depth of a {shape} tube must be equal."
        )
    smaller = min(width, depth)
    if 2.0 * wall >= smaller:
        raise OutOfRange(
            f"The tube is {_size(width, depth, wall)}; the wall must be below half the smaller outside dimension, "
            f"{_millimetres(smaller / 2.0)}, for the tube to be hollow."
        )
    if shape != "round" and 2.0 * tube_corner_radius(finish, wall, "outside") > smaller:
        raise OutOfRange(
            f"The {finish} tube is {_size(width, depth, wall)}; its two outside corner radii, "
            f"{_millimetres(tube_corner_radius(finish, wall, 'outside'))} each, "
            f"must fit on the smaller side."
        )


def tube_corner_radius(finish: Finish, wall: Length, face: Face) -> Length:
    """Corner radius of a square or rectangular tube for its section properties, r_o or r_i, m.

    Source: EN 10219-2:2006 and EN 10210-2:2006, Annex B. Confidence: checked: the outside radii
    of cold-formed tubes read in the header of a published EN 10219:2006 table, those of hot-finished
    ones by printed section data of EN 10210-2.

    finish: "cold-formed" (EN 10219) or "hot-finished" (EN 10210)
    wall: wall thickness t [m], > 0
    face: "outside" or "inside" of the corner
    Returns [m].
    Valid for: section properties; a real corner may have any radius inside the standard's
    tolerance.
    Raises OutOfRange: wall not above 0, another finish or face.

    >>> tube_corner_radius("cold-formed", 0.004, "outside")  # 2.0 t up to 6 mm
    0.008
    >>> tube_corner_radius("cold-formed", 0.008, "outside")  # 2.5 t over 6 mm up to 10 mm
    0.020
    >>> tube_corner_radius("hot-finished", 0.004, "outside")
    0.006
    """
    require_positive(wall, "tube's wall", "m")
    if finish not in get_args(Finish):
        raise OutOfRange(f"The tube's finish is {finish!r}; it is one of {get_args(Finish)}.")
    if face not in get_args(Face):
        raise OutOfRange(f"The face of the corner is {face!r}; it is one of {get_args(Face)}.")
    if finish == "hot-finished":
        return (1.5 if face == "outside" else 1.0) * wall
    # A wall converted from inches or added up from parts must not jump a band by a rounding error.
    if wall <= 0.006 * (1.0 + 1e-9):
        factor = 2.0
    elif wall <= 0.010 * (1.0 + 1e-9):
        factor = 2.5
    else:
        factor = 3.0
    return (factor if face == "outside" else factor - 1.0) * wall


def tube_area(shape: Shape, finish: Finish, width: Length, depth: Length, wall: Length) -> Area:
    """Cross-sectional area of a tube, A, m².

    Source: EN 10219-2:2006 and EN 10210-2:2006, Annex B. Confidence: checked by published
    section tables, which the formula reproduces to the printed digits; the Annex was not read.

    shape: "square", "rectangular" or "round"
    finish: "cold-formed" or "hot-finished"; it sets the corner radius and is idle for round tubes
    width: outside width, or outside diameter [m], > 0
    depth: outside depth [m]; equal to the width for square and round tubes
    wall: wall thickness [m], > 0 and thin enough for the tube to be hollow
    Returns [m²].
    Valid for: nominal outside dimensions.
    Raises OutOfRange: dimensions that cannot be a tube of that shape.

    >>> tube_area("square", "cold-formed", 0.060, 0.060, 0.003)  # printed 6.61 cm²
    6.61e-4
    """
    _refuse_impossible(shape, finish, width, depth, wall)
    if shape == "round":
        return math.pi * (width - wall) * wall
    outside = tube_corner_radius(finish, wall, "outside")
    inside = tube_corner_radius(finish, wall, "inside")
    return 2.0 * wall * (width + depth - 2.0 * wall) - (4.0 - math.pi) * (outside**2 - inside**2)


def tube_second_moment(
    shape: Shape, finish: Finish, width: Length, depth: Length, wall: Length, axis: Axis
) -> SecondMoment:
    """Second moment of area of a tube, I, m⁴.

    Source: EN 10219-2:2006 and EN 10210-2:2006, Annex B. Confidence: checked by published
    section tables, which the formula reproduces to the printed digits; the Annex was not read.

    shape: "square", "rectangular" or "round"
    finish: "cold-formed" or "hot-finished"; it sets the corner radius and is idle for round tubes
    width: outside width, or outside diameter [m], > 0
    depth: outside depth [m]; equal to the width for square and round tubes
    wall: wall thickness [m], > 0 and thin enough for the tube to be hollow
    axis: "major", the stiffer axis (bending in the plane of the larger dimension), or "minor"
    Returns [m⁴].
    Valid for: nominal outside dimensions.
    Raises OutOfRange: dimensions that cannot be a tube of that shape.

    >>> tube_second_moment("square", "cold-formed", 0.060, 0.060, 0.003, "major")  # 35.1 cm⁴
    3.51e-7
    >>> tube_second_moment("rectangular", "cold-formed", 0.060, 0.040, 0.003, "minor")  # 13.4 cm⁴
    1.34e-7
    """
    _refuse_impossible(shape, finish, width, depth, wall)
    h, b = _in_plane(width, depth, axis)
    if shape == "round":
        return math.pi / 64.0 * (width**4 - (width - 2.0 * wall) ** 4)
    outside = tube_corner_radius(finish, wall, "outside")
    inside = tube_corner_radius(finish, wall, "inside")
    sharp = (b * h**3 - (b - 2.0 * wall) * (h - 2.0 * wall) ** 3) / 12.0
    return (
        sharp
        - 4.0 * _corner_second_moment(outside, h / 2.0)
        + 4.0 * _corner_second_moment(inside, h / 2.0 - wall)
    )


def tube_elastic_section_modulus(
    shape: Shape, finish: Finish, width: Length, depth: Length, wall: Length, axis: Axis
) -> SectionModulus:
    """Elastic section modulus of a tube, W_el, m³.

    Source: EN 10219-2:2006 and EN 10210-2:2006, Annex B. Confidence: checked by published
    section tables, which the formula reproduces to the printed digits; the Annex was not read.

    shape: "square", "rectangular" or "round"
    finish: "cold-formed" or "hot-finished"; it sets the corner radius and is idle for round tubes
    width: outside width, or outside diameter [m], > 0
    depth: outside depth [m]; equal to the width for square and round tubes
    wall: wall thickness [m], > 0 and thin enough for the tube to be hollow
    axis: "major", the stiffer axis (bending in the plane of the larger dimension), or "minor"
    Returns [m³].
    Valid for: nominal outside dimensions.
    Raises OutOfRange: dimensions that cannot be a tube of that shape.

    >>> tube_elastic_section_modulus("square", "cold-formed", 0.060, 0.060, 0.003, "major")
    1.17e-5
    """
    second_moment = tube_second_moment(shape, finish, width, depth, wall, axis)
    return 2.0 * second_moment / _in_plane(width, depth, axis)[0]


def tube_plastic_section_modulus(
    shape: Shape, finish: Finish, width: Length, depth: Length, wall: Length, axis: Axis
) -> SectionModulus:
    """Plastic section modulus of a tube, W_pl, m³.

    Source: EN 10219-2:2006 and EN 10210-2:2006, Annex B. Confidence: checked by published
    section tables, which the formula reproduces to the printed digits; the Annex was not read.

    shape: "square", "rectangular" or "round"
    finish: "cold-formed" or "hot-finished"; it sets the corner radius and is idle for round tubes
    width: outside width, or outside diameter [m], > 0
    depth: outside depth [m]; equal to the width for square and round tubes
    wall: wall thickness [m], > 0 and thin enough for the tube to be hollow
    axis: "major", the stiffer axis (bending in the plane of the larger dimension), or "minor"
    Returns [m³].
    Valid for: nominal outside dimensions.
    Raises OutOfRange: dimensions that cannot be a tube of that shape.

    >>> tube_plastic_section_modulus("square", "cold-formed", 0.060, 0.060, 0.003, "major")
    1.40e-5
    """
    _refuse_impossible(shape, finish, width, depth, wall)
    h, b = _in_plane(width, depth, axis)
    if shape == "round":
        return (width**3 - (width - 2.0 * wall) ** 3) / 6.0
    outside = tube_corner_radius(finish, wall, "outside")
    inside = tube_corner_radius(finish, wall, "inside")
    sharp = (b * h**2 - (b - 2.0 * wall) * (h - 2.0 * wall) ** 2) / 4.0
    return (
        sharp
        - 4.0 * _corner_area(outside) * _corner_arm(outside, h / 2.0)
        + 4.0 * _corner_area(inside) * _corner_arm(inside, h / 2.0 - wall)
    )


def tube_radius_of_gyration(
    shape: Shape, finish: Finish, width: Length, depth: Length, wall: Length, axis: Axis
) -> Length:
    """Radius of gyration of a tube, i = √(I/A), m.

    Source: EN 10219-2:2006 and EN 10210-2:2006, Annex B. Confidence: checked by published
    section tables, which the formula reproduces to the printed digits; the Annex was not read.

    shape: "square", "rectangular" or "round"
    finish: "cold-formed" or "hot-finished"; it sets the corner radius and is idle for round tubes
    width: outside width, or outside diameter [m], > 0
    depth: outside depth [m]; equal to the width for square and round tubes
    wall: wall thickness [m], > 0 and thin enough for the tube to be hollow
    axis: "major", the stiffer axis (bending in the plane of the larger dimension), or "minor"
    Returns [m].
    Valid for: nominal outside dimensions.
    Raises OutOfRange: dimensions that cannot be a tube of that shape.

    >>> tube_radius_of_gyration("square", "cold-formed", 0.060, 0.060, 0.003, "major")  # 2.31 cm
    0.0231
    """
    second_moment = tube_second_moment(shape, finish, width, depth, wall, axis)
    return math.sqrt(second_moment / tube_area(shape, finish, width, depth, wall))


def tube_linear_mass(
    shape: Shape, finish: Finish, width: Length, depth: Length, wall: Length, density: Density
) -> LinearMass:
    """Mass of a tube per metre of length, m' = A ρ, kg/m.

    Source: EN 10219-2:2006 and EN 10210-2:2006, Annex B. Confidence: checked by published
    section tables, which state steel at 7850 kg/m³ and which the formula reproduces to the printed
    digits; the Annex was not read.

    shape: "square", "rectangular" or "round"
    finish: "cold-formed" or "hot-finished"; it sets the corner radius and is idle for round tubes
    width: outside width, or outside diameter [m], > 0
    depth: outside depth [m]; equal to the width for square and round tubes
    wall: wall thickness [m], > 0 and thin enough for the tube to be hollow
    density: density of the tube's material [kg/m³], > 0
    Returns [kg/m].
    Valid for: nominal outside dimensions, uncoated.
    Raises OutOfRange: dimensions that cannot be a tube of that shape; density not above 0.

    >>> tube_linear_mass("square", "cold-formed", 0.060, 0.060, 0.003, 7850.0)  # printed 5.19
    5.19
    """
    require_positive(density, "density", "kg/m³")
    return density * tube_area(shape, finish, width, depth, wall)


def _in_plane(width: Length, depth: Length, axis: Axis) -> tuple[Length, Length]:
    """Dimension in the plane of bending, then the one across it."""
    if axis not in get_args(Axis):
        raise OutOfRange(f"The axis of bending is {axis!r}; it is one of {get_args(Axis)}.")
    larger, smaller = max(width, depth), min(width, depth)
    return (larger, smaller) if axis == "major" else (smaller, larger)


def _corner_area(radius: Length) -> Area:
    """What rounding cuts off one square corner."""
    return (1.0 - math.pi / 4.0) * radius**2


def _corner_arm(radius: Length, face: Length) -> Length:
    """Distance from the axis to the centroid of the cut-off corner; the face lies at `face`."""
    return face - (10.0 - 3.0 * math.pi) / (12.0 - 3.0 * math.pi) * radius


def _corner_second_moment(radius: Length, face: Length) -> SecondMoment:
    """Second moment of the cut-off corner about the axis of the tube."""
    ratio: Number = 1.0 / 3.0 - math.pi / 16.0 - 1.0 / (3.0 * (12.0 - 3.0 * math.pi))
    return ratio * radius**4 + _corner_area(radius) * _corner_arm(radius, face) ** 2
