"""What stands behind a line: the counts of circuits that it rests on, and whether it rests on loads."""

from __future__ import annotations

from dwellcalc.glossary import Glossary
from dwellcalc.home.glossary_names import LOADS, UNITS
from dwellcalc.language import tree
from dwellcalc.language.reach import behind


def counts_behind(line: tree.CheckedLine, glossary: Glossary) -> list[str]:
    """The fields of a dwelling unit that a line rests on and that are numbers, such as those of circuits."""
    fields = glossary.collections[UNITS].fields
    read = {each.field for each in behind(line) if isinstance(each, tree.ReadField) and each.level == UNITS}
    return [name for name, each in fields.items() if name in read and each.kind.form == "quantity"]


def holds_loads(line: tree.CheckedLine) -> bool:
    """Whether a line rests on loads, and not on areas and circuits alone."""
    return any(isinstance(each, tree.ReadField) and each.level == LOADS for each in behind(line))
