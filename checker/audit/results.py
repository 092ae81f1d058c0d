"""What an audit knows of one job: plain data that can be stored, sent and compared."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping, Sequence
from functools import lru_cache
from typing import Any, NamedTuple, NoReturn

from checker.grades import Grade, Verdict

__all__ = [
    "FORMAT",
    "Finding",
    "JobResult",
    "from_json",
    "rule_digests_from",
    "status_of",
    "to_json",
    "verdicts_from",
]

# The version of the stored form; a result of another version is not read.
FORMAT = 2
_ENCODER = json.JSONEncoder(ensure_ascii=False, separators=(",", ":"), allow_nan=False)
# What stands between a file's name and the message about it.
_PLACE = re.compile(r":(?:([0-9]{1,9}):([0-9]{1,9}):)? ")


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
    def to_act_on(self) -> bool:
        """Whether there is anything in it that someone has to act on."""
        return not self.error and self.gravest < Grade.MET

    @property
    def unread_at(self) -> tuple[str, int, int, str]:
        """File, line, column and message of why it could not be read; 0 for the whole file."""
        for name in filter(None, (self.path, self.fitted)):
            found = _PLACE.match(self.error, len(name)) if self.error.startswith(name) else None
            if found is not None:
                line, column = int(found[1] or 0), int(found[2] or 0)
                return name, line, column, self.error[found.end() :]
        return self.path, 0, 0, self.error

    @property
    def gravest(self) -> Grade:
        """The gravest grade of all answers."""
        return min((Grade.of(word) for word, n in self.counts.items() if n), default=Grade.MET)


def status_of(result: JobResult, accept: Grade) -> int:
    """The exit status of one job: 3 where it could not be read, 1 where it is graver than accepted."""
    if result.error:
        return 3
    return 0 if result.gravest >= accept else 1


def to_json(
    result: JobResult,
    changes: Sequence[tuple[str, ...]] = (),
    words: Sequence[dict[str, Any]] | None = None,
) -> str:
    """One line of JSON, with what changed if anything did; the same result, the same line."""
    data = {"format": FORMAT, **result._asdict()}
    if changes:
        data["changes"] = changes
    if words:
        data["words"] = words
    return _ENCODER.encode(data)


def from_json(line: str | bytes) -> JobResult:
    """The result that a line of JSON holds.

    Raises ValueError for anything that is not a whole result of this form: a line may come
    from anyone, and what it says is printed and counted.
    """
    try:
        data: dict[str, Any] = _DECODER.decode(line if isinstance(line, str) else line.decode())
        if data.pop("format") != FORMAT:
            raise ValueError("the result is of another version")
        data.pop("changes", None)
        data.pop("words", None)
        findings = tuple([_finding(*f) for f in data.pop("findings")])
        overlays = tuple(_text(name) for name in data.pop("overlays"))
        counts = {_grade(word): _count(n) for word, n in data.pop("counts").items()}
        fitted = data.pop("fitted")
        result = JobResult(
            **{name: _text(value) for name, value in data.items()},
            fitted=None if fitted is None else _text(fitted),
            overlays=overlays,
            counts=counts,
            findings=findings,
        )
        if (_verdict(result.verdict) == "unread") is not bool(result.error):
            raise ValueError("the verdict is not that of a file that was read")
        if not result.error and counts.keys() != _ALL_GRADES:
            raise ValueError("the counts are not of every grade")
    except (KeyError, TypeError, AttributeError, RecursionError) as error:
        raise ValueError(f"not a result of an audit: {error}") from None
    return result


def rule_digests_from(totals: Any) -> dict[str, dict[str, str]]:
    """The digest of each rule of each rulebook that an audit's totals name.

    Raises ValueError where they name none.
    """
    try:
        found: Mapping[str, Mapping[str, str]] = totals["rule_digests"]
        return {
            _text(book): {_text(rule): _text(digest) for rule, digest in rules.items()}
            for book, rules in found.items()
        }
    except (KeyError, TypeError, AttributeError) as error:
        raise ValueError(f"not the totals of an audit: {error}") from None


def verdicts_from(gone: Any) -> dict[str, str]:
    """The jobs of an earlier audit with the verdicts they had; raises ValueError for anything else."""
    try:
        return {_text(path): _verdict(word) for path, word in gone.items()}
    except (TypeError, AttributeError) as error:
        raise ValueError(f"not the jobs of an audit: {error}") from None


def _finding(
    rule: str, member: int | None, grade: str, utilisation: float | None, missing: list[str]
) -> Finding:
    if member is not None:
        _count(member)
    if utilisation is not None and not (
        type(utilisation) in (int, float) and abs(utilisation) < _MOST
    ):
        raise TypeError("a utilisation that is no number")
    if type(missing) is not list:
        raise TypeError("a finding that is none")
    lacking = tuple(map(_text, missing)) if missing else ()
    return Finding(_text(rule), member, _grade(grade), utilisation, lacking)


# What would act on a terminal, or cannot be written as UTF-8: no result of ours holds it.
_UNSEEN = re.compile("[\x00-\x09\x0b-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069\ud800-\udfff]")


_ALL_GRADES = {grade.word for grade in Grade}
# Beyond any count and any ratio, and within what a float holds.
_MOST = 1e300


@lru_cache(maxsize=8192)  # The names of rules and fields come again and again.
def _text(value: Any) -> str:
    if type(value) is not str or _UNSEEN.search(value):
        raise TypeError("a text that is none, or that cannot be shown")
    return value


def _count(value: Any) -> int:
    if type(value) is not int or not 0 <= value < _MOST:
        raise TypeError("a count that is none")
    return value


def _verdict(word: Any) -> str:
    if word not in (*(v.value for v in Verdict), "unread"):
        raise ValueError("the verdict is not one of ours")
    return str(word)


def _grade(word: Any) -> str:
    if word not in _ALL_GRADES:
        raise ValueError("a grade that is not one of ours")
    return str(word)


def _refuse_constant(text: str) -> NoReturn:
    raise ValueError(f"{text} is not a number")


_DECODER = json.JSONDecoder(parse_constant=_refuse_constant)
