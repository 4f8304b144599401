"""What the labels of a submittal mean: a line of the calculation, or a kind of load, by the names that these go by."""

from __future__ import annotations

import re
from collections.abc import Container, Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import partial

from dwellcalc.home.glossary_names import LOADS
from dwellcalc.language.documents import QUOTED
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.language.tree import CheckedLine
from dwellcalc.placed import spaced
from dwellcalc.problems import CLOSELY_ALIKE, nearest_name
from dwellcalc.review.several_kinds import KindName, SeveralKinds, Words, parts_of
from dwellcalc.units import UnknownUnit

LINE, KIND = "line", "kind of load"
WRITTEN, CONTAINED, SHORTER = "as written", "among its words", "in short"
BY_THE_HOME = "the only one of its kinds that is calculated"
BETWEEN = re.compile(r"(?<!\b[A-Za-z])/|/(?![A-Za-z]\b)|[,;+&]|\band\b|\bwith\b")
IN_BRACKETS = re.compile(r"\([^()]*\)")
FIRST_CLAUSE = re.compile(r"[,;(]")  # what stands behind says more of the kind than its name
AMOUNTS = re.compile(
    r"(?<![\w.])\d+(?:[.,]\d+)*\s*(?:A|amps?|V|VAC|volts?)(?!\w|/[A-Za-z])", re.IGNORECASE
)  # whose unit is no word of a name
WITHIN = re.compile(r"(?<=[A-Za-z] )\d[\d,.]*\s*k?(?:W|VA)(?= [A-Za-z]{3})")  # a rating within a name: Heat 9.6 kW strip
WORD = re.compile(r"[^\W\d_]+(?:['’][^\W\d_]+)?")  # with what is left out in it: gen'l


@dataclass(frozen=True)
class Match:
    """What a label means.

    Attributes:
        what: `line` or `kind of load`.
        name: the line, as ``method.line``, or the kind.
        by: the known name that was found.
        how: whether it is the whole label, or stands among its words.
        also: the further lines that go by the same name.
    """

    what: str
    name: str
    by: str
    how: str
    also: tuple[str, ...] = ()


def words_of(text: str) -> Words:
    """The words of a label, without numbers and marks; a plural is the same word."""
    return tuple(_single(word) for word in WORD.findall(text.casefold().replace("’", "'")))


def spelled_out(text: str, abbreviations: Mapping[str, str]) -> Words:
    """The words of a label, each that is an abbreviation in full.

    Args:
        text: the label.
        abbreviations: for each, in small letters, what it is short for.
    """
    return tuple(full for word in words_of(text) for full in words_of(abbreviations.get(word, word)))


def _single(word: str) -> str:
    return word[:-1].rstrip("'") if word.endswith("s") and not word.endswith("ss") and word[:-2] else word


