"""A description filled in by question and answer, on a terminal or through a pipe."""

from __future__ import annotations
