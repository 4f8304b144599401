"""Loads that a submittal leaves out because they never run together with another: which of the two is the larger."""

from __future__ import annotations

from collections.abc import Iterator

from dwellcalc.decide.changed import changed
from dwellcalc.decide.document import NOTHING
from dwellcalc.evaluate import printed
from dwellcalc.home.glossary_names import LOADS
from dwellcalc.review.judged import Judged, judged
from dwellcalc.review.labels import KIND, Labels
from dwellcalc.review.looked import Looked
from dwellcalc.review.reasons import Said
from dwellcalc.review.row_lines import lines_of_load
from dwellcalc.review.submittal import Submittal

REPLACED = "replaced"


def told_apart(submittal: Submittal) -> dict[str, str]:
    """What is told of each load that is claimed to be nothing for such a reason, by its label, where the other is known."""
    return dict(_told(submittal))


def _told(submittal: Submittal) -> Iterator[tuple[str, str]]:
    for claim in submittal.claims:
        said = submittal.reasons.get(claim.label) if claim.leaves_out else None
        if said is None or not said.reason.told_of_larger:
            continue
        other = _other(submittal, said, claim.load)
        if other:
            yield claim.label, _sentence(submittal, said, claim.load, other)


def _other(submittal: Submittal, said: Said, load: str) -> str:
    """The only load that the words behind the reason name, or empty."""
    loads = submittal.supply.facts.collections[LOADS]
    behind = said.text.partition(said.found)[2]
    labels = Labels(submittal.rules, ())
    found = labels.find(behind, KIND) if behind.strip() else None
    if found is None or found.what != KIND:
        return ""
    names = [name for name, kind in zip(loads.names, loads.fields["kind"], strict=True) if kind == found.name and name != load]
    return names[0] if len(names) == 1 else ""


def _sentence(submittal: Submittal, said: Said, load: str, other: str) -> str:
    taken, alone, only = _without(submittal, ""), _without(submittal, load), _without(submittal, other)
    is_stated = taken.amperes is not None and taken.amperes == only.amperes
    larger = (only.amperes or 0) >= (alone.amperes or 0)
    then = only if larger else alone
    verdict = "" if then.verdict == NOTHING else f", {then.verdict}"
    filled = {
        "this": _amount(submittal, load),
        "other": f"{_amount(submittal, other)} of {other}",
        "then": "not known" if then.amperes is None else f"{then.amperes:,.2f} A{verdict}",
    }
    reason = said.reason
    text = reason.told_of_stated if is_stated else reason.told_of_larger if larger else reason.told_of_smaller
    for name, shown in filled.items():
        text = text.replace(f"[{name}]", shown)
    return text


def _without(submittal: Submittal, load: str) -> Judged:
    with changed(submittal.supply.facts, {(load, REPLACED): True} if load else {}):
        return judged(submittal.rules, submittal.asked)


def _amount(submittal: Submittal, load: str) -> str:
    """What a load comes to by itself, in print: on the column of the method that adds up loads of its kind."""
    looked = Looked(submittal.rules, submittal.asked)
    evaluation = looked.evaluation()
    lines = lines_of_load(submittal.rules, submittal.method, evaluation, load)
    if not lines:
        return load
    line, item = lines[-1]
    value = looked.value(evaluation, line, item)
    return load if line.kind is None else printed.value(value, line.kind, submittal.rules.glossary)
