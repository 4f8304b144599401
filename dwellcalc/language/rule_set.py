"""A rule set: one edition with its amendments, read, changed, checked and frozen, with a digest."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from itertools import accumulate
from pathlib import Path

from dwellcalc.glossary import Glossary
from dwellcalc.language import uses
from dwellcalc.language.amendments import Amendment, amendments_in, check_editions, read_amendment
from dwellcalc.language.applied import Applied, ChangeSet
from dwellcalc.language.citations import Citation, SourceEntry, read_citations, read_sources
from dwellcalc.language.defaults import Default, read_defaults
from dwellcalc.language.document_reader import DocumentReader
from dwellcalc.language.documents import Document
from dwellcalc.language.editions import chain_of, changed
from dwellcalc.language.kinds import Checker
from dwellcalc.language.names import Names
from dwellcalc.language.rule_files import RuleFiles, editions_in, installed_folder, read_glossary, rule_files
from dwellcalc.language.table_reader import TableLinker
from dwellcalc.language.tree import CheckedMethod
from dwellcalc.language.words import ASSESSMENT, CARRIED_OVER
from dwellcalc.placed import Mapping, Node, as_list, as_mapping, key, text_at
from dwellcalc.problems import InputError

__all__ = ["RuleSet", "editions_in", "every_edition", "installed_folder", "load_rules", "read_glossary", "with_sets"]


@dataclass(frozen=True)
class RuleSet:
    """An edition in effect.

    Attributes:
        id: such as ``nec/2023``.
        title: the edition's own name.
        chain: the titles of the editions that it rests on, oldest first, and of its amendments.
        carried_over: of those editions that say it, by their titles: the grade of what they take over and do not state anew.
        methods: the checked methods by name.
        documents: methods and parts as they stand after all changes.
        sets: every set of changes that was applied, in order.
        assessment: what an assessment does with the methods, as read.
        defaults: typical ratings by kind of load, where the edition names a file of them.
        digest: a fingerprint of every text that it was made of.
        line_count: how many lines the methods hold together.
        amendments: those that were applied, in order.
        unamended: the same edition without them, where both are to be compared.
        kept: what others make of it once and keep with it.
    """

    id: str
    title: str
    chain: tuple[str, ...]
    carried_over: dict[str, str]
    folder: Path
    glossary: Glossary
    methods: dict[str, CheckedMethod]
    documents: dict[str, Document]
    citations: dict[str, Citation]
    sources: dict[str, SourceEntry]
    sets: tuple[ChangeSet, ...]
    assessment: Mapping
    defaults: dict[str, Default]
    digest: str
    line_count: int
    amendments: tuple[Amendment, ...] = ()
    unamended: RuleSet | None = field(default=None, compare=False, repr=False)
    kept: dict[str, object] = field(default_factory=dict, compare=False, repr=False)

    @cached_property
    def applied(self) -> tuple[Applied, ...]:
        """Every change, in order."""
        return tuple(change for each in self.sets for change in each.changes)

    def section(self, cite: str) -> str:
        """The section of a citation key; an amendment's own words stand for themselves."""
        found = self.citations.get(cite)
        return str(found.section) if found is not None else cite

    def changes_to(self, address: str) -> list[Applied]:
        """The changes that touched a line, parameter, group or table."""
        return self._changes_by_piece.get(address, [])

    @cached_property
    def _changes_by_piece(self) -> dict[str, list[Applied]]:
        """The changes by what they touched and by all that it stands in."""
        found: dict[str, list[Applied]] = {}
        for each in self.applied:
            for whole in accumulate(each.address.split("."), lambda outer, name: f"{outer}.{name}"):
                found.setdefault(whole, []).append(each)
        return found


def load_rules(edition: str, folder: Path | None = None, amendments: Sequence[Path] = ()) -> RuleSet:
    """Read, change, check and freeze an edition.

    Args:
        edition: its id, such as ``nec/2023``.
        folder: the folder of rules; the package's own where none is given.
        amendments: files of amendments, applied in this order.

    Raises:
        InputError: with every problem found, all at once.
    """
    return _all_problems(rule_files(folder), edition, tuple(amendments), None)


def with_sets(rules: RuleSet, number: int) -> RuleSet:
    """A rule set with only its first sets of changes applied, to tell what each of them does.

    It need not be whole: what is unused or uncited in it is not refused. A section that it lacks is that of the whole.

    Raises:
        InputError: these sets do not stand without a later one.
    """
    if number == len(rules.sets):
        return rules
    found = _all_problems(rule_files(rules.folder), rules.id, tuple(each.path for each in rules.amendments), number)
    return replace(found, citations={**rules.citations, **found.citations})


