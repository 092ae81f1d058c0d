"""How many examples a campaign makes, and what every attack must end in.

``MISTWRIGHT_FUZZ=deep`` multiplies the examples; ``MISTWRIGHT_FUZZ=deep:40`` says by how much.
Without it the numbers are those that CI can pay for. Each example that ran is counted, and the
counts are printed at the end of a deep campaign.
"""

from __future__ import annotations

import os
import re
import time
from collections import Counter
from collections.abc import Callable
from typing import Any

from hypothesis import HealthCheck, settings

from checker.errors import Mistakes

__all__ = ["DEEP", "RAN", "SLOWEST", "answer_or_refusal", "examples", "told_well"]

_ASKED = os.environ.get("MISTWRIGHT_FUZZ", "")
DEEP = _ASKED.startswith("deep")
_TIMES = int(_ASKED.partition(":")[2] or 20) if DEEP else 1
# A guard against hanging, in seconds of this process's own work, so that a busy machine fails
# nothing; what is usual is a hundredth of it.
_MOST_WORK = 10.0
# The longest message: the mistakes of a whole file, one under the other.
_LONGEST_LINE = 700

RAN: Counter[str] = Counter()
SLOWEST: dict[str, float] = {}


def examples(number: int) -> settings:
    """So many examples, more of them in a deep campaign."""
    return settings(
        max_examples=number * _TIMES,
        deadline=None,
        suppress_health_check=[
            HealthCheck.too_slow,
            HealthCheck.data_too_large,
            HealthCheck.large_base_example,
        ],
        print_blob=True,
    )


def answer_or_refusal(kind: str, attack: Callable[[], Any]) -> tuple[str, Any]:
    """What an attack ended in: ("answer", it) or ("refused", the message); anything else fails.

    kind: under which name the example is counted.
    """
    RAN[kind] += 1
    start = time.process_time()
    try:
        found = "answer", attack()
    except Mistakes as error:
        found = "refused", str(error)
    took = time.process_time() - start
    SLOWEST[kind] = max(SLOWEST.get(kind, 0.0), took)
    assert took < _MOST_WORK, f"{kind}: {took:.1f} s of work for one example"
    if found[0] == "refused":
        told_well(found[1])
    return found


def told_well(message: str) -> None:
    """A message that a person can be shown: it says something, it hides nothing, it ends."""
    assert message.strip()
    assert not re.search(r"[\x00-\x09\x0b-\x1f\x7f-\x9f\u200b-\u200f\u202a-\u202e\u2066-\u2069]", message), ascii(message)  # fmt: skip
    assert "Traceback" not in message
    assert not re.search(r"<[a-z_.]+ object at 0x", message), message
    longest = max(map(len, message.split("\n")))
    assert longest <= _LONGEST_LINE, f"a line of {longest} characters"
