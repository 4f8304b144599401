"""Labels that may be of several kinds of load, such as one that leaves open what a furnace burns, or of no electrical load."""

from __future__ import annotations

from collections.abc import Container, Iterator, Mapping
from dataclasses import dataclass

Words = tuple[str, ...]
Span = tuple[int, int]


@dataclass(frozen=True)
class KindName:
    """A kind of load by one of its names: the kind, the name as written, and its words."""

    kind: str
    by: str
    words: Words


class SeveralKinds:
    """The names that may be several kinds of load, and those of what is none.

    Args:
        several: for the words of each such name, the kinds that it may be.
        no_loads: for the words of each name of what is no load, the reason.
        kinds: every name of a kind by its words.
        lines: the words of the names of lines.
    """

    def __init__(
        self,
        several: Mapping[Words, tuple[KindName, ...]],
        no_loads: Mapping[Words, str],
        kinds: Mapping[Words, KindName],
        lines: Container[Words],
    ) -> None:
        self.several = several
        self._none_in_any_order = {frozenset(words): why for words, why in no_loads.items()}  # such as "water heater gas"
        self.kinds = kinds
        self.lines = lines
        self.candidates = {each for found in several.values() for each in found}

    def meant(self, label: Words) -> tuple[KindName, ...]:
        """The kinds that a label with such a name may be: one where its words say which; nothing of a label without one."""
        if label in self.kinds:
            return ()
        for _, part in parts_of(label):
            both = tuple(each for each in self.several.get(part, ()) if set(part) <= set(each.words) <= set(label))
            if len({each.kind for each in both}) > 1:
                return both  # such as "electric or gas furnace"
        names = [self.several[label[start:end]] for start, end in self._left_open(label)]
        if not names:
            return ()
        found = min(names, key=len)
        within = max((part for _, part in parts_of(label) if part in self.kinds), key=len, default=())
        beside = (self.kinds[within],) if within else ()
        if any(not self._alternatives(each.kind, found) for each in beside):
            return ()  # the label is of that kind, and the name says something else of it
        said = tuple(each for each in found if set(each.words) <= set(label) or self._is_told(each, found, label))
        if len(said) == 1:
            known = {each.kind: each for each in (*said, *(each for each in beside if each in self.candidates))}
            return tuple(reversed(known.values()))
        return said or tuple(dict.fromkeys((*beside, *found)))

    def _is_told(self, one: KindName, found: tuple[KindName, ...], label: Words) -> bool:
        """Whether a label has the words by which a name differs from the others that it may be, such as gas beside FAU."""
        shared = set.intersection(*(set(each.words) for each in found))
        telling = set(one.words) - shared
        return bool(telling) and bool(shared) and telling <= set(label)

    def _left_open(self, label: Words) -> Iterator[Span]:
        """Where names of several kinds stand in a label that no longer name takes in."""
        taken = [span for span, part in parts_of(label) if part in self.kinds or part in self.lines]
        for (start, end), part in parts_of(label):
            within = (first <= start and end <= last and (first, last) != (start, end) for first, last in taken)
            if part in self.several and not any(within) and not self._in_short(label, part):
                yield start, end

    def _in_short(self, label: Words, part: Words) -> bool:
        """Whether a label is the name of a kind in short, and what it leaves out does not tell the kinds apart."""
        telling = {word for each in self.several[part] for word in each.words} - set(part)
        lacking = [set(name) - set(label) for name in self.kinds if len(label) > 1 and set(label) < set(name)]
        return any(not telling & words for words in lacking)

    def _alternatives(self, kind: str, others: tuple[KindName, ...]) -> bool:
        """Whether some name leaves open whether a kind or one of others is meant."""
        groups = [{each.kind for each in found} for found in self.several.values()]
        return any(kind in group and any(each.kind in group for each in others) for group in groups)

    def no_load(self, label: Words) -> str:
        """Why a label is of no electrical load, such as a range that burns gas; empty where it names a load beside."""
        for (start, end), part in parts_of(label):
            why = self._none_in_any_order.get(frozenset(part), "") if len(part) > 1 else ""
            if why:
                named = [span for span, each in parts_of(label) if each in self.kinds]
                if all(start <= first and last <= end for first, last in named):
                    return why
        return ""


def parts_of(words: Words) -> Iterator[tuple[Span, Words]]:
    """Every run of some words, with its place."""
    for start in range(len(words)):
        for end in range(start + 1, len(words) + 1):
            yield (start, end), words[start:end]
