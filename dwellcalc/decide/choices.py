"""The interpretations that a home or a command chooses, checked against the rule set."""

from __future__ import annotations

from collections.abc import Mapping

from dwellcalc.evaluate.amended import changes_of
from dwellcalc.language.documents import Interpretation
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.placed import Text
from dwellcalc.problems import Problems, message, nearest_name

NO_INTERPRETATION = message("no_interpretation", 'there is no interpretation "{name}" in {edition}', "interpretations: {known}")
NO_OPTION = message("no_option", '"{option}" is not an option of "{name}"', "options: {known}")

BY_HOME = "the home file"


def interpretations(rules: RuleSet) -> dict[str, Interpretation]:
    """Every interpretation of a rule set, by its address."""
    return {
        f"{document.name}.{name}": found
        for document in rules.documents.values()
        for name, found in document.interpretations.items()
    }


def chosen_by(rules: RuleSet, choices: Mapping[str, str], address: str) -> str:
    """Who chose an option: the home file, the default, or a local amendment that changes that."""
    if address in choices:
        return BY_HOME
    return "a local amendment" if address in changes_of(rules) else "default"


def chosen(rules: RuleSet, wanted: Mapping[Text, Text], problems: Problems) -> dict[str, str]:
    """The chosen options by address; a name may be short where it is the only one, spaces stand for underscores."""
    known = interpretations(rules)
    found: dict[str, str] = {}
    for name, option in wanted.items():
        address = _address(known, name.strip().replace(" ", "_"))
        if address is None:
            short = [each.partition(".")[2] for each in known]
            near = nearest_name(name.replace(" ", "_"), [*(each for each in short if short.count(each) == 1), *known])
            shown = ", ".join(short)
            problems.add(NO_INTERPRETATION, name.place, name=name, edition=rules.title, known=shown, nearest=near)
            continue
        word = option.strip().replace(" ", "_")
        options = known[address].options
        if word not in options:
            near = nearest_name(word, options)
            problems.add(NO_OPTION, option.place, option=option, name=name, known=", ".join(options), nearest=near)
            continue
        found[address] = word
    return found


def _address(known: Mapping[str, Interpretation], name: str) -> str | None:
    if name in known:
        return name
    matching = [address for address in known if address.partition(".")[2] == name]
    return matching[0] if len(matching) == 1 else None
