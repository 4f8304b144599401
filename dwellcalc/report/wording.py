"""Words of titles and numbers within a sentence."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from dwellcalc.decide.document import NOTHING

FEW = 2  # sections of a heading
AS_HOME_SAYS = "as the home file says"  # by whom a reading was chosen


def and_verdict(verdict: str) -> str:
    """A verdict behind a load; nothing where there is nothing to compare it with."""
    return "" if verdict == NOTHING else f", {verdict}"


def lowered(title: str) -> str:
    """A title within a sentence."""
    return title if title[1:2].isupper() else f"{title[:1].lower()}{title[1:]}"


def listed(names: Sequence[str], word: str = "and") -> str:
    """Names as a sentence has them: `one, another and a third`."""
    return f" {word} ".join([*([", ".join(names[:-1])] if names[:-1] else []), *names[-1:]])


def counted(number: int, name: str) -> str:
    """A number of things, such as ``2 figures``."""
    return f"{number:,} {name}" if number == 1 else f"{number:,} {name}s"


def numbered(name: str, numbers: Sequence[str]) -> str:
    """Things by their numbers, such as ``comment 3`` or ``comments 1 and 2``; empty without any."""
    if len(numbers) < 2:
        return f"{name} {numbers[0]}" if numbers else ""
    return f"{name}s {', '.join(numbers[:-1])} and {numbers[-1]}"


def sections_in_short(sections: str) -> str:
    """The sections of a heading: each once, parts of one section as that section, of more than two the first."""
    own = _once(sections)
    whole = list(dict.fromkeys(each.partition("(")[0] for each in own))
    short = whole if len(own) > FEW else own
    return ", ".join(short) if len(short) <= FEW else f"{short[0]} and others"


def sections_in_full(sections: str) -> str:
    """Every section, in a sentence, where a heading has them in short; else nothing."""
    own = _once(sections)
    return f"Sections: {', '.join(own)}." if len(own) > FEW else ""


def _once(sections: str) -> list[str]:
    """Sections without those that stand for all of a section of which a part is cited."""
    each = sections.split(", ")
    return [one for one in dict.fromkeys(each) if not any(other.startswith(f"{one}(") for other in each)]


def set_to_words(name: str, settings: Mapping[str, float]) -> str:
    """A load with the setting [A] that it is counted at, where it has one."""
    return f"{name} set to {settings[name]:g} A" if name in settings else name
