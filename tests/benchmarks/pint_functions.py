"""The engineering functions' own code run on pint quantities, where it takes them as it stands.

Each module is executed a second time with a ``math`` that knows quantities. A function
whose code holds a coefficient with a unit of its own (an empirical formula) refuses them;
that one is given magnitudes, as a program built on pint would have to do as well.
"""

from __future__ import annotations

import builtins
import importlib.util
import math
from collections.abc import Callable
from functools import cache
from types import SimpleNamespace
from typing import Any

from checker import engineering

__all__ = ["Either", "twin"]


class _Math:
    """``math`` for quantities: a root has half the dimension, the rest want plain numbers."""

    def __getattr__(self, name: str) -> Any:
        found = getattr(math, name)
        if not callable(found):
            return found
        return lambda *values: found(*(_plain(v) for v in values))

    @staticmethod
    def sqrt(value: Any) -> Any:
        return value**0.5

    @staticmethod
    def isfinite(value: Any) -> bool:
        return math.isfinite(getattr(value, "magnitude", value))


def _plain(value: Any) -> Any:
    return value.to("").magnitude if hasattr(value, "magnitude") else value


_MATH = _Math()


def _import(
    name: str, space: Any = None, local: Any = None, wanted: Any = (), level: int = 0
) -> Any:
    if name == "math":
        return _MATH
    if level == 1 and name not in ("dimensions", "limits"):
        return SimpleNamespace(**_module(name))
    return builtins.__import__(name, space, local, wanted, level)


@cache
def _module(name: str) -> dict[str, Any]:
    spec = importlib.util.find_spec(f"{engineering.__name__}.{name}")
    assert spec is not None
    assert spec.loader is not None
    space: dict[str, Any] = {
        "__name__": spec.name,
        "__package__": engineering.__name__,
        "__builtins__": {**vars(builtins), "__import__": _import},
    }
    exec(spec.loader.get_code(spec.name), space)  # type: ignore[attr-defined]
    return space


def twin(name: str, module: str) -> Callable[..., Any]:
    """An engineering function as it runs on quantities."""
    function: Callable[..., Any] = _module(module)[name]
    return function


class Either:
    """A function on quantities if it takes them and gives what it says it gives, else on magnitudes."""

    def __init__(
        self, function: Callable[..., Any], bare: Callable[..., Any], alike: Callable[..., bool]
    ) -> None:
        self.function, self.bare, self.alike = function, bare, alike
        self.takes_quantities: bool | None = None

    def __call__(self, *given: Any) -> Any:
        if self.takes_quantities:
            return self.function(*given)
        if self.takes_quantities is None:
            # Tried once: what it gives must be the same quantity.
            try:
                self.takes_quantities = self.alike(self.function(*given), self.bare(*given))
            except Exception:
                self.takes_quantities = False
        return self.bare(*given)
