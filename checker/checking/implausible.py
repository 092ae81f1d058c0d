"""Values that are possible and improbable: asked about, never refused."""

from __future__ import annotations

from collections.abc import Iterator

from checker.findings import BasisRead, FieldRead, Finding
from checker.grades import Grade
from checker.installation.record import Installation

__all__ = ["RULE", "implausible_values"]

RULE = "description/plausible-values"


def implausible_values(installation: Installation) -> Iterator[Finding]:
    """One finding for each stated value outside its field's plausible range."""
    for prefix, record in installation.records():
        for slot in record.unusual:
            field, fact = record.layout.fields[slot], record.facts[slot]
            if fact is None:
                continue
            path = prefix + field.path.rpartition("[].")[2] if prefix else field.path
            where = installation.place(fact.mark)
            place = FieldRead(path, fact.text, where.file, where.line, where.column, fact.origin)
            yield Finding(
                RULE, "A value outside its usual range", "description", path, Grade.CONFIRM,
                f"{path} is {fact.text}; it usually lies between {field.plausible_text.replace(' to ', ' and ')}. Confirm that it is no slip of the unit or the decimal point.",
                "Everyone who relies on the figures: a slip of a unit is the commonest mistake of all.",
                None, None, None, None, (), (place,), (), (),
                (BasisRead("the range", "project", "Plausible ranges of the fields", "", field.path, "common-practice"),), (), (),
                "Read the value again at its source before any figure that rests on it is used.",
            )  # fmt: skip
