"""The assessment of a home under a rule set."""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import ExitStack
from hashlib import sha256
from importlib import metadata

from dwellcalc.decide.alternatives import alternatives
from dwellcalc.decide.by_others import by_other_methods
from dwellcalc.decide.candidates import candidate_ratings
from dwellcalc.decide.changed import changed
from dwellcalc.decide.choices import chosen
from dwellcalc.decide.circuits import circuit_results
from dwellcalc.decide.conductors import conductors_that_suffice, supplied
from dwellcalc.decide.decision import Decision
from dwellcalc.decide.document import DOES_NOT_FIT, FITS, Assessment, SupplyResult, sheets_beside
from dwellcalc.decide.installed import installed, to_be_looked_at
from dwellcalc.decide.installed_as_one import planned_units
from dwellcalc.decide.instructions import Instructions, read_instructions
from dwellcalc.decide.larger_settings import larger_settings
from dwellcalc.decide.later import sizes_with_later, with_what_is_later
from dwellcalc.decide.listing import (
    circuits_to_find,
    fact_entries,
    field_page,
    inputs_to_read,
    load_entries,
    rating_of,
    rule_set_entry,
    stated_of,
)
from dwellcalc.decide.method_names import method_meant, why_asked
from dwellcalc.decide.new_supply import as_new, conditions_left
from dwellcalc.decide.open_settings import where_open
from dwellcalc.decide.order import order_of_installation
from dwellcalc.decide.otherwise_marked import otherwise_marked
from dwellcalc.decide.panel_schedule import panel_schedules, spaces_to_find
from dwellcalc.decide.record import tell_record
from dwellcalc.decide.recorded import with_record
from dwellcalc.decide.settings import Chosen, Settable, changes_of, choose, combinations, settable, settings_results
from dwellcalc.decide.settings_again import tell_settings
from dwellcalc.decide.settings_together import largest_settings
from dwellcalc.decide.shortcomings import shortcomings
from dwellcalc.decide.smaller_devices import tell_smaller_devices
from dwellcalc.decide.supply import SupplyAssessor
from dwellcalc.decide.suspected import least_suspected, tell_conductors
from dwellcalc.decide.trials import Trials
from dwellcalc.decide.turning_points import turning_points
from dwellcalc.decide.typical import with_typical
from dwellcalc.decide.unknowns import at_largest, tell_unknowns
from dwellcalc.decide.usual import nothing_listed
from dwellcalc.decide.verification import not_verified
from dwellcalc.decide.whatever import Whatever, tell_whatever
from dwellcalc.decide.without import without_amendments
from dwellcalc.evaluate import printed
from dwellcalc.evaluate.sheet import MethodSheet
from dwellcalc.evaluate.traced import Evaluation
from dwellcalc.facts import Unknown
from dwellcalc.home import Home, Supply
from dwellcalc.home.absences import shown
from dwellcalc.home.evidence import ASSUMED
from dwellcalc.home.glossary_names import ATTACHMENT
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.problems import Problems, fail, message
from dwellcalc.progress import Progress, silent

SETTING, PART, PLUGGED = "setting", "part", "cord_and_plug"
NOT_AMENDED = message(
    "assess_not_amended",
    "the home names amendments, and the rules are without them",
    "take the rules of `amended_for(home, rules)`",
)


def version() -> str:
    """The version of the package, or a word for a checkout that is not installed."""
    try:
        return metadata.version("dwellcalc")
    except metadata.PackageNotFoundError:
        return "not installed"


