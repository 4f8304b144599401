"""A terminal in which nothing is shown, to see what a text would be taken as."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from dwellcalc.cli.terminal_talk import Terminal


class Asked(Exception):
    """Something would be asked."""


class Silent(Terminal):
    """A terminal that shows nothing, in which Enter is pressed where something is chosen and nothing can be typed."""

    def say(self, text: str, indent: str = "", then: str = "") -> None:
        """Show nothing."""

    def choose(
        self, asked: str, words: Sequence[str], enter: str, unknown: str, why: str = "", also: Mapping[str, str] | None = None
    ) -> tuple[str, bool]:
        """What Enter takes."""
        return enter, False

    def type(self) -> str:
        """Nothing can be typed.

        Raises:
            Asked: always.
        """
        raise Asked
