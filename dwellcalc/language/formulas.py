"""Formulas of the rule language: a text becomes a syntax tree whose nodes know where they stand.

Grammar: design of the language, "Formulas". Nothing is resolved here: names stay texts.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Union

from dwellcalc.language.words import COMPARING, FUNCTIONS, RESERVED
from dwellcalc.placed import Text
from dwellcalc.problems import InputError, Problems, fail, message, nearest_name

UNEXPECTED = message("formula_unexpected", 'unexpected "{found}" in a formula', "expected {wanted}")
ENDS = message("formula_ends", "the formula ends too early", "expected {wanted}")
BAD_CHARACTER = message("formula_character", '"{found}" has no meaning in a formula')
OTHER_NUMBER = message(
    "formula_number",
    "the number {found} stands in a formula",
    "make it a parameter with unit, citation and source; only 0 and 1 stand here",
)
MIXED = message("formula_mixed", '"and" and "or" are mixed', "put parentheses around one of them")
NO_FUNCTION = message("formula_function", 'there is no function "{found}"', "the functions are: {known}")
TOO_DEEP = message("formula_deep", "the formula is nested too deeply", "make a line of the inner part")


@dataclass(frozen=True, slots=True)
class Literal:
    """A number: 0 or 1, or any number in a table's cell."""

    value: float
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Name:
    """A name, dotted or not."""

    text: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Call:
    """A function with its arguments."""

    function: str
    arguments: tuple[Tree, ...]
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Arithmetic:
    """Two amounts with + - * or /."""

    sign: str
    left: Tree
    right: Tree
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Compare:
    """Two amounts compared."""

    sign: str
    left: Tree
    right: Tree
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Among:
    """A name that is, or is not, one of some words (`is`, `is not`, `in`, `not in`)."""

    name: Name
    negated: bool
    words: tuple[Name, ...]
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Not:
    """A condition turned round."""

    inner: Tree
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Chain:
    """Conditions joined by one word, `and` or `or`."""

    word: str
    parts: tuple[Tree, ...]
    start: int
    end: int


Tree = Union[Literal, Name, Call, Arithmetic, Compare, Among, Not, Chain]

_TOKEN = re.compile(
    r"\s*(?:(?P<number>\d+(?:\.\d+)?)|(?P<name>[A-Za-z_][A-Za-z0-9_]*(?:\.[A-Za-z0-9_]+)*)|(?P<sign>>=|<=|[-+*/()<>=,])|(?P<bad>\S))"
)
_DEEPEST = len(FUNCTIONS) + len(RESERVED)


def parse(text: Text, *, numbers: bool = False) -> Tree:
    """The syntax tree of a formula: a condition or an amount.

    Args:
        text: the formula.
        numbers: whether any number may stand in it, as in a table's cell; otherwise only 0 and 1.

    Raises:
        InputError: the text is no formula; the problem marks the place in it.
    """
    return _Parser(text, numbers).whole()


def parsed(text: Text, problems: Problems, *, numbers: bool = False) -> Tree | None:
    """The syntax tree, or nothing with the problem noted."""
    if not text and any(problem.place == text.place for problem in problems.found):
        return None  # it was refused already, as another form than a text
    try:
        return parse(text, numbers=numbers)
    except InputError as error:
        problems.found.extend(problem for problem in error.problems if problem not in problems.found)
        return None


