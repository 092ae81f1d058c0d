"""IEC 60228, conductors of insulated cables: resistance at 20 °C and when warm."""

from __future__ import annotations

import pytest

from checker.engineering.voltage_drop import conductor_resistance_at_temperature


# Crimp-terminal maker's tables, p. 204, factors that bring a resistance back to 20 °C: 0.833 at
# 70 °C and 0.781 at 90 °C, which are 1/1.200 and 1/1.280. Tolerance 0.45 %: the maker's
# coefficient is 0.004 where copper's is 0.00393, 0.39 % at 90 °C, and its last digit is worth
# 0.06 %. Confidence: checked (maker's tables).
@pytest.mark.parametrize(("celsius", "factor"), [(70.0, 0.833), (90.0, 0.781)])
def test_factor_back_to_20_degrees(celsius: float, factor: float) -> None:
    warm = conductor_resistance_at_temperature(12.1e-3, celsius + 273.15)
    assert 12.1e-3 / warm == pytest.approx(factor, rel=0.0045)
