"""A feeder that carries all that its service does, as from a meter main outside to the panel inside."""

from __future__ import annotations

from typing import Any

from dwellcalc.facts import Facts, Unknown

from .glossary_names import DISCONNECTS, IS_SERVICE, LOADS, MAIN, RATING, SUPPLY, UNITS
from .values import Said


def carrying_feeder(model: Any, facts: Facts) -> Any:
    """The feeder that carries the whole load of the service: the only one, to the only dwelling unit; nothing where there is none."""
    units, loads = facts.collections[UNITS], facts.collections[LOADS]
    if len(list(model.feeders)) != 1 or len(units.names) != 1 or units.quantity[0] != 1:
        return None
    (feeder,) = model.feeders
    systems = {str(each.value.name) for each in (feeder.system, model.service.system) if each is not None}
    said = getattr(feeder, IS_SERVICE, None)
    if not isinstance(feeder.feeds, Said) or len(systems) > 1 or (isinstance(said, Said) and said.value is True):
        return None
    return feeder if all(owner == feeder.feeds.value for owner in loads.owner) else None


def protect_by_service(feeder: Facts, service: Facts) -> bool:
    """Give a feeder without a device of its own the rating of the main of its service; whether that was done."""
    own, main = feeder.objects[SUPPLY], service.objects[SUPPLY]
    listed = not isinstance(own.get(DISCONNECTS), Unknown | type(None))
    if listed or main.get(MAIN) is False or isinstance(main[RATING], Unknown):
        return False
    if own.get(MAIN) is not False and not isinstance(own[RATING], Unknown):
        return False
    feeder.set(SUPPLY, RATING, main[RATING], service.origins.get((SUPPLY, -1, RATING)))
    if MAIN in own:
        own[MAIN] = main[MAIN]
        feeder.origins.pop((SUPPLY, -1, MAIN), None)
    return True
