"""Proofs over conditions: cases exclude each other and cover, nothing is never or always true, groups can hold something.

Every combination of the choices, flags and compared amounts that the conditions of a line read is listed.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from itertools import product
from typing import Any

from dwellcalc.glossary import Glossary
from dwellcalc.language import conditions, tree
from dwellcalc.language.conditions import Atoms, Predicate
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.language.tree import CheckedCondition, CheckedGroup, CheckedLine, CheckedMethod
from dwellcalc.placed import Text
from dwellcalc.problems import Problems, message

TWO_HOLD = message("two_cases_hold", "two cases can hold at once: {example}")
NONE_HOLDS = message("no_case_holds", "no case holds for: {example}", "add the missing case, or `otherwise`")
CASE_NEVER = message("case_never", "this case never holds")
OTHERWISE_NEVER = message("otherwise_never", "`otherwise` is never reached")
APPLIES_NEVER = message("applies_never", "this `applies` is never true")
APPLIES_ALWAYS = message("applies_always", "this `applies` is always true", "take it out")
USE_NEVER = message("use_never", "this condition of use is never met")
USE_ALWAYS = message("use_always", "this condition of use is always met", "take it out")
GROUP_EMPTY = message("group_empty", 'the group "{name}" can hold nothing')
GROUP_ALWAYS = message("group_always", 'the condition of the group "{name}" leaves nothing out', "take it out")
EXCEPT_NOTHING = message("except_nothing", 'the exception "{name}" takes nothing out')
KEY_ZERO = message(
    "key_zero",
    'the key of "{table}" may be 0, and the table has no row for it',
    "ask `count(...) > 0` first, in `applies` or a case",
)

MOST_COMBINATIONS = 131072  # beyond it a condition is passed over: a limit of time, no number of a code


Piece = CheckedGroup | CheckedLine | CheckedCondition


def prove(rules: RuleSet, problems: Problems, asked: Callable[[Piece], bool] = lambda piece: True) -> None:
    """Prove every line, group and condition of use of a rule set, or those asked for; what cannot be upheld is noted."""
    proven: set[str] = set()
    for method in rules.methods.values():
        _MethodProofs(rules.glossary, rules, method, problems).prove(proven, asked)
        proven.update(str(part.name) for part in method.parts)


class _MethodProofs:
    def __init__(self, glossary: Glossary, rules: RuleSet, method: CheckedMethod, problems: Problems) -> None:
        self.glossary = glossary
        self.rules = rules
        self.method = method
        self.problems = problems

    def prove(self, proven: set[str], asked: Callable[[Piece], bool]) -> None:
        """Prove what is asked for in the method and in those of its parts that no method before it has proven."""
        for group in filter(asked, self.method.groups.values()):
            if group.address.partition(".")[0] not in proven:
                self.group(group)
        for part in self.method.parts:
            if str(part.name) not in proven:
                for line in filter(asked, (self.method.lines[str(name)] for name in part.lines)):
                    self.line(line)
        for condition in filter(asked, self.method.permitted):
            self.always_or_never(Predicate.of(condition.require), condition.source.text, USE_NEVER, USE_ALWAYS)

    def combinations(self, predicates: Iterable[Predicate]) -> Iterator[Mapping[str, Any]] | None:
        """Every combination of what the predicates read, or nothing where there are too many to list."""
        atoms = Atoms(self.glossary, self.rules)
        for predicate in predicates:
            predicate.collect(atoms)
        domains = atoms.domains()
        count = 1
        for values in domains.values():
            count *= len(values)
        if count > MOST_COMBINATIONS:
            return None
        names = list(domains)
        possible = conditions.possible(self.glossary, names)
        return (found for values in product(*domains.values()) if possible(found := dict(zip(names, values, strict=True))))

    def always_or_never(
        self, predicate: Predicate, text: Text, never: Any, always: Any, context: Predicate | None = None
    ) -> None:
        inside = context if context is not None else Predicate.true()
        combinations = self.combinations([predicate, inside])
        if combinations is None:
            return
        outcomes = {predicate.holds(each) for each in combinations if inside.holds(each)}
        if outcomes == {False}:
            self.problems.add(never, text.place)
        elif outcomes == {True}:
            self.problems.add(always, text.place)

    # groups

    def group(self, group: CheckedGroup) -> None:
        if not group.bases or group.source is None:
            return
        whole, bases = Predicate.group(group), Predicate.any(Predicate.group(base) for base in group.bases)
        combinations = self.combinations([whole])
        if combinations is None:
            return
        listed = list(combinations)
        if not any(whole.holds(each) for each in listed):
            self.problems.add(GROUP_EMPTY, group.source.name.place, name=group.name)
            return
        self.condition_of_group(group, bases, listed)
        condition = Predicate.of(group.condition) if group.condition is not None else Predicate.true()
        for at, excepted in enumerate(group.excepted):
            left = Predicate.group(excepted)
            others = [Predicate.group(each) for place, each in enumerate(group.excepted) if place != at]
            if not any(
                bases.holds(each)
                and condition.holds(each)
                and left.holds(each)
                and not any(other.holds(each) for other in others)
                for each in listed
            ):
                self.problems.add(EXCEPT_NOTHING, group.source.excepted[at].place, name=excepted.name)

    def condition_of_group(self, group: CheckedGroup, bases: Predicate, listed: list[Mapping[str, Any]]) -> None:
        if group.condition is None or group.source is None or group.source.condition_text is None:
            return
        condition = Predicate.of(group.condition)
        if all(condition.holds(each) for each in listed if bases.holds(each)):
            self.problems.add(GROUP_ALWAYS, group.source.condition_text.place, name=group.name)

    # lines

    def line(self, line: CheckedLine) -> None:
        inside = Predicate.group(line.each) if line.each is not None else Predicate.true()
        if line.applies is not None and line.source.applies_text is not None:
            self.always_or_never(Predicate.of(line.applies), line.source.applies_text, APPLIES_NEVER, APPLIES_ALWAYS, inside)
            inside = Predicate.all([inside, Predicate.of(line.applies)])
        if line.cases:
            self.cases(line, inside)
        for whole, context in self.lookups(line, inside):
            self.key(line, whole, context)

    def cases(self, line: CheckedLine, inside: Predicate) -> None:
        whens = [Predicate.of(case.when) for case in line.cases if case.when is not None]
        otherwise = line.cases[-1].when is None
        combinations = self.combinations([inside, *whens])
        if combinations is None:
            return
        held = [False] * (len(whens) + 1)
        for each in combinations:
            if not inside.holds(each):
                continue
            holding = [at for at, when in enumerate(whens) if when.holds(each)]
            for at in holding:
                held[at] = True
            if len(holding) > 1:
                place = line.cases[holding[1]].source
                text = place.when_text if place.when_text is not None else line.source.name
                first = line.cases[holding[0]].source.when_text
                others = [("the other case", first.place)] if first is not None else []
                self.problems.add(TWO_HOLD, text.place, example=conditions.example(each), others=others)
                return
            if not holding:
                held[-1] = True
                if not otherwise:
                    self.problems.add(NONE_HOLDS, line.source.name.place, example=conditions.example(each))
                    return
        for case, seen in zip(line.cases, [*held[: len(whens)], held[-1]], strict=False):
            if not seen:
                text = case.source.when_text if case.source.when_text is not None else case.source.then_text
                self.problems.add(OTHERWISE_NEVER if case.when is None else CASE_NEVER, text.place)

    def lookups(self, line: CheckedLine, inside: Predicate) -> Iterator[tuple[tree.Tree, Predicate]]:
        if line.value is not None:
            yield line.value, inside
        for case in line.cases:
            yield case.then, Predicate.all([inside, Predicate.of(case.when)]) if case.when is not None else inside

    def key(self, line: CheckedLine, whole: tree.Tree, context: Predicate) -> None:
        """A table whose key counts something must have a row for 0, or be asked only where there is something."""
        for node in tree.walk(whole):
            if not isinstance(node, tree.Lookup):
                continue
            key = conditions.plain(node.keys[0])
            if (
                not isinstance(key, tree.Gather)
                or key.function != "count"
                or key.group.never_empty
                or node.table.row_for(0) is not None
            ):
                continue
            zero = Predicate.of(tree.Comparison("=", key, tree.Constant("0", 0.0, key.kind)))
            combinations = self.combinations([context, zero])
            if combinations is not None and any(context.holds(each) and zero.holds(each) for each in combinations):
                self.problems.add(KEY_ZERO, line.source.name.place, table=node.table.name)
