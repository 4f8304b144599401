"""The interview in the terminal: one question at a time, each answer checked at once and written to the file."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace

from dwellcalc.cli.any_kind import AnyKind
from dwellcalc.cli.follow_ups import FollowUps
from dwellcalc.cli.overview import Overview
from dwellcalc.cli.taking import Taking, named, told
from dwellcalc.cli.terminal_talk import BACK, HELP, INDENT, STOP, Back, Stopped, Terminal
from dwellcalc.glossary import Glossary
from dwellcalc.home.names import plain
from dwellcalc.home.starting.along import told_with
from dwellcalc.home.starting.answers import HOME, Answer, Answers, Slot, Step
from dwellcalc.home.starting.checked import with_answer
from dwellcalc.home.starting.everyday import none_in_doubt, undecided, without_beside, without_doubt_words
from dwellcalc.home.starting.outlets import at_outlet, outlet_alone
from dwellcalc.home.starting.plausible import Plausible
from dwellcalc.home.starting.questions import ANY_LOADS, ANY_PLANNED, LOAD, PLANNED, SKIP, Question
from dwellcalc.home.starting.said import evidence_word
from dwellcalc.home.starting.sentences import number_clause
from dwellcalc.home.starting.short_words import is_question
from dwellcalc.home.starting.spoken import sized, spoken
from dwellcalc.home.starting.taken import choice_as_shown, taken, without_aside, without_doubt
from dwellcalc.home.starting.told_beside import BESIDES, breaker_alone, details_told, drawn, kept_words
from dwellcalc.problems import InputError, Problem

FIRST = "This is the first question."
WELCOME = (
    "One question at a time. Enter takes what is shown as such; `don't know` and `none` may be typed where they make sense; "
    "`back` goes to the question before, `stop` stops, `?` shows help. All that was answered is in the file at once."
)
GOING = "`back` goes to the question before, `list` shows all answers; `stop` stops, and all that was answered is in the file."
RATED = (
    "`, told` after a rating says that somebody said so and nobody has seen it; so do the other words of what ratings are read from. "
    "`2 x` before it says that there are two of them."
)
CHANGE = "Type a number to change that answer, `list` to see all; Enter to finish."
LIST = "list"
ENTER_SKIPS, NOT_KNOWN_SKIPS = "Enter leaves it out.", "`don't know` leaves it out."
ON_BREAKER = "Read as {draws} at most, on a breaker of {breaker}."


@dataclass
class Interview:
    """Asks the questions.

    Attributes:
        save: writes the answers to the file.
        also: further checks of what is to be taken, such as whether a typical rating is known.
        spelled: an answer as the rules spell it, such as an edition.
        along: what was answered along with another question, and is passed by.
        much: what was typed that is more than plausible; typed again it is kept.
        refused: the question to which an answer could not be taken.
    """

    answers: Answers
    glossary: Glossary
    terminal: Terminal
    width: int
    save: Callable[[Answers], None]
    also: Callable[[Step, Answer], Sequence[Problem]]
    spelled: Callable[[Question, str], str]
    along: set[Slot] = field(default_factory=set)
    much: tuple[Slot, str] | None = None
    refused: Slot | None = None

    def run(self) -> None:
        """Ask from the first question on that has no answer, then let answers be changed.

        Raises:
            Stopped: before the last question was answered.
        """
        self.terminal.say(WELCOME)
        self.walk(self.first_open())
        self.overview().all()
        while (at := self.to_change()) is not None:
            step, before = self.answers.asked()[at], dict(self.answers.given)
            self.station(step)
            try:
                self.ask(step)
                self.walk(self.first_open(), only_open=True)
            except Stopped:
                if self.first_open() < len(self.answers.asked()):
                    raise
                return
            self.overview().changed(before)

    def first_open(self) -> int:
        """The position of the first question without an answer, or of the end."""
        asked = self.answers.asked()
        return next((at for at, step in enumerate(asked) if step.slot not in self.answers.given), len(asked))

    def walk(self, at: int, *, only_open: bool = False) -> None:
        """Ask from a position on; ``only_open`` those that have no answer.

        Raises:
            Stopped: before the last question was answered.
        """
        asked = self.answers.asked()
        shown: tuple[str, int] | None = None
        while at < len(asked):
            step = asked[at]
            if (step.station.id, step.unit) != shown:
                self.station(step)
                shown = (step.station.id, step.unit)
            on = self.ask(step)
            asked = self.answers.asked()
            if on and only_open:
                at = self.first_open()
            elif on:
                at += 1
                while at < len(asked) and asked[at].slot in self.along:
                    at += 1
            elif at:
                at -= 1
            else:
                self.terminal.say(FIRST, INDENT)

    @property
    def taking(self) -> Taking:
        """What is said of answers that are taken."""
        return Taking(self.terminal, self.answers, self.glossary)

    def overview(self) -> Overview:
        """What was answered, to be shown."""
        return Overview(self.terminal, self.answers, self.of_unit)

    def to_change(self) -> int | None:
        """The position of the answer that is to be changed; nothing where all may stay."""
        count = len(self.answers.asked())
        while True:
            self.terminal.say(CHANGE)
            try:
                typed = self.terminal.type()
            except Stopped:
                return None
            if not typed or plain(typed) == STOP:
                return None
            if plain(typed) == LIST:
                self.overview().all()
            elif typed.isascii() and typed.isdecimal() and 0 < int(typed) <= count:
                return int(typed) - 1

    def of_unit(self, step: Step) -> str:
        """Of which dwelling unit a question is, where there are several."""
        return f", {self.answers.units[step.unit].name}" if step.unit != HOME and self.answers.work.several_units else ""

    def station(self, step: Step) -> None:
        """Show where the walk is."""
        title = f"{step.station.title}{self.of_unit(step)}"
        self.terminal.blank()
        print(f"{title}\n{'-' * len(title)}")
        if step.station.before and not self.answers.work.drawn:
            self.terminal.say(step.station.before, INDENT)

    def ask(self, step: Step) -> bool:
        """Ask one question until its answer can be taken; whether to go on rather than back."""
        before = self.answers.given.get(step.slot)
        self.show(step, before)
        while True:
            typed = self.terminal.type()
            if plain(typed) == BACK:
                return False
            if plain(typed) == STOP:
                raise Stopped
            if plain(typed) == LIST:
                self.overview().all()
                self.show(step, before)
                continue
            if plain(typed) in HELP or is_question(typed, step.question):
                self.help(step, before)
                continue
            if not typed and before is not None:
                return True
            try:
                problems = self.take(step, typed)
            except Back:
                self.show(step, before)
                continue
            if problems is None:
                return True
            self.refused = step.slot
            for problem in problems:
                self.terminal.say(told(problem, self.answers.starter.forms(step.question)), INDENT)

    def show(self, step: Step, before: Answer | None) -> None:
        """Show a question."""
        question = step.question
        self.terminal.blank()
        self.terminal.say(question.put(drawn=self.answers.work.drawn))
        how = question.how(typed=True, drawn=self.answers.work.drawn)
        if how:
            self.terminal.say(how, INDENT)
        self.terminal.listed({word: choice.says for word, choice in question.choices.items()})
        if question.several:
            self.terminal.say("Several may be named, with commas between.", INDENT)
        enter = before.text if before else self.answers.offered(question, step.unit)
        if enter:
            told = f"Enter {'keeps' if before else 'takes'}: {self.taking.with_figure(enter, question)}"
            self.terminal.say(ENTER_SKIPS if enter == SKIP else told, INDENT)
        offered = (self.answers.unknown(question) or self.answers.offered(question, step.unit)) if before else ""
        if before and offered not in ("", SKIP, before.text):
            self.terminal.say(f"`don't know` takes: {self.taking.with_figure(offered, question)}", INDENT)

    def help(self, step: Step, before: Answer | None) -> None:
        """Show what is asked again, and what else may be typed."""
        question = step.question
        self.show(step, before)
        if question.means:
            self.terminal.say(question.means, INDENT)
        if question.choices:
            self.terminal.say("One of the words, or its number.", INDENT)
        if question.form in (LOAD, PLANNED, ANY_LOADS, ANY_PLANNED):
            self.terminal.say(RATED, INDENT)
        if question.may_be_none:
            self.terminal.say("`none` where there is none.", INDENT)
        unknown = self.answers.unknown(question) or self.answers.enter(question)
        if question.asks_whether:
            self.terminal.say("`don't know` asks whether there is one.", INDENT)
        elif unknown:
            told = f"`don't know` takes: {self.taking.with_figure(unknown, question)}"
            self.terminal.say(NOT_KNOWN_SKIPS if unknown == SKIP else told, INDENT)
        self.terminal.say(GOING, INDENT)

    def take(self, step: Step, typed: str) -> Sequence[Problem] | None:
        """Take what was typed and write it to the file: nothing, or why it cannot be taken.

        Raises:
            Stopped, Back: that was typed at a question that followed.
        """
        follow = FollowUps(self.terminal, self.glossary)
        typed = without_aside(choice_as_shown(typed, step.question) or typed)
        typed = AnyKind(self.terminal, self.answers, self.glossary).read(step, without_doubt_words(typed, step.question))
        undecided_of = undecided(typed, step.question, self.answers.starter)
        typed, apart = (SKIP, undecided_of) if undecided_of else without_beside(typed, step.question)
        text, beside = told_with(step, typed, self.answers, self.glossary)
        words = self.answers.starter.words
        on = drawn(typed, step.question)
        if on is not None:
            text = on.draws
            self.terminal.say(ON_BREAKER.format(draws=on.draws, breaker=on.breaker), INDENT)
        if on is not None or apart:
            beside += [
                (replace(step, question=self.answers.starter.questions[name]), word)
                for name, word in details_told(apart or typed, step.question, self.answers.starter).items()
                if name not in {other.question.id for other, _ in beside}
            ]
        text, where = number_clause(text, step.question, self.answers.starter.words, self.is_evidence)
        kept = [*([on.kept] if on else []), *kept_words(typed, step.question), *([where] if where else [])]
        kept += [apart] if apart else []
        text = at_outlet(text, step.question, self.answers.starter, self.glossary)
        no_one = none_in_doubt(text, step.question, self.answers)
        text = no_one.text if no_one else text
        text, doubted = without_doubt(spoken(text, step.question, words), step.question)
        try:
            circuit = breaker_alone(typed, step.question)
            plausible = Plausible(step.question, self.answers, self.glossary)
            answer = (
                follow.on_circuit(step.question, circuit, plausible)
                if circuit
                else no_one
                or outlet_alone(text, step.question)
                or sized(text, step.question, words)
                or taken(self.spelled(step.question, text), step.question, self.answers, step.unit)
            )
            answer = follow.held_to(typed, step, answer, self.answers)
            answer = follow.there(text, step, replace(answer, assumed=answer.assumed or doubted), tried=self.refused == step.slot)
            if not answer.assumed:
                answer = follow.completed(self.answers, step, answer, drawn=on is not None)
            answer = replace(answer, beside=BESIDES.join([*([answer.beside] if answer.beside else []), *kept]))
        except InputError as error:
            return error.problems
        tried, problems = with_answer(self.answers, step, answer, self.glossary, self.width)
        problems = [*problems, *self.also(step, answer)]
        if problems:
            return problems
        if self.asked_again(step, answer):
            return []
        for other, word in beside:
            tried, _ = with_answer(tried, other, Answer(word), self.glossary, self.width)
        self.along = {other.slot for other, _ in beside if other.question.along}
        self.taking.passed_by(step.question, text)
        self.taking.confirm(
            step.question,
            typed,
            answer,
            [*([answer.beside] if answer.beside else []), *(named(other.question, word) for other, word in beside)],
        )
        self.answers = tried
        self.save(tried)
        return None

    def is_evidence(self, text: str) -> bool:
        """Whether a clause says what a value was read from."""
        return bool(evidence_word(text, self.answers.starter, self.glossary))

    def asked_again(self, step: Step, answer: Answer) -> bool:
        """Whether a value is more or less than plausible and was not typed twice; that is said."""
        much = (step.slot, answer.text)
        text = Plausible(step.question, self.answers, self.glossary).doubt(answer.text)
        if answer.assumed or self.much == much or not text:
            return False
        self.much = much
        self.terminal.say(f"{text[:1].upper()}{text[1:]}; type it again to keep it.", INDENT)
        return True
