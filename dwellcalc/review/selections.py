"""Rows that take over the larger of the figures above them, and headings of a group of rows: neither is a load of its own."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import takewhile

from dwellcalc.decide.review_plan import ReviewPlan
from dwellcalc.home.glossary_names import LOADS
from dwellcalc.placed import text_at
from dwellcalc.review.described_home import Describer
from dwellcalc.review.labels import IN_BRACKETS, KIND, LINE, WRITTEN, Labels, Match, kind_in, words_of
from dwellcalc.review.looked import Looked
from dwellcalc.review.phrases import Phrases
from dwellcalc.review.rows import Row
from dwellcalc.review.steps import OF_ROW
from dwellcalc.review.submittal import Submittal
from dwellcalc.review.sum_places import SumPlaces

ENDS_HEADING = ":"


def with_selections(rows: Iterable[Row], describer: Describer) -> list[Row]:
    """The rows, those that select the larger of heating and cooling above them matched with the line for it.

    One that takes over the larger of other figures is a row without a figure, for it adds nothing to them.

    Args:
        rows: those of a submittal, with what their labels say, in the order of the page.
        describer: what tells of what a row is.
    """
    found: list[Row] = []
    for row in rows:
        found.append(_selected(row, found, describer) if selects(row, describer.plan) else row)
    return found


def selects(row: Row, plan: ReviewPlan) -> bool:
    """Whether the label of a row says that the larger is taken, and nothing else."""
    said = plan.selection
    if said is None or any(each is not None for each in (row.match, row.nameplate, row.quantity)) or row.claimed is None:
        return False
    words = set(words_of(row.label))
    telling, beside = ({word for each in names for word in words_of(each)} for names in (said.words, said.beside))
    return bool(words & telling) and words <= telling | beside


def is_heading(row: Row, plan: ReviewPlan, labels: Labels) -> bool:
    """Whether a row without a figure heads those below it: a name of a group, or a label before a colon that names no one kind."""
    if any(each is not None for each in (row.match, row.nameplate, row.claimed, row.quantity, row.note, row.facts)):
        return False
    groups, telling = ((), ()) if plan.selection is None else (plan.selection.groups, plan.selection.words)
    label = IN_BRACKETS.sub(lambda found: " " if set(words_of(found[0])) & set(telling) else found[0], OF_ROW.sub("", row.label))
    words = tuple(word for word in words_of(label) if word not in telling)  # HVAC (greater of) heads as HVAC does
    if words in {words_of(each) for each in groups}:
        return True
    match = labels.find(row.label, KIND) if row.label.rstrip().endswith(ENDS_HEADING) else None
    of_one_kind = match is not None and match.what == KIND and match.how == WRITTEN
    return row.label.rstrip().endswith(ENDS_HEADING) and not of_one_kind


def leave_out_repeats(made: Submittal, rows: Iterable[Row], plan: ReviewPlan) -> None:
    """Take rows that only repeat the larger of those above them out of the claims, where the line for it holds more than that.

    By the standard calculation that line holds the largest motor too, which a sheet may have in a row of its own.
    """
    said = plan.selection
    at = {str(row.claimed.place): row.label for row in rows if row.claimed is not None and _is_selected(row, plan)}
    if said is None or not at:
        return
    places, loads = SumPlaces(Looked(made.rules, made.asked)), made.supply.facts.collections[LOADS]
    kinds = dict(zip(loads.names, map(str, loads.fields["kind"]), strict=True))
    for number, claim in reversed(list(enumerate(made.claims))):
        above = made.claims[:number]
        beside = list(takewhile(lambda each: kinds.get(each.load, "") in said.kinds, reversed(above)))
        figures = [each.value for each in beside if isinstance(each.value, float)]
        if claim.place in at and figures and claim.value == max(figures) and not places.is_met(claim, above):
            made.claims.remove(claim)
            made.own_sums.append(at[claim.place])


def _is_selected(row: Row, plan: ReviewPlan) -> bool:
    """Whether a row was matched with the line for the larger by its words."""
    return plan.selection is not None and row.match == plan.selection.line and selects(replace(row, match=None), plan)


def is_asked_about(row: Row, plan: ReviewPlan, labels: Labels) -> bool:
    """Whether a row without a figure is asked about: it names a load, and is no heading of several."""
    if Phrases(plan.plugged).are_in(row.label):
        return False
    return bool(kind_in(row.label, labels) or labels.may_be(row.label)) and not is_heading(row, plan, labels)


def _selected(row: Row, above: Sequence[Row], describer: Describer) -> Row:
    """A row that selects the larger of those above it, at the line for it where they are of heating and cooling."""
    said = describer.plan.selection
    candidates = _candidates(row, above, describer)
    if said is None or not candidates:
        return row
    at_line = replace(row, match=text_at(said.line, row.label))
    line = describer.match(at_line) if all(match.name in said.kinds for _, match in candidates) else None
    if line is not None and line.what == LINE:
        return at_line
    figure = describer.load_of(row)
    alike = figure is not None and any(describer.load_of(each) == figure for each, _ in candidates)
    return replace(row, claimed=None) if alike else row


def _candidates(row: Row, above: Sequence[Row], describer: Describer) -> list[tuple[Row, Match]]:
    """The loads right above a row: those of heating and cooling where the nearest is one, else those up to one of its figure."""
    said, figure = describer.plan.selection, describer.load_of(row)
    found: list[tuple[Row, Match]] = []
    for each in reversed(above):
        match = None if describer.is_step(each) else describer.match(each)
        if match is None or match.what != KIND or (each.claimed is None and each.nameplate is None):
            break
        if found and said is not None and (match.name in said.kinds) != (found[0][1].name in said.kinds):
            break
        found.append((each, match))
        if said is not None and match.name not in said.kinds and len(found) > 1 and describer.load_of(each) == figure:
            break
    return found
