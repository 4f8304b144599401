"""The interview in the terminal: one question at a time, each answer checked at once and written to the file."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace

from dwellcalc.cli.any_kind import AnyKind
from dwellcalc.cli.follow_ups import FollowUps
from dwellcalc.cli.overview import LIST, Overview
from dwellcalc.cli.shown_question import ShownQuestion
from dwellcalc.cli.silent import Asked, Silent
from dwellcalc.cli.taking import KEPT, Taking, named, told
from dwellcalc.cli.terminal_talk import BACK, HELP, INDENT, STOP, Back, Stopped, Terminal
from dwellcalc.glossary import Glossary
from dwellcalc.home.names import plain
from dwellcalc.home.starting.along import told_in_rest, told_with
from dwellcalc.home.starting.answers import HOME, UNKNOWN, Answer, Answers, Slot, Step
from dwellcalc.home.starting.checked import with_answer
from dwellcalc.home.starting.elsewhere import OF_ANOTHER, Elsewhere, elsewhere
from dwellcalc.home.starting.everyday import (
    as_on_labels,
    none_in_doubt,
    the_same,
    thinks_so,
    told_in_doubt,
    undecided,
    without_beside,
    without_doubt_words,
)
from dwellcalc.home.starting.outlets import at_outlet, outlet_alone
from dwellcalc.home.starting.partly import Sentence
from dwellcalc.home.starting.plausible import Plausible
from dwellcalc.home.starting.questions import NONE, SKIP, Question
from dwellcalc.home.starting.said import evidence_word
from dwellcalc.home.starting.sentences import number_clause
from dwellcalc.home.starting.short_words import is_question
from dwellcalc.home.starting.spoken import sized, spoken
from dwellcalc.home.starting.taken import choice_as_shown, none_known, taken, without_aside, without_doubt
from dwellcalc.home.starting.told_beside import BESIDES, breaker_alone, details_beside, drawn, kept_words, load_of, ratings_beside
from dwellcalc.problems import InputError, Problem

WELCOME = (
    "One question at a time. Enter takes what is shown as such; `don't know` and `none` may be typed where they make sense; "
    "`back` goes to the question before, `stop` stops, `?` shows help. All that was answered is in the file at once."
)


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
        while (at := self.overview().to_change()) is not None:
            step, before = self.answers.asked()[at], dict(self.answers.given)
            self.shown.station(step, self.of_unit(step))
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
                self.shown.station(step, self.of_unit(step))
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
                self.terminal.say("This is the first question.", INDENT)

    @property
    def taking(self) -> Taking:
        """What is said of answers that are taken."""
        return Taking(self.terminal, self.answers, self.glossary)

    @property
    def shown(self) -> ShownQuestion:
        """What shows the questions."""
        return ShownQuestion(self.terminal, self.answers, self.taking)

    def overview(self) -> Overview:
        """What was answered, to be shown."""
        return Overview(self.terminal, self.answers, self.of_unit)

    def of_unit(self, step: Step) -> str:
        """Of which dwelling unit a question is, where there are several."""
        return f", {self.answers.units[step.unit].name}" if step.unit != HOME and self.answers.work.several_units else ""

    def ask(self, step: Step) -> bool:
        """Ask one question until its answer can be taken; whether to go on rather than back."""
        before = self.answers.given.get(step.slot)
        self.shown.show(step, before)
        while True:
            typed = self.terminal.type()
            if plain(typed) == BACK:
                return False
            if plain(typed) == STOP:
                raise Stopped
            if plain(typed) == LIST:
                self.overview().all()
                self.shown.show(step, before)
                continue
            if plain(typed) in HELP or is_question(typed, step.question):
                self.shown.help(step, before)
                continue
            if not typed and before is not None:
                return True
            tried = not typed and self.refused == step.slot and step.question.asks_whether
            try:
                problems = self.take(step, UNKNOWN if tried else typed)  # of what was told of, Enter says no none
            except Back:
                self.shown.show(step, before)
                continue
            if problems is None:
                return True
            self.refused = None if any(each.message is OF_ANOTHER for each in problems) else step.slot
            for problem in problems:
                self.terminal.say(told(problem, self.answers.starter.forms(step.question)), INDENT)

    def take(self, step: Step, typed: str) -> Sequence[Problem] | None:
        """Take what was typed and write it to the file: nothing, or why it cannot be taken.

        Where it cannot be taken whole, the one part of it that can is, and the rest is kept as it was told.

        Raises:
            Stopped, Back: that was typed at a question that followed.
        """
        other = elsewhere(typed, step.question, self.answers.starter)
        if other is not None:
            return self.without(step, other)
        problems = self.held(step, typed)
        sentence = Sentence(as_on_labels(typed, self.answers.starter.words), step.question, self.answers.starter, self.glossary)
        part = sentence.part(lambda text: self.read(step, text)) if problems else None
        return self.held(step, part.text, part.kept) if part else problems

    def without(self, step: Step, other: Elsewhere) -> Sequence[Problem] | None:
        """Take the rest of an answer that names what another question asks for: a choice, or that there is none; else why not."""
        answer = self.read(step, other.rest) if other.rest else None
        may = answer is not None and (bool(step.question.choices) or answer.text == NONE)
        return self.held(step, other.rest, other.said) if may else other.problem(step.question)

    def read(self, step: Step, text: str) -> Answer | None:
        """What a text by itself would be taken as, nothing being asked or written; nothing where it could not be taken."""
        other = self.silent(self.answers)
        try:
            problems = other.whole(step, text)
        except Asked:
            return Answer(text)
        return None if problems else other.answers.given.get(step.slot, Answer(text))

    def silent(self, answers: Answers) -> Interview:
        """The same where nothing is shown or written."""
        return replace(self, terminal=Silent(self.width), save=lambda _: None, along=set(), answers=answers)

    def held(self, step: Step, typed: str, rest: str = "") -> Sequence[Problem] | None:
        """Take what was typed as ``whole`` does; what is said of it is shown only where it is taken."""
        self.terminal.hold()
        problems = None
        try:
            problems = self.whole(step, typed, rest)
        finally:
            self.terminal.release(shown=not problems)
        return problems

    def whole(self, step: Step, typed: str, rest: str = "") -> Sequence[Problem] | None:
        """Take a text that is all of an answer; ``rest`` is what stands beside it and is kept as it was told.

        Raises:
            Stopped, Back: that was typed at a question that followed.
        """
        follow = FollowUps(self.terminal, self.glossary)
        words = self.answers.starter.words
        typed = choice_as_shown(typed, step.question) or thinks_so(typed, step.question, words) or typed
        typed = typed if none_known(typed) else without_aside(typed)
        typed = the_same(typed, step.question, self.answers, step.unit) or typed
        typed = AnyKind(self.terminal, self.answers, self.glossary).read(
            step, without_doubt_words(as_on_labels(typed, words), step.question)
        )
        undecided_of = undecided(typed, step.question, self.answers.starter)
        typed, apart = (SKIP, undecided_of) if undecided_of else without_beside(typed, step.question)
        if undecided_of and step.question.means:
            self.terminal.say(step.question.means, INDENT)
        text, beside = told_with(step, typed, self.answers, self.glossary)
        beside += told_in_rest(step, rest, self.answers, beside)
        on = drawn(typed, step.question)
        if on is not None:
            text = on.draws
            self.terminal.say(on.told, INDENT)
        told_beside = typed if on is not None else apart or rest
        beside += details_beside(self.answers, step, told_beside, f"{typed}, {rest}", {other.question.id for other, _ in beside})
        text, where = number_clause(
            text, step.question, words, lambda clause: bool(evidence_word(clause, self.answers.starter, self.glossary))
        )
        kept = [each for each in (on.kept if on else "", *kept_words(typed, step.question, words), where, apart) if each]
        text = at_outlet(text, step.question, self.answers.starter, self.glossary)
        no_one = none_in_doubt(text, step.question, self.answers)
        text = no_one.text if no_one else text
        text, doubted = without_doubt(
            told_in_doubt(spoken(text, step.question, words), typed, step.question, words), step.question
        )
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
            kept = [each for each in (answer.beside, *kept) if each]
            remarks = self.taking.remarks(step.question, text, rest, kept)
            answer = replace(answer, beside=BESIDES.join([*kept, *remarks]))
        except InputError as error:
            return error.problems
        tried, problems = with_answer(self.answers, step, answer, self.glossary, self.width)
        problems = [*problems, *self.also(step, answer)]
        if problems:
            return problems
        if self.asked_again(step, answer):
            return []
        given = replace(self.answers, given={**self.answers.given, step.slot: answer})
        told_too = ratings_beside(self.answers, step, answer, rest or typed) if step.question.choices else []
        beside += [(other, text) for other, said in told_too if (text := self.offered(other, said, given))]
        for other, word in beside:
            tried, _ = with_answer(tried, other, Answer(word), self.glossary, self.width)
        self.along = {other.slot for other, _ in beside if other.question.along}
        self.taking.confirm(
            step.question,
            typed if not rest else "",
            answer,
            list(
                dict.fromkeys(
                    [*kept, *(named(other.question, word, load_of(self.answers, step, other)) for other, word in beside)]
                )
            ),
        )
        if remarks:
            self.terminal.say(KEPT.format(rest=BESIDES.join(remarks)), INDENT)
        self.answers = tried
        self.save(tried)
        return None

    def offered(self, step: Step, said: str, given: Answers) -> str:
        """The rating that a text gives at a question, were it asked; empty where it gives none."""
        trial = self.silent(given)
        try:
            found = None if trial.take(step, said) else trial.answers.given.get(step.slot)
        except Asked:
            return ""
        return found.text if found and not found.assumed and any(map(str.isdigit, found.text)) else ""

    def asked_again(self, step: Step, answer: Answer) -> bool:
        """Whether a value is more or less than plausible and was not typed twice; that is said."""
        much = (step.slot, answer.text)
        text = Plausible(step.question, self.answers, self.glossary).doubt(answer.text)
        if answer.assumed or self.much == much or not text:
            return False
        self.much = much
        self.terminal.say(f"{text[:1].upper()}{text[1:]}; type it again to keep it.", INDENT)
        return True
