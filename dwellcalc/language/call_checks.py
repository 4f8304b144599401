"""Functions in formulas: gathering words, choosing, rounding, tables."""

from __future__ import annotations

from dwellcalc.glossary import YES_NO, ValueKind, quantity_kind
from dwellcalc.language import formulas, tree, words
from dwellcalc.language.documents import Line
from dwellcalc.language.kind_checks import (
    DIFFERENT_KINDS,
    NOT_QUANTITY,
    OUTSIDE_GROUP,
    Checked,
    CheckFailed,
    FormulaContext,
    is_zero,
    same_group,
)
from dwellcalc.language.name_checks import NameCheck
from dwellcalc.language.names import Meaning, place_in
from dwellcalc.language.tables import Table
from dwellcalc.language.tree import CheckedGroup, CheckedLine, CheckedMethod
from dwellcalc.placed import part_of
from dwellcalc.problems import message, nearest_name
from dwellcalc.units import NUMBER

NOT_GATHERED = message("not_gathered", '"{group}" cannot be gathered by a line that has one value for {here}')
GATHER_FORM = message("gather_form", "{function} takes {wanted}", "arithmetic is a line of its own")
ARGUMENTS = message("arguments", "{function} takes {wanted}")
NO_TABLE = message("no_table", 'there is no table "{name}"')
NO_COLUMN = message("no_column", 'the table "{table}" has no column "{column}"')
TABLE_KEY = message("table_key", "the table asks for {wanted} here; this is {kind}")


