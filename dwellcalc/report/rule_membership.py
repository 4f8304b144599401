"""Who is in a group: the group's condition worked out for an item of which some fields are settled and others open.

The checked tree is walked with three values: yes, no, or the first open thing that the answer waits for. Following each
value of what is open gives every way to the answer; from these the shortest words are made.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from itertools import combinations
from typing import Any, Union

from dwellcalc.glossary import NO, YES
from dwellcalc.language import tree
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.language.tree import CheckedGroup, Tree
from dwellcalc.language.words import ASKING
from dwellcalc.placed import spaced

LONG = 3  # with more conditions than this, a cell names another group instead


@dataclass(frozen=True)
class Open:
    """Something that is not settled: a field, a reading, a line, or another group that decides."""

    text: str
    values: tuple[Any, ...] = (True, False)
    words: tuple[str, ...] = ()
    node: Tree | CheckedGroup | None = field(default=None, compare=False)

    def __hash__(self) -> int:
        return hash(self.text)  # the others hardly ever tell two apart, and this one is asked for millions of times

    def said(self, chosen: Collection[Any]) -> str:
        """That it has one of the chosen values, in words."""
        if not self.words:
            if isinstance(self.node, tree.ReadLine):
                return f"{self.text} is {YES if True in chosen else NO}"
            return self.text if True in chosen else f"not {self.text}"
        taken = [spaced(word) for value, word in zip(self.values, self.words) if value in chosen]
        others = [spaced(word) for value, word in zip(self.values, self.words) if value not in chosen]
        if len(others) == 1 and len(taken) > 1:
            return f"{self.text} is not {others[0]}"
        return f"{self.text} is {' or '.join(taken)}"


Known = Mapping[Open, Any]
Answer = Union[bool, Open]
Way = tuple[dict[Open, Any], bool]
Told = tuple[tuple[tuple[tuple[Open, Any], ...], bool], ...]
Term = dict[Open, tuple[Any, ...]]
Conditions = list[tuple[Open, tuple[Any, ...]]]


@dataclass(frozen=True)
class Decision:
    """A cell: its words, what it depends on, and how many conditions it states."""

    words: str
    depends_on: tuple[Open, ...] = ()
    length: int = 0


class Membership:
    """Who is in the groups of a collection.

    Args:
        rules: the rule set.
        level: the collection.
        settled: the fields of the item that are settled, with their values.
        assumed: groups that the item is taken to be in.
        decided: the words of ways that were met before with the same rules; most kinds of load come to the same ones.
    """

    def __init__(
        self,
        rules: RuleSet,
        level: str,
        settled: Mapping[str, Any],
        assumed: Collection[CheckedGroup],
        decided: dict[Told, Decision] | None = None,
    ) -> None:
        self.rules = rules
        self.level = level
        self.settled = settled
        self.assumed = assumed
        self.named: dict[CheckedGroup, Open] = {}
        self.decided = {} if decided is None else decided
        self._plain: dict[CheckedGroup, Decision] = {}
        self._settled: dict[CheckedGroup, bool] = {}

    def decision(self, group: CheckedGroup) -> Decision:
        """Yes, no, or the shortest words for when an item is in a group."""
        plain = self.plainly(group)
        if plain.length <= LONG:
            return plain
        self.named = {other: Open(f"in {spaced(other.name)}", node=other) for other in self.long_inside(group)}
        by_name = self._worked_out(group)
        self.named = {}
        return min(plain, by_name, key=lambda each: each.length)

    def long_inside(self, group: CheckedGroup) -> list[CheckedGroup]:
        """The groups within a group whose own answer is not a short one."""
        return [each for each in within(group) if self.plainly(each).length >= LONG]

    def plainly(self, group: CheckedGroup) -> Decision:
        """When an item is in a group, whatever other groups it is made of."""
        if group not in self._plain:
            self._plain[group] = self._worked_out(group)
        return self._plain[group]

    def _worked_out(self, group: CheckedGroup) -> Decision:
        """When an item is in a group, with the groups named that were given names."""
        found = ways(lambda known: self.inside(group, known))
        if not found[0][0]:
            self._settled[group] = found[0][1]
        told = tuple((tuple(known.items()), answer) for known, answer in found)
        if told not in self.decided:
            self.decided[told] = _decision(found)
        return self.decided[told]

    # the walk

    def inside(self, group: CheckedGroup, known: Known) -> Answer:
        """Whether the item is in a group."""
        if not group.bases or group in self.assumed:
            return True
        if group in self.named:
            named = self.named[group]
            return bool(known[named]) if named in known else named
        if group in self._settled:
            return self._settled[group]
        return _all(self._parts(group, known))

    def _parts(self, group: CheckedGroup, known: Known) -> Iterator[Answer]:
        yield _any(self.inside(base, known) for base in group.bases)
        if group.condition is not None:
            yield self.holds(group.condition, known)
        yield from (_not(self.inside(other, known)) for other in group.excepted)

    def holds(self, node: Tree, known: Known) -> Answer:
        """Whether a condition holds."""
        if isinstance(node, tree.Joined):
            parts = (self.holds(part, known) for part in node.parts)
            return _all(parts) if node.word == "and" else _any(parts)
        if isinstance(node, tree.Negation):
            return _not(self.holds(node.inner, known))
        if isinstance(node, tree.OneOf):
            value = self.value(node.read, known)
            return value if isinstance(value, Open) else bool((value in node.values) != node.negated)
        value = self.value(node, known)
        return value if isinstance(value, Open) else bool(value)

    def value(self, node: Tree, known: Known) -> Any:
        """The value of what is read, or what is open."""
        if isinstance(node, tree.Constant):
            return node.value
        if isinstance(node, tree.ReadField) and node.level == self.level and node.field in self.settled:
            return self.settled[node.field]
        wanted = self.open(node)
        return known.get(wanted, wanted)

    def open(self, node: Tree) -> Open:
        """What is left open in a sentence: a choice with its words, or a condition."""
        if isinstance(node, tree.ReadChoice):
            document, _, name = node.address.partition(".")
            options = tuple(self.rules.documents[document].interpretations[name].options)
            return Open(spaced(node.name), options, options, node)
        if not isinstance(node, tree.READS) or node.kind.form == "yes_no":
            return Open(spaced(in_print(node)), node=node)
        words = self.rules.glossary.words(node.kind)
        values: tuple[Any, ...] = tuple(range(len(words))) if node.kind.form == "scale" else words
        return Open(spaced(node.name), values, words, node)


def in_print(node: Tree) -> str:
    """A tree as a formula writes it."""
    if isinstance(node, tree.READS):
        return node.name
    if isinstance(node, (tree.Gather, tree.Lookup, tree.FirstRow)):
        return node.call
    inner = [in_print(each) for each in tree.children(node)]
    if isinstance(node, (tree.Arithmetic, tree.Comparison)):
        return f" {node.sign} ".join(inner)
    function = node.function if isinstance(node, (tree.Picked, tree.Rounded)) else ASKING[0]
    return f"{function}({', '.join(inner)})"


def ways(decide: Callable[[Known], Answer], known: Mapping[Open, Any] | None = None) -> list[Way]:
    """Every way to an answer: the values that lead there, and the answer."""
    so_far = dict(known or {})
    found = decide(so_far)
    if isinstance(found, bool):
        return [(so_far, found)]
    return [way for value in found.values for way in ways(decide, {**so_far, found: value})]


def within(group: CheckedGroup) -> list[CheckedGroup]:
    """The groups that a group is made of, nearest first; collections and the group itself are none."""
    nearest = [each for each in (*group.bases, *group.excepted) if each.bases]
    return list(dict.fromkeys([*nearest, *(inner for each in nearest for inner in within(each))]))


def _all(parts: Iterable[Answer]) -> Answer:
    """No where one part is no, else the first thing that is open, else yes."""
    first: Answer = True
    for part in parts:
        if part is False:
            return False
        if first is True:
            first = part
    return first


def _any(parts: Iterable[Answer]) -> Answer:
    return _not(_all(map(_not, parts)))


def _not(part: Answer) -> Answer:
    return part if isinstance(part, Open) else not part


# words


def _decision(found: list[Way]) -> Decision:
    answers = {answer for _, answer in found}
    if len(answers) == 1:
        return Decision(YES if True in answers else NO)
    inside, outside = _shortest(found, True), _shortest(found, False)
    word, terms = ("if", inside) if _length(inside) <= _length(outside) else ("unless", outside)
    depends = dict.fromkeys(each for term in terms for each in term)
    return Decision(f"{word} {_phrase(terms)}", tuple(depends), _length(terms))


def _length(terms: list[Term]) -> int:
    shared, rest = _factored(terms)
    return len(shared) + sum(map(len, rest))


def _shortest(found: list[Way], wanted: bool) -> list[Term]:
    """Few and short terms that together are exactly the ways with the wanted answer."""
    on = [known for known, answer in found if answer is wanted]
    off = [known for known, answer in found if answer is not wanted]
    terms = [_term(known, off) for known in on]
    left, chosen = on, list[Term]()
    while left:
        best = max(terms, key=lambda term: sum(_holds_all(term, known) for known in left))
        left = [known for known in left if not _holds_all(best, known)]
        chosen.append(best)
    met = list(dict.fromkeys(each for known, _ in found for each in known))
    return sorted(chosen, key=lambda term: [met.index(each) for each in term])


def _term(known: dict[Open, Any], off: list[dict[Open, Any]]) -> Term:
    """The fewest of a way's conditions that keep every other answer out, each as wide as it may be."""
    for size in range(len(known) + 1):
        for kept in combinations(known.items(), size):
            term: Term = {each: (value,) for each, value in kept}
            if not any(_meets(term, other) for other in off):
                return _widened(term, off)
    return {each: (value,) for each, value in known.items()}


