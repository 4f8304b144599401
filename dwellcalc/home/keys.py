"""Keys of a home file, written with spaces, hyphens or underscores, as the models know them."""

from __future__ import annotations

from dwellcalc.placed import Listing, Mapping, Node, Text, part_of, text_at
from dwellcalc.problems import Problems

from . import messages
from .errors import STEP, item_name

OPENING, CLOSING = "\u201c\u201e\u2018\u00ab", "\u201d\u201c\u2019\u00bb"
OPEN = "interpretations"  # its keys are names of a rule set, taken as they stand


def with_known_keys(root: Mapping, problems: Problems) -> Mapping:
    """The same nodes with underscores in their keys; a key in two spellings is a problem."""
    return _renamed(root, (), problems)


def _renamed(node: Mapping, path: tuple[str, ...], problems: Problems) -> Mapping:
    made = Mapping()
    made.place = node.place
    for key, value in node.items():
        known = text_at("_".join(key.replace("-", " ").split()), key)
        if known in made:
            others = [("first here", made.key(known).place)]
            problems.add(messages.SAME_KEY, key.place, others=others, path=STEP.join([*path, key]))
        made[known] = value if known == OPEN else _value(value, (*path, key), problems)
    return made


def _unquoted(text: Text) -> Text:
    """A text without the quotes of a word processor around it."""
    curly = len(text) > 1 and text[0] in OPENING and text[-1] in CLOSING
    return part_of(text, 1, text[1:-1].strip()) if curly else text


def _value(node: Node, path: tuple[str, ...], problems: Problems) -> Node:
    if isinstance(node, Mapping):
        return _renamed(node, path, problems)
    if isinstance(node, Text):
        return _unquoted(node)
    made = Listing()
    made.place = node.place
    made.extend(_value(item, (*path, item_name(item, position)), problems) for position, item in enumerate(node))
    return made
