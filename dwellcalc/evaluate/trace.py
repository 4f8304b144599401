"""Makes the sheet of a method from an evaluation: each line with its operands, members, rows and alternatives."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from dwellcalc.evaluate import printed, tiers
from dwellcalc.evaluate.amended import authorities
from dwellcalc.evaluate.gathering import UNSET, Read
from dwellcalc.evaluate.sheet import (
    KNOWN,
    NOT_APPLICABLE,
    NOT_NEEDED,
    UNKNOWN,
    Condition,
    LeftOutEntry,
    MethodSheet,
    Outcome,
    Part,
    SheetLine,
    Tier,
    UseCondition,
)
from dwellcalc.evaluate.traced import Evaluation
from dwellcalc.evaluate.weak import weak_values
from dwellcalc.evaluate.work import NO, YES, Worker, state_of
from dwellcalc.facts import Unknown
from dwellcalc.language import tree
from dwellcalc.language.formulas import Tree
from dwellcalc.language.reach import named_by
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.language.tree import HOME, CheckedLine, CheckedMethod, CheckedRun
from dwellcalc.language.words import POLICY
from dwellcalc.placed import Text

ON_CONDITION = "on condition"


class Tracer:
    """Makes sheets from one evaluation."""

    def __init__(self, evaluation: Evaluation) -> None:
        self.evaluation = evaluation
        self.plan = evaluation.plan
        self.rules: RuleSet = evaluation.plan.rules
        self.glossary = self.rules.glossary
        self.facts = evaluation.facts
        self.worker = Worker(evaluation)

    # a method

    def method(self, name: str, item: int = 0, *, results: bool = True) -> MethodSheet:
        """The sheet of a method for the unit or home at a position; its results and columns are evaluated first."""
        method = self.rules.methods[name]
        outcomes = self.evaluation.permitted(name, item)
        conditions = [self.use(each, outcome, method) for each, outcome in zip(method.permitted, outcomes, strict=True)]
        return self._sheet(method, str(method.source.title), item, conditions, results=results)

    def _sheet(
        self, method: CheckedMethod, title: str, item: int, conditions: list[UseCondition], *, results: bool = True
    ) -> MethodSheet:
        if results:
            for line in method.results.values():
                self.evaluation.value(line.position, item)
            for line in method.columns.values():
                for each in self.members_of(line, item, method):
                    self.evaluation.value(line.position, each)
        shown = self.plan.printed_lines(method)
        lines = [self.line(line, method, item) for line in shown]
        made = {each: self.outcome(line, item) for each, line in method.results.items()}
        cite = self.rules.section(str(method.source.cite))
        sheet = MethodSheet(
            method.name, title, cite, may_be_used(conditions), conditions, lines, self.left_out(method, item), made
        )
        sheet.code_values_not_verified = weak_values(shown, self.evaluation, self.worker)
        sheet.runs = self.runs(shown)
        return sheet

    def runs(self, lines: list[CheckedLine]) -> list[MethodSheet]:
        """The sheets of the runs that some lines read, where they keep something; their use is not asked."""
        read = {each for line in lines for each in named_by(line) if isinstance(each, CheckedRun)}
        kept = [(run, each) for run, each in self.evaluation.runs.items() if run in read and any(each.keep.values())]
        found = [Tracer(each).run(run) for run, each in kept]
        return [each for sheet in found for each in (replace(sheet, runs=[]), *sheet.runs)]

    def run(self, run: CheckedRun) -> MethodSheet:
        """The sheet of a run that this is the evaluation of."""
        method = self.rules.methods[run.evaluated]
        title = f"{run.source.title}: {method.source.title}"
        return replace(self._sheet(method, title, 0, []), id=self.evaluation.within)

    def use(self, condition: tree.CheckedCondition, outcome: Any, method: CheckedMethod) -> UseCondition:
        """A condition of use with its outcome."""
        source = condition.source
        document = next(each for each in method.parts if source in each.permitted)
        if_not = self.plan.filled(source.if_not, document)
        asks = self.plan.filled(source.asks, document) if source.asks is not None else f"not that {if_not}"
        cite = self.rules.section(str(source.cite))
        if isinstance(outcome, Unknown):
            return UseCondition(asks, ON_CONDITION, cite, if_not, sorted(outcome.inputs | outcome.refusals))
        return UseCondition(asks, YES if outcome else NO, cite, if_not)

    def left_out(self, method: CheckedMethod, item: int) -> list[LeftOutEntry]:
        """What the method leaves out of this home, with the reason."""
        found = []
        for entry, group in method.left_out:
            members = self.evaluation.decided(self.plan.places[id(group)])
            items = self.facts.collections[group.collection]
            names = [self.named(group.collection, each) for each in members.items if _belongs(items.owner[each], item, method)]
            if names:
                cite = self.rules.section(str(entry.cite))
                found.append(LeftOutEntry(group.name, names, cite, str(entry.because)))
        return found

    def named(self, collection: str, item: int) -> str:
        """An item by name, with its quantity where that is not one."""
        items = self.facts.collections[collection]
        quantity = items.quantity[item]
        return items.names[item] if quantity == 1 else f"{items.names[item]} ({printed.number(quantity)})"

    # a line

    def line(self, line: CheckedLine, method: CheckedMethod, item: int) -> SheetLine:
        """A line of the sheet, with its outcome or those of its items."""
        source = line.source
        made = SheetLine(
            self.evaluation.printed_id(line),
            line.address,
            self.plan.title(line),
            self.rules.section(str(source.cite)),
            "tiers" if source.way == "of" else source.way,
            source.working,
            line.each.name if line.each is not None else None,
            "" if line.level == HOME else line.level,
            self.glossary.printed_kind(line.kind) if line.kind is not None else "",
            note=str(source.note or ""),
            source=str(source.evidence.source or ""),
            confidence=str(source.evidence.confidence or ""),
            status=POLICY if source.is_policy else "",
        )
        made.origin = [f"{each.document}: {each.set_title}" for each in self.rules.changes_to(line.address)]
        made.amended = authorities(self.rules, line)
        if line.each is None or line.level == method.level:
            made.each = None if line.level == method.level else made.each
            made.outcome = self.outcome(line, item if line.level == method.level else 0)
        else:
            made.items = [self.outcome(line, each) for each in self.items_of(line, item, method)]
        asked = {each.address for each in named_by(line) if isinstance(each, tree.ReadChoice)}
        made.interpretation = sorted(asked & self.evaluation.read_choices)  # those that nothing of this home asks are left out
        return made

    def items_of(self, line: CheckedLine, item: int, method: CheckedMethod) -> list[int]:
        """The items that a column line has values for on this sheet."""
        if not any(value is not UNSET for value in self.evaluation.cells[line.position]):
            return []
        return self.members_of(line, item, method)

    def members_of(self, line: CheckedLine, item: int, method: CheckedMethod) -> list[int]:
        """The items of the group that a column line is for, as far as they or those connected to them are of the method's item."""
        group = line.each
        if group is None:
            return []
        members = self.evaluation.decided(self.plan.places[id(group)])
        name, items = group.collection, self.facts.collections[group.collection]
        own = {each for each in members.items if _belongs(items.owner[each], item, method)}
        if name in self.glossary.collections[name].on:
            own |= {other for each in own for other, _ in self.facts.connected[name][each]}
        return [each for each in members.items if each in own]

    # an outcome

    def outcome(self, line: CheckedLine, item: int) -> Outcome:
        """What a line gave for an item, with everything it rests on."""
        value = self.evaluation.cells[line.position][item]
        assert line.kind is not None
        made = Outcome(state_of(value))
        made.unit = self.worker.unit(line.kind)
        if line.each is not None:
            items = self.facts.collections[line.each.collection]
            made.item, made.number = items.names[item], items.quantity[item]
        if made.state == NOT_NEEDED:
            return made
        if made.state == UNKNOWN:
            made.missing, made.refusals = sorted(value.inputs), sorted(value.refusals)
        if made.state == KNOWN:
            made.value = self.worker.plain(value, line.kind)
        made.printed = printed.value(value, line.kind, self.glossary)
        if line.applies is not None and line.source.applies is not None and line.source.applies_text is not None:
            made.applies = self.condition(line.source.applies_text, line.source.applies, line.applies, line, item)
        if made.applies is None or made.applies.outcome:  # else nothing of its way was evaluated
            self.way(made, line, item)
        return made

    def way(self, made: Outcome, line: CheckedLine, item: int) -> None:
        """Fill in how a line came to its value."""
        source = line.source
        if line.value is not None and source.value is not None and source.value_text is not None:
            self._worked(made, source.value_text, source.value, line.value, line, item)
        elif line.cases:
            self.cases(made, line, item)
        elif line.of is not None:
            self.tiers(made, line, item)
        else:
            made.parts = self.parts(line, item)

    def _worked(self, made: Outcome, text: Text, syntax: Tree, checked: tree.Tree, line: CheckedLine, item: int) -> None:
        work = self.worker.work(text, syntax, checked, line, item)
        made.formula, made.with_numbers = work.formula, work.with_numbers
        made.inputs, made.members, made.rows_used = work.inputs, work.members, work.rows_used

    def cases(self, made: Outcome, line: CheckedLine, item: int) -> None:
        """Fill in the cases, and the formula of the one taken."""
        for case in line.cases:
            if case.when is None or case.source.when is None or case.source.when_text is None:
                taken = self.evaluation.cases.get((line.position, item))
                made.conditions.append(Condition(None, None if taken is None else taken == len(line.cases) - 1))
                continue
            made.conditions.append(self.condition(case.source.when_text, case.source.when, case.when, line, item))
        made.case = self.evaluation.cases.get((line.position, item))
        if made.case is None:
            return
        case = line.cases[made.case]
        if case.source.cite is not None:
            made.cite = self.rules.section(str(case.source.cite))
        if case.source.then is not None:
            self._worked(made, case.source.then_text, case.source.then, case.then, line, item)

    def condition(self, text: Text, syntax: Tree, checked: tree.Tree, line: CheckedLine, item: int) -> Condition:
        """A condition with its outcome and what it read."""
        work = self.worker.work(text, syntax, checked, line, item)
        outcome = self.truth(checked, line, item)
        return Condition(str(text), outcome, work.inputs, work.members, work.rows_used)

    def truth(self, checked: tree.Tree, line: CheckedLine, item: int) -> bool | None:
        """The outcome of a condition, read again from values that are kept already."""
        value = self._reader(checked, line)(self.evaluation, item)
        return value if isinstance(value, bool) else None

    def _reader(self, node: tree.Tree, line: CheckedLine) -> Read:
        return self.plan.reader(node, line.level, self.plan.per[line.method])

    def tiers(self, made: Outcome, line: CheckedLine, item: int) -> None:
        """Fill in the portions with the amount in each."""
        assert line.of is not None
        assert line.source.of is not None
        assert line.source.of_text is not None
        work = self.worker.work(line.source.of_text, line.source.of, line.of, line, item)
        made.of, made.inputs, made.members, made.rows_used = work.formula, work.inputs, work.members, work.rows_used
        quantity = self._reader(line.of, line)(self.evaluation, item)
        if not isinstance(quantity, float):
            return
        made.quantity, made.quantity_unit = quantity, self.worker.unit(line.of.kind)
        shown = []
        for phrase, portion in zip(line.phrases, tiers.portions(quantity, line.phrases), strict=True):
            unit = self.glossary.units.printed(phrase.kind)
            made.phrases.append(
                Tier(
                    str(phrase.text),
                    phrase.amount,
                    unit,
                    phrase.shares,
                    phrase.portion,
                    phrase.step,
                    phrase.rounds,
                    portion.taken,
                    portion.value,
                )
            )
            if phrase.shares:
                shown.append(f"{printed.number(phrase.amount)} {unit} of {printed.number(portion.taken)}")
            elif portion.value:
                shown.append(f"{printed.number(portion.value)} {unit}")
        told = " + ".join(shown)
        made.with_numbers = f"{told} {made.unit}" if any(phrase.shares for phrase in line.phrases) else told

    def parts(self, line: CheckedLine, item: int) -> list[Part]:
        """The parts of a combining line, and which were added or taken."""
        values = [self._reader(part, line)(self.evaluation, item) for part in line.parts]
        known = [value for value in values if state_of(value) == KNOWN]
        least = line.source.way == "least_of"
        chosen = None if line.source.way == "sum_of" or not known else min(known) if least else max(known)
        found = []
        taken_already = False
        for part, value in zip(line.parts, values, strict=True):
            state = state_of(value)
            taken = state == KNOWN and (chosen is None or (value == chosen and not taken_already))
            taken_already = taken_already or (taken and chosen is not None)
            why = self._why(state, taken, chosen is None, least)
            title = self.plan.title(part.line)
            shown = self.worker.plain(value, part.kind) if state == KNOWN else None
            position = value if part.kind.form == "scale" and state == KNOWN else None
            unit, text = self.worker.unit(part.kind), printed.value(value, part.kind, self.glossary)
            found.append(Part(self.worker.line_of(part), title, shown, unit, state, taken, why, position, text))
        return found

    def _why(self, state: str, taken: bool, added: bool, least: bool) -> str:
        if state == NOT_APPLICABLE:
            return "does not apply"
        if state == UNKNOWN:
            return "cannot be calculated"
        if added:
            return "added"
        which = "least" if least else "largest"
        return f"taken, the {which}" if taken else f"not taken, not the {which}"


def may_be_used(conditions: Iterable[UseCondition]) -> str:
    """Yes, no, or on condition."""
    outcomes = [condition.outcome for condition in conditions]
    if NO in outcomes:
        return NO
    return ON_CONDITION if ON_CONDITION in outcomes else YES


def _belongs(owner: int, item: int, method: CheckedMethod) -> bool:
    return method.level == HOME or owner == item
