"""Numbers as people type them: read as what they mean, or refused; never read as something else."""

from __future__ import annotations

import math

import pytest
from campaign import told_well

from checker.errors import Mistakes
from checker.installation.binding import bind

HEAD = "job: {stage: plan}\nmount: {kind: side-post}\n"

# What it is, what stands before "kg", what the message says.
REFUSED = [
    ("an exponent beyond every float", "1e400", "more digits than anyone can measure"),
    ("an exponent below every float", "1e-320", "more digits than anyone can measure"),
    ("not a number", ".nan", "not a number"),
    ("an endless number", ".inf", "not a number"),
    ("infinity in letters", "Infinity", "not a number"),
    ("a decimal comma", "'1,5 kg'", "a decimal comma or a thousands comma"),
    ("points and a comma", "'1.000,5 kg'", "a decimal comma or a thousands comma"),
    ("a gap", "1 000", "a gap inside the number"),
    ("an apostrophe", "1'000", "a mark inside the number"),
    ("an underscore", "1_000", "a mark inside the number"),
    ("an Arabic digit", "٣", "digits of another script"),
    ("full-width digits", "１２", "digits of another script"),
    ("an Arabic digit behind an ordinary one", "1٣", "digits of another script"),
    ("a digit in a circle", "②", "no number"),
    ("a Roman numeral", "Ⅷ", "no number"),
    ("an en dash for a range", "5–10", "a dash between two numbers"),
    ("a hyphen for a range", "5-10", "a dash between two numbers"),
    ("below nought", "-5", "cannot be below nought"),
    ("a minus sign from a typesetter", "−5", "a dash that is no minus sign"),
    ("a lower limit", "≥5", "a limit, not a value"),
    ("an upper limit", "<5", "a limit, not a value"),
    ("a tilde", "~5", "an approximate value"),
    ("circa", "ca. 5", "an approximate value"),
    ("five thousand digits", "9" * 5000, "a text that is too long"),
    ("seventy digits", "9" * 70, "more digits than anyone can measure"),
    ("a hexadecimal number", "0x1F", "a hexadecimal number"),
    ("a binary number", "0b101", "unknown unit 'b101 kg'"),
    ("a fraction of a kilogram", "1/2", "a slash between two numbers"),
    ("a fraction over nought", "1/0", "a fraction over nought"),
    ("one and a half in one sign", "1½", "a fraction sign"),
    ("a half in one sign", "½", "a fraction sign"),
    ("a no-break space", "5\u00a0", "a special space"),
    ("a thin space", "5\u2009", "a special space"),
    ("a narrow no-break space", "5\u202f", "a special space"),
    ("an ideographic space", "5\u3000", ""),
    ("two points", "1.2.3", "two decimal points"),
    ("a point at the end", "5.", "ends with its point"),
    ("a point at the beginning", ".5", "starts with its point"),
    ("an exponent without its number", "5e", "unknown unit"),
    ("sexagesimal", "1:30", "unknown unit"),
    ("a word", "five", "no number"),
    ("too large for anything", "1e16", "larger than anything"),
    ("nothing before the unit", "", "no number"),
    ("a tolerance larger than the value", "5 ± 6", ""),
    ("a range that runs backwards", "10..5", "runs backwards"),
]  # fmt: skip


def message(value: str) -> str:
    text = value if value.startswith("'") else f"{value} kg"
    with pytest.raises(Mistakes) as caught:
        bind(f"{HEAD}collector:\n  mass: {text}\n".encode(), "plan.yaml")
    told = str(caught.value)
    told_well(told)
    return told


@pytest.mark.parametrize(("value", "what"), [c[1:] for c in REFUSED], ids=[c[0] for c in REFUSED])
def test_refused_with_its_place(value: str, what: str) -> None:
    told = message(value)
    assert told.startswith("plan.yaml:4:")
    assert what in told.splitlines()[0]


BARE = [
    ("a whole number", "5", "has no unit"),
    ("a decimal", "5.5", "has no unit"),
    ("an exponent", "1e3", "has no unit"),
    ("a fraction", "1/2", "a number without a unit"),
    ("a number and its tolerance", "5 ± 1", "a tolerance without its unit"),
    ("true", "true", "is not a value with a unit"),
    ("a list", "[5 kg]", "is not a value with a unit"),
    ("a group", "{mass: 5 kg}", "unknown field 'mass' in collector.mass"),
    ("a group without the value", "{origin: measured}", "has no value"),
]


@pytest.mark.parametrize(("value", "what"), [c[1:] for c in BARE], ids=[c[0] for c in BARE])
def test_without_a_unit_it_is_no_mass(value: str, what: str) -> None:
    with pytest.raises(Mistakes) as caught:
        bind(f"{HEAD}collector: {{mass: {value}}}\n".encode(), "plan.yaml")
    assert what in str(caught.value)


# What it is, what is written, the kilograms.
READ = [
    ("nought", "0 kg", 0.0),
    ("minus nought", "-0 kg", 0.0),
    ("minus nought with its point", "-0.0 kg", 0.0),
    ("a plus sign", "+5 kg", 5.0),
    ("noughts in front", "0017 kg", 17.0),
    ("an exponent", "1e3 kg", 1000.0),
    ("a small exponent", "0.1e-5 kg", 1e-6),
    ("a tolerance", "5 ± 1 kg", 5.0),
    ("the largest", "1e15 kg", 1e15),
    ("a fraction of a pound", "1/2 lb", 0.226796185),
    ("no gap before the unit", "5kg", 5.0),
]


@pytest.mark.parametrize(("text", "kilograms"), [c[1:] for c in READ], ids=[c[0] for c in READ])
def test_read_as(text: str, kilograms: float) -> None:
    found = bind(f"{HEAD}collector: {{mass: {text}}}\n".encode(), "plan.yaml")
    value = found.value("collector.mass")
    assert value == pytest.approx(kilograms, rel=1e-9)
    # Minus nought divides into minus infinity, and prints as "-0".
    assert math.copysign(1.0, value) == 1.0


COUNTS = [
    ("a fraction of a thing", "2.5", "whole number"),
    ("a text", "two", "whole number"),
    ("a number in quotes", "'4'", "whole number"),
    ("below nought", "-4", "outside what is possible"),
    ("true", "true", "whole number"),
    ("thirty digits", "1" * 30, "whole number"),
    ("fifteen digits", "9" * 15, "outside what is possible"),
    ("not a number", ".nan", "whole number"),
    ("a unit", "4 pcs", "whole number"),
    ("an Arabic digit", "٤", "whole number"),
]


@pytest.mark.parametrize(("value", "what"), [c[1:] for c in COUNTS], ids=[c[0] for c in COUNTS])
def test_of_things_that_are_counted(value: str, what: str) -> None:
    with pytest.raises(Mistakes) as caught:
        bind(f"{HEAD}collector: {{motor: {{poles: {value}}}}}\n".encode(), "plan.yaml")
    assert what in str(caught.value)


@pytest.mark.parametrize("value", ["2024-02-30", "2024-13-01", "0000-01-01", "24-01-01", "2024-W01-1", "20240101", "2024-1-1", "2024-01-01T00:00", "01.02.2024", "yesterday", "٢٠٢٤-٠١-٠١"])  # fmt: skip
def test_of_days_that_there_are_not(value: str) -> None:
    with pytest.raises(Mistakes) as caught:
        bind(f"{HEAD.replace('plan', 'plan, planned_on: ' + value)}".encode(), "plan.yaml")
    assert "is not a date" in str(caught.value)
