"""The campaigns of this folder driven by coverage: an optional job, no test.

    pip install atheris
    python tests/adversaries/fuzz_with_atheris.py description -max_total_time=600

The first word names the campaign; all that follows goes to atheris. Every campaign is a test
of hypothesis in test_any_bytes.py or test_the_rule_language.py, fed by ``fuzz_one_input``.
"""

from __future__ import annotations

import importlib
import sys
from pathlib import Path

HERE = Path(__file__).resolve().parent
ROOT = HERE.parents[1]
sys.path[:0] = [str(ROOT), str(HERE), str(ROOT / "tests" / "rules")]

# Campaign: its module and its test.
CAMPAIGNS = {
    "description": ("test_any_bytes", "test_as_a_description"),
    "mutated-description": ("test_any_bytes", "test_a_mutated_description"),
    "site-file": ("test_any_bytes", "test_as_a_site_file"),
    "rule": ("test_any_bytes", "test_a_mutated_rule"),
    "table": ("test_any_bytes", "test_a_mutated_table"),
    "overlay": ("test_any_bytes", "test_a_mutated_overlay"),
    "memory": ("test_any_bytes", "test_as_a_memory_of_audits"),
    "part": ("test_any_bytes", "test_as_an_earlier_audit_and_as_a_part"),
    "formula": ("test_the_rule_language", "test_a_number"),
    "condition": ("test_the_rule_language", "test_a_condition"),
}


def main() -> None:
    """Run one campaign until atheris stops it or it finds something."""
    if len(sys.argv) < 2 or sys.argv[1] not in CAMPAIGNS:
        sys.exit(f"name a campaign: {', '.join(CAMPAIGNS)}")
    try:
        import atheris  # type: ignore[import-not-found] # noqa: PLC0415 - optional
    except ImportError:
        sys.exit(
            "atheris is not installed. It needs Linux and a Python it knows: pip install atheris"
        )
    module, test = CAMPAIGNS[sys.argv.pop(1)]
    with atheris.instrument_imports(include=["checker"]):
        found = getattr(importlib.import_module(module), test)
    atheris.Setup(sys.argv, atheris.instrument_func(found.hypothesis.fuzz_one_input))
    atheris.Fuzz()


if __name__ == "__main__":
    main()
