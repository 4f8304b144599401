"""Which readings of a feed belong to which reading type, meter reading and usage point.

Links decide, as opaque texts: a "related" one may name a resource or the collection that it is in, which appears
nowhere but as the "up" of its members. Without links it is plain only where there is one of what could be meant.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from dwellcalc.meter.feeds.espi_feed import BLOCK, METER_READING, READING_TYPE, USAGE_POINT, Feed, Resource
from dwellcalc.problems import fail, message

NO_READINGS = message(
    "espi_no_readings", 'the file "{name}" is an ESPI feed that holds no readings', "download it again with interval data in it"
)
NO_READING_TYPE = message(
    "espi_no_reading_type",
    'the file "{name}" does not say what its readings are: it has no reading type',
    "download the whole feed",
)
AMBIGUOUS = message(
    "espi_ambiguous",
    'the file "{name}" does not link {what}, and there are {count} of them',
    "a feed with one meter alone needs no links; or ask for a feed with its links",
)


@dataclass(slots=True)
class Series:
    """The blocks of one meter reading and what the feed says of them; without a meter reading or usage point where it has none."""

    reading_type: Resource
    meter_reading: Resource | None
    usage_point: Resource | None
    blocks: list[Resource] = field(default_factory=list)


class Links:
    """What belongs together in a feed.

    Args:
        feed: what was read.
        name: what the user calls the file.
    """

    def __init__(self, feed: Feed, name: str) -> None:
        self.feed, self.name = feed, name
        kinds = feed.resources
        self.meter_readings = _Linked(kinds[METER_READING], name, "every block of readings to its meter reading")
        self.types = _Linked(kinds[READING_TYPE], name, "every meter reading to its reading type")
        self.points = _Linked(kinds[USAGE_POINT], name, "every meter reading to its usage point")

    def series(self) -> list[Series]:
        """Every series of readings of the feed, in the order of their first blocks.

        Raises:
            InputError: there are no readings or no reading type, or a link is missing where several could be meant.
        """
        blocks = [block for block in self.feed.resources[BLOCK] if block.end > block.first]
        if not blocks:
            fail(NO_READINGS, name=self.name)
        if not self.types.resources:
            fail(NO_READING_TYPE, name=self.name)
        found: dict[int, Series] = {}
        for block in blocks:
            owner = self.meter_readings.of(block)
            key = id(owner) if owner else 0
            if key not in found:
                found[key] = self._new_series(owner)
            found[key].blocks.append(block)
        return list(found.values())

    def usage_point_of(self, resource: Resource | None) -> Resource | None:
        """The usage point that something belongs to; the only one where nothing is linked.

        Raises:
            InputError: it is not linked, and there are several.
        """
        return self.points.of(resource or Resource(""))

    def _new_series(self, owner: Resource | None) -> Series:
        reading_type = self.types.named_by(owner or Resource("")) or self.types.of(owner or Resource(""))
        assert reading_type is not None  # there is one, so none found is ambiguous
        return Series(reading_type, owner, self.usage_point_of(owner))


class _Linked:
    """Resources of one kind, by the links that lead to them."""

    def __init__(self, resources: Iterable[Resource], name: str, what: str) -> None:
        self.name, self.what = name, what
        self.resources = _different(resources)
        self.leading: dict[str, list[Resource]] = {}
        for resource in self.resources:
            for href in dict.fromkeys((resource.own, *resource.related)):
                if href:
                    self.leading.setdefault(href, []).append(resource)

    def of(self, member: Resource) -> Resource | None:
        """The one to which ``member`` belongs, or nothing where there is none of this kind.

        Raises:
            InputError: no link tells which of several, or links tell several.
        """
        if not self.resources:
            return None
        for hrefs in ((member.own,), member.ups, member.related):
            found = _different(each for href in hrefs for each in self.leading.get(href, ()))
            if len(found) == 1:
                return found[0]
            if found:
                break
        if len(self.resources) > 1:
            fail(AMBIGUOUS, name=self.name, what=self.what, count=len(self.resources))
        return self.resources[0]

    def named_by(self, owner: Resource) -> Resource | None:
        """The one that a link of ``owner`` names, itself or as the only one of its collection."""
        hrefs = set(owner.related)
        found = [each for each in self.resources if each.own and each.own in hrefs]
        found = found or [each for each in self.resources if hrefs.intersection(each.ups)]
        return found[0] if len(found) == 1 else None


def _different(resources: Iterable[Resource]) -> list[Resource]:
    """Without the repetitions of a resource that pages of a feed make."""
    found: list[Resource] = []
    seen: set[object] = set()
    for resource in resources:
        key = (resource.own, *sorted(resource.fields.items())) if resource.own else id(resource)
        if key not in seen:
            seen.add(key)
            found.append(resource)
    return found
