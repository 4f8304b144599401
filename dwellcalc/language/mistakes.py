"""The catalogue of mistakes that submittals hold: what was done, what is right, and the changes that make rules err so.

A catalogue is a file in ``mistakes/``. Each entry stands in one or several ways, lists of changes as in an edition; of these
the first is taken whose pieces an edition holds, and where there is none the entry is not offered in that edition.
"""

from __future__ import annotations

from collections.abc import Mapping as Named
from dataclasses import dataclass, field
from typing import Any

from dwellcalc.language import words
from dwellcalc.language.document_form import LACKS_KEY, FormReader
from dwellcalc.language.documents import Evidence
from dwellcalc.language.rule_files import RuleFiles
from dwellcalc.language.uses import NO_SOURCE
from dwellcalc.placed import Listing, Mapping, Node, Text, as_list, as_mapping, key, place_of
from dwellcalc.problems import Place, Problems, message, nearest_name

MISTAKE_TWICE = message("mistake_twice", 'the mistake "{name}" stands twice', "give one of them another name")

FOLDER = "mistakes"


@dataclass(frozen=True)
class Mistake:
    """A mistake of the catalogue.

    Attributes:
        catalogue: the title of its file.
        done: what was done, as a sentence without a subject's name.
        right: what the section asks, as a sentence; braces quote parameters by document and name.
        send: what to send or to show, or empty.
        send_of_one: the same where its figure is of one load alone, and not of several; empty where that is the same.
        cite: the citation key.
        severity: error, remark or question.
        status: whether code or policy stands behind it.
        ways: lists of changes, of which one is taken.
    """

    id: str
    catalogue: str
    done: Text
    right: Text
    send: str
    cite: Text
    severity: str
    status: str
    evidence: Evidence
    ways: tuple[Listing, ...] = field(repr=False, compare=False)
    place: Place = field(repr=False, compare=False)
    send_of_one: str = ""


def read_mistakes(files: RuleFiles, code: str, sources: Named[str, Any]) -> dict[str, Mistake]:
    """The catalogue for a code, such as ``nec``, by name; what breaks the form is noted among the problems of the files."""
    found: dict[str, Mistake] = {}
    reader = _MistakeReader(files.problems, sources)
    for path in sorted((files.folder / FOLDER).glob("*.yaml")):
        node = files.node(f"{FOLDER}/{path.name}")
        reader.keys(node, words.CATALOGUE_KEYS, "a catalogue of mistakes")
        title = reader.text(node, "catalogue", "catalogue")
        if reader.text(node, "code", "catalogue") == code:
            reader.catalogue(str(title), node, found)
    return found


class _MistakeReader(FormReader):
    def __init__(self, problems: Problems, sources: Named[str, Any]) -> None:
        super().__init__(problems)
        self.sources = sources

    def catalogue(self, title: str, node: Mapping, found: dict[str, Mistake]) -> None:
        """Add the entries of a file to those that were found."""
        for name, entry in as_mapping(self.need(node, "mistakes", "catalogue"), "mistakes", self.problems).items():
            self.check_id(name)
            if name in found:
                self.problems.add(MISTAKE_TWICE, name.place, name=name, others=[("also here", found[name].place)])
                continue
            found[str(name)] = self.mistake(name, as_mapping(entry, name, self.problems), title)

    def mistake(self, name: Text, node: Mapping, title: str) -> Mistake:
        """One entry."""
        self.keys(node, words.MISTAKE_KEYS, "a mistake")
        evidence = self.evidence(node, "mistake", needed=True)
        for source in (evidence.source or "").split():
            if source not in self.sources:
                place = evidence.source.place if evidence.source is not None else name.place
                self.problems.add(NO_SOURCE, place, name=source, nearest=nearest_name(source, self.sources))
        return Mistake(
            str(name),
            title,
            self.text(node, "done", "mistake"),
            self.text(node, "right", "mistake"),
            str(self.optional(node, "send") or ""),
            self.text(node, "cite", "mistake"),
            str(self.word(self.text(node, "severity", "mistake"), words.SEVERITIES)),
            str(self.word(self.text(node, "status", "mistake"), words.STATUSES)),
            evidence,
            self.ways(node),
            name.place,
            str(self.optional(node, "send_of_one") or ""),
        )

    def ways(self, node: Mapping) -> tuple[Listing, ...]:
        """The lists of changes, of which one is taken."""
        named = [name for name in ("changes", "either") if name in node]
        if len(named) != 1:
            self.problems.add(LACKS_KEY, place_of(node), what="a mistake", key="changes")
            return ()
        found: Node = node[key(named[0])]
        listed = as_list(found, named[0], self.problems)
        if named[0] == "changes":
            return (listed,)
        return tuple(as_list(way, "a way", self.problems) for way in listed)


def code_of(edition: str) -> str:
    """The code that an edition is one of."""
    return edition.partition("/")[0]
