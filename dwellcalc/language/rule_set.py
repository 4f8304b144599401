"""A rule set: one edition with its amendments, read, changed, checked and frozen, with a digest."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from dwellcalc.glossary import Glossary, GlossaryReader
from dwellcalc.language import uses, words
from dwellcalc.language.changes import Applied, Applier
from dwellcalc.language.documents import Document, DocumentReader
from dwellcalc.language.kinds import Checker
from dwellcalc.language.names import Names
from dwellcalc.language.tables import TableLinker
from dwellcalc.language.tree import CheckedMethod
from dwellcalc.problems import InputError, Message, Place, Problems, fail, message, nearest_name
from dwellcalc.reading import Listing, Mapping, Node, Text, as_list, as_mapping, as_text, key, load_text, place_of, read_text
from dwellcalc.units import Units

NO_EDITION = message("no_edition", 'there is no edition "{name}"', "editions: {known}")
NO_RULES = message(
    "no_rules",
    'there are no rules in "{folder}"',
    "a folder of rules holds glossary.yaml, units.txt, sources.yaml and a folder for each code",
)
EDITION_KEY = message("edition_key", 'there is no key "{key}" in {what}', "one of: {known}")
EDITION_LACKS = message("edition_lacks", '{what} lacks "{key}"')
EDITION_LOOP = message("edition_loop", "an edition is based on itself")
NO_METHOD_FILE = message(
    "no_method_file",
    'there is no file for "{name}"',
    "a method or part stands in a file of its name, beside the editions' folder",
)
NAME_OF_FILE = message("name_of_file", 'the file for "{file}" holds "{name}"', "a method or part bears the name of its file")
AMENDS_OTHER = message("amends_other", 'the amendment is for "{amends}", the rule set is "{edition}"')
CITATION_FORM = message("citation_form", "a citation has a section and a grade of confidence")
SOURCE_FORM = message("source_form", "a source has title, publisher, year and seen")

EDITIONS = "editions"
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


@dataclass(frozen=True)
class RuleSet:
    """An edition in effect.

    Attributes:
        id: such as ``nec/2023``.
        title: the edition's own name.
        chain: the titles of the editions that it rests on, oldest first, and of its amendments.
        methods: the checked methods by name.
        documents: methods and parts as they stand after all changes.
        applied: every change, in order.
        assessment: what an assessment does with the methods, as read.
        digest: a fingerprint of every text that it was made of.
        line_count: how many lines the methods hold together.
        kept: what others make of it once and keep with it.
    """

    id: str
    title: str
    chain: tuple[str, ...]
    folder: Path
    glossary: Glossary
    methods: dict[str, CheckedMethod]
    documents: dict[str, Document]
    citations: dict[str, Citation]
    sources: dict[str, SourceEntry]
    applied: tuple[Applied, ...]
    assessment: Mapping
    digest: str
    line_count: int
    kept: dict[str, object] = field(default_factory=dict, compare=False, repr=False)

    def section(self, cite: str) -> str:
        """The section of a citation key; an amendment's own words stand for themselves."""
        found = self.citations.get(cite)
        return str(found.section) if found is not None else cite

    def changes_to(self, address: str) -> list[Applied]:
        """The changes that touched a line, parameter, group or table."""
        return [each for each in self.applied if each.address == address or each.address.startswith(f"{address}.")]


@dataclass
class _Loader:
    folder: Path
    shown: str
    problems: Problems = field(default_factory=Problems)
    texts: list[str] = field(default_factory=list)

    def node(self, name: str) -> Mapping:
        """Read a file of the folder; it joins the digest."""
        text = load_text(self.folder / name, self.shown_name(name))
        self.texts.append(text)
        return read_text(text, self.shown_name(name))

    def shown_name(self, name: str) -> str:
        return f"{self.shown}/{name}" if self.shown else name


def installed_folder() -> Path:
    """The package's own rules: beside the package in a checkout, inside it where it is installed."""
    package = Path(__file__).resolve().parents[1]
    inside = package / "rules"
    return inside if inside.is_dir() else package.parent / "rules"


def editions_in(folder: Path) -> list[str]:
    """The ids of every edition in a folder of rules."""
    return sorted(f"{path.parent.parent.name}/{path.stem}" for path in folder.glob(f"*/{EDITIONS}/*.yaml"))


def read_glossary(folder: Path | None = None) -> Glossary:
    """The glossary of a folder of rules, or of the package's own.

    Raises:
        InputError: there is none, or it breaks the form.
    """
    loader = _loader(folder)
    glossary = _glossary(loader)
    loader.problems.raise_if_any()
    return glossary


