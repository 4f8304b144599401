"""The keys of a submittal file that answer the questions of a review; they are for the reviewer, and in no letter."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from dwellcalc.home.glossary_names import LOADS, UNITS
from dwellcalc.placed import spaced
from dwellcalc.review.finding import EVIDENCE, QUESTION, REMARK, Finding
from dwellcalc.review.of_evidence import NAMEPLATES, TAKEN
from dwellcalc.review.submittal import Submittal
from dwellcalc.review.suspects import READING

IN_ROW, IN_CIRCUIT, IN_SCOPE = "in the row", "in its entry of `panel_schedule:`", "in `scope:`"
AT, AND = " at ", " and "
ANSWERS = {  # by how the id of a question begins, the longest that fits
    "method not named": "`method:`",
    "edition not named": "`edition:`",
    f"{EVIDENCE}ratings": f"`nameplate:` {IN_ROW}",
    f"{EVIDENCE}{NAMEPLATES}": f"`evidence: {{nameplates: ...}}`, or `evidence:` {IN_ROW}",
    "not matched: ": f"`match:` {IN_ROW}",
    "not sure: ": f"`match:` {IN_ROW}",
    "row": f"`nameplate:` {IN_ROW}, with `claimed:`",
    "later: ": f"`note:` and `claimed:` {IN_ROW}",
    "note: ": "`notes:`",
    "removed": "`freed:`, such as `freed: [A/C 30/2]`, or the entries of `panel_schedule:` with `note: removed`",
    "removed: ": f"`status:` {IN_ROW}",
    "taken as there already": f"`status: planned` {IN_ROW}",
    "schedule": f"`loads:` {IN_CIRCUIT}",
    "scope": f"the label of the row, {IN_SCOPE}",
    "plausible: ": f"`nameplate:` and `evidence:` {IN_ROW}, or `notes:`",
    "spaces": "`freed:`, such as `freed: [A/C 30/2]`",
    "rating ": f"`nameplate:` {IN_ROW}",
}


def with_answers(findings: Iterable[Finding], submittal: Submittal) -> list[Finding]:
    """The findings, each question with the key that answers it, where one does."""
    return [replace(each, answered_by=_by_reading(each) or _answered(each, submittal)) for each in findings]


def _by_reading(finding: Finding) -> str:
    """The entry by which the code is read as the submittal reads it, of a comment that one reading alone explains."""
    address, _, option = finding.id.removeprefix(f"{READING} ").partition(AT)[0].partition("=")
    name = spaced(address.partition(".")[2])
    is_one = finding.about == READING and finding.severity == REMARK and AND not in option
    return f"`interpretations: {{{name}: {option}}}` reads the code as the submittal does, without this comment" if is_one else ""


def _answered(finding: Finding, submittal: Submittal) -> str:
    return _answered_by(finding, submittal) if finding.severity == QUESTION else ""


def _answered_by(finding: Finding, submittal: Submittal) -> str:
    fits = [begin for begin in ANSWERS if finding.id.startswith(begin)]
    if finding.id.startswith(TAKEN):
        return _number_taken(finding.id.removeprefix(TAKEN), submittal)
    if fits:
        return ANSWERS[max(fits, key=len)]
    if finding.id.startswith(EVIDENCE):
        return f"`evidence: {{{finding.id.removeprefix(EVIDENCE)}: ...}}`"
    facts = _states(finding, submittal)
    return f"`facts: {{{facts}}}` {IN_ROW}" if facts else ""


def _number_taken(told: str, submittal: Submittal) -> str:
    fields = submittal.rules.glossary.collections[UNITS].fields.values()
    return next((f"`{each.name}:`" for each in fields if told.startswith(f"{each.meaning}:")), "")


def _states(finding: Finding, submittal: Submittal) -> str:
    """The facts of a load that say of it what a control does."""
    plan = next((each for each in submittal.instructions.alternatives if each.keeps_apart and each.title == finding.title), None)
    kinds = submittal.rules.glossary.collections[LOADS].fields
    told = {} if plan is None else {spaced(name): value for name, value in plan.set_to.items() if name in kinds}
    return ", ".join(f"{name}: {'yes' if value is True else value}" for name, value in told.items())
