"""What a letter says of the outcome: the load as it was recomputed, whether the supply suffices, and what that rests on."""

from __future__ import annotations

from dwellcalc.decide.document import DOES_NOT_FIT, FITS
from dwellcalc.report.letter_ends import of_conductors
from dwellcalc.report.wording import lowered, numbered
from dwellcalc.review.document import Review
from dwellcalc.review.of_later import LATER
from dwellcalc.review.of_open import OPEN_RATING
from dwellcalc.review.of_supply import ID_OF_CONDUCTORS

SUPPLY_CONDUCTORS = "the supply conductors"
LEAST = 0.005  # [A] of a difference that is printed


def corrected(found: Review) -> str:
    """What the load comes to, and whether the service suffices, with every figure as it was recomputed."""
    answer = found.answer
    if answer.total is None or answer.amperes is None:
        return "From what was submitted the load cannot be calculated."
    begin = "With the figures corrected" if found.put_right is not None else "As recomputed,"
    reserve = numbered("comment", [str(number) for number, each in enumerate(found.findings, 1) if each.about == OPEN_RATING])
    least = " at least " if reserve else " "
    told = [f"{begin} the calculated load is{least}{answer.total:,.0f} VA, {answer.amperes:,.2f} A."]
    required = answer.amperes_required
    if required is not None and abs(required - answer.amperes) >= LEAST:
        told.append(f"The supply must carry {required:,.2f} A.")
    if answer.rating is not None:
        said = {FITS: " and suffices for this load", DOES_NOT_FIT: " and does not suffice for this load"}
        outcome = said.get(answer.verdict, "; whether it suffices is open")
        dropped = answer.verdict == FITS and (required or answer.amperes) > answer.rating
        fraction = "; a fraction of an ampere under one half is dropped" if dropped else ""
        told.append(f"The {lowered(str(found.submittal['supply']))} is rated {answer.rating:,g} A{outcome}{fraction}.")
        told += _with_conductors(found)
    told += _with_struck(found)
    if _together_alone(found):
        told.append("No correction alone changes the outcome; together they do.")
    turning = [each for each in found.readings if each.turns and not each.in_comment]
    if turning:
        told.append(
            f"This stands under the reading{'s' if len(turning) > 1 else ''} of the code told below{' the comments' if found.findings else ''}."
        )
    if reserve:
        more = "; it suffices with what is typical of such a load as well" if answer.verdict == FITS else ""
        told.append(f"These figures are without a load of which no rating is shown, {reserve}{more}.")
    if not_counted(found):
        told.append(f"Not counted is what is said to come later or to be by others, {not_counted(found)}.")
    return " ".join(told)


def _with_conductors(found: Review) -> list[str]:
    """Whether it suffices with the supply conductors that are asked for, in a sentence."""
    asked = found.conductors
    if asked is None or found.answer.verdict != DOES_NOT_FIT:
        return []
    told = {FITS: "it suffices", DOES_NOT_FIT: "it does not suffice either"}.get(asked.verdict, "whether it suffices is open")
    return [f"With the supply conductors corrected, {of_conductors(found)}, {told}."]


def _with_struck(found: Review) -> list[str]:
    """The load and the outcome with what the reviewer has struck as submitted, where that is another, in sentences."""
    step = found.with_struck
    if step is None:
        return []
    said = {FITS: "suffices", DOES_NOT_FIT: "does not suffice"}.get(step.verdict, "may suffice; that is open")
    told = f"We take {struck_in_print(found)} as submitted; the load is then {step.total:,.0f} VA, {step.amperes:,.2f} A"
    rests = ". The outcome rests on this" if step.verdict != found.answer.verdict else ""
    return [f"{told}, and the {lowered(str(found.submittal['supply']))} {said}{rests}."]


def struck_in_print(found: Review) -> str:
    """What of the submittal is taken as it stands although a comment on it was to be made."""
    of_figures = (f'"{each.finding.printed_title}"' for each in found.struck if each.finding.figures)
    conductors = (SUPPLY_CONDUCTORS for each in found.struck if each.finding.id == ID_OF_CONDUCTORS)
    return " and ".join([*of_figures, *conductors])


def _together_alone(found: Review) -> bool:
    """Whether the comments on figures change the verdict together, and none of them by itself."""
    made = found.put_right
    if made is None or not several(found) or any(each.changes_verdict for each in found.findings):
        return False
    if found.conductors is not None:  # the verdicts of the steps are with other conductors
        return False
    return {made.steps[0].verdict, made.steps[-1].verdict} == {FITS, DOES_NOT_FIT}


def not_counted(found: Review) -> str:
    """The comments on what is said to come later or to be of others and is not counted, by number, or empty."""
    return numbered("comment", [str(number) for number, each in enumerate(found.findings, 1) if each.about == LATER])


def several(found: Review) -> bool:
    """Whether there are several comments on figures, so that the effect of one is not that of all."""
    return found.put_right is not None and len(found.put_right.steps) > len(("as submitted", "put right"))


def beside(comment: str) -> str:
    """A comment by its number, behind a comma."""
    return f", {comment}" if comment else ""
