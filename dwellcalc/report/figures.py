"""The figures of the first page: what must be carried, the supply, what a new one would need, and what is calculated beside."""

from __future__ import annotations

from dwellcalc.decide.document import FITS, NOTHING, Assessment, BesideAnswer, SupplyResult
from dwellcalc.decide.sizing_result import SizingResult
from dwellcalc.evaluate.printed import number
from dwellcalc.report.decision_pages import decision_rows
from dwellcalc.report.pictures.supply_words import is_there, of_material
from dwellcalc.report.record_pages import record_in_short
from dwellcalc.report.tables import Table
from dwellcalc.report.turning import answered, by_another
from dwellcalc.report.unknowns import at_largest
from dwellcalc.report.wording import and_verdict, lowered

STATE, TO_BE_INSTALLED, EXISTING = "state", "to be installed", "existing"  # of a supply, in print
NOTED = "Noted"
SERVICE = "service"  # the kind of the supply that is not a feeder


def figures(found: Assessment, supply: SupplyResult, sizing: SizingResult) -> Table:
    """The figures of the answer."""
    assert supply.basis is not None
    rows = [["Supply", f"{supply.title}, {supply.system}"]]
    served = supply.record is not None and supply.record.serves == supply.basis.method
    rows.append(["Existing and added load" if served else "Calculated load", f"{supply.total:,.0f} VA"])
    rows += _amperes(supply, sizing)
    rows += record_in_short(supply.record) if supply.record is not None else []
    if supply.before is not None:
        rows.append(
            [
                "Without what is planned",
                f"{supply.before.amperes:,.2f} A{by_another(supply.before.by, supply.basis.title)}{and_verdict(supply.before.verdict)}",
            ]
        )
    rows += _without_amendments(supply)
    if sizing.capacity is not None:
        rows.append(["Capacity of the supply", f"{number(sizing.capacity)} A, by the {lowered(sizing.weakest)}"])
        rows += [["Why that capacity", f"{text}."] for text in sizing.because]
    if sizing.margin is not None:
        dropped = "; the fraction under one half is dropped" if supply.verdict == FITS and sizing.margin < 0 else ""
        rows.append(["Margin", f"{sizing.margin:,.2f} A{dropped}"])
    if len(found.supplies) == 1:
        rows += decision_rows(found)
    rows += _if_new(supply)
    rows += _ahead_of_main(supply) + _beside(supply)
    return Table(f"Figures{at_largest(supply)}" if supply.between is not None else "", ["", ""], rows, ["left", "left"])


def _ahead_of_main(supply: SupplyResult) -> list[list[str]]:
    """What is to stand ahead of the main of a supply to be installed, under what it is called."""
    told = [text.partition(": ") for beside in supply.beside for text in beside.ahead_of_main]
    return [[what, text] for what, _, text in told if supply.to_be_installed]


def _beside(supply: SupplyResult) -> list[list[str]]:
    """What is calculated beside; of a supply that is there nothing that is for conductors to be chosen. What holds is a sentence."""
    shown = [each for beside in supply.beside for each in beside.answers if not (beside.of_new and is_there(supply))]
    holds = [f"{each.title}." for each in shown if each.value is True and ": " not in each.title]
    return [
        *(_told(each) for each in shown if each.value is not True or ": " in each.title),
        *([[NOTED, " ".join(holds)]] if holds else []),
    ]


def _told(answer: BesideAnswer) -> list[str]:
    """A result beside the load; where its title has a sentence after a colon and it is so, that sentence."""
    if isinstance(answer.value, int | float) and answer.value < 0:
        return [answer.title, f"none, {-answer.value:g} are missing"]
    head, colon, sentence = answer.title.partition(": ")
    return [head, f"{sentence}."] if colon and answer.value is True else [answer.title, answer.printed]


def _if_new(supply: SupplyResult) -> list[list[str]]:
    """What a new supply would need, by the least of the methods that may size one."""
    new, rows = supply.new_supply, []
    if new is None or supply.basis is None:
        return []
    if new.minimum_rating is not None:
        offered = _offered(new.minimum_rating, new.offered_rating) if supply.kind == SERVICE else ""
        worst = "; the worst case, what is not known at its largest" if supply.between is not None else ""
        rated = f"{new.minimum_rating:,.0f} A{by_another(new.by, supply.basis.title)}{offered}{worst}"
        rows.append([minimum_title(supply), rated])
    if new.conductors:
        shown = of_material(supply, new.conductors)
        by = by_another(new.by, supply.basis.title)
        rows.append([f"Smallest conductors for {new.minimum_rating or 0:,.0f} A", f"{shown}{by and ','}{by}"])
        rows += _for_the_main(supply, new.minimum_rating or 0)
    return rows


def _offered(minimum: float, offered: float | None) -> str:
    """That a minimum rating is commonly offered, or that it is only a standard one, with the next that is."""
    if not offered or offered == minimum:
        return " (commonly offered)" if offered else ""
    return f" (the next standard rating; the next that is commonly offered is {offered:,.0f} A)"


def _for_the_main(supply: SupplyResult, least: float) -> list[list[str]]:
    """The conductors of a supply to be installed with more than the least rating, or what the load above asks for that passes it."""
    sizing, rating = supply.sizing, supply.rating
    chosen = rating is not None and supply.stated.get(STATE) == TO_BE_INSTALLED
    if sizing is None or supply.basis is None or rating is None or not chosen or not sizing.conductors:
        return []
    shown = of_material(supply, sizing.conductors)
    asked = sizing.minimum_rating
    if asked is not None and asked > max(rating, least):
        by = f" by the {lowered(supply.basis.title)}"
        return [[f"Minimum rating{by}", f"{asked:,.0f} A"], [f"Smallest conductors for {asked:,.0f} A{by}", shown]]
    return [[f"Smallest conductors for the main overcurrent device of {rating:,.0f} A", shown]] if rating > least else []


def minimum_title(supply: SupplyResult) -> str:
    """What the minimum rating is called: of a supply that is there it is told for the case that it were replaced."""
    what = "Minimum rating of the service" if supply.kind == SERVICE else "Minimum rating of the feeder"
    return what if supply.verdict == NOTHING or supply.stated.get(STATE) == TO_BE_INSTALLED else f"{what}, if it were new"


def _amperes(supply: SupplyResult, sizing: SizingResult) -> list[list[str]]:
    """What must be carried; where that is more than the load, both."""
    load = next(each.amperes for each in supply.results if each.basis)
    carried = f"{sizing.amperes_nearest:,.0f} A ({sizing.amperes:,.2f} A unrounded)"
    if load == sizing.amperes:
        return [["In amperes", carried]]
    added = [lowered(title) for title in sizing.additions]
    return [["In amperes", f"{load:,.2f} A"], ["What is added to it", "; ".join(added)], ["With what is added to it", carried]]


def _without_amendments(supply: SupplyResult) -> list[list[str]]:
    """The answer without the local amendments, where there are any."""
    found = supply.without_amendments
    if found is None or supply.basis is None:
        return []
    return [["Without the local amendments", answered(found, supply.basis.title)]]