class CallCheck(NameCheck):
    """Checks functions."""

    def call(self, syntax: formulas.Call, context: FormulaContext) -> Checked:
        """A function with its arguments."""
        if syntax.function in words.GATHERING:
            return self.gather(syntax, context)
        if syntax.function in words.CHOOSING:
            return self.picked(syntax, context)
        if syntax.function in words.ROUNDING:
            return self.rounded(syntax, context)
        if syntax.function in words.ASKING:
            return self.asked(syntax, context)
        return self.lookup(syntax, context)

    def gather(self, syntax: formulas.Call, context: FormulaContext) -> Checked:
        """A gathering word over one group and one column."""
        wanted = "one group" if syntax.function == "count" else "one group and one column, as in `group.column`"
        argument = syntax.arguments[0]
        if len(syntax.arguments) != 1 or not isinstance(argument, formulas.Name):
            raise self.refuse(GATHER_FORM, syntax, context, function=syntax.function, wanted=wanted)
        head, _, column_name = argument.text.partition(".")
        if bool(column_name) == (syntax.function == "count"):
            raise self.refuse(GATHER_FORM, argument, context, function=syntax.function, wanted=wanted)
        group = self.gathered_group(head, argument, context)
        call = str(context.text[syntax.start : syntax.end])
        if not column_name:
            return tree.Gather(call, syntax.function, group, None, context.level, quantity_kind(NUMBER))
        column = self.column(group, column_name, argument, context)
        if (syntax.function == "every") != (column.kind == YES_NO):
            wanted = "a column of conditions" if syntax.function == "every" else "a column of amounts"
            raise self.refuse(GATHER_FORM, argument, context, function=syntax.function, wanted=wanted)
        if syntax.function != "every" and column.kind.form != "quantity":
            shown = self.glossary.printed_kind(column.kind)
            raise self.refuse(NOT_QUANTITY, argument, context, what="what is gathered", kind=shown)
        return tree.Gather(call, syntax.function, group, column, context.level, column.kind)

    def gathered_group(self, name: str, syntax: formulas.Name, context: FormulaContext) -> CheckedGroup:
        """The group that is gathered; the line's item must be what its items belong or are connected to."""
        group = self.group_named(name, context.document, part_of(context.text, syntax.start, name))
        if group is None:
            raise CheckFailed
        self.whole.used.add(group.address)
        collection = self.glossary.collections[group.collection]
        if context.level not in (*self.owners(group.collection), *collection.of, *collection.on):
            raise self.refuse(NOT_GATHERED, syntax, context, group=name, here=self.here(context))
        return group

    def column(
        self, group: CheckedGroup, name: str, syntax: formulas.Name, context: FormulaContext
    ) -> tree.ReadField | tree.ReadLine:
        """The column that is gathered: a field, or a line with one value for each item."""
        field = self.glossary.collections[group.collection].fields.get(name)
        if field is not None:
            return tree.ReadField(name, group.collection, name, field.kind)
        inner = formulas.Name(name, syntax.end - len(name), syntax.end)
        line, method = self.column_line(name, inner, context)
        read = self.read_line(inner, method, line, context, gathered=True)
        if line.level != group.collection:
            raise self.refuse(GATHER_FORM, inner, context, function="a gathering word", wanted=f"a column of {group.collection}")
        if line.each is not None and not (group.built_on(line.each) or same_group(group, line.each)):
            raise self.refuse(OUTSIDE_GROUP, inner, context, name=name, group=line.each.name)
        return read

    def column_line(self, name: str, syntax: formulas.Name, context: FormulaContext) -> tuple[CheckedLine, CheckedMethod]:
        """The line that a column's name stands for, and its method."""
        head, _, rest = name.partition(".")
        if rest and head in self.whole.methods and rest in self.whole.methods[head].lines:
            return self.whole.methods[head].lines[rest], self.whole.methods[head]
        meaning = self.whole.names.visible[str(context.document.name)].get(name)
        if meaning is None or not isinstance(meaning.thing, Line):
            raise self.unknown(syntax, context, self.whole.names.nearest(name, context.document))
        return self.method.lines[name], self.method

    def picked(self, syntax: formulas.Call, context: FormulaContext) -> Checked:
        """The larger or the smaller of two or more amounts of one kind."""
        if len(syntax.arguments) < 2:
            raise self.refuse(ARGUMENTS, syntax, context, function=syntax.function, wanted="two or more amounts")
        made = [self.amount(argument, context, "an argument") for argument in syntax.arguments]
        first = next((at for at, checked in enumerate(made) if not is_zero(checked)), 0)
        for argument, checked in zip(syntax.arguments, made, strict=True):
            if checked.kind != made[first].kind and not is_zero(checked):
                shown = self.glossary.printed_kind
                other = place_in(context.text, syntax.arguments[first].start, syntax.arguments[first].end)
                place = place_in(context.text, argument.start, argument.end)
                self.problems.add(
                    DIFFERENT_KINDS,
                    place,
                    left=shown(made[first].kind),
                    right=shown(checked.kind),
                    others=[("the other side", other)],
                )
                raise CheckFailed
        return tree.Picked(syntax.function, tuple(made), made[first].kind)

    def rounded(self, syntax: formulas.Call, context: FormulaContext) -> Checked:
        """An amount rounded to a named step."""
        if len(syntax.arguments) != 2 or not isinstance(syntax.arguments[1], formulas.Name):
            raise self.refuse(ARGUMENTS, syntax, context, function=syntax.function, wanted="an amount and a named step")
        amount, step = (self.amount(argument, context, "an argument") for argument in syntax.arguments)
        self.one_kind(amount, step, formulas.Compare("=", syntax.arguments[0], syntax.arguments[1], 0, 0), context)
        return tree.Rounded(syntax.function, amount, step, amount.kind)

    def asked(self, syntax: formulas.Call, context: FormulaContext) -> Checked:
        """Whether a value is known."""
        if len(syntax.arguments) != 1 or not isinstance(syntax.arguments[0], formulas.Name):
            raise self.refuse(ARGUMENTS, syntax, context, function=syntax.function, wanted="one name")
        return tree.Asked(self.name(syntax.arguments[0], context))

    def lookup(self, syntax: formulas.Call, context: FormulaContext) -> Checked:
        """A table read forward or back."""
        first = syntax.arguments[0]
        back = syntax.function != words.LOOKUP[0]
        if not isinstance(first, formulas.Name):
            raise self.refuse(ARGUMENTS, syntax, context, function=syntax.function, wanted="a table and its keys")
        address, table, column = self.table_named(first, context)
        count = len(table.column_keys) + 1
        if len(syntax.arguments) != count + 1:
            wanted = f"a table, {'an amount' if back else table.row_key}" + "".join(f", {each}" for each in table.column_keys)
            raise self.refuse(ARGUMENTS, syntax, context, function=syntax.function, wanted=wanted)
        cell_kind = table.columns.get(column) or table.gives or table.row_kind
        wanted_kinds = [cell_kind if back else table.row_kind, *table.column_keys.values()]
        keys = tuple(self.key(argument, kind, context) for argument, kind in zip(syntax.arguments[1:], wanted_kinds, strict=True))
        call = str(context.text[syntax.start : syntax.end])
        if back:
            return tree.FirstRow(call, address, table, column, keys[0], keys[1:], table.row_kind, syntax.function)
        return tree.Lookup(call, address, table, column, keys, cell_kind)

    def table_named(self, syntax: formulas.Name, context: FormulaContext) -> tuple[str, Table, str]:
        """The table that a name stands for, with its address, and the column, if it names one."""
        visible = self.whole.names.visible[str(context.document.name)]
        meaning, column = visible.get(syntax.text), ""
        if meaning is None:
            head, _, rest = syntax.text.partition(".")
            meaning, column = visible.get(head), rest
            document = self.whole.names.documents.get(head)
            if meaning is None and document is not None:
                name, _, column = rest.partition(".")
                table = document.tables.get(name)
                meaning = Meaning(table, document) if table is not None else None
        if meaning is None or not isinstance(meaning.thing, Table):
            near = self.whole.names.nearest(syntax.text, context.document)
            raise self.refuse(NO_TABLE, syntax, context, name=syntax.text, nearest=near)
        self.whole.used.add(meaning.address)
        table = meaning.thing
        if bool(column) == (bool(table.column_keys) or not table.columns) or (column and column not in table.columns):
            near = nearest_name(column, table.columns)
            raise self.refuse(NO_COLUMN, syntax, context, table=table.name, column=column, nearest=near)
        if column:
            self.whole.used.add(f"{meaning.address}.{column}")
        return meaning.address, table, column

    def key(self, syntax: formulas.Tree, wanted: ValueKind, context: FormulaContext) -> Checked:
        """A key of a table: a word of its choice or scale, or an amount of its kind."""
        if isinstance(syntax, formulas.Name) and wanted.form != "quantity" and syntax.text in self.glossary.words(wanted):
            return tree.Constant(syntax.text, self.glossary.value(wanted, syntax.text), wanted)
        checked = self.checked(syntax, context)
        if checked.kind != wanted:
            shown = self.glossary.printed_kind
            raise self.refuse(TABLE_KEY, syntax, context, wanted=shown(wanted), kind=shown(checked.kind))
        return checked
