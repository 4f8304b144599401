"""The answers at the end of the file that an interview writes, and what was changed in that file since."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Iterator
from dataclasses import replace

from dwellcalc.glossary import Glossary
from dwellcalc.placed import Listing, Mapping, Node, Text
from dwellcalc.problems import fail, message
from dwellcalc.reading import read_text

from .answers import HOME, Answer, Answers, Slot
from .draft import Draft
from .lines import Line, quoted
from .questions import AREA, KEY, LOAD, PLANNED, SEVERAL, Entry, Work
from .said import said_of
from .starter import Starter

NOT_BEGUN = message(
    "start_not_begun", '"{name}" was not begun by these questions', "name a file that is not there yet, or go on by hand"
)
CHANGED = message(
    "start_changed",
    '"{name}" was changed by hand, and to go on would lose that; the file stays as it is',
    "finish it by hand, or begin another file",
)
ANSWERED, ASSUMED, THERE, BESIDE = "answered", "assumed", "there", "beside"  # that one is there was said, and no more
HEAD = "# The answers, from which `dwellcalc start FILE --ask` goes on; they change nothing, leave them as they are."
BEGUN = re.compile(r"# begun as: (\S+)")
KEPT = re.compile(r"# (?P<how>answered|assumed|there|beside): (?P<id>\w+)(?:, dwelling unit (?P<unit>\d+))? = (?P<text>.*)")
SCHEMA_LINE = re.compile(r"# yaml-language-server: .*")
ONE_TEXT = (KEY, AREA, LOAD, PLANNED)


def whole_file(answers: Answers, glossary: Glossary, width: int) -> list[Line]:
    """The lines of the file with the answers at its end."""
    return [*Draft(answers, glossary).made().lines(width), Line(""), *map(Line, _kept(answers))]


def _kept(answers: Answers) -> Iterator[str]:
    yield HEAD
    yield f"# begun as: {answers.work.word}"
    for step in answers.asked():
        answer = answers.given.get(step.slot)
        if answer is not None:
            unit = "" if step.unit == HOME else f", dwelling unit {step.unit + 1}"
            how = THERE if answer.there else ASSUMED if answer.assumed else ANSWERED
            yield f"# {how}: {step.question.id}{unit} = {quoted(answer.text)}"
            if answer.beside:
                yield f"# {BESIDE}: {step.question.id}{unit} = {quoted(answer.beside)}"


def read_kept(text: str, name: str, starter: Starter, typical: Entry) -> Answers:
    """The answers that a file keeps.

    Raises:
        InputError: it keeps none, or not such as these questions have.
    """
    lines = text.splitlines()
    begun = [match[1] for line in lines if (match := BEGUN.fullmatch(line.rstrip()))]
    work: Work | None = starter.works.get(begun[0]) if len(begun) == 1 else None
    if work is None:
        fail(NOT_BEGUN, name=name)
    answers = Answers(starter, work, typical)
    for match in (KEPT.fullmatch(line.rstrip()) for line in lines):
        if match is None:
            continue
        if match["id"] not in starter.questions:
            fail(CHANGED, name=name)
        slot = (match["id"], int(match["unit"]) - 1 if match["unit"] else HOME)
        if match["how"] == BESIDE and slot in answers.given:
            answers.given[slot] = replace(answers.given[slot], beside=_unquoted(match["text"]))
            continue
        answers.given[slot] = Answer(_unquoted(match["text"]), match["how"] != ANSWERED, there=match["how"] == THERE)
    return answers


def _unquoted(text: str) -> str:
    try:
        return str(json.loads(text)) if text.startswith('"') else text
    except ValueError:
        return text


def gone_on_with(text: str, name: str, answers: Answers, glossary: Glossary, width: int) -> None:
    """Take over values that were changed by hand, each of one question; anything else that was changed is refused.

    Raises:
        InputError: something was changed that would be lost; or the file is not YAML.
    """
    body = _body(text.splitlines())
    if _same(body, answers, glossary, width):
        return
    changed = _changed(text, name, answers, glossary, width)
    before = dict(answers.given)
    for slot, value in changed.items():
        answers.given[slot] = replace(before[slot], text=value, told=before[slot].text)
    if not changed or not _same(body, answers, glossary, width):
        fail(CHANGED, name=name)
    for slot in changed:
        answers.given[slot] = replace(answers.given[slot], assumed=False, told="", there=False)


def _body(lines: Iterable[str]) -> list[str]:
    """The lines that are not kept answers, without blanks at their ends."""
    found = [line.rstrip() for line in lines]
    found = [line for line in found if line != HEAD and not BEGUN.fullmatch(line) and not KEPT.fullmatch(line)]
    if found and SCHEMA_LINE.fullmatch(found[0]):
        del found[0]
    while found and not found[-1]:
        del found[-1]
    return found


def _same(body: list[str], answers: Answers, glossary: Glossary, width: int) -> bool:
    return body == _body(line.text for line in whole_file(answers, glossary, width))


def _changed(text: str, name: str, answers: Answers, glossary: Glossary, width: int) -> dict[Slot, str]:
    """The values that differ from what the answers give, by question; nothing where the form of the file is another."""
    lines = whole_file(answers, glossary, width)
    ours = read_text("\n".join(line.text for line in lines), name)
    found: dict[Slot, str] = {}
    for mine, theirs in _pairs(ours, read_text(text, name)):
        if mine == theirs:
            continue
        slot = lines[mine.line - 1].slot
        question = answers.starter.questions[slot[0]] if slot else None
        if (
            slot is None
            or question is None
            or question.form not in ONE_TEXT
            or mine not in _ratings(answers.given[slot].text, answers, glossary)
        ):
            return {}
        found[slot] = answers.given[slot].text.replace(mine, theirs, 1)
    return found


def _ratings(text: str, answers: Answers, glossary: Glossary) -> tuple[str, ...]:
    """What of an answer stands in the file as one text: all of it, or its rating without how many there are and what is beside it."""
    match = SEVERAL.fullmatch(text)
    return text, said_of(match[2] if match else text, answers.starter, glossary).rating


def _pairs(ours: Node, theirs: Node) -> Iterator[tuple[Text, Text]]:
    """The texts that stand in the same place of two files; of parts of another form nothing is told."""
    if isinstance(ours, Text) and isinstance(theirs, Text):
        yield ours, theirs
    elif isinstance(ours, Mapping) and isinstance(theirs, Mapping):
        for name in ours:
            if name in theirs:
                yield from _pairs(ours[name], theirs[name])
    elif isinstance(ours, Listing) and isinstance(theirs, Listing):
        for mine, other in zip(ours, theirs, strict=False):
            yield from _pairs(mine, other)
