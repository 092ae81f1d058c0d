"""Random formulas: what the rule language says of each is what an independent evaluator says.

Both must agree on whether it is a formula at all, on its kind and dimension, and on its value
or that there is none; values are stated or missing at random.
"""

from __future__ import annotations

import math
from random import Random

import oracle
from campaign import RAN, examples
from hypothesis import event, given, reject
from hypothesis import strategies as st
from mutations import ROOT
from oracle import IllTyped, Kind, dim
from situations import (
    AREA,
    FORCE,
    KELVIN,
    LENGTH,
    LEVEL,
    MASS,
    NONE,
    SECOND,
    STRESS,
    Situation,
    scope,
)
from speaking import Speaker

from checker.absent import Absent, Unstated
from checker.formulas.compiling import compile_formula
from checker.formulas.grammar import FormulaError
from checker.formulas.lacking import evaluate
from checker.formulas.running import surroundings
from checker.formulas.scope import Compiled
from checker.formulas.types import Flag, Numeric, Text


def said_by_us(text: str) -> Compiled | None:
    """What the rule language makes of a text; None where it is no formula."""
    try:
        return compile_formula(text, scope())
    except FormulaError as error:
        assert error.what  # noqa: PT017
        assert 0 <= error.column <= len(text)  # noqa: PT017
        if any(word in error.what for word in ("deeper than", "more than", "characters", "too large")):  # fmt: skip
            reject()  # Longer than a formula may be: nothing to compare.
        return None


def kind_of(compiled: Compiled) -> Kind:
    """A type of ours in the words of the other evaluator."""
    kind = compiled.type
    if isinstance(kind, Numeric):
        bases = ("m", "kg", "s", "A", "K", "cd", "dB")
        return Kind("number", dim(**dict(zip(bases, kind.dimension, strict=True))), kind.point or "")  # fmt: skip
    if isinstance(kind, Text):
        return Kind("text", choices=kind.choices)
    return Kind("flag" if isinstance(kind, Flag) else type(kind).__name__.lower())


def compare(text: str, situation: Situation) -> None:
    RAN["formulas against the other evaluator"] += 1
    try:
        tree = oracle.parse(text)
        wanted = oracle.type_of(tree, situation.names)
    except IllTyped as refused:
        RAN["of them refused by both"] += 1
        found = said_by_us(text)
        assert found is None, f"{text}\nrefused by the other: {refused}"  # noqa: PT017
        return
    compiled = said_by_us(text)
    assert compiled is not None, text
    if wanted.of in ("list", "member", "items"):
        return
    kind = kind_of(compiled)
    if not wanted.zero:
        assert kind == wanted._replace(choices=kind.choices if wanted.of == "text" else None), text
    names = {
        **surroundings(compiled.uses.functions, {f"{t}.{c}": column.look_up for t, cs in scope().tables.items() for c, column in cs.items()}),
        "S": situation.slots, "D": [], "v_arm": 2.0,
    }  # fmt: skip
    ours = evaluate(compiled.source, names)
    try:
        other = oracle.value_of(tree, situation.names)
    except oracle.CannotTell as why:
        RAN["of them without a value by both"] += 1
        event("no value")
        if isinstance(ours, float) and not math.isfinite(ours):
            return  # Left to the caller, who looks at demand and limit: see checking.outcome_of.
        assert isinstance(ours, Absent), f"{text}\n{situation.text}\nours {ours}"
        missing = why.args[0]
        if missing:
            assert isinstance(ours.why, Unstated), text
            assert missing in [_general(p) for p in ours.why.paths], (text, ours.why.paths)
        return
    assert not isinstance(ours, Absent), f"{text}\n{situation.text}\nwanted {other}, {ours!r}"
    if isinstance(other, float):
        assert math.isclose(ours, other, rel_tol=1e-9, abs_tol=1e-300), (text, situation.text)
    else:
        assert ours == other, (text, situation.text)


def _general(path: str) -> str:
    return "boxes[]." + path.rpartition(".")[2] if path.startswith("boxes[") else path


@given(st.randoms(use_true_random=False), st.sampled_from([0.0, 0.02]), st.sampled_from([1.0, 0.7]))
@examples(400)
def test_a_number(random: Random, slips: float, stated: float) -> None:
    wanted = random.choice([MASS, LENGTH, FORCE, NONE, STRESS, KELVIN, LEVEL, SECOND, AREA])
    compare(Speaker(random, slips).number(wanted, random.randint(0, 4)), Situation(random, stated))


@given(st.randoms(use_true_random=False), st.sampled_from([0.0, 0.02]), st.sampled_from([1.0, 0.7]))
@examples(300)
def test_a_condition(random: Random, slips: float, stated: float) -> None:
    compare(Speaker(random, slips).flag(random.randint(0, 4)), Situation(random, stated))


@given(st.randoms(use_true_random=False))
@examples(200)
def test_what_is_mostly_wrong(random: Random) -> None:
    """Many slips: both refuse, or both find the same sense in it."""
    speaker = Speaker(random, 0.25)
    compare(speaker.anything(random.randint(0, 3)), Situation(random, 0.9))


def test_the_other_evaluator_is_not_ours() -> None:
    files = sorted((ROOT / "tests" / "adversaries").glob("oracle*.py"))
    assert len(files) > 1
    for file in files:
        source = file.read_text(encoding="utf-8")
        assert "import checker" not in source
        assert "from checker" not in source
        assert "import ast" not in source
        assert "eval(" not in source.replace("def ", "")


def test_a_campaign_is_no_less_than_these() -> None:
    """Most of what is said is a formula with a value: else nothing would be compared."""
    random = Random(1)
    counted = {"a value": 0, "no value": 0, "no formula": 0}
    for _ in range(300):
        situation = Situation(random, 0.9)
        try:
            tree = oracle.parse(Speaker(random, 0.02).number(MASS, 3))
            oracle.type_of(tree, situation.names)
            oracle.value_of(tree, situation.names)
        except IllTyped:
            counted["no formula"] += 1
        except oracle.CannotTell:
            counted["no value"] += 1
        else:
            counted["a value"] += 1
    assert counted["a value"] > 100, counted
    assert counted["no value"] > 20, counted
    assert counted["no formula"] > 20, counted
