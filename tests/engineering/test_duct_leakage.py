"""Leakage of ducts: behaviour and refusals."""

from __future__ import annotations

from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering import duct_leakage
from checker.engineering.duct_leakage import (
    permitted_leakage,
    rectangular_duct_surface,
    round_duct_surface,
    smacna_leakage_class,
    smacna_permitted_leakage,
    tightness_class_met,
)
from checker.engineering.limits import OutOfRange

HOUR = 3600.0
pressures = st.floats(1.0, 2000.0)
surfaces = st.floats(0.1, 500.0)
classes = st.sampled_from(get_args(duct_leakage.TightnessClass))


# Arithmetic of f p^0.65, litres a second per square metre.
@pytest.mark.parametrize(
    ("pressure", "a", "b", "c", "d"),
    [
        (400, 1.326, 0.442, 0.147, 0.049),
        (500, 1.534, 0.511, 0.170, 0.057),
        (1000, 2.406, 0.802, 0.267, 0.089),
    ],
)
def test_classes(pressure: float, a: float, b: float, c: float, d: float) -> None:
    expected: dict[duct_leakage.TightnessClass, float] = {"A": a, "B": b, "C": c, "D": d}
    for name, value in expected.items():
        assert permitted_leakage(name, pressure, 1.0) * 1e3 == pytest.approx(value, abs=5e-4)


# Arithmetic: 5 m of 160 mm at 500 Pa, m³/h.
@pytest.mark.parametrize(("name", "expected"), [("A", 13.88), ("C", 1.54)])
def test_a_run_of_duct(name: duct_leakage.TightnessClass, expected: float) -> None:
    surface = round_duct_surface(0.160, 5.0)
    assert surface == pytest.approx(2.513, abs=5e-4)
    assert permitted_leakage(name, 500.0, surface) * HOUR == pytest.approx(expected, abs=5e-3)


# Arithmetic of the units: one American class is 0.001407 l/s per m² at 1 Pa.
@pytest.mark.parametrize(("number", "factor"), [(12, 0.01688), (3, 0.00422), (1, 0.001407)])
def test_american_class_in_european_units(number: float, factor: float) -> None:
    assert smacna_permitted_leakage(number, 1.0, 1.0) * 1e3 == pytest.approx(factor, rel=5e-4)


@pytest.mark.parametrize(("name", "number"), [("A", 19.2), ("C", 2.13)])
def test_european_class_in_american_units(name: duct_leakage.TightnessClass, number: float) -> None:
    leakage = permitted_leakage(name, 500.0, 3.0)
    assert smacna_leakage_class(leakage, 500.0, 3.0) == pytest.approx(number, rel=5e-3)


@given(classes, pressures, surfaces)
def test_a_duct_at_its_limit_meets_its_class(
    name: duct_leakage.TightnessClass, pressure: float, surface: float
) -> None:
    limit = permitted_leakage(name, pressure, surface)
    assert tightness_class_met(limit, pressure, surface) == name
    assert tightness_class_met(1.001 * limit, pressure, surface) != name


def test_a_leaky_duct_meets_none() -> None:
    assert tightness_class_met(1.0, 100.0, 1.0) == "none"
    assert tightness_class_met(0.0, 100.0, 1.0) == "ATC 1"


@given(classes, st.floats(1.0, 1000.0), surfaces)
def test_pressure_and_surface(
    name: duct_leakage.TightnessClass, pressure: float, surface: float
) -> None:
    leakage = permitted_leakage(name, pressure, surface)
    assert permitted_leakage(name, pressure, 2 * surface) == pytest.approx(2 * leakage)
    assert permitted_leakage(name, 2 * pressure, surface) == pytest.approx(2**0.65 * leakage)


@given(st.floats(0.5, 48.0), pressures, surfaces)
def test_american_class_there_and_back(number: float, pressure: float, surface: float) -> None:
    leakage = smacna_permitted_leakage(number, pressure, surface)
    assert smacna_leakage_class(leakage, pressure, surface) == pytest.approx(number)


def test_square_duct() -> None:
    assert rectangular_duct_surface(0.25, 0.25, 2.0) == pytest.approx(2.0)


def test_refusals_name_the_value() -> None:
    with pytest.raises(OutOfRange, match="duct wall is 2500 Pa"):
        permitted_leakage("A", 2500.0, 1.0)
    with pytest.raises(OutOfRange, match="duct wall is 0 Pa"):
        smacna_permitted_leakage(3, 0.0, 1.0)
    with pytest.raises(OutOfRange, match="duct wall is -400 Pa"):
        permitted_leakage("B", -400.0, 1.0)
    with pytest.raises(OutOfRange, match="'E'; ducts have ATC 6, A, B, C, D, ATC 1"):
        permitted_leakage("E", 400.0, 1.0)  # type: ignore[arg-type]
    with pytest.raises(OutOfRange, match="surface of the duct is 0"):
        tightness_class_met(0.0, 400.0, 0.0)
    with pytest.raises(OutOfRange, match="leakage is -1"):
        smacna_leakage_class(-1.0, 400.0, 1.0)
    with pytest.raises(OutOfRange, match="leakage class is 0"):
        smacna_permitted_leakage(0, 400.0, 1.0)
    with pytest.raises(OutOfRange, match="bore is 0 m"):
        round_duct_surface(0.0, 1.0)
    with pytest.raises(OutOfRange, match="height is -1 m"):
        rectangular_duct_surface(1.0, -1.0, 1.0)


@given(st.floats(1e-3, 1.0), surfaces)
def test_the_leakage_follows_the_pressure_down_to_nought(pressure: float, surface: float) -> None:
    at_one = permitted_leakage("B", 1.0, surface)
    assert permitted_leakage("B", pressure, surface) == pytest.approx(at_one * pressure**0.65)
