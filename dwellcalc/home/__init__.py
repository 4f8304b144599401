"""A home file turned into facts; the names that may stand in it come from the glossary."""

from __future__ import annotations

from .asked import Asked
from .reader import Home, home_from_node, home_from_text, read_home, whole_home
from .supplies import Supply

__all__ = ["Asked", "Home", "Supply", "home_from_node", "home_from_text", "read_home", "whole_home"]
