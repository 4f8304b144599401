"""The assessment of a home under a rule set."""

from __future__ import annotations

from importlib import metadata

from dwellcalc.decide.choices import chosen
from dwellcalc.decide.document import DOES_NOT_FIT, Assessment, SupplyResult
from dwellcalc.decide.instructions import Instructions, read_instructions
from dwellcalc.decide.listing import fact_entries, field_page, load_entries
from dwellcalc.decide.supply import SupplyAssessor
from dwellcalc.decide.verification import not_verified
from dwellcalc.evaluate import printed
from dwellcalc.facts import Unknown, spaced
from dwellcalc.home import Home
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.problems import Problems, fail, message, nearest_name

SETTING = "setting"
NO_METHOD = message("assess_no_method", 'the assessment tries no method "{name}"', "methods: {known}")


def version() -> str:
    """The version of the package, or a word for a checkout that is not installed."""
    try:
        return metadata.version("dwellcalc")
    except metadata.PackageNotFoundError:
        return "not installed"


def assess(home: Home, rules: RuleSet, *, date: str, method: str = "") -> Assessment:
    """Assess a home: every method that the assessment file names, the basis, the supply, and what was not verified.

    Args:
        home: the home as read.
        rules: the rule set in effect.
        date: the date of the calculation, year-month-day.
        method: the method of the basis where one is asked for by name.

    Raises:
        InputError: an interpretation or the method is not known, or the rules count a load of this home never or twice.
    """
    instructions = read_instructions(rules)
    if method and method not in instructions.methods:
        known = ", ".join(instructions.methods)
        fail(NO_METHOD, name=method, known=known, nearest=nearest_name(method, instructions.methods))
    problems = Problems()
    choices = chosen(rules, home.interpretations, problems)
    problems.raise_if_any()
    assessor = SupplyAssessor(rules, instructions, home, choices)
    return _document(home, rules, instructions, assessor, assessor.assess(method), home.date or date)


def _document(
    home: Home, rules: RuleSet, instructions: Instructions, assessor: SupplyAssessor, supply: SupplyResult, date: str
) -> Assessment:
    facts = home.facts
    sizing = supply.sizing
    weak = [entry for sheet in supply.methods for entry in sheet.code_values_not_verified]
    weak += sizing.sheet.code_values_not_verified if sizing is not None else []
    return Assessment(
        version(),
        date,
        _head(home),
        {"id": rules.id, "title": rules.title, "digest": rules.digest, "rests_on": list(rules.chain), "amendments": []},
        fact_entries(facts),
        facts.digest(),
        [supply],
        load_entries(home),
        [spaced(kind) for kind in home.absent],
        _remarks(home, instructions, supply),
        not_verified(assessor, supply),
        list({entry["what"]: entry for entry in weak}.values()),
        field_page(facts),
        list(instructions.cautions),
        list(instructions.checklist) if supply.verdict == DOES_NOT_FIT else [],
        instructions.basis_note,
        list(instructions.not_calculated),
    )


def _head(home: Home) -> dict[str, object]:
    fields = home.facts.glossary.objects["home"]
    found: dict[str, object] = {"title": home.title, "confirmed_by": home.confirmed_by}
    for name, declared in fields.items():
        value = home.facts.objects["home"][name]
        if not isinstance(value, Unknown):
            found[name] = printed.value(value, declared.kind, home.facts.glossary)
    return found


def _remarks(home: Home, instructions: Instructions, supply: SupplyResult) -> list[str]:
    wanted = []
    if supply.sizing is not None:
        wanted.append("minimum_rating")
        if supply.sizing.margin is not None:
            wanted.append("margin")
        if supply.sizing.conductors_suffice is False:
            wanted.insert(0, "conductors_short")
    if home.settings or SETTING in home.facts.collections["loads"].fields["basis"]:
        wanted.append("setting")
    return [instructions.remarks[name] for name in wanted if name in instructions.remarks]