def assess(home: Home, rules: RuleSet, *, date: str, method: str = "", progress: Progress = silent) -> Assessment:
    """Assess a home: every method that the assessment file names, the basis, the supply, and what was not verified.

    Args:
        home: the home as read.
        rules: the rule set in effect.
        date: the date of the calculation, year-month-day.
        method: the method of the basis where one is asked for by name, before that which the home file asks for.
        progress: is told what is calculated.

    Raises:
        InputError: an interpretation or the method is not known, or the rules count a load of this home never or twice.
    """
    instructions = read_instructions(rules)
    asked = home.method if not method else None
    method = method_meant(asked.name if asked is not None else method, rules, instructions)
    if home.amendments and not rules.amendments:
        fail(NOT_AMENDED)
    problems = Problems()
    choices = chosen(rules, home.interpretations, problems)
    problems.raise_if_any()
    if home.meter is not None:
        progress("reading the record of the meter")
    home, recorded = with_record(home, rules, instructions, home.date or date)
    progress("calculating the methods and the settings")
    digest, home = home.facts.digest(), with_typical(home, rules)
    loads = settable(home)

    def assessors() -> list[SupplyAssessor]:
        every = [SupplyAssessor(rules, instructions, supply, choices, method) for supply in home.supplies]
        return [SupplyAssessor(rules, instructions, at_largest(each), choices, method) for each in every]

    with ExitStack() as counted:
        for each in assessors():
            least = least_suspected(each)
            facts = next(supply.facts for supply in home.supplies if supply.id == each.supply.id)
            counted.enter_context(supplied(facts, {} if least is None else least.said))
        settings = choose(loads, Trials(assessors()), instructions.combinations_at_most)
        settings = where_open(home, loads, settings, assessors)
        for supply in home.supplies:
            counted.enter_context(changed(supply.facts, settings.changes))
        found = assessors()  # what is known between bounds is where the load is largest with those settings
        supplies = []
        for number, assessor in enumerate(found, start=1):
            progress(f"{assessor.supply.title}, supply {number} of {len(found)}")
            absent = home.absent if assessor is found[0] else {}
            supplies.append(_assessed(assessor, _fed_by_others(assessor, found[1:]), absent))
            if asked is not None and (basis := supplies[-1].basis) is not None:
                basis.because = why_asked(asked)
        later = with_what_is_later(home, Trials(found), weakest_of(supplies), supplies)
        set_to = changes_of(later[-1].set_to) if later else {}
        for assessor, supply, result in zip(found, home.supplies, supplies, strict=True):
            tell_unknowns(assessor, supply.facts, result)
            tell_smaller_devices(assessor, supply.facts, result)
            tell_record(assessor, result, recorded)
            tell_conductors(Trials(found), found.index(assessor), result, loads)
            result.later = sizes_with_later(assessor, home, result, _fed_by_others(assessor, found[1:]), set_to)
        supplies[0].candidates = candidate_ratings(found[0], home, supplies[0], loads)
        progress("looking for what would be otherwise")
        tell_settings(found, supplies, loads)
        decision = _decision(home, loads, settings, Trials(found), supplies)
        decision.later = later
        brought = _brought(found[0], instructions, supplies)
        document = _document(home, rules, instructions, (supplies, decision, brought), digest, home.date or date)
        first = found[0]
        evaluation = Evaluation(first.plan, first.facts, first.choices)
        gone = [old for replaced in home.later.values() for old in replaced]
        document.panels = panel_schedules(evaluation, instructions, supplies, new=not first.is_there, gone_later=gone)
        document.field_page += spaces_to_find(evaluation, instructions) if first.is_there else []
        return document


def weakest_of(supplies: list[SupplyResult]) -> dict[str, str]:
    """The element that decides the capacity of each supply, by its id."""
    return {supply.id: supply.sizing.weakest for supply in supplies if supply.sizing is not None}


def _brought(service: SupplyAssessor, instructions: Instructions, supplies: list[SupplyResult]) -> list[str]:
    """What a service brings with it that is to be installed, or replaced because something does not fit."""
    replaced = any(supply.verdict == DOES_NOT_FIT for supply in supplies)
    return list(instructions.checklist) if replaced or not service.is_there else []


def _fed_by_others(assessor: SupplyAssessor, feeders: list[SupplyAssessor]) -> set[str]:
    """The loads whose circuits are another supply's; those of a feeder that carries all are told with its service."""
    return {name for each in feeders if _has_circuits_of(each, assessor) for name in each.facts.collections["loads"].names}


def _has_circuits_of(feeder: SupplyAssessor, assessor: SupplyAssessor) -> bool:
    return (feeder is assessor) == feeder.supply.carries_all


def _assessed(assessor: SupplyAssessor, elsewhere: set[str], absent: Mapping[str, str]) -> SupplyResult:
    found = assessor.assess()
    found.conditions = conditions_left(assessor, found)
    evaluation = Evaluation(assessor.plan, assessor.facts, assessor.choices)
    found.circuits = circuit_results(evaluation, assessor.instructions, elsewhere)
    found.loads = load_entries(assessor.supply)
    found.carries_all, found.protected_by_service = assessor.supply.carries_all, assessor.supply.protected_by_service
    found.stated, found.rating = stated_of(assessor.supply), rating_of(assessor.supply)
    found.shortcomings = shortcomings(assessor.instructions, found, conductors_that_suffice(assessor, found))
    found.remarks = _remarks(assessor.supply, assessor.instructions, found)
    found.new_supply = as_new(assessor, assessor.instructions.sizes_new)
    found.facts_not_verified = not_verified(assessor, found, absent)
    found.otherwise = otherwise_marked(assessor, found)
    found.without_amendments = without_amendments(assessor, found)
    return found


