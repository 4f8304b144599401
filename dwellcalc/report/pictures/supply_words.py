"""What a single-line diagram says of a supply: its main, its conductors, its grounding."""

from __future__ import annotations

from collections.abc import Mapping

from dwellcalc.decide.circuit_results import OUT_OF_ORDER
from dwellcalc.decide.document import DOES_NOT_FIT, BesideAnswer, SupplyResult
from dwellcalc.report.wording import lowered

NOT_GIVEN = "not given"
SERVICE = "service"
STATE, THERE = "state", "existing"
ELECTRODE, GROUNDING, BONDING, AT_MAIN = "electrode", "grounding", "bonding", "at_main"
OTHER_ELECTRODES = ("electrode_encased", "electrode_rod")  # to which the conductor may be smaller
NEUTRALS = ("neutral", "neutral_too")  # of either material
TO_BE_CHOSEN = "to be chosen"
ELSEWHERE = "Where the disconnect outside is the service disconnect, the grounding electrode conductor and the main bonding jumper belong there, not here"


def is_there(supply: SupplyResult) -> bool:
    """Whether the home file says that the supply exists."""
    return supply.stated.get(STATE) == THERE


def main_of(supply: SupplyResult) -> str:
    """The main overcurrent device of a supply, or the disconnects in its place, in words."""
    stated = supply.stated
    if supply.protected_by_service:
        return f"No device of its own: protected by the main of the service, {stated.get('rating', NOT_GIVEN)}"
    if supply.carries_all and supply.to_be_installed and "rating" not in stated:
        return f"No device of its own: protected by the main of the service, {TO_BE_CHOSEN}"
    together, number = stated.get("disconnects"), stated.get("number of disconnects")
    if together:
        return f"{number or 'several'} disconnects in place of a main, {together} together"
    if supply.to_be_installed and "rating" not in stated and (least := _least(supply)):
        return f"Main overcurrent device: {TO_BE_CHOSEN}, at least {least}"
    return rated("Main overcurrent device", supply, "rating")


def rated(what: str, supply: SupplyResult, name: str) -> str:
    """What a part of a supply is rated, in words."""
    rating = supply.stated.get(name)
    if rating is None and supply.to_be_installed:
        return f"{what}: {TO_BE_CHOSEN}"
    return f"{what}: rating {NOT_GIVEN}" if rating is None else f"{what} {rating}"


def conductors_of(supply: SupplyResult) -> str:
    """The supply conductors in words."""
    stated = supply.stated
    size = stated.get("conductor size")
    if size is None and supply.to_be_installed and (chosen := _to_be_chosen(supply)):
        return f"Conductors: {TO_BE_CHOSEN}, not smaller than {chosen}"
    if size is None:
        return f"Conductors: size {NOT_GIVEN}"
    sets = stated.get("conductor sets")
    several = f"{sets} sets of " if sets not in (None, "1") else ""
    more = [size, stated.get("conductor material", ""), stated.get("conductor insulation", "")]
    return f"Conductors {several}{' '.join(each for each in more if each)}"


def _least(supply: SupplyResult) -> str:
    """The rating that a supply to be installed must have, in print."""
    least = supply.new_supply.minimum_rating if supply.new_supply is not None else None
    return "" if least is None else f"{least:,.0f} A"


def _to_be_chosen(supply: SupplyResult) -> str:
    """The smallest conductors of a supply to be installed, for its main or for the least that it must have."""
    stated = supply.stated.get("rating", "")
    listed = supply.sizing if stated else supply.new_supply
    shown = of_material(supply, listed.conductors) if listed is not None else ""
    return f"{shown} for {stated or _least(supply)}" if shown else ""


def of_material(supply: SupplyResult, conductors: Mapping[str, str]) -> str:
    """Sizes by material, in words; of a supply to be installed those of the material that is chosen, where one is."""
    of = supply.stated.get("conductor material", "") if not is_there(supply) else ""
    return " or ".join(f"{size} {name}" for name, size in conductors.items() if of in ("", name) or of not in conductors)


def neutral_of(supply: SupplyResult) -> list[str]:
    """The neutral conductor in words, where it was calculated."""
    first, *more = _drawn(supply, *NEUTRALS) or [""]
    return [" or ".join([first, *map(lowered, more)])] if first else []


def at_main(supply: SupplyResult) -> list[str]:
    """What the main overcurrent device is at the same time, in words."""
    return [each.title for beside in supply.beside for each in beside.answers if each.drawn == AT_MAIN and each.value is True]


def _drawn(supply: SupplyResult, *roles: str) -> list[str]:
    return [_required(each, supply) for beside in supply.beside for each in beside.answers if each.drawn in roles]


def grounding_of(supply: SupplyResult) -> str:
    """The grounding electrode conductor, or of a feeder the equipment grounding conductor, in words."""
    answers = [answer for each in supply.beside for answer in each.answers if answer.drawn]
    usual = ELECTRODE if supply.kind == SERVICE else GROUNDING
    wanted = sorted((each for each in answers if each.drawn in (ELECTRODE, GROUNDING)), key=lambda answer: answer.drawn != usual)
    if wanted:
        return _required(wanted[0], supply)
    if supply.kind == SERVICE and (others := _drawn(supply, *OTHER_ELECTRODES)):
        return "; ".join(others)
    return f"{'Grounding electrode' if supply.kind == SERVICE else 'Equipment grounding'} conductor {NOT_GIVEN}"


def bonding_of(supply: SupplyResult) -> list[str]:
    """The main bonding jumper in words, where it was calculated."""
    return _drawn(supply, BONDING)


def _required(answer: BesideAnswer, supply: SupplyResult) -> str:
    """A conductor by its smallest size; of a supply that is there nobody has seen it."""
    if not is_there(supply):
        return f"{answer.title} {answer.printed}"
    if supply.verdict == DOES_NOT_FIT:  # then it is sized for a supply that suffices
        return f"{answer.title}: not seen; with a supply that suffices at least {answer.printed}"
    return f"{answer.title}: at least {answer.printed} required, not seen"


def ahead_of_main(supply: SupplyResult) -> list[str]:
    """What stands ahead of the main overcurrent device, in words."""
    return [text for each in supply.beside for text in each.ahead_of_main]


def service_disconnect_of(supply: SupplyResult) -> list[str]:
    """Where the grounding electrode conductor belongs if what stands ahead of the main is the service disconnect."""
    return [ELSEWHERE] if ahead_of_main(supply) else []


def sizes(listed: Mapping[str, str]) -> str:
    """Sizes with their headings, in a line."""
    shown = [f"{size} {heading[:1].lower()}{heading[1:]}" for heading, size in listed.items() if size not in OUT_OF_ORDER]
    return " or ".join(shown)
