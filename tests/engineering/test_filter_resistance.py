from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.filter_resistance import (
    assumed_final_resistance,
    filter_resistance_at_flow,
)
from checker.engineering.limits import OutOfRange

resistances = st.floats(0.0, 1000.0)


@given(resistances, st.floats(0.01, 1.0), st.floats(0.0, 2.0))
def test_resistance_is_proportional_to_flow(resistance: float, quoted: float, flow: float) -> None:
    found = filter_resistance_at_flow(resistance, quoted, flow)
    assert found == pytest.approx(resistance * flow / quoted)
    assert filter_resistance_at_flow(resistance, quoted, quoted) == pytest.approx(resistance)


@given(resistances)
def test_final_is_never_below_either_rule(clean: float) -> None:
    final = assumed_final_resistance(clean, 3.0, 100.0)
    assert final >= clean + 100.0
    assert final >= 3.0 * clean


def test_the_margin_governs_light_filters_and_the_factor_heavy_ones() -> None:
    assert assumed_final_resistance(40.0, 3.0, 100.0) == 140.0
    assert assumed_final_resistance(50.0, 3.0, 100.0) == 150.0
    assert assumed_final_resistance(150.0, 3.0, 100.0) == 450.0


def test_refusals() -> None:
    with pytest.raises(OutOfRange, match="quoted flow"):
        filter_resistance_at_flow(150.0, 0.0, 0.1)
    with pytest.raises(OutOfRange, match="filter resistance"):
        filter_resistance_at_flow(-1.0, 0.1, 0.1)
    with pytest.raises(OutOfRange, match="The flow is -1 m3/s"):
        filter_resistance_at_flow(1.0, 0.1, -1.0)
    with pytest.raises(OutOfRange, match="clean resistance is -1 Pa"):
        assumed_final_resistance(-1.0, 3.0, 100.0)
    with pytest.raises(OutOfRange, match="factor on the clean resistance"):
        assumed_final_resistance(50.0, 0.9, 100.0)
    with pytest.raises(OutOfRange, match="margin on the clean resistance"):
        assumed_final_resistance(50.0, 3.0, -1.0)
