"""The kinds of work, stations and questions that a home file is begun with, as ``starter.yaml`` has them."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field

OTHERWISE = "otherwise"
NONE = "none"
SKIP = "skip"  # nothing is written
EMPTY_LIST = "[]"  # what `none_writes` of a list has
YES_NO = ("yes", "no")
NOT_KNOWN, GIVEN = "not known", "given"
STATES = (NONE, NOT_KNOWN, GIVEN)  # what a condition asks of an answer that is no choice

KEY, AREA, LOAD, PLANNED, DETAIL = "key", "area", "load", "planned", "detail"
ANY_LOADS, ANY_PLANNED, NAMES_UNITS, EVIDENCE, CHOICES = "any_loads", "any_planned", "names_units", "evidence", "choices"
FORMS = (KEY, AREA, LOAD, PLANNED, DETAIL, ANY_LOADS, ANY_PLANNED, NAMES_UNITS, EVIDENCE)

WITH_EVIDENCE = ("service", "unit")  # the parts of a home file in which evidence may be said of each key
EXAMPLE = "{example}"
SEMICOLON = ";"  # between the parts of an answer
SEVERAL = re.compile(r"(\d+)\s*[xX×]\s*(?=\S)(.*)")  # how many equal ones

Entry = Mapping[str, str]
Conditions = Mapping[str, tuple[str, ...]]


@dataclass(frozen=True)
class Work:
    """A kind of work: its word, what it is, what it says of the home, and whether there are several dwelling units.

    Attributes:
        drawn: whether the house stands on drawings only.
        also: words by which people tell it; `otherwise` those that tell it where nothing tells of another.
    """

    word: str
    title: str
    sets: Entry
    several_units: bool
    drawn: bool = False
    also: tuple[str, ...] = ()
    otherwise: tuple[str, ...] = ()


@dataclass(frozen=True)
class Choice:
    """One of the words that a question offers.

    Attributes:
        word: what is answered.
        says: what it stands for.
        writes: what is written for it; the word where empty.
        adds: loads that come with it.
        also: other words that mean it.
        evidence: on what it rests, where that is less than what the rating was read from, or other.
        sets: further values that it gives, by their path in the home file.
        told: what is said where it is taken.
        not_electric: what burns gas or the like there, as the file names it.
        absent, not_taken: kinds of load that are absent where it is taken, and where it is not.
    """

    word: str
    says: str
    writes: str
    adds: tuple[Entry, ...]
    absent: tuple[str, ...]
    not_taken: tuple[str, ...]
    also: tuple[str, ...] = ()
    evidence: str = ""
    sets: Entry = field(default_factory=dict)
    told: str = ""
    not_electric: str = ""


@dataclass(frozen=True)
class Question:
    """A question.

    Attributes:
        id: its name in the file of questions.
        what: what is asked for, as a noun phrase.
        ask_drawn: the question of a house that stands on drawings only; that of ``ask`` where empty.
        of_settings: whether it is asked only of what has several settings.
        along_rest: what is made of that which follows the first comma of the answer to ``along``, which answers it.
        ask_today: the question where something is there already that may go; that of ``ask`` where empty.
        means: what a word of the question means, said where somebody asks.
        if_assumed: what is said of the choice that is taken where nobody knew; breaker_told: that where only the breaker was read.
        kind_at: kinds of load by the connection that the volts of its rating tell; `kind_told` what is said then.
        plugs: words for an ordinary outlet, with which a rating is one at `plugs_at`, or `plugs_takes` where none is said.
        not_over: an earlier question of an area to whose answer bounds that are taken are held; `in_it_asks` asks whether it is in that.
        replaces_asks: what is asked of a planned load of any kind: what it takes the place of.
        larger_of_two: what is said where of two counts the larger is taken; rating_asks: what is asked of a load without a rating.
        drawn_least, drawn_little: of a new house the number below which it is asked again, and what is said then.
        either_takes: what stands for one of several that were told; either_told: what is said then.
        called: what else the kind of its load is called.
        keeps: words that are kept as they were told.
        bounds_of: bounds that stand for words, each with these.
        of_others: words that tell that an answer is of another question, by that question; beside_needs: those of which one must
            stand in an answer that names a choice beside another one, since the word of the choice alone may be of that.
        none_also, none_within: further words that say that there is none, by themselves or wherever they stand in an answer.
        yes_means: answers that `yes` stands for, each with the earlier answers on which it does.
        ask: the question as it is asked; what is asked for where empty.
        unit, example, read: in what, such as what, and where to read it.
        drawn: where to read it of a new house, where that differs.
        meanwhile: how long what is taken holds where nobody knew; it is said and noted.
        much, little: what is said of a value over, or under, all that is plausible.
        to_neutral: what is said of a rating for the voltage to the neutral, where such loads are mostly connected between lines.
        forms: how its rating is written, where the unit does not tell it.
        lower: what is asked after a single setting: whether it can be set lower.
        lowest: the lowest setting where every whole ampere can be set.
        typed: what is said beside that where the answer is typed.
        form: where the answer goes, one of ``FORMS``, or ``choices`` where other questions depend on it alone.
        path: of a key, the keys to it.
        entry: of an area or a load, what it is called and what else is said of it; of a detail, `of` and `key`.
        enter: what Enter takes, by kind of work; `otherwise` for all others.
        not_known: what is written where it is not known.
        none_sets, none_writes: of a key, other keys that `none` sets, or what it writes.
        absent: kinds of load that are absent where the answer is none.
        choices: the words to choose from.
        several: whether several of them may be taken.
        listed: whether a key takes a list.
        settings: whether a planned load takes settings.
        along: an earlier question of a key, with whose answer the words of this one may be typed.
        same_as: an earlier question whose answer is meant where only `the same` is said.
        plausible, least: the largest and the smallest values that are not asked again.
        breakers: currents that are asked about, because a breaker may have been read in place of the load.
        on_breaker: settings that may be breakers, each with the largest that equipment draws on one; `breaker_asks` is what is asked then.
        by_size: whether a size in tons gives bounds of its rating.
        along_words: words by which an amount of its own is told along with the answer to the question ``along``.
        only_along: whether it is not asked by itself, but only told along with that question.
        also_of: of a detail, further questions to whose loads it goes.
        if_several: a question of which several choices must have been taken, but of a house that stands on drawings only.
        none_told: what is said where there is none.
        stands_for: words that stand for several choices.
        twice: the choices that another one named twice means, by that.
        of_kind: what the kind of load is called of which alone it is asked, of loads of any kind.
        there_also: words by which people say that there is one, and no more.
        less_words: words for the part of a number that is to be taken off it.
        two_elements: what is said where two powers are taken as the larger; where empty they are not read.
        by_rating: a choice of the question ``along`` that a rating of this load means.
        output_to, output_asks, output_takes: a rating up to which an output may have been read, what is asked then, and bounds for it.
        unless_named: names of loads by an earlier question in whose answer none of them may stand.
        goes_too: what goes, with the load that mostly goes as well; `goes_too_asks` is what is asked then; goes_always: with that of it.
        when, unless: answers to earlier questions on which it is asked, or is not.
        up_to: the largest that answers to earlier questions may be.
    """

    id: str
    what: str
    ask: str
    unit: str
    example: str
    read: str
    typed: str
    form: str
    drawn: str = ""
    meanwhile: str = ""
    lower: str = ""
    much: str = ""
    little: str = ""
    to_neutral: str = ""
    forms: str = ""
    lowest: str = ""
    path: tuple[str, ...] = ()
    entry: Entry = field(default_factory=dict)
    enter: Entry = field(default_factory=dict)
    not_known: str = ""
    none_sets: Entry = field(default_factory=dict)
    none_writes: str = ""
    absent: tuple[str, ...] = ()
    choices: Mapping[str, Choice] = field(default_factory=dict)
    several: bool = False
    listed: bool = False
    settings: bool = False
    along: str = ""
    same_as: str = ""
    plausible: tuple[str, ...] = ()
    least: tuple[str, ...] = ()
    breakers: tuple[str, ...] = ()
    on_breaker: Entry = field(default_factory=dict)
    breaker_asks: str = ""
    by_size: bool = False
    along_words: tuple[str, ...] = ()
    only_along: bool = False
    also_of: tuple[str, ...] = ()
    if_several: str = ""
    none_told: str = ""
    stands_for: Entry = field(default_factory=dict)
    twice: Entry = field(default_factory=dict)
    of_kind: tuple[str, ...] = ()
    by_rating: str = ""
    two_elements: str = ""
    less_words: tuple[str, ...] = ()
    there_also: tuple[str, ...] = ()
    output_to: str = ""
    output_asks: str = ""
    output_takes: str = ""
    unless_named: Entry = field(default_factory=dict)
    goes_too: Entry = field(default_factory=dict)
    goes_too_asks: str = ""
    goes_always: Entry = field(default_factory=dict)
    when: Conditions = field(default_factory=dict)
    unless: Conditions = field(default_factory=dict)
    up_to: Entry = field(default_factory=dict)
    ask_today: str = ""
    ask_drawn: str = ""
    of_settings: bool = False
    along_rest: str = ""
    means: str = ""
    if_assumed: str = ""
    breaker_told: str = ""
    larger_of_two: str = ""
    rating_asks: str = ""
    replaces_asks: str = ""
    kind_at: Entry = field(default_factory=dict)
    kind_told: Entry = field(default_factory=dict)
    plugs: tuple[str, ...] = ()
    plugs_at: str = ""
    not_over: str = ""
    in_it_asks: str = ""
    plugs_takes: str = ""
    either_takes: str = ""
    either_told: str = ""
    drawn_least: str = ""
    drawn_little: str = ""
    called: tuple[str, ...] = ()
    keeps: tuple[str, ...] = ()
    bounds_of: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    of_others: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    beside_needs: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    none_also: tuple[str, ...] = ()
    none_within: tuple[str, ...] = ()
    yes_means: Mapping[str, Conditions] = field(default_factory=dict)
    works: tuple[str, ...] = ()

    def put(self, *, drawn: bool) -> str:
        """The question as it is put to somebody; ``drawn`` of a house that stands on drawings only."""
        return (self.ask_drawn if drawn else self.ask_today) or self.asked

    @property
    def asked(self) -> str:
        """The question as it is put to somebody, whatever is there already."""
        if self.ask or self.choices:
            return self.ask or f"{self.what}?"
        or_none = ", or is there none" if self.absent or self.enter.get(OTHERWISE) == NONE else ""
        wanted = {LOAD: "what is its rating", PLANNED: "what is its rating", AREA: "how large"}.get(self.form)
        return f"{self.what}: {wanted}{or_none}?" if wanted else f"{self.what}?"

    @property
    def of_what_comes(self) -> bool:
        """Whether it asks what is planned, or for more of that."""
        of_today = self.ask_today or any(choice.absent or choice.not_taken for choice in self.choices.values())
        return self.form in (PLANNED, ANY_PLANNED, DETAIL) or (self.several and not of_today)

    @property
    def says_evidence(self) -> bool:
        """Whether its answer may say whether it was only told: a size, a rating, or a plain fact of the service or a dwelling unit."""
        return self.form in (AREA, LOAD, PLANNED) or self.is_plain_fact

    @property
    def is_plain_fact(self) -> bool:
        """Whether it is of one fact of the service or a dwelling unit, beside which the evidence for it may stand."""
        return self.form == KEY and self.path[0] in WITH_EVIDENCE and not self.listed

    @property
    def kind(self) -> str:
        """The kind of load that it is about, or an empty string."""
        return self.entry.get("kind", "") if self.form in (LOAD, PLANNED) else ""

    @property
    def of(self) -> tuple[str, ...]:
        """Of a detail, the questions to whose loads it goes."""
        return (self.entry["of"], *self.also_of)

    @property
    def may_be_none(self) -> bool:
        """Whether `none` may be answered beside the choices."""
        if self.form in (KEY, AREA):
            return bool(self.none_sets or self.none_writes or self.enter.get(OTHERWISE) == NONE)
        return not self.choices and self.form != NAMES_UNITS

    def shown(self, text: str) -> str:
        """An answer in print; of a choice that writes yes or no what it stands for, since its word alone does not tell that."""
        choice = self.choices.get(text)
        return choice.says if choice is not None and choice.writes in YES_NO else text

    @property
    def asks_whether(self) -> bool:
        """Whether it asks for a load or an area of which it may not be known that it is there."""
        return self.form in (LOAD, AREA) and (bool(self.absent) or self.enter.get(OTHERWISE) == NONE)

    def of_work(self, work: Work) -> str:
        """What Enter takes for a kind of work, or an empty string."""
        return self.enter.get(work.word, self.enter.get(OTHERWISE, ""))

    @property
    def as_written(self) -> str:
        """The example as it stands in a file, where a list has brackets and a number of equal ones a key of its own.

        Of a question without one, the first of its choices.
        """
        if not self.example and self.choices:
            word, choice = next(iter(self.choices.items()))
            return choice.writes or word
        if self.listed or self.settings or self.form == DETAIL:
            return self.example.replace(SEMICOLON, ",")
        return SEVERAL.sub(r"\2", self.example.partition(SEMICOLON)[0])

    def how(self, *, typed: bool = False, drawn: bool = False) -> str:
        """In what unit, such as what, and where to read it, as sentences; ``typed`` where an answer is typed, ``drawn`` of a new house."""
        read = self.drawn if drawn and self.drawn else self.read
        example = self.example if typed or not self.example else self.as_written
        such = f"such as {example}" if example else ""
        first = ", ".join(part for part in (f"in {self.unit}" if self.unit else "", such) if part)
        sentences = [f"{first[:1].upper()}{first[1:]}." if first else "", f"Read: {read}." if read else ""]
        return " ".join(each for each in (*sentences, self.typed if typed else "") if each)
