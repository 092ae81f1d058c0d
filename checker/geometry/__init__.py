"""Where everything stands, in metres, worked out from the description alone."""

from __future__ import annotations

from checker.geometry.building import geometry_of

__all__ = ["geometry_of"]
