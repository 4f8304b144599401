"""What a single-line diagram says of a supply: its main, its conductors, its grounding."""

from __future__ import annotations

from collections.abc import Mapping

from dwellcalc.decide.circuit_results import OUT_OF_ORDER
from dwellcalc.decide.document import BesideAnswer, SupplyResult

NOT_GIVEN = "not given"
SERVICE = "service"
STATE, THERE = "state", "existing"
ELECTRODE, GROUNDING, BONDING = "electrode", "grounding", "bonding"


def is_there(supply: SupplyResult) -> bool:
    """Whether the home file says that the supply exists."""
    return supply.stated.get(STATE) == THERE


def main_of(supply: SupplyResult) -> str:
    """The main overcurrent device of a supply, or the disconnects in its place, in words."""
    stated = supply.stated
    if supply.protected_by_service:
        return f"No device of its own: protected by the main of the service, {stated.get('rating', NOT_GIVEN)}"
    together, number = stated.get("disconnects"), stated.get("number of disconnects")
    if together:
        return f"{number or 'several'} disconnects in place of a main, {together} together"
    return rated("Main overcurrent device", supply, "rating")


def rated(what: str, supply: SupplyResult, name: str) -> str:
    """What a part of a supply is rated, in words."""
    rating = supply.stated.get(name)
    return f"{what}: rating {NOT_GIVEN}" if rating is None else f"{what} {rating}"


def conductors_of(supply: SupplyResult) -> str:
    """The supply conductors in words."""
    stated = supply.stated
    size = stated.get("conductor size")
    if size is None:
        return f"Conductors: size {NOT_GIVEN}"
    sets = stated.get("conductor sets")
    several = f"{sets} sets of " if sets not in (None, "1") else ""
    more = [size, stated.get("conductor material", ""), stated.get("conductor insulation", "")]
    return f"Conductors {several}{' '.join(each for each in more if each)}"


def grounding_of(supply: SupplyResult) -> str:
    """The grounding electrode conductor, or of a feeder the equipment grounding conductor, in words."""
    answers = [answer for each in supply.beside for answer in each.answers if answer.drawn]
    usual = ELECTRODE if supply.kind == SERVICE else GROUNDING
    wanted = sorted((each for each in answers if each.drawn != BONDING), key=lambda answer: answer.drawn != usual)
    if wanted:
        return _required(wanted[0], supply)
    return f"{'Grounding electrode' if supply.kind == SERVICE else 'Equipment grounding'} conductor {NOT_GIVEN}"


def bonding_of(supply: SupplyResult) -> list[str]:
    """The main bonding jumper in words, where it was calculated."""
    return [_required(each, supply) for beside in supply.beside for each in beside.answers if each.drawn == BONDING]


def _required(answer: BesideAnswer, supply: SupplyResult) -> str:
    """A conductor by its smallest size; of a supply that is there nobody has seen it."""
    if not is_there(supply):
        return f"{answer.title} {answer.printed}"
    return f"{answer.title}: at least {answer.printed} required, not seen"


def ahead_of_main(supply: SupplyResult) -> list[str]:
    """What stands ahead of the main overcurrent device, in words."""
    return [text for each in supply.beside for text in each.ahead_of_main]


def sizes(listed: Mapping[str, str]) -> str:
    """Sizes with their headings, in a line."""
    shown = [f"{size} {heading[:1].lower()}{heading[1:]}" for heading, size in listed.items() if size not in OUT_OF_ORDER]
    return " or ".join(shown)
