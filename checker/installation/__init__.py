"""The description of an installation: read strictly, checked, bound to SI values."""

from __future__ import annotations

from checker.installation.binding import bind
from checker.installation.fields import Field, Layout, Section
from checker.installation.record import Installation, Record, Stated
from checker.installation.schema import installation_layout

__all__ = [
    "Field",
    "Installation",
    "Layout",
    "Record",
    "Section",
    "Stated",
    "bind",
    "installation_layout",
]
