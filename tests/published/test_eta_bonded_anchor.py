"""European Technical Assessment of a bonded anchor, 2019, Table C1 (tension)."""

from __future__ import annotations

import pytest

from checker.engineering.anchor_geometry import (
    cone_characteristic_edge_distance,
    cone_characteristic_spacing,
)
from checker.engineering.anchors import cone_partial_factor, cone_strength_factor


# European Technical Assessment of a bonded anchor (2019), Table C1: k1. Confidence: checked.
@pytest.mark.parametrize(("cracked", "printed"), [(True, 7.7), (False, 11.0)])
def test_cone_factor(cracked: bool, printed: float) -> None:
    assert cone_strength_factor("post-installed", cracked) == printed


# European Technical Assessment of a bonded anchor (2019), Table C1: c_cr,N = 1.5 h_ef. Confidence:
# checked.
def test_characteristic_edge_distance() -> None:
    assert cone_characteristic_edge_distance(0.100) / 0.100 == pytest.approx(1.5)


# European Technical Assessment of a bonded anchor (2019), Table C1: s_cr,N = 3.0 h_ef. Confidence:
# checked.
def test_characteristic_spacing() -> None:
    assert cone_characteristic_spacing(0.100) / 0.100 == pytest.approx(3.0)


# European Technical Assessment of a bonded anchor (2019), Table C1: γ_inst of hammer drilled,
# diamond cored and water-filled holes, with γ_c 1.5 and the resulting γ_Mc. Confidence: checked.
@pytest.mark.parametrize(("installation", "printed"), [(1.0, 1.5), (1.2, 1.8), (1.4, 2.1)])
def test_partial_factor(installation: float, printed: float) -> None:
    assert cone_partial_factor(1.5, installation) == pytest.approx(printed)
