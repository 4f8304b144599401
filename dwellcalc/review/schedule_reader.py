"""The circuits of a panel schedule and the scope of the work: which loads of the calculation their labels mean."""

from __future__ import annotations

import re
from collections.abc import Iterable

from dwellcalc.facts import Facts
from dwellcalc.home.glossary_names import LOADS
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.placed import Mapping, Text, as_list, as_text, key, text_at
from dwellcalc.problems import Problems, message, nearest_name
from dwellcalc.review.labels import KIND, SHORTER, WRITTEN, Labels, Match, words_of
from dwellcalc.review.submittal import Matched, Scheduled
from dwellcalc.units import UnknownUnit

SCHEDULE_KEY = message("submittal_key", 'there is no key "{key}" in {what}', "one of: {known}")
SCHEDULE_LACKS = message("schedule_lacks", "this circuit has no label", "what the schedule calls it, such as `label: Range`")
SCHEDULE_BREAKER = message("schedule_breaker", '"{text}" is no size of a breaker', "a number of amperes")
SCHEDULE_LOAD = message("schedule_load", 'no load of the table is meant by "{text}"', "one of: {known}")

KEYS = ("label", "breaker", "poles", "loads")
BETWEEN = re.compile(r"[/,;+&]|\band\b|\bwith\b")
ITSELF = "named by the reviewer"


class ScheduleReader:
    """Reads labels that stand for loads.

    Args:
        rules: the rule set.
        facts: those of the supply, with the loads that are calculated.
        problems: where what is wrong is noted.
        aside: the labels of the rows that were left aside, which mean no other load.
    """

    def __init__(self, rules: RuleSet, facts: Facts, problems: Problems, aside: Iterable[str] = ()) -> None:
        self.aside = {words_of(each) for each in aside}
        self.rules = rules
        self.labels = Labels(rules, ())
        loads = facts.collections[LOADS]
        self.kinds = dict(zip(loads.names, map(str, loads.fields["kind"]), strict=True))
        self.problems = problems
        self.matched: list[Matched] = []

    def circuit(self, entry: Mapping) -> Scheduled | None:
        """A circuit of the panel schedule, or nothing where it has no label."""
        for name in entry:
            if name not in KEYS:
                near, known = nearest_name(name, KEYS), ", ".join(KEYS)
                self.problems.add(SCHEDULE_KEY, name.place, key=name, what="a circuit", known=known, nearest=near)
        if "label" not in entry:
            self.problems.add(SCHEDULE_LACKS, entry.place)
            return None
        label = as_text(entry[key("label")], "label", self.problems)
        breaker = self.breaker(as_text(entry[key("breaker")], "breaker", self.problems)) if "breaker" in entry else None
        if "loads" not in entry:
            return self.meant(label, "circuit", breaker)
        loads = tuple(
            dict.fromkeys(name for each in as_list(entry[key("loads")], "loads", self.problems) for name in self.named(each))
        )
        self.note(label, "circuit", loads, "", ITSELF)
        return Scheduled(label, breaker, loads, self.kinds[loads[0]] if loads else "")

    def breaker(self, text: Text) -> float | None:
        """The size of a breaker [A]."""
        try:
            return self.rules.glossary.units.quantity(text)[0]
        except (ValueError, UnknownUnit):
            self.problems.add(SCHEDULE_BREAKER, text.place, text=text)
            return None

    def named(self, node: object) -> tuple[str, ...]:
        """The loads that an entry of a list of loads means; there is one at least."""
        text = as_text(node, "an entry of loads", self.problems)  # type: ignore[arg-type]
        found, _ = self.loads_of(text)
        if not found:
            self.problems.add(
                SCHEDULE_LOAD, text.place, text=text, known=", ".join(self.kinds), nearest=nearest_name(text, self.kinds)
            )
        return found

    def meant(self, label: Text, what: str, breaker: float | None = None) -> Scheduled:
        """What a label means: one load, or several that stand in it beside one another."""
        if words_of(label) in self.aside:
            self.matched.append(Matched(str(label), what, "", "a row that was left aside", "", WRITTEN))
            return Scheduled(label, breaker, (), "", aside=True)
        loads, match = self.loads_of(label)
        parts = [part.strip() for part in BETWEEN.split(label)]
        if (match is None or match.how != WRITTEN) and len(parts) > 1:
            several = dict.fromkeys(name for part in parts for name in self.loads_of(text_at(part, label))[0])
            if len(several) > len(loads) or not loads:
                loads = tuple(several)
        kinds = {self.kinds[name] for name in loads}
        kind = next(iter(kinds), match.name if match is not None else "")
        self.note(
            label, what, loads, match.by if match is not None and len(kinds) <= 1 else "", match.how if match is not None else ""
        )
        may_be = () if loads or kind else self.labels.may_be(label)
        return Scheduled(label, breaker, loads, kind, of_one_kind=len(kinds) == 1, may_be=may_be)

    def loads_of(self, label: Text) -> tuple[tuple[str, ...], Match | None]:
        """The loads that a label means by name, or else by kind; and the kind that is meant."""
        own = tuple(name for name in self.kinds if words_of(name) == words_of(label) and words_of(label))
        if own:
            return own, Match(KIND, self.kinds[own[0]], own[0], WRITTEN)
        told = self.labels.told_by(label, set(self.kinds.values()))
        found = [told] if told is not None else self.labels.choices(label, KIND)
        if not found:
            return (), None
        match, within = found[0], [each for each in found if each.how != SHORTER][:1]
        if within and within[0].name in self.kinds.values():
            match = within[0]  # the longest name among the words, where its kind is calculated, rather than a name in short
        return tuple(name for name, kind in self.kinds.items() if kind == match.name), match

    def note(self, label: Text, what: str, loads: tuple[str, ...], by: str, how: str) -> None:
        """Note what a label was taken for, for the table of matches."""
        title = ", ".join(loads) or ("a load that is not calculated" if how else "nothing that is known")
        self.matched.append(Matched(str(label), what, "", title, by, how))
