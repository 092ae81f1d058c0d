from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.engineering.containers import (
    bund_capacity,
    container_filling_time,
    drum_tray_capacity,
)
from checker.engineering.limits import OutOfRange

LITRE = 1e-3
volume_lists = st.lists(st.floats(0.001, 2.0), min_size=1, max_size=8)


# Arithmetic of the definition: hours to 90 per cent.
@pytest.mark.parametrize(
    ("litres", "litres_per_hour", "hours"), [(200.0, 0.5, 360.0), (25.0, 0.12, 187.5)]
)
def test_filling_time(litres: float, litres_per_hour: float, hours: float) -> None:
    found = container_filling_time(litres * LITRE, litres_per_hour * LITRE / 3600.0, 0.9)
    assert found / 3600.0 == pytest.approx(hours, abs=0.05)


@given(st.floats(0.001, 2.0), st.floats(1e-9, 1e-4), st.floats(1.01, 5.0))
def test_more_oil_never_lasts_longer(volume: float, rate: float, factor: float) -> None:
    slow = container_filling_time(volume, rate, 0.9)
    assert container_filling_time(volume, rate * factor, 0.9) < slow
    assert container_filling_time(volume * factor, rate * factor, 0.9) == pytest.approx(slow)


@given(volume_lists, st.floats(0.001, 2.0))
def test_one_more_container_never_needs_less(volumes: list[float], more: float) -> None:
    fewer = bund_capacity(volumes, 1.10, 0.25)
    assert bund_capacity([*volumes, more], 1.10, 0.25) >= fewer
    assert drum_tray_capacity([*volumes, more], 0.25) > drum_tray_capacity(volumes, 0.25)


@given(volume_lists)
def test_the_bund_covers_both_rules(volumes: list[float]) -> None:
    capacity = bund_capacity(volumes, 1.10, 0.25)
    assert capacity >= 1.10 * max(volumes)
    assert capacity >= drum_tray_capacity(volumes, 0.25)


def test_refusals() -> None:
    with pytest.raises(OutOfRange, match="Without a container"):
        bund_capacity([], 1.10, 0.25)
    with pytest.raises(OutOfRange, match="Without a container"):
        drum_tray_capacity([], 0.25)
    with pytest.raises(OutOfRange, match="volume of a container"):
        bund_capacity([0.2, 0.0], 1.10, 0.25)
    with pytest.raises(OutOfRange, match="factor on the largest container"):
        bund_capacity([0.2], -1.0, 0.25)
    with pytest.raises(OutOfRange, match="factor on all containers"):
        bund_capacity([0.2], 1.1, -0.25)
    with pytest.raises(OutOfRange, match="factor on all drums"):
        drum_tray_capacity([0.2], -0.25)
    with pytest.raises(OutOfRange, match="volume of the container"):
        container_filling_time(0.0, 1e-7, 0.9)
    with pytest.raises(OutOfRange, match="collected rate"):
        container_filling_time(0.2, 0.0, 0.9)
    with pytest.raises(OutOfRange, match=r"share that may be filled is 1\.1"):
        container_filling_time(0.2, 1e-7, 1.1)
    with pytest.raises(OutOfRange, match="share that may be filled is 0"):
        container_filling_time(0.2, 1e-7, 0.0)
