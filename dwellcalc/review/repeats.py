"""Rows that stand for what other rows have: a share of one above, such as "x 125 %" or "A/C at 100 %", or "÷ 240 V" before amperes."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import replace
from math import isclose

from dwellcalc.home.glossary_names import LOADS
from dwellcalc.placed import text_at
from dwellcalc.review.claims import quantity_in
from dwellcalc.review.described_home import Describer
from dwellcalc.review.labels import KIND, words_of
from dwellcalc.review.percents import SHARE
from dwellcalc.review.rows import Row
from dwellcalc.review.steps import OF_ROW

AMOUNT_WORDS = re.compile(r"(?<=[\d\s])k?VA\b|(?<=[\d\s])k?W\b", re.IGNORECASE)
AMONG_STEPS = {"after", "and", "plus", "with", "then"}
DIVIDED = re.compile(r"\d{3}\s*V(?:AC|olts?)?\b", re.IGNORECASE)  # such as / 240 V


def with_repeats(rows: Iterable[Row], describer: Describer) -> list[Row]:
    """The rows, those marked that repeat what stands above them; one of amperes without a word at the line for these."""
    found: list[Row] = []
    for row in rows:
        if row.match is None and row.claimed is not None and not row.repeats and not describer.is_step(row):
            row = _of_amperes(row, describer) or _of_steps(row, describer) or row
            repeats = row.match is None and (_is_share_of_last(row, found, describer) or _is_load_again(row, found, describer))
            row = replace(row, repeats=repeats)
        found.append(row)
    return found


def _of_amperes(row: Row, describer: Describer) -> Row | None:
    """A row with a current, and a label of no word but that of volts, at the line for amperes."""
    kind = describer.glossary.collections[LOADS].fields["marked_amperes"].kind
    if row.claimed is None or words_of(DIVIDED.sub("", OF_ROW.sub("", row.label))) or describer.match(row) is not None:
        return None
    is_current = quantity_in(row.claimed, kind, describer.glossary) is not None and not row.claimed.strip()[-1:].isdigit()
    return (
        replace(row, match=text_at(describer.plan.of_amperes[0], row.label)) if is_current and describer.plan.of_amperes else None
    )


def _of_steps(row: Row, describer: Describer) -> Row | None:
    """A row whose label says several steps, such as 10 kVA @ 100 % + 40 % of the rest, at the line behind such steps."""
    shares = SHARE.findall(row.label)
    words = set(words_of(AMOUNT_WORDS.sub(" ", SHARE.sub(" ", OF_ROW.sub("", row.label)))))
    is_sum = len(shares) > 1 and words <= describer.steps.beside | AMONG_STEPS
    names = describer.plan.after_steps
    return replace(row, match=text_at(names[0], row.label)) if is_sum and names and row.nameplate is None else None


def _is_share_of_last(row: Row, above: Sequence[Row], describer: Describer) -> bool:
    """Whether a label says a share and nothing else, and its figure is that of the figure right above."""
    figure, share = describer.load_of(row), describer.steps.share(row)
    words = set(words_of(SHARE.sub("", OF_ROW.sub("", row.label))))
    last = next((of for each in reversed(above) if (of := describer.load_of(each)) is not None), None)
    if figure is None or share is None or last is None or not words <= describer.steps.beside:
        return False
    return isclose(figure, last * share, abs_tol=1)


def _is_load_again(row: Row, above: Sequence[Row], describer: Describer) -> bool:
    """Whether a label without a rating names the kind of a load above, with a share, and its figure is that of this load's."""
    figure, share, match = describer.load_of(row), describer.steps.share(row), describer.match(row)
    if not figure or share is None or row.nameplate is not None or match is None or match.what != KIND:
        return False
    alike = (each for each in above if (of := describer.match(each)) is not None and of.what == KIND and of.name == match.name)
    figures = (load for each in alike if (load := describer.load_of(each)) is not None)
    return any(isclose(figure, load * share, abs_tol=1) for load in figures)
