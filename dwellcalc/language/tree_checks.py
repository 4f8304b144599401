"""Formulas: arithmetic, comparisons and conditions become checked trees."""

from __future__ import annotations

from typing import Any

from dwellcalc.glossary import YES_NO, quantity_kind
from dwellcalc.language import formulas, tree
from dwellcalc.language.call_checks import CallCheck
from dwellcalc.language.kind_checks import (
    DIFFERENT_KINDS,
    NOT_QUANTITY,
    Checked,
    CheckFailed,
    FormulaContext,
    is_zero,
    may_be_absent,
)
from dwellcalc.language.names import place_in
from dwellcalc.problems import message, nearest_name
from dwellcalc.units import NUMBER, PERCENT, over, times

NOT_CONDITION = message("not_condition", "{what} must be a condition, not {kind}")
PERCENT_DIVIDED = message("percent_divided", "a percent multiplies; it is not divided and nothing is divided by it")
NOT_A_CHOICE = message("not_a_choice", '"{name}" is no choice', "`is` and `in` ask for a word of a choice")
UNKNOWN_WORD = message("unknown_word", '"{word}" is not a word of {choice}', "one of: {known}")
ABSENT_CONDITION = message(
    "absent_condition",
    "this condition may be not applicable",
    "a condition must always be yes or no; ask `count(...) > 0` first, in cases",
)


class TreeCheck(CallCheck):
    """Checks formulas."""

    def checked(self, syntax: formulas.Tree, context: FormulaContext) -> Checked:
        """The checked tree of a formula."""
        if isinstance(syntax, formulas.Literal):
            return tree.Constant(f"{syntax.value:g}", float(syntax.value), quantity_kind(NUMBER))
        if isinstance(syntax, formulas.Name):
            return self.name(syntax, context)
        if isinstance(syntax, formulas.Call):
            return self.call(syntax, context)
        if isinstance(syntax, formulas.Arithmetic):
            return self.arithmetic(syntax, context)
        if isinstance(syntax, formulas.Compare):
            return self.comparison(syntax, context)
        if isinstance(syntax, formulas.Among):
            return self.among(syntax, context)
        if isinstance(syntax, formulas.Not):
            return tree.Negation(self.inner_condition(syntax.inner, context))
        return tree.Joined(syntax.word, tuple(self.inner_condition(part, context) for part in syntax.parts))

    def inner_condition(self, syntax: formulas.Tree, context: FormulaContext) -> Checked:
        """A part that must be a condition."""
        checked = self.checked(syntax, context)
        if checked.kind != YES_NO:
            place = place_in(context.text, syntax.start, syntax.end)
            self.problems.add(NOT_CONDITION, place, what="this", kind=self.glossary.printed_kind(checked.kind))
            raise CheckFailed
        return checked

    def amount(self, syntax: formulas.Tree, context: FormulaContext, what: str) -> Checked:
        """A part that must be an amount."""
        checked = self.checked(syntax, context)
        if checked.kind.form != "quantity":
            shown = self.glossary.printed_kind(checked.kind)
            raise self.refuse(NOT_QUANTITY, syntax, context, what=what, kind=shown)
        return checked

    def arithmetic(self, syntax: formulas.Arithmetic, context: FormulaContext) -> Checked:
        """Two amounts with + - * or /, and the kind of the result."""
        left = self.amount(syntax.left, context, "the left side")
        right = self.amount(syntax.right, context, "the right side")
        if syntax.sign in ("+", "-"):
            self.one_kind(left, right, syntax, context)
            return tree.Arithmetic(syntax.sign, left, right, right.kind if is_zero(left) else left.kind)
        combine = times if syntax.sign == "*" else over
        kind = combine(left.kind.unit, right.kind.unit)
        if kind is None:
            raise self.refuse(PERCENT_DIVIDED, syntax, context)
        percent = ""
        if syntax.sign == "*":
            percent = "right" if right.kind.unit == PERCENT else "left" if left.kind.unit == PERCENT else ""
        return tree.Arithmetic(syntax.sign, left, right, quantity_kind(kind), percent)

    def one_kind(self, left: Checked, right: Checked, syntax: Any, context: FormulaContext) -> None:
        """Refuse two amounts that are not of one kind; 0 goes with every kind."""
        if left.kind == right.kind or is_zero(left) or is_zero(right):
            return
        shown = self.glossary.printed_kind
        other = place_in(context.text, syntax.left.start, syntax.left.end)
        self.problems.add(
            DIFFERENT_KINDS,
            place_in(context.text, syntax.right.start, syntax.right.end),
            left=shown(left.kind),
            right=shown(right.kind),
            others=[("the other side", other)],
        )
        raise CheckFailed

    def comparison(self, syntax: formulas.Compare, context: FormulaContext) -> Checked:
        """Two amounts or two values of a scale compared."""
        left, right = self.checked(syntax.left, context), self.checked(syntax.right, context)
        for side, checked in ((syntax.left, left), (syntax.right, right)):
            if checked.kind.form not in ("quantity", "scale"):
                shown = self.glossary.printed_kind(checked.kind)
                raise self.refuse(NOT_QUANTITY, side, context, what="what is compared", kind=shown)
        self.one_kind(left, right, syntax, context)
        return tree.Comparison(syntax.sign, left, right)

    def among(self, syntax: formulas.Among, context: FormulaContext) -> Checked:
        """A choice compared with words."""
        read = self.name(syntax.name, context)
        if isinstance(read, tree.ReadChoice):
            options = self.options(read)
            known: tuple[str, ...] = tuple(options)
        elif read.kind.form in ("choice", "yes_no", "scale"):
            known = self.glossary.words(read.kind)
        else:
            raise self.refuse(NOT_A_CHOICE, syntax.name, context, name=syntax.name.text)
        values = []
        for word in syntax.words:
            if word.text not in known:
                shown = ", ".join(known)
                near = nearest_name(word.text, known)
                raise self.refuse(UNKNOWN_WORD, word, context, word=word.text, choice=syntax.name.text, known=shown, nearest=near)
            choice = isinstance(read, tree.ReadChoice)
            values.append(word.text if choice else self.glossary.value(read.kind, word.text))
        return tree.OneOf(read, tuple(values), syntax.negated)

    def value(self, syntax: formulas.Tree | None, context: FormulaContext) -> Checked:
        """The tree of a line's amount."""
        if syntax is None:
            raise CheckFailed
        return self.checked(syntax, context)

    def condition(self, syntax: formulas.Tree | None, context: FormulaContext, what: str) -> Checked | None:
        """A condition that is always yes or no; problems are noted."""
        if syntax is None:
            return None
        try:
            checked = self.checked(syntax, context)
        except CheckFailed:
            return None
        place = place_in(context.text, syntax.start, syntax.end)
        if checked.kind != YES_NO:
            self.problems.add(NOT_CONDITION, place, what=what, kind=self.glossary.printed_kind(checked.kind))
            return None
        if may_be_absent(checked):
            self.problems.add(ABSENT_CONDITION, place)
            return None
        return checked
