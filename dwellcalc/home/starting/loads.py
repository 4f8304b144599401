"""What answers give of loads: the items of a home file."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field, replace

from dwellcalc.glossary import YES, Glossary
from dwellcalc.home.glossary_names import FASTENED, INDIVIDUAL
from dwellcalc.home.models import models_for
from dwellcalc.home.names import plain, says_unknown, shown_kind
from dwellcalc.home.quantities import ranged
from dwellcalc.home.ratings import TYPICAL
from dwellcalc.placed import Text
from dwellcalc.problems import InputError
from dwellcalc.units import UnknownUnit

from .answers import HOME, Answer, Answers, Step, parts_of
from .lines import AsWritten, Entry, Item
from .outlets import kind_at
from .questions import ANY_PLANNED, EVIDENCE, LOAD, NONE, PLANNED
from .questions import Entry as Said
from .replaced import in_file, without_replaced
from .said import TOLD, said_of
from .told_beside import FROM_BREAKER, breaker_of

RATING = "rating"
ON_ITS_OWN = (FASTENED, INDIVIDUAL)
NOT_SEEN, ASSUMED = "not seen", "assumed"
DRAWINGS, MANUAL = "drawings", "manual"
KIND_AND_RATING = re.compile(r"([^:]*?)\s*:\s+(\S.*)")

AS_RATING, AS_ONE = "its rating, which cannot be set", "its only setting"
AS_SETTINGS, AS_EVERY = "the settings that it has", "with every whole ampere between them as a setting"


@dataclass
class Loads:
    """Makes items of answers; each gets a name of its own.

    Attributes:
        names: the names that are taken, by plain name.
        several: whether names say of which dwelling unit a load is.
    """

    answers: Answers
    glossary: Glossary
    names: set[str] = field(default_factory=set)
    evidence: str = ""

    def items(self, step: Step, answer: Answer) -> list[Item]:
        """The loads that an answer gives."""
        question = step.question
        if plain(answer.text) == NONE:
            return []
        if question.settings and (found := self.settings(step, answer)):
            return [found]
        made = []
        for number, text in parts_of(answer.text):
            entry, rating = self.any_kind(text) if not question.kind else (dict(question.entry), text)
            there = self.there_assumed(step, answer)
            breaker = breaker_of(answer.beside)
            made.append(self.item(step, entry, rating, number, assumed=answer.assumed, there_assumed=there, breaker=breaker))
        return made

    def added(self, step: Step, entry: Said, answer: Answer) -> Item:
        """A load that comes with a choice."""
        rest = dict(entry)
        there = self.there_assumed(step, answer)
        return self.item(step, rest, rest.pop("rating", ""), "", assumed=True, there_assumed=there)

    def any_kind(self, text: str) -> tuple[dict[str, str], str]:
        """A load of any kind that is answered with its rating; a text without a rating is a kind whose rating is not known.

        It is asked for as one that is fastened in place or has a circuit of its own, so that this is said where the kind leaves it open.
        """
        text, gone = without_replaced(text)
        match = KIND_AND_RATING.fullmatch(text)
        kind, rating = (match[1], match[2]) if match else (text.rstrip(": "), "unknown")
        found, name = models_for(self.glossary).vocabulary.kinds.find(kind), kind
        of_voltage = [
            each for each in self.answers.starter.questions.values() if found and each.kind_at and each.kind == found.name
        ]
        for each in of_voltage:  # such as a dryer for the voltage to the neutral
            other = kind_at(each, rating, self.answers, self.glossary)
            kind, found = (kind, found) if other == each.kind else (self.kind(other), self.glossary.load_kinds.get(other))
        asked = [each for each in ON_ITS_OWN if found and each in found.flags and not found.flags[each].word]
        said = {each.replace("_", " "): YES for each in asked} | ({"replaces": in_file(gone, self.told_names)} if gone else {})
        return {"name": name, "kind": kind, **said}, rating

    @property
    def told_names(self) -> list[str]:
        """The loads that were answered, by the names of their questions and choices."""
        return names_told(self.answers)

    def there_assumed(self, step: Step, answer: Answer) -> bool:
        """Whether nobody has said that what an answer is of is there at all."""
        led_to = (self.answers.given.get((name, step.unit)) for name in step.question.when)
        whether = step.question.asks_whether or step.question.settings or bool(step.question.choices)
        return (answer.assumed and whether and not answer.there) or any(each is not None and each.assumed for each in led_to)

    def item(
        self, step: Step, entry: Said, rating: str, number: str, *, assumed: bool, there_assumed: bool = False, breaker: str = ""
    ) -> Item:
        """An item of a list of loads; what is assumed of it, its rating or that it is there at all, is its evidence.

        A ``breaker`` is that from which the rating was taken, since nobody has read it.
        """
        rest = {name: self.kind(value) if name == "kind" else value for name, value in entry.items() if name != "name"}
        if step.question.kind_at:
            rest["kind"] = self.kind(kind_at(step.question, rating, self.answers, self.glossary))
        made = {"name": self.name(entry["name"], step), **rest}
        said = said_of(rating, self.answers.starter, self.glossary)
        rating = said.rating
        if number:
            made["quantity"] = number
        if rating:
            made["rating"] = rating
        made |= said.keys | ({FROM_BREAKER: breaker} if breaker else {})
        not_seen = assumed or bool(breaker) or says_unknown(rating) or plain(rating) == TYPICAL
        planned = step.question.form in (PLANNED, ANY_PLANNED)  # nobody can have seen its nameplate yet
        by_all = self.evidence if not planned or self.evidence in self.of_planned else ""
        evidence = NOT_SEEN if not_seen else said.evidence or by_all
        evidence = ASSUMED if there_assumed and not said.evidence else evidence
        if evidence:
            made[EVIDENCE] = evidence
        return Item(tuple(Entry(name, value, step.slot) for name, value in {**made, **self.where(step)}.items()))

    @property
    def of_planned(self) -> tuple[str, ...]:
        """What a planned load may rest on as the others do; of a house that stands on drawings, these too."""
        return (TOLD, DRAWINGS, MANUAL) if self.answers.work.drawn else (TOLD,)

    def settings(self, step: Step, answer: Answer) -> Item | None:
        """An item whose answer is currents that it can be set to: several, or all between two; nothing where it is a rating."""
        texts = tuple(text for _, text in parts_of(answer.text))
        if not all(self.is_current(text) for text in texts):
            return None
        entry = dict(step.question.entry)
        between = len(texts) == 1 and " to " in texts[0]
        there = self.there_assumed(step, answer)
        made = self.item(step, entry, "", "", assumed=False, there_assumed=there, breaker=breaker_of(answer.beside))
        listed = Entry("settings", texts[0] if between else texts, step.slot)
        kept = tuple(each for each in made.entries if each.key != EVIDENCE)
        of_them = tuple(each for each in made.entries if each.key == EVIDENCE and (there or not answer.assumed))
        return replace(made, entries=(*kept, listed, *of_them))

    def is_current(self, text: str) -> bool:
        """Whether a text is an amount of what settings are in, or two bounds of it."""
        field_set = self.glossary.collections["loads"].fields["setting"]
        try:
            return ranged(Text(text), text, self.glossary.units)[1] == field_set.kind.unit
        except (ValueError, UnknownUnit, InputError):
            return False

    def current(self, text: str) -> float | None:
        """The one current in A that a text is, or nothing."""
        if not self.is_current(text):
            return None
        found = ranged(Text(text), text, self.glossary.units)[0]
        return found if isinstance(found, float) else None

    def settings_told(self, text: str) -> str:
        """What an answer about settings was taken as."""
        texts = [part for _, part in parts_of(text)]
        if not all(map(self.is_current, texts)):
            return AS_RATING
        if len(texts) > 1:
            return AS_SETTINGS
        return AS_EVERY if self.current(text) is None else AS_ONE

    def where(self, step: Step) -> dict[str, str]:
        """What a planned load is in, where that must be said."""
        if step.question.form not in (PLANNED, ANY_PLANNED) or not self.answers.work.several_units:
            return {}
        return {"in": self.answers.units[step.unit].name if step.unit != HOME else "house"}

    def kind(self, name: str) -> str:
        """A kind of load as people write it."""
        found = self.glossary.load_kinds.get(name)
        return shown_kind(found) if found else name

    def name(self, wanted: str, step: Step) -> str:
        """A name that no other load has."""
        if self.answers.work.several_units and step.unit != HOME:
            wanted = f"{wanted} {self.answers.units[step.unit].name}"
        name, at = wanted, 1
        while plain(name) in self.names:
            at += 1
            name = f"{wanted} {at}"
        self.names.add(plain(name))
        return name

    def detail(self, step: Step, answer: Answer) -> str | tuple[str, ...]:
        """The value of a further key of a load: what a choice writes, else what was answered."""
        choice = step.question.choices.get(answer.text)
        return self.replaced(replace(answer, text=choice.writes or choice.word) if choice else answer, step.unit)

    def with_evidence(self, item: Item, step: Step, answer: Answer) -> Item:
        """An item with the evidence of one of its keys beside that of its rating, where the choice says one."""
        choice = step.question.choices.get(answer.text)
        if choice is None or not choice.evidence:
            return item
        before = next((str(each.value) for each in item.entries if each.key == EVIDENCE), "")
        words = ({RATING: before} if before else {}) | {step.question.entry["key"]: choice.evidence}
        written = AsWritten(f"{{{', '.join(f'{name}: {word}' for name, word in words.items())}}}")
        kept = tuple(each for each in item.entries if each.key != EVIDENCE)
        return replace(item, entries=(*kept, Entry(EVIDENCE, written, step.slot)))

    def replaced(self, answer: Answer, unit: int) -> str | tuple[str, ...]:
        """The loads that a planned one takes the place of, by the names that they have in the file."""
        found = []
        for _, text in parts_of(answer.text):
            name = self.answers.units[unit].name if unit != HOME and self.answers.work.several_units else ""
            longer = f"{text} {name}"
            found.append(longer if name and plain(longer) in self.names else text)
        return found[0] if len(found) == 1 else tuple(found)


def names_told(answers: Answers) -> list[str]:
    """The loads of today that were answered with questions of their own, by name."""
    found = []
    for step in answers.asked():
        answer = answers.given.get(step.slot)
        if answer is None or plain(answer.text) == NONE:
            continue
        if step.question.form == LOAD:
            found.append(step.question.entry["name"])
        for word in answer.text.split(", ") if step.question.choices else ():
            choice = step.question.choices.get(word)
            found += [each["name"] for each in choice.adds] if choice else []
    return list(dict.fromkeys(found))


def evidence_of(answers: Answers) -> str:
    """What most ratings are read from."""
    asked = next((each.id for each in answers.starter.questions.values() if each.form == EVIDENCE), "")
    found = answers.given.get((asked, HOME))
    return found.text if found else ""


def of_number(entry: Entry, number: int, items: Iterable[Item]) -> Entry:
    """An entry for one of several loads, by its place: of one that names a load, the load of the same number where there is one."""
    other = f"{entry.value} {number + 1}"
    there = any(other == str(each.entries[0].value) for each in items)
    return replace(entry, notes=(), value=other if there else entry.value) if number else entry
