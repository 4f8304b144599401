"""The amperes that a label or a note states as the setting of a load, such as "set to" or "setting" beside them."""

from __future__ import annotations

import re
from collections.abc import Iterable

from dwellcalc.decide.review_plan import Reason

AMPERES = r"(\d+(?:\.\d+)?)\s*-?A(?:mps?|mperes?)?\b"


class StatedSetting:
    """Reads the setting of one reason.

    Args:
        reason: with the words that stand before and behind the amperes.
    """

    def __init__(self, reason: Reason) -> None:
        before, behind, named = map(_one_of, (reason.before_setting, reason.after_setting, reason.named_setting))
        self.named = re.compile(rf"\b{named}\s*:?\s*{AMPERES}", re.IGNORECASE)
        self.before = re.compile(rf"\b{before}\s*:?\s*{AMPERES}", re.IGNORECASE)
        self.behind = re.compile(rf"(?<![\w.,]){AMPERES}\s*{behind}\b(?!\s*:?\s*\d)", re.IGNORECASE)

    def amperes(self, text: str) -> str:
        """The amperes of the setting, a number; empty where a text states none."""
        found = self.named.search(text) or self.before.search(text) or self.behind.search(text)
        return "" if found is None else found[1]

    def words(self, text: str) -> str:
        """The amperes with the words beside them that make them a setting, as they stand in a text; empty where there are none."""
        found = self.behind.search(text) or self.named.search(text)
        return "" if found is None else found[0]


def _one_of(words: Iterable[str]) -> str:
    """A pattern of one of some words; of none where there are none."""
    return f"(?:{'|'.join(map(re.escape, words)) or '(?!)'})"
