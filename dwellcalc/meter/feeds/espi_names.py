"""What the user calls the meters of a feed: by the titles of usage points, and by more where these do not tell them apart."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from dwellcalc.meter.feeds.espi_feed import USAGE_POINT, Feed
from dwellcalc.meter.feeds.espi_links import Series


def point_names(feed: Feed) -> dict[int, str]:
    """The name of each usage point, by its identity; its title, or its own link where titles repeat or are missing."""
    points = feed.resources[USAGE_POINT]
    titles = Counter(title for title, _ in {(point.title, point.own) for point in points})
    return {id(point): point.title if point.title and titles[point.title] == 1 else point.own for point in points}


def named(found: Sequence[tuple[Series, str]], points: dict[int, str]) -> list[str]:
    """A name for each series, so that no two of one direction have the same.

    Args:
        found: the series, each with its direction.
        points: the names of the usage points.
    """
    first = [points.get(id(series.usage_point), "") if series.usage_point else "" for series, _ in found]
    titles = [series.meter_reading.title if series.meter_reading else "" for series, _ in found]
    links = [series.meter_reading.own if series.meter_reading else "" for series, _ in found]
    places = [str(place) for place, _ in enumerate(found, start=1)]
    names = first
    for further in (titles, links, places):
        repeated = Counter((name, direction) for name, (_, direction) in zip(names, found, strict=True))
        if max(repeated.values(), default=0) <= 1:
            break
        names = [", ".join(each for each in pair if each) for pair in zip(names, further, strict=True)]
    return names
