"""What a record is held to: each line of the rules with its outcome, the figures that it read and the moments they rest on."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from dwellcalc.decide.looked import Holds, not_given
from dwellcalc.decide.record_document import NOT_LOOKED_AT, Gate
from dwellcalc.decide.recorded import Recorded
from dwellcalc.evaluate import printed
from dwellcalc.evaluate.sheet import KNOWN, SheetLine
from dwellcalc.evaluate.work import NO, YES
from dwellcalc.facts import Facts, Unknown
from dwellcalc.glossary import YES_NO
from dwellcalc.home.meters import FROM_READINGS, RECORD
from dwellcalc.language.reach import named_by
from dwellcalc.language.tree import CheckedLine, ReadLine, ReadObject
from dwellcalc.language.words import POLICY, STATUSES

CODE = STATUSES[0]
NOT_KNOWN, NOT_SAID = "not known", "not said"


def gate_of(line: CheckedLine, told: SheetLine, facts: Facts, recorded: Recorded, holds: Holds, *, refuses: bool) -> Gate:
    """A line that a record is held to; where it was not looked at, the sheet says so in place of its outcome.

    Args:
        line: the line of the rules.
        told: the same on a sheet.
        facts: the facts of the supply, the record's figures among them.
        recorded: the record.
        holds: whether a part of its condition is met.
        refuses: whether it may not be used where the line is no.
    """
    outcome = told.outcome
    assert outcome is not None
    word = NOT_KNOWN if outcome.state != KNOWN else YES if outcome.value else NO
    read = list(dict.fromkeys((each.owner, each.field) for each in _fields(line)))
    moments = [
        span_of(recorded, *each)
        for level, name in read
        if level == RECORD
        for each in _joined(recorded.figures.moments.get(name, ()))
    ]
    moments = list(dict.fromkeys(moments))
    status = POLICY if line.source.is_policy else CODE
    several = [*_found(read, facts), *_lines_read(line, told)]
    found = (
        several[0][1] if len(several) == 1 and not several[0][2] else "\n".join(f"{what}: {shown}" for what, shown, _ in several)
    )
    lacking = not_given(line.value, holds) if word == YES and line.value is not None else []
    if lacking:
        outcome.printed = NOT_LOOKED_AT
        asked = dict.fromkeys((each.owner, each.field) for each in lacking)
        outcome.missing = [what for what, _, _ in _found(asked, facts)]
    cure = str(line.source.note or "")
    return Gate(told.id, told.title, told.cite, status, word, refuses, found, moments, cure, outcome.missing if lacking else [])


def _fields(line: CheckedLine) -> Iterator[ReadObject]:
    """The fields that a line reads, itself or in the working lines that it names."""
    for node in named_by(line):
        if isinstance(node, ReadObject):
            yield node
        elif isinstance(node, ReadLine) and node.line.source.working:
            yield from (each for each in named_by(node.line) if isinstance(each, ReadObject))


def _found(read: Iterable[tuple[str, str]], facts: Facts) -> Iterator[tuple[str, str, bool]]:
    """What each field is, its value in print, and whether that says nothing without the other."""
    for level, name in read:
        if level not in facts.objects:
            continue
        declared, value = facts.glossary.objects[level][name], facts.objects[level][name]
        unknown = NOT_KNOWN if declared.comes_from == FROM_READINGS else NOT_SAID
        shown = unknown if isinstance(value, Unknown) else printed.value(value, declared.kind, facts.glossary)
        yield declared.meaning, shown, declared.kind == YES_NO and not isinstance(value, Unknown)


def _lines_read(line: CheckedLine, told: SheetLine) -> Iterator[tuple[str, str, bool]]:
    """The lines that it reads, working ones aside, with their values."""
    assert told.outcome is not None
    shown = {each.name: each.printed for each in told.outcome.inputs if each.state == KNOWN}
    for node in named_by(line):
        if isinstance(node, ReadLine) and not node.line.source.working and node.name in shown:
            yield str(node.line.source.title), shown[node.name], False


def span_of(recorded: Recorded, begin: int, end: int) -> str:
    """A span of time by the clock on the wall."""
    first, last = recorded.clocks.shown(begin), recorded.clocks.shown(end)
    return first if first == last else f"{first} to {last}"


def _joined(spans: Iterable[tuple[int, int]]) -> list[tuple[int, int]]:
    """Spans of time, those that follow one another without a gap as one."""
    found: list[tuple[int, int]] = []
    for begin, end in spans:
        if found and found[-1][1] == begin and begin < end:
            found[-1] = (found[-1][0], end)
        else:
            found.append((begin, end))
    return found
