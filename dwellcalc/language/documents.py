"""Documents of the rule language as plain objects: methods and parts with their lines, groups and parameters.

``document_reader`` reads their form. Names are resolved in ``names``, kinds are inferred in ``kinds``.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from dwellcalc.language.formulas import Tree
from dwellcalc.language.tables import Table
from dwellcalc.placed import Mapping, Text

QUOTED = re.compile(r"\{([^}]*)\}")


@dataclass(slots=True, eq=False)
class Evidence:
    """Where a number comes from: source keys and the grade of confidence."""

    source: Text | None = None
    confidence: Text | None = None


@dataclass(slots=True, eq=False)
class Case:
    """One case of a line."""

    when: Tree | None
    when_text: Text | None
    then: Tree | None
    then_text: Text
    cite: Text | None


@dataclass(slots=True, eq=False)
class Line:
    """A line as written."""

    name: Text
    node: Mapping
    title: Text
    cite: Text
    way: str
    each: Text | None = None
    applies: Tree | None = None
    applies_text: Text | None = None
    working: bool = False
    is_policy: bool = False
    note: Text | None = None
    known_as: tuple[Text, ...] = ()
    evidence: Evidence = field(default_factory=Evidence)
    value: Tree | None = None
    value_text: Text | None = None
    cases: tuple[Case, ...] = ()
    of: Tree | None = None
    of_text: Text | None = None
    tiers: tuple[Text, ...] = ()
    parts: tuple[Text, ...] = ()


@dataclass(slots=True, eq=False)
class Parameter:
    """A number of the code, with unit, citation and evidence."""

    name: Text
    value: Text
    cite: Text
    status: str
    evidence: Evidence


@dataclass(slots=True, eq=False)
class Option:
    """One answer to a question that the text leaves open."""

    name: Text
    says: Text
    source: Text | None


@dataclass(slots=True, eq=False)
class Interpretation:
    """A question that the text leaves open."""

    name: Text
    question: Text
    cite: Text
    options: dict[str, Option]
    default: Text


@dataclass(slots=True, eq=False)
class Group:
    """A group as written: bases, condition, exceptions."""

    name: Text
    text: Text
    bases: tuple[Text, ...]
    condition: Tree | None
    condition_text: Text | None
    excepted: tuple[Text, ...]


@dataclass(slots=True, eq=False)
class Permitted:
    """A condition of use."""

    require: Tree | None
    text: Text
    cite: Text
    if_not: Text
    asks: Text | None = None


@dataclass(slots=True, eq=False)
class LeftOut:
    """A group that the method leaves out, and why."""

    group: Text
    cite: Text
    because: Text


@dataclass(slots=True, eq=False)
class Run:
    """Another method on a part of the home."""

    name: Text
    title: Text
    method: Text
    keep: dict[Text, Text]


@dataclass(slots=True, eq=False)
class Given:
    """A value that the assessment hands over."""

    name: Text
    unit: Text | None
    choice: Text | None


@dataclass(slots=True, eq=False)
class Result:
    """A result: the line that gives it, and whether it may be not applicable."""

    name: Text
    line: Text
    optional: bool


@dataclass(slots=True, eq=False)
class Document:
    """A method or a part."""

    kind: str
    name: Text
    node: Mapping
    title: Text
    cite: Text | None = None
    per: str = ""
    counts: Text | None = None
    uses: tuple[Text, ...] = ()
    parameters: dict[str, Parameter] = field(default_factory=dict)
    interpretations: dict[str, Interpretation] = field(default_factory=dict)
    groups: dict[str, Group] = field(default_factory=dict)
    tables: dict[str, Table] = field(default_factory=dict)
    lines: dict[str, Line] = field(default_factory=dict)
    runs: dict[str, Run] = field(default_factory=dict)
    given: dict[str, Given] = field(default_factory=dict)
    permitted: list[Permitted] = field(default_factory=list)
    left_out: list[LeftOut] = field(default_factory=list)
    results: list[Result] = field(default_factory=list)
    columns: tuple[Text, ...] = ()
