"""What is known of a home, by glossary name: each value known or unknown, with its place and evidence.

The values stand in plain columns, one list for each field of a collection, so that an evaluation reads them by index.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any

from dwellcalc.glossary import Glossary
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
    """

    glossary: Glossary
    objects: dict[str, dict[str, Any]] = field(default_factory=dict)
    collections: dict[str, Items] = field(default_factory=dict)
    connected: dict[str, list[list[tuple[int, float]]]] = field(default_factory=dict)
    chosen: dict[str, str] = field(default_factory=dict)
    origins: dict[tuple[str, int, str], Origin] = field(default_factory=dict)

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
        return {"objects": objects, "collections": collections, "connected": self.connected, "chosen": self.chosen}

    def digest(self) -> str:
        """A fingerprint of every value."""
        text = json.dumps(self.plain(), sort_keys=True, ensure_ascii=False)
        return hashlib.sha256(text.encode()).hexdigest()


def _plain(value: Any) -> Any:
    return {"unknown": sorted(value.inputs)} if isinstance(value, Unknown) else value


def spaced(name: str) -> str:
    """A glossary name as people write it."""
    return name.replace("_", " ")