class Labels:
    """The names that lines of some methods and the kinds of load go by.

    Args:
        rules: the rule set.
        methods: the methods whose lines may be meant; lines of one method may share a name, of two methods the first has it.
        unmeaning: words of a label that say nothing of what a load is, such as that a figure is of its nameplate.
        left_out: words that say why a load is left out, whose clause names no load of its own: A/C (omitted, heat is larger).
    """

    def __init__(
        self, rules: RuleSet, methods: Iterable[str], unmeaning: Iterable[str] = (), left_out: Iterable[str] = ()
    ) -> None:
        self.words = partial(spelled_out, abbreviations=rules.glossary.abbreviations)
        self.unmeaning = {word for each in unmeaning for word in self.words(each)}
        reasons = "|".join(map(re.escape, left_out)) or "(?!)"
        self.clauses = re.compile(rf"(?<=\w)\s*[(\[;,-][^()\[\];]*?\b(?:{reasons})\b[^()\[\];]*[)\]]?", re.IGNORECASE)
        self.known: dict[str, dict[Words, list[tuple[str, str]]]] = {LINE: {}, KIND: {}}
        methods = list(methods)
        self.of_given = bool(methods and rules.methods[methods[0]].source.given)  # a method of what was metered
        for method in methods:
            for line in rules.methods[method].lines.values():
                if line.level != LOADS:  # what one load comes to goes by the load's own name
                    self._add(LINE, line.id, _names_of(line))
        for kind in rules.glossary.load_kinds.values():
            self._add(KIND, kind.name, [spaced(kind.name), *kind.also, FIRST_CLAUSE.split(kind.meaning)[0]])
        self.single = {word for names in self.known.values() for name in names for word in name}
        self.kinds = {words: KindName(*found[0], words) for words, found in self.known[KIND].items()}
        several = {
            self.words(name): tuple(self.kinds[words] for each in names if (words := self.words(each)) in self.kinds)
            for name, names in rules.glossary.several_kinds.items()
        }
        no_loads = {words: why for name, why in rules.glossary.no_loads.items() if (words := self.words(name)) not in self.kinds}
        no_loads |= dict(_by_other_names(no_loads, self.kinds))
        self.of_units = _after_numbers(words[0] for words in self.kinds if len(words) == 1 and _is_unit(words[0], rules))
        self.several = SeveralKinds(several, no_loads, self.kinds, self.known[LINE])
        self.found: dict[tuple[str, ...], tuple[Match, ...]] = {}

    def _add(self, what: str, name: str, known: Iterable[str]) -> None:
        for each in known:
            words = self.words(each)
            there = self.known[what].setdefault(words, []) if words else []
            if not there or (what == LINE and _method(there[0][0]) == _method(name) and name not in dict(there)):
                there.append((name, each))

    def find(self, label: str, *first: str) -> Match | None:
        """What a label means: the whole of it before a part, of parts the longest; nothing where no name is among it.

        Args:
            label: as the submittal has it.
            first: which of lines and kinds goes first where both would do; both are tried.
        """
        return next(iter(self.choices(label, *first, *(each for each in self.known if each not in first))), None)

    def choices(self, label: str, *order: str) -> list[Match]:
        """All that a label may mean among lines or kinds, the best first; where a name is the whole of it that one alone.

        Args:
            label: as the submittal has it.
            order: of lines and kinds those that are asked for, in which order they go where both would do.
        """
        if (label, *order) not in self.found:  # every row and circuit asks it of every label
            self.found[label, *order] = tuple(self._choices(label, order))
        return [*self.found[label, *order]]

    def _choices(self, label: str, order: tuple[str, ...]) -> list[Match]:
        words = self._known_words(label)
        for what in order:
            if words in self.known[what]:
                return [self._match(what, words, WRITTEN)]
        words = self._meaning(words)
        if words in self.known[KIND] and KIND in order:
            return [self._match(KIND, words, WRITTEN)]
        outside = IN_BRACKETS.sub(" ", label)  # what stands in brackets says more of a load that is named before
        named = self.choices(outside, *order) if outside != label and KIND in order else []
        if named and named[0].what == KIND:
            return named
        found = [
            (len(part), how, -position, name)
            for position, what in enumerate(order)
            for part, how, name in self._alike(words, what)
        ]
        matches = [
            self._match(order[-position], name, CONTAINED if how else SHORTER)
            for _, how, position, name in sorted(found, reverse=True)
        ]
        matches = matches or self._begun(words, order)
        if KIND not in order:
            return matches
        meant, is_none = self.several.meant(words), self.several.no_load(words)
        if not meant and not is_none:
            return matches
        lines = [each for each in matches if each.what != KIND]
        return [Match(KIND, meant[0].kind, meant[0].by, CONTAINED), *lines] if len(meant) == 1 and not is_none else lines

    def _begun(self, words: Words, order: tuple[str, ...]) -> list[Match]:
        """The line of which a label is the beginning of a name, such as Sub; of one word alone, and where one name begins so."""
        if LINE not in order or len(words) != 1 or len(words[0]) <= 2:
            return []
        names = [each for each in self.known[LINE] if len(each) == 1 and each[0].startswith(words[0])]
        return [self._match(LINE, names[0], SHORTER)] if len(names) == 1 else []

    def may_be(self, label: str) -> tuple[KindName, ...]:
        """The kinds of load that a label leaves open, each by a name of it; nothing where it leaves nothing open."""
        found = self.several.meant(self._meaning(self._known_words(label)))
        return found if len(found) > 1 else ()

    def told_by(self, label: str, kinds: Container[str]) -> Match | None:
        """What a label that leaves several kinds open means where only one of these is among some kinds; else nothing."""
        found = [each for each in self.may_be(label) if each.kind in kinds]
        return Match(KIND, found[0].kind, found[0].by, BY_THE_HOME) if len({each.kind for each in found}) == 1 else None

    def no_load(self, label: str) -> str:
        """Why a label is of no electrical load, or empty."""
        return self.several.no_load(self._meaning(self._known_words(label)))

    def _meaning(self, words: Words) -> Words:
        """The words of a label without those that say nothing of what a load is; all of them where no other is left."""
        return tuple(each for each in words if each not in self.unmeaning) or words

    def _known_words(self, label: str) -> Words:
        """The words of a label; two that are one word in the known names, such as those of "Sub-total", are that one."""
        words = list(self.words(AMOUNTS.sub("", self.of_units.sub("", WITHIN.sub("", self.clauses.sub("", label))))))
        at = 0
        while at + 1 < len(words):
            one = words[at] + words[at + 1]
            if one in self.single and (words[at] not in self.single or words[at + 1] not in self.single):
                words[at : at + 2] = [one]
            at += 1
        return tuple(words)

    def _match(self, what: str, words: Words, how: str) -> Match:
        (name, by), *others = self.known[what][words]
        return Match(what, name, by, how, tuple(other for other, _ in others))

    def _alike(self, words: Words, what: str) -> Iterator[tuple[Words, int, Words]]:
        """The known names that stand among some words, and the only one of which these are several words."""
        yield from ((part, 1, part) for _, part in parts_of(words) if part in self.known[what])
        longer = [name for name in self.known[what] if set(words) < set(name)]
        if len(words) > 1 and len({self.known[what][name][0][0] for name in longer}) == 1:
            yield words, 0, longer[0]

    def nearest(self, label: str) -> str:
        """The known name most like a label, or empty."""
        shown = {" ".join(words): by for known in self.known.values() for words, ((_, by), *_) in known.items()}
        close = nearest_name(" ".join(self.words(label)), shown, alike=CLOSELY_ALIKE)
        return shown.get(close, "")


