"""What the assessment file says of ratings that are not known: which is tried, up to what, and by which steps it is told."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass

from dwellcalc.language.defaults import single_forms
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.placed import Listing, Mapping, Text, as_list, as_text, key
from dwellcalc.problems import Problems, message
from dwellcalc.units import PERCENT, Kind, UnknownUnit

TRIAL_QUANTITY = message("trial_quantity", '"{text}" is not a quantity above zero that can stand here', "such as ... {units}")


@dataclass(frozen=True)
class RatingTrial:
    """How unknown ratings are told.

    Attributes:
        basis, field: the form of rating that is tried where one alone is missing; empty where none is.
        up_to: the largest that is tried.
        beyond: up to how much above its bounds, in percent of the upper one, a reading is told at which the outcome turns.
        steps: by unit, the step by which it is told up to what it fits.
    """

    basis: str = ""
    field: str = ""
    up_to: float = 0.0
    steps: dict[Kind, float] = dataclasses.field(default_factory=dict)
    beyond: float = 0.0


def read_rating_trial(node: Mapping, rules: RuleSet, problems: Problems) -> RatingTrial:
    """What a part of the assessment file says; its keys are checked by others."""
    units, forms = rules.glossary.units, single_forms(rules.glossary)

    def quantity(text: Text, kinds: set[Kind]) -> tuple[float, Kind] | None:
        try:
            value, kind = units.quantity(text)
        except (ValueError, UnknownUnit):
            value, kind = 0.0, ()
        if value > 0 and (not kinds or kind in kinds):
            return value, kind
        problems.add(TRIAL_QUANTITY, text.place, text=text, units=", ".join(units.printed(each) for each in forms))
        return None

    steps = {}
    for each in as_list(node.get(key("steps"), Listing()), "steps", problems):
        found = quantity(as_text(each, "a step", problems), set())
        if found is not None:
            steps[found[1]] = found[0]
    up_to = quantity(as_text(node[key("up_to")], "up_to", problems), set(forms) & set(steps)) if key("up_to") in node else None
    percent = quantity(as_text(node[key("beyond")], "beyond", problems), {PERCENT}) if key("beyond") in node else None
    beyond = percent[0] if percent is not None else 0.0
    if up_to is None:
        return RatingTrial(steps=steps, beyond=beyond)
    basis, name = forms[up_to[1]]
    return RatingTrial(basis, name, up_to[0], steps, beyond)
