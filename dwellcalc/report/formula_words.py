"""Formulas as words: the calls of the rule language as a reader would say them, in every form in which a sheet is printed.

The document keeps formulas as they are, since they are what is computed again.
"""

from __future__ import annotations

import operator
import re
from collections.abc import Callable, Iterator, Sequence

from dwellcalc.language.words import ASKING, CHOOSING, FUNCTIONS, GATHERING, LOOKUP, ROUNDING
from dwellcalc.placed import spaced
from dwellcalc.report.named_words import BUT, NAMED, answers_named, numbers_named, words_named

CALL = re.compile(rf"\b({'|'.join(FUNCTIONS)})\(")
OPERATOR = re.compile(r" [-+*/] ")
NAME = re.compile(r"[a-z_]\w*(?:\.[a-z_]\w*)*")
OWNER = re.compile(r"\b[a-z_]+\.(?=[a-z_]+)")  # of a name, which the line that holds the formula tells
NEGATIVE = re.compile(r"^- (?=[-+*/] )")  # a dash for what does not apply, before an operator
NOT, KNOWN = "not ", re.compile(r"known\((.*)\)")
OR, AND = " or ", " and "
TIMES = " x "  # between how many there are and the value of each
UNREAD = ("unknown", "(not needed)")  # how a value is printed that is not there
NOT_READ = UNREAD[1]
IS_KNOWN, IS_NOT_KNOWN = "it is known", "it is not known"
YES, NO = "yes", "no"
OPPOSITE = {YES: NO, NO: YES}
COMPARED = re.compile(r"([\d,.]+)((?: \S+)?) (<=|>=|=|<|>) ([\d,.]+)\2")  # two numbers of one unit
SIGNS: dict[str, tuple[Callable[[float, float], bool], str, str]] = {
    "<=": (operator.le, "is not more than", "is more than"),
    ">=": (operator.ge, "is not less than", "is less than"),
    "=": (operator.eq, "is", "is not"),
    "<": (operator.lt, "is less than", "is not less than"),
    ">": (operator.gt, "is more than", "is not more than"),
}
_SUM, _COUNT, _MEAN, _LARGEST, _EVERY = GATHERING
_LARGER, _SMALLER = CHOOSING
_UP, _HALF_UP = ROUNDING
_TABLE, _AT_LEAST, _AT_MOST = LOOKUP
(_ASKED,) = ASKING


def formula_in_words(formula: str) -> str:
    """A formula with its names, such as ``larger(connected, least)``, in words."""
    return spaced(OWNER.sub("", _calls(formula)))


def numbers_in_words(formula: str, named: str = "") -> str:
    """A formula with numbers in place of its names, in words; what asks whether something is known is settled.

    Args:
        formula: the formula with numbers.
        named: the same with its names, so that what is compared with a word is told by its name.
    """
    settled = _settled(numbers_named(words_named(formula, named), named))[0]
    return _calls(answers_named(settled, named))


# calls


def _calls(text: str, *, inner: bool = False) -> str:
    """A text with every call in words; one that does not stand at the end of its text is put in brackets."""
    found = CALL.search(text)
    if found is None:
        return NEGATIVE.sub("none ", text) if inner else text
    end = _closing(text, found.end())
    if end is None:
        return text
    before, after = text[: found.start()], _calls(text[end + 1 :])
    arguments = [_calls(each, inner=True) for each in _apart(text[found.end() : end], ", ")]
    if found[1] == _ASKED and before.endswith(NOT):
        return f"{before.removesuffix(NOT)}{arguments[0]} is not known{after}"
    said = _SAID[found[1]](arguments)
    bare = said == arguments[0] and not OPERATOR.search(said)
    apart = len(arguments) > 1 and (inner or after or (found[1] in ROUNDING and before))
    return f"{before}({said}){after}" if not bare and (apart or OPERATOR.match(after)) else f"{before}{said}{after}"


def _closing(text: str, start: int) -> int | None:
    """Where the bracket is closed that is open before a place."""
    depth = 1
    for at in range(start, len(text)):
        depth += (text[at] == "(") - (text[at] == ")")
        if depth == 0:
            return at
    return None


def _apart(text: str, mark: str) -> list[str]:
    """The pieces of a text between marks that stand outside of brackets."""
    return list(_pieces(text, mark))


def _pieces(text: str, mark: str) -> Iterator[str]:
    depth = start = 0
    for at, character in enumerate(text):
        depth += (character == "(") - (character == ")")
        if depth == 0 and at >= start and text.startswith(mark, at):
            yield text[start:at]
            start = at + len(mark)
    yield text[start:]


def _listed(items: Sequence[str]) -> str:
    *before, last = items
    return f"{', '.join(before)} and {last}" if before else last


def _one_of(which: str) -> Callable[[Sequence[str]], str]:
    """What one value of several is called; a number alone is said as it is."""
    return lambda items: items[0] if len(items) == 1 and _alone(items[0]) else f"the {which} of {_gathered(items)}"


