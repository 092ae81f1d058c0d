"""The desk: a local page to describe an installation on, with the findings beside it."""

from __future__ import annotations
