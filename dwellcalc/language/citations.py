"""Citation keys with their sections, and sources with what was seen of them."""

from __future__ import annotations

from dataclasses import dataclass

from dwellcalc.language import words
from dwellcalc.placed import Mapping, Text, as_mapping, key
from dwellcalc.problems import Place, Problems, message

CITATION_FORM = message("citation_form", "a citation has a section and a grade of confidence")
SOURCE_FORM = message("source_form", "a source has title, publisher, year and seen")

SOURCE_KEYS = ("title", "publisher", "year", "seen")


@dataclass(frozen=True)
class Citation:
    """A citation key's section in an edition, and how sure it is."""

    section: Text
    confidence: Text
    place: Place


@dataclass(frozen=True)
class SourceEntry:
    """A source: what it is, and what was seen of it."""

    title: str
    publisher: str
    year: str
    seen: str


def read_citations(node: Mapping, problems: Problems) -> dict[str, Citation]:
    """The citations of an edition by key; what breaks the form is noted, and its key stands in for it."""
    found = {}
    for name, entry in node.items():
        parts = as_mapping(entry, f'the citation "{name}"', problems)
        section, grade = parts.get(key("section")), parts.get(key("confidence"))
        if not isinstance(section, Text) or grade not in words.GRADES or len(parts) != 2:
            problems.add(CITATION_FORM, name.place)
            found[str(name)] = Citation(name, name, name.place)
            continue
        found[str(name)] = Citation(section, parts[key("confidence")], name.place)
    return found


def read_sources(node: Mapping, problems: Problems) -> dict[str, SourceEntry]:
    """The sources by name; what breaks the form is noted."""
    found = {}
    for name, entry in as_mapping(node.get(key("sources"), Mapping()), "sources", problems).items():
        parts = as_mapping(entry, name, problems)
        if set(parts) != set(SOURCE_KEYS):
            problems.add(SOURCE_FORM, name.place)
            found[str(name)] = SourceEntry(*SOURCE_KEYS)
            continue
        found[str(name)] = SourceEntry(*(str(parts[key(part)]) for part in SOURCE_KEYS))
    return found
