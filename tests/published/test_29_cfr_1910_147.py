"""29 CFR 1910.147(d), United States: applying a lock, verifying, releasing stored energy."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from checker.findings import Finding

EVIDENCE = "reference: LOTO-114, on: 2026-03-16, by: electrician, key_with: electrician"


# 29 CFR 1910.147(d)(4): each authorised employee affixes the lock; (d)(6): isolation is verified
# before work. One without the other does not do. Confidence: checked.
@pytest.mark.parametrize(
    ("locked", "tried", "grade"),
    [("true", "true", "met"), ("true", "false", "stop"), ("false", "true", "stop")],
)
def test_lock_and_verify(ask: Callable[..., Finding], locked: str, tried: str, grade: str) -> None:
    found = ask(
        "work-controls/isolation-locked",
        job="{stage: fitted}",
        work=f"{{isolation: {{locked: {locked}, start_tried: {tried}, {EVIDENCE}}}}}",
    )
    assert found.grade.word == grade


# A sentence for the shop floor says yes and no where the description says true and false.
def test_answers_in_words(ask: Callable[..., Finding]) -> None:
    found = ask(
        "work-controls/isolation-locked",
        job="{stage: fitted}",
        work="{isolation: {locked: true, start_tried: false}}",
    )
    assert found.sentence.startswith("Locked off: yes; start tried and nothing moved: no.")


# 29 CFR 1910.147(d)(5)(i): all stored energy is relieved, disconnected or restrained; one source
# that is not stops the work. Confidence: checked.
@pytest.mark.parametrize(("released", "grade"), [("true", "met"), ("false", "stop")])
def test_stored_energy(ask: Callable[..., Finding], released: str, grade: str) -> None:
    found = ask(
        "work-controls/other-energies-released",
        job="{stage: fitted}",
        work=f"{{other_energies: [{{name: Z axis, released: {released}, reference: LOTO-114, "
        "on: 2026-03-16, by: lead fitter}]}",
    )
    assert found.grade.word == grade
