"""Keys of a submittal that hold a text for each of several names: what sizing is given, and what is shown."""

from __future__ import annotations

from collections.abc import Collection

from dwellcalc.language.rule_set import RuleSet
from dwellcalc.placed import Mapping, as_mapping, as_text, key
from dwellcalc.problems import Problems, message, nearest_name
from dwellcalc.review.schedule_reader import SCHEDULE_KEY
from dwellcalc.units import UnknownUnit

SUBMITTAL_GIVEN = message("submittal_given", '"{text}" is no quantity')
EVIDENCE_KEY = message("evidence_key", 'there is nothing to be shown that is called "{key}"', "one of: {known}")


def refuse_unknown(node: Mapping, own: Collection[str], others: Collection[str], problems: Problems) -> None:
    """Note every key that stands in no submittal.

    Args:
        node: the submittal.
        own: the keys of a submittal, which are listed.
        others: further keys that may stand in one, such as those of a home file.
        problems: where they are noted.
    """
    for name in node:
        if name not in own and name not in others:
            near = nearest_name(name, [*own, *others])
            problems.add(SCHEDULE_KEY, name.place, key=name, what="a submittal", known=", ".join(own), nearest=near)


def given_in(node: Mapping, rules: RuleSet, problems: Problems) -> dict[str, float]:
    """What sizing is given, by name, instead of the load of a method; what is wrong is noted."""
    found = {}
    entries = as_mapping(node[key("given")], "given", problems) if "given" in node else Mapping()
    for name, value in entries.items():
        text = as_text(value, name, problems)
        try:
            found[str(name)] = rules.glossary.units.quantity(text)[0]
        except (ValueError, UnknownUnit):
            problems.add(SUBMITTAL_GIVEN, text.place, text=text)
    return found


def evidence_in(node: Mapping, known: Collection[str], problems: Problems) -> dict[str, str]:
    """What the submittal shows, by what it is for; what is wrong is noted."""
    found = {}
    entries = as_mapping(node[key("evidence")], "evidence", problems) if "evidence" in node else Mapping()
    for name, value in entries.items():
        meant = "_".join(name.replace("-", " ").split())
        if meant not in known:
            near = nearest_name(meant, known)
            problems.add(EVIDENCE_KEY, name.place, key=name, known=", ".join(sorted(known)), nearest=near)
        found[meant] = str(as_text(value, name, problems))
    return found
