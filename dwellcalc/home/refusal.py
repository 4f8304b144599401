"""What a check of one value raises; the path in the file is put before its words later."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from dwellcalc.placed import Node, Text, described, place_of
from dwellcalc.problems import Message, Place

from . import messages


class Refusal(ValueError):
    """A value that cannot be taken: the message, where it stands, and the words for the braces but the path.

    Args:
        message: what is wrong.
        node: the value.
        of_key: the key itself is what cannot stand here, and is marked.
        others: where other sides stand.
        nearest: the name that was perhaps meant.
        words: what fills the message's braces.
    """

    def __init__(
        self,
        message: Message,
        node: Node,
        *,
        of_key: bool = False,
        others: Iterable[tuple[str, Place]] = (),
        nearest: str = "",
        **words: object,
    ) -> None:
        self.message = message
        self.place = place_of(node)
        self.of_key = of_key
        self.others = tuple(others)
        self.nearest = nearest
        self.words = words
        super().__init__(message.key)


def single_text(node: Any) -> Text:
    """The node as a text that is not empty.

    Raises:
        Refusal: it is another form, or empty.
    """
    if not isinstance(node, Text):
        raise Refusal(messages.WANT_TEXT, node, found=described(node))
    if not node.strip():
        raise Refusal(messages.EMPTY_TEXT, node)
    return node
