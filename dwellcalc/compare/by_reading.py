"""The interpretations that a home's result rests on: what each method gives under each option, and on which line."""

from __future__ import annotations

from dwellcalc.compare.attribution import difference, shares
from dwellcalc.compare.document import OptionAt, Reading, ReadingByMethod, SupplyComparison
from dwellcalc.compare.looks import Look, MethodLook, Subject, look
from dwellcalc.compare.subjects import Prepared, choices_in
from dwellcalc.decide.choices import chosen_by, interpretations
from dwellcalc.decide.instructions import read_instructions
from dwellcalc.decide.method_names import assessor_under
from dwellcalc.decide.supply import SupplyAssessor
from dwellcalc.evaluate.traced import Evaluation, plan_of
from dwellcalc.language.documents import Interpretation
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.progress import Progress, silent


def by_reading(subject: Prepared, rules: RuleSet, progress: Progress = silent) -> list[SupplyComparison]:
    """Every supply of a home under each option of every interpretation that its result or a method's rests on.

    ``progress`` is told each question.
    """
    choices = choices_in(subject.home, rules)
    pairs = zip(subject.subjects, subject.looks(rules), strict=True)
    return [
        _supply(each, (assessor_under(subject.home, each.supply, rules, read_instructions(rules), choices), taken), progress)
        for each, taken in pairs
    ]


def _supply(subject: Subject, of: tuple[SupplyAssessor, Look], progress: Progress) -> SupplyComparison:
    (assessor, taken), supply = of, subject.supply
    made = SupplyComparison(supply.id, supply.title, supply.kind, [taken.told()])
    read = {address for each in taken.methods.values() for address in each.read_choices} | taken.read_by_sizing
    for address, interpretation in interpretations(assessor.rules).items():
        if address not in read:
            continue
        progress(f"{supply.title}, question {len(made.readings) + len(made.same) + 1} of {len(read)}")
        reading, matters = _reading(subject, taken, assessor, (address, interpretation))
        if matters:
            made.readings.append(reading)
        else:
            made.same.append(reading.question)
    return made


def _reading(subject: Subject, taken: Look, assessor: SupplyAssessor, of: tuple[str, Interpretation]) -> tuple[Reading, bool]:
    """An interpretation with the looks under its options, and whether anything differs."""
    address, interpretation = of
    rules, choices = assessor.rules, assessor.choices
    effective = Evaluation(plan_of(rules), subject.supply.facts, choices).choices[address]
    looks = {
        option: taken if option == effective else look(subject, assessor.under({**choices, address: option}))
        for option in interpretation.options
    }
    document = rules.documents[address.partition(".")[0]]
    says = {name: plan_of(rules).filled(option.says, document) for name, option in interpretation.options.items()}
    methods = [
        ReadingByMethod(
            name, each.title, [_option(option, says[option], each, looks[option].methods[name], effective) for option in looks]
        )
        for name, each in taken.methods.items()
        if each.amperes is not None or any(other.methods[name].amperes is not None for other in looks.values())
    ]
    answers = [
        {"option": option, "basis": each.title(), "amperes": each.required, "verdict": each.verdict}
        for option, each in looks.items()
    ]
    question = plan_of(rules).filled(interpretation.question, document)
    by = chosen_by(rules, choices, address)
    made = Reading(address, question, rules.section(str(interpretation.cite)), by, methods, answers)
    matters = len({_outcome(each) for each in looks.values()}) > 1
    return made, matters


def _option(option: str, says: str, taken: MethodLook, other: MethodLook, effective: str) -> OptionAt:
    is_taken = option == effective
    lines = [] if is_taken else shares(taken, other)
    why = [] if other.amperes is not None else other.why
    return OptionAt(option, says, is_taken, other.amperes, difference(taken, other), lines, why)


def _outcome(found: Look) -> tuple[object, ...]:
    methods = tuple((name, each.amperes, each.may) for name, each in sorted(found.methods.items()))
    return (found.verdict, found.basis, found.required, methods)
