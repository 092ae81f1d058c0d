"""The check of one description is a function of bytes that any pool or cluster can map."""

from __future__ import annotations

import pickle
from concurrent.futures import ProcessPoolExecutor
from functools import partial
from multiprocessing import get_context
from pathlib import Path

import pytest
from audits import FIXTURES

from checker.audit.judging_jobs import judge_bytes
from checker.running import Checker

PATHS = [FIXTURES / f"{n}.yaml" for n in ("wall-bracket-old-lathe", "grinder-roof-plate")]


def test_it_is_picklable_and_the_same_on_the_other_side() -> None:
    check = partial(judge_bytes, Checker())
    again = pickle.loads(pickle.dumps(check))
    data = PATHS[0].read_bytes()
    assert again(data, "a.yaml") == check(data, "a.yaml")
    # What is sent is small: the rules are read where the work is done.
    assert len(pickle.dumps(check)) < 1_000
    assert pickle.loads(pickle.dumps(check(data, "a.yaml"))) == check(data, "a.yaml")
    assert check(b"\xff", "a.yaml").verdict == "unread"


def test_other_rules_there_are_no_silent_answer(monkeypatch: pytest.MonkeyPatch) -> None:
    sent = pickle.dumps(Checker())
    name = "_checker_there"
    import checker.running  # noqa: PLC0415

    checker.running._checker_there.cache_clear()
    other = type("Other", (), {"digest": "0" * 64, "roots": (Path("there"),)})()
    monkeypatch.setattr(checker.running, "Rulebooks", lambda _: other)
    with pytest.raises(Exception, match="not those of the process that sent the work"):
        pickle.loads(sent)
    assert name in sent.decode("latin-1")
    checker.running._checker_there.cache_clear()


@pytest.mark.slow
def test_a_pool_that_starts_from_nothing() -> None:
    check = partial(judge_bytes, Checker())
    expected = [check(p.read_bytes(), p.name) for p in PATHS]
    with ProcessPoolExecutor(1, get_context("spawn")) as pool:
        names = [p.name for p in PATHS]
        assert list(pool.map(check, [p.read_bytes() for p in PATHS], names)) == expected


@pytest.mark.slow
@pytest.mark.filterwarnings("ignore")
def test_a_cluster() -> None:
    distributed = pytest.importorskip("distributed", exc_type=ImportError)
    check = partial(judge_bytes, Checker())
    expected = [check(p.read_bytes(), p.name) for p in PATHS]
    with (
        distributed.LocalCluster(
            n_workers=2, threads_per_worker=1, dashboard_address=None, protocol="tcp"
        ) as cluster,
        distributed.Client(cluster) as client,
    ):
        asked = client.map(check, [p.read_bytes() for p in PATHS], [p.name for p in PATHS])
        assert client.gather(asked) == expected
