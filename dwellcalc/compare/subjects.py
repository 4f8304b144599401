"""A home made ready to be looked at under several rule sets: its supplies with the same facts on all sides."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from dwellcalc.compare.looks import Look, Subject, look
from dwellcalc.decide.changed import LOADS, Changes
from dwellcalc.decide.choices import chosen
from dwellcalc.decide.instructions import Instructions, read_instructions
from dwellcalc.decide.method_names import assessor_under, method_meant
from dwellcalc.decide.recorded import with_record
from dwellcalc.decide.settings import Chosen, changes_of, choose, settable
from dwellcalc.decide.settings_again import fitting_settings
from dwellcalc.decide.supply import SupplyAssessor
from dwellcalc.decide.suspected import with_least_suspected
from dwellcalc.decide.trials import Trials
from dwellcalc.decide.typical import with_typical
from dwellcalc.decide.unknowns import at_largest
from dwellcalc.evaluate import printed
from dwellcalc.evaluate.bounds import facts_with, inputs_of
from dwellcalc.facts import Facts
from dwellcalc.home import Asked, Home
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.placed import spaced
from dwellcalc.problems import InputError, Problem, Problems


@dataclass
class Prepared:
    """A home with its supplies ready.

    Attributes:
        home: the home.
        digest: that of its facts as they were read.
        subjects: its supplies.
        settings: the settings that are counted [A], by load.
        held: what was decided to make it ready, in words.
        name: what it is called beside another one.
    """

    home: Home
    digest: str
    subjects: list[Subject]
    settings: dict[str, float]
    held: list[str]
    name: str

    def looks(self, rules: RuleSet, instructions: Instructions | None = None, under: str = "") -> list[Look]:
        """Every supply under a rule set; a reading that the home chooses holds where the rule set has it."""
        known = instructions or read_instructions(rules)
        choices = choices_in(self.home, rules)
        return [
            look(subject, assessor_under(self.home, subject.supply, rules, known, choices), under or rules.title)
            for subject in self.subjects
        ]


def prepared(home: Home, rules: RuleSet, several: Sequence[RuleSet], date: str) -> Prepared:
    """A home made ready under one rule set: settings, typical ratings and bounds as an assessment by it takes them.

    Args:
        home: the home.
        rules: that rule set.
        several: all rule sets that it is looked at under; a reading that the home chooses must be known to one of them.
        date: the date of the calculation, year-month-day.

    Raises:
        InputError: no rule set knows a reading that the home chooses; a setting or a typical rating cannot be had.
    """
    _check_choices(home, several)
    if home.method is not None:  # its section may be another one under other rules; its name is the same
        home = replace(home, method=Asked(method_meant(home.method.name, rules, read_instructions(rules))))
    home, _ = with_record(home, rules, read_instructions(rules), home.date or date)
    digest, home = home.facts.digest(), with_typical(home, rules)
    home, suspected = _with_least_conductors(home, rules)
    counted = chosen_settings(home, rules).counted
    held = [
        f"{load} counts at {value}, the setting of an assessment by {rules.title}" for load, value in _settings(home, counted)
    ]
    held += [f"{each}: of the conductors that are suspected the least is taken" for each in suspected]
    instructions, choices = read_instructions(rules), choices_in(home, rules)
    subjects = []
    for supply in home.supplies:
        facts = _with_settings(supply.facts, changes_of(counted))
        known = replace(supply, facts=facts)
        subjects.append(Subject(at_largest(assessor_under(home, known, rules, instructions, choices)), facts))
    ranged = dict.fromkeys(name for each in subjects for name in _between(each.facts))
    if ranged:
        where = f"where the load is largest under {rules.title}"
        held.append(
            f"What is known only between bounds is taken {where}; each verdict is for all that may be ({', '.join(ranged)})"
        )
    return Prepared(home, digest, subjects, counted, held, home.title)


def _with_least_conductors(home: Home, rules: RuleSet) -> tuple[Home, list[str]]:
    """The home with the least of the conductors that are suspected, and the supplies of which some are."""
    suspected = [each.title for each in home.supplies if each.suspected]
    if not suspected:
        return home, []
    instructions, choices = read_instructions(rules), choices_in(home, rules)
    supplies = [with_least_suspected(SupplyAssessor(rules, instructions, each, choices)) for each in home.supplies]
    return replace(home, supplies=supplies), suspected


def chosen_settings(home: Home, rules: RuleSet) -> Chosen:
    """The settings that an assessment by a rule set counts."""
    loads = settable(home)
    if not loads:
        return Chosen({}, [])
    instructions, choices = read_instructions(rules), choices_in(home, rules)
    every = [assessor_under(home, supply, rules, instructions, choices) for supply in home.supplies]
    largest = [SupplyAssessor(rules, instructions, at_largest(each), choices, each.wanted) for each in every]
    return choose(loads, Trials(largest), instructions.combinations_at_most)


def fitting_under(home: Home, rules: RuleSet) -> list[dict[str, float] | None]:
    """For each supply the largest settings that fit it under a rule set: empty where none do, nothing where that is not tried."""
    loads = settable(home)
    instructions, choices = read_instructions(rules), choices_in(home, rules)
    every = [assessor_under(home, supply, rules, instructions, choices) for supply in home.supplies]
    return [
        fitting_settings(loads, SupplyAssessor(rules, instructions, at_largest(each), choices, each.wanted)) for each in every
    ]


def choices_in(home: Home, rules: RuleSet) -> dict[str, str]:
    """The readings that a home chooses, as far as a rule set has them."""
    found: dict[str, str] = {}
    for name, option in home.interpretations.items():
        found |= chosen(rules, {name: option}, Problems())
    return found


def _check_choices(home: Home, several: Sequence[RuleSet]) -> None:
    """Refuse a reading that no rule set has."""
    refused: list[Problem] = []
    for name, option in home.interpretations.items():
        every = [Problems() for _ in several]
        for rules, problems in zip(several, every, strict=True):
            chosen(rules, {name: option}, problems)
        if all(problems.found for problems in every):
            refused += every[-1].found
    if refused:
        raise InputError(refused)


def _with_settings(facts: Facts, changes: Changes) -> Facts:
    names = facts.collections[LOADS].names
    return facts_with(
        facts, {(LOADS, names.index(load), each): value for (load, each), value in changes.items() if load in names}
    )


def _settings(home: Home, counted: dict[str, float]) -> list[tuple[str, str]]:
    """The settings in print."""
    kinds = home.facts.glossary.collections[LOADS].fields
    return [
        (load, printed.value(value, kinds[name].kind, home.facts.glossary)) for (load, name), value in changes_of(counted).items()
    ]


def other_settings(home: Home, counted: dict[str, float], rules: RuleSet) -> list[str]:
    """For each load that an assessment by another rule set would count at another setting, a sentence."""
    other = chosen_settings(home, rules)
    why = "" if other.fitting else ", the largest, since none fits"
    return [
        f"Under {rules.title} an assessment would count {load} at {value}{why}"
        for load, value in _settings(home, other.counted)
        if other.counted[load] != counted[load]
    ]


def _between(facts: Facts) -> list[str]:
    return list(
        dict.fromkeys(
            f"{facts.collections[collection].names[position]}: {spaced(name)}" for collection, position, name in inputs_of(facts)
        )
    )
