"""Conditions as predicates over atoms: choices, flags, and amounts that are compared with known thresholds."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping
from itertools import pairwise
from typing import Any

from dwellcalc.glossary import YES_NO, Glossary
from dwellcalc.language import tree
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.language.tree import CheckedGroup
from dwellcalc.units import NUMBER

_SIGNS: dict[str, Callable[[Any, Any], bool]] = {
    ">=": lambda left, right: left >= right,
    "<=": lambda left, right: left <= right,
    ">": lambda left, right: left > right,
    "<": lambda left, right: left < right,
    "=": lambda left, right: left == right,
}
_TURNED = {">=": "<=", "<=": ">=", ">": "<", "<": ">", "=": "="}
BELOW, SAME, ABOVE = -1, 0, 1


def plain(node: tree.Tree) -> tree.Tree:
    """A read line that only names a count or a condition, as that count or condition."""
    while isinstance(node, tree.ReadLine) and node.run is None:
        line = node.line
        if line.value is None or line.applies is not None:
            break
        counted = isinstance(line.value, (tree.Gather, tree.ReadLine)) and node.kind.unit == NUMBER
        if line.kind != YES_NO and not counted:
            break
        node = line.value
    return node


def label(node: tree.Tree) -> str:
    """An amount or a read as the words that it is known by."""
    if isinstance(node, tree.Gather):
        return f"{node.function}({node.group.name}{'.' + node.column.name if node.column is not None else ''})"
    if isinstance(node, tree.ReadLine):
        return node.line.id
    if isinstance(node, tree.Constant):
        return node.address or node.name
    if isinstance(node, (tree.ReadField,)):
        return f"{node.level}.{node.field}"
    if isinstance(node, (tree.ReadChoice,)):
        return node.address
    if isinstance(node, (tree.ReadObject, tree.ReadGiven)):
        return node.name
    if isinstance(node, tree.Asked):
        return f"known({label(node.read)})"
    inside = ", ".join(label(each) for each in tree.children(node))
    return f"{type(node).__name__}({getattr(node, 'sign', '')}{inside})"


class Atoms:
    """What conditions read, and the values to list for each."""

    def __init__(self, glossary: Glossary, rules: RuleSet) -> None:
        self.glossary = glossary
        self.rules = rules
        self.choices: dict[str, tuple[Any, ...]] = {}
        self.thresholds: dict[str, set[float]] = {}
        self.counts: set[str] = set()
        self.pairs: dict[str, tuple[int, ...]] = {}

    def choice(self, node: tree.Tree) -> None:
        """Note a choice, condition or scale with the values that it can take."""
        if isinstance(node, tree.ReadChoice):
            document, _, name = node.address.partition(".")
            self.choices[label(node)] = tuple(self.rules.documents[document].interpretations[name].options)
        elif node.kind == YES_NO:
            self.choices[label(node)] = (False, True)
        elif node.kind.form == "scale":
            self.choices[label(node)] = tuple(range(len(self.glossary.words(node.kind))))
        else:
            self.choices[label(node)] = self.glossary.words(node.kind)

    def compared(self, left: tree.Tree, right: tree.Tree) -> None:
        """Note a threshold that a value is compared with, or two values compared with one another.

        A parameter compared with another amount that stands fast may be either: an amendment changes it.
        """
        if isinstance(right, tree.Constant) and not isinstance(left, tree.Constant):
            self.thresholds.setdefault(label(left), set()).add(right.value)
            if isinstance(left, tree.Gather) and left.function == "count":
                self.counts.add(label(left))
        else:
            self.pairs[f"{label(left)} ? {label(right)}"] = (BELOW, SAME, ABOVE)

    def domains(self) -> dict[str, tuple[Any, ...]]:
        """Each atom with the values that matter: at each threshold, beside it and between two."""
        found: dict[str, tuple[Any, ...]] = dict(self.choices)
        for name, values in self.thresholds.items():
            ordered = sorted(values)
            if name in self.counts:
                beside = {value + step for value in ordered for step in (BELOW, SAME, ABOVE)}
            else:
                beside = {*ordered, ordered[0] / 2, 2 * ordered[-1] + 1}
                beside |= {(low + high) / 2 for low, high in pairwise(ordered)}
            found[name] = tuple(sorted(value for value in beside if value >= 0))
        found.update(self.pairs)
        return found


class Predicate:
    """A condition that can be asked for any combination of its atoms."""

    def __init__(self, collect: Callable[[Atoms], None], holds: Callable[[Mapping[str, Any]], bool]) -> None:
        self.collect = collect
        self.holds = holds

    @staticmethod
    def true() -> Predicate:
        """The predicate that always holds."""
        return Predicate(lambda atoms: None, lambda found: True)

    @staticmethod
    def all(parts: Iterable[Predicate]) -> Predicate:
        """Holds where every part does."""
        listed = list(parts)
        return Predicate(lambda atoms: _each(listed, atoms), lambda found: all(part.holds(found) for part in listed))

    @staticmethod
    def any(parts: Iterable[Predicate]) -> Predicate:
        """Holds where a part does."""
        listed = list(parts)
        return Predicate(lambda atoms: _each(listed, atoms), lambda found: any(part.holds(found) for part in listed))

    @staticmethod
    def negated(part: Predicate) -> Predicate:
        """Holds where the part does not."""
        return Predicate(part.collect, lambda found: not part.holds(found))

    @staticmethod
    def group(group: CheckedGroup) -> Predicate:
        """Holds for an item that is in the group."""
        if not group.bases:
            return Predicate.true()
        parts = [Predicate.any([Predicate.group(base) for base in group.bases])]
        if group.condition is not None:
            parts.append(Predicate.of(group.condition))
        parts += [Predicate.negated(Predicate.group(each)) for each in group.excepted]
        return Predicate.all(parts)

    @staticmethod
    def of(node: tree.Tree) -> Predicate:
        """The predicate of a checked condition."""
        node = plain(node)
        if isinstance(node, tree.Joined):
            parts = [Predicate.of(part) for part in node.parts]
            return Predicate.all(parts) if node.word == "and" else Predicate.any(parts)
        if isinstance(node, tree.Negation):
            return Predicate.negated(Predicate.of(node.inner))
        if isinstance(node, tree.OneOf):
            return _one_of(node)
        if isinstance(node, tree.Comparison):
            return _comparison(node)
        name = label(node)
        flag = node
        return Predicate(lambda atoms: atoms.choice(flag), lambda found: bool(found[name]))


def _each(parts: list[Predicate], atoms: Atoms) -> None:
    for part in parts:
        part.collect(atoms)


def _one_of(node: tree.OneOf) -> Predicate:
    name, values, negated = label(node.read), node.values, node.negated
    return Predicate(lambda atoms: atoms.choice(node.read), lambda found: (found[name] in values) is not negated)


def _comparison(node: tree.Comparison) -> Predicate:
    left, right, sign = plain(node.left), plain(node.right), node.sign
    if isinstance(left, tree.Constant) and not isinstance(right, tree.Constant):
        left, right, sign = right, left, _TURNED[sign]
    compare = _SIGNS[sign]
    name = label(left)
    if isinstance(right, tree.Constant) and not isinstance(left, tree.Constant):
        value = right.value
        return Predicate(lambda atoms: atoms.compared(left, right), lambda found: compare(found[name], value))
    pair = f"{name} ? {label(right)}"
    return Predicate(lambda atoms: atoms.compared(left, right), lambda found: compare(found[pair], SAME))


def possible(glossary: Glossary, names: Collection[str]) -> Callable[[Mapping[str, Any]], bool]:
    """Whether a load can be so, of combinations with these names: a flag that follows from its kind has that word."""
    follows: list[tuple[str, dict[str, list[tuple[str, Any]]]]] = []
    for name, collection in glossary.collections.items():
        kinds = [f"{name}.{field.name}" for field in collection.fields.values() if field.kind.name == "load_kind"]
        for kind in (each for each in kinds if each in names):
            words = {
                word: [
                    (f"{name}.{flag}", glossary.value(collection.fields[flag].kind, says.word))
                    for flag, says in declared.flags.items()
                    if says.how == "is" and f"{name}.{flag}" in names
                ]
                for word, declared in glossary.load_kinds.items()
            }
            follows.append((kind, words))
    return lambda found: all(found[flag] == value for kind, words in follows for flag, value in words[found[kind]])


def example(found: Mapping[str, Any]) -> str:
    """A combination in words."""
    shown = []
    for name, value in found.items():
        if " ? " in name:
            left, right = name.split(" ? ")
            word = {BELOW: "below", SAME: "equal to", ABOVE: "above"}[value]
            shown.append(f"{left} {word} {right}")
        elif isinstance(value, bool):
            shown.append(f"{name} is {'yes' if value else 'no'}")
        elif isinstance(value, float):
            shown.append(f"{name} = {value:g}")
        else:
            shown.append(f"{name} is {value}")
    return "; ".join(shown) or "always"
