"""What '?' tells about a question: how to write the answer, what it is for, what else can be typed."""

from __future__ import annotations

from collections.abc import Iterator

from checker import units
from checker.asking.answers import numbered
from checker.asking.questions import Question
from checker.installation.fields import Field
from checker.output.field_words import LONGEST_CONDITION, condition_in_words, kind_in_words
from checker.rulebook.model import Rulebook

__all__ = ["KEYS", "choices_in_lines", "explain", "shortly"]

KEYS = "Enter leaves it for later   ? more   < back   > skip the rest of this group   - take back   q stop"
_ORIGINS = (
    "Where the value comes from may stand behind a comma: '3 mm, measured'. It is one of nameplate, measured, "
    "drawing, maker (its data sheet or letter) or estimated. Once the work is fitted, an estimate decides "
    "nothing that someone could be hurt by."
)
_MOST_RULES = 6


def shortly(question: Question) -> Iterator[str]:
    """The lines that stand above the answer."""
    field = question.field
    yield field.description
    if field.where:
        yield f"Where: {field.where}"
    if question.kind == "field" and field.type != "choice":
        yield "[yes or no]" if field.type == "flag" else f"[{kind_in_words(field)}]"
    conditions = [condition_in_words(c) for c in question.need.only_where]
    together = ", or ".join(conditions)
    if conditions and all(conditions) and len(together) <= LONGEST_CONDITION:
        yield f"Only where {together}."
    elif question.need.may_be_left_out:
        yield "May be left out."


def choices_in_lines(field: Field) -> list[str]:
    """The choices of a field, with the numbers that may be typed in their place."""
    if not numbered(field):
        return ["One of: " + ", ".join(field.choices)]
    return [f"{i:>4}  {choice}" for i, choice in enumerate(field.choices, 1)]


def explain(question: Question, rulebook: Rulebook) -> Iterator[str]:
    """Everything there is to say about a question, a paragraph each."""
    field = question.field
    if question.kind == "field":
        yield from _how(field)
    else:
        yield (
            "Answer yes to describe one, none if there is none at all (the list is then stated as empty); "
            "Enter leaves it for later."
        )
    conditions = [condition_in_words(c) for c in question.need.only_where]
    if conditions and all(conditions):
        yield f"It is looked at only where {', or '.join(conditions)}."
    titles = [
        f"{rule.title} ({rule.name})" for rule in rulebook.rules if rule.name in question.need.rules
    ]
    if titles:
        more = f", and {len(titles) - _MOST_RULES} more" if len(titles) > _MOST_RULES else ""
        yield f"It is for: {', '.join(titles[:_MOST_RULES])}{more}."
    else:
        yield "No rule reads it; it is for the record."
    if question.need.may_be_left_out:
        yield "It may be left out; nothing waits for it."
    yield f"Keys: {KEYS}"


def _how(field: Field) -> Iterator[str]:
    match field.type:
        case "quantity":
            assert field.unit is not None  # noqa: S101 - a quantity always has its unit
            symbols = [u.symbol for u in units.by_kind(field.unit.kind)][:8]
            one = field.unit.symbol
            yield f"Write a number and its unit: {', '.join(symbols)}; for inches '3/8 in' as well."
            if field.plausible_text:
                yield f"Usually {field.plausible_text}. Outside of that it is kept, and asked about in the check."
            yield (
                f"How sure it is may stand with it: '28 {one} ± 0.5 {one}' or '26..30 {one}'. The check then "
                "looks at the worst of that range."
            )
            yield _ORIGINS
        case "number" | "count":
            yield f"Write {kind_in_words(field)}, without a unit."
        case "choice":
            how = "or its number" if numbered(field) else "as it stands"
            yield f"Write one of the words, {how}: {', '.join(field.choices)}."
        case "flag":
            yield "Write yes or no. If you do not know, leave it for later: a guess is worse than a gap."
        case "date":
            yield "Write year-month-day, such as 2026-03-31, or 'today'."
        case _:
            yield 'Write it in your own words, on one line. What is a key here goes in quotes: "q".'
