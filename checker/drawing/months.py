"""How the verdicts of many jobs spread over the months: a column a month, a shade a verdict."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from checker.drawing.svg import Svg
from checker.grades import Verdict

__all__ = ["MOST_MONTHS", "draw_months"]

# More columns than this cannot be told apart; the table beside the drawing has them all.
MOST_MONTHS = 48
_WIDTH, _LEFT, _TOP, _TALL, _UNDER = 165.0, 12.0, 13.0, 46.0, 16.0
_FILLS = {Verdict.HOLD: "ink", Verdict.REWORK: "shade", Verdict.CONFIRM: "tint", Verdict.READY: "paper"}  # fmt: skip


def draw_months(months: Sequence[tuple[str, Mapping[str, int]]], name: str) -> str:
    """Draw the verdicts of each month, the gravest at the foot; the numbers stand in a table beside it."""
    shown = months[-MOST_MONTHS:]
    svg = Svg(
        _WIDTH, _TOP + _TALL + _UNDER, name, "Verdicts by month",
        "A column a month, as high as there are jobs, from hold at its foot over rework and confirm to ready. The table says each number.",
    )  # fmt: skip
    most = max((sum(counts.values()) for _, counts in shown), default=1) or 1
    foot = _TOP + _TALL
    for value in _marks(most):
        y = foot - _TALL * value / most
        svg.line((_LEFT, y), (_WIDTH, y), "grid")
        svg.text((_LEFT - 1.5, y + 1), str(value), 2.6, anchor="end")
    step = min((_WIDTH - _LEFT) / max(len(shown), 1), 14.0)
    every = max(1, -(-len(shown) // 24))
    for i, (month, counts) in enumerate(shown):
        left, y = _LEFT + step * i, foot
        for verdict, fill in _FILLS.items():
            tall = _TALL * counts.get(verdict.value, 0) / most
            if tall:
                y -= tall
                svg.rectangle(left + step * 0.12, y, step * 0.76, tall, "thin", fill, f"{month} {verdict.value}")  # fmt: skip
        if i % every == 0:
            svg.text((left + step / 2 + 1, foot + 14), month, 2.8, upright=True)
    svg.line((_LEFT, foot), (_WIDTH, foot), "axis")
    for i, (verdict, fill) in enumerate(_FILLS.items()):
        left = _LEFT + 30 * i
        svg.rectangle(left, 2, 5, 4, "thin", fill)
        svg.text((left + 6.5, 5.4), verdict.value, 3.2)
    return str(svg)


def _marks(most: int) -> list[int]:
    """Three or so round numbers up to the highest."""
    step = 1
    while most // step > 4:
        step = step * 5 // 2 if str(step)[0] == "2" else step * 2
    return list(range(step, most + 1, step))
