"""IEC 60204-1, electrical equipment of machines: capacities at 40 °C, protective conductor, bends."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal

import pytest

from checker.engineering.cables import (
    ambient_temperature_factor,
    iec_cable_capacity,
    least_bend_radius,
)
from checker.engineering.fault_protection import iec_protective_conductor_size
from checker.findings import Finding
from checker.grades import Grade
from checker.rulebook.model import Rulebook

ZERO = 273.15

# Annex D, factors on a 40 °C base for 70 °C PVC: drive makers' hardware descriptions quoting
# DIN EN 60204-1, p. 95. Confidence: checked.
AMBIENT = [
    (30, "1.15"), (35, "1.08"), (40, "1.00"), (45, "0.91"), (50, "0.82"), (55, "0.71"), (60, "0.58")
]  # fmt: skip

# Table 6, PVC, 40 °C, three loaded cores: mm², then A for B1, B2, C, E. B2, C and E: drive makers'
# manuals quoting EN 60204-1, confidence: checked. B1: from-memory.
TABLE_6 = [
    ("1.5", "13.5", "13.1", "15.2", "16.1"),
    ("2.5", "18.3", "17.4", "21", "22"),
    ("4", "24", "23", "28", "30"),
    ("6", "31", "30", "36", "37"),
    ("10", "44", "40", "50", "52"),
]

# IEC 60364-5-52:2009, Tables B.52.4 and B.52.12, the same cables at 30 °C, from a copy of
# DIN VDE 0298-4. Confidence: checked.
AT_30 = {
    "1.5": (15.5, 15.0, 17.5, 18.5),
    "2.5": (21.0, 20.0, 24.0, 25.0),
    "4": (28.0, 27.0, 32.0, 34.0),
    "6": (36.0, 34.0, 41.0, 43.0),
    "10": (50.0, 46.0, 57.0, 60.0),
}
METHODS = ("B1", "B2", "C", "E")


def printed(text: str) -> object:
    """The printed number, give or take half a unit of its last digit."""
    exponent = Decimal(text).as_tuple().exponent
    return pytest.approx(float(text), abs=0.5 * 10.0**exponent + 1e-9)


@pytest.mark.parametrize(("air", "factor"), AMBIENT)
def test_ambient_factor(air: int, factor: str) -> None:
    assert ambient_temperature_factor(70 + ZERO, 40 + ZERO, air + ZERO) == printed(factor)


# Table 6 is the building table times the printed 0.87, each cell within its rounding: one proves
# the other.
@pytest.mark.parametrize(
    ("size", "method", "at_30", "at_40"),
    [
        (size, method, AT_30[size][column], row[column])
        for size, *row in TABLE_6
        for column, method in enumerate(METHODS)
    ],
)
def test_table_6_from_the_building_table(size: str, method: str, at_30: float, at_40: str) -> None:
    assert iec_cable_capacity(at_30, 0.87, 1.0, 1.0) == printed(at_40), (size, method)


# Published under another standard: an older drive manual prints 12.2 A (1.5 mm²) and 16.5 A
# (2.5 mm²) for B2 at 40 °C after "DIN VDE 0298-4". It is not this table. Confidence: checked (read).
@pytest.mark.parametrize(("at_30", "other"), [(15.0, "12.2"), (20.0, "16.5")])
def test_older_drive_manual_is_another_table(at_30: float, other: str) -> None:
    assert iec_cable_capacity(at_30, 0.87, 1.0, 1.0) != printed(other)


# Factor and capacity read, product arithmetic: C 2.5 mm² 21 A at 40 °C, used at 50 °C.
def test_capacity_at_50_degrees() -> None:
    assert iec_cable_capacity(21.0, 0.82, 1.0, 1.0) == printed("17.2")


# Table 1: S to 16 mm², 16 mm² to 35 mm², S/2 above. Confidence: checked.
@pytest.mark.parametrize(
    ("line", "protective"), [("1.5", "1.5"), ("16", "16"), ("25", "16"), ("35", "16"), ("70", "35")]
)
def test_protective_conductor(line: str, protective: str) -> None:
    assert iec_protective_conductor_size(float(line) * 1e-6) * 1e6 == printed(protective)


# Clause 13, in a test-equipment manual: a moving cable is bent to at least ten times its diameter;
# 10 mm gives 100 mm. Confidence: checked.
def test_bend_of_a_moving_cable() -> None:
    assert least_bend_radius(0.010, 10.0) * 1000 == printed("100")


# Table 6 as shipped: the rows above, and 0.75 and 1.0 mm² of the same manuals. B1: from-memory.
SMALL = [("0.75", "8.6", "8.5", "9.8", "10.4"), ("1.0", "10.3", "10.1", "11.7", "12.4")]
SHIPPED_CELLS = [
    (size, method, cell)
    for size, *row in [*SMALL, *TABLE_6]
    for method, cell in zip(METHODS, row, strict=True)
]


def shipped_capacity(book: Rulebook, method: str, size: str) -> float:
    look_up = book.tables["cable_capacity_machine"].columns["capacity"].look_up
    return float(look_up(method, float(size) * 1e-6))


@pytest.mark.parametrize(("size", "method", "cell"), SHIPPED_CELLS)
def test_shipped_table_6(shipped: Rulebook, size: str, method: str, cell: str) -> None:
    assert shipped_capacity(shipped, method, size) == pytest.approx(float(cell))
    assert len(shipped.tables["cable_capacity_machine"].rows) == len(SHIPPED_CELLS)


@pytest.mark.parametrize("method", METHODS)
def test_confidence_of_table_6(shipped: Rulebook, method: str) -> None:
    of = shipped.tables["cable_capacity_machine"].confidence_of
    assert of("capacity", method, 1.5e-6) == ("from-memory" if method == "B1" else "checked")


# The two shipped tables prove each other: each cell of Table 6 from 1.5 mm² up is the building's times
# 0.87, within its own rounding.
@pytest.mark.parametrize(
    ("size", "method", "cell"), [c for c in SHIPPED_CELLS if float(c[0]) >= 1.5]
)
def test_shipped_tables_prove_each_other(
    shipped: Rulebook, size: str, method: str, cell: str
) -> None:
    building = shipped.tables["cable_capacity_building"].columns["capacity"].look_up
    assert building("pvc-70", method, 3.0, float(size) * 1e-6) * 0.87 == printed(cell)


@pytest.mark.parametrize(("air", "factor"), AMBIENT)
def test_shipped_ambient_factor(shipped: Rulebook, air: int, factor: str) -> None:
    look_up = shipped.tables["ambient_factor_machine"].columns["factor"].look_up
    assert look_up(air + ZERO) == pytest.approx(float(factor))
    assert len(shipped.tables["ambient_factor_machine"].rows) == len(AMBIENT)


# Clause 18.2.2 in a machine tester's manual: the test current is 0.2 A to about 10 A; 18.3: at least
# 1 Mohm at 500 V direct; residual voltage at most 60 V after 5 s, after 1 s at bare pins.
# Confidence: checked.
def test_figures_of_clause_18(shipped: Rulebook) -> None:
    rules = {r.name: r for r in shipped.rules}
    bonding = rules["electrical-protection/bonding-continuity"].parameters
    assert bonding["least_current"].text == "0.2 A"
    insulation = rules["electrical-protection/insulation-resistance"].parameters
    assert (insulation["least"].text, insulation["test_voltage"].text) == ("1.0 Mohm", "500 V")
    residual = rules["electrical-protection/residual-voltage"].parameters
    found = [residual[n].text for n in ("harmless", "wait", "wait_at_pins")]
    assert found == ["60 V", "5 s", "1 s"]


# Clause 5.3.2 in an article on an older edition: a plug isolates up to 16 A and 3 kW; above 16 A it is
# retained, from 63 A interlocked (training page). Confidence: checked.
def test_figures_of_plugs(shipped: Rulebook) -> None:
    rules = {r.name: r for r in shipped.rules}
    alone = rules["electrical-protection/plug-as-isolator"].parameters
    assert (alone["largest_current"].text, alone["largest_power"].text) == ("16 A", "3 kW")
    kept = rules["electrical-protection/plug-retention"].parameters
    assert (kept["free"].text, kept["interlocked_from"].text) == ("16 A", "63 A")


# Clause 13.4.2 in a test-equipment manual: 10 D for a cable that the machine moves, 25 mm from moving
# parts; a 10 mm cable gives 100 mm. Confidence: checked.
def test_moving_cable_in_the_shipped_rule(ask: Callable[..., Finding]) -> None:
    found = ask(
        "electrical-protection/cable-bend",
        cable="{outside_diameter: 10 mm, bend: {duty: machine-movement, radius: 100 mm}}",
    )
    assert found.grade is Grade.MET
    assert found.demand is not None
    assert found.demand.text == "100 mm"
