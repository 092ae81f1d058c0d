"""The fan's curve, the system's curves with clean and dirty filters, and where they meet.

A first-class result beside the findings: the same derived values that the airflow rules
use, put in a form that can be drawn. What a rule says and what a curve shows cannot
differ, because both are worked out from one place.
"""

from __future__ import annotations

from typing import Any

from checker import units
from checker.absent import Absent
from checker.checking.outcomes import Values
from checker.engineering.fans import system_pressure
from checker.findings import Curves, WorkingPoint
from checker.rulebook.model import Rulebook

__all__ = ["curves_of"]

_FLOW = units.need("m3/h")
_POINTS = 25


def curves_of(rulebook: Rulebook, values: Values) -> Curves | None:
    """The curves of an installation, or None where the fan's curve is not stated.

    What is not known (a duct that cannot be priced, a filter without its change-out
    value) leaves its curve out; nothing stands in for it.
    """
    if not all(name in rulebook.derived for name in _NEEDED):
        return None
    curve = rulebook.layout.leaf("collector.fan_curve")
    members = values.S[curve.slot] if curve is not None else None
    if curve is None or curve.item is None or not isinstance(members, list):
        return None
    slots = [curve.item.leaf(name) for name in ("flow", "pressure")]
    if any(slot is None for slot in slots):
        return None
    pairs = [tuple(member[slot.slot] for slot in slots if slot is not None) for member in members]
    if not pairs or any(isinstance(x, Absent) for pair in pairs for x in pair):
        return None
    known = {name: _derived(name, rulebook, values) for name in _NEEDED}
    speed, density = known["fan_speed_ratio"], known["fan_density_ratio"]
    if speed is None or density is None:
        return None
    fan = [(flow * speed, pressure * speed**2 * density) for flow, pressure in pairs]
    last = max(flow for flow, _ in fan)
    return Curves(
        "m3/h", "Pa",
        tuple(_written(*pair) for pair in fan),
        _system(known, "filter_loss_clean", last), _system(known, "filter_loss_dirty", last),
        tuple(p for p in (_point("clean", known), _point("dirty", known)) if p is not None),
        None if known["required_flow"] is None else _flow(known["required_flow"]),
    )  # fmt: skip


_NEEDED = (
    "fan_speed_ratio", "fan_density_ratio", "duct_loss", "reference_flow", "required_flow",
    "filter_loss_clean", "filter_loss_dirty", "working_flow_clean", "working_flow_dirty",
    "working_pressure_clean", "working_pressure_dirty",
)  # fmt: skip


def _derived(name: str, rulebook: Rulebook, values: Values) -> Any:
    derived = rulebook.derived[name]
    values.work_out((*derived.order, derived.index))
    value = values.D[derived.index]
    return None if isinstance(value, Absent) else value


def _system(known: dict[str, Any], filters: str, last: float) -> tuple[tuple[float, float], ...]:
    duct, media, reference = known["duct_loss"], known[filters], known["reference_flow"]
    if duct is None or media is None or not reference:
        return ()
    flows = [last * i / (_POINTS - 1) for i in range(_POINTS)]
    return tuple(_written(q, system_pressure(q, duct, media, reference)) for q in flows)


def _point(state: str, known: dict[str, Any]) -> WorkingPoint | None:
    flow, pressure = known[f"working_flow_{state}"], known[f"working_pressure_{state}"]
    if flow is None or pressure is None:
        return None
    return WorkingPoint(state, *_written(flow, pressure))


def _written(flow: float, pressure: float) -> tuple[float, float]:
    return _flow(flow), float(f"{pressure:.6g}")


def _flow(flow: float) -> float:
    return float(f"{flow / _FLOW.factor:.6g}")
