"""What every part of the kind checks shares: where a formula stands, how a check fails, levels, applicability."""

from __future__ import annotations

from abc import ABC, abstractmethod
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from dwellcalc.glossary import Glossary
from dwellcalc.language import formulas, tree
from dwellcalc.language.documents import Document
from dwellcalc.language.levels import owners_of
from dwellcalc.language.names import place_in
from dwellcalc.language.tree import HOME, CheckedGroup, CheckedLine, CheckedMethod
from dwellcalc.placed import Text
from dwellcalc.problems import Message, Problems, message

if TYPE_CHECKING:
    from dwellcalc.language.kinds import Checker

Checked = tree.Tree

UNKNOWN_NAME = message("unknown_name", 'there is no name "{name}" here')
NOT_A_VALUE = message("not_a_value", '"{name}" is {what}; it has no value')
DIFFERENT_KINDS = message("different_kinds", "{left} and {right} are added, compared or chosen between, but are not of one kind")
NOT_QUANTITY = message("not_quantity", "{what} must be an amount, not {kind}")
OUTSIDE_GROUP = message("outside_group", 'the column "{name}" belongs to the group "{group}", which need not hold the items here')
CYCLE = message("cycle", "the line or group reads itself: {chain}")
PARAMETER_UNIT = message("parameter_unit", '"{text}" is not a number with a unit of units.txt')


class CheckFailed(Exception):
    """A tree that could not be checked; the problem has been noted."""


@dataclass
class FormulaContext:
    """Where a formula stands: its text, document, level, and the groups that an item here is known to be in."""

    text: Text
    document: Document
    level: str
    groups: tuple[CheckedGroup, ...]


class KindCheck(ABC):
    """The checks of one method, part by part; each part is a class of its own module."""

    def __init__(self, whole: Checker, method: CheckedMethod) -> None:
        self.whole = whole
        self.method = method
        self.glossary: Glossary = whole.glossary
        self.problems: Problems = whole.problems
        self.owner_of = {line: each for each in method.parts for line in each.lines}

    @abstractmethod
    def line(self, line: CheckedLine) -> bool:
        """Check a line, once; whether its kind is known."""

    @abstractmethod
    def checked(self, syntax: formulas.Tree, context: FormulaContext) -> Checked:
        """The checked tree of a formula."""

    @abstractmethod
    def condition(self, syntax: formulas.Tree | None, context: FormulaContext, what: str) -> Checked | None:
        """A condition that is always yes or no; problems are noted."""

    @abstractmethod
    def amount(self, syntax: formulas.Tree, context: FormulaContext, what: str) -> Checked:
        """The checked tree of an amount."""

    @abstractmethod
    def one_kind(self, left: Checked, right: Checked, syntax: Any, context: FormulaContext) -> None:
        """Refuse two amounts that are not of one kind."""

    def in_cycle(self, label: str, name: Text) -> bool:
        """Whether a line or group is being checked already: it reads itself."""
        if label not in self.whole.running:
            return False
        chain = [*self.whole.running[self.whole.running.index(label) :], label]
        self.problems.add(CYCLE, name.place, chain=" -> ".join(chain))
        return True

    def refuse(self, refusal: Message, syntax: formulas.Tree, context: FormulaContext, **given: Any) -> CheckFailed:
        """Note a problem at a part of a formula; what is returned is raised."""
        self.problems.add(refusal, place_in(context.text, syntax.start, syntax.end), **given)
        return CheckFailed()

    def unknown(self, syntax: formulas.Name, context: FormulaContext, near: str) -> CheckFailed:
        """Note that a name means nothing here; what is returned is raised."""
        return self.refuse(UNKNOWN_NAME, syntax, context, name=syntax.text, nearest=near)

    def here(self, context: FormulaContext) -> str:
        """What a line here has one value for, in words."""
        return "the home" if context.level == HOME else f"each of {context.level}"

    def owners(self, level: str) -> tuple[str, ...]:
        """What an item of a level belongs to, in this method."""
        return owners_of(self.glossary, self.method.level, level)

    def fields_of(self, level: str) -> tuple[str, ...]:
        """The fields of a level's collection."""
        collection = self.glossary.collections.get(level)
        return tuple(collection.fields) if collection is not None else ()


def same_group(group: CheckedGroup, other: CheckedGroup) -> bool:
    """The copies of one group in two methods hold the same items."""
    if group.address == other.address:
        return True
    return bool(group.bases) and all(same_group(base, other) for base in group.bases)


def is_zero(checked: Checked) -> bool:
    """Whether a tree is the literal 0, which goes with every kind."""
    return isinstance(checked, tree.Constant) and not checked.address and checked.value == 0


def may_be_absent(checked: Checked) -> bool:
    """Whether a tree may be not applicable."""
    if isinstance(checked, tree.ReadLine):
        return checked.line.absent
    if isinstance(checked, tree.Asked):
        return False
    if isinstance(checked, tree.Gather):
        if checked.column is None:
            return False
        column = isinstance(checked.column, tree.ReadLine) and checked.column.line.absent
        return column or (checked.function in ("mean", "largest") and not checked.group.never_empty)
    return any(may_be_absent(inner) for inner in tree.children(checked))