def _alone(item: str) -> bool:
    """Whether it is one number, neither a name nor several of the same."""
    return NAME.fullmatch(item) is None and TIMES not in item


def _gathered(items: Sequence[str]) -> str:
    """Values, or a column by its name: ``heaters.connected`` is that of all heaters."""
    group, _, column = items[0].rpartition(".")
    return f"{column} over {group}" if len(items) == 1 and group and NAME.fullmatch(items[0]) else _listed(items)


def _rounded(how: str) -> Callable[[Sequence[str]], str]:
    return lambda items: f"{items[0]}, {how.format('a whole number' if items[1] == '1' else f'the next multiple of {items[1]}')}"


def _row(which: str, how: str) -> Callable[[Sequence[str]], str]:
    """A row of a table by the value that is sought in it, and what else it is read for."""
    return lambda items: (
        f"the {which} row of {items[0]} {how} {items[1]}" + (f", for {', '.join(items[2:])}" if items[2:] else "")
    )


def _entry(items: Sequence[str]) -> str:
    name, _, column = items[0].rpartition(".") if "." in items[0] else (items[0], "", "")
    return f"the entry of {name}{f', {column},' if column else ''} for {', '.join(items[1:])}"


_SAID: dict[str, Callable[[Sequence[str]], str]] = {
    _SUM: lambda items: f"the sum of {_gathered(items)}",
    _COUNT: lambda items: f"the number of {items[0]}",
    _MEAN: _one_of("mean"),
    _LARGEST: _one_of("largest"),
    _EVERY: lambda items: f"all of {_gathered(items)}",
    _LARGER: _one_of("larger"),
    _SMALLER: _one_of("smaller"),
    _UP: _rounded("rounded up to {}"),
    _HALF_UP: lambda items: f"{items[0]}, rounded to the nearest {items[1]}",
    _TABLE: _entry,
    _AT_LEAST: _row("first", "not below"),
    _AT_MOST: _row("last", "not above"),
    _ASKED: lambda items: f"{items[0]} is known",
}


# what is known


def _settled(text: str) -> tuple[str, bool | None]:
    """A condition without what asks whether something is known; where nothing else is left, what decides it, and its outcome."""
    for mark, deciding in ((OR, True), (AND, False)):
        pieces = _apart(text, mark)
        if len(pieces) > 1:
            return _joined([_settled(each) for each in pieces], mark, deciding)
    if text.startswith(NOT):
        said, outcome = _settled(text.removeprefix(NOT))
        return (OPPOSITE.get(said, f"{NOT}{said}"), None) if outcome is None else (said, not outcome)
    if text.startswith("(") and text not in UNREAD and _closing(text, 1) == len(text) - 1:
        said, outcome = _settled(text[1:-1])
        return (f"({said})" if outcome is None and (OR in said or AND in said) else said), outcome
    asked = KNOWN.fullmatch(text)
    if asked is None:
        return text, None
    return (IS_NOT_KNOWN, False) if asked[1] in UNREAD else (IS_KNOWN, True)


def _joined(pieces: Sequence[tuple[str, bool | None]], mark: str, deciding: bool) -> tuple[str, bool | None]:
    """Conditions of which one with the deciding outcome decides alone; those with the other outcome say nothing.

    A plain yes or no among them is said once. Where a value among them was not needed, another one decided, and is said alone.
    """
    if any(NOT_READ in said for said, _ in pieces):
        pieces = [_outcome(said, outcome, deciding) for said, outcome in pieces]
    decided = next((each for each in pieces if each[1] is deciding), None)
    left = [said for said, outcome in pieces if outcome is None]
    if decided is not None and NAMED.fullmatch(decided[0]):
        return decided[0], None
    if decided is not None or not left:
        return decided or pieces[0]
    if len(left) == len(pieces) and len(set(left)) == 1 and left[0] in OPPOSITE:
        return f"{left[0]} for each of {len(left)}", None
    return mark.join(each for at, each in enumerate(left) if each not in OPPOSITE or each not in left[:at]), None


def _outcome(said: str, outcome: bool | None, deciding: bool) -> tuple[str, bool | None]:
    """A condition with the outcome that it shows by itself: a plain word, or two numbers of one unit that are compared, then in words."""
    if outcome is not None or said in OPPOSITE:
        return said, said == YES if outcome is None else outcome
    if NAMED.fullmatch(said):
        return said, BUT not in said
    found = COMPARED.fullmatch(said)
    if found is None:
        return said, None
    holds, true, false = SIGNS[found[3]]
    shown = holds(*(float(each.replace(",", "")) for each in (found[1], found[4])))
    return (f"{found[1]}{found[2]} {true if shown else false} {found[4]}{found[2]}", shown) if shown is deciding else (said, None)
