"""DIN 3017-1, hose clips with worm drive: the ranges."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.errors import Mistakes
from checker.findings import Finding
from checker.grades import Grade

_RANGES = [
    (8, 12), (10, 16), (12, 20), (16, 25), (20, 32), (25, 40), (32, 50),
    (40, 60), (50, 70), (60, 80), (70, 90), (80, 100), (90, 110), (100, 120),
]  # fmt: skip


def _clip(ask: Callable[..., Finding], size: str, hose: str) -> Finding:
    joint = f"name: end, kind: clip, hose: {{outside: {hose}}}, clip: {{size: {size}, fitted: 1}}"
    return ask("sealing/hose-clip-size", seals=f"{{joints: [{{{joint}}}]}}")


# DIN 3017-1:1998, ranges as listed under the standard's name in a public parts list, band 9 mm up
# to 16 mm and 12 mm above. Confidence: checked (public data; the standard's tables were not read).
@pytest.mark.parametrize(("smallest", "largest"), _RANGES)
def test_both_ends_of_the_range(ask: Callable[..., Finding], smallest: int, largest: int) -> None:
    size = f"{smallest}-{largest}"
    assert _clip(ask, size, f"{smallest - 0.5} mm").grade is Grade.CORRECT
    assert _clip(ask, size, f"{smallest} mm").grade is Grade.ADVISE
    assert _clip(ask, size, f"{(smallest + largest) / 2} mm").grade is Grade.MET
    assert _clip(ask, size, f"{largest} mm").grade is Grade.ADVISE
    assert _clip(ask, size, f"{largest + 0.5} mm").grade is Grade.CORRECT


# The same source: 16-27 is a range of one band width only and no size of the list.
def test_size_that_is_not_of_the_list(ask: Callable[..., Finding]) -> None:
    with pytest.raises(Mistakes):
        _clip(ask, "16-27", "20 mm")
