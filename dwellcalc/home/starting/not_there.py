"""The lines of a file about what is not there, each with the evidence where that is only assumed, and about what is not electric."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from dwellcalc.glossary import Glossary
from dwellcalc.home.models import models_for

from .answers import Answer, Answers, Slot, chosen
from .lines import DASH, OFF, STEP, Entry, Item, Line, Part, explained
from .loads import ASSUMED
from .questions import EVIDENCE

HEAD = "none of:"
NOT_ELECTRIC = "not electric"


def absent_lines(names: Mapping[str, Slot], given: Mapping[Slot, Answer], *, empty: bool) -> Iterator[Line]:
    """The lines of what is not there.

    Args:
        names: what is not there, each with the question that says so.
        given: the answers.
        empty: whether the file is to be filled in, so that all of it is a comment.
    """
    if not names:
        return
    mark = OFF if empty else ""
    yield Line(f"{mark}{HEAD}")
    for name, slot in names.items():
        assumed = not empty and given[slot].assumed
        said = f"{{kind: {name}, {EVIDENCE}: {ASSUMED}}}" if assumed else name
        yield Line(f"{mark}{STEP}{DASH}{said}", None if empty else slot)


def not_electric(answers: Answers) -> Entry | None:
    """What burns gas or the like by the choices that were taken, as an entry of the file; nothing where nothing was said to."""
    names: dict[str, Slot] = {}
    for step in answers.asked():
        answer = answers.given.get(step.slot)
        for word in chosen(answer.text) if answer is not None and not answer.assumed else ():
            choice = step.question.choices.get(word)
            if choice is not None and choice.not_electric:
                names.setdefault(choice.not_electric, step.slot)
    notes = explained(answers.starter.explains, NOT_ELECTRIC.replace(" ", "_"))
    return Entry(NOT_ELECTRIC, tuple(names), next(iter(names.values())), notes) if names else None


def _kinds_of(lists: Iterable[Part]) -> list[str]:
    """The kinds of the items of lists, as they are written."""
    items = [item for part in lists for item in part.holds if isinstance(item, Item) and not item.off]
    return [str(entry.value) for item in items for entry in item.entries if entry.key == "kind"]


def area_kinds(lists: Iterable[Part]) -> set[str]:
    """The kinds of the areas of lists, by their names in the glossary."""
    return {each.replace(" ", "_") for each in _kinds_of(lists)}


def load_kinds(lists: Iterable[Part], glossary: Glossary) -> set[str]:
    """The kinds of the loads of lists, by their names in the glossary."""
    names = models_for(glossary).vocabulary.kinds
    return {kind.name for each in _kinds_of(lists) if (kind := names.find(each)) is not None}