def _by_other_names(no_loads: Mapping[Words, str], kinds: Mapping[Words, KindName]) -> Iterator[tuple[Words, str]]:
    """The names of what is no load, such as gas water heater, with the other names of the kind: gas WH."""
    for words, why in no_loads.items():
        kind = kinds.get(words[1:])
        others = [each.words for each in kinds.values() if kind is not None and each.kind == kind.kind]
        yield from (((*words[:1], *each), why) for each in others if (*words[:1], *each) not in kinds)


def _is_unit(word: str, rules: RuleSet) -> bool:
    """Whether a name of a kind is a unit too, such as that of horsepower."""
    try:
        rules.glossary.units.unit(word)
    except UnknownUnit:
        return False
    return True


def _after_numbers(words: Iterable[str]) -> re.Pattern[str]:
    """Numbers with one of some units behind them, which say nothing of the kind of a load."""
    return re.compile(rf"\d\s*-?\s*(?:{'|'.join(map(re.escape, words)) or '(?!)'})\b", re.IGNORECASE)


def _method(line: str) -> str:
    return line.partition(".")[0]


def _names_of(line: CheckedLine) -> Iterator[str]:
    yield from (str(each) for each in line.source.known_as)
    yield spaced(line.name)
    yield QUOTED.sub("", line.source.title)


def kinds_beside(label: str, labels: Labels) -> tuple[str, ...]:
    """The kinds of load that the parts of a label name beside one another, such as "dishwasher / disposal"; two, or nothing."""
    whole = labels.find(label, KIND)
    if whole is None or whole.how == WRITTEN or labels.may_be(label):
        return ()
    found = (labels.find(part, KIND) for part in BETWEEN.split(label))
    kinds = tuple(dict.fromkeys(each.name for each in found if each is not None and each.what == KIND and each.how != SHORTER))
    return kinds if len(kinds) > 1 else ()


def kind_in(label: str, labels: Labels) -> str:
    """The kind of load that a label means, or empty."""
    found = labels.find(label, KIND)
    return found.name if found is not None and found.what == KIND else ""


def listed(labels: Iterable[str]) -> str:
    """Labels beside one another, in quotes where one of them holds a comma or begins with a number."""
    several = [str(each) for each in labels]
    unclear = any("," in each or each[:1].isdigit() for each in several)
    return ", ".join(f'"{each}"' for each in several) if unclear else ", ".join(several)


def in_print(kinds: Iterable[KindName], rules: RuleSet) -> str:
    """Kinds of load in print, each by a name and by what it is."""
    meanings = ((each.by, rules.glossary.load_kinds[each.kind].meaning) for each in kinds)
    return "; ".join(by if by == meaning else f"{by} ({meaning})" for by, meaning in meanings)
