"""What a new description asks for: enough for every rule that can apply, and nothing else."""

from __future__ import annotations

import pytest
from new_descriptions import EVERY, KINDS, fields_of, template

from checker.absent import Absent, CannotTell, Unstated
from checker.asking.starting import begun, choices_of, for_the_record
from checker.checking.judging import judge
from checker.checking.outcomes import Values, check
from checker.errors import Mistakes
from checker.grades import Verdict
from checker.installation.binding import bind
from checker.installation.fields import Layout, general_path
from checker.rulebook.cases import case_installation, only
from checker.rulebook.model import Rule, Rulebook
from checker.rulebook.soundness import PLACEHOLDER


@pytest.mark.parametrize(("kind", "stage"), EVERY)
def test_a_new_description_binds_and_is_to_be_confirmed(
    shipped: Rulebook, kind: str, stage: str
) -> None:
    installation = bind(template(shipped, kind, stage, "GB").encode(), "new.yaml")
    stated = {
        f.path: fact.text
        for f, fact in zip(
            installation.record.layout.fields, installation.record.facts, strict=True
        )
        if fact is not None and f.item is None
    }
    assert stated == {"mount.kind": kind, "job.stage": stage, "job.jurisdiction": "GB"}
    for record in installation.every_record()[1:]:
        assert all(isinstance(v, (Absent, list)) for v in record.values)
    assert judge(shipped, installation).verdict is Verdict.CONFIRM


@pytest.mark.parametrize(("kind", "stage"), EVERY)
def test_a_new_description_asks_for_nothing_that_no_rule_reads(
    shipped: Rulebook, kind: str, stage: str
) -> None:
    # The rules are asked in another way than the template asked them: by their own compiled
    # condition, with what is known, and by all that their formulas and sentences name.
    start = begun(shipped.layout, kind, stage, None)
    values = Values(shipped, start.record.values)
    read: set[str] = set()
    for rule in shipped.rules:
        if stage in rule.stages and not rule.switched_off and _can_apply(rule, values):
            read |= {*rule.fields, *_named(rule)}
            if rule.each is not None:
                read.add(rule.each.field.path)
    asked = fields_of(template(shipped, kind, stage))
    extra = {path for path in asked - read if not for_the_record(path, shipped.layout)}
    assert not extra


def _can_apply(rule: Rule, values: Values) -> bool:
    if rule.test is None:
        return True
    values.work_out(rule.derived)
    arguments = [values.S, values.D]
    if rule.each is not None:
        arguments.append(rule.each.layout.template)
    try:
        return bool(rule.test(*arguments)) or _asks_what_is_stated(rule, values.rulebook)
    except CannotTell:
        return True


def _asks_what_is_stated(rule: Rule, book: Rulebook) -> bool:
    """Whether a condition that is false as things stand may turn with what is yet stated."""
    formulas = [rule.applies.text] if rule.applies else []
    formulas += [book.order[i].result.formula.text for i in rule.derived]
    return any("stated(" in text for text in formulas)


def _named(rule: Rule) -> set[str]:
    """The fields that a rule's sentences and its lines of the fitting sheet name."""
    found = set()
    for text in (*rule.says.values(), *(line.line for line in rule.sheet)):
        for name in PLACEHOLDER.findall(text):
            head, _, rest = name.partition(".")
            own = rule.each is not None and head == rule.each.variable
            found.add(f"{rule.each.field.path}[].{rest}" if own else name)  # type: ignore[union-attr]
    return found


@pytest.mark.parametrize(("kind", "stage"), EVERY)
def test_the_job_itself_is_always_asked(shipped: Rulebook, kind: str, stage: str) -> None:
    asked = fields_of(template(shipped, kind, stage))
    assert {f.path for f in shipped.layout.fields if f.path.startswith("job.")} <= asked


@pytest.mark.slow
def test_every_field_that_a_case_of_a_rule_lacks_is_asked(shipped: Rulebook) -> None:
    # Each rule's own cases put it in many situations; what it then lacks has to be in the
    # template of that mount and stage.
    asked: dict[tuple[str, str, str | None], set[str]] = {}
    lacked = 0
    for rule in shipped.rules:
        for case in rule.cases:
            installation = case_installation(case, shipped)
            place = installation.value("job.jurisdiction")
            key = (
                installation.value("mount.kind"),
                installation.value("job.stage"),
                None if isinstance(place, Absent) else place,
            )
            if key not in asked:
                asked[key] = fields_of(template(shipped, *key))
            for outcome in check(only(rule, shipped), installation):
                if isinstance(outcome.why, Unstated):
                    paths = {general_path(path) for path in outcome.why.paths}
                    lacked += len(paths)
                    assert paths <= asked[key], (rule.name, case.name, key)
    assert lacked > len(shipped.rules)


@pytest.mark.parametrize("kind", KINDS)
def test_what_a_check_of_the_template_lacks_stands_in_it(shipped: Rulebook, kind: str) -> None:
    text = template(shipped, kind, "fitted")
    installation = bind(text.encode(), "new.yaml")
    asked = fields_of(text)
    for outcome in check(shipped, installation):
        if isinstance(outcome.why, Unstated):
            assert {general_path(p) for p in outcome.why.paths} <= asked


def test_a_mount_is_not_asked_for_what_only_another_has(shipped: Rulebook) -> None:
    asked = {kind: fields_of(template(shipped, kind, "plan")) for kind in KINDS}
    assert "mount.stand.base_width" in asked["floor-stand"]
    assert not any(p.startswith("mount.stand.") for k in KINDS[:1] + KINDS[2:] for p in asked[k])
    assert "host.capacity" not in asked["floor-stand"]
    assert all("host.capacity" in asked[k] for k in ("side-post", "roof-plate", "wall-bracket"))


def test_a_plan_is_not_asked_for_what_only_finished_work_shows(shipped: Rulebook) -> None:
    plan, fitted = (fields_of(template(shipped, "side-post", s)) for s in ("plan", "fitted"))
    assert "records.signatures" in fitted
    assert "records.signatures" not in plan


def test_a_jurisdiction_takes_away_the_questions_of_another(shipped: Rulebook) -> None:
    anywhere, here = (fields_of(template(shipped, "side-post", "plan", p)) for p in (None, "GB"))
    assert here < anywhere


def test_words_that_are_no_choice_are_refused(small_layout: Layout) -> None:
    with pytest.raises(Mistakes):
        begun(small_layout, "hook", "plan", None)
    assert choices_of(small_layout, "mount.kind") == ("side-post", "floor-stand")
    assert choices_of(small_layout, "no.where") == ()
