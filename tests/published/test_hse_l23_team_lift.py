"""HSE, L23 Manual handling (4th ed.), team handling, as three public texts quote it."""

from __future__ import annotations

import pytest

from checker.engineering.limits import OutOfRange
from checker.engineering.manual_handling_limits import lifting_filter_mass, team_lifting_factor


# L23, team handling: two people who can lift 16 kg each, printed 21.3 kg. Confidence: checked.
def test_two_women() -> None:
    each = lifting_filter_mass("knuckle-to-elbow", "close", "woman")
    assert 2 * each * team_lifting_factor(2) == pytest.approx(21.3, abs=0.05)


# L23, team handling: two people who can lift 20 kg each, printed 26.6 kg. 26.67 is cut there
# instead of rounded, hence a full unit of the last digit. Confidence: checked.
def test_two_men() -> None:
    each = lifting_filter_mass("elbow-to-shoulder", "close", "man")
    assert 2 * each * team_lifting_factor(2) == pytest.approx(26.6, abs=0.1)


# L23, team handling: the sum of the two, 40 kg, is not what they can lift. Confidence: checked.
def test_a_team_lifts_less_than_the_sum() -> None:
    assert 2 * 20.0 * team_lifting_factor(2) != pytest.approx(40.0, rel=0.1)


# L23, team handling: three people one half of the sum. Confidence: from-memory.
def test_three_people() -> None:
    assert 3 * 20.0 * team_lifting_factor(3) == pytest.approx(30.0)


# L23, team handling: four people are not covered. Confidence: from-memory.
def test_four_people() -> None:
    with pytest.raises(OutOfRange):
        team_lifting_factor(4)
