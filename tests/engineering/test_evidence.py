"""Evidence of a yes-or-no answer."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checker.absent import Absent, Unstated
from checker.engineering.evidence import is_evidenced

NAMED = st.text(min_size=1).filter(lambda text: text.strip() != "")
BLANK = st.text(alphabet=" \t\u00a0", max_size=5)
DAYS = st.integers(-40_000, 40_000).map(lambda day: day * 86400.0)


@given(NAMED, NAMED, DAYS)
def test_reference_role_and_date_are_evidence(reference: str, by: str, on: float) -> None:
    assert is_evidenced(reference, by, on)


@given(BLANK, NAMED, DAYS)
def test_a_blank_text_is_none(blank: str, text: str, on: float) -> None:
    assert not is_evidenced(blank, text, on)
    assert not is_evidenced(text, blank, on)


@pytest.mark.parametrize("missing", [0, 1, 2])
def test_what_nobody_stated_is_asked_for(missing: int) -> None:
    values: list[object] = ["LOTO-114", "electrician", 0.0]
    values[missing] = Absent(Unstated("work.isolation"))
    with pytest.raises(Unstated):
        is_evidenced(*values)  # type: ignore[arg-type]


def test_what_nobody_stated_is_asked_for_beside_a_blank_text() -> None:
    with pytest.raises(Unstated):
        is_evidenced("", Absent(Unstated("work.isolation.by")), 0.0)  # type: ignore[arg-type]
