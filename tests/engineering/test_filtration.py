"""Filter classes and stages: behaviour and refusals."""

from __future__ import annotations

from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering import filtration
from checker.engineering.filtration import (
    iso_16890_class_value,
    iso_16890_group,
    minimum_efficiency_en_1822,
    minimum_efficiency_iso_29463,
    minimum_local_efficiency_en_1822,
    outlet_concentration,
    series_efficiency,
)
from checker.engineering.limits import OutOfRange

shares = st.floats(0.0, 1.0)


def test_classes_grow_tighter_in_order() -> None:
    en = [minimum_efficiency_en_1822(name) for name in get_args(filtration.ClassEn1822)]
    local = [minimum_local_efficiency_en_1822(n) for n in get_args(filtration.LocalClassEn1822)]
    iso = [minimum_efficiency_iso_29463(name) for name in get_args(filtration.ClassIso29463)]
    for efficiencies in (en, local, iso):
        assert efficiencies == sorted(set(efficiencies))


@pytest.mark.parametrize("name", get_args(filtration.LocalClassEn1822))
def test_a_spot_may_be_worse_than_the_whole(
    name: filtration.LocalClassEn1822,
) -> None:
    assert minimum_local_efficiency_en_1822(name) < minimum_efficiency_en_1822(name)


@given(st.lists(shares, min_size=1, max_size=4))
def test_stages_help_and_order_does_not_matter(stages: list[float]) -> None:
    together = series_efficiency(stages)
    assert max(stages) - 1e-12 <= together <= 1.0
    assert series_efficiency(stages[::-1]) == pytest.approx(together, abs=1e-12)


@given(st.lists(shares, min_size=1, max_size=4), st.floats(0.0, 1e-3))
def test_stages_one_by_one(stages: list[float], inlet: float) -> None:
    left = inlet
    for efficiency in stages:
        left = outlet_concentration(left, efficiency)
    assert outlet_concentration(inlet, series_efficiency(stages)) == pytest.approx(left, abs=1e-15)


@given(st.floats(0.5, 1.0))
def test_the_printed_class_never_promises_more(efficiency: float) -> None:
    printed = iso_16890_class_value(efficiency)
    assert printed <= efficiency + 1e-10
    assert efficiency < printed + 0.05 + 1e-10 or printed == 0.95


@pytest.mark.parametrize("name", ["HEPA", "H10", "F7", ""])
def test_words_that_are_no_class(name: str) -> None:
    with pytest.raises(OutOfRange, match="EN 1822-1 has E10"):
        minimum_efficiency_en_1822(name)  # type: ignore[arg-type]
    with pytest.raises(OutOfRange, match="ISO 29463-1 has 15E"):
        minimum_efficiency_iso_29463(name)  # type: ignore[arg-type]


def test_e_classes_have_no_local_value() -> None:
    with pytest.raises(OutOfRange, match="leak test of EN 1822-1 has H13"):
        minimum_local_efficiency_en_1822("E12")  # type: ignore[arg-type]


def test_refusals_name_the_value() -> None:
    with pytest.raises(OutOfRange, match="efficiency on PM1 is 62"):
        iso_16890_group(62.0, 0.7, 0.8)
    with pytest.raises(OutOfRange, match="cannot fall"):
        iso_16890_group(0.7, 0.6, 0.8)
    with pytest.raises(OutOfRange, match=r"efficiency is 0\.4"):
        iso_16890_class_value(0.4)
    with pytest.raises(OutOfRange, match="No stage"):
        series_efficiency([])
    with pytest.raises(OutOfRange, match=r"efficiency of a stage is 1\.2"):
        series_efficiency([0.5, 1.2])
    with pytest.raises(OutOfRange, match="concentration going in is -1"):
        outlet_concentration(-1.0, 0.5)
