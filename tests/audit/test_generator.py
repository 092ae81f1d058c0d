"""The generator of descriptions: the same seed the same bytes, the valid bind, the broken do not."""

from __future__ import annotations

from pathlib import Path

import pytest
from audits import generator

from checker.errors import Mistakes
from checker.installation.binding import bind

MADE = generator()


def test_the_same_seed_the_same_bytes(tmp_path: Path) -> None:
    once = list(MADE.Generator(3, broken=0.2).several(12))
    assert once == list(MADE.Generator(3, broken=0.2).several(12))
    assert once != list(MADE.Generator(4, broken=0.2).several(12))
    # Each is made by its number alone.
    assert MADE.Generator(3, broken=0.2).one(7) == once[7]
    assert MADE.Generator(3).one(7, edition=1).name == once[7].name
    assert MADE.Generator(3).one(7, edition=1).data != MADE.Generator(3).one(7).data
    written = MADE.Generator(3, broken=0.2).write(tmp_path, 12)
    assert [p.read_bytes() for p in written] == [m.data for m in once]


@pytest.mark.parametrize("seed", [1, 2])
def test_the_valid_ones_bind(seed: int) -> None:
    for made in MADE.Generator(seed).several(25):
        assert bind(made.data, made.name) is not None


@pytest.mark.parametrize("way", sorted(MADE.BREAKAGES))
def test_the_broken_ones_are_refused_with_a_plain_message(way: str) -> None:
    data = MADE.BREAKAGES[way](MADE.Generator(5).one(1).data)
    with pytest.raises(Mistakes) as refused:
        bind(data, "job.yaml")
    message = str(refused.value)
    assert message.startswith("job.yaml:")
    assert "Traceback" not in message


def test_the_share_of_broken_ones_is_about_what_was_asked_for() -> None:
    broken = sum(bool(m.breakage) for m in MADE.Generator(6, broken=0.3).several(100))
    assert 15 <= broken <= 45
