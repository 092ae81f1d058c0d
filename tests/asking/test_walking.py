"""With all papers at hand, from an empty file to a checked one."""

from __future__ import annotations

import io
from pathlib import Path

import pytest

from checker.asking.conversation import ask as hold
from checker.asking.terminal import Terminal
from checker.checking.judging import judge
from checker.installation.binding import bind
from checker.installation.record import Installation
from checker.places import SCHEMAS
from checker.running import Checker

FIXTURES = SCHEMAS.parent / "fixtures"


class _Papers:
    """Somebody with all the papers of a job at hand, who answers whatever is asked."""

    def __init__(self, papers: Installation, screen: io.StringIO) -> None:
        self.screen = screen
        self.read_up_to = 0
        self.answers: dict[str, str] = {}
        self.members: dict[str, int] = {}
        for prefix, record in papers.records():
            for field, fact in zip(record.layout.fields, record.facts, strict=True):
                if fact is None:
                    continue
                path = prefix + field.path.rpartition("[].")[2]
                if field.item is not None:
                    self.members[path] = len(record.members[field.slot])
                    continue
                quoted = f'"{fact.text}"' if fact.text in ("q", "<", ">", "-", "?") else fact.text
                self.answers[path] = f"{quoted}, {fact.origin}" if fact.origin else quoted

    def isatty(self) -> bool:
        return False

    def readline(self) -> str:
        said = self.screen.getvalue()[self.read_up_to :].splitlines()
        self.read_up_to = len(self.screen.getvalue())
        assert not [line for line in said if line.startswith("    found ")], "\n".join(said)
        question = next((x for x in reversed(said) if x[:1].isalpha() or x.startswith("==")), "")
        path = question.removeprefix("== ").partition(":")[0].strip()
        if question.startswith("=="):
            known = [*self.answers, *self.members]
            return "yes\n" if any(p.startswith(f"{path}.") for p in known) else "\n"
        if question.endswith("so far"):
            so_far = int(question.rpartition(": ")[2].split()[0])
            return "yes\n" if so_far < self.members[path] else "no\n"
        if "left for later" in question:
            return "no\n"
        if path in self.members:
            return "yes\n" if self.members[path] else "none\n"
        if path == "work.ordered":
            # Nothing was ordered by length; a list that is begun and left would count as stated.
            return "none\n"
        return f"{self.answers.get(path, '')}\n"


@pytest.mark.slow
@pytest.mark.parametrize("name", ["milling-floor-stand-inch"])
def test_with_all_papers_at_hand_the_result_is_that_of_the_file_written_by_hand(
    tmp_path: Path, name: str
) -> None:
    # Nothing that a rule reads is left unasked, and nothing is changed on its way into the file.
    checker = Checker()
    papers = bind((FIXTURES / f"{name}.yaml").read_bytes(), name)
    path = tmp_path / "job.yaml"
    screen = io.StringIO()
    assert hold(path, None, checker, Terminal(_Papers(papers, screen), screen, 80)) == 0  # type: ignore[arg-type]
    asked = bind(path.read_bytes(), "job.yaml")
    book = checker.rulebook_for(papers)
    by_hand, by_asking = judge(book, papers), judge(book, asked)
    assert [a for a in by_asking.answers if a not in by_hand.answers] == []
    assert by_asking.verdict is by_hand.verdict
    assert f"VERDICT  {by_hand.verdict.value}" in screen.getvalue()
