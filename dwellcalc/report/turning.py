"""What an answer turns on: the edition, local amendments, readings of the code, facts of the house that are not verified."""

from __future__ import annotations

from math import isclose

from dwellcalc.decide.choices import BY_HOME
from dwellcalc.decide.document import (
    FITS,
    NOTHING,
    Assessment,
    InterpretationResult,
    NotVerified,
    OptionResult,
    SupplyResult,
    WithoutAmendments,
)
from dwellcalc.decide.edition_answers import EditionAnswer
from dwellcalc.evaluate.printed import number
from dwellcalc.placed import spaced
from dwellcalc.report.tables import Block, Paragraph, Table
from dwellcalc.report.unknowns import at_largest, settings_in_words
from dwellcalc.report.wording import AS_HOME_SAYS, lowered


def turning_blocks(supply: SupplyResult) -> list[Block]:
    """What the verdict turns on: local amendments, readings of the code, facts that are not verified."""
    blocks = _amendments_turn(supply)
    blocks += [Paragraph(_interpretation_flips(each)) for each in supply.interpretations if each.flips and supply.between is None]
    blocks += [Paragraph(_conductors_turn(each)) for each in supply.interpretations if _asks_for_others(each)]
    blocks += _with_continuous(supply)
    return blocks + [
        Paragraph(f"The verdict turns on a fact that is not verified. {not_verified_text(each, supply)}.")
        for each in supply.facts_not_verified
        if each.flips and each.short not in [marked.meaning for marked in supply.otherwise]
    ]


def _with_continuous(supply: SupplyResult) -> list[Block]:
    """What it means that the load passes the capacity with its continuous part taken higher, as circuits take it, where it fits."""
    sizing = supply.sizing
    if supply.verdict != FITS or sizing is None or sizing.with_continuous is None or sizing.capacity is None:
        return []
    if not sizing.with_continuous_passes:
        return []
    more = f"{sizing.with_continuous:,.2f} A, over the {number(sizing.capacity)} A of the supply"
    return [
        Paragraph(
            f"With the continuous load, such as charging, counted higher as a circuit has it, it would be {more}. {NOT_ASKED}"
        )
    ]


NOT_ASKED = "The supply of a whole dwelling need not hold that, and the verdict does not; a building department may ask for it."
NOT_CONFIRMED = (
    ", and nobody has confirmed yet that it is the edition adopted here: the building department says; "
    "`--editions` tells whether another one gives another verdict."
)


def edition_blocks(found: Assessment, supply: SupplyResult) -> list[Block]:
    """That the verdict hangs on the edition, where others give another one and nobody has confirmed which is adopted."""
    if found.home["confirmed_by"]:
        return []  # a table beside the other methods tells it
    verdicts = dict.fromkeys(each.verdict for each in supply.editions)
    if not verdicts:
        return [Paragraph(f"{found.rule_set['title']} alone was calculated{NOT_CONFIRMED}")]
    if len(verdicts) < 2:
        return []
    told = [
        f"{verdict} by {', '.join(each.edition for each in supply.editions if each.verdict == verdict)}" for verdict in verdicts
    ]
    adopted = "Nobody has confirmed yet which edition is adopted: the building department says."
    return [Paragraph(f"The verdict hangs on the edition: {'; '.join(told)}. {adopted}")]


def edition_table(supply: SupplyResult, *, wide: bool = False) -> list[Block]:
    """What every edition gives, the largest settings that fit under it, and what makes the difference to that of the sheet.

    Args:
        supply: the supply.
        wide: whether there is room for the method of each.
    """
    if not supply.editions:
        return []
    own = next((each.edition for each in supply.editions if each.own), "")
    settings = any(each.settings is not None and each.verdict != NOTHING for each in supply.editions)
    usual = next((each.method for each in supply.editions if each.own), "")
    one = not wide or all(each.method == usual or each.method in because_in_words(each) for each in supply.editions)
    column = wide and not one
    by = f", by the {lowered(usual)}" if wide and one and usual else ""
    rows = []
    for each in supply.editions:
        name = f"{each.edition} (here)" if each.own else each.edition
        carried = "-" if each.amperes is None else f"{each.amperes:,.2f} A"
        suits = ["-" if each.verdict == NOTHING else settings_in_words(each.settings)] if settings else []
        rows.append([name, *([each.method] if column else []), carried, each.verdict, *suits, because_in_words(each)])
    head = [
        "Edition",
        *(["Method"] if column else []),
        "Load",
        "Verdict",
        *(["Largest settings that fit"] if settings else []),
        f"Why it is not as by {own}",
    ]
    return [
        Table(
            f"What every edition gives, with the settings that are counted{by}{at_largest(supply)}",
            head,
            rows,
            ["left", *(["left"] if column else []), "right"],
        )
    ]


