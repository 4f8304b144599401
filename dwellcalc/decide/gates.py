"""What a record is held to: each line of the rules with its outcome, the figures that it read and the moments they rest on."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from dwellcalc.decide.record_document import Gate
from dwellcalc.decide.recorded import Recorded
from dwellcalc.evaluate import printed
from dwellcalc.evaluate.sheet import KNOWN, SheetLine
from dwellcalc.evaluate.work import NO, YES
from dwellcalc.facts import Facts, Unknown
from dwellcalc.home.meters import RECORD
from dwellcalc.language.reach import reached
from dwellcalc.language.tree import CheckedLine, ReadLine, ReadObject
from dwellcalc.language.words import POLICY, STATUSES

CODE = STATUSES[0]
NOT_KNOWN, NOT_SAID = "not known", "not said"


def gate_of(line: CheckedLine, told: SheetLine, facts: Facts, recorded: Recorded, *, refuses: bool) -> Gate:
    """A line that a record is held to.

    Args:
        line: the line of the rules.
        told: the same on a sheet.
        facts: the facts of the supply, the record's figures among them.
        recorded: the record.
        refuses: whether it may not be used where the line is no.
    """
    outcome = told.outcome
    assert outcome is not None
    word = NOT_KNOWN if outcome.state != KNOWN else YES if outcome.value else NO
    read = list(dict.fromkeys((each.owner, each.field) for each in _fields(line)))
    moments = [
        span_of(recorded, *each) for level, name in read if level == RECORD for each in recorded.figures.moments.get(name, ())
    ]
    status = POLICY if line.source.is_policy else CODE
    found = _found(read, facts)
    return Gate(
        told.id, told.title, told.cite, status, word, refuses, found, list(dict.fromkeys(moments)), str(line.source.note or "")
    )


def _fields(line: CheckedLine) -> Iterator[ReadObject]:
    """The fields that a line reads, itself or in the working lines that it names."""
    for node in reached([line], through=False):
        if isinstance(node, ReadObject):
            yield node
        elif isinstance(node, ReadLine) and node.line.source.working:
            yield from (each for each in reached([node.line], through=False) if isinstance(each, ReadObject))


def _found(read: Iterable[tuple[str, str]], facts: Facts) -> str:
    """The values of fields in print, each with what it is where there are several."""
    told = []
    for level, name in read:
        if level not in facts.objects:
            continue
        declared, value = facts.glossary.objects[level][name], facts.objects[level][name]
        shown = NOT_SAID if isinstance(value, Unknown) else printed.value(value, declared.kind, facts.glossary)
        told.append((declared.meaning, shown))
    return told[0][1] if len(told) == 1 else "\n".join(f"{meaning}: {shown}" for meaning, shown in told)


def clock(recorded: Recorded, moment: int) -> str:
    """A moment by the clock on the wall."""
    return recorded.profile.local(moment).strftime("%Y-%m-%d %H:%M")


def span_of(recorded: Recorded, begin: int, end: int) -> str:
    """A span of time by the clock on the wall."""
    first, last = clock(recorded, begin), clock(recorded, end)
    return first if first == last else f"{first} to {last}"
