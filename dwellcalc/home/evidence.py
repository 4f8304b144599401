"""On what evidence the values of a part of a home file rest: one word for all of them, or words by their keys."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, field
from typing import Any

from dwellcalc.placed import Mapping as KeysWithValues
from dwellcalc.placed import Text, described, spaced

from . import messages
from .checks import evidence
from .context import Context
from .names import Names
from .refusal import Refusal

NOT_SEEN, TOLD, ASSUMED = "not_seen", "told", "assumed"  # what nobody has seen or measured
DRAWINGS, MANUAL = "drawings", "manual"  # which tell what no nameplate does


@dataclass(frozen=True)
class Evidence:
    """On what evidence values rest, by words of the glossary.

    Attributes:
        of_all: the word for all values beside it; empty where each has its own.
        of_each: the words by the names of values.
    """

    of_all: str = ""
    of_each: Mapping[str, str] = field(default_factory=dict)

    def of(self, name: str) -> str:
        """The word for a value, or an empty text."""
        return self.of_each.get(name, self.of_all)

    def of_fact(self, name: str) -> str:
        """The word for a fact that no nameplate shows: its own, or the word for all, but for one by which only a plate was read."""
        return self.of_each.get(name, self.of_all if self.of_all in (NOT_SEEN, TOLD, ASSUMED, DRAWINGS, MANUAL) else "")


NO_EVIDENCE = Evidence()


def evidence_check(keys: Collection[str]) -> Callable[[Any, Context], Evidence]:
    """The check of the evidence of values that stand under these keys."""
    names = Names((spaced(each), each) for each in keys)

    def check(node: Any, context: Context) -> Evidence:
        if isinstance(node, Text):
            return Evidence(evidence(node, context).value)
        if not isinstance(node, KeysWithValues):
            raise Refusal(messages.EVIDENCE_FORM, node, found=described(node))
        found: dict[str, str] = {}
        for key, word in node.items():
            name = names.find(spaced(key))
            if name is None:
                known = names.known()
                raise Refusal(messages.EVIDENCE_KEY, key, text=spaced(key), nearest=names.nearest(spaced(key)), known=known)
            found[name] = evidence(word, context).value
        return Evidence(of_each=found)

    return check


def evidence_of(model: Any) -> Evidence:
    """What a part of the file says of the evidence of its values."""
    found = getattr(model, "evidence", None)
    return found if isinstance(found, Evidence) else NO_EVIDENCE
