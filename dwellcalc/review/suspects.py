"""What may stand behind a wrong figure: a mistake of the catalogue, or another reading of the code, each ready to be tried."""

from __future__ import annotations

from collections.abc import Container, Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from dwellcalc.decide.choices import interpretations
from dwellcalc.evaluate.traced import plan_of
from dwellcalc.facts import Facts
from dwellcalc.home.glossary_names import LOADS
from dwellcalc.language.documents import QUOTED, Document, Interpretation
from dwellcalc.language.mistakes import Mistake, code_of, read_mistakes
from dwellcalc.language.overlays import Overlays, address_of, first_that_holds
from dwellcalc.language.rule_files import rule_files
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.placed import Listing, Text, key
from dwellcalc.placed import Mapping as Named
from dwellcalc.problems import InputError
from dwellcalc.review.catalogue import methods_touched

MISTAKE, READING = "mistake", "reading"


@dataclass(frozen=True)
class Suspect:
    """A mistake or a reading.

    Attributes:
        id: its name, or the address of a reading with its option.
        kind: `mistake` or `reading`.
        done: what was done, as a clause.
        right: what the section asks, or what is taken here, as a clause.
        send: what to send, or empty.
        send_of_one: the same where the figure is of one load alone, or empty.
        section, severity, status: as of its entry.
        changes: those that make the rules err so; none of a reading.
        choices: the reading, by address.
        touches: the pieces that it changes.
    """

    id: str
    kind: str
    done: str
    right: str
    send: str
    section: str
    severity: str
    status: str
    changes: Listing = field(compare=False, repr=False)
    choices: tuple[tuple[str, str], ...] = ()
    touches: frozenset[str] = frozenset()
    send_of_one: str = ""

    def sent(self, loads: Iterable[str], facts: Facts) -> str:
        """What is asked for: where the figures are of one load, and of no second one of its row, what is said of that."""
        known = facts.collections[LOADS]
        weights = [known.quantity[known.names.index(each)] for each in loads if each in known.names]
        return self.send_of_one if self.send_of_one and weights == [1] else self.send

    def apart_from(self, other: Suspect) -> bool:
        """Whether it changes other pieces than another."""
        return not self.touches & other.touches


class Suspects:
    """The suspects of a rule set for some methods, each linked once, when it is first asked for.

    Args:
        rules: the rule set.
        methods: the methods that a submittal claims lines of.

    Raises:
        InputError: the catalogue breaks its form.
    """

    def __init__(self, rules: RuleSet, methods: Iterable[str]) -> None:
        self.rules = rules
        self.overlays = Overlays(rules, methods)
        files = rule_files(rules.folder)
        catalogue = read_mistakes(files, code_of(rules.id), rules.sources)
        files.problems.raise_if_any()
        self.entries = [each for each in catalogue.values() if any(map(self.overlays.touches, each.ways))]
        self._made: dict[str, Suspect | None] = {}
        self._linked: dict[str, RuleSet | None] = {}

    def mistakes(self, addresses: Container[str]) -> Iterator[Suspect]:
        """The mistakes that the edition holds and that change one of some pieces, by address."""
        for entry in self.entries:
            if any(piece in addresses for way in entry.ways for piece in pieces_of(way)):
                found = self.mistake(entry)
                if found is not None:
                    yield found

    def mistake(self, entry: Mistake) -> Suspect | None:
        """The suspect of an entry, or nothing where the edition does not hold what it changes."""
        if entry.id not in self._made:
            ways = [way for way in entry.ways if self.overlays.touches(way)]
            held = first_that_holds(self.overlays, ways)
            self._made[entry.id] = None if held is None else self._suspect(entry, held[0])
            self._linked[entry.id] = None if held is None else held[1]
        return self._made[entry.id]

    def listed(self) -> list[tuple[Mistake, Suspect | None]]:
        """Every entry with its suspect, or nothing where the edition does not hold it.

        To be quick, only what adds something is linked, and with few methods: a new piece may name what the edition lacks.
        """
        found: list[tuple[Mistake, Suspect | None]] = []
        for entry in self.entries:
            held = next((way for way in entry.ways if self.overlays.holds(way)), None)
            if held is not None and any(key("add") in each for way in entry.ways for each in way if isinstance(each, Named)):
                few = Overlays(self.rules, methods_touched(self.rules, entry.ways))
                linked = first_that_holds(few, entry.ways)
                held = None if linked is None else linked[0]
            found.append((entry, None if held is None else self._suspect(entry, held)))
        return found

    def _suspect(self, entry: Mistake, changes: Listing) -> Suspect:
        return Suspect(
            entry.id,
            MISTAKE,
            self.filled(entry.done),
            self.filled(entry.right),
            entry.send,
            self.rules.section(str(entry.cite)),
            entry.severity,
            entry.status,
            changes,
            touches=pieces_of(changes),
            send_of_one=entry.send_of_one,
        )

    def filled(self, text: Text) -> str:
        """A text with the parameters of the rules that it quotes, each by document and name."""
        plan, documents = plan_of(self.rules), self.rules.documents
        known = all(match[1].partition(".")[0] in documents for match in QUOTED.finditer(text))
        return plan.filled(text, next(iter(documents.values()))) if known else str(text)

    def readings(self, read: Iterable[str], choices: Mapping[str, str]) -> Iterator[Suspect]:
        """The other options of the interpretations that were read.

        Args:
            read: their addresses.
            choices: those in effect, where they are not the default.
        """
        known = interpretations(self.rules)
        for address in sorted(each for each in read if each in known):
            entry, document = known[address], self.rules.documents[address.partition(".")[0]]
            taken = choices.get(address, str(entry.default))
            for option in entry.options:
                if option != taken:
                    yield self._reading(address, entry, document, str(option), taken)

    def _reading(self, address: str, entry: Interpretation, document: Document, option: str, taken: str) -> Suspect:
        plan = plan_of(self.rules)
        question = plan.filled(entry.question, document)
        says, ours = (plan.filled(entry.options[each].says, document) for each in (option, taken))
        return Suspect(
            f"{address}={option}",
            READING,
            f'the code is read another way: "{question}" - {says}',
            f"in this review it is read so: {ours}",
            "",
            self.rules.section(str(entry.cite)),
            "remark",
            "code",
            Listing(),
            ((address, option),),
            frozenset((address,)),
        )

    def rules_with(self, suspects: Iterable[Suspect]) -> RuleSet | None:
        """The rule set with the mistakes of some suspects in it, or nothing where they cannot stand together."""
        made = [each for each in suspects if each.kind == MISTAKE]
        if not made:
            return self.rules
        if len(made) == 1:
            return self._linked[made[0].id]
        try:  # not kept: there are many pairs
            return self.overlays.with_changes(*(each.changes for each in made))
        except InputError:
            return None


def pieces_of(changes: Listing) -> frozenset[str]:
    """The pieces that changes are of, by document and name."""
    return frozenset(".".join(address_of(each).split(".")[:2]) for each in changes)


def choices_of(suspects: Iterable[Suspect]) -> dict[str, str]:
    """The readings of some suspects, by address."""
    return {address: option for each in suspects for address, option in each.choices}


def suspects_of(rules: RuleSet, methods: Iterable[str]) -> Suspects:
    """The suspects of a rule set for some methods, made once and kept with it."""
    wanted = tuple(sorted(set(methods)))
    found = rules.kept.get(f"{Suspects.__name__} {wanted}")
    if found is None:
        found = rules.kept[f"{Suspects.__name__} {wanted}"] = Suspects(rules, wanted)
    assert isinstance(found, Suspects)
    return found
