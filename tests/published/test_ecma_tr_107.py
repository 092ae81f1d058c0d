"""ECMA TR/107, 3rd edition (2017), background noise corrections of ECMA-74 and ISO 3744."""

from __future__ import annotations

import pytest

from checker.engineering.acoustics import background_correction


# Front pages: the standard corrections stop at 1,26 dB or 0,46 dB. Confidence: checked for the
# corrections; that they belong to differences of 6 dB and 10 dB is from memory of ISO 3741.
@pytest.mark.parametrize(("difference", "correction"), [(6.0, 1.26), (10.0, 0.46)])
def test_largest_corrections(difference: float, correction: float) -> None:
    assert background_correction(60.0 + difference, 60.0) == pytest.approx(correction, abs=0.005)