def load_rules(edition: str, folder: Path | None = None, amendments: Sequence[Path] = ()) -> RuleSet:
    """Read, change, check and freeze an edition.

    Args:
        edition: its id, such as ``nec/2023``.
        folder: the folder of rules; the package's own where none is given.
        amendments: files of amendments, applied in this order.

    Raises:
        InputError: with every problem found, all at once.
    """
    loader = _loader(folder)
    try:
        return _loaded(loader, edition, amendments)
    except InputError as error:
        found = loader.problems.found
        raise InputError([*found, *(each for each in error.problems if each not in found)]) from None


def _loaded(loader: _Loader, edition: str, amendments: Sequence[Path]) -> RuleSet:
    glossary = _glossary(loader)
    loader.problems.raise_if_any()
    sources = _sources(loader)
    chain = _chain(loader, edition)
    code = edition.split("/")[0]
    nodes, applied, titles = _changed(loader, code, chain, amendments)
    documents = _documents(loader, nodes)
    loader.problems.raise_if_any()
    linker = TableLinker(glossary, loader.problems)
    for document in documents.values():
        for table in document.tables.values():
            linker.link(table)
    names = Names(documents, glossary, loader.problems)
    loader.problems.raise_if_any()
    methods = [str(name) for name in as_list(nodes["methods"], "methods", loader.problems)]
    checker = Checker(names, methods, loader.problems)
    checked = checker.check()
    citations = _citations(loader, as_mapping(nodes["citations"], "citations", loader.problems))
    uses.check_changes(applied, sources, loader.problems)
    uses.check(documents, checked, checker.used, citations, sources, loader.problems)
    loader.problems.raise_if_any()
    assessment_name = next((chained.get(key("assessment")) for _, chained in reversed(chain) if "assessment" in chained), None)
    assessment = loader.node(f"{code}/{assessment_name}.yaml") if assessment_name is not None else Mapping()
    digest = hashlib.sha256("\0".join(loader.texts).encode()).hexdigest()
    title = titles[len(chain) - 1]
    return RuleSet(
        edition,
        title,
        tuple(titles),
        loader.folder,
        glossary,
        checked,
        documents,
        citations,
        sources,
        tuple(applied),
        assessment,
        digest,
        checker.line_count,
    )


def _loader(folder: Path | None) -> _Loader:
    home = folder if folder is not None else installed_folder()
    if not (home / "glossary.yaml").is_file() or not (home / "units.txt").is_file():
        fail(NO_RULES, folder=home)
    return _Loader(home, str(folder) if folder is not None else "rules")


def _glossary(loader: _Loader) -> Glossary:
    units = Units(loader.folder / "units.txt")
    loader.texts.append(load_text(loader.folder / "units.txt", loader.shown_name("units.txt")))
    return GlossaryReader(units, loader.problems).read(loader.node("glossary.yaml"))


def _sources(loader: _Loader) -> dict[str, SourceEntry]:
    node = loader.node("sources.yaml")
    found = {}
    for name, entry in as_mapping(node.get(key("sources"), Mapping()), "sources", loader.problems).items():
        parts = as_mapping(entry, name, loader.problems)
        if set(parts) != set(SOURCE_KEYS):
            loader.problems.add(SOURCE_FORM, name.place)
            found[str(name)] = SourceEntry(*SOURCE_KEYS)
            continue
        found[str(name)] = SourceEntry(*(str(parts[key(part)]) for part in SOURCE_KEYS))
    return found


def _chain(loader: _Loader, edition: str) -> list[tuple[str, Mapping]]:
    """The edition and all that it is based on, oldest first."""
    chain: list[tuple[str, Mapping]] = []
    wanted: str | None = edition
    place: Place | None = None
    while wanted is not None:
        if wanted in [name for name, _ in chain]:
            fail(EDITION_LOOP, place)
        known = editions_in(loader.folder)
        if wanted not in known:
            fail(NO_EDITION, place, name=wanted, known=", ".join(known), nearest=nearest_name(wanted, known))
        code, year = wanted.split("/")
        node = loader.node(f"{code}/{EDITIONS}/{year}.yaml")
        _check_keys(loader.problems, node, words.EDITION_KEYS, "an edition")
        chain.insert(0, (wanted, node))
        base = node.get(key("based_on"))
        wanted = None if base is None else str(as_text(base, "based_on", loader.problems))
        loader.problems.raise_if_any()
        place = place_of(base) if base is not None else None
        if base is None:
            for name in ("methods", "citations"):
                if name not in node:
                    fail(EDITION_LACKS, place_of(node), what="the first edition", key=name)
    return chain


def _check_keys(problems: Problems, node: Mapping, known: tuple[str, ...], what: str, refusal: Message = EDITION_KEY) -> None:
    for name in node:
        if name not in known:
            problems.add(refusal, name.place, key=name, what=what, known=", ".join(known), nearest=nearest_name(name, known))


