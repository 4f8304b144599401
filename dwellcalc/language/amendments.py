"""Local amendments: dated overlays of an edition, where they stand, and what each says of itself.

Those of a folder of rules stand in ``amendments/JURISDICTION/NAME/VERSION.yaml``; a file of anybody's own may stand anywhere.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path

from dwellcalc.language import words
from dwellcalc.language.document_form import FormReader
from dwellcalc.language.rule_files import RuleFiles
from dwellcalc.placed import Listing, Mapping, Node, Text, as_mapping, as_text, is_day, key, place_of
from dwellcalc.problems import Place, Problems, message
from dwellcalc.reading import read_text

AMENDMENT_DATE = message("amendment_date", '"{text}" is not a date', "write it as year-month-day, all in digits")
AMENDMENT_DAYS = message("amendment_days", "this amendment ends before it begins")
AMENDMENT_NO_EDITION = message("amendment_no_edition", 'there is no edition "{name}" to amend', "editions: {known}")

FOLDER = "amendments"
NOT_KNOWN = "not known"


@dataclass(frozen=True)
class Amendment:
    """What an amendment says of itself.

    Attributes:
        id: its path in the folder of amendments, or the name of a file of anybody's own.
        amends: the editions that it amends.
        begins, ends: the first and the last day that it is in force, year-month-day; empty where open or not known.
        dates_confidence: how sure these days are.
        fixed_by: the date of a project that decides whether it applies.
        source: keys of sources.
        not_expressed: what of the law it does not express.
        text: the whole file.
        sources: sources that it brings itself, as written.
    """

    id: str
    title: str
    jurisdiction: str
    amends: tuple[Text, ...]
    begins: str
    ends: str
    dates_confidence: str
    fixed_by: str
    status: str
    source: str
    not_expressed: tuple[str, ...]
    path: Path
    outside: bool
    text: str = field(repr=False)
    sets: Node = field(repr=False, compare=False)
    sources: Mapping = field(repr=False, compare=False)
    place: Place = field(repr=False, compare=False)

    @property
    def name(self) -> str:
        """Its id without the version: what several versions share."""
        return self.id if self.outside else self.id.rpartition("/")[0]

    @property
    def version(self) -> str:
        """Which of several versions it is."""
        return self.id.rpartition("/")[-1]

    @property
    def dated(self) -> bool:
        """Whether a day is known from or until which it is in force."""
        return bool(self.begins or self.ends)

    def in_force(self, day: str) -> bool:
        """Whether it is in force on a day, year-month-day."""
        return (not self.begins or self.begins <= day) and (not self.ends or day <= self.ends)

    def days(self) -> str:
        """When it is in force, in words."""
        if not self.dated:
            return "from a day that is not known"
        ends = f" until {self.ends}" if self.ends else ""
        return f"from {self.begins}{ends}" if self.begins else ends.strip()


def amendments_in(folder: Path) -> dict[str, Path]:
    """The amendments of a folder of rules by id; a file that stands in no folder of a name, such as a template, is none."""
    top = folder / FOLDER
    found = {path.relative_to(top).with_suffix("").as_posix(): path for path in sorted(top.rglob("*.yaml"))}
    return {name: path for name, path in found.items() if name.count("/") >= 2}


def read_amendment(files: RuleFiles, path: Path) -> Amendment:
    """What an amendment says of itself; what breaks the form is noted among the problems of the files."""
    own = path.resolve().is_relative_to((files.folder / FOLDER).resolve())
    shown = files.shown_name(path.resolve().relative_to(files.folder.resolve()).as_posix()) if own else str(path)
    text = files.text(path, shown)
    return _AmendmentReader(files.problems).read(read_text(text, shown), path, files, text, own=own)


class _AmendmentReader(FormReader):
    """Reads the form of an amendment."""

    def read(self, node: Mapping, path: Path, files: RuleFiles, text: str, *, own: bool) -> Amendment:
        self.keys(node, words.AMENDMENT_KEYS, "an amendment")
        title = str(self.text(node, "amendment", "amendment"))
        status = str(self.word(self.text(node, "status", "amendment"), words.AMENDMENT_STATUSES))
        begins, ends, grade = self.in_force(node)
        made = Amendment(
            id=path.resolve().relative_to((files.folder / FOLDER).resolve()).with_suffix("").as_posix() if own else str(path),
            title=title,
            jurisdiction=str(self.text(node, "jurisdiction", "amendment")),
            amends=self.amends(node),
            begins=begins,
            ends=ends,
            dates_confidence=grade,
            fixed_by=str(self.word(self.text(node, "fixed_by", "amendment"), words.FIXED_BY)),
            status=status,
            source=str(self.text(node, "source", "amendment")),
            not_expressed=tuple(str(each) for each in self.texts(node.get(key("not_expressed")))),
            path=path,
            outside=not own,
            text=text,
            sets=self.need(node, "sets", "amendment") if "sets" in node else Listing(),
            sources=as_mapping(node.get(key("sources"), Mapping()), "sources", self.problems),
            place=place_of(node),
        )
        if "sets" not in node:
            self.need(node, "sets", "amendment")
        return made

    def amends(self, node: Mapping) -> tuple[Text, ...]:
        """The editions that it amends: one, or a list of them."""
        found = self.need(node, "amends", "amendment")
        return (found,) if isinstance(found, Text) else self.texts(found)

    def in_force(self, node: Mapping) -> tuple[str, str, str]:
        """The first and the last day, and how sure they are."""
        found = self.need(node, "in_force", "amendment")
        if isinstance(found, Text):
            self.word(found, (NOT_KNOWN,)) if found else None
            return "", "", ""
        self.keys(found if isinstance(found, Mapping) else Mapping(), words.IN_FORCE_KEYS, "in_force")
        days = as_mapping(found, "in_force", self.problems)
        begins, ends = (self.day(days, name) for name in words.IN_FORCE_KEYS[:2])
        if begins and ends and ends < begins:
            self.problems.add(AMENDMENT_DAYS, place_of(days))
        grade = self.word(self.text(days, "confidence", "in_force"), words.GRADES)
        return begins, ends, str(grade)

    def day(self, node: Mapping, name: str) -> str:
        """A day, or nothing where it is left out."""
        if name not in node:
            return ""
        text = as_text(node[key(name)], name, self.problems)
        if not is_day(text):
            self.problems.add(AMENDMENT_DATE, text.place, text=text)
        return str(text)


def check_editions(amendments: Sequence[Amendment], known: Sequence[str], problems: Problems) -> None:
    """Refuse an amendment of an edition that is not there."""
    for amendment in amendments:
        for edition in amendment.amends:
            if edition not in known:
                problems.add(AMENDMENT_NO_EDITION, edition.place, name=edition, known=", ".join(known))
