"""Submittals made from sheets: correct ones, and such with a mistake of the catalogue planted in them."""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from examples import PUBLISHED, rules_of
from random_homes import random_home, written

from dwellcalc.decide.instructions import Instructions, read_instructions
from dwellcalc.decide.recorded import with_record
from dwellcalc.decide.supply import SupplyAssessor
from dwellcalc.evaluate.sheet import KNOWN, MethodSheet, Outcome, SheetLine
from dwellcalc.evaluate.trace import Tracer
from dwellcalc.facts import NotApplicable, Unknown
from dwellcalc.home import Home, Supply, home_from_text, read_home
from dwellcalc.language.mistakes import Mistake, read_mistakes
from dwellcalc.language.overlays import address_of
from dwellcalc.language.rule_files import rule_files
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.placed import Text
from dwellcalc.problems import Source
from dwellcalc.review.claims import Claim
from dwellcalc.review.looked import Asked, Looked, line_of
from dwellcalc.review.submittal import Submittal
from dwellcalc.review.suspects import Suspect, Suspects, suspects_of

DEMO = PUBLISHED.parent / "demo"
MOST_HOMES = 400
FIRST = ("optional_dwelling", "standard", "existing_dwelling", "multifamily", "two_dwellings", "manufactured", "metered")


@cache
def catalogue() -> dict[str, Mistake]:
    rules = rules_of("nec/2023")
    files = rule_files(rules.folder)
    found = read_mistakes(files, "nec", rules.sources)
    files.problems.raise_if_any()
    return found


@cache
def instructions_of(edition: str) -> Instructions:
    return read_instructions(rules_of(edition))


@cache
def home_at(edition: str, at: int) -> Home:
    """One of a row of random homes."""
    rules = rules_of(edition)
    return home_from_text(written(random_home(rules.glossary, random.Random(at), hiding=0.0)), "random.yaml", rules.glossary)


@cache
def home_with_record(edition: str) -> Home:
    """The demonstration home that has a record of its meter, with the figures of it."""
    rules = rules_of(edition)
    home, _ = with_record(
        read_home(DEMO / "house_with_meter_record.yaml", rules.glossary), rules, instructions_of(edition), "2026-10-20"
    )
    return home


def title(text: str) -> Text:
    made = Text(text)
    made.source, made.line, made.column = Source("made.yaml", text), 1, 1
    return made


@dataclass
class Case:
    """What a submittal is made of: the rules, the home's supply, the method of its load and the further methods shown."""

    edition: str
    home: Home
    supply: Supply
    method: str
    methods: tuple[str, ...]

    @property
    def rules(self) -> RuleSet:
        return rules_of(self.edition)

    @property
    def asked(self) -> Asked:
        return Asked(self.supply.facts, self.method, instructions_of(self.edition).sizing, {}, {})

    def sheets(self, rules: RuleSet) -> list[MethodSheet]:
        """The sheets of the methods, as some rules make them."""
        looked = Looked(rules, self.asked)
        evaluation = looked.evaluation()
        tracers = {name: Tracer(evaluation) for name in self.methods}
        if self.asked.sizing.method in self.methods:
            tracers[self.asked.sizing.method] = Tracer(looked.sized(evaluation))
        return [tracer.method(name) for name, tracer in tracers.items()]

    def submittal(self, rules: RuleSet) -> Submittal:
        """The submittal that prints what some rules make of it."""
        claims = [claim for sheet in self.sheets(rules) for claim in claims_of(sheet, self.rules)]
        instructions = instructions_of(self.edition)
        made = Submittal(
            title("Made"), self.rules, instructions, self.method, True, True, self.home, self.supply, claims, given={}, choices={}
        )
        made.evidence = {name: "shown" for name in ("nameplates", *self.rules.methods["submittal"].results)}
        return made


def claims_of(sheet: MethodSheet, rules: RuleSet) -> Iterator[Claim]:
    """The lines of a sheet that are printed, as somebody would submit them."""
    for line in sheet.lines:
        if line.working or line.id.partition(".")[0] != sheet.id or line_of(rules, line.id) is None:
            continue
        for outcome in [line.outcome] if line.outcome is not None else line.items:
            claim = claim_of(line, outcome, rules)
            if claim is not None:
                yield claim


def claim_of(line: SheetLine, outcome: Outcome, rules: RuleSet) -> Claim | None:
    """A known number to the whole volt-ampere or the hundredth, or a size, as it is printed."""
    checked = line_of(rules, line.id)
    if outcome.state != KNOWN or isinstance(outcome.value, bool) or checked is None or checked.kind is None:
        return None
    item = str(outcome.item or "")
    if isinstance(outcome.value, str):
        if checked.kind.form != "scale":
            return None
        place = rules.glossary.value(checked.kind, outcome.value)
        return Claim(line.title, line.id, item, outcome.printed, place, 0.0)
    whole = outcome.unit == "VA"
    value = float(f"{outcome.value:.0f}" if whole else f"{outcome.value:.2f}")
    return Claim(line.title, line.id, item, f"{value:g}", value, 1.0 if whole else 0.01)


def cases(edition: str, mistake: Mistake, most: int = MOST_HOMES) -> Iterator[Case]:
    """Supplies of random homes for which a method that a mistake is of gives a load."""
    rules, instructions = rules_of(edition), instructions_of(edition)
    touched = {address_of(each).partition(".")[0] for way in mistake.ways for each in way}
    resting = [name for name, method in rules.methods.items() if touched & {str(part.name) for part in method.parts}]
    own = [name for name in resting if name in touched] or resting[:1]
    loads = [name for name in FIRST if name in own]
    of_record = loads[:1] == ["metered"]
    for at in range(1 if of_record else most):
        home = home_with_record(edition) if of_record else home_at(edition, at)
        supply = home.supplies[at % len(home.supplies)]
        methods = loads or usable(rules, instructions, supply)
        method = methods[at % len(methods)] if methods else ""
        if method and (supply.facts.collections["dwelling_units"] or rules.methods[method].level == "home"):
            shown = dict.fromkeys([method, *(name for name in own if name not in FIRST), instructions.sizing.method])
            yield Case(edition, home, supply, method, tuple(shown))


def usable(rules: RuleSet, instructions: Instructions, supply: Supply) -> list[str]:
    """The method that is the basis of a supply, if there is one."""
    tried, _ = SupplyAssessor(rules, instructions, supply, {}).answered({})
    return [tried.name] if tried is not None else []


def planted(
    edition: str, mistake: Mistake, wanted: int, most: int = MOST_HOMES
) -> Iterator[tuple[Case, Submittal, Suspects, Suspect]]:
    """Submittals in which a mistake changes a figure, of as many homes as are wanted and found."""
    found = 0
    for case in cases(edition, mistake, most):
        suspects = suspects_of(case.rules, case.methods)
        entry = next((each for each in suspects.entries if each.id == mistake.id), None)
        suspect = suspects.mistake(entry) if entry is not None else None
        erring = suspects.rules_with([suspect]) if suspect is not None else None
        if suspect is None or erring is None:
            continue
        made = case.submittal(erring)
        values = Looked(case.rules, case.asked).values(made.claims)
        known = [claim for claim in made.claims if not isinstance(values[claim.at], (Unknown, NotApplicable))]
        if all(claim.met_by(values[claim.at]) for claim in known):
            continue  # no figure is another, or the rules themselves have none
        yield case, made, suspects, suspect
        found += 1
        if found == wanted:
            return
