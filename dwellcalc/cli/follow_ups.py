"""What is asked at once after an answer that leaves something open: the voltage, whether there is one, whether it can be set lower."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from dwellcalc.cli.terminal_talk import INDENT, Terminal
from dwellcalc.glossary import YES, Glossary
from dwellcalc.home.models import models_for
from dwellcalc.home.names import plain
from dwellcalc.home.ratings import SETTING
from dwellcalc.home.starting.answers import Answer, Answers, Step, parts_of
from dwellcalc.home.starting.completed import Completion
from dwellcalc.home.starting.everyday import HALF, half_of, share_of
from dwellcalc.home.starting.loads import Loads
from dwellcalc.home.starting.not_knowing import not_known
from dwellcalc.home.starting.outlets import kind_told
from dwellcalc.home.starting.plausible import Plausible
from dwellcalc.home.starting.questions import LOAD, NONE, OTHERWISE, PLANNED, SEMICOLON, Question
from dwellcalc.home.starting.said import said_of
from dwellcalc.home.starting.told_beside import BESIDES, FROM_BREAKER, LARGEST, ON_CIRCUIT

NO = "no"
CURRENT = re.compile(r"\d[\d.]*\s*[A-Za-z]+(?=$|\s+(?:at\s+)?\d)")  # of `50 A 240 V` the first amount
VOLTAGE = "At which voltage?"
UNIT = "In which unit?"
IS_THERE = "Is there one?"
INPUT, BREAKER, DRAWN, OUTPUT = "input", "breaker", "what it draws", "cooking power"
OF_BREAKER = "{current} is a common size of breaker. Is that the input that the equipment takes, or its breaker?"
NEARLY_ALWAYS = "for such a number is one nearly always; the rating then stands as not seen"
UP_TO_BREAKER = "Taken up to that breaker, from the low end of what is taken where nothing is known."
HALF_OR_ALL = "Is {said} the whole of it, or that half alone?"
ALL, THAT_HALF = "whole", "half"
EVERY = "every whole ampere"


@dataclass(frozen=True)
class FollowUps:
    """Asks what an answer leaves open."""

    terminal: Terminal
    glossary: Glossary

    def there(self, typed: str, step: Step, answer: Answer, *, tried: bool = False) -> Answer:
        """Where it was not known what a load is: whether it is there at all.

        Args:
            typed: what was typed.
            step, answer: the question, and what was taken.
            tried: whether something was told of it before that could not be read, so that it is there rather than not.

        Raises:
            Stopped, Back: that is what was typed.
        """
        if not not_known(typed) or not step.question.asks_whether:
            return answer
        unknown = NO if step.question.enter.get(OTHERWISE) == NONE and not tried else YES
        said, known = self.terminal.choose(IS_THERE, (YES, NO), unknown, unknown)
        return Answer(NONE, not known) if said == NO else replace(answer, there=known)

    def held_to(self, typed: str, step: Step, answer: Answer, answers: Answers) -> Answer:
        """Bounds of an area that were taken, held to what was said before; where that has it in already, none.

        Raises:
            Stopped, Back: that is what was typed.
        """
        question = step.question
        if question.not_over and HALF.search(typed) and any(map(str.isdigit, typed)) and not answer.assumed:
            asked = HALF_OR_ALL.format(said=said_of(answer.text, answers.starter, self.glossary).rating)
            whole = self.terminal.choose(asked, (ALL, THAT_HALF), THAT_HALF, THAT_HALF)[0] == ALL
            return replace(answer, text=half_of(answer.text)) if whole else answer
        before = answers.given.get((question.not_over, step.unit)) if question.not_over else None
        plausible = Plausible(question, answers, self.glossary)
        said = before and plausible.size(said_of(before.text, answers.starter, self.glossary).rating)
        bounds = plausible.size(answer.text)
        if not (answer.assumed and answer.there and before and said and bounds):
            return answer
        if question.in_it_asks:
            asked = question.in_it_asks.format(said=said_of(before.text, answers.starter, self.glossary).rating)
            word, _ = self.terminal.choose(asked, (YES, NO), NO, NO)
            if word == YES:
                return Answer(NONE)
        return replace(answer, text=share_of(answer.text, typed, said[2], bounds[2]))

    def completed(self, answers: Answers, step: Step, answer: Answer, *, drawn: bool = False) -> Answer:
        """The answer with the unit and the voltage that its question knows, or that are asked for; ``drawn`` where it is no breaker.

        Raises:
            InputError: it has bounds where there are none.
            Stopped, Back: that is what was typed.
        """
        completion = Completion(step.question, answers, self.glossary)
        if step.question.goes_too and plain(answer.text) != NONE:
            return replace(answer, text=self.goes(answers, step, answer.text))
        found = completion.of(answer.text)
        if found.units:
            unit, _ = self.terminal.choose(UNIT, found.units, found.units[0], found.units[0])
            found = completion.of(answer.text, unit=unit)
        if found.voltages:
            voltage, known = self.terminal.choose(VOLTAGE, found.voltages, found.voltages[0], found.voltages[0])
            found = completion.of(found.text, voltage, assumed=not known)
        of_kind = kind_told(step.question, found.text, answers, self.glossary)
        for each in [*found.told, *([of_kind] if of_kind else [])]:
            self.terminal.say(each, INDENT)
        seen = self.of_breaker(step.question, found.text, Plausible(step.question, answers, self.glossary))
        if seen is not None:
            return seen
        if self.is_output(step.question, found.text, Plausible(step.question, answers, self.glossary)):
            return Answer(step.question.output_takes, assumed=True, there=True)
        loads = Loads(answers, self.glossary)
        most, breaker = (found.text, "") if drawn else self.drawn(step.question, found.text, loads)
        text, common = self.set_lower(step.question, most, loads)
        beside = (
            [f"{FROM_BREAKER} {breaker}"]
            if breaker
            else [LARGEST.format(setting=said_of(most, answers.starter, self.glossary).rating)]
            if common
            else []
        )
        return Answer(text, answer.assumed or common, beside=BESIDES.join(beside))

    def of_breaker(self, question: Question, text: str, plausible: Plausible) -> Answer | None:
        """What is taken where it was the breaker that was read; nothing where it was not.

        Raises:
            Stopped, Back: that is what was typed.
        """
        current = plausible.breaker(text)
        if not current:
            return None
        asked = OF_BREAKER.format(current=current)
        said, _ = self.terminal.choose(asked, (INPUT, BREAKER), BREAKER, BREAKER, NEARLY_ALWAYS)
        return self.on_circuit(question, current, plausible) if said == BREAKER else None

    def on_circuit(self, question: Question, current: str, plausible: Plausible) -> Answer:
        """What is taken where only the breaker was told, of what is there."""
        taken = plausible.on_breaker(current)
        if current in taken:
            self.terminal.say(UP_TO_BREAKER, INDENT)
        if question.breaker_told:
            self.terminal.say(question.breaker_told.format(breaker=current), INDENT)
        return Answer(taken, assumed=True, there=True, beside=ON_CIRCUIT.format(current=current))

    def is_output(self, question: Question, text: str, plausible: Plausible) -> bool:
        """Whether it was an output that was read, which is less than the input.

        Raises:
            Stopped, Back: that is what was typed.
        """
        size, most = plausible.size(text), plausible.size(question.output_to)
        if not question.output_to or size is None or most is None or size[0] != most[0] or size[2] > most[2]:
            return False
        said, _ = self.terminal.choose(question.output_asks.format(rating=text), (OUTPUT, INPUT), OUTPUT, OUTPUT)
        return said == OUTPUT

    def goes(self, answers: Answers, step: Step, text: str) -> str:
        """What is replaced, with the load that goes with what burns gas where it does.

        Raises:
            Stopped, Back: that is what was typed.
        """
        question = step.question
        burning = {*question.goes_too, *question.goes_always}
        parts = [part for _, part in parts_of(text)]
        gone = [part if plain(part) in burning else self.by_kind(part, answers, step.unit) for part in parts]
        for name, load in question.goes_too.items():
            if plain(name) in map(plain, gone) and load not in gone and self.is_there(load, answers, step.unit):
                said, _ = self.terminal.choose(question.goes_too_asks, (YES, NO), YES, YES)
                gone += [load] if said == YES else []
        for name, load in question.goes_always.items():
            if plain(name) in map(plain, gone) and load not in gone and self.is_there(load, answers, step.unit):
                gone.append(load)
        return f"{SEMICOLON} ".join(gone)

    def by_kind(self, name: str, answers: Answers, unit: int) -> str:
        """A load by its name in the file, where it is told by another one of its kind and is the only one of that."""
        kind = models_for(self.glossary).vocabulary.kinds.find(name)
        asked = [each for each in answers.asked() if each.unit == unit and each.question.form == LOAD]
        there = [each.question for each in asked if answers.given.get(each.slot, Answer(NONE)).text != NONE]
        alike = [each.entry["name"] for each in there if kind is not None and each.kind == kind.name]
        named = {plain(each.entry["name"]): each.entry["name"] for each in there}
        within = [
            each for said, each in named.items() if set(said.split()) < set(plain(name).split())
        ]  # `air conditioner outside`
        found = alike or within
        return found[0] if len(found) == 1 and plain(name) not in named else name

    def is_there(self, load: str, answers: Answers, unit: int) -> bool:
        """Whether a load of that name was said to be there."""
        return any(
            each.question.entry.get("name") == load and answers.given.get(each.slot, Answer(NONE)).text != NONE
            for each in answers.asked()
            if each.unit == unit
        )

    def drawn(self, question: Question, text: str, loads: Loads) -> tuple[str, str]:
        """A setting or a current at its voltage that was said; where that was a breaker, the largest that is drawn on it, and the breaker.

        Raises:
            Stopped, Back: that is what was typed.
        """
        several = self.several_drawn(question, text, loads)
        if several:
            return several, ""
        rating = said_of(text, loads.answers.starter, self.glossary).rating
        current = CURRENT.match(rating)
        amount = loads.current(current[0]) if current else None
        for breaker, draws in question.on_breaker.items() if amount is not None else ():
            if loads.current(breaker) == amount:
                asked = question.breaker_asks.format(breaker=breaker, draws=draws)
                said, _ = self.terminal.choose(asked, (BREAKER, DRAWN), BREAKER, BREAKER, NEARLY_ALWAYS.partition(";")[0])
                was_breaker = said == BREAKER and current is not None
                return (text.replace(current[0], draws, 1), breaker) if was_breaker and current else (text, "")
        return text, ""

    def several_drawn(self, question: Question, text: str, loads: Loads) -> str:
        """What is drawn on several breakers, where all amounts that were said may be such, and are; else an empty text.

        Raises:
            Stopped, Back: that is what was typed.
        """
        draws = {loads.current(breaker): drawn for breaker, drawn in question.on_breaker.items()}
        parts = [part for _, part in parts_of(text)]
        if len(parts) < 2 or not all(loads.current(part) in draws for part in parts):
            return ""
        most = max(parts, key=lambda part: loads.current(part) or 0)
        asked = question.breaker_asks.format(breaker=most, draws=draws[loads.current(most)])
        said, _ = self.terminal.choose(asked, (BREAKER, DRAWN), BREAKER, BREAKER, NEARLY_ALWAYS.partition(";")[0])
        return f"{SEMICOLON} ".join(draws[loads.current(part)] for part in parts) if said == BREAKER else ""

    def set_lower(self, question: Question, text: str, loads: Loads) -> tuple[str, bool]:
        """The settings up to the largest, where that alone was said and it can be set lower; else that setting.

        It is told too whether those below the largest are common ones, that nobody has said or seen.

        Raises:
            Stopped, Back: that is what was typed.
        """
        parts = parts_of(text)
        alone = question.form == PLANNED and question.lower and len(parts) == 1 and not parts[0][0]
        said = said_of(text, loads.answers.starter, self.glossary).rating
        text = said if alone and loads.current(said) is not None else text  # settings are common ones, whoever told the largest
        largest = loads.current(text) if alone else None
        if largest is None:
            return text, False
        words = (YES, NO, *([EVERY] if question.lowest else []))
        thought = dict.fromkeys(loads.answers.starter.words.thinks_so, YES)
        said, _ = self.terminal.choose(question.lower, words, YES, YES, also=thought)
        if said == EVERY:
            return f"{question.lowest} to {text}", False
        if said == NO:
            return f"{SETTING} {text}", False
        usual = [part for _, part in parts_of(question.enter.get(OTHERWISE, "")) if (loads.current(part) or largest) < largest]
        return f"{SEMICOLON} ".join([*usual, text]), bool(usual)
