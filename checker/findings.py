"""Findings and the report that holds them: plain frozen data, and nothing else."""

from __future__ import annotations

from typing import NamedTuple

from checker.grades import Grade, Verdict

__all__ = [
    "BasisRead", "Curves", "Extent", "FieldRead", "FieldWindow", "Finding", "Geometry", "Mark", "Measure",
    "MissingField", "Moved", "PipeRun", "Remedy", "Report", "RuleAcross", "Shape", "WorkingLine", "WorkingPoint", "Worst",
]  # fmt: skip


class Measure(NamedTuple):
    """A value: the number in ``unit``, and the text as a report prints it."""

    value: float
    unit: str
    text: str


class WorkingLine(NamedTuple):
    """One line of a working: the formula, the numbers put in, the result."""

    name: str
    meaning: str
    formula: str
    numbers: str
    result: str


class FieldRead(NamedTuple):
    """A field that a finding rests on, as it was stated."""

    path: str
    text: str
    file: str
    line: int
    column: int
    origin: str | None


class MissingField(NamedTuple):
    """A field that a rule needs and nobody stated; the place is where it belongs."""

    path: str
    meaning: str
    where: str
    unit: str
    file: str
    line: int
    column: int


class Worst(NamedTuple):
    """The worst case inside the stated tolerances."""

    grade: Grade
    demand: Measure | None
    limit: Measure | None
    tighten: str
    sentence: str


class Remedy(NamedTuple):
    """The value of one field that would meet the rule, the others held."""

    path: str
    now: str
    needed: str
    sentence: str


class RuleAcross(NamedTuple):
    """One rule's grades across a field's range."""

    rule: str
    subject: str
    grades: tuple[str, ...]


class FieldWindow(NamedTuple):
    """What every rule says across a field's range; ``low`` to ``high`` meets them all."""

    path: str
    stated: str
    unit: str
    values: tuple[float, ...]
    rules: tuple[RuleAcross, ...]
    low: float | None
    high: float | None
    sentence: str


class Moved(NamedTuple):
    """A field that is not as planned, and the grades that changed with it."""

    path: str
    planned: str
    fitted: str
    change: str
    beyond_tolerance: bool
    grades: tuple[str, ...]


class WorkingPoint(NamedTuple):
    """Where the fan's curve meets the system's, with clean or with dirty filters."""

    filters: str
    flow: float
    pressure: float


class Curves(NamedTuple):
    """The fan's and the system's curves as (flow, pressure), and their working points."""

    flow_unit: str
    pressure_unit: str
    fan: tuple[tuple[float, float], ...]
    system_clean: tuple[tuple[float, float], ...]
    system_dirty: tuple[tuple[float, float], ...]
    working_points: tuple[WorkingPoint, ...]
    required_flow: float | None


class Shape(NamedTuple):
    """An upright rectangle of an elevation, in metres; ``missing`` names what nobody stated of it."""

    part: str
    label: str
    view: str
    left: float
    bottom: float
    width: float
    height: float
    missing: tuple[str, ...]


class PipeRun(NamedTuple):
    """One part of the duct or the drain along its axis, in metres, unrolled into the view's plane."""

    system: str
    name: str
    kind: str
    view: str
    points: tuple[tuple[float, float], ...]
    bore: float
    missing: tuple[str, ...]


class Extent(NamedTuple):
    """A stated length between two places of a view, in metres: what a dimension line shows."""

    field: str
    name: str
    text: str
    view: str
    axis: str
    start: float
    end: float


class Mark(NamedTuple):
    """A thing that is only a point of a view, in metres."""

    part: str
    label: str
    view: str
    x: float
    z: float
    missing: tuple[str, ...]


class Geometry(NamedTuple):
    """Where everything stands: x = 0 at the mount's axis, z = 0 at the floor; ``ceiling`` is its height."""

    mount: str
    shapes: tuple[Shape, ...]
    runs: tuple[PipeRun, ...]
    extents: tuple[Extent, ...]
    marks: tuple[Mark, ...]
    ceiling: float | None
    notes: tuple[str, ...]


class BasisRead(NamedTuple):
    """Where a rule or one of its figures comes from."""

    of: str
    source: str
    title: str
    edition: str
    clause: str
    confidence: str
    note: str = ""


class Finding(NamedTuple):
    """A rule's answer for one installation."""

    rule: str
    title: str
    family: str
    subject: str | None
    grade: Grade
    sentence: str
    protects: str
    demand: Measure | None
    limit: Measure | None
    utilisation: float | None
    worst: Worst | None
    working: tuple[WorkingLine, ...]
    fields: tuple[FieldRead, ...]
    missing: tuple[MissingField, ...]
    remedies: tuple[Remedy, ...]
    basis: tuple[BasisRead, ...]
    remarks: tuple[str, ...]
    changes: tuple[str, ...]
    caution: str

    @property
    def line(self) -> int:
        """The first line of the description that the finding rests on, 1 if none."""
        places = [*(f.line for f in self.fields), *(m.line for m in self.missing)]
        return min(places, default=1)


class Report(NamedTuple):
    """All findings for one description, with what they were made from."""

    tool: str
    rulebook: str
    overlays: tuple[str, ...]
    changes: tuple[str, ...]
    description: str
    digest: str
    reference: str
    title: str
    stage: str
    verdict: Verdict
    counts: dict[str, int]
    findings: tuple[Finding, ...]
    windows: tuple[FieldWindow, ...]
    moved: tuple[Moved, ...]
    curves: Curves | None
    geometry: Geometry
    cautions: tuple[str, ...]
