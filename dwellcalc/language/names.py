"""What each bare name means in a document: one name, one thing, wherever it is visible."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Union

from dwellcalc.glossary import Glossary
from dwellcalc.language.documents import Document, Given, Group, Interpretation, Line, Parameter, Run
from dwellcalc.language.tables import Table
from dwellcalc.placed import Text
from dwellcalc.problems import Place, Problems, message, nearest_name

NAME_TWICE = message(
    "name_twice", 'the name "{name}" is used for two things that are visible here', "give one of them another name"
)
NAME_OF_FIELD = message(
    "name_of_field", 'the name "{name}" is already a field or a collection of the glossary', "give it another name"
)
NO_PART = message("no_part", 'there is no part "{name}"', "parts stand in files of that name beside the methods")

Thing = Union[Line, Parameter, Interpretation, Group, Table, Run, Given]


@dataclass(frozen=True)
class Meaning:
    """A thing and the document that holds it."""

    thing: Thing
    document: Document

    @property
    def address(self) -> str:
        """The address of the thing, for changes: the file's name and its own."""
        return f"{self.document.name}.{self.thing.name}"


def things_of(document: Document) -> Iterator[Thing]:
    """Everything that a document names."""
    sections = (
        document.given,
        document.parameters,
        document.interpretations,
        document.groups,
        document.tables,
        document.runs,
        document.lines,
    )
    for section in sections:
        yield from section.values()


class Names:
    """The names that are visible in each document of a rule set."""

    def __init__(self, documents: dict[str, Document], glossary: Glossary, problems: Problems) -> None:
        self.documents = documents
        self.glossary = glossary
        self.problems = problems
        self.reserved = set(glossary.collections) | set(glossary.objects)
        for collection in glossary.collections.values():
            self.reserved.update(collection.fields)
        self.visible: dict[str, dict[str, Meaning]] = {name: self.seen_in(one) for name, one in documents.items()}

    def seen_in(self, document: Document) -> dict[str, Meaning]:
        """Own names and those of the parts that the document uses."""
        seen: dict[str, Meaning] = {}
        for each in (document, *self.used(document)):
            for thing in things_of(each):
                name = str(thing.name)
                if each is document and name in self.reserved:
                    self.problems.add(NAME_OF_FIELD, thing.name.place, name=name)
                if name in seen:
                    first = seen[name].thing.name.place
                    self.problems.add(NAME_TWICE, thing.name.place, name=name, others=[("also here", first)])
                seen.setdefault(name, Meaning(thing, each))
        return seen

    def used(self, document: Document) -> list[Document]:
        """The parts that a document uses."""
        found = []
        for name in document.uses:
            part = self.documents.get(name)
            if part is None or part.kind != "part":
                parts = [each for each, one in self.documents.items() if one.kind == "part"]
                self.problems.add(NO_PART, name.place, name=name, nearest=nearest_name(name, parts))
            else:
                found.append(part)
        return found

    def all_documents(self, method: Document) -> tuple[Document, ...]:
        """The parts that a method rests on, each before its users, and the method itself last."""
        found: list[Document] = []
        begun: list[Document] = []

        def add(document: Document) -> None:
            if document in begun:
                return
            begun.append(document)
            for part in self.used_known(document):
                add(part)
            found.append(document)

        add(method)
        return tuple(found)

    def used_known(self, document: Document) -> list[Document]:
        """The documents that a document uses, as far as they exist."""
        return [self.documents[name] for name in document.uses if name in self.documents]

    def nearest(self, name: str, document: Document, more: Iterable[str] = ()) -> str:
        """The visible name most like this one."""
        return nearest_name(name, {*self.visible[str(document.name)], *more})


def place_in(text: Text, start: int, end: int) -> Place:
    """The place of a part of a formula."""
    return text.at(start, end - start)