def _all_problems(files: RuleFiles, edition: str, amendments: tuple[Path, ...], most: int | None) -> RuleSet:
    try:
        return _loaded(files, edition, amendments, most)
    except InputError as error:
        found = files.problems.found
        raise InputError([*found, *(each for each in error.problems if each not in found)]) from None


def _loaded(files: RuleFiles, edition: str, amendments: tuple[Path, ...], most: int | None) -> RuleSet:
    glossary = files.glossary()
    files.problems.raise_if_any()
    sources = read_sources(files.node("sources.yaml"), files.problems)
    chain = chain_of(files, edition)
    code = edition.split("/")[0]
    amending = tuple(read_amendment(files, path) for path in amendments)
    files.problems.raise_if_any()
    check_editions(amending, editions_in(files.folder), files.problems)
    for each in amending:
        sources |= read_sources(_as_sources(each), files.problems)
    base = changed(files, code, chain, amending, most)
    documents = _documents(files, base.nodes)
    files.problems.raise_if_any()
    linker = TableLinker(glossary, files.problems)
    for document in documents.values():
        for table in document.tables.values():
            linker.link(table)
    names = Names(documents, glossary, files.problems)
    files.problems.raise_if_any()
    methods = [str(name) for name in as_list(base.nodes["methods"], "methods", files.problems)]
    checker = Checker(names, methods, files.problems)
    checked = checker.check()
    citations = read_citations(as_mapping(base.nodes["citations"], "citations", files.problems), files.problems)
    assessment = as_mapping(base.nodes[ASSESSMENT], ASSESSMENT, files.problems)
    if most is None:
        uses.check_changes((change for each in base.sets for change in each.changes), sources, files.problems)
        uses.check_amendments(amending, sources, files.problems)
        uses.check(documents, checked, checker.used, citations, sources, assessment, files.problems)
    files.problems.raise_if_any()
    defaults = _named(files, code, chain, "defaults")
    typical = read_defaults(defaults, glossary, sources, files.problems)
    files.problems.raise_if_any()
    return RuleSet(
        edition,
        base.titles[len(chain) - 1],
        tuple(base.titles),
        {name: str(node[key(CARRIED_OVER)]) for name, (_, node) in zip(base.titles, chain, strict=False) if CARRIED_OVER in node},
        files.folder,
        glossary,
        checked,
        documents,
        citations,
        sources,
        tuple(base.sets),
        assessment,
        typical,
        files.digest(),
        checker.line_count,
        amending,
    )


def _as_sources(amendment: Amendment) -> Mapping:
    """The sources that an amendment brings, in the form of their file."""
    made = Mapping()
    if amendment.sources:
        made[text_at("sources", amendment.sources)] = amendment.sources
    return made


def _named(files: RuleFiles, code: str, chain: list[tuple[str, Mapping]], name: str) -> Mapping:
    """A file beside the methods that the newest edition of a chain names, or nothing."""
    file = next((chained.get(key(name)) for _, chained in reversed(chain) if name in chained), None)
    return Mapping() if file is None else files.node(f"{code}/{file}.yaml")


def _documents(files: RuleFiles, nodes: dict[str, Node]) -> dict[str, Document]:
    reader = DocumentReader(files.problems)
    found = {}
    for name, node in nodes.items():
        if name in ("citations", "methods", ASSESSMENT) or not isinstance(node, Mapping):
            continue
        document = reader.read(node)
        if document is not None:
            found[name] = document
    return found


def every_edition(folder: Path | None = None) -> Iterator[tuple[str, RuleSet | InputError]]:
    """Each edition of a folder, loaded, or the problems that keep it from loading."""
    for edition in editions_in(rule_files(folder).folder):
        try:
            yield edition, load_rules(edition, folder)
        except InputError as error:
            yield edition, error


def every_amendment(folder: Path | None = None) -> tuple[list[Amendment], dict[str, SourceEntry]]:
    """The amendments of a folder of rules, and all sources that they may name.

    Raises:
        InputError: one breaks the form.
    """
    files = rule_files(folder)
    sources = read_sources(files.node("sources.yaml"), files.problems)
    found = [read_amendment(files, path) for path in amendments_in(files.folder).values()]
    for each in found:
        sources |= read_sources(_as_sources(each), files.problems)
    uses.check_amendments(found, sources, files.problems)
    check_editions(found, editions_in(files.folder), files.problems)
    files.problems.raise_if_any()
    return found, sources
