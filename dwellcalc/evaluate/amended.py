"""Which lines an amendment changed, and by what authority: printed beside the section of each line."""

from __future__ import annotations

from dwellcalc.language.applied import Applied
from dwellcalc.language.documents import QUOTED
from dwellcalc.language.reach import addresses_in
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.language.tree import CheckedLine

KEPT = "amended"


def changes_of(rules: RuleSet) -> dict[str, list[Applied]]:
    """The changes that amendments made, by the piece that they touch, ``document.name``; made once."""
    if KEPT not in rules.kept:
        titles = {each.title for each in rules.amendments}
        made: dict[str, list[Applied]] = {}
        for change in rules.applied:
            if change.document in titles:
                made.setdefault(change.piece, []).append(change)
        rules.kept[KEPT] = made
    found = rules.kept[KEPT]
    assert isinstance(found, dict)
    return found


def authorities(rules: RuleSet, line: CheckedLine) -> list[str]:
    """By what authority amendments changed a line, or a parameter, group, reading or table that it names itself."""
    changes = changes_of(rules)
    if not changes:
        return []
    named = dict.fromkeys([*addresses_in(line), *_quoted(rules, line)])
    texts = [_authority(rules, change) for piece in named for change in changes.get(piece, ())]
    return list(dict.fromkeys(texts))


def _authority(rules: RuleSet, change: Applied) -> str:
    return rules.section(change.cite) if change.cite else change.document


def _quoted(rules: RuleSet, line: CheckedLine) -> list[str]:
    """The parameters in a line's title."""
    documents = [str(part.name) for part in rules.methods[line.method].parts]
    names = [match[1] for match in QUOTED.finditer(line.source.title)]
    return [f"{each}.{name}" for name in names for each in documents if name in rules.documents[each].parameters]
