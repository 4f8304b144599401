"""The other editions beside that of a submittal, each loaded once."""

from __future__ import annotations

from dwellcalc.language.rule_set import RuleSet, load_rules


def edition_beside(rules: RuleSet, edition: str) -> RuleSet:
    """Another edition of the same folder of rules."""
    kept = rules.kept.setdefault(f"edition {edition}", None)
    if kept is None:
        kept = rules.kept[f"edition {edition}"] = load_rules(edition, rules.folder)
    assert isinstance(kept, RuleSet)
    return kept
