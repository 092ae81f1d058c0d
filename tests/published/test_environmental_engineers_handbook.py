"""Environmental Engineers' Handbook, section 6.4 (noise measurement), page on background."""

from __future__ import annotations

import pytest

from checker.engineering.acoustics import level_sum, level_without_background


# Background corrections, with Table 6.4.3: sources of 85, 87 and 89 dB add to 92 dB, printed
# whole. Confidence: checked for the page; the book's title is from memory.
def test_three_sources() -> None:
    assert level_sum([85.0, 87.0, 89.0]) == pytest.approx(92.0, abs=0.5)


# Same page: 93 dB with a background of 89 dB leaves 90.7 dB by the table, which is rounded to a
# few tenths; the subtraction itself leaves 90.80 dB. Confidence: checked.
def test_table_subtraction_is_not_followed_to_the_tenth() -> None:
    source = level_without_background(93.0, 89.0)
    assert source == pytest.approx(90.7, abs=0.3)
    assert source != pytest.approx(90.7, abs=0.05)
