"""Oil mist in a duct: behaviour and refusals."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.limits import OutOfRange
from checker.engineering.mist_fire import (
    lower_explosive_limit_share,
    mean_mist_concentration,
    oil_rate_at_concentration,
    travel_before_damper_closes,
)

HOUR = 3600.0


# Arithmetic with a limit of 50 g/m³ (50 mg/l, classification societies) at 600 m³/h: 25 % and all.
@pytest.mark.parametrize(("share", "kilograms"), [(0.25, 7.5), (1.0, 30.0)])
def test_oil_that_reaches_the_limit(share: float, kilograms: float) -> None:
    assert oil_rate_at_concentration(share * 0.050, 600 / HOUR) * HOUR == pytest.approx(kilograms)
    concentration = mean_mist_concentration(kilograms / HOUR, 600 / HOUR)
    assert lower_explosive_limit_share(concentration, 0.050) == pytest.approx(share)


# Arithmetic of x = V t.
@pytest.mark.parametrize(("velocity", "travel"), [(10.0, 30.0), (12.0, 36.0)])
def test_travel(velocity: float, travel: float) -> None:
    assert travel_before_damper_closes(velocity, 3.0) == pytest.approx(travel)


@given(st.floats(0.0, 1e-2), st.floats(1e-3, 10.0))
def test_there_and_back(oil: float, air: float) -> None:
    assert oil_rate_at_concentration(mean_mist_concentration(oil, air), air) == pytest.approx(oil)


def test_refusals_name_the_value() -> None:
    with pytest.raises(OutOfRange, match="air flow is 0 m³/s"):
        mean_mist_concentration(1e-3, 0.0)
    with pytest.raises(OutOfRange, match="oil lost to the air is -1"):
        mean_mist_concentration(-1.0, 1.0)
    with pytest.raises(OutOfRange, match="lower explosive limit is 0"):
        lower_explosive_limit_share(1e-3, 0.0)
    with pytest.raises(OutOfRange, match="concentration is -1"):
        oil_rate_at_concentration(-1.0, 1.0)
    with pytest.raises(OutOfRange, match="closing time is -3 s"):
        travel_before_damper_closes(10.0, -3.0)
    with pytest.raises(OutOfRange, match="duct velocity is -10"):
        travel_before_damper_closes(-10.0, 3.0)