def _readings_carried(found: EditionAnswer) -> list[str]:
    """The readings that the home chose, and what the edition's own would give."""
    if not found.readings:
        return []
    many = "s" if found.readings[1:] else ""
    return [
        f"with the reading{many} that the home chose ({', '.join(found.readings)}); by that edition's own {found.by_own_readings}"
    ]


def because_in_words(found: EditionAnswer) -> str:
    """What makes the difference of an edition to that of the sheet."""
    return "\n".join([*_readings_carried(found), *found.because]) or ("" if found.own else "nothing that differs here")


def _amendments_turn(supply: SupplyResult) -> list[Block]:
    """That the answer turns on the local amendments, if it does."""
    found = supply.without_amendments
    if found is None or not (found.turns or found.asked) or supply.between is not None or supply.basis is None:
        return []
    asked = " What falls short is asked by them alone." if found.asked else ""
    if not found.turns:
        return [Paragraph(f"The answer turns on the local amendments.{asked}")]
    what = f"The {', the '.join(found.turns)} turns on the local amendments"
    return [Paragraph(f"{what}: without them {answered(found, supply.basis.title)}.{asked}")]


def answered(found: WithoutAmendments, usual: str) -> str:
    """What the answer is without the local amendments."""
    if found.amperes is None:
        return "no method may be used and gives a result"
    rating = f", a rating of {found.minimum_rating:,.0f} A" if found.verdict == NOTHING and found.minimum_rating else ""
    return f"{found.amperes:,.2f} A{by_another(found.by, usual)}, {found.verdict}{rating}"


def _interpretation_flips(found: InterpretationResult) -> str:
    taken = next(option for option in found.options if option.taken)
    others = [option for option in found.options if (option.verdict, _new(option)) != (taken.verdict, _new(taken))]
    shown = "; ".join(_option(option, taken.by, taken.capacity) for option in others)
    mine = _option(taken, taken.by)
    turns = "The rating of a new supply" if taken.verdict == NOTHING else "The verdict"
    by = f", {AS_HOME_SAYS}" if found.chosen_by == BY_HOME else ""
    return f"{turns} turns on an interpretation ({found.cite}). {found.question} Taken{by}: {mine}. Otherwise: {shown}."


def _asks_for_others(found: InterpretationResult) -> bool:
    """Whether the supply conductors, not seen, must be others by another reading."""
    return len({option.conductors for option in found.options}) > 1


def _conductors_turn(found: InterpretationResult) -> str:
    shown = [
        f"{spaced(option.option)}{', taken' if option.taken else ''} ({option.conductors or 'not calculated'} or larger)"
        for option in found.options
    ]
    what = f"What the supply conductors, not seen, must be turns on an interpretation ({found.cite})"
    return f"{what}. {found.question} Readings: {'; '.join(shown)}."


def _new(option: OptionResult) -> float | None:
    """The rating of a new supply under an option, where there is nothing else to compare."""
    return option.minimum_rating if option.verdict == NOTHING else None


def by_another(title: str, usual: str) -> str:
    """The method's name in a sentence, where it is not the usual one."""
    return "" if title in ("", usual) else f" by the {lowered(title)}"


def _option(option: OptionResult, usual: str, capacity: float | None = None) -> str:
    shown = "no method may be used and gives a result"
    if option.amperes is not None:
        new = _new(option)
        answer = option.verdict if new is None else f"a rating of {new:,.0f} A"
        if new is None and capacity is not None and option.capacity is not None and not isclose(option.capacity, capacity):
            answer += f" against {number(option.capacity)} A"
        shown = f"{option.amperes:,.2f} A{by_another(option.by, usual)}, {answer}"
        if option.settings is not None:
            shown += "" if option.verdict == NOTHING else f"; largest setting that fits: {settings_in_words(option.settings)}"
    return f"{spaced(option.option)} ({shown})"


def not_verified_text(found: NotVerified, supply: SupplyResult) -> str:
    """A fact not verified, with the load if it were otherwise; where it holds of every load, they are not named."""
    every = len(found.items) > 1 and {load.name for load in supply.loads} == set(found.items)
    text = f"{'every load' if every else ', '.join(found.items)}: {found.text}" if found.items else found.text
    verdicts = dict(each.split(": ", 1) for each in found.flips)
    shown = []
    for word, value in found.otherwise.items():
        by = f" by the {lowered(found.by[word])}" if word in found.by else ""
        amperes = "cannot be calculated" if value is None else f"{value:,.2f} A{by}"
        shown.append(f"{word}: {amperes}{', ' + verdicts[word] if word in verdicts else ''}")
    return f"{text}; if otherwise - {'; '.join(shown)}" if shown else text
