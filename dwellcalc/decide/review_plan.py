"""How submittals are reviewed, as an assessment file says."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True)
class GeneralCircuit:
    """A kind of circuit that is no load of its own, such as those for lighting.

    Attributes:
        names: of which one stands in its label.
        title: what such circuits are called.
        told: what is told of one.
        cite: the citation key of the section that asks for them, or empty.
        least: the column of the least number for a dwelling unit, or empty.
        said: the field of a dwelling unit that says how many there are, or empty.
        amperes: the column of the amperes that their breakers must come to together, or empty.
        device: the device that a proposed schedule gives one, in print, or empty.
    """

    names: tuple[str, ...]
    title: str
    told: str
    cite: str = ""
    least: str = ""
    said: str = ""
    amperes: str = ""
    device: str = ""


@dataclass(frozen=True)
class GeneralCircuits:
    """The circuits of a panel schedule that are no loads of their own.

    Attributes:
        method: the method that says how many there have to be.
        new: its result that applies to a new dwelling.
        beside: words that may stand beside a name.
        kinds: the first of which a name stands in a label is meant.
    """

    method: str
    new: str
    beside: tuple[str, ...]
    kinds: tuple[GeneralCircuit, ...]


@dataclass(frozen=True)
class Reason:
    """A reason that a row may give for counting a load at less than its rating.

    Attributes:
        words: by one of which it is given.
        told: how such a load counts, in a sentence.
        send: what shows the reason, as a clause.
        cite: the citation key of the section.
        writes: how a load is rated that is held to a setting, before its amperes, or empty.
        told_of_setting: how such a load counts, in a sentence, or empty.
        told_of_larger, told_of_smaller: what is told where the other load is known that it is kept apart from, and the one left
            out is the larger, or the smaller, with [this], [other] and [then] in them; empty of a reason without such.
        told_of_stated: the same where the submittal states that the two are kept apart, and this one counts.
        before_setting, after_setting: the words that stand before, or behind, the amperes of such a setting; by amperes with
            one behind them the reason is given too.
        named_setting: those before amperes by which the reason is given too.
    """

    words: tuple[str, ...]
    told: str
    send: str
    cite: str
    writes: str = ""
    told_of_setting: str = ""
    before_setting: tuple[str, ...] = ()
    after_setting: tuple[str, ...] = ()
    told_of_larger: str = ""
    told_of_smaller: str = ""
    told_of_stated: str = ""
    named_setting: tuple[str, ...] = ()


@dataclass(frozen=True)
class Implied:
    """A load that a submittal implies by naming something else, such as the blower of a furnace that burns gas.

    Attributes:
        words: of which one names that something.
        unless: words of a text that says it of something that goes.
        kind: the kind of the load.
        title: what the load is called.
        told: the title of the question for its rating.
        send: what shows the rating, as a clause.
        cite: the citation key of the section by which it counts.
        or_of: kinds of load, of one of which such a load may be part where its own label does not say of what it is.
        apart_from: kinds of load that it may run with.
        apart_by: words in the label of such a load, by which it does not run with it.
        apart_says: the facts that are said of it where all loads of these kinds are so.
    """

    words: tuple[str, ...]
    unless: tuple[str, ...]
    kind: str
    title: str
    told: str
    send: str
    cite: str
    apart_from: tuple[str, ...] = ()
    apart_by: tuple[str, ...] = ()
    apart_says: Mapping[str, str] = field(default_factory=dict)
    or_of: tuple[str, ...] = ()


@dataclass(frozen=True)
class SectionPart:
    """A part of the section of a method, which a submittal may name.

    Attributes:
        method: the method.
        cite: the citation key of the part.
        line: the line of the method that applies only where the part does.
        told: what is told where it does not, in sentences.
        mistake: of the catalogue, what is done where the figures are by this part although it does not apply; or empty.
        reading: the address of the interpretation that says which part applies, or empty.
        wrong: what is told where the figures are by it, in sentences, with [loads] in them for the loads that are another part's.
        send: what is asked for then, as a clause.
    """

    method: str
    cite: str
    line: str
    told: str
    mistake: str = ""
    reading: str = ""
    wrong: str = ""
    send: str = ""


@dataclass(frozen=True)
class Selection:
    """How a row is known that takes over the larger of the figures above it, such as "(larger used)".

    Attributes:
        words: of which one says that the larger is taken.
        beside: words that may stand beside such a one; a label with any other is of something else.
        groups: names of groups of loads, which are headings where they stand without a figure.
        kinds: the kinds of load of which the larger counts by the method.
        line: a name of the line for the larger of these.
    """

    words: tuple[str, ...]
    beside: tuple[str, ...]
    groups: tuple[str, ...]
    kinds: tuple[str, ...]
    line: str


@dataclass(frozen=True)
class ReviewPlan:
    """How submittals are reviewed.

    Attributes:
        method: the method of which each result is something that has to be shown.
        taken: the numbers of circuits of a dwelling unit that are taken where a submittal says nothing, by field.
        steps: words with which the label of a step within a demand factor begins, which is not compared by itself.
        beside_steps: words that may stand beside an amount and the share that a step takes of it.
        unmeaning: words of a label that say nothing of what a load is.
        markings: of fields of a load, how each is written in a label before its number.
        circuits: the circuits of a panel schedule that are no loads of their own, or nothing.
        not_now: words by which a submittal says that a load comes later, or is of others, and is not counted.
        planned, there, removed: words by which a label says that a load is to be installed, is there, or goes.
        panels: the method of the breaker spaces, whose section a comment on them cites.
        pairs_at_most: how many pairs of mistakes are tried.
        tried_at_most: how many mistakes and pairs of them are tried in all.
        chance_one_in: a pair of mistakes is told only where, of so many submittals with such figures, one or fewer would be met by one.
        rounded_at_most: the largest step to which a whole sheet may be rounded.
        counted: words that stand behind a number of circuits in a label.
        of_area: the name of the line that a label with an area and no known name is of.
        reasons: those that a row may give for counting a load at less than its rating.
        remarks: of results of the method, what is said in place of the question for what shows them.
        asked: of results of the method, what the question says in place of that the calculation relies on them.
        heading: words that may stand beside those of a status in a heading of the table.
        with_remark: of results of the method, the remark of the assessment that is told in place of a section.
        implied: loads that a submittal implies without naming them.
        lettered: the letters of the parts of the section of a method.
        method_words: of methods, words beside their titles by which a submittal names them.
        parts: those of which is told where they do not apply.
        denied_before, denied_at_once, denied_behind: words that say that there is no such thing as the words of a reason:
            before these, with a word or two between or none, and behind them.
        shown: words by which a text says that nameplates or data sheets are shown.
        freed: words of a note by which breakers become free.
        label_volts: voltages that labels write without their unit behind a rating, such as that of 24.2 A @ 240.
        left_out: words that say why a load is left out, whose clause in a label names no load.
        all_shown: words by which a text says that the ratings of all loads are shown.
        of_amperes: the name of the line that a current without a word beside it is of.
        of_rows: words that may stand beside the letters or numbers of rows in a label, such as Lines 1 + 2.
        sum_of_rows: the name of the lines of such a sum.
        after_steps: the name of the line that a label with several steps in it is of.
        plugged: words for what is plugged into circuits that are counted, which is not asked about without a figure.
        after_work: words behind these, by which that is with the new circuits.
        used_spaces: words behind a number of breaker spaces in a note, by which they are taken.
        selection: how a row is known that takes over the larger of the figures above it, or nothing.
        of_several_permits: interpretations of which the text leaves something open for several permits alone, and a submittal is one.
        told_with: remarks that the reviewer is told where a submittal has some words.
        comes_with: of kinds of load, the kind with which one comes where that is planned, and words of which its label must hold one.
        compressor_alone: the words for the current of a compressor, those beside which a label gives all of a unit, its kinds of load,
            and what is asked for.
        comes_on_top: of results of the method, the kind of load that is asked for and is in no figure yet.
        with_nameplates: of results of the method, what is asked for beside nameplates, before the loads.
        breaker_words: words that may stand behind the size of a breaker and say what kind of device it is.
        beside_conductors: words that say nothing of conductors beside their size, material and insulation, in small letters.
        conductor_words: of materials, the words by which a text on conductors says them.
        not_asked: of results of the method, words of a label by which a load is none that this is asked for.
        stated: of what a method is given, what is asked for where the submittal states it: the title, and what to send.
        expected: of loads that most dwellings have, the title of the question where none is named, what to send, and their names.
        not_asked_beside: the same, of the labels of all planned heating and cooling.
    """

    method: str
    taken: dict[str, str]
    steps: tuple[str, ...]
    beside_steps: tuple[str, ...]
    not_now: tuple[str, ...]
    unmeaning: tuple[str, ...]
    pairs_at_most: int
    tried_at_most: int
    rounded_at_most: float
    chance_one_in: float
    counted: tuple[str, ...] = ()
    of_area: str = ""
    reasons: tuple[Reason, ...] = ()
    remarks: dict[str, str] = field(default_factory=dict)
    markings: dict[str, tuple[str, ...]] = field(default_factory=dict)
    circuits: GeneralCircuits | None = None
    planned: tuple[str, ...] = ()
    there: tuple[str, ...] = ()
    removed: tuple[str, ...] = ()
    panels: str = ""
    asked: dict[str, str] = field(default_factory=dict)
    not_asked: dict[str, tuple[str, ...]] = field(default_factory=dict)
    not_asked_beside: dict[str, tuple[str, ...]] = field(default_factory=dict)
    stated: dict[str, tuple[str, ...]] = field(default_factory=dict)
    expected: dict[str, tuple[str, ...]] = field(default_factory=dict)
    implied: tuple[Implied, ...] = ()
    lettered: dict[str, tuple[str, ...]] = field(default_factory=dict)
    method_words: dict[str, tuple[str, ...]] = field(default_factory=dict)
    parts: tuple[SectionPart, ...] = ()
    denied_before: tuple[str, ...] = ()
    denied_at_once: tuple[str, ...] = ()
    denied_behind: tuple[str, ...] = ()
    shown: tuple[str, ...] = ()
    freed: tuple[str, ...] = ()
    label_volts: tuple[str, ...] = ()
    used_spaces: tuple[str, ...] = ()
    after_work: tuple[str, ...] = ()
    of_several_permits: tuple[str, ...] = ()
    of_amperes: tuple[str, ...] = ()
    after_steps: tuple[str, ...] = ()
    of_rows: tuple[str, ...] = ()
    sum_of_rows: tuple[str, ...] = ()
    plugged: tuple[str, ...] = ()
    left_out: tuple[str, ...] = ()
    all_shown: tuple[str, ...] = ()
    heading: tuple[str, ...] = ()
    with_remark: dict[str, str] = field(default_factory=dict)
    selection: Selection | None = None
    with_nameplates: dict[str, str] = field(default_factory=dict)
    comes_on_top: dict[str, str] = field(default_factory=dict)
    told_with: dict[str, tuple[str, ...]] = field(default_factory=dict)
    comes_with: dict[str, tuple[str, ...]] = field(default_factory=dict)
    compressor_alone: dict[str, tuple[str, ...]] = field(default_factory=dict)
    breaker_words: tuple[str, ...] = ()
    beside_conductors: tuple[str, ...] = ()
    conductor_words: dict[str, tuple[str, ...]] = field(default_factory=dict)
