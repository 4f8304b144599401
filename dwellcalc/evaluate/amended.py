"""Which lines an amendment changed, and by what authority: printed beside the section of each line."""

from __future__ import annotations

from collections.abc import Iterable

from dwellcalc.language import tree
from dwellcalc.language.applied import Applied
from dwellcalc.language.documents import QUOTED
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.language.tree import CheckedGroup, CheckedLine

KEPT = "amended"


def changes_of(rules: RuleSet) -> dict[str, list[Applied]]:
    """The changes that amendments made, by the piece that they touch, ``document.name``; made once."""
    if KEPT not in rules.kept:
        titles = {each.title for each in rules.amendments}
        made: dict[str, list[Applied]] = {}
        for change in rules.applied:
            if change.document in titles:
                made.setdefault(".".join(change.address.split(".")[:2]), []).append(change)
        rules.kept[KEPT] = made
    found = rules.kept[KEPT]
    assert isinstance(found, dict)
    return found


def authorities(rules: RuleSet, line: CheckedLine, address: str) -> list[str]:
    """By what authority amendments changed a line, or a parameter, group or reading that it names itself."""
    changes = changes_of(rules)
    if not changes:
        return []
    texts = [_authority(rules, change) for piece in _pieces(rules, line, address) for change in changes.get(piece, ())]
    return list(dict.fromkeys(texts))


def _authority(rules: RuleSet, change: Applied) -> str:
    return rules.section(change.cite) if change.cite else change.document


def _pieces(rules: RuleSet, line: CheckedLine, address: str) -> Iterable[str]:
    """What a line names: itself, parameters in its formulas and its title, readings, groups."""
    yield address
    documents = [str(part.name) for part in rules.methods[line.method].parts]
    for match in QUOTED.finditer(line.source.title):
        owners = [name for name in documents if match[1] in rules.documents[name].parameters]
        yield from (f"{name}.{match[1]}" for name in owners)
    if line.each is not None:
        yield from _of_group(line.each)
    for whole in tree.trees_of(line):
        for node in tree.walk(whole):
            if isinstance(node, (tree.Constant, tree.ReadChoice)) and node.address:
                yield node.address
            elif isinstance(node, tree.Gather):
                yield from _of_group(node.group)


def _of_group(group: CheckedGroup) -> Iterable[str]:
    yield group.address
    for node in tree.walk(group.condition) if group.condition is not None else ():
        if isinstance(node, (tree.Constant, tree.ReadChoice)) and node.address:
            yield node.address
    for other in (*group.bases, *group.excepted):
        yield from _of_group(other)
