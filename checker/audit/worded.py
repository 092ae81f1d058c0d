"""Findings in their words as plain data and back: what a part of an audit hands to the whole."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from checker.findings import BasisRead, FieldRead, Finding, Measure, MissingField, Remedy, Worst
from checker.grades import Grade
from checker.output.json_report import as_data

__all__ = ["from_data", "to_data"]


def to_data(findings: Iterable[Finding]) -> list[dict[str, Any]]:
    """Findings as dictionaries, lists, texts and numbers."""
    return [as_data(finding) for finding in findings]


def from_data(data: Any) -> tuple[Finding, ...]:
    """The findings that plain data hold, without their working, which no form of an audit shows.

    Raises ValueError for anything else.
    """
    try:
        return tuple(_finding(**item) for item in data)
    except (KeyError, TypeError, AttributeError) as error:
        raise ValueError(f"not findings of an audit: {error}") from None


def _finding(
    *,
    grade: str,
    demand: dict[str, Any] | None,
    limit: dict[str, Any] | None,
    worst: dict[str, Any] | None,
    working: list[Any],
    fields: list[dict[str, Any]],
    missing: list[dict[str, Any]],
    remedies: list[dict[str, Any]],
    basis: list[dict[str, Any]],
    remarks: list[str],
    changes: list[str],
    **rest: Any,
) -> Finding:
    del working
    return Finding(
        **rest,
        grade=Grade.of(grade),
        demand=_measure(demand),
        limit=_measure(limit),
        worst=None if worst is None else _worst(**worst),
        working=(),
        fields=tuple(FieldRead(**f) for f in fields),
        missing=tuple(MissingField(**m) for m in missing),
        remedies=tuple(Remedy(**r) for r in remedies),
        basis=tuple(BasisRead(**b) for b in basis),
        remarks=tuple(remarks),
        changes=tuple(changes),
    )


def _measure(data: dict[str, Any] | None) -> Measure | None:
    return None if data is None else Measure(**data)


def _worst(
    *, grade: str, demand: dict[str, Any] | None, limit: dict[str, Any] | None, **rest: Any
) -> Worst:
    return Worst(grade=Grade.of(grade), demand=_measure(demand), limit=_measure(limit), **rest)
