"""What the commands do that begin a home file: read the questions, ask them, write the file; and the schema of home files."""

from __future__ import annotations

import json
import re
import shlex
import shutil
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from dwellcalc.cli.interview import Interview
from dwellcalc.cli.kind_of_work import choose_work
from dwellcalc.cli.terminal_talk import Stopped, Terminal
from dwellcalc.cli.whole_files import IS_THERE, write_whole
from dwellcalc.decide.edition import rules_for
from dwellcalc.decide.typical import NO_TYPICAL
from dwellcalc.evaluate import printed
from dwellcalc.glossary import Glossary
from dwellcalc.home.names import Names, plain
from dwellcalc.home.ratings import TYPICAL
from dwellcalc.home.starting.answers import Answer, Answers, Slot, Step, parts_of
from dwellcalc.home.starting.checked import problems_in
from dwellcalc.home.starting.draft import Draft
from dwellcalc.home.starting.empty import fill_usual
from dwellcalc.home.starting.kept import SCHEMA_LINE, gone_on_with, read_kept, whole_file
from dwellcalc.home.starting.lines import Line
from dwellcalc.home.starting.question_reader import read_starter
from dwellcalc.home.starting.questions import NONE, Question, Work
from dwellcalc.home.starting.starter import Starter
from dwellcalc.language.rule_set import RuleSet, editions_in, installed_folder, read_glossary
from dwellcalc.placed import Text, spaced
from dwellcalc.problems import InputError, Problem, Problems, Source, fail, message
from dwellcalc.reading import load_text

WIDTH = 110
NARROWEST, WIDEST = 60, 98
PIPED = 98
UNFINISHED = 3
SCHEMA_NAME = "home.schema.json"
CODE = ("code",)
METER_FILE = ("meter", "file")
BESIDE = "{name} is not there yet; put it beside the home file."
JUDGED = "Whether the record of the meter can be read, and may stand for the existing load, is told by:"
METERED = "A year of the utility's interval data can be added under `meter:`; its maximum demand is then tried too."
NO_RECORD = message(
    "start_no_record",
    'there is no file "{name}" beside the home file yet',
    "type the name again if the file comes later; `none` if the utility gives no such file",
)
NO_WORK = message("start_no_work", "say what kind of work the file is for", "`--work` with one of:{listed}")
UNKNOWN_WORK = message("start_unknown_work", 'there is no kind of work "{word}"', "`--work` with one of:{listed}")
MEANWHILE = message(
    "start_meanwhile",
    '"{name}" was changed by something else while the questions were asked; it stays as it is',
    "run `dwellcalc start {name} --ask` again to go on with what is there",
)


@dataclass(frozen=True)
class Begun:
    """What the command asks for: the file, the kind of work or nothing, the schema to be named or nothing, the rules."""

    file: str
    work: str
    schema: str
    rules: Path | None

    def first_line(self) -> list[str]:
        """The line that names the schema, where one stands beside the file or is asked for."""
        beside = Path(self.file).parent / SCHEMA_NAME
        name = self.schema or (SCHEMA_NAME if beside.is_file() else "")
        return [f"# yaml-language-server: $schema={name}"] if name else []


def write_empty(begun: Begun) -> int:
    """``dwellcalc start``: a file to be filled in; the exit code is 0."""
    _refuse_there(begun.file)
    glossary = read_glossary(begun.rules)
    starter = read_starter(begun.rules, glossary)
    work = _work(begun.work, starter) or _asked_work(starter)
    answers = Answers(starter, work)
    fill_usual(answers)
    lines = [line.text for line in Draft(answers, glossary, empty=True).made().lines(WIDTH)]
    _write(begun.file, [*begun.first_line(), *lines], new=True)
    print(f"Written: {begun.file}. Fill it in, then run:  dwellcalc assess {begun.file}")
    return 0


