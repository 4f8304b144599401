"""Numbers of circuits that a submittal does not state, but that its figures or its panel schedule confirm."""

from __future__ import annotations

from dwellcalc.home.glossary_names import UNITS
from dwellcalc.review.behind import counts_behind
from dwellcalc.review.looked import Looked, line_of
from dwellcalc.review.submittal import Submittal


def confirm_counts(submittal: Submittal) -> None:
    """Hold a number that was taken for stated where a figure agrees with it, or the panel schedule lists such circuits."""
    fields = submittal.supply.facts.collections[UNITS].fields
    known = submittal.rules.glossary.collections[UNITS].fields
    values = Looked(submittal.rules, submittal.asked).values(submittal.claims)
    agreeing = [claim for claim in submittal.claims if claim.met_by(values[claim.at])]
    lines = [line for claim in agreeing if (line := line_of(submittal.rules, claim.line)) is not None]
    behind = [counts_behind(line, submittal.rules.glossary) for line in lines]
    found = {each[0] for each in behind if len(each) == 1}
    found |= {each.general.said for each in submittal.schedule if each.general is not None and each.general.said}
    submittal.taken = [each for each in submittal.taken if not any(each.startswith(f"{known[name].meaning}:") for name in found)]
    submittal.counts_said = submittal.counts_said | {name for name in found if name in fields}
