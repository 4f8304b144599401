"""Lines: levels, the way to the value, tiers, parts, whether a line may be not applicable."""

from __future__ import annotations

from typing import Any

from dwellcalc.glossary import ValueKind, quantity_kind
from dwellcalc.language import formulas, tree
from dwellcalc.language.kind_checks import DIFFERENT_KINDS, NOT_A_VALUE, NOT_QUANTITY, CheckFailed, FormulaContext, may_be_absent
from dwellcalc.language.phrases import FIRST, FURTHER, REST, Phrase, parse_phrase
from dwellcalc.language.tree import CheckedCase, CheckedLine
from dwellcalc.language.tree_checks import TreeCheck
from dwellcalc.language.words import COMBINING
from dwellcalc.placed import Text
from dwellcalc.problems import InputError, message

TIER_KINDS = message("tier_kinds", "the portion is {portion}, but the quantity is {quantity}")
TIER_ORDER = message("tier_order", "tiers begin with `the first` and end with `the rest` or `each further`")


_, *CHOOSING_ONE = COMBINING


class LineCheck(TreeCheck):
    """Checks lines."""

    def line(self, line: CheckedLine) -> bool:
        """Check a line, once; whether its kind is known."""
        if line.position >= 0:
            return line.kind is not None
        if self.in_cycle(line.id, line.source.name):
            return False
        self.whole.running.append(line.id)
        try:
            self.level(line)
            self.way(line)
        except CheckFailed:
            line.kind = None
        finally:
            self.whole.running.pop()
        line.position = self.whole.line_count
        self.whole.line_count += 1
        return line.kind is not None

    def level(self, line: CheckedLine) -> None:
        """The group and the level of a column line."""
        each = line.source.each
        if each is None:
            return
        document = self.owner_of[line.name]
        line.each = self.group_named(each, document, each)
        if line.each is None:
            raise CheckFailed
        self.whole.used.add(line.each.address)
        line.level = line.each.collection

    def way(self, line: CheckedLine) -> None:
        """The line's condition and its way to the value."""
        source = line.source
        document = self.owner_of[line.name]
        groups = (line.each,) if line.each is not None else ()

        def context(text: Text | None) -> FormulaContext:
            return FormulaContext(text if text is not None else source.name, document, line.level, groups)

        if source.applies is not None:
            line.applies = self.condition(source.applies, context(source.applies_text), "`applies`")
        if source.way == "value":
            line.value = self.value(source.value, context(source.value_text))
            line.kind = line.value.kind
            line.absent = may_be_absent(line.value)
        elif source.way == "cases":
            self.cases(line, context)
        elif source.way == "of":
            self.tiers(line, context(source.of_text))
        else:
            self.parts(line, context)
        line.absent = line.absent or line.applies is not None

    def cases(self, line: CheckedLine, context: Any) -> None:
        """Cases, all of one kind."""
        made = []
        for case in line.source.cases:
            when = self.condition(case.when, context(case.when_text), "`when`") if case.when is not None else None
            then = self.value(case.then, context(case.then_text))
            made.append(CheckedCase(case, when, then))
            if case.when is not None and when is None:
                raise CheckFailed
        if not made:
            raise CheckFailed
        line.cases = tuple(made)
        for case, checked in zip(line.source.cases[1:], made[1:], strict=True):
            first = line.source.cases[0].then_text.place
            self.same(made[0].then.kind, checked.then.kind, case.then_text, first)
        line.kind = made[0].then.kind
        line.absent = any(may_be_absent(case.then) for case in made)

    def same(self, left: ValueKind, right: ValueKind, text: Text, other: Any) -> None:
        """Refuse an amount that is not of the kind of the others."""
        if left != right:
            shown = self.glossary.printed_kind
            self.problems.add(
                DIFFERENT_KINDS, text.place, left=shown(left), right=shown(right), others=[("the other side", other)]
            )
            raise CheckFailed

    def tiers(self, line: CheckedLine, context: FormulaContext) -> None:
        """Tiers of a quantity, all of one kind."""
        line.of = self.value(line.source.of, context)
        self.need_quantity(line.of.kind, context.text.place, "`of`")
        try:
            line.phrases = tuple(parse_phrase(text, self.glossary.units) for text in line.source.tiers)
        except InputError as error:
            self.problems.found.extend(error.problems)
            raise CheckFailed from None
        self.check_phrases(line, line.phrases)
        first = line.phrases[0]
        line.kind = line.of.kind if first.shares else quantity_kind(first.kind)
        for phrase in line.phrases[1:]:
            kind = line.of.kind if phrase.shares else quantity_kind(phrase.kind)
            self.same(line.kind, kind, phrase.text, first.text.place)
        line.absent = may_be_absent(line.of)

    def check_phrases(self, line: CheckedLine, phrases: tuple[Phrase, ...]) -> None:
        """Portions are of the quantity's kind, begin with the first and end openly."""
        assert line.of is not None
        for phrase in phrases:
            if phrase.portion != REST and phrase.step_kind != line.of.kind.unit:
                portion = self.glossary.units.printed(phrase.step_kind)
                quantity = self.glossary.printed_kind(line.of.kind)
                self.problems.add(TIER_KINDS, phrase.text.place, portion=portion, quantity=quantity)
        for phrase in phrases:
            first, last = phrase is phrases[0], phrase is phrases[-1]
            if (phrase.portion == FIRST) != first or (phrase.portion in (REST, FURTHER)) != last:
                self.problems.add(TIER_ORDER, phrase.text.place)
                break

    def parts(self, line: CheckedLine, context: Any) -> None:
        """The lines of a combining line, all of one kind: amounts, or values of one scale, of which one is chosen."""
        made = []
        for text in line.source.parts:
            name = formulas.Name(str(text), 0, len(text))
            part = self.name(name, context(text))
            if not isinstance(part, tree.ReadLine):
                self.problems.add(NOT_A_VALUE, text.place, name=text, what="no line")
                raise CheckFailed
            if line.source.way not in CHOOSING_ONE or part.kind.form != "scale":
                self.need_quantity(part.kind, text.place, f'"{text}"')
            made.append(part)
        for text, part in zip(line.source.parts[1:], made[1:], strict=True):
            self.same(made[0].kind, part.kind, text, line.source.parts[0].place)
        if not made:
            raise CheckFailed
        line.parts = tuple(made)
        line.kind = made[0].kind
        line.absent = all(part.line.absent for part in made)

    def need_quantity(self, kind: ValueKind, place: Any, what: str) -> None:
        """Refuse what is no amount."""
        if kind.form != "quantity":
            self.problems.add(NOT_QUANTITY, place, what=what, kind=self.glossary.printed_kind(kind))
            raise CheckFailed
