"""Demand against limit: a small bar for one finding, a family's side by side."""

from __future__ import annotations

from collections.abc import Sequence

from checker.drawing.grades import draw_grade
from checker.drawing.svg import Svg, fitted, mm
from checker.findings import Finding
from checker.grades import Grade

__all__ = ["draw_bar", "draw_utilisations"]

_LEAST_FULL = 1.25
_WIDTH, _LABEL, _VALUE, _STEP = 165.0, 70.0, 16.0, 6.0
# Beyond this many times its limit a bar is cut off, and shows that it is.
_MOST = 3.0


def draw_bar(utilisation: float) -> str:
    """The bar of one finding; decoration, for its numbers stand beside it."""
    full = min(max(utilisation, _LEAST_FULL), _MOST)
    width = 100 * min(utilisation, _MOST) / full
    limit = 100 / full
    cut = '<path class="cut" d="M97 0l-3 8h2l3-8z" fill="#fff"/>' if utilisation > _MOST else ""
    over = " over" if utilisation > 1 else ""
    return (
        f'<svg class="bar{over}" aria-hidden="true" focusable="false" width="100" height="8" viewBox="0 0 100 8" preserveAspectRatio="none">'
        f'<rect class="bar-room" x="0" y="1" width="100" height="6" fill="#e8e8e8"/>'
        f'<rect class="bar-demand" x="0" y="1" width="{mm(width)}" height="6" fill="#555"/>{cut}'
        f'<rect class="bar-limit" x="{mm(limit - 0.6)}" y="0" width="1.2" height="8" fill="#000"/></svg>'
    )


def draw_utilisations(findings: Sequence[Finding], family: str, name: str) -> str:
    """The utilisations of a family's findings, highest first, on one axis with the limit marked."""
    rated = sorted((f for f in findings if f.utilisation is not None), key=lambda f: (-(f.utilisation or 0.0), f.rule))  # fmt: skip
    full = min(max([_LEAST_FULL, *(f.utilisation or 0.0 for f in rated)]), _MOST)
    svg = Svg(
        _WIDTH, 10 + _STEP * len(rated) + 6, name, f"Utilisation: {family}",
        "Demand over limit of each check, highest first; the numbers stand beside the bars.",
    )  # fmt: skip
    right = _WIDTH - _VALUE

    def x_of(value: float) -> float:
        return _LABEL + (right - _LABEL) * min(value, _MOST) / full

    bottom = 8 + _STEP * len(rated)
    for percent in (0, 25, 50, 75, 100, *range(150, int(full * 100) + 1, 50)):
        x = x_of(percent / 100)
        svg.line((x, 6), (x, bottom), "grid")
        svg.text((x, 4.6), f"{percent} %", 2.4, anchor="middle")
    for i, finding in enumerate(rated):
        value = finding.utilisation or 0.0
        top = 8 + _STEP * i
        label = finding.title + (f" [{finding.subject}]" if finding.subject else "")
        svg.text((_LABEL - 2, top + 3.6), fitted(label, _LABEL - 4, 2.5), 2.5, anchor="end")
        svg.rectangle(_LABEL, top + 1, x_of(value) - _LABEL, _STEP - 2, "axis", "ink" if value > 1 else "shade", f"utilisation {finding.rule}")  # fmt: skip
        text = "more than 999 %" if value > 9.99 else f"{value * 100:.0f} %"
        svg.text((x_of(value) + 1, top + 4), text, 2.5, bold=value > 1, halo=True)
        if finding.grade < Grade.MET:
            draw_grade(svg, (x_of(value) + 12, top + 3.2), finding.grade, 1.2)
    svg.line((x_of(1.0), 6), (x_of(1.0), bottom), "bad")
    svg.text((x_of(1.0), bottom + 3.6), "limit", 2.4, anchor="middle")
    return str(svg)
