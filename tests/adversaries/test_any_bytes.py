"""Any bytes, and any honest file made dishonest, end in an answer or in one clear message."""

from __future__ import annotations

import json
from pathlib import Path
from random import Random
from typing import Any

import pytest
from attacks import (
    PLAN,
    compared,
    described,
    found_on_site,
    honest_lines,
    honest_memory,
    merged,
    overlaid,
    recalled,
    remembered,
    reported,
    ruled,
    tabled,
    warm,
    worked_out,
)
from campaign import answer_or_refusal, examples
from hypothesis import example, given
from hypothesis import strategies as st
from mutations import descriptions, mutated, rules, site_files, spoilt

randoms = st.randoms(use_true_random=False)
any_bytes = st.one_of(
    st.binary(max_size=300),
    st.text(alphabet="job:mount \n-[]{}'\"&*!?#|>,0123456789kg~\t", max_size=300).map(str.encode),
)
RULES = [(n, t) for n, t in rules() if n.partition("/")[0] not in ("derived", "tables", "local", "sources", "families.yaml")]  # fmt: skip


@pytest.fixture(autouse=True, scope="module")
def _warm() -> None:
    warm()


# --- any bytes -------------------------------------------------------------------


@given(any_bytes)
@examples(60)
def test_as_a_description(data: bytes) -> None:
    answer_or_refusal("bytes as a description", lambda: described(data))


@given(any_bytes)
@examples(60)
def test_as_a_site_file(data: bytes) -> None:
    answer_or_refusal("bytes as a site file", lambda: found_on_site(PLAN, data))


@given(any_bytes)
@examples(60)
def test_as_a_rule(data: bytes) -> None:
    answer_or_refusal("bytes as a rule", lambda: ruled(data, "load/hostile"))


@given(any_bytes)
@examples(60)
def test_as_a_table(data: bytes) -> None:
    answer_or_refusal("bytes as a table", lambda: tabled(data, "hostile"))


@given(any_bytes)
@examples(60)
def test_as_a_derived_value(data: bytes) -> None:
    answer_or_refusal("bytes as a derived value", lambda: worked_out(data, "hostile"))


@given(any_bytes)
@examples(60)
def test_as_an_overlay(data: bytes) -> None:
    answer_or_refusal("bytes as an overlay", lambda: overlaid(data))


@given(any_bytes)
@examples(40)
@example(b"")
@example(b"SQLite format 3\0")
def test_as_a_memory_of_audits(data: bytes) -> None:
    answer_or_refusal("bytes as a memory", lambda: recalled(data))


@given(any_bytes)
@examples(60)
@example(b"")
@example(b"\xff")
@example(b"null\n")
@example(b"1\n")
@example(b"[]\n")
@example(b'{"totals": null}\n')
@example(b'{"totals": {"rule_digests": 1}}\n')
@example(b"[" * 3000)
@example(b'{"a":' * 3000)
@example(b'{"format": ' + b"[" * 3000)
def test_as_an_earlier_audit_and_as_a_part(data: bytes) -> None:
    answer_or_refusal("bytes as an earlier audit", lambda: compared(data))
    answer_or_refusal("bytes as a part", lambda: merged(data, "jsonl"))


# --- honest files, mutated -------------------------------------------------------


@given(st.sampled_from(descriptions()), randoms)
@examples(40)
def test_a_mutated_description(honest: tuple[str, str], random: Random) -> None:
    data = mutated(honest[1], random).encode("utf-8", "surrogatepass")
    answer_or_refusal("mutated descriptions", lambda: described(data))


@pytest.mark.slow
@given(st.sampled_from(descriptions()), randoms)
@examples(10)
def test_a_mutated_description_in_every_output(honest: tuple[str, str], random: Random) -> None:
    data = mutated(honest[1], random, most=1).encode("utf-8", "surrogatepass")
    answer_or_refusal("mutated descriptions in every output", lambda: reported(data))


@given(st.sampled_from(descriptions()), randoms)
@examples(40)
def test_a_description_with_bytes_spoilt(honest: tuple[str, str], random: Random) -> None:
    data = spoilt(honest[1].encode(), random)
    answer_or_refusal("spoilt descriptions", lambda: described(data))


@given(st.sampled_from(site_files()), randoms)
@examples(40)
def test_a_mutated_site_file(honest: tuple[str, str], random: Random) -> None:
    data = mutated(honest[1], random).encode("utf-8", "surrogatepass")
    answer_or_refusal("mutated site files", lambda: found_on_site(PLAN, data))


@given(st.sampled_from(RULES), randoms)
@examples(60)
def test_a_mutated_rule(honest: tuple[str, str], random: Random) -> None:
    data = mutated(honest[1], random).encode("utf-8", "surrogatepass")
    name = honest[0].removesuffix(".yaml")
    answer_or_refusal("mutated rules", lambda: ruled(data, name))


