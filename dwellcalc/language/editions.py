"""Editions: what an edition is based on, and its methods after every later set of changes and its amendments."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from dwellcalc.language import words
from dwellcalc.language.amendments import Amendment
from dwellcalc.language.applied import ChangeSet
from dwellcalc.language.changes import Applier
from dwellcalc.language.moved import RENUMBERED_SET, carry_over, renumber
from dwellcalc.language.rule_files import EDITIONS, RuleFiles, editions_in
from dwellcalc.placed import Mapping, Node, as_list, as_text, key, place_of
from dwellcalc.problems import Place, Problems, fail, message, nearest_name

NO_EDITION = message("no_edition", 'there is no edition "{name}"', "editions: {known}")
EDITION_KEY = message("edition_key", 'there is no key "{key}" in {what}', "one of: {known}")
EDITION_LACKS = message("edition_lacks", '{what} lacks "{key}"')
EDITION_LOOP = message("edition_loop", "an edition is based on itself")
NO_METHOD_FILE = message(
    "no_method_file",
    'there is no file for "{name}"',
    "a method or part stands in a file of its name, beside the editions' folder",
)
NAME_OF_FILE = message("name_of_file", 'the file for "{file}" holds "{name}"', "a method or part bears the name of its file")
AMENDS_OTHER = message("amends_other", 'the amendment is for {amends}, the rule set is "{edition}"')


def chain_of(files: RuleFiles, edition: str) -> list[tuple[str, Mapping]]:
    """The edition and all that it is based on, oldest first."""
    chain: list[tuple[str, Mapping]] = []
    wanted: str | None = edition
    place: Place | None = None
    while wanted is not None:
        if wanted in [name for name, _ in chain]:
            fail(EDITION_LOOP, place)
        known = editions_in(files.folder)
        if wanted not in known:
            fail(NO_EDITION, place, name=wanted, known=", ".join(known), nearest=nearest_name(wanted, known))
        code, year = wanted.split("/")
        node = files.node(f"{code}/{EDITIONS}/{year}.yaml")
        _check_keys(files.problems, node, words.EDITION_KEYS, "an edition")
        chain.insert(0, (wanted, node))
        base = node.get(key("based_on"))
        wanted = None if base is None else str(as_text(base, "based_on", files.problems))
        files.problems.raise_if_any()
        place = place_of(base) if base is not None else None
        if base is None:
            for name in ("methods", "citations"):
                if name not in node:
                    fail(EDITION_LACKS, place_of(node), what="the first edition", key=name)
    return chain


def _check_keys(problems: Problems, node: Mapping, known: tuple[str, ...], what: str) -> None:
    for name in node:
        if name not in known:
            problems.add(EDITION_KEY, name.place, key=name, what=what, known=", ".join(known), nearest=nearest_name(name, known))


@dataclass
class Changed:
    """The documents of the first edition with later sets of changes applied.

    Attributes:
        nodes: the documents by name; ``citations`` and ``methods`` stand among them.
        sets: the sets that were applied, in order.
        titles: those of the editions and amendments, oldest first.
    """

    nodes: dict[str, Node]
    sets: list[ChangeSet]
    titles: list[str]


def changed(
    files: RuleFiles, code: str, chain: list[tuple[str, Mapping]], amendments: Sequence[Amendment], most: int | None = None
) -> Changed:
    """The documents of the first edition, and the assessment, with later sets of changes applied: all, or the first ``most``."""
    first = chain[0][1]
    nodes: dict[str, Node] = {"citations": first[key("citations")], "methods": first[key("methods")]}
    nodes[words.ASSESSMENT] = Mapping()
    _read_methods(files, code, nodes)
    applier = Applier(nodes, files.problems)
    titles = []
    for _, node in chain:
        title = _title(files, node, "edition")
        titles.append(title)
        if words.ASSESSMENT in node:
            file = as_text(node[key(words.ASSESSMENT)], words.ASSESSMENT, files.problems)
            nodes[words.ASSESSMENT] = files.node(f"{code}/{file}.yaml")
        if most is None or len(applier.sets) < most:
            _take_over(title, node, applier)
        left = None if most is None else most - len(applier.sets)
        if "sets" in node:
            applier.apply(title, node[key("sets")], left)
            _read_methods(files, code, nodes)
    applier.beside = len(applier.applied)
    for amendment in amendments:
        _check_amends(amendment, chain[-1][0])
        titles.append(amendment.title)
        applier.apply(amendment.title, amendment.sets, None if most is None else most - len(applier.sets))
        _read_methods(files, code, nodes)
    return Changed(nodes, applier.sets, titles)


def _take_over(title: str, edition: Mapping, applier: Applier) -> None:
    """What an edition renumbers, as the first of its sets, and how sure it is of what it takes over."""
    moved = renumber(title, edition, applier.documents, applier.problems)
    if moved:
        applier.applied += moved
        applier.sets.append(ChangeSet(title, RENUMBERED_SET, tuple(moved)))
    carry_over(edition, applier.documents, applier.problems)


def _title(files: RuleFiles, node: Mapping, kind: str) -> str:
    if kind not in node:
        fail(EDITION_LACKS, place_of(node), what=f"this {kind}", key=kind)
    return str(as_text(node[key(kind)], kind, files.problems))


def _check_amends(amendment: Amendment, edition: str) -> None:
    if edition not in amendment.amends:
        place = amendment.amends[0].place if amendment.amends else amendment.place
        fail(AMENDS_OTHER, place, amends=", ".join(amendment.amends), edition=edition)


def _read_methods(files: RuleFiles, code: str, nodes: dict[str, Node]) -> None:
    """Read every method of the edition, and the parts they use, that are not read yet."""
    wanted = list(as_list(nodes["methods"], "methods", files.problems))
    while wanted:
        name = as_text(wanted.pop(0), "a method", files.problems)
        if name in nodes or not name:
            continue
        if not (files.folder / code / f"{name}.yaml").is_file():
            known = [path.stem for path in (files.folder / code).glob("*.yaml")]
            fail(NO_METHOD_FILE, name.place, name=name, nearest=nearest_name(name, known))
        node = files.node(f"{code}/{name}.yaml")
        named = next(iter(node.values()), name)
        if named != name:
            fail(NAME_OF_FILE, place_of(named), file=name, name=named)
        nodes[str(name)] = node
        if "uses" in node:
            wanted += as_list(node[key("uses")], "uses", files.problems)
