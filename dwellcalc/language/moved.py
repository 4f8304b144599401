"""What an edition takes over from the one before: articles that it renumbers, and how sure it is of what it does not state anew."""

from __future__ import annotations

import re
from collections.abc import Iterator

from dwellcalc.language import words
from dwellcalc.language.applied import Applied
from dwellcalc.language.document_form import BAD_GRADE
from dwellcalc.placed import Listing, Mapping, Node, Text, as_mapping, as_text, key, text_at
from dwellcalc.problems import Problems, message, nearest_name

RENUMBERED_FORM = message(
    "renumbered_form", '"{old}" to "{new}" renumbers no article', "an article by its number, and another number that it moves to"
)
RENUMBERED_TWICE = message("renumbered_twice", 'two articles would be "{new}"', "all that an edition renumbers moves at once")
RENUMBERS_NOTHING = message(
    "renumbers_nothing", 'no citation of the edition before stands in the article "{old}"', "citations so far are in: {known}"
)
CARRIED_FIRST = message("carried_first", 'the first edition has nothing before it, so that "{key}" says nothing')

ARTICLE = re.compile(r"(?<![\w.(])(?P<article>\d+(?=\.\d)|(?<=Article )\d+\b)")  # of a section, or named alone
NUMBER = re.compile(r"\d+")
RENUMBERED_SET = "Articles renumbered"


def renumber(title: str, edition: Mapping, nodes: dict[str, Node], problems: Problems) -> list[Applied]:
    """Move articles: every section number in them moves, and is graded memory until a change states more.

    Args:
        title: the edition's own title.
        edition: its node; ``renumbered`` maps the number of an article to its new one. All move at once.
        nodes: the documents so far; their ``citations`` are changed in place.
        problems: where what is wrong is noted.

    Returns:
        What moved, as changes.
    """
    if "renumbered" not in edition or _is_first(edition, "renumbered", problems):
        return []
    moves = _moves(as_mapping(edition[key("renumbered")], "renumbered", problems), problems)
    citations = as_mapping(nodes["citations"], "citations", problems)
    standing: set[str] = set()
    applied = []
    for name, entry in citations.items():
        section = entry.get(key("section")) if isinstance(entry, Mapping) else None
        if not isinstance(section, Text) or "confidence" not in entry:
            continue  # it is refused where citations are read
        articles = [match["article"] for match in ARTICLE.finditer(section)]
        standing.update(articles)
        by = next((new for old, new in moves.items() if old in articles), None)
        if by is not None:
            moved = ARTICLE.sub(lambda match: str(moves.get(match["article"], match["article"])), section)
            address = f"citations.{name}.section"
            applied.append(
                Applied(title, RENUMBERED_SET, "change", address, str(section), moved, "", "", "", words.GRADES[-1], by.place)
            )
            entry[entry.key("section")] = text_at(moved, by)
            entry[entry.key("confidence")] = text_at(words.GRADES[-1], by)
    for old, new in moves.items():
        if new in standing and new not in moves:
            problems.add(RENUMBERED_TWICE, new.place, new=new)
        if old not in standing:
            problems.add(
                RENUMBERS_NOTHING, new.place, old=old, known=", ".join(sorted(standing)), nearest=nearest_name(old, standing)
            )
    return applied


def _moves(node: Mapping, problems: Problems) -> dict[str, Text]:
    """The old number of each article -> the new one, those that break the form noted and left out."""
    moves: dict[str, Text] = {}
    for old, entry in node.items():
        new = as_text(entry, old, problems)
        if not NUMBER.fullmatch(old) or not NUMBER.fullmatch(new) or old == new:
            problems.add(RENUMBERED_FORM, new.place, old=old, new=new)
        elif new in moves.values():
            problems.add(RENUMBERED_TWICE, new.place, new=new)
        else:
            moves[str(old)] = new
    return moves


def carry_over(edition: Mapping, nodes: dict[str, Node], problems: Problems) -> None:
    """Grade anew what an edition takes over: its texts may not have been seen, however sure the edition before was.

    Args:
        edition: its node; ``carried_over`` is the grade of every value and section number that no change states. Choices of
            the project (``status: policy``) keep theirs.
        nodes: the documents so far, changed in place.
        problems: where what is wrong is noted.
    """
    if words.CARRIED_OVER not in edition or _is_first(edition, words.CARRIED_OVER, problems):
        return
    grade = as_text(edition[key(words.CARRIED_OVER)], words.CARRIED_OVER, problems)
    if grade not in words.GRADES:
        known, near = ", ".join(words.GRADES), nearest_name(grade, words.GRADES)
        problems.add(BAD_GRADE, grade.place, grade=grade, known=known, nearest=near)
        return
    for name, node in nodes.items():
        for graded in _graded(node) if name != words.ASSESSMENT else ():
            graded[graded.key("confidence")] = grade


def _graded(node: Node) -> Iterator[Mapping]:
    """Everything in a document that states how sure it is, but choices of the project."""
    if isinstance(node, Mapping):
        if "confidence" in node and node.get(key("status")) != words.POLICY:
            yield node
        for each in node.values():
            yield from _graded(each)
    elif isinstance(node, Listing):
        for each in node:
            yield from _graded(each)


def _is_first(edition: Mapping, name: str, problems: Problems) -> bool:
    if "based_on" not in edition:
        problems.add(CARRIED_FIRST, edition.key(name).place, key=name)
        return True
    return False