@given(st.sampled_from(rules("tables/*.yaml")), randoms)
@examples(60)
def test_a_mutated_table(honest: tuple[str, str], random: Random) -> None:
    data = mutated(honest[1], random).encode("utf-8", "surrogatepass")
    answer_or_refusal("mutated tables", lambda: tabled(data, Path(honest[0]).stem))


@given(st.sampled_from(rules("derived/*.yaml")), randoms)
@examples(60)
def test_a_mutated_derived_value(honest: tuple[str, str], random: Random) -> None:
    data = mutated(honest[1], random).encode("utf-8", "surrogatepass")
    answer_or_refusal("mutated derived values", lambda: worked_out(data, Path(honest[0]).stem))


@given(st.sampled_from(rules("local/*.yaml")), randoms)
@examples(40)
def test_a_mutated_overlay(honest: tuple[str, str], random: Random) -> None:
    data = mutated(honest[1], random).encode("utf-8", "surrogatepass")
    answer_or_refusal("mutated overlays", lambda: overlaid(data))


# --- what earlier runs left, spoilt ----------------------------------------------


@given(randoms)
@examples(40)
def test_a_spoilt_memory_never_gives_a_wrong_result(random: Random) -> None:
    data = spoilt(honest_memory(), random, most=30)
    answer_or_refusal("spoilt memories", lambda: recalled(data))


@given(randoms, st.sampled_from(["text", "json", "jsonl", "csv", "junit", "sarif"]))
@examples(40)
def test_an_audit_with_bytes_spoilt(random: Random, form: str) -> None:
    data = spoilt(honest_lines(), random)
    answer_or_refusal("spoilt earlier audits", lambda: compared(data))
    answer_or_refusal("spoilt parts", lambda: merged(data, form))


_ODD: tuple[Any, ...] = (
    None, True, 0, -1, 1e308, float("nan"), float("inf"), "", "x", "stop", "nan", [], [None], {}, {"x": 1}, [[]], "\x1b[31m", "\ud800", 10**400, "a" * 5000,
)  # fmt: skip


@given(randoms, st.sampled_from(["text", "json", "jsonl", "csv", "junit", "sarif"]))
@examples(80)
def test_an_audit_with_values_changed(random: Random, form: str) -> None:
    lines = honest_lines().decode().splitlines()
    i = random.randrange(len(lines))
    changed = json.loads(lines[i])
    for _ in range(random.randint(1, 3)):
        _change(changed, random)
    lines[i] = json.dumps(changed)
    data = ("\n".join(lines) + "\n").encode()
    answer_or_refusal("changed earlier audits", lambda: compared(data))
    answer_or_refusal("changed parts", lambda: merged(data, form))


def _change(tree: Any, random: Random) -> None:
    """Put something odd at some place of a tree, take something out, or double it."""
    places = list(_places(tree))
    if not places:
        return
    box, key = random.choice(places)
    what = random.randrange(4)
    if what == 0:
        del box[key]
    elif what == 1 and isinstance(box, list):
        box.append(box[key])
    else:
        box[key] = random.choice(_ODD)


def _places(tree: Any) -> Any:
    inner = tree.items() if isinstance(tree, dict) else enumerate(tree) if isinstance(tree, list) else ()  # fmt: skip
    for key, value in list(inner):
        yield tree, key
        yield from _places(value)


@given(randoms)
@examples(15)
def test_a_spoilt_cache_gives_the_same_rules(random: Random) -> None:
    """A compiled rulebook of an earlier run is taken as it was, or made again."""

    def spoil(home: Path) -> None:
        files = sorted(p for p in home.rglob("*") if p.is_file())
        path = random.choice(files)
        path.write_bytes(spoilt(path.read_bytes(), random))

    kind, found = answer_or_refusal("spoilt caches", lambda: remembered(spoil))
    assert kind == "answer"
    assert [rule.name for rule in found.rules] == ["load/capacity"]


@pytest.mark.parametrize("form", ["text", "json", "jsonl", "csv", "junit", "sarif"])
@pytest.mark.parametrize("gone", ["stop", "met"])
def test_an_audit_that_does_not_count_a_grade(gone: str, form: str) -> None:
    """Found by the campaign: a table of grades wants every one of them."""
    lines = honest_lines().decode().splitlines()
    changed = json.loads(lines[0])
    del changed["counts"][gone]
    data = ("\n".join([json.dumps(changed), *lines[1:]]) + "\n").encode()
    kind, told = answer_or_refusal("changed parts", lambda: merged(data, form))
    assert kind == "refused"
    assert "the counts are not of every grade" in told
