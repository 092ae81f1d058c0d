"""What an audit knows of one job: plain data that can be stored, sent and compared."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any, NamedTuple

from checker.grades import Grade, Verdict

__all__ = ["FORMAT", "Finding", "JobResult", "from_json", "status_of", "to_json"]

# The version of the stored form; a result of another version is not read.
FORMAT = 1


class Finding(NamedTuple):
    """One answer: the rule, the member of its list, the grade word, demand over limit, what was missing."""

    rule: str
    member: int | None
    grade: str
    utilisation: float | None
    missing: tuple[str, ...]

    @property
    def key(self) -> str:
        """The rule and the member, as one name."""
        return self.rule if self.member is None else f"{self.rule}[{self.member}]"


class JobResult(NamedTuple):
    """One job: its files, what it was judged by, its verdict and its answers.

    ``findings`` leaves out what does not apply; ``counts`` counts it. ``error`` is what
    was wrong with a file that could not be read, '' otherwise.
    """

    path: str
    fitted: str | None
    digest: str
    rulebook: str
    overlays: tuple[str, ...]
    reference: str
    stage: str
    date: str
    verdict: str
    counts: dict[str, int]
    findings: tuple[Finding, ...]
    error: str

    @property
    def gravest(self) -> Grade:
        """The gravest grade of all answers."""
        return min((Grade.of(word) for word, n in self.counts.items() if n), default=Grade.MET)


def status_of(result: JobResult, accept: Grade) -> int:
    """The exit status of one job: 3 where it could not be read, 1 where it is graver than accepted."""
    if result.error:
        return 3
    return 0 if result.gravest >= accept else 1


def to_json(result: JobResult, changes: Sequence[tuple[str, ...]] = ()) -> str:
    """One line of JSON, with what changed if anything did; the same result, the same line."""
    data = result._asdict()
    data["findings"] = [list(f) for f in result.findings]
    if changes:
        data["changes"] = [list(c) for c in changes]
    return json.dumps(
        {"format": FORMAT, **data}, ensure_ascii=False, separators=(",", ":"), allow_nan=False
    )


def from_json(line: str | bytes) -> JobResult:
    """The result that a line of JSON holds.

    Raises ValueError for anything that is not a whole result of this form.
    """
    try:
        data: dict[str, Any] = json.loads(line)
        if data.pop("format") != FORMAT:
            raise ValueError("the result is of another version")
        data.pop("changes", None)
        findings = tuple(_finding(*f) for f in data.pop("findings"))
        result = JobResult(
            **{
                **data,
                "findings": findings,
                "overlays": tuple(data["overlays"]),
                "counts": dict(data["counts"]),
            }
        )
        if result.verdict not in (*(v.value for v in Verdict), "unread"):
            raise ValueError("the verdict is not one of ours")
        for word in result.counts:
            Grade.of(word)
    except (KeyError, TypeError, AttributeError) as error:
        raise ValueError(f"not a result of an audit: {error}") from None
    return result


def _finding(
    rule: str, member: int | None, grade: str, utilisation: float | None, missing: list[str]
) -> Finding:
    Grade.of(grade)
    if not isinstance(rule, str) or not isinstance(missing, list):
        raise TypeError("a finding that is none")
    return Finding(rule, member, grade, utilisation, tuple(missing))
