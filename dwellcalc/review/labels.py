"""What the labels of a submittal mean: a line of the calculation, or a kind of load, by the names that these go by."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from dwellcalc.home.glossary_names import LOADS
from dwellcalc.language.documents import QUOTED
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.language.tree import CheckedLine
from dwellcalc.placed import spaced
from dwellcalc.problems import CLOSELY_ALIKE, nearest_name

LINE, KIND = "line", "kind of load"
WRITTEN, CONTAINED, SHORTER = "as written", "among its words", "in short"
WORD = re.compile(r"[^\W\d_]+")
Words = tuple[str, ...]


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
    return tuple(_single(word) for word in WORD.findall(text.casefold()))


def _single(word: str) -> str:
    return word[:-1] if word.endswith("s") and not word.endswith("ss") and word[:-2] else word


class Labels:
    """The names that lines of some methods and the kinds of load go by.

    Args:
        rules: the rule set.
        methods: the methods whose lines may be meant; lines of one method may share a name, of two methods the first has it.
    """

    def __init__(self, rules: RuleSet, methods: Iterable[str]) -> None:
        self.known: dict[str, dict[Words, list[tuple[str, str]]]] = {LINE: {}, KIND: {}}
        for method in methods:
            for line in rules.methods[method].lines.values():
                if line.level != LOADS:  # what one load comes to goes by the load's own name
                    self._add(LINE, line.id, _names_of(line))
        for kind in rules.glossary.load_kinds.values():
            self._add(KIND, kind.name, [spaced(kind.name), *kind.also, kind.meaning])

    def _add(self, what: str, name: str, known: Iterable[str]) -> None:
        for each in known:
            words = words_of(each)
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
        words = self._known_words(label)
        for what in order:
            if words in self.known[what]:
                return [self._match(what, words, WRITTEN)]
        found = [
            (len(part), how, -position, name)
            for position, what in enumerate(order)
            for part, how, name in self._alike(words, what)
        ]
        return [
            self._match(order[-position], name, CONTAINED if name in _parts(words) else SHORTER)
            for *_, position, name in sorted(found, reverse=True)
        ]

    def _known_words(self, label: str) -> Words:
        """The words of a label; two that are one word in the known names, such as those of "Sub-total", are that one."""
        words = list(words_of(label))
        known = {word for names in self.known.values() for name in names for word in name}
        at = 0
        while at + 1 < len(words):
            one = words[at] + words[at + 1]
            if one in known and (words[at] not in known or words[at + 1] not in known):
                words[at : at + 2] = [one]
            at += 1
        return tuple(words)

    def _match(self, what: str, words: Words, how: str) -> Match:
        (name, by), *others = self.known[what][words]
        return Match(what, name, by, how, tuple(other for other, _ in others))

    def _alike(self, words: Words, what: str) -> Iterator[tuple[Words, int, Words]]:
        """The known names that stand among some words, and the only one of which these are several words."""
        yield from ((part, 1, part) for part in _parts(words) if part in self.known[what])
        longer = [name for name in self.known[what] if set(words) < set(name)]
        if len(words) > 1 and len({self.known[what][name][0][0] for name in longer}) == 1:
            yield words, 0, longer[0]

    def nearest(self, label: str) -> str:
        """The known name most like a label, or empty."""
        shown = {" ".join(words): by for known in self.known.values() for words, ((_, by), *_) in known.items()}
        close = nearest_name(" ".join(words_of(label)), shown, alike=CLOSELY_ALIKE)
        return shown.get(close, "")


def _method(line: str) -> str:
    return line.partition(".")[0]


def _names_of(line: CheckedLine) -> Iterator[str]:
    yield from (str(each) for each in line.source.known_as)
    yield spaced(line.name)
    yield QUOTED.sub("", line.source.title)


def _parts(words: Words) -> Iterator[Words]:
    for start in range(len(words)):
        for end in range(start + 1, len(words) + 1):
            yield words[start:end]


def kind_in(label: str, labels: Labels) -> str:
    """The kind of load that a label means, or empty."""
    found = labels.find(label, KIND)
    return found.name if found is not None and found.what == KIND else ""