def ask(begun: Begun) -> int:
    """``dwellcalc start --ask``: the interview; 0 where all was answered, 3 where it was stopped before."""
    if hasattr(sys.stdin, "reconfigure"):
        sys.stdin.reconfigure(errors="replace")
    rules = rules_for(None, "", begun.rules)
    starter = read_starter(begun.rules, rules.glossary)
    terminal = _terminal()
    try:
        kept = _Kept.of(begun, starter, rules, terminal)
        also = _Also(rules, begun.rules, Path(begun.file).parent, frozenset(map(plain, starter.words.around)))
        interview = Interview(kept.answers, rules.glossary, terminal, WIDTH, kept.save, also.problems, also.spelled)
        interview.run()
    except (Stopped, KeyboardInterrupt):
        print()
        if Path(begun.file).exists():
            terminal.say(f"Stopped. What was answered is in {begun.file}; this goes on:  dwellcalc start {begun.file} --ask")
        else:
            terminal.say("Stopped. Nothing was answered, and nothing written.")
        return UNFINISHED
    print()
    terminal.say(f"That is all. What was assumed is marked in {begun.file}. Next, in the terminal or as a page:")
    file = shlex.quote(begun.file)
    print(f"\n  dwellcalc assess {file}\n  dwellcalc assess {file} --format html --output {shlex.quote(_page(begun.file))}\n")
    answers = interview.answers
    named = next((each.text for slot, each in answers.given.items() if _names_record(slot, answers)), "")
    if named:
        if not (Path(begun.file).parent / named).is_file():
            terminal.say(BESIDE.format(name=named))
        terminal.say(JUDGED)
        beside = str(Path(begun.file).parent / named)
        print(f"\n  dwellcalc meter {shlex.quote(beside)} --home {file}\n")
    elif not answers.work.drawn:
        terminal.say(METERED)
    return 0


def _names_record(slot: Slot, answers: Answers) -> bool:
    """Whether an answer names a file of a meter."""
    question = answers.starter.questions[slot[0]]
    return question.path == METER_FILE and plain(answers.given[slot].text) != NONE


def _page(name: str) -> str:
    """The file of the page beside a home file."""
    return str(Path(name).with_suffix(".html"))


def _terminal() -> Terminal:
    """As wide as the terminal is, within bounds."""
    return Terminal(min(WIDEST, max(NARROWEST, shutil.get_terminal_size().columns)) if sys.stdout.isatty() else PIPED)


@dataclass
class _Kept:
    """The file of an interview: its answers, and what it held when it was last written or read."""

    begun: Begun
    answers: Answers
    glossary: Glossary
    first: list[str]
    held: str | None

    @classmethod
    def of(cls, begun: Begun, starter: Starter, rules: RuleSet, terminal: Terminal) -> _Kept:
        """The answers of a file that is there, or none yet."""
        typical = {kind: _figure(kind, rules) for kind in rules.defaults}
        if not Path(begun.file).exists():
            work = _work(begun.work, starter) or choose_work(starter, terminal)
            return cls(begun, Answers(starter, work, typical), rules.glossary, begun.first_line(), None)
        text = load_text(begun.file)
        answers = read_kept(text, begun.file, starter, typical)
        found = problems_in([Line(line) for line in text.splitlines()], rules.glossary)
        if found:
            raise InputError(found)
        before = dict(answers.given)
        gone_on_with(text, begun.file, answers, rules.glossary, WIDTH)
        first = [line for line in text.splitlines()[:1] if SCHEMA_LINE.fullmatch(line)]
        kept = cls(begun, answers, rules.glossary, first, text)
        if answers.given != before:
            terminal.say("What was changed by hand is taken over.")
            kept.save(answers)
        return kept

    def save(self, answers: Answers) -> None:
        """Write the file whole.

        Raises:
            InputError: it was changed meanwhile, or cannot be written.
        """
        name = self.begun.file
        if self.held is not None and load_text(name) != self.held:
            fail(MEANWHILE, name=name)
        lines = [*self.first, *(line.text for line in whole_file(answers, self.glossary, WIDTH))]
        self.held = _write(name, lines, new=self.held is None)


