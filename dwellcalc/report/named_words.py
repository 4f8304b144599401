"""What a condition compares with words, told by its name: `order of installation: together`, not `together is together`."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator

from dwellcalc.placed import spaced

COMPARED_NAME = re.compile(r"(?<![\w.])([a-z_][\w.]*) is (not )?(\w+)")  # in a formula with names
COMPARED_WORD = re.compile(
    r"(?:(?<=^)|(?<= and )|(?<= or )|(?<=\()|(?<=not ))((?:(?! and | or | is )[^()])+) is (not )?((?:(?! and | or )[^()])+)"
)
BETWEEN = re.compile(r" (?:and|or) ")
COUNTED_NAME = re.compile(r"count\(([a-z_][\w.]*)\) (?:>|=) 0")  # how many members a list has, held to none
COUNTED = re.compile(r"(\d+) (?:>|=) 0")
YES_OR_NO = ("yes", "no")
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


def numbers_named(formula: str, named: str) -> str:
    """The same of numbers of members that are held to none: `added: none`, not `0 > 0`."""
    return _each_term(formula, named, _number_named)


def answers_named(formula: str, named: str) -> str:
    """The same of terms that are a yes or a no."""
    return _each_term(formula, named, _answer_named)


def _each_term(formula: str, named: str, told: Callable[[str, str], str]) -> str:
    terms, names = BETWEEN.split(formula), BETWEEN.split(named)
    if len(terms) != len(names):
        return formula
    bare = [(term.strip("()"), name.strip("()")) for term, name in zip(terms, names, strict=True)]
    found = [term.replace(each, told(each, name)) for term, (each, name) in zip(terms, bare, strict=True)]
    return "".join(part for pair in zip(found, [*BETWEEN.findall(formula), ""], strict=True) for part in pair)


def _number_named(term: str, name: str) -> str:
    counted, number = COUNTED_NAME.fullmatch(name), COUNTED.fullmatch(term)
    if counted is None or number is None:
        return term
    return f"{_title(counted[1])}: {number[1] if int(number[1]) else 'none'}"


def _answer_named(term: str, name: str) -> str:
    return f"{_title(name)}: {term}" if term in YES_OR_NO and name.isidentifier() else term


def _title(name: str) -> str:
    return spaced(name.rpartition(".")[2])


def _told(name: str, value: str, excluded: bool, word: str) -> str:
    """A name with its value; where the condition is not met, with what it would have to be, or that it may not be that."""
    title = _title(name)
    if (spaced(value) == spaced(word)) != excluded:
        return f"{title}: {value}"
    return f"{title}: {value}, not another" if excluded else f"{title}: {value}{BUT}{word}"