class _Parser:
    def __init__(self, text: Text, numbers: bool) -> None:
        self.text = text
        self.numbers = numbers
        self.kinds: list[str] = []
        self.tokens: list[str] = []
        self.starts: list[int] = []
        self.position = 0
        self.depth = 0
        self.operators = 0
        for match in _TOKEN.finditer(text):
            kind = match.lastgroup
            if kind is None:
                continue
            if kind == "bad":
                fail(BAD_CHARACTER, text.at(match.start(kind)), found=match[kind])
            self.kinds.append(kind)
            self.tokens.append(match[kind])
            self.starts.append(match.start(kind))
        self.kinds.append("end")
        self.tokens.append("")
        self.starts.append(len(text))

    def whole(self) -> Tree:
        tree = self.condition()
        if self.kinds[self.position] != "end":
            self.unexpected("the end, or an operator")
        return tree

    def unexpected(self, wanted: str) -> None:
        token, start = self.tokens[self.position], self.starts[self.position]
        if self.kinds[self.position] == "end":
            fail(ENDS, self.text.at(max(0, start - 1)), wanted=wanted)
        fail(UNEXPECTED, self.text.at(start, len(token)), found=token, wanted=wanted)

    def taken(self, token: str) -> bool:
        if self.tokens[self.position] == token and self.kinds[self.position] != "end":
            self.position += 1
            return True
        return False

    def end(self) -> int:
        return self.starts[self.position - 1] + len(self.tokens[self.position - 1])

    def condition(self) -> Tree:
        self.depth += 1
        if self.depth > _DEEPEST:
            fail(TOO_DEEP, self.text.at(self.starts[self.position]))
        start = self.starts[self.position]
        parts = [self.test()]
        word = ""
        while self.tokens[self.position] in ("and", "or"):
            if word and self.tokens[self.position] != word:
                fail(MIXED, self.text.at(self.starts[self.position], len(self.tokens[self.position])))
            word = self.tokens[self.position]
            self.position += 1
            parts.append(self.test())
        self.depth -= 1
        return parts[0] if not word else Chain(word, tuple(parts), start, self.end())

    def test(self) -> Tree:
        start = self.starts[self.position]
        if self.tokens[self.position] == "not":
            self.position += 1
            self.depth += 1
            if self.depth > _DEEPEST:
                fail(TOO_DEEP, self.text.at(start))
            inner = self.test()
            self.depth -= 1
            return Not(inner, start, self.end())
        left = self.amount()
        token = self.tokens[self.position]
        if token in COMPARING:
            self.position += 1
            return Compare(token, left, self.amount(), start, self.end())
        if token in ("is", "in", "not") and isinstance(left, Name):
            return self.among(left)
        return left

    def among(self, name: Name) -> Tree:
        if self.taken("is"):
            negated = self.taken("not")
            words = [self.word()]
            return Among(name, negated, tuple(words), name.start, self.end())
        negated = self.taken("not")
        self.want("in")
        self.want("(")
        words = [self.word()]
        while self.taken(","):
            words.append(self.word())
        self.want(")")
        return Among(name, negated, tuple(words), name.start, self.end())

    def want(self, token: str) -> None:
        if not self.taken(token):
            self.unexpected(f'"{token}"')

    def word(self) -> Name:
        if self.kinds[self.position] != "name" or self.tokens[self.position] in RESERVED:
            self.unexpected("a word")
        self.position += 1
        return Name(self.tokens[self.position - 1], self.starts[self.position - 1], self.end())

    def amount(self) -> Tree:
        start = self.starts[self.position]
        left = self.term()
        while self.tokens[self.position] in ("+", "-"):
            sign = self.operator()
            left = Arithmetic(sign, left, self.term(), start, self.end())
        return left

    def operator(self) -> str:
        self.operators += 1
        if self.operators > 2 * _DEEPEST:  # each makes the tree deeper
            fail(TOO_DEEP, self.text.at(self.starts[self.position]))
        self.position += 1
        return self.tokens[self.position - 1]

    def term(self) -> Tree:
        start = self.starts[self.position]
        left = self.factor()
        while self.tokens[self.position] in ("*", "/"):
            sign = self.operator()
            left = Arithmetic(sign, left, self.factor(), start, self.end())
        return left

    def factor(self) -> Tree:
        kind, token, start = self.kinds[self.position], self.tokens[self.position], self.starts[self.position]
        if kind == "number":
            if token not in ("0", "1") and not self.numbers:
                fail(OTHER_NUMBER, self.text.at(start, len(token)), found=token)
            self.position += 1
            return Literal(float(token), start, self.end())
        if token == "(" and kind == "sign":
            self.position += 1
            inner = self.condition()
            self.want(")")
            return inner
        if kind != "name" or (token in RESERVED and token not in FUNCTIONS):
            self.unexpected("a name, a function or a parenthesis")
        self.position += 1
        if self.tokens[self.position] == "(":
            return self.call(token, start)
        if token in FUNCTIONS:
            self.unexpected('"("')
        return Name(token, start, self.end())

    def call(self, function: str, start: int) -> Tree:
        if function not in FUNCTIONS:
            known = ", ".join(FUNCTIONS)
            place = self.text.at(start, len(function))
            fail(NO_FUNCTION, place, found=function, known=known, nearest=nearest_name(function, FUNCTIONS))
        self.want("(")
        arguments = [self.condition()]
        while self.taken(","):
            arguments.append(self.condition())
        self.want(")")
        return Call(function, tuple(arguments), start, self.end())


def names_in(tree: Tree) -> list[Name]:
    """Every name that a tree reads, in order; words after `is` and `in` are not names."""
    if isinstance(tree, Name):
        return [tree]
    if isinstance(tree, Literal):
        return []
    if isinstance(tree, Among):
        return [tree.name]
    if isinstance(tree, Not):
        return names_in(tree.inner)
    if isinstance(tree, (Arithmetic, Compare)):
        return names_in(tree.left) + names_in(tree.right)
    parts = tree.parts if isinstance(tree, Chain) else tree.arguments
    return [name for part in parts for name in names_in(part)]
