"""One look at what a page holds: bound, judged, told, with what is kept from the look before."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Iterator
from threading import Lock
from typing import Any

from checker.asking.starting import needs_of
from checker.checking.fitted import moved_fields
from checker.checking.outcomes import Outcome, outcomes_of
from checker.checking.rule_reads import Memory
from checker.desk.describing import needs_told
from checker.desk.fitted import without_plan
from checker.desk.keeping import Answers, Keeper
from checker.desk.told import basis_told, entry_told, finding_told, identified, moved_told
from checker.desk.typed import Entry, Typed, bound, entry_of, read_typed
from checker.drawing.elevation import draw_elevation
from checker.drawing.fan_chart import draw_fan_chart
from checker.errors import Mistake, Mistakes
from checker.findings import Finding
from checker.geometry import geometry_of
from checker.grades import Grade
from checker.installation.binding import bind_node
from checker.installation.fields import Layout, general_path
from checker.installation.merging import merge_nodes
from checker.installation.record import Installation, Record
from checker.reporting.curves import curves_of
from checker.reporting.writing_findings import Writer
from checker.running import Checker

__all__ = ["Window", "Windows"]

_MOST_WINDOWS = 16


class Window:
    """One page that is open on one description; looks at it are made one after the other."""

    def __init__(self, checker: Checker) -> None:
        self.checker = checker
        self.lock = Lock()
        self.keeper = Keeper()
        self.memory = Memory()
        self.answers: Answers | None = None
        self.plan: Installation | None = None
        self.serial = 0
        # What the page was told of each finding, and at which look.
        self.told: dict[str, tuple[Finding, int]] = {}

    def check(self, tree: Any, plan: Any, since: int) -> dict[str, Any]:
        """What a tree of typed texts comes to; with a plan, the tree is what was found on site.

        since: the look whose answer the page has; findings told up to then are only named.
        """
        with self.lock:
            entries, installation, self.plan = self._bound(tree, plan)
            # A page that was forgotten here meanwhile has nothing of what is told from now on.
            since = since if since <= self.serial else 0
            self.serial += 1
            answer: dict[str, Any] = {"serial": self.serial, "entries": [entry_told(e) for e in entries]}  # fmt: skip
            if installation is None:
                return self._nothing(answer)
            try:
                rulebook = self.checker.rulebook_for(installation)
            except Mistakes as error:
                answer["entries"] += [entry_told(_refused(m)) for m in error.mistakes]
                return self._nothing(answer)
            self.answers = self.keeper.answers(rulebook, installation, self.plan)
            named = identified(self.answers.findings)
            told = {}
            for name, finding in named:
                before = self.told.get(name)
                told[name] = before if before is not None and before[0] is finding else (finding, self.serial)  # fmt: skip
            self.told = told
            return {
                **answer,
                # What cannot be read was left out: there is no verdict on the whole.
                "verdict": "" if entries else self.answers.verdict.value,
                "counts": self.answers.counts,
                "order": [name for name, _ in named],
                "bodies": {n: finding_told(f) for n, (f, at) in told.items() if at > since},
            }

    def _nothing(self, answer: dict[str, Any]) -> dict[str, Any]:
        """The answer where nothing can be checked; the page then forgets what it was told."""
        self.answers, self.told = None, {}
        return {**answer, "verdict": "", "counts": {}, "order": [], "bodies": {}}

    def around(self) -> dict[str, Any]:
        """What can wait for a pause: which fields are needed, the drawings, what moved."""
        with self.lock:
            answers = self.answers
            if answers is None:
                return {"serial": self.serial}
            rulebook, installation = answers.writer.rulebook, answers.installation
            geometry = geometry_of(installation)
            drawn = draw_elevation(geometry, self._about_extents(answers, {general_path(e.field) for e in geometry.extents}))  # fmt: skip
            curves = curves_of(rulebook, answers.writer.values)
            moved = () if self.plan is None else moved_fields(self.plan, installation, rulebook)
            return {
                "serial": self.serial,
                "needs": needs_told(needs_of(rulebook, installation, self.memory)),
                "views": [
                    {"title": f"{v.title}, 1:{v.scale}", "note": v.note, "svg": v.svg, "dimensions": [_dimension(d) for d in v.dimensions]}
                    for v in drawn.views
                ],
                "notes": list(drawn.notes),
                "curves": "" if curves is None else draw_fan_chart(curves),
                "moved": [moved_told(m) for m in moved],
                "overlays": list(rulebook.overlays),
            }  # fmt: skip

    def detail(self, name: str) -> dict[str, Any]:
        """The working and the sources of a finding that the page was told of."""
        with self.lock:
            told = self.told.get(name)
            if self.answers is None or told is None:
                return {"working": [], "basis": []}
            installation = self.answers.installation
            writer = Writer(self.answers.writer.rulebook, installation, working=True)
            wanted = told[0]
            for outcome in _outcomes(wanted.rule, writer):
                finding = writer.finding(outcome)
                if finding.subject == wanted.subject and finding.sentence == wanted.sentence:
                    return basis_told(finding)
            return basis_told(wanted)

    def _bound(self, tree: Any, plan: Any) -> tuple[list[Entry], Installation | None, Installation | None]:  # fmt: skip
        layout = self.checker.rulebook.layout
        if plan is None:
            typed = read_typed(tree, layout, "description")
            record = bound(typed, layout)
            one = None if record is None else Installation(record, typed.name, "")
            return typed.entries, one, None
        under = read_typed(plan, layout, "plan")
        planned = bound(under, layout)
        site = read_typed(without_plan(tree, plan, layout.root), layout, "site")
        if planned is None:
            return under.entries, None, None
        record = _merged(under, site, layout)
        entries = [*under.entries, *site.entries]
        both = None if record is None else Installation(record, under.name, "")
        return entries, both, Installation(planned, under.name, "")

    @staticmethod
    def _about_extents(answers: Answers, paths: set[str]) -> list[Finding]:
        """The findings that a drawing's dimensions are held against, those that are met too."""
        opened = list(answers.findings)
        there = {(f.rule, f.subject) for f in opened}
        for rule in answers.writer.rulebook.rules:
            if paths.intersection(rule.fields):
                for outcome in _outcomes(rule.name, answers.writer):
                    if answers.writer.doubts.grade(outcome) is Grade.MET:
                        finding = answers.writer.finding(outcome)
                        if (finding.rule, finding.subject) not in there:
                            opened.append(finding)
        return opened