def _changed(
    loader: _Loader, code: str, chain: list[tuple[str, Mapping]], amendments: Sequence[Path]
) -> tuple[dict[str, Node], list[Applied], list[str]]:
    """The documents of the first edition with every later set of changes applied."""
    first = chain[0][1]
    nodes: dict[str, Node] = {"citations": first[key("citations")], "methods": first[key("methods")]}
    _read_methods(loader, code, nodes)
    applier = Applier(nodes, loader.problems)
    titles = []
    for _, node in chain:
        title = _title(loader, node, "edition")
        titles.append(title)
        if "renumbered" in node:
            _renumber(loader, nodes, node)
        if "sets" in node:
            applier.apply(title, node[key("sets")])
            _read_methods(loader, code, nodes)
    for path in amendments:
        node = _amendment(loader, path, chain[-1][0])
        titles.append(_title(loader, node, "amendment"))
        applier.apply(titles[-1], node.get(key("sets"), Listing()))
    return nodes, applier.applied, titles


def _title(loader: _Loader, node: Mapping, kind: str) -> str:
    if kind not in node:
        fail(EDITION_LACKS, place_of(node), what=f"this {kind}", key=kind)
    return str(as_text(node[key(kind)], kind, loader.problems))


def _amendment(loader: _Loader, path: Path, edition: str) -> Mapping:
    text = load_text(path)
    loader.texts.append(text)
    node = read_text(text, str(path))
    _check_keys(loader.problems, node, words.AMENDMENT_KEYS, "an amendment")
    amends = node.get(key("amends"))
    if amends is None:
        fail(EDITION_LACKS, place_of(node), what="this amendment", key="amends")
    if amends != edition:
        fail(AMENDS_OTHER, place_of(amends), amends=amends, edition=edition)
    return node


def _renumber(loader: _Loader, nodes: dict[str, Node], edition: Mapping) -> None:
    """Move an article: what it moves is graded memory unless stated."""
    moves = as_mapping(edition[key("renumbered")], "renumbered", loader.problems)
    citations = as_mapping(nodes["citations"], "citations", loader.problems)
    for entry in citations.values():
        section = entry.get(key("section")) if isinstance(entry, Mapping) else None
        if not isinstance(section, Text) or "confidence" not in entry:
            continue  # it is refused where citations are read
        for old, node in moves.items():
            new = as_text(node, old, loader.problems)
            moved = re.sub(rf"(?<![\d.]){re.escape(old)}\.", lambda match, new=new: f"{new}.", section)  # type: ignore[misc]
            if moved != section:
                entry[entry.key("section")] = _like(moved, new)
                entry[entry.key("confidence")] = _like(words.GRADES[-1], new)


def _like(value: str, place: Text) -> Text:
    made = Text(value)
    made.source, made.line, made.column = place.source, place.line, place.column
    return made


def _read_methods(loader: _Loader, code: str, nodes: dict[str, Node]) -> None:
    """Read every method of the edition, and the parts they use, that are not read yet."""
    wanted = list(as_list(nodes["methods"], "methods", loader.problems))
    while wanted:
        name = as_text(wanted.pop(0), "a method", loader.problems)
        if name in nodes or not name:
            continue
        if not (loader.folder / code / f"{name}.yaml").is_file():
            known = [path.stem for path in (loader.folder / code).glob("*.yaml")]
            fail(NO_METHOD_FILE, name.place, name=name, nearest=nearest_name(name, known))
        node = loader.node(f"{code}/{name}.yaml")
        named = next(iter(node.values()), name)
        if named != name:
            fail(NAME_OF_FILE, place_of(named), file=name, name=named)
        nodes[str(name)] = node
        if "uses" in node:
            wanted += as_list(node[key("uses")], "uses", loader.problems)


def _documents(loader: _Loader, nodes: dict[str, Node]) -> dict[str, Document]:
    reader = DocumentReader(loader.problems)
    found = {}
    for name, node in nodes.items():
        if name in ("citations", "methods") or not isinstance(node, Mapping):
            continue
        document = reader.read(node)
        if document is not None:
            found[name] = document
    return found


def _citations(loader: _Loader, node: Mapping) -> dict[str, Citation]:
    found = {}
    for name, entry in node.items():
        parts = as_mapping(entry, f'the citation "{name}"', loader.problems)
        section, grade = parts.get(key("section")), parts.get(key("confidence"))
        if not isinstance(section, Text) or grade not in words.GRADES or len(parts) != 2:
            loader.problems.add(CITATION_FORM, name.place)
            found[str(name)] = Citation(name, name, name.place)
            continue
        found[str(name)] = Citation(section, parts[key("confidence")], name.place)
    return found


def every_edition(folder: Path | None = None) -> Iterator[tuple[str, RuleSet | InputError]]:
    """Each edition of a folder, loaded, or the problems that keep it from loading."""
    for edition in editions_in(_loader(folder).folder):
        try:
            yield edition, load_rules(edition, folder)
        except InputError as error:
            yield edition, error
