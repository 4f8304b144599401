"""Putting what answers give into the parts of a file that is being written."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from dwellcalc.home.names import plain

from .lines import EVIDENCE, AsWritten, Entry, Item, Part, entry_line
from .questions import Question

KIND = "kind"


def put_named(part: Part, name: str, entry: Entry) -> None:
    """Put an entry into the item of a part that has this name."""
    found = next((each for each in part.holds if isinstance(each, Item) and each.name == name), None)
    if found is None:
        part.holds.append(Item((Entry("name", name, entry.slot), entry), off=entry.off))
        return
    part.holds.remove(found)
    part.holds.append(replace(found, entries=_with(found.entries, entry)))


def _with(entries: Sequence[Entry], entry: Entry) -> tuple[Entry, ...]:
    """Entries with a further one; of one key with parts in braces these together."""
    same = next((each for each in entries if each.key == entry.key), None)
    if same is None or not isinstance(same.value, AsWritten) or not isinstance(entry.value, AsWritten):
        return (*entries, entry)
    both = replace(
        same,
        value=AsWritten(f"{same.value[:-1]}, {entry.value[1:]}"),
        notes=(*same.notes, *entry.notes),
        off=same.off and entry.off,
    )
    return tuple(both if each is same else each for each in entries)


def within(entry: Entry, keys: Sequence[str]) -> Entry:
    """An entry of a part of an item, such as its conductors, as that part in braces; any other as it is."""
    if not keys:
        return entry
    return replace(entry, key=keys[0], value=AsWritten(f"{{{entry_line(entry)}}}"))


def of_kind(items: Sequence[tuple[int, Item]], question: Question) -> list[tuple[int, Item]]:
    """Of items with their places those of the kind that a question is of alone; all where it is of none."""
    names = set(map(plain, question.of_kind))
    return [
        each for each in items if not names or any(one.key == KIND and plain(str(one.value)) in names for one in each[1].entries)
    ]


def put_listed(part: Part, lists: list[str], entry: Entry) -> None:
    """Put an entry into a part, or into the one item of a list in it."""
    if not lists:
        part.holds.append(entry)
        return
    found = next((each for each in part.holds if isinstance(each, Part) and each.key == lists[0]), None)
    if found is None:
        part.holds.append(Part(lists[0], holds=[Item((entry,), off=entry.off)]))
        return
    item = found.holds[-1]
    assert isinstance(item, Item)
    found.holds[-1] = replace(item, entries=(*item.entries, entry))


def put_evidence(part: Part, entry: Entry, notes: tuple[str, ...]) -> None:
    """Put into a part on what evidence one of its keys rests; of a dwelling unit before its areas and loads."""
    found = next((each for each in part.holds if isinstance(each, Part) and each.key == EVIDENCE), None)
    if found is None:
        found = Part(EVIDENCE, notes)
        entries = [at for at, each in enumerate(part.holds) if isinstance(each, Entry)]
        part.holds.insert(entries[-1] + 1 if entries else 0, found)
    found.holds.append(entry)
