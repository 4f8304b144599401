"""The circuits of a panel schedule and the scope of the work: which loads of the calculation their labels mean."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from collections.abc import Mapping as Named
from dataclasses import replace

from dwellcalc.decide.review_plan import GeneralCircuit, ReviewPlan
from dwellcalc.facts import Facts
from dwellcalc.home.glossary_names import LOADS
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.placed import Mapping, Text, as_several, as_text, key, text_at
from dwellcalc.problems import Problems, message, nearest_name
from dwellcalc.review.general_labels import GeneralLabels
from dwellcalc.review.labels import BETWEEN, KIND, SHORTER, WRITTEN, Labels, Match, words_of
from dwellcalc.review.row_status import REMOVED, RowStatus
from dwellcalc.review.submittal import Matched, Scheduled
from dwellcalc.units import UnknownUnit

SCHEDULE_KEY = message("submittal_key", 'there is no key "{key}" in {what}', "one of: {known}")
SCHEDULE_LACKS = message("schedule_lacks", "this circuit has no label", "what the schedule calls it, such as `label: Range`")
SCHEDULE_BREAKER = message("schedule_breaker", '"{text}" is no size of a breaker', "a number of amperes")
SCHEDULE_QUANTITY = message("schedule_quantity", '"{text}" is no number of circuits', "a whole number, such as `quantity: 6`")
SCHEDULE_POLES = message("schedule_poles", '"{text}" is no number of poles', "a whole number, such as `poles: 2`")
SCHEDULE_LOAD = message("schedule_load", 'no load of the table is meant by "{text}"', "one of: {known}")

KEYS = ("label", "breaker", "poles", "loads", "quantity", "note", "conductors")
TIMES = re.compile(r"\s*\(?[x×]\s*(?P<number>\d+)\)?\s*$", re.IGNORECASE)
POLES = re.compile(r"[\s/,-]*(?P<poles>\d)\s*-?\s*p(?:oles?)?\.?\s*$", re.IGNORECASE)
POLES_ALONE = re.compile(r"\s*(?P<poles>[1-9])\s*-?\s*(?:p(?:oles?)?)?\.?\s*", re.IGNORECASE)
POLES_FIRST = re.compile(r"\s*(?P<poles>[1-3])\s*-?\s*p(?:ole)?[\s-]*(?P<rating>\d+)\s*a?(?:mps?)?\s*$", re.IGNORECASE)  # 2P-40
SLASHED = re.compile(r"\s*(?P<rating>\d+)\s*[aA]?\s*/\s*(?P<poles>\d)\s*$")  # 50/2: the rating, then the poles
SLASHED_IN = re.compile(
    r"(?<![\d/.])(?P<rating>15|[2-9][05]|1\d[05]|2\d[05])\s*[aA]?\s*/\s*(?P<poles>[123])(?!\d|/|\.\d)"
)  # the same within a text
ITSELF = "named by the reviewer"


class ScheduleReader:
    """Reads labels that stand for loads.

    Args:
        rules: the rule set.
        facts: those of the supply, with the loads that are calculated.
        problems: where what is wrong is noted.
        plan: how submittals are reviewed: the circuits that are no loads of their own.
        aside: the labels of the rows that were left aside, which mean no other load.
        beside: of loads whose label names several kinds, these kinds.
    """

    def __init__(
        self,
        rules: RuleSet,
        facts: Facts,
        problems: Problems,
        plan: ReviewPlan,
        aside: Iterable[str] = (),
        beside: Named[str, Sequence[str]] | None = None,
    ) -> None:
        self.beside = beside or {}
        self.aside = {words_of(each) for each in aside}
        self.rules = rules
        self.labels = Labels(rules, (), plan.unmeaning)
        self.status = RowStatus(plan, self.labels, ())
        self.general = GeneralLabels(plan.circuits, rules.glossary.abbreviations)
        loads = facts.collections[LOADS]
        self.kinds = dict(zip(loads.names, map(str, loads.fields["kind"]), strict=True))
        words = "|".join(re.escape(each) for each in sorted(plan.breaker_words, key=len, reverse=True))
        pattern = rf"(?P<device>(?:[\s,(]+(?:{words})\b\)?)+)(?P<behind>\s*\(?(?:[x×]\s*\d+\)?)?)\s*$"
        self.devices = re.compile(pattern, re.IGNORECASE) if words else None
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
        printed, device = self.device(as_text(entry[key("breaker")], "breaker", self.problems) if "breaker" in entry else None)
        breaker = self.breaker(printed) if printed is not None else None
        number, poles = self.quantity(entry, label, printed), self.poles(entry, label, printed)
        note = as_text(entry[key("note")], "note", self.problems) if "note" in entry else None
        if "loads" not in entry and note is not None and self.status.first(note) == REMOVED:
            return replace(self.gone(label, "circuit", breaker), quantity=number, poles=poles)
        if "loads" not in entry:
            return replace(self.meant(label, "circuit", breaker), quantity=number, poles=poles, device=device)
        loads = tuple(
            dict.fromkeys(name for each in as_several(entry[key("loads")], "loads", self.problems) for name in self.named(each))
        )
        self.note(label, "circuit", loads, "", ITSELF)
        kind = self.kinds[loads[0]] if loads else ""
        return Scheduled(label, breaker, loads, kind, quantity=number, poles=poles, device=device)

    def device(self, text: Text | None) -> tuple[Text | None, str]:
        """The size of a breaker as it is written, and the words on the kind of device that stand behind it."""
        match = None if text is None or self.devices is None else self.devices.search(text)
        if text is None or match is None:
            return text, ""
        return text_at(f"{text[: match.start()]}{match['behind']}".strip(), text), match["device"].strip()

    def breaker(self, text: Text) -> float | None:
        """The size of a breaker [A]."""
        one = TIMES.sub("", text)
        slashed = SLASHED.fullmatch(one) or POLES_FIRST.fullmatch(one)
        try:
            shown = f"{slashed['rating']} A" if slashed is not None else POLES.sub("", one)
            return self.rules.glossary.units.quantity(text_at(shown, text))[0]
        except (ValueError, UnknownUnit):
            self.problems.add(SCHEDULE_BREAKER, text.place, text=text)
            return None

    def quantity(self, entry: Mapping, label: Text, breaker: Text | None) -> float:
        """How many such circuits an entry is for: as it says, or as stands behind its label or its breaker."""
        if "quantity" in entry:
            said = as_text(entry[key("quantity")], "quantity", self.problems)
            if not said.isdigit() or not int(said):
                self.problems.add(SCHEDULE_QUANTITY, said.place, text=said)
                return 1.0
            return float(said)
        found = [match["number"] for each in (label, breaker or "") if (match := TIMES.search(each)) is not None]
        return float(found[0]) if found else 1.0

    def poles(self, entry: Mapping, label: Text, breaker: Text | None) -> float | None:
        """The poles of a breaker: as an entry says, or as stand behind the breaker or the label, such as 30/2 or 2P; else nothing."""
        if "poles" in entry:
            said = as_text(entry[key("poles")], "poles", self.problems)
            match = POLES_ALONE.fullmatch(said)
            if match is None:
                self.problems.add(SCHEDULE_POLES, said.place, text=said)
            return None if match is None else float(match["poles"])
        for text in (TIMES.sub("", each) for each in (breaker, label) if each is not None):
            match = SLASHED.search(text) or POLES_FIRST.fullmatch(text) or POLES.search(text) or SLASHED_IN.search(text)
            if match is not None:
                return float(match["poles"])
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

    def gone(self, label: Text, what: str, breaker: float | None = None) -> Scheduled:
        """A circuit, or something of the scope, that is said to be removed: it is for no load of the calculation."""
        self.matched.append(Matched(str(label), what, "", "removed: not counted", "", WRITTEN))
        return Scheduled(label, breaker, (), "", removed=True)

    def meant(self, label: Text, what: str, breaker: float | None = None) -> Scheduled:
        """What a label means: one load, or several that stand in it beside one another."""
        if self.status.first(label) == REMOVED:
            return self.gone(label, what, breaker)
        if words_of(label) in self.aside:
            self.matched.append(Matched(str(label), what, "", "a row that was left aside", "", WRITTEN))
            return Scheduled(label, breaker, (), "", aside=True)
        general = self.of_general(label)
        if general is not None:
            self.matched.append(Matched(str(label), what, "", general.told, "", f"one of these: {general.title}"))
            return Scheduled(label, breaker, (), "", general=general)
        loads, match = self.loads_of(label)
        parts = [part.strip() for part in BETWEEN.split(label)]
        if (match is None or match.how != WRITTEN) and len(parts) > 1:
            several = dict.fromkeys(name for part in parts for name in self.of_part(text_at(part, label)))
            if len(several) > len(loads) or not loads:
                loads = tuple(several)
        if not loads:
            loads = self.by_own_words(label)  # also where it names a kind that no load has: AC of a row of another kind
        if not loads and match is not None:
            loads = self.akin(match.name)
        kinds = {self.kinds[name] for name in loads}
        kind = next(iter(kinds), match.name if match is not None else "")
        by_kind = match is not None and match.name in (kinds or {match.name})
        self.note(
            label, what, loads, match.by if match and by_kind and len(kinds) <= 1 else "", match.how if match and by_kind else ""
        )
        may_be = () if loads or kind else self.labels.may_be(label)
        return Scheduled(label, breaker, loads, kind, of_one_kind=len(kinds) == 1, may_be=may_be)

    def of_general(self, label: Text) -> GeneralCircuit | None:
        """The kind of circuit that a label means and that is no load; nothing where it means a load that is calculated."""
        found = self.general.meant(label)
        if found is None:
            return None
        loads, match = self.loads_of(label)
        return None if loads and match is not None and match.how != SHORTER else found

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
        names = [name for name, kind in self.kinds.items() if kind == match.name]
        return tuple(names or (name for name, kinds in self.beside.items() if match.name in kinds)), match

    def of_part(self, part: Text) -> tuple[str, ...]:
        """The loads that one of several parts of a label means, such as Aux of Aux+AH."""
        found, match = self.loads_of(part)
        return found if found or match is not None else self.by_own_words(part)

    def by_own_words(self, label: Text) -> tuple[str, ...]:
        """The only load whose own label has all the words of another label of which nothing is known, or nothing."""
        words = set(self.labels.words(label)) - self.labels.unmeaning
        if not words or words <= self.general.known or self.labels.may_be(label):
            return ()
        found = tuple(name for name in self.kinds if words <= set(self.labels.words(name)))
        return found if len(found) == 1 else ()

    def akin(self, kind: str) -> tuple[str, ...]:
        """The only load of a kind that is called as another one in its last two words, as all water heaters are; or nothing."""
        last = kind.split("_")[-2:]
        found = tuple(name for name, each in self.kinds.items() if len(last) == 2 and each.split("_")[-2:] == last)
        return found if len(found) == 1 and kind.split("_") != last else ()

    def note(self, label: Text, what: str, loads: tuple[str, ...], by: str, how: str) -> None:
        """Note what a label was taken for, for the table of matches."""
        title = ", ".join(loads) or ("a load that is not calculated" if how else "nothing that is known")
        self.matched.append(Matched(str(label), what, "", title, by, how))
