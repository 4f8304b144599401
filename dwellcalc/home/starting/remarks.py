"""What was told beside answers and has no key of its own, as remarks of the home file."""

from __future__ import annotations

import re
from collections.abc import Iterator

from .answers import Answers, Step
from .lines import Entry, Line, explained, lines_in
from .questions import ANY_PLANNED, DETAIL, EVIDENCE, PLANNED

REMARKS = "remarks"
AS_TOLD = "{name} - {told}"
TODAY = "told beside the answers of what is there: {told}"
NAME_ENDS = re.compile("[,;]")  # of what is asked for


def remarks(answers: Answers) -> tuple[str, ...]:
    """The remarks: one of all that is there, and one of each planned load."""
    steps = [step for step in answers.asked() if step.slot in answers.given]
    told = [(step.question.form in (PLANNED, ANY_PLANNED), _told(step, answers)) for step in steps]
    today = "; ".join(
        text.replace("; ", ", ") for planned, text in told if text and not planned
    )  # a semicolon ends what one tells
    return (*([TODAY.format(told=today)] if today else []), *(text for planned, text in told if text and planned))


def remark_lines(answers: Answers, width: int) -> Iterator[Line]:
    """The lines of a file with the remarks, to be printed on the sheet; none where nothing was told."""
    told = remarks(answers)
    if told:
        yield from (Line(""), *lines_in([Entry(REMARKS, told, None, explained(answers.starter.explains, REMARKS))], "", width))


def _told(step: Step, answers: Answers) -> str:
    """What was told beside an answer, and of a load beside those of its further keys, after its name; or an empty text."""
    question = step.question
    if question.form in (DETAIL, EVIDENCE):
        return ""
    slots = [(each.id, step.unit) for each in answers.starter.questions.values() if each.entry.get("of") == question.id]
    given = [answers.given.get(slot) for slot in (step.slot, *slots)]
    beside = dict.fromkeys(each.beside for each in given if each is not None and each.beside)
    name = question.entry.get("name") or NAME_ENDS.split(question.what)[0]
    return AS_TOLD.format(name=name, told="; ".join(beside)) if beside else ""
