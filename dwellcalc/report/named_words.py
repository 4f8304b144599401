"""What a condition compares with words, told by its name: `order of installation: together`, not `together is together`."""

from __future__ import annotations

import re
from collections.abc import Iterator

from dwellcalc.placed import spaced

COMPARED_NAME = re.compile(r"(?<![\w.])([a-z_][\w.]*) is (not )?(\w+)")  # in a formula with names
COMPARED_WORD = re.compile(
    r"(?:(?<=^)|(?<= and )|(?<= or )|(?<=\()|(?<=not ))((?:(?! and | or | is )[^()])+) is (not )?((?:(?! and | or )[^()])+)"
)
BUT = ", not "
NAMED = re.compile(r"[^:()]+: [^:()]+")  # a comparison with a word as it is told here


def words_named(formula: str, named: str) -> str:
    """A formula with numbers in which each value that is compared with a word has its name before it.

    Args:
        formula: the formula with numbers and words in place of its names.
        named: the same with its names; where the two do not go together the formula stays as it is.
    """
    names = [match[1] for match in COMPARED_NAME.finditer(named)]
    if len(names) != len(COMPARED_WORD.findall(formula)):
        return formula
    left: Iterator[str] = iter(names)
    return COMPARED_WORD.sub(lambda match: _told(next(left), match[1], bool(match[2]), match[3]), formula)


def _told(name: str, value: str, excluded: bool, word: str) -> str:
    """A name with its value; where the condition is not met, with what it would have to be, or that it may not be that."""
    title = spaced(name.rpartition(".")[2])
    if (spaced(value) == spaced(word)) != excluded:
        return f"{title}: {value}"
    return f"{title}: {value}, not another" if excluded else f"{title}: {value}{BUT}{word}"
