"""A part of a submittal that is refused: the message, the text and its words; who reads the whole collects them."""

from __future__ import annotations

from typing import Any

from dwellcalc.placed import Node, place_of
from dwellcalc.problems import Message, Problems


class Refused(Exception):
    """A message about a node of a submittal."""

    def __init__(self, message: Message, node: Node, *, nearest: str = "", **words: str) -> None:
        super().__init__(message.key)
        self.message = message
        self.node = node
        self.nearest = nearest
        self.words = words

    def note(self, problems: Problems) -> None:
        """Add it to the problems that were found."""
        words: dict[str, Any] = dict(self.words)
        problems.add(self.message, place_of(self.node), nearest=self.nearest, **words)
