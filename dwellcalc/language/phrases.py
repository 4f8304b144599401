"""Phrases of tiers, in the book's own form: ``35 % of the next 117000 VA``, ``1000 W for each further 90 m2 or part``."""

from __future__ import annotations

import re
from dataclasses import dataclass

from dwellcalc.placed import Text
from dwellcalc.problems import fail, message
from dwellcalc.units import PERCENT, Kind, Units, UnknownUnit

NOT_A_PHRASE = message(
    "phrase",
    '"{text}" is not a phrase of tiers',
    "such as `... % of the first ... VA`, `... % of the rest`, `... VA for each further ... or part`",
)
PHRASE_QUANTITY = message("phrase_quantity", '"{text}" is not a number with a unit')
FURTHER_ROUNDS = message("phrase_further", '"each further" must say how it rounds', "add `or part` or `or major fraction`")
SHARE_IS_PERCENT = message("phrase_share", '"{text}" is no share', "`of` takes a percent; an amount goes with `for`")

_PHRASE = re.compile(
    r"(?P<amount>.+?) (?P<word>of|for) (?P<portion>the first|the next|each further|the rest)(?: (?P<step>.+?))?"
    r"(?P<rounds> or part| or major fraction)?\Z"
)
FIRST, NEXT, FURTHER, REST = "the first", "the next", "each further", "the rest"
PART, MAJOR = "or part", "or major fraction"


@dataclass(frozen=True)
class Phrase:
    """One tier.

    Attributes:
        text: as it stands.
        amount, kind: the percent, or the amount for the portion, with its kind.
        shares: true for `of` (a percent of the portion), false for `for` (an amount for it).
        portion: the first, the next, each further, or the rest.
        step, step_kind: the size of the portion; 0 for the rest.
        rounds: `or part`, `or major fraction`, or empty.
    """

    text: Text
    amount: float
    kind: Kind
    shares: bool
    portion: str
    step: float
    step_kind: Kind
    rounds: str


def parse_phrase(text: Text, units: Units) -> Phrase:
    """A phrase of tiers.

    Raises:
        InputError: it is none; the problem says what is wrong.
    """
    match = _PHRASE.match(text)
    if match is None or (match["portion"] == REST) == bool(match["step"]):
        fail(NOT_A_PHRASE, text.place, text=text)
    rounds = (match["rounds"] or "").strip()
    if match["portion"] == FURTHER and not rounds:
        fail(FURTHER_ROUNDS, text.place)
    if match["portion"] == FIRST and rounds or match["portion"] == NEXT and rounds == MAJOR:
        fail(NOT_A_PHRASE, text.place, text=text)
    amount, kind = _quantity(text, match["amount"], units)
    step, step_kind = _quantity(text, match["step"], units) if match["step"] else (0.0, ())
    if match["step"] and step <= 0:
        fail(NOT_A_PHRASE, text.place, text=text)
    shares = match["word"] == "of"
    if shares and kind != PERCENT or shares and rounds:
        fail(SHARE_IS_PERCENT, text.place, text=match["amount"])
    return Phrase(text, amount, kind, shares, match["portion"], step, step_kind, rounds)


def _quantity(text: Text, part: str, units: Units) -> tuple[float, Kind]:
    try:
        return units.quantity(part)
    except (ValueError, UnknownUnit):
        start = text.find(part)
        fail(PHRASE_QUANTITY, text.at(max(0, start), len(part)), text=part)
