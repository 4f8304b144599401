"""A question on loads that are taken as there already, where the load would be another were they planned."""

from __future__ import annotations

from collections.abc import Iterator

from dwellcalc.decide.changed import changed
from dwellcalc.decide.document import NOTHING
from dwellcalc.home.glossary_names import LOADS
from dwellcalc.review.finding import POLICY, QUESTION, Finding
from dwellcalc.review.judged import Judged, judged
from dwellcalc.review.labels import listed
from dwellcalc.review.row_status import PLANNED
from dwellcalc.review.submittal import Submittal

STATUS = "status"


def on_status(submittal: Submittal) -> Iterator[Finding]:
    """The question, where a table says of no load what it is, and one of them planned makes the load another."""
    loads = submittal.supply.facts.collections[LOADS]
    rows = (*submittal.load_rows.values(), *(each.row for each in submittal.open_loads))
    told = [row for row in rows if row.status is not None]
    if told or PLANNED in loads.fields[STATUS]:
        return
    taken = judged(submittal.rules, submittal.asked)
    other = {name: found for name in loads.names if _differs(found := _if_planned(submittal, [name]), taken)}
    if not other:
        return
    together = _if_planned(submittal, list(other))
    verdict = "" if together.verdict == NOTHING else f", {together.verdict}"
    load = (
        "" if together.amperes is None else f" Were all of these planned, the load would be {together.amperes:,.2f} A{verdict}."
    )
    yield Finding(
        "taken as there already",
        QUESTION,
        POLICY,
        STATUS,
        "Which loads are new is not said",
        f"No row says what is to be installed, so all loads are taken as there already: {listed(other)}.{load}",
        send="which of these are new",
        verdict_before=taken.verdict,
        verdict_after=together.verdict,
    )


def _if_planned(submittal: Submittal, names: list[str]) -> Judged:
    with changed(submittal.supply.facts, {(name, STATUS): PLANNED for name in names}):
        return judged(submittal.rules, submittal.asked)


def _differs(one: Judged, other: Judged) -> bool:
    return one.amperes != other.amperes
