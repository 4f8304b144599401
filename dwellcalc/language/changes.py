"""Sets of changes: what an edition or an amendment changes in the documents before it.

A change names a piece by its address ``part.name[.key[.row]]`` and states the old piece that it expects. If the base
does not hold that piece, loading fails; so does a change that changes nothing, or two to one piece in one document.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace

from dwellcalc.language import words
from dwellcalc.language.applied import Applied, ChangeSet
from dwellcalc.language.pieces import Held, held, pieces_of, sections_in, shown
from dwellcalc.placed import Listing, Mapping, Node, Text, as_list, as_mapping, as_text, key, place_of, text_at
from dwellcalc.problems import InputError, Place, Problem, Problems, fail, message, nearest_name

CHANGE_FORM = message("change_form", "a change has exactly one of change, add, remove", "with `was` and `now` as they apply")
CHANGE_KEY = message("change_key", 'there is no key "{key}" in {what}', "one of: {known}")
CHANGE_LACKS = message("change_lacks", 'the change lacks "{key}"')
NO_PIECE = message("no_piece", 'the base has no piece "{address}"')
DRIFTED = message("drifted", 'the base does not hold what "was" says', "the base holds: {holds}")
CHANGES_NOTHING = message("changes_nothing", '"was" and "now" are the same')
CHANGED_TWICE = message("changed_twice", 'the piece "{address}" is changed twice in one document')
ADDED_TWICE = message("added_twice", '"{address}" is there already')
CANNOT_ADD = message(
    "cannot_add", "this is nothing that can be added here", "a line, parameter, group, table, interpretation, run or given value"
)
NO_BEFORE = message("no_before", '"before" names nothing that stands there')

_GROUP = re.compile(r"(?P<bases>.+?)(?:\s+where\s+(?P<where>.+?))?(?:\s+except\s+(?P<excepted>.+?))?\Z", re.DOTALL)
_GROUP_PIECES = {"bases": "bases", "where": "where", "except": "excepted"}


@dataclass
class Applier:
    """Applies sets of changes to documents, in place.

    Args:
        documents: method and part documents by name; ``citations`` and ``methods`` stand among them.
        problems: where problems are collected.
    """

    documents: dict[str, Node]
    problems: Problems
    applied: list[Applied] = field(default_factory=list)
    sets: list[ChangeSet] = field(default_factory=list)
    beside: int | None = None  # how many changes were applied before the first of several amendments, which may agree

    def apply(self, document: str, sets: Node, most: int | None = None) -> None:
        """Apply every set of one edition or amendment, or the first ones; ``document`` is its title."""
        seen: dict[tuple[str, str], Place] = {}
        for entry in as_list(sets, "sets", self.problems)[:most]:
            before = len(self.applied)
            node = as_mapping(entry, "a set of changes", self.problems)
            self._keys(node, words.SET_KEYS, "a set of changes")
            title = str(as_text(node[key("title")], "title", self.problems)) if "title" in node else ""
            for change in as_list(node.get(key("changes"), Listing()), "changes", self.problems):
                try:
                    self.one(document, title, as_mapping(change, "a change", self.problems), seen)
                except InputError as error:
                    self.problems.found.extend(self.told(problem, change) for problem in error.problems)
            self.sets.append(ChangeSet(document, title, tuple(self.applied[before:])))

    def told(self, problem: Problem, change: Node) -> Problem:
        """A problem of a change; where another document changed the piece before, with the place of that."""
        address = str(change.get(key("change"), change.get(key("remove"), ""))) if isinstance(change, Mapping) else ""
        before = next((each for each in reversed(self.applied) if each.address == address), None)
        if problem.message is not DRIFTED or before is None:
            return problem
        return replace(problem, others=((f'changed before by "{before.document}"', before.place),))

    def _keys(self, node: Mapping, known: tuple[str, ...], what: str) -> None:
        for name in node:
            if name not in known:
                near = nearest_name(name, known)
                self.problems.add(CHANGE_KEY, name.place, key=name, what=what, known=", ".join(known), nearest=near)

    def one(self, document: str, title: str, node: Mapping, seen: dict[tuple[str, str], Place]) -> None:
        """Carry out one change."""
        self._keys(node, words.CHANGE_KEYS, "a change")
        operations = [name for name in ("change", "add", "remove") if name in node]
        if len(operations) != 1:
            fail(CHANGE_FORM, place_of(node))
        operation = operations[0]
        address = as_text(node[key(operation)], operation, self.problems)
        wanted = {"change": ("was", "now"), "add": ("now",), "remove": ("was",)}[operation]
        for part in wanted:
            if part not in node:
                fail(CHANGE_LACKS, place_of(node), key=part)
        was, now = node.get(key("was")), node.get(key("now"))
        if operation == "change" and was == now:
            fail(CHANGES_NOTHING, place_of(node))
        once = (str(address), shown(was))
        if once in seen and operation != "add":
            self.problems.add(CHANGED_TWICE, address.place, address=address, others=[("first here", seen[once])])
            return
        for piece in (was, now):
            if piece is not None:
                seen.setdefault((str(address), shown(piece)), address.place)
        if not self.agreed(operation, str(address), shown(was), shown(now)):
            holder = self.perform(operation, address, was, now, node)
            if operation == "change" and ".rows" not in address:
                self.take_evidence(holder, node)
        cite, status, source, confidence = (str(node.get(key(name), "")) for name in ("cite", "status", *words.EVIDENCE_KEYS))
        pieces = (shown(was), shown(now))
        self.applied.append(
            Applied(
                document,
                title,
                operation,
                str(address),
                *pieces,
                cite,
                status,
                source,
                confidence,
                address.place,
                pieces_of(was),
                pieces_of(now),
            )
        )

    def agreed(self, operation: str, address: str, was: str, now: str) -> bool:
        """Whether an amendment beside this one made the same change already."""
        if self.beside is None:
            return False
        same = (operation, address, was, now)
        return any((each.operation, each.address, each.was, each.now) == same for each in self.applied[self.beside :])

    def perform(self, operation: str, address: Text, was: Node | None, now: Node | None, node: Mapping) -> Node | None:
        """Carry out a change, an addition or a removal."""
        if operation == "add":
            assert now is not None
            return self.add(address, now, node.get(key("before")))
        holder, last, piece = self.find(address)
        if isinstance(piece, Text) and isinstance(holder, Held):
            return self.group_piece(holder, address, last, was, now)
        assert was is not None
        if isinstance(piece, Listing) and not isinstance(was, Listing):
            self._list_entry(piece, was, now)
        elif isinstance(piece, Mapping) and isinstance(was, Mapping) and now is not None:
            self._several_pieces(piece, was, now)
            return piece
        else:
            self._whole(holder, last, piece, was, now)
        return holder

    def find(self, address: Text) -> tuple[Node, str, Node]:
        """The holder of a piece, the key in it, and the piece."""
        parts = address.split(".")
        document = self.documents.get(parts[0])
        if document is None:
            fail(NO_PIECE, address.place, address=address, nearest=nearest_name(parts[0], self.documents))
        holder: Node = document
        rest = parts[1:]
        if not rest:
            return document, "", document
        if isinstance(document, Mapping) and parts[0] != "citations" and rest[0] not in document:
            section = self.section_of(document, rest[0])
            if section is None:
                known = [str(name) for each in sections_in(document) for name in document[key(each)]]
                near = nearest_name(rest[0], known)
                fail(NO_PIECE, address.place, address=address, nearest=f"{parts[0]}.{near}" if near else "")
            holder = document[key(section)]
        while True:
            name = rest[0] if len(rest) == 1 or (isinstance(holder, Mapping) and rest[0] in holder) else ".".join(rest)
            if not isinstance(holder, Mapping) or name not in holder:
                if isinstance(holder, Mapping):
                    fail(NO_PIECE, address.place, address=address, nearest=nearest_name(name, holder))
                fail(NO_PIECE, address.place, address=address)
            piece: Node = holder[key(name)]
            rest = rest[1:] if name == rest[0] else []
            if not rest:
                return holder, name, piece
            if isinstance(piece, Text) and rest[0] in _GROUP_PIECES and len(rest) == 1:
                return held(holder, name), rest[0], piece
            holder = piece

    def section_of(self, document: Mapping, name: str) -> str | None:
        """The section of a document that holds a name."""
        return next((each for each in sections_in(document) if name in document[key(each)]), None)

    def _whole(self, holder: Node, name: str, piece: Node, was: Node, now: Node | None) -> None:
        expected = piece
        if isinstance(piece, Mapping) and not isinstance(was, Mapping):
            expected = next((piece[key(each)] for each in (*words.WAYS, "value", "default") if each in piece), piece)
        if expected != was:
            fail(DRIFTED, place_of(was), holds=shown(expected))
        assert isinstance(holder, Mapping)
        if now is None:
            del holder[key(name)]
        else:
            holder[holder.key(name)] = now

    def _several_pieces(self, piece: Mapping, was: Mapping, now: Node) -> None:
        for name, old in was.items():
            if piece.get(name) != old:
                fail(DRIFTED, place_of(old), holds=shown(piece.get(name)) or "nothing")
        changed = as_mapping(now, "now", self.problems)
        for name in was:
            if name not in changed:
                del piece[name]
        piece.update(changed)

    def _list_entry(self, piece: Listing, was: Node, now: Node | None) -> None:
        if was not in piece:
            fail(DRIFTED, place_of(was), holds=shown(piece) or "nothing")
        at = piece.index(was)
        piece[at : at + 1] = [] if now is None else [now]

    def group_piece(self, holder: Held, address: Text, piece: str, was: Node | None, now: Node | None) -> Node:
        """Change one base or exception of a group, or its condition."""
        name, text = next(iter(holder.items()))
        match = _GROUP.match(text)
        if match is None:
            fail(NO_PIECE, address.place, address=address)
        pieces = {each: match[slot] or "" for each, slot in _GROUP_PIECES.items()}
        if piece == "where":
            if pieces[piece] != (was or ""):
                fail(DRIFTED, place_of(was or address), holds=pieces[piece] or "nothing")
            pieces[piece] = str(now or "")
        else:
            listed = [each.strip() for each in pieces[piece].split(",") if each.strip()]
            if was is not None and was not in listed:
                fail(DRIFTED, place_of(was), holds=pieces[piece] or "nothing")
            if was is None:
                listed.append(str(now))
            else:
                at = listed.index(str(was))
                listed[at : at + 1] = [] if now is None else [str(now)]
            pieces[piece] = ", ".join(listed)
        made = pieces["bases"]
        made += f" where {pieces['where']}" if pieces["where"] else ""
        made += f" except {pieces['except']}" if pieces["except"] else ""
        section = holder.place_in
        section[section.key(name)] = text_at(made, now if isinstance(now, Text) else address)
        return section

    def add(self, address: Text, now: Node, before: Node | None) -> Node | None:
        """Add a piece, or an entry of a list."""
        parts = address.split(".")
        try:
            holder, last, piece = self.find(address)
        except InputError:
            return self._add_new(address, parts, now, before)
        if isinstance(piece, Text) and isinstance(holder, Held):
            return self.group_piece(holder, address, last, None, now)
        if not isinstance(piece, Listing):
            fail(ADDED_TWICE, address.place, address=address)
        if now in piece:
            fail(ADDED_TWICE, address.place, address=address)
        if before is not None and before not in piece:
            fail(NO_BEFORE, place_of(before))
        piece.insert(piece.index(before) if before is not None else len(piece), now)
        return holder

    def _add_new(self, address: Text, parts: list[str], now: Node, before: Node | None) -> Node | None:
        document = self.documents.get(parts[0])
        if not isinstance(document, Mapping):
            fail(NO_PIECE, address.place, address=address, nearest=nearest_name(parts[0], self.documents))
        if parts[0] == "citations":
            section: Mapping = document
            name = ".".join(parts[1:])
        elif "rows" in parts or parts[0] == words.ASSESSMENT:
            at = parts.index("rows") if "rows" in parts else 1
            _, _, rows = self.find(text_at(".".join(parts[: at + 1]), address))
            section, name = as_mapping(rows, "rows", self.problems), ".".join(parts[at + 1 :])
        else:
            section, name = self._section_for(document, now, address), parts[-1]
            if len(parts) > len(("part", "name")):
                fail(NO_PIECE, address.place, address=address)
        self._insert(section, text_at(name, address), now, before)
        return now if isinstance(now, Mapping) else None

    def _section_for(self, document: Mapping, now: Node, address: Text) -> Mapping:
        if isinstance(now, Text):
            section = "groups"
        elif isinstance(now, Mapping):
            marks = {"question": "interpretations", "rows": "tables", "keep": "runs", "title": "lines", "value": "parameters"}
            section = next((where for mark, where in marks.items() if mark in now), "given" if "is" in now else "")
        else:
            section = ""
        if not section:
            fail(CANNOT_ADD, place_of(now))
        if section not in document:
            made = Mapping()
            made.place = place_of(now)
            document[text_at(section, address)] = made
        return as_mapping(document[key(section)], section, self.problems)

    def _insert(self, section: Mapping, name: Text, now: Node, before: Node | None) -> None:
        entries = list(section.items())
        at = len(entries)
        if before is not None:
            at = next((position for position, (each, _) in enumerate(entries) if each == before), -1)
            if at < 0:
                fail(NO_BEFORE, place_of(before))
        entries.insert(at, (name, now))
        section.clear()
        section.update(entries)

    def take_evidence(self, holder: Node | None, change: Mapping) -> None:
        """Where the holder states its evidence, that of the change takes its place."""
        if not isinstance(holder, Mapping):
            return
        for name in words.EVIDENCE_KEYS:
            if name in change and name in holder:
                holder[holder.key(name)] = change[key(name)]
