"""Labels that are abbreviations of the trade, such as DW or RNG 12 kW, with the name in full behind them, as the letter has them."""

from __future__ import annotations

from collections.abc import Iterable

from dwellcalc.language.rule_set import RuleSet
from dwellcalc.review.labels import FIRST_CLAUSE, KIND, Match, words_of
from dwellcalc.review.rows import Row


def full_names(matches: Iterable[tuple[Row, Match]], rules: RuleSet) -> dict[str, str]:
    """For each label of a load that says its kind by an abbreviation alone, what the kind is in full."""
    kinds = rules.glossary.load_kinds
    return {
        str(row.label): FIRST_CLAUSE.split(kinds[match.name].meaning)[0].strip()
        for row, match in matches
        if match.what == KIND and row.match is None and match.name in kinds and _is_short(str(row.label), match.by)
    }


def _is_short(label: str, known: str) -> bool:
    """Whether a label says a known name in short: one in capitals, or by words of which none stands there in full."""
    return (known.isupper() and known.isalpha()) or not set(words_of(known)) & set(words_of(label))
