"""Air contaminants, United States: computation formulae of 29 CFR 1910.1000(d)."""

from __future__ import annotations

import pytest

from checker.engineering.exposure import mixture_index, shift_average_concentration

HOUR = 3600.0


# 1910.1000(d)(1)(ii): two hours at 150 ppm, two at 75, four at 50: 81.25 ppm. Confidence: checked.
def test_shift_average() -> None:
    average = shift_average_concentration([150.0, 75.0, 50.0], [2 * HOUR, 2 * HOUR, 4 * HOUR])
    assert average == pytest.approx(81.25, abs=0.005)


# 1910.1000(d)(2)(ii): 500, 45 and 40 ppm against 1000, 200 and 200: 0.925, below one. Confidence:
# checked.
def test_mixture() -> None:
    index = mixture_index([500.0, 45.0, 40.0], [1000.0, 200.0, 200.0])
    assert index == pytest.approx(0.925, abs=0.0005)
    assert index < 1.0


# Same paragraph, the three terms of the sum: 0.500, 0.225, 0.200. Confidence: from-memory.
@pytest.mark.parametrize(
    ("concentration", "limit", "term"),
    [(500.0, 1000.0, 0.500), (45.0, 200.0, 0.225), (40.0, 200.0, 0.200)],
)
def test_terms_of_the_mixture(concentration: float, limit: float, term: float) -> None:
    assert mixture_index([concentration], [limit]) == pytest.approx(term, abs=0.0005)
