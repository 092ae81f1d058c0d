"""Resistance of a bolt: what the functions refuse and how they grow."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.fasteners import (
    bolt_shear_factor,
    bolt_shear_resistance,
    bolt_shear_tension_utilisation,
    bolt_tension_resistance,
    clearance_hole_shear_factor,
    mean_head_diameter,
    punching_resistance,
)
from checker.engineering.limits import OutOfRange

forces = st.floats(0.0, 1e6)
resistances = st.floats(1.0, 1e6)


# Arithmetic of EN 1993-1-8 Table 3.4, class 8.8 and A2-70.
@pytest.mark.parametrize(
    ("property_class", "strength", "area_mm2", "tension_kn", "shear_kn"),
    [
        ("8.8", 800e6, 20.1, 11.6, 7.72),
        ("8.8", 800e6, 36.6, 21.1, 14.1),
        ("8.8", 800e6, 58.0, 33.4, 22.3),
        ("A2-70", 700e6, 36.6, 18.4, 10.2),
        ("A2-70", 700e6, 58.0, 29.2, 16.2),
        ("A2-70", 700e6, 84.3, 42.5, 23.6),
    ],
)
def test_small_bolts(property_class, strength, area_mm2, tension_kn, shear_kn):
    area = area_mm2 * 1e-6
    tension = bolt_tension_resistance("hexagon", strength, area, 1.25)
    shear = bolt_shear_resistance(property_class, "threads", strength, area, 1.25)
    assert tension / 1e3 == pytest.approx(tension_kn, abs=0.05)
    assert shear / 1e3 == pytest.approx(shear_kn, abs=0.05)


@given(st.floats(1e8, 1.2e9), st.floats(1e-6, 1e-3), st.floats(1.0, 2.0))
def test_countersunk_is_seven_tenths_of_hexagon(strength, area, factor):
    hexagon = bolt_tension_resistance("hexagon", strength, area, factor)
    countersunk = bolt_tension_resistance("countersunk", strength, area, factor)
    assert countersunk == pytest.approx(0.7 * hexagon)


@pytest.mark.parametrize(
    "property_class",
    ["4.6", "4.8", "5.6", "5.8", "6.8", "8.8", "10.9", "A2-50", "A2-70", "A4-70", "A4-80"],
)
def test_threads_never_beat_the_shank(property_class):
    threads = bolt_shear_factor(property_class, "threads")
    assert threads <= bolt_shear_factor(property_class, "shank")


@pytest.mark.parametrize("property_class", ["12.9", "9.8", "", "8,8", "A2", "8.8 "])
def test_unknown_class_is_refused(property_class):
    with pytest.raises(OutOfRange, match="property class"):
        bolt_shear_factor(property_class, "threads")


def test_unknown_plane_and_head_are_refused():
    with pytest.raises(OutOfRange, match="shear plane"):
        bolt_shear_factor("8.8", "thread")
    with pytest.raises(OutOfRange, match="bolt head"):
        bolt_tension_resistance("hex", 800e6, 36.6e-6, 1.25)


@pytest.mark.parametrize("bad", [0.0, -1.0, math.nan, math.inf])
def test_impossible_values_are_refused(bad):
    with pytest.raises(OutOfRange):
        bolt_tension_resistance("hexagon", bad, 36.6e-6, 1.25)
    with pytest.raises(OutOfRange):
        bolt_shear_resistance("8.8", "threads", 800e6, bad, 1.25)
    with pytest.raises(OutOfRange):
        punching_resistance(0.017, bad, 360e6, 1.25)


@pytest.mark.parametrize("bad", [0.99, 0.0, math.nan])
def test_partial_factor_below_one_is_refused(bad):
    with pytest.raises(OutOfRange, match="partial factor"):
        punching_resistance(0.017, 0.0015, 360e6, bad)


@pytest.mark.parametrize(
    ("bolt_mm", "hole_mm", "normal_mm", "factor"),
    [
        (12, 12.5, 13, 1.0),
        (12, 13, 13, 1.0),
        (12, 13.5, 13, 0.85),
        (12, 14, 13, 0.85),
        (14, 16, 15, 0.85),
        (16, 18, 18, 1.0),
        (10, 11, 11, 1.0),
    ],
)
def test_wide_holes(bolt_mm, hole_mm, normal_mm, factor):
    found = clearance_hole_shear_factor("8.8", bolt_mm / 1e3, hole_mm / 1e3, normal_mm / 1e3)
    assert found == factor


@pytest.mark.parametrize(
    ("bolt_mm", "hole_mm", "normal_mm"),
    [(12, 14.1, 13), (10, 12, 11), (16, 18.5, 18), (10, 10, 11)],
)
def test_holes_the_clause_does_not_cover(bolt_mm, hole_mm, normal_mm):
    with pytest.raises(OutOfRange, match="hole"):
        clearance_hole_shear_factor("8.8", bolt_mm / 1e3, hole_mm / 1e3, normal_mm / 1e3)


@given(forces, resistances, forces, resistances, st.floats(1.0, 3.0))
def test_interaction_grows_with_either_force(shear, shear_limit, tension, tension_limit, more):
    base = bolt_shear_tension_utilisation(shear, shear_limit, tension, tension_limit)
    grown_shear = bolt_shear_tension_utilisation(shear * more, shear_limit, tension, tension_limit)
    grown_tension = bolt_shear_tension_utilisation(
        shear, shear_limit, tension * more, tension_limit
    )
    assert grown_shear >= base
    assert grown_tension >= base
    assert base >= tension / tension_limit
    assert base >= shear / shear_limit


@given(forces, resistances, forces, resistances, st.floats(0.1, 10.0))
def test_interaction_has_no_scale(shear, shear_limit, tension, tension_limit, scale):
    base = bolt_shear_tension_utilisation(shear, shear_limit, tension, tension_limit)
    scaled = bolt_shear_tension_utilisation(
        shear * scale, shear_limit * scale, tension * scale, tension_limit * scale
    )
    assert scaled == pytest.approx(base)


def test_negative_force_is_refused():
    with pytest.raises(OutOfRange, match="shear on the bolt"):
        bolt_shear_tension_utilisation(-1.0, 1.0, 0.0, 1.0)
    with pytest.raises(OutOfRange, match="tension on the bolt"):
        bolt_shear_tension_utilisation(0.0, 1.0, -1.0, 1.0)


@pytest.mark.parametrize(("flats", "points"), [(0.016, 0.015), (0.016, 0.020), (0.0, 0.0)])
def test_no_hexagon(flats, points):
    with pytest.raises(OutOfRange):
        mean_head_diameter(flats, points)


# Arithmetic of EN 1993-1-8 Table 3.4: M10, d_m 17.5 mm, 1.5 mm of S235.
def test_punching_of_sheet():
    assert punching_resistance(0.0175, 0.0015, 360e6, 1.25) / 1e3 == pytest.approx(14.25, abs=0.005)
