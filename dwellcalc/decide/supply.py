"""One supply: its methods evaluated, the basis chosen, the supply sized, and each interpretation tried."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from dwellcalc.decide.basis import Carried, Tried, basis_of, lacking, missing_of
from dwellcalc.decide.because import cited_reasons, reasons
from dwellcalc.decide.changed import LOADS, changed, planned_areas, without_areas
from dwellcalc.decide.connected import connected_load
from dwellcalc.decide.document import (
    DOES_NOT_FIT,
    OPEN,
    Basis,
    BeforeResult,
    BesideAnswer,
    BesideResult,
    MethodResult,
    SupplyResult,
    verdict,
)
from dwellcalc.decide.instructions import Instructions
from dwellcalc.decide.outcomes import in_sets, number_in, truth
from dwellcalc.decide.parts import PartOfLoad, parts_of
from dwellcalc.decide.readings import interpretations_of
from dwellcalc.decide.sizing_result import SizingResult
from dwellcalc.evaluate.coverage import miscounts
from dwellcalc.evaluate.sheet import KNOWN, NOT_APPLICABLE, UNKNOWN, MethodSheet
from dwellcalc.evaluate.trace import ON_CONDITION, Tracer
from dwellcalc.evaluate.traced import Evaluation, plan_of
from dwellcalc.evaluate.work import NO, YES, state_of
from dwellcalc.facts import Facts, Unknown
from dwellcalc.home import Supply
from dwellcalc.home.glossary_names import STATE, SUPPLY, TO_BE_INSTALLED
from dwellcalc.home.meters import has_record
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.language.tree import CheckedLine
from dwellcalc.problems import fail, message

MISCOUNTED = message(
    "load_miscounted",
    'the method "{method}" counts the load "{load}" {times}, not once',
    "this is a fault of the rules, not of the home",
)
OF_A_TRIAL = ("margin", "minimum_rating", "offered_rating")  # the roles of sizing that a trial tells
ONCE = ("never", "once", "twice")


class SupplyAssessor:
    """Assesses one supply of a home.

    Args:
        rules: the rule set.
        instructions: what its assessment file says.
        supply: the supply with its facts.
        choices: the interpretations chosen, by address.
        wanted: the method of the basis, or empty.
    """

    def __init__(
        self, rules: RuleSet, instructions: Instructions, supply: Supply, choices: Mapping[str, str], wanted: str = ""
    ) -> None:
        self.rules = rules
        self.instructions = instructions
        self.supply = supply
        self.facts: Facts = supply.facts
        self.planned = set(supply.planned)
        self.choices = dict(choices)
        self.plan = plan_of(rules)
        self.wanted = wanted
        self.titles_that_size_new = {str(rules.methods[name].source.title) for name in instructions.sizes_new}

    def under(self, choices: Mapping[str, str]) -> SupplyAssessor:
        """The same under other interpretations."""
        return SupplyAssessor(self.rules, self.instructions, self.supply, choices, self.wanted)

    def assess(self) -> SupplyResult:
        """The result.

        Raises:
            InputError: a method's rules count a load of this home never or twice.
        """
        tried = [self.tried(name, self.choices) for name in self.methods()]
        sheets = [self.sheet(one) for one in tried]
        basis = self.decided(tried, self.choices)
        missing = missing_of([one.total for one in tried if one.may != NO])
        found = self.empty(sheets, missing)
        found.results = [self.result(one, basis is not None and one is basis[0]) for one in tried]
        if basis is None:
            found.beside = self.beside(Evaluation(self.plan, self.facts, self.choices))
            return found
        chosen, found.basis = basis
        assert isinstance(chosen.total, float)
        found.total = chosen.total
        found.sizing = self.sizing(chosen, self.choices)
        found.beside = self.beside(self.sized(chosen, self.choices))
        found.verdict = verdict(found.sizing.fits, found.sizing.fits_state)
        sheet = next(each for each in sheets if each.id == chosen.name)
        found.conditions = [each.asks for each in sheet.conditions if each.outcome == ON_CONDITION]
        found.interpretations = interpretations_of(self, chosen, found.sizing)
        found.before = self.before()
        found.parts = self.parts(chosen, sheet, found.sizing)
        plan = self.instructions.connected
        found.connected = None if plan is None else connected_load(plan, Evaluation(self.plan, self.facts, self.choices))
        return found

    def parts(self, chosen: Tried, sheet: MethodSheet, sizing: SizingResult) -> list[PartOfLoad]:
        """What the supply must carry by a method, taken apart."""
        if not isinstance(chosen.total, float) or not isinstance(chosen.amperes, float) or sizing.amperes is None:
            return []
        results, plan = self.rules.methods[chosen.name].results, self.instructions
        total, amperes = results[plan.total].id, results[plan.amperes].id
        required = sizing.sheet.results[plan.sizing.results["amperes_required"]]
        return parts_of(sheet, (total, chosen.total), (amperes, chosen.amperes), required)

    def empty(self, sheets: list[MethodSheet], missing: tuple[list[str], list[str]]) -> SupplyResult:
        """The result as far as it rests on no basis."""
        supply = self.supply
        head = (supply.id, supply.title, supply.kind, self.system())
        return SupplyResult(*head, [], sheets, [], None, None, None, OPEN, [], None, [], *missing)

    def result(self, tried: Tried, basis: bool) -> MethodResult:
        """A method's load [VA] and [A] in short, with the verdict by it."""
        total = tried.total if isinstance(tried.total, float) else None
        amperes = tried.amperes if isinstance(tried.amperes, float) else None
        held = self.carried(tried, self.choices).verdict
        return MethodResult(tried.name, str(self.rules.methods[tried.name].source.title), total, amperes, tried.may, basis, held)

    def beside(self, evaluation: Evaluation) -> list[BesideResult]:
        """The methods that are calculated beside the basis, those of which the home has what they are for."""
        found = []
        for each in self.instructions.beside:
            if each.where and not self.facts.collections[each.where]:
                continue
            sheet = Tracer(evaluation).method(each.method)
            outcomes = {name: sheet.results[name] for name in each.answer}
            if all(outcome.state == NOT_APPLICABLE for outcome in outcomes.values()):
                continue
            answers = [
                BesideAnswer(name, each.answer[name], outcome.value, outcome.printed, each.drawn.get(name, ""))
                for name, outcome in outcomes.items()
                if outcome.state == KNOWN
            ]
            name, first = next(iter(outcomes.items()))
            if first.state == UNKNOWN:
                needs = ", ".join([*first.missing, *first.refusals])
                answers.insert(0, BesideAnswer(name, each.answer[name], None, f"cannot be calculated: {needs}"))
            ahead = cited_reasons(each.ahead_of_main, sheet, self.rules.methods[each.method].results)
            found.append(BesideResult(each.method, answers, sheet, each.of_new, ahead))
        return found

    def methods(self) -> list[str]:
        """The methods that can answer this supply: per dwelling unit only where it has one, of a record where there is one."""
        levels, record = self.plan.per, self.instructions.record
        present = {name: len(items) for name, items in self.facts.collections.items()}
        without = () if record is None or has_record(self.facts) else (record.serves,)
        return [name for name in self.instructions.methods if present.get(levels[name], 1) and name not in without]

    @property
    def is_there(self) -> bool:
        """Whether the supply exists, or may."""
        state = self.facts.objects[SUPPLY].get(STATE)
        return isinstance(state, Unknown) or bool(state != TO_BE_INSTALLED)

    def system(self) -> str:
        """The supply system as it is written."""
        supply = self.facts.objects["supply"]
        for system in self.rules.glossary.systems.values():
            if all(supply[name] is value or supply[name] == value for name, value in system.fields.items()):
                return system.name
        return ""

    # methods

    def tried(self, name: str, choices: Mapping[str, str], given: Mapping[str, float] | None = None) -> Tried:
        """A method evaluated under some choices: its load [VA], [A], and whether it may be used."""
        return self.tried_in(name, Evaluation(self.plan, self.facts, choices, given))

    def tried_in(self, name: str, evaluation: Evaluation, *, whatever: bool = True) -> Tried:
        """A method in an evaluation; where it may not be used, its load only if asked for ``whatever``."""
        results = self.rules.methods[name].results
        may = self.may(evaluation.permitted(name))
        if may == NO and not whatever:
            return Tried(name, evaluation, None, None, may)
        if may == NO and self.is_of_one_of_several_units(name):
            return Tried(name, evaluation, None, None, may)
        total = evaluation.line(results[self.instructions.total])
        amperes = evaluation.line(results[self.instructions.amperes])
        return Tried(name, evaluation, total, amperes, may)

    def is_of_one_of_several_units(self, name: str) -> bool:
        """Whether a method is for one dwelling unit and the supply has several: then it says nothing of the supply."""
        level = self.plan.per[name]
        return level in self.facts.collections and sum(self.facts.collections[level].quantity) > 1

    def may(self, outcomes: list[object]) -> str:
        """Whether a method may be used: `yes`, `no`, or `on condition` where that is not known."""
        if any(outcome is False for outcome in outcomes):
            return NO
        return ON_CONDITION if any(isinstance(outcome, Unknown) for outcome in outcomes) else YES

    def sheet(self, tried: Tried) -> MethodSheet:
        """The sheet of a method; refused where its rules count a load never or twice."""
        if tried.total is None:
            return Tracer(tried.evaluation).method(tried.name, results=False)
        for miscount in miscounts(tried.evaluation, tried.name):
            times = ONCE[miscount.times] if miscount.times < len(ONCE) else f"{miscount.times} times"
            fail(MISCOUNTED, method=tried.name, load=miscount.load, times=times)
        return Tracer(tried.evaluation).method(tried.name)

    # sizing

    def sizing(self, tried: Tried, choices: Mapping[str, str]) -> SizingResult:
        """The supply sized for the load of a method."""
        plan = self.instructions.sizing
        evaluation = self.sized(tried, choices)
        sheet = Tracer(evaluation).method(plan.method)
        numbers = {role: number_in(sheet.results[name]) for role, name in plan.results.items()}
        fits = sheet.results[plan.results["fits"]]
        listed = {
            role: {name: sheet.results[name].printed for name in names if sheet.results[name].state == KNOWN}
            for role, names in plan.lists.items()
        }
        return SizingResult(
            numbers["amperes_required"],
            numbers["amperes_nearest"],
            numbers["minimum_rating"],
            numbers.get("offered_rating"),
            numbers["capacity"],
            self.weakest(sheet, plan.results["capacity"]),
            fits.value if fits.state == KNOWN else None,
            fits.state,
            numbers["margin"],
            truth(sheet, plan.results.get("conductors_suffice", "")),
            truth(sheet, plan.results.get("bus_suffices", "")),
            numbers.get("with_continuous"),
            truth(sheet, plan.results.get("with_continuous_passes", "")),
            truth(sheet, plan.results.get("conditions_taken", "")),
            truth(sheet, plan.results.get("few_disconnects", "")),
            truth(sheet, plan.results.get("margin_is_small", "")),
            in_sets(listed["conductors"], plan.lists, sheet),
            listed["to_verify"],
            [*fits.missing, *fits.refusals],
            set(evaluation.read_choices),
            sheet,
            [part.title for part in sheet.results[plan.results["amperes_required"]].parts[1:] if part.taken and part.value],
            reasons(plan.because, sheet),
        )

    def sized(self, tried: Tried, choices: Mapping[str, str]) -> Evaluation:
        """An evaluation for sizing, which is given results of the method."""
        return Evaluation(self.plan, self.facts, choices, self.given_to_sizing(tried))

    def given_to_sizing(self, tried: Tried) -> dict[str, Any]:
        """What sizing is given of a method, by name [A]."""
        results = self.rules.methods[tried.name].results
        return {name: tried.evaluation.line(results[result]) for name, result in self.instructions.sizing.given.items()}

    def weakest(self, sheet: MethodSheet, capacity: str) -> str:
        """The title of the element that decides the capacity."""
        parts = sheet.results[capacity].parts
        return next((part.title for part in parts if part.taken), "")

    def before(self) -> BeforeResult | None:
        """The result without what is planned, and with what it would replace; nothing where nothing is planned."""
        if not self.planned and not planned_areas(self.facts):
            return None
        names = self.facts.collections[LOADS].names
        without = {(name, "replaced"): position in self.planned for position, name in enumerate(names)}
        with changed(self.facts, without), without_areas(self.facts):
            _, carried = self.answered(self.choices)
            every = [self.tried(name, self.choices) for name in self.methods()]
            tried = [one for one in every if one.may != NO and isinstance(one.amperes, float)]
            sheets = [Tracer(one.evaluation).method(one.name) for one in tried]
        results = [self.result(one, str(self.rules.methods[one.name].source.title) == carried.by) for one in tried]
        if carried.amperes is None:
            return None
        return BeforeResult(carried.amperes, carried.verdict, carried.by, results, sheets)

    def answered(self, choices: Mapping[str, str]) -> tuple[Tried | None, Carried]:
        """The method of the basis under other choices or facts, and what the supply must carry by it, without a sheet."""
        evaluation = Evaluation(self.plan, self.facts, choices)  # one for all methods: what they share is calculated once
        tried = [self.tried_in(name, evaluation, whatever=name == self.wanted) for name in self.methods()]
        basis = self.decided(tried, choices)
        return (None, Carried(None, OPEN)) if basis is None else (basis[0], self.carried(basis[0], choices))

    def decided(self, tried: Sequence[Tried], choices: Mapping[str, str]) -> tuple[Tried, Basis] | None:
        """The basis; nothing where it would not fit while a method that may be used lacks an input, for that one might."""
        basis = basis_of(tried, self.wanted, self.rules, self.instructions.record)
        if basis is None or self.wanted or not lacking(tried):
            return basis
        return None if self.carried(basis[0], choices).verdict == DOES_NOT_FIT else basis

    def carried(self, tried: Tried, choices: Mapping[str, str]) -> Carried:
        """What the supply must carry by a method under other choices or facts, without a sheet."""
        if tried.may == NO or not isinstance(tried.amperes, float):
            return Carried(None, OPEN)
        plan = self.instructions.sizing
        evaluation = self.sized(tried, choices)
        results = self.rules.methods[plan.method].results
        amperes = evaluation.line(results[plan.results["amperes_required"]])
        fits = evaluation.line(results[plan.results["fits"]])
        answer = verdict(fits if isinstance(fits, bool) else None, state_of(fits))
        title = str(self.rules.methods[tried.name].source.title)
        more = {role: _amperes(evaluation, results, plan.results.get(role)) for role in OF_A_TRIAL}
        return Carried(amperes if isinstance(amperes, float) else None, answer, title, **more)


def _amperes(evaluation: Evaluation, results: Mapping[str, CheckedLine], name: str | None) -> float | None:
    value = evaluation.line(results[name]) if name is not None and name in results else None
    return value if isinstance(value, float) else None
