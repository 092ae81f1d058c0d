"""How long a drain container lasts and what must catch it when it does not."""

from __future__ import annotations

from collections.abc import Sequence

from ._bounds import require_at_least, require_positive, require_within
from .dimensions import Flow, Number, Time, Volume
from .limits import OutOfRange

__all__ = ["bund_capacity", "container_filling_time", "drum_tray_capacity"]


def container_filling_time(volume: Volume, rate: Flow, share: Number) -> Time:
    """Time t = share V/q until a container is filled to a share, s.

    Source: definition. Confidence: checked.

    volume: nominal volume of the container [m3], > 0
    rate: collected flow, measured over a shift [m3/s], > 0
    share: share of the volume that may be filled [1], above 0 to 1
    Returns [s].
    Valid for: a steady rate; carry-over is not steady.
    Raises OutOfRange: outside those ranges.

    >>> container_filling_time(0.200, 0.5e-3 / 3600, 0.9) / 3600  # arithmetic: 360 h
    360.0
    """
    require_positive(volume, "volume of the container", "m3")
    require_positive(rate, "collected rate", "m3/s")
    require_positive(share, "share that may be filled")
    require_within(share, 0.0, 1.0, "share that may be filled", "", "a container")
    return share * volume / rate


def _require_volumes(volumes: Sequence[Volume]) -> None:
    if not volumes:
        raise OutOfRange("Without a container there is no capacity to require.")
    for volume in volumes:
        require_positive(volume, "volume of a container", "m3")


def bund_capacity(
    volumes: Sequence[Volume], largest_factor: Number, total_factor: Number
) -> Volume:
    """Capacity max(k_1 V_largest, k_2 sum V) that a bund or tray needs, m3.

    Source: UK business advice on secondary containment of oil: 110 per cent of the largest, 25 per
    cent of all. Confidence: checked.

    volumes: volumes of the containers in it [m3], each > 0
    largest_factor: k_1 [1], >= 0; 1.10 in the source
    total_factor: k_2 [1], >= 0; 0.25 in the source
    Returns [m3].
    Valid for: capacity left after legs and feet; whether it is law indoors depends on the place.
    Raises OutOfRange: no container, or a value outside those ranges.

    >>> bund_capacity([0.205, 0.205, 0.205], 1.10, 0.25) * 1e3  # 225.5 L, not 153.75 L
    225.5
    """
    _require_volumes(volumes)
    require_at_least(largest_factor, 0.0, "factor on the largest container")
    require_at_least(total_factor, 0.0, "factor on all containers")
    return max(largest_factor * max(volumes), total_factor * sum(volumes))


def drum_tray_capacity(volumes: Sequence[Volume], total_factor: Number) -> Volume:
    """Capacity k_2 sum V of a drip tray for drums only, m3.

    Source: UK business advice on secondary containment of oil: 25 per cent of all. Confidence:
    checked.

    volumes: volumes of the drums on it [m3], each > 0
    total_factor: k_2 [1], >= 0; 0.25 in the source
    Returns [m3].
    Valid for: drums; a single container needs bund_capacity.
    Raises OutOfRange: no drum, or a value outside those ranges.

    >>> drum_tray_capacity([0.205, 0.205, 0.205], 0.25) * 1e3  # arithmetic: 153.75 L
    153.75
    """
    _require_volumes(volumes)
    require_at_least(total_factor, 0.0, "factor on all drums")
    return total_factor * sum(volumes)
