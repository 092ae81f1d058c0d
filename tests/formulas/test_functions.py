"""The functions that a formula may call: found by name, typed by their annotations."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from checker import engineering
from checker.formulas import functions
from checker.formulas.functions import engineering_names, function, signature
from checker.formulas.types import FLAG, PLAIN, Items, Numeric, Text, Type
from checker.units import need

HEAD = "from collections.abc import Sequence\nfrom typing import Literal\nfrom checker.engineering.dimensions import *\n"
TYPED = """\
def plain(x: Number) -> Number: ...
def timed(x: Date, y: Temperature) -> Temperature: ...
def worded(x: Literal['a', 'b'], y: str) -> Literal['c']: ...
def asked(x: bool) -> bool: ...
def listed(x: Sequence[Length], y: Sequence[str]) -> Length: ...
def whole(x: int) -> Number: ...
def silent(x: Length) -> list[list[Length]]: ...
"""


@pytest.fixture
def module(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Callable[[str, str], None]]:
    """Puts a module of its own among those of the engineering functions."""
    monkeypatch.setattr(engineering, "__path__", [str(tmp_path), *engineering.__path__])
    made = []

    def written(name: str, text: str) -> None:
        (tmp_path / f"{name}.py").write_text(HEAD + text, encoding="utf-8")
        made.append(name)

    yield written
    for name in made:
        sys.modules.pop(f"{engineering.__name__}.{name}", None)
        if hasattr(engineering, name):
            delattr(engineering, name)


@pytest.mark.parametrize(
    ("name", "both"),
    [
        ("bending_stress", "zz_own and beams"),
        ("sqrt", "built in and zz_own"),
        ("pi", "built in and zz_own"),
    ],
)
def test_a_name_that_two_offer_is_refused(
    module: Callable[[str, str], None], name: str, both: str
) -> None:
    module("zz_own", f"__all__ = ['{name}']\ndef {name}(x: Number) -> Number: ...\n")
    with pytest.raises(ValueError, match=f"two functions are called '{name}': {both}"):
        engineering_names.__wrapped__()


def test_what_is_no_function_or_not_offered_is_passed_over(
    module: Callable[[str, str], None],
) -> None:
    module(
        "zz_own", "__all__ = ['zz_word', 'zz_one']\nzz_word = 'a'\nzz_two = zz_one = lambda x: x\n"
    )
    module("_zz_inner", "__all__ = ['zz_inner']\ndef zz_inner(x: Number) -> Number: ...\n")
    found = engineering_names.__wrapped__()
    assert found["zz_one"] == "zz_own"
    assert not {"zz_word", "zz_two", "zz_inner"} & set(found)
    assert "OutOfRange" not in found
    assert found["bending_stress"] == "beams"


TYPES: list[tuple[str, list[Type], Type]] = [
    ("plain", [PLAIN], PLAIN),
    ("timed", [Numeric(need("s").dimension, "date"), Numeric(need("K").dimension, "temperature")], Numeric(need("K").dimension, "temperature")),
    ("worded", [Text(("a", "b")), Text()], Text(("c",))),
    ("asked", [FLAG], FLAG),
    ("listed", [Items(Numeric(need("m").dimension)), Items(Text())], Numeric(need("m").dimension)),
]  # fmt: skip


@pytest.mark.parametrize(("name", "parameters", "returns"), TYPES, ids=[c[0] for c in TYPES])
def test_the_annotations_are_the_signature(
    module: Callable[[str, str], None],
    monkeypatch: pytest.MonkeyPatch,
    name: str,
    parameters: list[Type],
    returns: Type,
) -> None:
    module("zz_own", TYPED)
    monkeypatch.setattr(functions, "engineering_names", lambda: {name: "zz_own"})
    found = signature.__wrapped__(name)
    assert found is not None
    assert [kind for _, kind in found.parameters] == parameters
    assert [parameter for parameter, _ in found.parameters] == ["x", "y"][: len(parameters)]
    assert found.returns == returns
    assert (found.name, found.module, found.call) == (name, "zz_own", function(name, "zz_own"))


@pytest.mark.parametrize(("name", "parameter"), [("whole", "x"), ("silent", "return")])
def test_a_parameter_that_does_not_say_what_it_is_is_refused(
    module: Callable[[str, str], None],
    monkeypatch: pytest.MonkeyPatch,
    name: str,
    parameter: str,
) -> None:
    module("zz_own", TYPED)
    monkeypatch.setattr(functions, "engineering_names", lambda: {name: "zz_own"})
    with pytest.raises(TypeError, match=f"{name}: the parameter '{parameter}' does not say"):
        signature.__wrapped__(name)


def test_a_function_is_found_with_its_module_or_without() -> None:
    assert function("bending_stress") is function("bending_stress", "beams")
    with pytest.raises(KeyError):
        function("no_such_function")
    assert signature("no_such_function") is None
