"""Pieces of documents as sets of changes see them: on one line, a group in its section, the sections of a document."""

from __future__ import annotations

from dwellcalc.language import words
from dwellcalc.placed import Listing, Mapping, Node, key, place_of


class Held(Mapping):
    """A group alone, with the section that it stands in."""

    __slots__ = ("place_in",)
    place_in: Mapping


def held(section: Mapping, name: str) -> Held:
    """A group of a section alone."""
    made = Held({section.key(name): section[key(name)]})
    made.place = place_of(section)
    made.place_in = section
    return made


def sections_in(document: Mapping) -> list[str]:
    """The sections of names that a document has."""
    return [each for each in words.SECTIONS if each in document and isinstance(document[key(each)], Mapping)]


def shown(node: Node | None) -> str:
    """A piece on one line."""
    if node is None:
        return ""
    if isinstance(node, Mapping):
        return ", ".join(f"{name}: {shown(value)}" for name, value in node.items())
    if isinstance(node, Listing):
        return ", ".join(shown(item) for item in node)
    return str(node)


def pieces_of(node: Node | None) -> tuple[tuple[str, str], ...]:
    """The pieces of a mapping by their names, a list of them as one to a line; none of anything else."""
    if not isinstance(node, Mapping):
        return ()
    return tuple(
        (str(name), "\n".join(map(_case, value)) if isinstance(value, Listing) else shown(value)) for name, value in node.items()
    )


def _case(node: Node) -> str:
    """A case as a sentence has it: what then is, and when."""
    if not isinstance(node, Mapping) or not {"then", "otherwise"} & set(node):
        return shown(node)
    if "otherwise" in node:
        return f"otherwise {shown(node[key('otherwise')])}"
    return f"{shown(node[key('then')])} where {shown(node.get(key('when')))}"
