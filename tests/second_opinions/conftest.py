"""A post as a chain of beam elements: what the closed formulas of a post are held against."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from scipy.linalg import eigh

Matrix = np.ndarray[Any, np.dtype[np.float64]]


class Cantilever:
    """An Euler-Bernoulli post of equal two-node elements, foot at node 0, top at the last node.

    Each node has a deflection and a rotation. The foot does not move sideways; it turns
    against ``base_stiffness``, or not at all where that is None.
    """

    def __init__(
        self,
        length: float,
        bending_stiffness: float,
        *,
        linear_mass: float = 0.0,
        tip_mass: float = 0.0,
        tip_inertia: float = 0.0,
        base_stiffness: float | None = None,
        elements: int = 24,
    ) -> None:
        self.length, self.elements = length, elements
        size, step = 2 * (elements + 1), length / elements
        self.stiffness: Matrix = np.zeros((size, size))
        self.mass: Matrix = np.zeros((size, size))
        self.geometric: Matrix = np.zeros((size, size))
        h = step
        bending = np.array(
            [[12, 6 * h, -12, 6 * h], [6 * h, 4 * h * h, -6 * h, 2 * h * h], [-12, -6 * h, 12, -6 * h], [6 * h, 2 * h * h, -6 * h, 4 * h * h]]
        )  # fmt: skip
        moving = np.array(
            [[156, 22 * h, 54, -13 * h], [22 * h, 4 * h * h, 13 * h, -3 * h * h], [54, 13 * h, 156, -22 * h], [-13 * h, -3 * h * h, -22 * h, 4 * h * h]]
        )  # fmt: skip
        pressed = np.array(
            [[36, 3 * h, -36, 3 * h], [3 * h, 4 * h * h, -3 * h, -h * h], [-36, -3 * h, 36, -3 * h], [3 * h, -h * h, -3 * h, 4 * h * h]]
        )  # fmt: skip
        for element in range(elements):
            at = slice(2 * element, 2 * element + 4)
            self.stiffness[at, at] += bending_stiffness / h**3 * bending
            self.mass[at, at] += linear_mass * h / 420.0 * moving
            self.geometric[at, at] += pressed / (30.0 * h)
        self.mass[-2, -2] += tip_mass
        self.mass[-1, -1] += tip_inertia
        held = [0, 1] if base_stiffness is None else [0]
        if base_stiffness is not None:
            self.stiffness[1, 1] += base_stiffness
        self.free = np.array([i for i in range(size) if i not in held])

    def _reduced(self, matrix: Matrix) -> Matrix:
        return matrix[np.ix_(self.free, self.free)]

    def first_frequency(self) -> float:
        """Lowest natural frequency in hertz."""
        squares = eigh(self._reduced(self.stiffness), self._reduced(self.mass), eigvals_only=True)
        return float(np.sqrt(squares[0]) / (2.0 * np.pi))

    def critical_force(self) -> float:
        """Lowest force at the top under which the post buckles."""
        # The geometric matrix is positive definite here, the stiffness as well: K v = N G v.
        forces = eigh(
            self._reduced(self.stiffness), self._reduced(self.geometric), eigvals_only=True
        )
        return float(forces[0])

    def tip(self, force: float = 0.0, moment: float = 0.0, compression: float = 0.0) -> Any:
        """Deflection and rotation of the top, of first order or with a compression along."""
        load = np.zeros(len(self.free))
        load[-2], load[-1] = force, moment
        matrix = self._reduced(self.stiffness - compression * self.geometric)
        return np.linalg.solve(matrix, load)[-2:]


@pytest.fixture(scope="session")
def cantilever() -> Callable[..., Cantilever]:
    """cantilever(length, bending_stiffness, ...): a post of beam elements."""
    return Cantilever
