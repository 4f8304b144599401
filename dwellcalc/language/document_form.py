"""What every piece of a document is read by: its keys, texts, lists, names, words and evidence."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from typing import TypeVar

from dwellcalc.language import words
from dwellcalc.language.documents import Evidence
from dwellcalc.placed import Mapping, Node, Text, as_list, as_mapping, as_text, key, place_of, text_at
from dwellcalc.problems import Message, Problems, message, nearest_name

UNKNOWN_KEY = message("unknown_key", 'there is no key "{key}" in {what}', "one of: {known}")
LACKS_KEY = message("lacks_key", '{what} lacks "{key}"')
BAD_ID = message("bad_id", '"{name}" cannot be a name', "small letters, digits and underscores, beginning with a letter")
BAD_GRADE = message("bad_grade", '"{grade}" is no grade of confidence', "one of: {known}")
BAD_WORD = message("bad_word", '"{word}" cannot stand here', "one of: {known}")

ID = re.compile(r"[a-z][a-z0-9_]*\Z")

Made = TypeVar("Made")


class FormReader:
    """Reads the form of nodes; problems are collected."""

    def __init__(self, problems: Problems) -> None:
        self.problems = problems

    def keys(self, node: Mapping, known: Iterable[str], what: str) -> None:
        """Refuse keys that are not known."""
        for name in node:
            if name not in known:
                self.problems.add(
                    UNKNOWN_KEY, name.place, key=name, what=what, known=", ".join(known), nearest=nearest_name(name, known)
                )

    def need(self, node: Mapping, name: str, what: str) -> Node:
        """What stands under a key that must be there."""
        found: Node | None = node.get(key(name))
        if found is None:
            self.problems.add(LACKS_KEY, place_of(node), what=f"a {what}" if " " not in what else what, key=name)
            return text_at("", node)
        return found

    def text(self, node: Mapping, name: str, what: str) -> Text:
        """A text that must be there."""
        return as_text(self.need(node, name, what), name, self.problems)

    def optional(self, node: Mapping, name: str) -> Text | None:
        """A text that may be left out."""
        found = node.get(key(name))
        return None if found is None else as_text(found, name, self.problems)

    def texts(self, node: Node | None) -> tuple[Text, ...]:
        """A list of texts; nothing is an empty list."""
        if node is None:
            return ()
        return tuple(as_text(item, "an entry", self.problems) for item in as_list(node, "this", self.problems))

    def listed(self, node: Mapping, name: str) -> list[Mapping]:
        """A list of mappings; nothing is an empty list."""
        found = node.get(key(name))
        if found is None:
            return []
        return [as_mapping(item, "an entry", self.problems) for item in as_list(found, name, self.problems)]

    def entries(self, node: Mapping, section: str, read: Callable[[Text, Node], Made | None]) -> dict[str, Made]:
        """The entries of a section by name."""
        found = node.get(key(section))
        if found is None:
            return {}
        made: dict[str, Made] = {}
        for name, entry in as_mapping(found, section, self.problems).items():
            self.check_id(name)
            one = read(name, entry)
            if one is not None:
                made[str(name)] = one
        return made

    def check_id(self, name: Text) -> None:
        """Refuse what is no name."""
        if not ID.match(name) or name in words.RESERVED:
            self.problems.add(BAD_ID, name.place, name=name)

    def word(self, text: Text, known: Iterable[str], refusal: Message = BAD_WORD) -> Text:
        """A word that must be one of those known."""
        if text not in known:
            shown = ", ".join(known)
            self.problems.add(refusal, text.place, word=text, grade=text, known=shown, nearest=nearest_name(text, known))
        return text

    def evidence(self, node: Mapping, what: str, *, needed: bool) -> Evidence:
        """Source and grade of confidence."""
        if needed or "source" in node or "confidence" in node:
            grade = self.word(self.text(node, "confidence", what), words.GRADES, BAD_GRADE)
            return Evidence(self.text(node, "source", what), grade)
        return Evidence()
