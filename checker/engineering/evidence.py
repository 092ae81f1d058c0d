"""Evidence for a yes-or-no answer: what shows it, who answers for it, and since when."""

from __future__ import annotations

from .dimensions import Date

__all__ = ["is_evidenced"]


def is_evidenced(reference: str, by: str, on: Date) -> bool:
    """Whether a statement carries its evidence: a reference, a role and a date.

    Source: Mistwright project choice. Confidence: common-practice.

    reference: number of a document, photo or instrument [text]
    by: role of the person who answers for it [text]
    on: date of the document, photo or reading [date]
    Returns true or false: false where reference or role is blank.
    Valid for: any date; whether it is the right one is for the rule to ask.

    >>> is_evidenced("LOTO-114", "electrician", 0.0), is_evidenced("LOTO-114", " ", 0.0)
    (True, False)
    """
    # Each value is used, so that one that nobody stated is asked for, whichever it is.
    stated = [len(reference) > 0, len(by) > 0, float(on) == on]
    return all(stated) and bool(reference.strip()) and bool(by.strip())
