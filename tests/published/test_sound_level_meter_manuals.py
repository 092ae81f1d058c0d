"""Technical notes in the instruction manuals of sound level meters."""

from __future__ import annotations

import pytest

from checker.engineering.acoustics import level_without_background
from checker.engineering.limits import OutOfRange


# Technical notes, background noise: 70 dB with the machine, 63 dB without: 69 dB. Printed whole.
# Confidence: checked.
def test_machine_over_background() -> None:
    assert level_without_background(70.0, 63.0) == pytest.approx(69.0, abs=0.5)


# Glossary of another manual: 91 dB with, 90 dB without, "7 dB correction, so 84 dB". A third
# manual says that a difference of 3 dB or less is only an indication: no level is given.
# Confidence: checked.
def test_one_decibel_over_background_is_refused() -> None:
    with pytest.raises(OutOfRange, match="91 dB and the background 90 dB"):
        level_without_background(91.0, 90.0)
