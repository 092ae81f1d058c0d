"""Where the shipped rules and schemas stand.

A checkout (and so an editable install) uses the folders at its top; an installed
wheel carries copies of both inside the package.
"""

from __future__ import annotations

from pathlib import Path

__all__ = ["RULES", "SCHEMAS"]

_PACKAGE = Path(__file__).resolve().parent
_SHIPPED = _PACKAGE / "_shipped"
_TOP = _SHIPPED if _SHIPPED.is_dir() else _PACKAGE.parent

RULES = _TOP / "rules"
SCHEMAS = _TOP / "schemas"
