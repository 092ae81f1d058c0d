"""The hook that checks changed descriptions before each commit; the one place it is written.

python -m checker.audit.hook > .pre-commit-hooks.yaml
"""

from __future__ import annotations

import json
import sys

__all__ = ["HOOKS", "hook_file"]

# In the order in which the file has them. A site file alone leads to its plan, so that a
# hook that is given some of the files only judges the same jobs.
HOOKS: tuple[dict[str, str], ...] = (
    {
        "id": "mistwright",
        "name": "check the fitting of mist extraction units",
        "description": "Checks each description below a folder 'jobs' against the rules; set 'files' for another place.",
        "entry": "mistwright audit --annotate",
        "language": "python",
        "files": r"(^|/)jobs/.*\.(yaml|yml|json)$",
    },
)


def hook_file() -> str:
    """The whole file, for the root of the repository."""
    lines = []
    for hook in HOOKS:
        mark = "- "
        for key, value in hook.items():
            lines.append(f"{mark}{key}: {json.dumps(value)}\n")
            mark = "  "
    return "".join(lines)


if __name__ == "__main__":
    sys.stdout.write(hook_file())
