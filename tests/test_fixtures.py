"""The shipped descriptions: what each says, that each is well formed, and how complete they are.

A description under ``defective`` states in its head which main one it comes from and
what must find what is wrong with it: ``# from: NAME.yaml`` and ``# finds: RULE GRADE``.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml
from jsonschema import Draft202012Validator
from referencing import Registry, Resource
from referencing.jsonschema import DRAFT202012

from checker.checking.implausible import RULE as PLAUSIBLE
from checker.findings import Report
from checker.running import Checker

ROOT = Path(__file__).parents[1]
FIXTURES = ROOT / "fixtures"
SCHEMAS = ROOT / "schemas"

VERDICTS = {
    "turning-cell-side-post": "ready",
    "turning-cell-side-post-fitted": "ready",
    "grinder-roof-plate": "ready",
    "milling-floor-stand-inch": "ready",
    "builder-side-post-transit": "ready",
    "wall-bracket-old-lathe": "confirm",
}
FITTED_VERDICTS = {
    "turning-cell-side-post": "hold",
    "grinder-roof-plate": "ready",
    "milling-floor-stand-inch": "confirm",
}

MAIN = sorted(FIXTURES.glob("*.yaml"))
FITTED = sorted((FIXTURES / "fitted").glob("*.yaml"))
DEFECTIVE = sorted((FIXTURES / "defective").glob("*.yaml"))
EVERY = [*MAIN, *FITTED, *DEFECTIVE]


def named(path: Path) -> str:
    return path.relative_to(FIXTURES).with_suffix("").as_posix()


@cache
def checker() -> Checker:
    return Checker()


@cache
def report(path: Path, fitted: Path | None = None) -> Report:
    return checker().report(str(path), str(fitted) if fitted else None, working=False)


def graded(of: Report, *grades: str) -> set[tuple[str, str, str]]:
    """Rule, subject and grade of every finding of these grades."""
    return {(f.rule, f.subject or "", f.grade.word) for f in of.findings if f.grade.word in grades}


def head(path: Path, key: str) -> list[str]:
    """The lines of a head that start with a key."""
    mark = f"# {key}: "
    lines = path.read_text(encoding="utf-8").splitlines()
    return [line.removeprefix(mark).strip() for line in lines if line.startswith(mark)]


@cache
def validator() -> Draft202012Validator:
    def resource(path: Path) -> tuple[str, Resource[Any]]:
        # References are resolved by where the files stand, as an editor does it.
        contents = json.loads(path.read_text("utf-8"))
        contents.pop("$id", None)
        return path.as_uri(), DRAFT202012.create_resource(contents)

    registry: Registry[Any] = Registry().with_resources(map(resource, SCHEMAS.rglob("*.json")))
    start = {"$ref": (SCHEMAS / "installation.schema.json").as_uri()}
    return Draft202012Validator(start, registry=registry)


class Loader(yaml.SafeLoader):
    """YAML as editors read it today: of the words only true and false are flags, not ``on``."""


Loader.yaml_implicit_resolvers = {
    first: [(tag, shape) for tag, shape in found if tag != "tag:yaml.org,2002:bool"]
    for first, found in yaml.SafeLoader.yaml_implicit_resolvers.items()
}
Loader.add_implicit_resolver("tag:yaml.org,2002:bool", re.compile("^(?:true|false)$"), list("tf"))


@cache
def loaded(path: Path) -> Any:
    return yaml.load(path.read_text(encoding="utf-8"), Loader)


def test_every_main_fixture_has_a_verdict_here() -> None:
    assert {path.stem for path in MAIN} == set(VERDICTS)
    assert {path.name.removesuffix(".fitted.yaml") for path in FITTED} == set(FITTED_VERDICTS)


@pytest.mark.parametrize("path", MAIN, ids=named)
def test_main_fixture_comes_to_its_verdict(path: Path) -> None:
    found = report(path)
    assert str(found.verdict) == VERDICTS[path.stem], graded(found, "stop", "correct", "confirm")


@pytest.mark.parametrize("path", FITTED, ids=named)
def test_what_was_found_on_site_comes_to_its_verdict(path: Path) -> None:
    name = path.name.removesuffix(".fitted.yaml")
    found = report(FIXTURES / f"{name}.yaml", path)
    assert str(found.verdict) == FITTED_VERDICTS[name], graded(found, "stop", "correct", "confirm")


def test_two_readings_on_site_turn_a_ready_plan_into_a_hold() -> None:
    plan = FIXTURES / "turning-cell-side-post.yaml"
    site = FIXTURES / "fitted" / "turning-cell-side-post.fitted.yaml"
    assert str(report(plan).verdict) == "ready"
    assert graded(report(plan, site), "stop", "correct") == {
        ("clearance/crush-gap", "chip conveyor lid", "stop"),
        ("electrical-protection/breaking-capacity", "", "stop"),
    }


@pytest.mark.parametrize("path", DEFECTIVE, ids=named)
def test_what_is_wrong_is_found_and_nothing_graver_beside_it(path: Path) -> None:
    wanted = {tuple(line.split()) for line in head(path, "finds")}
    (parent,) = head(path, "from")
    every = ("stop", "correct", "confirm", "advise")
    found, before = report(path), report(FIXTURES / parent)
    new = graded(found, *every) - graded(before, *every)
    assert wanted, "the head names no rule that has to find it"
    assert wanted <= {(rule, grade) for rule, _, grade in new}
    grave = {(rule, grade) for rule, _, grade in new if grade in ("stop", "correct")}
    assert grave <= wanted


def test_defects_are_spread_over_the_families() -> None:
    families = [line.split("/")[0] for path in DEFECTIVE for line in head(path, "finds")]
    for family, least in (
        ("load", 8),
        ("electrical-protection", 8),
        ("clearance", 3),
        ("work-controls", 3),
        ("handover", 3),
    ):
        assert families.count(family) >= least, family
    assert (
        sum(families.count(f) for f in ("airflow", "drainage", "sealing", "fire", "exposure")) >= 8
    )


@pytest.mark.parametrize("path", [*MAIN, *DEFECTIVE], ids=named)
def test_no_value_is_outside_its_usual_range(path: Path) -> None:
    assert [f.sentence for f in report(path).findings if f.rule == PLAUSIBLE] == []


@pytest.mark.parametrize("path", EVERY, ids=named)
def test_first_line_leads_an_editor_to_the_schema(path: Path) -> None:
    first = path.read_text(encoding="utf-8").splitlines()[0]
    prefix = "# yaml-language-server: $schema="
    assert first.startswith(prefix)
    assert (path.parent / first.removeprefix(prefix)).resolve() == (
        SCHEMAS / "installation.schema.json"
    )


@pytest.mark.parametrize("path", [*MAIN, *DEFECTIVE], ids=named)
def test_description_is_valid_against_the_schema(path: Path) -> None:
    assert [error.message for error in validator().iter_errors(loaded(path))] == []


@pytest.mark.parametrize("path", FITTED, ids=named)
def test_site_file_is_valid_against_the_schema_but_for_what_the_plan_states(path: Path) -> None:
    errors = validator().iter_errors(loaded(path))
    assert [error.message for error in errors if error.validator != "required"] == []


def sections(schema: dict[str, Any], prefix: str = "") -> Iterator[str]:
    """Every section, group of fields and list of a schema."""
    for name, given in schema.get("properties", {}).items():
        path, reference = f"{prefix}{name}", given.get("$ref", "")
        outside = reference.startswith("installation/")
        part = json.loads((SCHEMAS / reference).read_text("utf-8")) if outside else given
        if "properties" in part:
            yield path
            yield from sections(part, f"{path}.")
        elif "properties" in part.get("items", {}):
            yield path
            yield from sections(part["items"], f"{path}.")


def stated_sections(value: Any, prefix: str = "") -> Iterator[str]:
    """The same of a description, as far as anything is stated in them."""
    if isinstance(value, dict):
        for name, part in value.items():
            if isinstance(part, (dict, list)) and part:
                yield f"{prefix}{name}"
                yield from stated_sections(part, f"{prefix}{name}.")
    elif isinstance(value, list):
        for part in value:
            yield from stated_sections(part, prefix)


def test_every_section_of_the_schema_is_in_a_fixture() -> None:
    schema = json.loads((SCHEMAS / "installation.schema.json").read_text("utf-8"))
    stated = {path for fixture in EVERY for path in stated_sections(loaded(fixture))}
    assert sorted(set(sections(schema)) - stated) == []


def test_main_fixture_fills_every_section() -> None:
    schema = json.loads((SCHEMAS / "installation.schema.json").read_text("utf-8"))
    top = set(schema["properties"])
    assert set(loaded(FIXTURES / "turning-cell-side-post.yaml")) == top - {"records"}
    assert set(loaded(FIXTURES / "turning-cell-side-post-fitted.yaml")) == top