def _widened(term: Term, off: list[dict[Open, Any]]) -> Term:
    for each in term:
        for value in each.values:
            wider = {**term, each: (*term[each], value)}
            if value not in term[each] and not any(_meets(wider, other) for other in off):
                term = wider
    return term


def _meets(term: Term, known: dict[Open, Any]) -> bool:
    return all(each not in known or known[each] in values for each, values in term.items())


def _holds_all(term: Term, known: dict[Open, Any]) -> bool:
    return all(each in known and known[each] in values for each, values in term.items())


def _phrase(terms: list[Term]) -> str:
    """Terms in words, what they share said once."""
    shared, rest = _factored(terms)
    if not any(rest):
        return " and ".join(_said(shared))
    short = all(len(term) == 1 for term in rest)
    joined = (" or " if short else ", or ").join(" and ".join(_said(term)) for term in rest)
    return f"{' and '.join(_said(shared))} and ({joined})" if shared else joined


def _factored(terms: list[Term]) -> tuple[Conditions, list[Conditions]]:
    """What all terms share, and what is left of each."""
    shared = [each for each in terms[0].items() if all(each in term.items() for term in terms)]
    return shared, [[each for each in term.items() if each not in shared] for term in terms]


def _said(term: Conditions) -> list[str]:
    return [each.said(values) for each, values in term]
