"""Canadian Centre for Occupational Health and Safety, OSH Answers, "NIOSH lifting equation"."""

from __future__ import annotations

import math
from dataclasses import dataclass

import pytest

from checker.engineering.manual_handling import (
    Coupling,
    lifting_asymmetry_multiplier,
    lifting_coupling_multiplier,
    lifting_distance_multiplier,
    lifting_frequency_multiplier,
    lifting_horizontal_multiplier,
    lifting_index,
    lifting_vertical_multiplier,
    recommended_weight_limit,
)

A_MINUTE = 1.0 / 60.0  # Hz


@dataclass(frozen=True)
class Page:
    """One printed calculation: centimetres, kilograms."""

    horizontal: float
    vertical: float
    travel: float
    coupling: Coupling
    multipliers: tuple[float, float, float, float, float, float]  # as printed
    limit: float  # as printed


VERTICAL = Page(30, 0, 115, "poor", (0.80, 0.80, 0.86, 1.0, 1.0, 0.90), 11.4)
VERTICAL_REDESIGNED = Page(30, 75, 40, "poor", (0.80, 1.0, 0.95, 1.0, 1.0, 0.90), 15.7)
HORIZONTAL = Page(50, 75, 40, "fair", (0.50, 1.0, 0.95, 1.0, 1.0, 1.0), 10.9)
HORIZONTAL_REDESIGNED = Page(30, 75, 40, "fair", (0.80, 1.0, 0.95, 1.0, 1.0, 1.0), 17.5)
PAGES = pytest.mark.parametrize(
    "page",
    [VERTICAL, VERTICAL_REDESIGNED, HORIZONTAL, HORIZONTAL_REDESIGNED],
    ids=["vertical", "vertical-redesigned", "horizontal", "horizontal-redesigned"],
)


# CCOHS, OSH Answers, pages "vertical" and "horizontal": printed product. Confidence: checked.
@PAGES
def test_limit_from_printed_multipliers(page: Page) -> None:
    assert recommended_weight_limit(*page.multipliers) == pytest.approx(page.limit, abs=0.05)


# The same by the formulas, one lift in 12 min or more for up to an hour, straight ahead. The pages
# take multipliers from step tables rounded to the safe side, so that the formulas differ by up to
# 3 %. Confidence: checked.
@PAGES
def test_limit_from_formulas(page: Page) -> None:
    vertical = page.vertical / 100
    limit = recommended_weight_limit(
        lifting_horizontal_multiplier(page.horizontal / 100),
        lifting_vertical_multiplier(vertical),
        lifting_distance_multiplier(page.travel / 100),
        lifting_asymmetry_multiplier(0.0),
        lifting_frequency_multiplier(A_MINUTE / 12, "short", vertical),
        lifting_coupling_multiplier(page.coupling, vertical),
    )
    assert limit == pytest.approx(page.limit, rel=0.03)


# CCOHS, OSH Answers, the verdict on 15 kg before and after each redesign. Confidence: checked.
@pytest.mark.parametrize(
    ("page", "too_heavy"),
    [
        (VERTICAL, True),
        (VERTICAL_REDESIGNED, False),
        (HORIZONTAL, True),
        (HORIZONTAL_REDESIGNED, False),
    ],
)
def test_verdict_on_fifteen_kilograms(page: Page, too_heavy: bool) -> None:
    limit = recommended_weight_limit(*page.multipliers)
    assert (lifting_index(15.0, limit) > 1.0) is too_heavy


# CCOHS, OSH Answers, page "frequency": printed product for 10 lifts a minute over an hour, A 90°.
# Confidence: checked.
def test_frequency_page_product() -> None:
    limit = recommended_weight_limit(1.0, 0.93, 1.0, 0.71, 0.13, 1.0)
    assert limit == pytest.approx(1.97, abs=0.005)


# CCOHS, OSH Answers, page "frequency": multipliers of A 90° and of 10 lifts a minute. Confidence:
# checked.
def test_frequency_page_multipliers() -> None:
    assert lifting_asymmetry_multiplier(math.radians(90)) == pytest.approx(0.71, abs=0.005)
    assert lifting_frequency_multiplier(10 * A_MINUTE, "long", 0.75) == pytest.approx(0.13)


# CCOHS, OSH Answers, page "frequency": .93 is not the multiplier of V 75 cm. Confidence: checked,
# as an error.
def test_frequency_page_multiplier_that_is_wrong() -> None:
    assert lifting_vertical_multiplier(0.75) == 1.0
    assert round(lifting_vertical_multiplier(0.75), 2) != 0.93
