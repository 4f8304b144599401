"""Why a capacity is what it is: the sentences of an assessment file, where a result of sizing is yes, filled with other results."""

from __future__ import annotations

from collections.abc import Mapping as ByName

from dwellcalc.decide.assessment_reader import AssessmentReader
from dwellcalc.evaluate.sheet import KNOWN, MethodSheet
from dwellcalc.language.documents import QUOTED
from dwellcalc.language.tree import CheckedLine
from dwellcalc.language.words import BECAUSE
from dwellcalc.placed import Mapping, Text, as_mapping, key, text_at


def read_because(node: Mapping, method: Text, reader: AssessmentReader, name: str = BECAUSE) -> dict[str, str]:
    """The sentences by the result that must be yes; sections stand in them already, names of results in braces.

    Args:
        node: what an assessment file says of a method.
        method: the method.
        reader: notes what is wrong.
        name: the key under which the sentences stand.
    """
    found = reader.of_results(method, as_mapping(node.get(key(name), Mapping()), name, reader.problems), name)
    citations = reader.rules.citations
    for text in found.values():
        for match in QUOTED.finditer(text):
            if match[1] not in citations:
                reader.result(method, text_at(match[1], method))
    return {name: QUOTED.sub(lambda match: _section(match[0], match[1], reader), text) for name, text in found.items()}


def _section(quoted: str, name: str, reader: AssessmentReader) -> str:
    return reader.rules.section(name) if name in reader.rules.citations else quoted


def reasons(because: ByName[str, str], sheet: MethodSheet) -> list[str]:
    """Those of the sentences whose result is yes on a sheet, filled with results in print."""
    results = sheet.results
    yes = (text for name, text in because.items() if results[name].state == KNOWN and results[name].value is True)
    return [QUOTED.sub(lambda match: results[match[1]].printed, text) for text in yes]


def cited_reasons(because: ByName[str, str], sheet: MethodSheet, lines: ByName[str, CheckedLine]) -> list[str]:
    """The same, each with the section of the line that is yes; ``lines`` are those of the results."""
    cites = {line.id: line.cite for line in sheet.lines}
    told = ((name, found) for name, text in because.items() for found in reasons({name: text}, sheet))
    return [f"{text} ({sheet.results[name].cite or cites[lines[name].id]})." for name, text in told]
