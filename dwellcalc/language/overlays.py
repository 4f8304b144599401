"""Changes laid over a rule set for a while: the methods that they touch are linked again, and nothing else.

What an edition is checked for, such as what is unused or counted twice, is not asked of it: it may be meant to err.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from dwellcalc.language.changes import Applier
from dwellcalc.language.document_reader import DocumentReader
from dwellcalc.language.documents import Document
from dwellcalc.language.editions import chain_of, changed
from dwellcalc.language.kinds import Checker
from dwellcalc.language.names import Names
from dwellcalc.language.reach import reached
from dwellcalc.language.rule_files import rule_files
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.language.table_reader import TableLinker
from dwellcalc.language.tree import CheckedLine, CheckedRun
from dwellcalc.placed import Listing, Mapping, Node, key
from dwellcalc.problems import InputError, Problems

CITATIONS, METHODS = "citations", "methods"  # stand among the documents that changes are applied to


class Overlays:
    """The rule sets that changes make of one, with only some of its methods and what these rest on.

    Args:
        rules: the rule set.
        methods: the methods that are asked for.
    """

    def __init__(self, rules: RuleSet, methods: Iterable[str]) -> None:
        self.rules = rules
        self.methods = methods_behind(rules, methods)
        self.documents: dict[str, Document] = {
            str(part.name): part for name in self.methods for part in rules.methods[name].parts
        }
        self.nodes = nodes_of(rules)

    def touches(self, changes: Listing) -> set[str]:
        """The documents that changes touch, as far as the methods rest on them."""
        return {address_of(each).partition(".")[0] for each in changes} & {*self.documents}

    def holds(self, changes: Listing) -> bool:
        """Whether the rule set holds all that changes expect; whether it can be linked with them is not asked."""
        problems = Problems()
        self._changed((changes,), problems)
        return bool(self.touches(changes)) and not problems.found

    def with_changes(self, *sets: Listing) -> RuleSet:
        """The rule set with lists of changes made, one after the other.

        Raises:
            InputError: the rule set does not hold what a change expects, or cannot be linked with it.
        """
        problems = Problems()
        nodes = self._changed(sets, problems)
        problems.raise_if_any()
        return self.linked(nodes, problems)

    def _changed(self, sets: Sequence[Listing], problems: Problems) -> dict[str, Node]:
        """The nodes of the documents that lists of changes touch, changed."""
        touched = {name for changes in sets for name in self.touches(changes)}
        nodes = {name: copied(self.nodes[name]) if name in touched else self.nodes[name] for name in self.documents}
        nodes |= {CITATIONS: Mapping(), METHODS: Listing()}
        applier = Applier(nodes, problems)
        for position, changes in enumerate(sets):
            held = Listing(each for each in changes if address_of(each).partition(".")[0] in self.documents)
            applier.apply(str(position), _as_set(held, changes))
        return {name: nodes[name] for name in touched}

    def linked(self, nodes: dict[str, Node], problems: Problems) -> RuleSet:
        """The rule set with some documents read anew."""
        reader, linker = DocumentReader(problems), TableLinker(self.rules.glossary, problems)
        documents = dict(self.documents)
        for name, node in nodes.items():
            document = reader.read(node) if isinstance(node, Mapping) else None
            problems.raise_if_any()
            assert document is not None
            documents[name] = document
            for table in document.tables.values():
                linker.link(table)
        names = Names(documents, self.rules.glossary, problems)
        problems.raise_if_any()
        checked = Checker(names, list(self.methods), problems).check()
        problems.raise_if_any()
        return replace(self.rules, methods=checked, documents=documents, kept={}, unamended=None)


def nodes_of(rules: RuleSet) -> dict[str, Node]:
    """The nodes of a rule set's documents as its edition and amendments leave them, read once and kept with it."""
    found = rules.kept.get(nodes_of.__name__)
    if found is None:
        files = rule_files(rules.folder)
        made = changed(files, rules.id.partition("/")[0], chain_of(files, rules.id), rules.amendments)
        found = rules.kept[nodes_of.__name__] = made.nodes
    assert isinstance(found, dict)
    return found


def _as_set(changes: Listing, like: Listing) -> Listing:
    made = Mapping({key("changes"): changes})
    made.place = changes.place = like.place
    sets = Listing([made])
    sets.place = like.place
    return sets


def methods_behind(rules: RuleSet, methods: Iterable[str]) -> tuple[str, ...]:
    """Some methods and all others that they read or run, in the order of the rule set."""
    found: set[str] = set()
    waiting = list(methods)
    while waiting:
        name = waiting.pop()
        if name in found:
            continue
        found.add(name)
        method = rules.methods[name]
        pieces = [*method.lines.values(), *method.runs.values(), *(each.require for each in method.permitted)]
        for piece in reached(pieces):
            waiting += [piece.method] if isinstance(piece, CheckedLine) else []
            waiting += [piece.evaluated] if isinstance(piece, CheckedRun) else []
            owner = str(getattr(piece, "address", "")).partition(".")[0]  # a table or a parameter of another method
            waiting += [owner] if owner in rules.methods else []
    return tuple(name for name in rules.methods if name in found)


def copied(node: Node) -> Node:
    """A copy of nodes in which keys and entries may be changed; texts are shared."""
    if isinstance(node, Mapping):
        made = Mapping((name, copied(each)) for name, each in node.items())
        made.place = node.place
        return made
    if isinstance(node, Listing):
        listed = Listing(copied(each) for each in node)
        listed.place = node.place
        return listed
    return node


def address_of(change: Node) -> str:
    """The address of the piece that a change is of, or empty."""
    if not isinstance(change, Mapping):
        return ""
    return next((str(change[key(name)]) for name in ("change", "add", "remove") if name in change), "")


def first_that_holds(overlays: Overlays, ways: Sequence[Listing]) -> tuple[Listing, RuleSet] | None:
    """The first of several lists of changes that the rule set holds, with the rule set that it makes; nothing where none does."""
    for changes in ways:
        try:
            return changes, overlays.with_changes(changes)
        except InputError:
            continue
    return None
