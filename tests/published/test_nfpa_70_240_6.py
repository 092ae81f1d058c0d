"""NFPA 70 (NEC) 240.6(A): standard sizes, in two code summaries and EC&M of 14 March 2019."""

from __future__ import annotations

import pytest

from checker.rulebook.model import Rulebook

# NEC 240.6(A), up to the largest that was read. Confidence: checked.
SIZES = [15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125]
FUSES_BESIDES = [1, 3, 6, 10]


@pytest.mark.parametrize("size", SIZES)
def test_each_size_is_itself(shipped: Rulebook, size: int) -> None:
    table = shipped.tables["nec_standard_size"].columns
    assert table["breaker"].look_up(float(size)) == size
    assert table["fuse"].look_up(float(size)) == size


@pytest.mark.parametrize("size", FUSES_BESIDES)
def test_small_sizes_are_for_fuses(shipped: Rulebook, size: int) -> None:
    table = shipped.tables["nec_standard_size"].columns
    assert table["fuse"].look_up(float(size)) == size
    assert table["breaker"].look_up(float(size)) == SIZES[0]


def test_nothing_else(shipped: Rulebook) -> None:
    assert [row[0] for row in shipped.tables["nec_standard_size"].rows] == FUSES_BESIDES + SIZES


# Between two sizes the next one up is taken: 38 A, 55 A. Confidence: checked (430.52 exception 1).
@pytest.mark.parametrize(("current", "size"), [(38.0, 40), (55.0, 60), (24.0, 25), (15.1, 20)])
def test_next_size_up(shipped: Rulebook, current: float, size: int) -> None:
    assert shipped.tables["nec_standard_size"].columns["breaker"].look_up(current) == size
