"""The circuits of a panel schedule that are no loads of their own, as an assessment file names them."""

from __future__ import annotations

from dwellcalc.decide.assessment_reader import AssessmentReader
from dwellcalc.decide.review_plan import GeneralCircuit, GeneralCircuits
from dwellcalc.language.words import GENERAL_CIRCUIT_KEYS, GENERAL_CIRCUIT_OPTIONAL, GENERAL_CIRCUIT_TEXTS, GENERAL_CIRCUITS_KEYS
from dwellcalc.placed import Mapping, Node, as_list, as_mapping, key

CIRCUITS = "circuits"


def read_general_circuits(node: Mapping, reader: AssessmentReader) -> GeneralCircuits:
    """The circuits that are no loads of their own, of the part of an assessment file on reviews."""
    parts = as_mapping(node[key(CIRCUITS)], CIRCUITS, reader.problems)
    reader.keys(parts, GENERAL_CIRCUITS_KEYS, CIRCUITS)
    method, new = reader.text(parts, "method", CIRCUITS), reader.text(parts, "new", CIRCUITS)
    reader.result(method, new)
    return GeneralCircuits(
        str(method),
        str(new),
        tuple(map(str, reader.texts(reader.need(parts, "beside", CIRCUITS)))),
        tuple(_kind(each, reader) for each in as_list(reader.need(parts, "kinds", CIRCUITS), "kinds", reader.problems)),
    )


def _kind(node: Node, reader: AssessmentReader) -> GeneralCircuit:
    entry = as_mapping(node, "a kind of circuit", reader.problems)
    reader.keys(entry, GENERAL_CIRCUIT_KEYS, "a kind of circuit")
    title, told = (str(reader.text(entry, name, "a kind of circuit")) for name in GENERAL_CIRCUIT_TEXTS)
    cite, least, said, amperes, device = (
        str(reader.text(entry, name)) if name in entry else "" for name in GENERAL_CIRCUIT_OPTIONAL
    )
    names = tuple(map(str, reader.texts(reader.need(entry, "names", "a kind of circuit"))))
    return GeneralCircuit(names, title, told, cite, least, said, amperes, device)
