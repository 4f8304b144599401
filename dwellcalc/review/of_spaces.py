"""A comment on the breaker spaces of the panel: whether the circuits of the schedule fill them, or need more than there are."""

from __future__ import annotations

from collections.abc import Iterator

from dwellcalc.home.glossary_names import PANELS
from dwellcalc.placed import Listing, Mapping, key, place_of, text_at
from dwellcalc.review.finding import CODE, ERROR, POLICY, REMARK, Finding
from dwellcalc.review.submittal import Submittal

SPACES = "spaces"


def on_spaces(submittal: Submittal) -> Iterator[Finding]:
    """The comment, where one panel with a number of spaces is told and the poles of every circuit are known."""
    plan, spaces = submittal.instructions.review, _spaces(submittal)
    circuits = [each for each in submittal.schedule if not each.is_empty]
    poles = [each.poles * each.quantity for each in circuits if each.poles is not None]
    if plan is None or not plan.panels or spaces is None or not circuits or len(poles) < len(circuits):
        return
    taken = sum(poles)
    section = submittal.rules.section(str(submittal.rules.methods[plan.panels].source.cite))
    told = f"The circuits of the schedule take {taken:,g} breaker spaces; the panel has {spaces:,g}"
    if taken > spaces:
        text = f"{told}. That holds only where tandem breakers are listed for its spaces."
        send = "the panel's label, which says where tandem breakers may stand, or another panel"
        yield Finding("spaces", ERROR, CODE, SPACES, "Breaker spaces", text, section, send=send)
    elif taken == spaces:
        text = f"{told}. None is left: a further circuit would need another panel, or tandem breakers that are listed for it."
        yield Finding("spaces", REMARK, POLICY, SPACES, "Breaker spaces", text, section)


def with_panel(said: Mapping) -> Mapping:
    """The words of a home file with a panel in place of its breaker spaces alone."""
    spaces = said[key(SPACES)]
    panel = Mapping({text_at("name", said): text_at("panel", said), text_at(SPACES, said): spaces})
    listing = Listing([panel])
    panel.place = listing.place = place_of(spaces)
    found = Mapping({**{name: each for name, each in said.items() if name != SPACES}, text_at(PANELS, said): listing})
    found.place = said.place
    return found


def _spaces(submittal: Submittal) -> float | None:
    """The spaces of the only panel of the home."""
    panels = submittal.supply.facts.collections.get(PANELS)
    known = panels.fields[SPACES] if panels is not None and SPACES in panels.fields else []
    return known[0] if len(known) == 1 and isinstance(known[0], float) else None
