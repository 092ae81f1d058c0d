"""Checks the fitting of an oil-mist extraction unit to a machine tool."""

from __future__ import annotations

__all__ = ["__version__"]

__version__ = "0.1.0"
