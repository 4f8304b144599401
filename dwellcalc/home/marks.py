"""Marks in a home file that are still to be replaced."""

from __future__ import annotations

import re

from dwellcalc.placed import Mapping, Node, Text
from dwellcalc.problems import Problems, message

TO_BE_FILLED = message(
    "home_to_be_filled", '"{text}" is still to be filled in', "write the value in its place, or take out what there is not"
)
MARK = re.compile(r"<[^<>]*>")


def refuse_marks(node: Node, problems: Problems) -> None:
    """Note every text that is still a mark."""
    waiting: list[Node] = [node]
    while waiting:  # the last is the next, so that they are told in the order of the file
        each = waiting.pop()
        if isinstance(each, Text):
            if MARK.fullmatch(each):
                problems.add(TO_BE_FILLED, each.place, text=each)
        else:
            waiting.extend([*(each.values() if isinstance(each, Mapping) else each)][::-1])
