"""The functions that a formula may call: their signatures, read from the code itself.

An engineering function is found by its name; the aliases on its parameters are
its signature (checker/engineering/dimensions.py). The few built in here work for
every dimension and are typed where they are checked.
"""

from __future__ import annotations

import collections.abc
import importlib
import inspect
import math
import pkgutil
import typing
from collections.abc import Callable
from functools import cache
from typing import Any, Literal, NamedTuple

from checker import engineering, units
from checker.formulas.types import FLAG, Flag, Items, Numeric, Text, Type

__all__ = ["BUILT_IN", "CONSTANTS", "Signature", "engineering_names", "function", "signature"]


class Signature(NamedTuple):
    """An engineering function as the rule language sees it."""

    name: str
    module: str
    parameters: tuple[tuple[str, Type], ...]
    returns: Type
    call: Callable[..., Any]


# Constants of nature; a formula may use them by name.
CONSTANTS: dict[str, tuple[float, str]] = {
    "standard_gravity": (9.80665, "m/s2"),  # 3rd CGPM 1901, exact by definition
    "pi": (math.pi, "1"),
}

BUILT_IN: dict[str, Callable[..., Any]] = {
    "abs": abs, "min": min, "max": max, "sum": sum, "any": any, "all": all, "count": len,
    "sqrt": math.sqrt, "exp": math.exp, "ln": math.log, "log10": math.log10,
    "sin": math.sin, "cos": math.cos, "tan": math.tan, "atan": math.atan,
    "round_up": math.ceil, "round_down": math.floor,
}  # fmt: skip


@cache
def engineering_names() -> dict[str, str]:
    """Every engineering function's name, and the module that holds it.

    Raises ValueError if two modules offer the same name: a formula could not say which.
    """
    found: dict[str, str] = {}
    for info in pkgutil.iter_modules(engineering.__path__):
        if info.name in ("dimensions", "limits") or info.name.startswith("_"):
            continue
        module = importlib.import_module(f"{engineering.__name__}.{info.name}")
        for name in module.__all__:
            if not inspect.isfunction(getattr(module, name)):
                continue  # A module may also offer the texts that its functions take.
            if name in found or name in BUILT_IN or name in CONSTANTS:
                raise ValueError(
                    f"two functions are called {name!r}: {found.get(name, 'built in')} and {info.name}"
                )
            found[name] = info.name
    return found


@cache
def signature(name: str) -> Signature | None:
    """The signature of an engineering function, or None if there is none of that name.

    Raises TypeError for a function whose parameters do not say what they are.
    """
    module_name = engineering_names().get(name)
    if module_name is None:
        return None
    module = importlib.import_module(f"{engineering.__name__}.{module_name}")
    call = getattr(module, name)
    hints = typing.get_type_hints(call, include_extras=True)
    returns = _type(hints.pop("return"), name, "return")
    parameters = tuple((p, _type(hint, name, p)) for p, hint in hints.items())
    return Signature(name, module_name, parameters, returns, call)


def function(name: str, module: str = "") -> Callable[..., Any]:
    """An engineering function itself; raises KeyError if there is none of that name."""
    module = module or engineering_names()[name]
    found: Callable[..., Any] = getattr(
        importlib.import_module(f"{engineering.__name__}.{module}"), name
    )
    return found


_POINTS = {"temperature": ("degC", "temperature"), "date": ("s", "date")}


def _type(hint: Any, function: str, parameter: str) -> Type:
    if typing.get_origin(hint) is typing.Annotated:
        unit = hint.__metadata__[0]
        if unit in _POINTS:
            symbol, point = _POINTS[unit]
            return Numeric(units.need(symbol).dimension, point)
        return Numeric(units.need(unit).dimension)
    if typing.get_origin(hint) is Literal:
        return Text(tuple(typing.get_args(hint)))
    if hint is bool:
        return FLAG
    if hint is str:
        return Text()
    if typing.get_origin(hint) in (collections.abc.Sequence, list, tuple):
        inner = _type(typing.get_args(hint)[0], function, parameter)
        if isinstance(inner, (Numeric, Text, Flag)):
            return Items(inner)
    raise TypeError(f"{function}: the parameter {parameter!r} does not say its dimension: {hint!r}")
