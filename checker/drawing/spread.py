"""How a rule's utilisations spread over many jobs: a small strip with its quarters and the limit."""

from __future__ import annotations

from collections.abc import Mapping

from checker.drawing.svg import mm

__all__ = ["draw_spread"]

_TALL, _FOOT = 16.0, 20.0


def draw_spread(
    counts: Mapping[int, int], quarters: tuple[int, int, int], limit: int, last: int
) -> str:
    """A histogram of steps, the last of which holds all beyond; decoration, its numbers stand beside it.

    quarters: the steps that a quarter, half and three quarters of the answers lie below.
    limit: the first step beyond the limit.
    """
    most = max(counts.values(), default=1)
    columns = "".join(
        f"M{mm(step + 0.08)} {_TALL:g}v-{mm(max(_TALL * times / most, 0.7))}h.84V{_TALL:g}z"
        for step, times in sorted(counts.items())
    )
    low, middle, high = quarters
    return (
        f'<svg class="spread" aria-hidden="true" focusable="false" width="246" height="24" viewBox="0 0 {last + 1} 24" preserveAspectRatio="none">'
        f'<path class="room" d="M0 {_TALL:g}h{last + 1}v.3H0z" fill="#bbb"/>'
        f'<path class="columns" d="{columns}" fill="#555"/>'
        f'<path class="half" d="M{low} {_FOOT - 1.6:g}h{high - low + 1}v3.2h-{high - low + 1}z" fill="#bdbdbd"/>'
        f'<path class="middle" d="M{middle} {_FOOT - 3:g}h1v6h-1z" fill="#000"/>'
        f'<path class="limit" d="M{mm(limit - 0.1)} 0h.2v24h-.2z" fill="#000"/></svg>'
    )
