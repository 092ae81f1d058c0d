"""The SVG builder: every text escaped, every number rounded alike, texts cut to their room."""

from __future__ import annotations

from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.drawing.grades import grade_icon
from checker.drawing.svg import Svg, fitted, mm, text_width
from checker.grades import Grade

TEXTS = st.text(max_size=60)


@given(TEXTS)
def test_any_text_is_shown_as_text(text: str) -> None:
    svg = Svg(10, 10, text, text, text)
    svg.text((1, 1), text, halo=True)
    svg.line((0, 0), (1, 1), "thin", text)
    root = ElementTree.fromstring(str(svg))
    shown = [e.text or "" for e in root.iter("{http://www.w3.org/2000/svg}text")]
    kept = "".join(c for c in text if c.isprintable())
    assert all("".join(c for c in s if c.isprintable() and c != "\ufffd") == kept.replace("\ufffd", "") for s in shown)  # fmt: skip
    assert {e.tag.rpartition("}")[2] for e in root.iter()} == {
        "svg",
        "title",
        "desc",
        "text",
        "line",
    }


@pytest.mark.parametrize(
    ("value", "written"), [(0.0, "0"), (-0.0, "0"), (-0.004, "0"), (1.005, "1"), (12.5, "12.5"), (100.0, "100"), (-3.456, "-3.46")]
)  # fmt: skip
def test_numbers_are_written_to_a_hundredth(value: float, written: str) -> None:
    assert mm(value) == written


@given(TEXTS, st.floats(3, 80), st.floats(2, 4))
def test_a_text_is_cut_to_its_room_and_says_so(text: str, width: float, size: float) -> None:
    cut = fitted(text, width, size)
    assert cut == text or (cut.endswith("…") and len(cut) <= len(text) + 1)
    assert cut == "…" or text_width(cut, size) <= width + 1e-9


def test_each_grade_has_a_shape_of_its_own() -> None:
    icons = {grade_icon(g).replace(f"g-{g.word}", "") for g in Grade}
    assert len(icons) == len(Grade)
    assert all('aria-hidden="true"' in icon for icon in icons)
