"""Documentation of an R package for health and safety at work: an example printed wrongly."""

from __future__ import annotations

import pytest

from checker.engineering.manual_handling import (
    lifting_distance_multiplier,
    lifting_frequency_multiplier,
    lifting_horizontal_multiplier,
    lifting_vertical_multiplier,
    recommended_weight_limit,
)


# R package documentation, function for the recommended weight limit: H 45, V 25, D 40 cm, A 0, a
# lift in 15 s, good grip, prints 3.75 kg. 4.56 kg is arithmetic of NIOSH 94-110 with 4 a minute for
# 8 h. Confidence: checked, as an error.
def test_printed_limit_is_not_the_manuals() -> None:
    limit = recommended_weight_limit(
        lifting_horizontal_multiplier(0.45),
        lifting_vertical_multiplier(0.25),
        lifting_distance_multiplier(0.40),
        1.0,
        lifting_frequency_multiplier(1 / 15, "long", 0.25),
        1.0,
    )
    assert limit == pytest.approx(4.56, abs=0.005)
    assert limit != pytest.approx(3.75, abs=0.1)
