"""Public pages that teach the addition of sound levels."""

from __future__ import annotations

import pytest

from checker.engineering.acoustics import combined_level, level_of_equal_sources, level_sum


# Decibel-addition page: 62 dB and 73 dB together, printed 73.3 dB. Confidence: checked.
def test_unequal_pair() -> None:
    assert combined_level(62.0, 73.0) == pytest.approx(73.3, abs=0.05)


# Decibel-addition page and a meter's handbook: two machines of 80 dB each make 83 dB; two of
# 85 dB make 88 dB. Printed whole. Confidence: checked.
@pytest.mark.parametrize(("each", "together"), [(80.0, 83.0), (85.0, 88.0)])
def test_equal_pair(each: float, together: float) -> None:
    assert combined_level(each, each) == pytest.approx(together, abs=0.5)
    assert level_of_equal_sources(each, 2) == pytest.approx(together, abs=0.5)


# Decibel-addition page: 90, 80 and 75 dB, printed 90.6 dB by adding pairs with a rounded chart;
# the sum is 90.54 dB. Confidence: checked.
def test_chart_sum_of_three_is_not_followed() -> None:
    assert level_sum([90.0, 80.0, 75.0]) != pytest.approx(90.6, abs=0.05)
    assert level_sum([90.0, 80.0, 75.0]) == pytest.approx(90.54, abs=0.005)
