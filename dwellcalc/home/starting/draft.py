"""The home file that answers make: its parts in their order, each with comments that say in what unit and where to read."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace

from dwellcalc.glossary import Glossary
from dwellcalc.home.names import plain, says_unknown

from .answers import HOME, Answer, Answers, Slot, Step, chosen, parts_of
from .lines import DASH, STEP, Entry, Item, Line, Part, comment, explained, lines_in
from .loads import ASSUMED, NOT_SEEN, Loads, evidence_of, of_number
from .not_there import absent_lines, area_kinds, load_kinds, not_electric
from .putting import of_kind, put_evidence, put_listed, put_named, within
from .questions import ANY_LOADS, ANY_PLANNED, AREA, DETAIL, EMPTY_LIST, EVIDENCE, KEY, LOAD, NONE, PLANNED, SKIP, Question
from .remarks import remark_lines
from .said import VOLTAGE_ASSUMED, said_of
from .told_beside import ratings_in

IS_ASSUMED = "Assumed; nobody has said or seen it."
RATING_ASSUMED = "That it is there was said; nobody has seen its rating."
ASSUMED_THERE = "That it is there is assumed."
ITS_VOLTAGE = "The voltage is assumed; the rest was said."
TO_FILL = "<such as {example}>"
UNITS, CONSIDERED = "dwelling units", "ratings considered"


def to_fill(question: Question) -> str:
    """The mark that stands for an answer."""
    return TO_FILL.format(example=question.as_written)


@dataclass
class Draft:
    """A home file in the making.

    Attributes:
        answers: the answers so far.
        empty: whether questions that are no choices are left to be filled in, and what is not asked stands there as a comment.
    """

    answers: Answers
    glossary: Glossary
    empty: bool = False
    home: list[Entry | Item | Part] = field(default_factory=list)
    service: Part = field(default_factory=lambda: Part("service"))
    meter: Part = field(default_factory=lambda: Part("meter"))
    units: Part = field(default_factory=lambda: Part(UNITS))
    house: Part = field(default_factory=lambda: Part("loads"))
    sources: Part = field(default_factory=lambda: Part("sources"))
    panels: Part = field(default_factory=lambda: Part("panels"))
    feeders: Part = field(default_factory=lambda: Part("feeders"))
    planned: Part = field(default_factory=lambda: Part("planned"))
    absent: dict[str, Slot] = field(default_factory=dict)
    rests: list[tuple[Part, Entry]] = field(default_factory=list)

    def made(self) -> Draft:
        """The draft with what all answers give."""
        explains = self.answers.starter.explains
        for part, name in (
            (self.service, "service"),
            (self.meter, "meter"),
            (self.units, "units"),
            (self.house, "house"),
        ):
            part.notes = explained(explains, name)
        self.sources.notes, self.planned.notes = explained(explains, "sources"), explained(explains, "planned")
        self.panels.notes, self.feeders.notes = explained(explains, "panels"), explained(explains, "feeders")
        self._begin_units()
        loads = Loads(self.answers, self.glossary, evidence=NOT_SEEN if self.empty else evidence_of(self.answers))
        for step in self.answers.steps():
            asked, answer = self.answers.holds(step), self.answers.given.get(step.slot)
            if asked and answer is not None:
                self._add(step, answer, loads)
            elif self.empty:
                self._add(step, Answer(to_fill(step.question)), loads, off=True)
        for part, entry in self.rests:
            put_evidence(part, entry, explained(explains, EVIDENCE))
        return self

    def _begin_units(self) -> None:
        explains = self.answers.starter.explains
        for unit in self.answers.units:
            entries = [Entry("name", unit.name)]
            if unit.quantity:
                entries.append(Entry("quantity", unit.quantity))
            first = not self.units.holds
            parts = [Part(name, explained(explains, name) if first else ()) for name in ("areas", "loads")]
            self.units.holds.append(Part("", holds=[*entries, *parts]))

    def _add(self, step: Step, answer: Answer, loads: Loads, *, off: bool = False) -> None:
        question, notes = step.question, self._notes(step, answer)
        if question.form == KEY:
            self._key(step, answer, notes, off)
        elif question.form == AREA:
            if plain(answer.text) != NONE or self.empty:
                self._areas(step, answer, notes, off)
        elif question.form in (LOAD, PLANNED, ANY_LOADS, ANY_PLANNED):
            self._loads(step, answer, notes, off, loads)
        elif question.form == DETAIL:
            self._detail(step, answer, notes, off, loads)
        for word, choice in question.choices.items():
            taken = word in chosen(answer.text) and not off
            for entry in choice.adds if taken else ():
                self._load_list(step).holds.append(replace(loads.added(step, entry, answer), notes=notes))
            if not off:
                self._absent(choice.absent if taken else choice.not_taken, step.slot)
        if plain(answer.text) == NONE and not off:
            areas = [question.entry["kind"].replace(" ", "_")] if question.form == AREA else []
            self._absent((*question.absent, *areas), step.slot)

    def _notes(self, step: Step, answer: Answer) -> tuple[str, ...]:
        """What is said above an answer: all of it once, and in each dwelling unit what is assumed."""
        question = step.question
        drawn = self.answers.work.drawn
        said = f"{question.what}. {question.how(drawn=drawn)}".strip() if step.unit in (0, HOME) else ""
        depends = [self.answers.given.get((name, step.unit)) for name in question.when]
        if not self.empty and answer.assumed:
            said = f"{said} {self._assumed(question, answer.told or answer.text, there=answer.there)}".strip()
        elif not self.empty and any(each is not None and each.assumed for each in depends):
            said = f"{said} {ASSUMED_THERE}".strip()
        if VOLTAGE_ASSUMED in answer.text:
            said = f"{said} {ITS_VOLTAGE}".strip()
        if answer.beside and not self.empty:
            said = f"{said} Beside it: {answer.beside}.".strip()
        return (said,) if said else ()

    def _assumed(self, question: Question, text: str, *, there: bool) -> str:
        """That an answer is assumed, or where that it is ``there`` was said its rating alone, and whose its figure is."""
        if question.meanwhile:
            return f"Taken: {text}, {question.meanwhile}."
        origin = self.answers.origin(question, text)
        return (RATING_ASSUMED if there else IS_ASSUMED) + (f" Taken: {origin}." if origin else "")

    def _absent(self, kinds: Iterable[str], slot: Slot) -> None:
        for kind in kinds:
            self.absent.setdefault(kind, slot)

    def _key(self, step: Step, answer: Answer, notes: tuple[str, ...], off: bool) -> None:
        question, slot, path = step.question, step.slot, step.question.path
        value: str | tuple[str, ...] = answer.text
        if question.choices and not off:
            value = question.choices[answer.text].writes or answer.text
        elif question.is_plain_fact and not off:
            value = said_of(answer.text, self.answers.starter, self.glossary).rating
        elif question.listed:
            value = tuple(text for _, text in parts_of(answer.text)) if not off else (answer.text,)
        left_out = plain(answer.text) == NONE and not (question.none_sets or question.none_writes)
        if SKIP in (plain(answer.text), value) or left_out:
            if not self.empty:
                return
            off, made = True, [Entry(question.path[-1], to_fill(question), slot, notes, off=True)]
        elif plain(answer.text) == NONE and question.none_writes == EMPTY_LIST:
            made, path = [Entry(question.path[1], (), slot, notes)], question.path[:2]
        elif plain(answer.text) == NONE and question.none_sets:
            made = [Entry(name, text, slot, notes) for name, text in question.none_sets.items()]
        else:
            value = question.none_writes if plain(answer.text) == NONE and question.none_writes else value
            made = [Entry(question.path[-1], value, slot, notes, off)]
        taken = question.choices.get(question.as_written if off else answer.text)
        for name, text in taken.sets.items() if taken is not None else ():
            self._put(tuple(name.split(".")), Entry(name.rpartition(".")[2], text, slot, off=off), step.unit)
        if question.either_takes and ratings_in(answer.beside) and not off:
            made.append(Entry(CONSIDERED, ratings_in(answer.beside), slot))
        for entry in made:
            self._put(path, entry, step.unit)
            if question.is_plain_fact and not off and path == question.path and not question.none_sets.get(entry.key):
                self._rests_on(step, answer, entry)

    def _rests_on(self, step: Step, answer: Answer, entry: Entry) -> None:
        """Note on what a plain fact rests, where nobody has seen it."""
        word = said_of(answer.text, self.answers.starter, self.glossary).evidence or (ASSUMED if answer.assumed else "")
        if not word or not isinstance(entry.value, str) or says_unknown(answer.told or entry.value):
            return
        first, *between = step.question.path[:-1]
        part = self._unit(step.unit) if first != self.service.key else self.service
        part = next((each for each in part.holds if isinstance(each, Part) and [each.key] == between), part)
        self.rests.append((part, Entry(entry.key, word, step.slot)))

    def _put(self, path: tuple[str, ...], entry: Entry, unit: int) -> None:
        """Put an entry where its path leads: to the home, the service, a dwelling unit or a source."""
        first, *between = path[:-1] or ("",)
        if not first:
            self.home.append(entry)
        elif first == "unit":
            holds = self._unit(unit).holds
            holds.insert(len(holds) - 1, entry)
        elif first == self.meter.key:
            put_listed(self.meter, between, entry)
        elif named := next((each for each in (self.sources, self.panels, self.feeders) if each.key == first), None):
            put_named(named, between[0], within(entry, between[1:]))
        elif not between:
            self.service.holds.append(entry)
        else:
            self._below_service(between[0], entry)

    def _below_service(self, key: str, entry: Entry) -> None:
        """An entry of the conductors; where only `not seen` or the like is said of them, that stands in their place."""
        if not entry.off and isinstance(entry.value, str) and says_unknown(entry.value):
            self.service.holds.append(replace(entry, key=key))
            return
        part = next((each for each in self.service.holds if isinstance(each, Part) and each.key == key), None)
        if part is None:
            if entry.off:
                return
            unknown = [each for each in self.service.holds if isinstance(each, Entry) and each.key == key]
            asked = self.answers.starter.questions
            part = Part(key, holds=[replace(each, key=asked[each.slot[0]].path[-1]) for each in unknown if each.slot])
            self.service.holds = [each for each in self.service.holds if each not in unknown]
            self.service.holds.append(part)
        part.holds.append(entry)

    def _unit(self, unit: int) -> Part:
        found = self.units.holds[unit]
        assert isinstance(found, Part)
        return found

    def _in_unit(self, unit: int, key: str) -> Part:
        return next(each for each in self._unit(unit).holds if isinstance(each, Part) and each.key == key)

    def _load_list(self, step: Step) -> Part:
        if step.question.form in (PLANNED, ANY_PLANNED):
            return self.planned
        return self.house if step.unit == HOME else self._in_unit(step.unit, "loads")

    def _areas(self, step: Step, answer: Answer, notes: tuple[str, ...], off: bool) -> None:
        areas, entry = self._in_unit(step.unit, "areas"), step.question.entry
        off = off or plain(answer.text) == NONE
        texts = [answer.text] if off else [text for _, text in parts_of(answer.text)]
        for at, text in enumerate(texts, 1):
            value = to_fill(step.question) if plain(text) == NONE else text
            found = said_of(value, self.answers.starter, self.glossary)
            name = entry["name"] if at == 1 else f"{entry['name']} {at}"
            rests = found.evidence or (NOT_SEEN if self.empty or (answer.assumed and not says_unknown(found.rating)) else "")
            said = {"name": name, "kind": entry["kind"], "area": found.rating} | ({EVIDENCE: rests} if rests else {})
            made = tuple(Entry(name, each, step.slot) for name, each in said.items())
            areas.holds.append(Item(made, notes if at == 1 else (), off))

    def _loads(self, step: Step, answer: Answer, notes: tuple[str, ...], off: bool, loads: Loads) -> None:
        if self.empty and plain(answer.text) == NONE:
            off, answer = True, Answer(to_fill(step.question))
        if off and not step.question.kind:
            return
        if off and not step.question.settings:
            found = [loads.item(step, step.question.entry, answer.text, "", assumed=False)]
        else:
            found = loads.items(step, Answer(step.question.example) if off else answer)
        for at, item in enumerate(found):
            self._load_list(step).holds.append(replace(item, notes=notes if at == 0 else (), off=off))

    def _detail(self, step: Step, answer: Answer, notes: tuple[str, ...], off: bool, loads: Loads) -> None:
        """Add a key to what other questions gave last."""
        left_out = plain(answer.text) in (NONE, SKIP)
        value = loads.detail(step, Answer(step.question.as_written) if off or left_out else answer)
        value = TO_FILL.format(example=value) if off or left_out else value
        entry = Entry(step.question.entry["key"], value, step.slot, notes, off or left_out)
        for of in step.question.of if self.empty or not left_out else ():
            holds = self._load_list(replace(step, question=self.answers.starter.questions[of])).holds
            items = [(at, each) for at, each in enumerate(holds) if isinstance(each, Item)]
            mine = [each for each in items if each[1].entries[0].slot == (of, step.unit)]
            of_any = self.answers.starter.questions[of].form == ANY_PLANNED
            each_alone = step.question.choices and not entry.off  # what is chosen is said of each of several
            these = of_kind(mine, step.question) if of_any else mine if each_alone else mine[-1:]
            for number, (at, found) in enumerate(these):
                made = of_number(entry, number, [each for _, each in items])
                holds[at] = loads.with_evidence(replace(found, entries=(*found.entries, made)), step, answer)

    def lines(self, width: int) -> list[Line]:
        """The lines of the file."""
        work = self.answers.work
        made = [Line(f"# {work.title[:1].upper()}{work.title[1:]}.")]
        if self.empty:
            made += [*comment(explained(self.answers.starter.explains, "explains"), "", width), Line("")]
        notes = explained(self.answers.starter.explains, "work")
        of_work = [Entry(name, text, None, notes if at == 0 else ()) for at, (name, text) in enumerate(work.sets.items())]
        made += lines_in([*self.home, *of_work], "", width)
        for part in (self.service, self.meter, self.units, self.house, self.sources, self.panels, self.feeders):
            if part is self.units:
                made += self._unit_lines(width)
            elif part.holds:
                made += [Line(""), *lines_in([part], "", width)]
        made += self._absent_lines(width)
        burning = not_electric(self.answers)
        made += [Line(""), *lines_in([burning], "", width)] if burning is not None and not self.empty else []
        if self.planned.holds:
            made += [Line(""), *lines_in([self.planned], "", width)]
        return made if self.empty else [*made, *remark_lines(self.answers, width)]

    def _unit_lines(self, width: int) -> list[Line]:
        made = [Line(""), *comment(self.units.notes, "", width), Line(f"{self.units.key}:")]
        begun = False
        for unit in self.units.holds:
            assert isinstance(unit, Part)
            holds = [each for each in unit.holds if not isinstance(each, Part) or each.holds]
            begun = begun or len(holds) > 0
            inner = list(lines_in(holds, STEP * 2, width))
            first = next((at for at, line in enumerate(inner) if not line.text.lstrip().startswith("#")), 0)
            inner[first] = replace(inner[first], text=f"{STEP}{DASH}{inner[first].text.removeprefix(STEP * 2)}")
            made += inner
        return made if begun else []

    def _absent_lines(self, width: int) -> list[Line]:
        if not self.absent:
            return []
        there = self._kinds_there() | load_kinds([self.planned], self.glossary)
        shown = {self._shown(kind): slot for kind, slot in self.absent.items() if kind not in there}
        notes = [Line(""), *comment(explained(self.answers.starter.explains, "absent"), "", width)]
        return [*notes, *absent_lines(shown, self.answers.given, empty=self.empty)]

    def _kinds_there(self) -> set[str]:
        """The kinds of the loads and areas that are there, and sources."""
        units = range(len(self.units.holds))
        kinds = area_kinds(self._in_unit(unit, "areas") for unit in units)
        kinds |= {self.sources.key} if self.sources.holds and not self.sources.off else set()
        return kinds | load_kinds([self.house, *(self._in_unit(unit, "loads") for unit in units)], self.glossary)

    def _shown(self, kind: str) -> str:
        return Loads(self.answers, self.glossary).kind(kind).replace("_", " ")
