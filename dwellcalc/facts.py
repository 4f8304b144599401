"""What is known of a home, by glossary name: each value known, between two bounds, or unknown, with its place and evidence.

The values stand in plain columns, one list for each field of a collection, so that an evaluation reads them by index.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from dwellcalc.glossary import Glossary
from dwellcalc.placed import spaced
from dwellcalc.problems import Place


class Unknown:
    """A value that cannot be had: an input was not given, or a table has no row.

    Whatever is made of it is unknown too, and names all inputs that are missing and all refusals.
    """

    __slots__ = ("inputs", "refusals")

    def __init__(self, inputs: Iterable[str] = (), refusals: Iterable[str] = ()) -> None:
        self.inputs = frozenset(inputs)
        self.refusals = frozenset(refusals)

    def joined(self, other: Unknown) -> Unknown:
        """Both, with all that is missing."""
        return Unknown(self.inputs | other.inputs, self.refusals | other.refusals)

    def _with(self, other: object) -> Any:
        if isinstance(other, Unknown):
            return self.joined(other)
        if isinstance(other, NotApplicable):
            return other
        return self

    __add__ = __radd__ = __sub__ = __rsub__ = __mul__ = __rmul__ = __truediv__ = __rtruediv__ = _with
    __lt__ = __le__ = __gt__ = __ge__ = _with
    __eq__ = _with
    __ne__ = _with
    __hash__ = None  # type: ignore[assignment]

    def __bool__(self) -> bool:
        raise TypeError("an unknown value is neither true nor false")

    def __repr__(self) -> str:
        return f"Unknown({sorted(self.inputs | self.refusals)})"


class NotApplicable:
    """The value of a line that does not apply; in a formula it makes the whole not applicable."""

    __slots__ = ()

    def _itself(self, other: object) -> NotApplicable:
        return self

    __add__ = __radd__ = __sub__ = __rsub__ = __mul__ = __rmul__ = __truediv__ = __rtruediv__ = _itself
    __lt__ = __le__ = __gt__ = __ge__ = _itself
    __eq__ = _itself  # type: ignore[assignment]
    __ne__ = _itself  # type: ignore[assignment]
    __hash__ = None  # type: ignore[assignment]

    def __bool__(self) -> bool:
        raise TypeError("a value that is not applicable is neither true nor false")

    def __repr__(self) -> str:
        return "NOT_APPLICABLE"


NOT_APPLICABLE = NotApplicable()


@dataclass(frozen=True, slots=True)
class Between:
    """A quantity of which only bounds are known, both in, and perhaps what is typical; it has no arithmetic of its own.

    A calculation takes one value of it, or goes through bounds: ``evaluate/bounds``.
    """

    low: float
    high: float
    typical: float | None = None


Input = tuple[str, int, str]  # a collection, the position of an item, a field


@dataclass(frozen=True)
class Origin:
    """Where a value comes from.

    ``written`` is the text as it stands in the home file; ``assumed`` says that nobody stated it (a flag taken
    `unless said`); ``evidence`` is a word of the glossary, or empty.
    """

    written: str = ""
    place: Place | None = None
    evidence: str = ""
    assumed: bool = False


@dataclass
class Items:
    """The items of a collection in file order: names, quantities, owner positions (-1: the home itself), columns."""

    names: list[str] = field(default_factory=list)
    quantity: list[float] = field(default_factory=list)
    owner: list[int] = field(default_factory=list)
    fields: dict[str, list[Any]] = field(default_factory=dict)

    def __len__(self) -> int:
        return len(self.names)


@dataclass
class Facts:
    """All facts that one supply of a home is calculated from.

    Attributes:
        objects: for each object of the glossary, its fields' values.
        collections: for each collection, its items.
        connected: for each collection that loads are connected to, each item's loads as (position, count).
        chosen: the interpretations that were chosen, by full name.
        origins: (object or collection, position or -1, field) -> where the value comes from.
        method: the method that the home file asks for, as written, or an empty string.
    """

    glossary: Glossary
    objects: dict[str, dict[str, Any]] = field(default_factory=dict)
    collections: dict[str, Items] = field(default_factory=dict)
    connected: dict[str, list[list[tuple[int, float]]]] = field(default_factory=dict)
    chosen: dict[str, str] = field(default_factory=dict)
    origins: dict[tuple[str, int, str], Origin] = field(default_factory=dict)
    method: str = ""

    @classmethod
    def empty(cls, glossary: Glossary) -> Facts:
        """Facts in which every object is unknown and every collection is empty."""
        facts = cls(glossary)
        for name, fields in glossary.objects.items():
            facts.objects[name] = {each: Unknown([f"{name}: {spaced(each)}"]) for each in fields}
        for name, collection in glossary.collections.items():
            facts.collections[name] = Items(fields={each: [] for each in collection.fields})
            if name in {on for other in glossary.collections.values() for on in other.on}:
                facts.connected[name] = []
        return facts

    def set(self, owner: str, name: str, value: Any, origin: Origin | None = None) -> None:
        """Give an object's field a value."""
        self.objects[owner][name] = value
        if origin is not None:
            self.origins[owner, -1, name] = origin

    def add(
        self,
        collection: str,
        name: str,
        values: dict[str, Any],
        *,
        owner: int = -1,
        quantity: float = 1.0,
        origins: dict[str, Origin] | None = None,
    ) -> int:
        """Add an item; what ``values`` leaves out is unknown. Returns its position."""
        items = self.collections[collection]
        position = len(items)
        items.names.append(name)
        items.quantity.append(quantity)
        items.owner.append(owner)
        for each, column in items.fields.items():
            column.append(values[each] if each in values else Unknown([self._label(collection, name, each)]))
        for each, origin in (origins or {}).items():
            self.origins[collection, position, each] = origin
        if collection in self.connected:
            self.connected[collection].append([])
        return position

    def part(
        self,
        kept: Mapping[str, Sequence[int]],
        lines: Mapping[str, Sequence[str]],
        *,
        apart: Collection[str] = (),
        once: Collection[str] = (),
    ) -> Facts:
        """The facts of another supply that feeds some of the items of this one.

        An item whose owner is not kept belongs to the home itself. A load stays connected where all its lines are there
        by name, and where it is known how many of it are on them; else it is connected to none.

        Args:
            kept: collection -> the positions of the items that it keeps, ascending; none where it is not named.
            lines: for each collection that loads are connected to, the names of this supply's own items.
            apart: the objects that are this supply's own, and so unknown still.
            once: the collections of which it feeds one item where several equal ones stand.
        """
        part = Facts.empty(self.glossary)
        part.chosen, part.method = dict(self.chosen), self.method
        part.objects |= {owner: dict(fields) for owner, fields in self.objects.items() if owner not in apart}
        places = {name: {old: new for new, old in enumerate(positions)} for name, positions in kept.items()}
        for name, positions in kept.items():
            part.collections[name] = self._kept(name, positions, places, name in once)
            if name in part.connected:
                part.connected[name] = [[] for _ in positions]
        for (owner, position, name), origin in self.origins.items():
            if position < 0 and owner not in apart:
                part.origins[owner, position, name] = origin
            elif position in places.get(owner, ()):
                part.origins[owner, places[owner][position], name] = origin
        for name, names in lines.items():
            for each in names:
                part.add(name, each, {})
        self._connect_again(part, places)
        return part

    def _kept(self, name: str, positions: Sequence[int], places: Mapping[str, Mapping[int, int]], once: bool) -> Items:
        items, owners = self.collections[name], places.get(self._owners(name), {})
        return Items(
            [items.names[position] for position in positions],
            [float(1) if once else items.quantity[position] for position in positions],
            [owners.get(items.owner[position], -1) for position in positions],
            {each: [column[position] for position in positions] for each, column in items.fields.items()},
        )

    def _connect_again(self, part: Facts, places: Mapping[str, Mapping[int, int]]) -> None:
        """Connect the items of a part to the part's own lines."""
        for name, collection in self.glossary.collections.items():
            own = [level for level in collection.on if level not in places]
            there = {level: {line: at for at, line in enumerate(part.collections[level].names)} for level in own}
            for old, on in self._connections(own).items():
                new = places.get(name, {}).get(old)
                if new is None:
                    continue
                times = self._together(name, old) / part._together(name, new)
                if all(line in there[level] and (count / times).is_integer() for level, line, count in on):
                    for level, line, count in on:
                        part.connected[level][there[level][line]].append((new, count / times))
            for level in set(collection.on).difference(own):
                for old_place, new_place in places[level].items():
                    for old, count in self.connected[level][old_place]:
                        new = places.get(name, {}).get(old)
                        if new is not None:
                            times = self._together(name, old) / part._together(name, new)
                            part.connected[level][new_place].append((new, count / times))

    def _connections(self, levels: Iterable[str]) -> dict[int, list[tuple[str, str, float]]]:
        """For each connected item, in order, what it is connected to: (collection, name there, count)."""
        found: dict[int, list[tuple[str, str, float]]] = {}
        for level in levels:
            for line, items in zip(self.collections[level].names, self.connected[level], strict=True):
                for item, count in items:
                    found.setdefault(item, []).append((level, line, count))
        return dict(sorted(found.items()))

    def _owners(self, collection: str) -> str:
        """The collection that the items of another belong to, or an empty string."""
        return next((name for name in self.glossary.collections[collection].of if name in self.collections), "")

    def _together(self, collection: str, position: int) -> float:
        """How many there are of an item: its quantity, times that of what it belongs to."""
        items = self.collections[collection]
        owner = items.owner[position]
        above = self._together(self._owners(collection), owner) if owner >= 0 else 1
        return items.quantity[position] * above

    def _label(self, collection: str, name: str, each: str) -> str:
        declared = self.glossary.collections[collection].fields[each]
        shown = declared.comes_from if declared.comes_from == "rating" else declared.written or each
        return f"{name}: {spaced(shown)}"

    def assumed(self) -> list[tuple[str, str, Any]]:
        """Every value that was assumed: (item or object, field, value), in order."""
        found = []
        for (owner, position, name), origin in self.origins.items():
            if not origin.assumed:
                continue
            if position < 0:
                found.append((owner, name, self.objects[owner][name]))
            else:
                items = self.collections[owner]
                found.append((items.names[position], name, items.fields[name][position]))
        return found

    def plain(self) -> dict[str, Any]:
        """The values as plain data, for the digest and for documents; an unknown is ``{"unknown": [...]}``."""
        objects = {owner: {name: _plain(value) for name, value in fields.items()} for owner, fields in self.objects.items()}
        collections = {
            name: [
                {
                    "name": items.names[position],
                    "quantity": items.quantity[position],
                    "owner": items.owner[position],
                    **{each: _plain(column[position]) for each, column in items.fields.items()},
                }
                for position in range(len(items))
            ]
            for name, items in self.collections.items()
        }
        asked = {"method": self.method} if self.method else {}
        return {"objects": objects, "collections": collections, "connected": self.connected, "chosen": self.chosen, **asked}

    def digest(self) -> str:
        """A fingerprint of every value."""
        text = json.dumps(self.plain(), sort_keys=True, ensure_ascii=False)
        return hashlib.sha256(text.encode()).hexdigest()


def _plain(value: Any) -> Any:
    if isinstance(value, Between):
        return {"between": [value.low, value.high], "typical": value.typical}
    return {"unknown": sorted(value.inputs)} if isinstance(value, Unknown) else value
