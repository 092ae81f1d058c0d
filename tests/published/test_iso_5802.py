"""ISO 5802:2001, positions of the points of a Pitot traverse, tables 2 and 3."""

from __future__ import annotations

import pytest

from checker.engineering.airflow import traverse_positions_symmetric

HALF_DIGITS_OF_A_PAIR = 0.001


# Tables 2 and 3: every row is symmetric about the middle. checked
@pytest.mark.parametrize(
    "positions",
    [
        (0.032, 0.135, 0.321, 0.679, 0.865, 0.968),
        (0.021, 0.117, 0.184, 0.345, 0.655, 0.816, 0.883, 0.979),
        (0.032, 0.137, 0.312, 0.688, 0.863, 0.968),
        (0.024, 0.100, 0.194, 0.334, 0.666, 0.806, 0.900, 0.976),
        (0.074, 0.288, 0.500, 0.712, 0.926),
        (0.061, 0.235, 0.437, 0.563, 0.765, 0.939),
        (0.053, 0.203, 0.366, 0.500, 0.634, 0.797, 0.947),
    ],
    ids=["linear-6", "linear-8", "tchebycheff-6", "tchebycheff-8", "side-5", "side-6", "side-7"],
)
def test_rows_are_symmetric(positions: tuple[float, ...]) -> None:
    assert traverse_positions_symmetric(positions, HALF_DIGITS_OF_A_PAIR)


# Misprints of these rows in circulation: 0.32 for 0.032, 0.981 for 0.979 in the row of 8. checked
@pytest.mark.parametrize(
    "positions",
    [
        (0.32, 0.135, 0.321, 0.679, 0.865, 0.968),
        (0.021, 0.117, 0.184, 0.345, 0.655, 0.816, 0.883, 0.981),
    ],
    ids=["0.32", "0.981"],
)
def test_misprints_are_found(positions: tuple[float, ...]) -> None:
    assert not traverse_positions_symmetric(positions, HALF_DIGITS_OF_A_PAIR)
