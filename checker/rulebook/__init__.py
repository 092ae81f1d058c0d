"""The rulebook: rules, derived values, tables and sources, read and compiled."""

from __future__ import annotations

from checker.rulebook.loading import load_rulebook
from checker.rulebook.model import Basis, Rule, Rulebook

__all__ = ["Basis", "Rule", "Rulebook", "load_rulebook"]