def _decision(home: Home, loads: list[Settable], settings: Chosen, trials: Trials, supplies: list[SupplyResult]) -> Decision:
    instructions = trials.assessors[0].instructions
    weakest = weakest_of(supplies)
    smallest = {} if settings.fitting else changes_of({each.load: each.settings[0] for each in loads})
    of_settings = settings_results(home, loads, settings, trials, weakest)
    at_least, limit = Trials(trials.assessors, smallest), instructions.combinations_at_most
    units = planned_units(home, trials)
    order = order_of_installation(home, units, at_least, limit, bool(smallest))
    if order is not None:
        order.settings = [largest_settings(home, chosen, loads, trials, limit) for chosen in order.together]
    for each in of_settings:
        each.larger = larger_settings(home, each, at_least if smallest else trials)
    decision = Decision(
        of_settings,
        combinations(loads, settings, trials),
        order,
        alternatives(home, trials),
    )
    whatever = Whatever(home, trials.assessors)
    decision.installed = installed(whatever, units, loads, trials, decision, supplies)
    tell_whatever(whatever, decision, supplies, smallest)
    decision.turns = turning_points(whatever, decision, supplies)
    decision.other_methods = by_other_methods(home, loads, settings, trials.assessors, supplies)
    return decision


def _document(
    home: Home,
    rules: RuleSet,
    instructions: Instructions,
    found: tuple[list[SupplyResult], Decision, list[str]],
    digest: str,
    date: str,
) -> Assessment:
    supplies, decision, brought = found
    sheets = [sheet for supply in supplies for sheet in _sheets(supply)]
    weak = {entry["what"]: entry for sheet in sheets for entry in sheet.code_values_not_verified}
    return Assessment(
        version(),
        date,
        _head(home),
        rule_set_entry(rules, home),
        fact_entries(home.facts),
        digest,
        supplies,
        decision,
        [shown(name, home.facts.glossary) for name, evidence in home.absent.items() if evidence != ASSUMED],
        list(home.not_electric),
        nothing_listed(home, instructions.usual),
        list(weak.values()),
        [
            *inputs_to_read(supplies),
            *to_be_looked_at(supplies),
            *field_page(home.supplies, instructions.to_be_read),
            *circuits_to_find(supplies),
        ],
        list(instructions.cautions),
        brought,
        instructions.basis_note,
        list(instructions.not_calculated),
        sha256(home.written.encode()).hexdigest() if home.written else digest,
        home.written,
        remarks=list(home.remarks),
    )


def _sheets(supply: SupplyResult) -> list[MethodSheet]:
    """The sheets that a supply's answer rests on: of the basis, of sizing, and those beside."""
    found = [sheet for sheet in supply.methods if supply.basis is not None and sheet.id == supply.basis.method]
    found += sheets_beside(supply)
    return [*found, *(run for sheet in found for run in sheet.runs)]


def _head(home: Home) -> dict[str, object]:
    fields = home.facts.glossary.objects["home"]
    found: dict[str, object] = {"title": home.title, "confirmed_by": home.confirmed_by}
    for name, declared in fields.items():
        value = home.facts.objects["home"][name]
        if not isinstance(value, Unknown):
            found[name] = printed.value(value, declared.kind, home.facts.glossary)
    return found


def _remarks(supply: Supply, instructions: Instructions, found: SupplyResult) -> list[str]:
    wanted = ["edition"]
    if found.sizing is not None:
        wanted.append("minimum_rating")
        if found.sizing.margin is not None:
            wanted.append("margin")
        if found.sizing.margin_is_small and found.verdict == FITS:
            wanted.insert(0, "small_margin")
        if found.sizing.conditions_taken:
            wanted.append("conditions_taken")
    if found.conditions:
        wanted.append("condition")
    if supply.kind == PART or len(supply.facts.collections["line_conductors"]) > 2:
        wanted.append("spread")
    columns = supply.facts.collections["loads"].fields
    set_lower = [at for at, basis in enumerate(columns["basis"]) if isinstance(basis, str) and basis == SETTING]
    wanted += ["setting"] if set_lower else []
    attached = [columns[ATTACHMENT][at] for at in set_lower]
    wanted += ["plugged_setting"] if any(isinstance(each, str) and each == PLUGGED for each in attached) else []
    return [instructions.remarks[name] for name in wanted if name in instructions.remarks]