@dataclass
class _Also:
    """What only the rules of an edition can say of an answer."""

    rules: RuleSet
    folder: Path | None
    beside: Path
    around: frozenset[str]
    named: str = ""

    def problems(self, step: Step, answer: Answer) -> Sequence[Problem]:
        """What keeps an answer from being taken: an edition that is not offered, or a kind without a typical rating."""
        if step.question.path == CODE:
            return self._of_edition(answer.text)
        if step.question.path == METER_FILE and plain(answer.text) != NONE:
            return self._of_record(answer.text)
        problems = Problems()
        if step.question.kind and step.question.kind not in self.rules.defaults:
            kind = spaced(step.question.kind)
            known = ", ".join(spaced(each) for each in self.rules.defaults)
            for _, text in parts_of(answer.text):
                if plain(text) == TYPICAL:
                    problems.add(NO_TYPICAL, None, kind=kind, name=step.question.entry["name"], known=known)
        return problems.found

    def spelled(self, question: Question, text: str) -> str:
        """An edition however it is written, as the rules name it; any other answer as it is."""
        if question.path != CODE:
            return text
        words = re.findall(r"[a-z]+|\d+", text.casefold())
        words = [each for each in words if each not in self.around]
        for name in editions_in(self.folder or installed_folder()):
            code, _, year = name.partition("/")
            if sorted(words) in (sorted((code, year)), [year]):
                return name
        return text

    def _of_record(self, name: str) -> Sequence[Problem]:
        """That there is no file of that name yet; typed again it is kept."""
        problems = Problems()
        if name != self.named and not (self.beside / name).is_file():
            self.named = name
            problems.add(NO_RECORD, None, name=name)
        return problems.found

    def _of_edition(self, text: str) -> Sequence[Problem]:
        code = Text(text)
        code.source, code.line, code.column = Source("", text), 1, 1
        try:
            rules_for(code, "", self.folder)
        except InputError as error:
            return error.problems
        return []


def _figure(kind: str, rules: RuleSet) -> str:
    """What is typical of a kind of load, between what, and by whom."""
    found, glossary = rules.defaults[kind], rules.glossary
    unit = glossary.collections["loads"].fields[found.field].kind.unit
    low, typical, high = (printed.quantity(each, unit, glossary) for each in (found.low, found.typical, found.high))
    return f"{typical}, between {low} and {high}, by: {rules.sources[found.source.split()[0]].title}"


def _refuse_there(name: str) -> None:
    if Path(name).exists():
        fail(IS_THERE, name=name, instead=f"name another file; `dwellcalc start {name} --ask` goes on with one that it has begun")


def _write(name: str, lines: Sequence[str], *, new: bool) -> str:
    text = "\n".join(lines) + "\n"
    write_whole(name, text, new=new)
    return text


def _listed(starter: Starter) -> str:
    longest = max(len(word) for word in starter.works)
    return "".join(f"\n    {work.word.ljust(longest)}  {work.title}" for work in starter.works.values())


def _work(word: str, starter: Starter) -> Work | None:
    """The kind of work that was named, or nothing."""
    if not word:
        return None
    names = Names(starter.works.items())
    found = names.find(word)
    if found is None:
        fail(UNKNOWN_WORK, word=word, listed=_listed(starter))
    return found


def _asked_work(starter: Starter) -> Work:
    """The kind of work, asked in a terminal; elsewhere it must be named."""
    if not sys.stdin.isatty():
        fail(NO_WORK, listed=_listed(starter))
    try:
        return choose_work(starter, _terminal())
    except Stopped:
        raise KeyboardInterrupt from None


def write_schema(name: str, rules: Path | None) -> int:
    """``dwellcalc schema``: the JSON Schema of home files; the exit code is 0."""
    from dwellcalc.home.schema import schema_of

    text = json.dumps(schema_of(read_glossary(rules)), indent=1, ensure_ascii=False)
    if name:
        write_whole(name, text + "\n", new=False)
        print(f"Written: {name}")
    else:
        print(text)
    return 0
