"""The fitting sheet to print: big figures, boxes to tick, lines to write on, drawing on the back."""

from __future__ import annotations

import io

import segno

from checker.drawing.elevation import draw_elevation
from checker.output.html import VERDICT_GRADE
from checker.output.sheet import NOT_VERIFIED, STAR, has_unverified
from checker.output.templating import fill, trusted
from checker.output.text import VERDICT_MEANING
from checker.reporting.fitting_sheet import Sheet

__all__ = ["code_text", "render"]

# What a code holds must stay readable from 25 mm of paper.
_REFERENCE = 60
# The parts whose lines are filled in by hand on site.
_WRITTEN_ON = ("measure", "sign")
# Both views go on one back of A4 or Letter, in millimetres each.
_ON_THE_BACK = 100.0


def render(sheet: Sheet) -> str:
    """The whole sheet as one page, the same bytes for the same sheet."""
    elevation = draw_elevation(sheet.geometry, tallest=_ON_THE_BACK)
    return fill(
        "sheet.html.jinja",
        sheet=sheet,
        verdict_grade=VERDICT_GRADE[sheet.verdict.value],
        verdict_meaning=VERDICT_MEANING[sheet.verdict],
        code=trusted(_code(sheet)),
        code_text=code_text(sheet),
        written_on=_WRITTEN_ON,
        views=[(v, trusted(v.svg)) for v in elevation.views if v.name in ("side", "front")],
        notes=elevation.notes,
        star=STAR,
        not_verified=NOT_VERIFIED if has_unverified(sheet) else "",
    )


def code_text(sheet: Sheet) -> str:
    """What the code says: the reference and the digest of the description, no more."""
    reference = sheet.reference
    if len(reference) > _REFERENCE:
        reference = reference[: _REFERENCE - 1] + "…"
    return f"{reference} {sheet.digest}".strip()


def _code(sheet: Sheet) -> str:
    """The code as an SVG: black on white whatever the page's colours, with its quiet zone."""
    out = io.BytesIO()
    segno.make_qr(code_text(sheet), error="m").save(
        out, kind="svg", border=4, xmldecl=False, svgns=True, omitsize=True, nl=False, dark="#000", light="#fff",
    )  # fmt: skip
    return out.getvalue().decode("utf-8")
