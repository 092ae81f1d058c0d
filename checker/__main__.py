"""``python -m checker`` is the command ``mistwright``, and this is where both start."""

from __future__ import annotations

import gc
import sys

from checker import __version__

__all__ = ["main"]

# New objects before Python looks for circular garbage.
_RARELY = 200_000


def main() -> None:
    """Run the command."""
    if sys.argv[1:] in (["--version"], ["-V"]):
        # Asked by scripts, often; what parses the other options takes four times as long to load.
        print(f"mistwright {__version__}")
        return
    from checker.cli import main as command  # noqa: PLC0415 - see above

    # A command is soon over: looking through a whole rulebook for circular garbage, on the way
    # and once more at the end, would take a fifth of its time.
    gc.set_threshold(_RARELY)
    try:
        command()
    finally:
        gc.freeze()


if __name__ == "__main__":
    main()