def _merged(plan: Typed, site: Typed, layout: Layout) -> Record | None:
    """The record of both together, without what cannot be read of either."""
    for _ in range(8):
        taken = False
        try:
            return bind_node(
                merge_nodes(plan.node, site.node, layout, site.name), layout, plan.name
            )
        except Mistakes as error:
            for mistake in error.mistakes:
                own = site if mistake.place.file == site.name else plan
                site.entries.append(entry_of(mistake, own.path_of(mistake)))
                taken = own.take_off(mistake) or taken
        if not taken:
            return None
    return None


def _outcomes(name: str, writer: Writer) -> Iterator[Outcome]:
    rule = writer.rulebook.rule(name)
    if rule is not None:
        yield from outcomes_of(rule, writer.values, str(writer.installation.value("job.stage")))


def _refused(mistake: Mistake) -> Entry:
    return Entry("job.local", mistake.what, mistake.found, mistake.expected, mistake.hint)


def _dimension(one: Any) -> dict[str, Any]:
    standing = one.standing
    return {
        "number": one.number, "name": one.extent.name, "field": one.extent.field, "text": one.extent.text,
        "limit": standing.limit if standing else "", "grade": standing.grade.word if standing else "",
    }  # fmt: skip


class Windows:
    """The open pages, the ones longest unused forgotten."""

    def __init__(self, checker: Checker) -> None:
        self.checker = checker
        self._open: OrderedDict[str, Window] = OrderedDict()
        self._lock = Lock()

    def of(self, name: str) -> Window:
        """The window of a name, begun if it is not known."""
        with self._lock:
            window = self._open.pop(name, None) or Window(self.checker)
            self._open[name] = window
            while len(self._open) > _MOST_WINDOWS:
                self._open.popitem(last=False)
            return window

    @property
    def busy(self) -> bool:
        """Whether somebody waits for an answer right now."""
        return any(window.lock.locked() for window in list(self._open.values()))
