"""What people say in a word or two: that there is none, or a question of their own about what is asked."""

from __future__ import annotations

import re

from dwellcalc.home.names import plain

from .label_words import LabelWords
from .questions import KEY, NONE, Question
from .sentences import denied, named

NEGATIONS = ("no", "not", "without", "never had")
NOT_YET = ("not yet", "none yet", "no not yet", "not now", "not at the moment")
ASKING = ("what", "what's", "whats", "where", "why", "how", "which", "who", "explain", "meaning")
WORDS = re.compile(r"[a-z][a-z'/]*")
CLAUSES = re.compile(r"\s*[,;]\s*")
NOT_UNDERSTOOD = re.compile(
    r"(?:sorry,? )?(?:i |we )?(?:don'?t|do not) (?:know|understand) (?:what .* (?:is|are|means?)|what (?:that|this|it) (?:is|means?)|the (?:word|question))"
    r"|(?:i |we )?(?:have )?never heard of .*"
)
AMOUNT = re.compile(r"\d\s*[a-z]", re.IGNORECASE)


def says_none(text: str, question: Question, words: LabelWords) -> bool:
    """Whether it was said that there is none: `not yet`, `no pool`, or what is there instead, such as a crawl space."""
    if not (question.may_be_none or NONE in question.choices):
        return False
    said = plain(text).rstrip(".!")
    if said in NOT_YET:
        return question.asks_whether or NONE in question.choices
    negation = next((each for each in NEGATIONS if said.startswith(f"{each} ")), "")
    rest = _told(said.removeprefix(negation), words) if negation else []
    if rest and all(each in named(question) for each in rest):
        return True
    if denied(said, question, words):
        return True
    clauses = [plain(each) for each in CLAUSES.split(said) if each]
    known = [*map(plain, question.none_also), *(" ".join(_told(each, words)) for each in question.none_also)]
    instead = [each for each in clauses if " ".join(_told(each, words)) in known]
    return bool(instead) and not any(AMOUNT.search(each) for each in clauses)


def _told(text: str, words: LabelWords) -> list[str]:
    """The words of a text without those that change nothing."""
    passed = {plain(each) for each in (*words.fillers, *words.around)} - {"no"}
    return [each for each in WORDS.findall(plain(text).replace("-", " ")) if each not in passed or each in ("on", "plug")]


def is_question(typed: str, question: Question) -> bool:
    """Whether the user asks rather than answers, such as `what is a bus?`; a doubtful answer, such as `furnace?`, is none."""
    if question.means and NOT_UNDERSTOOD.fullmatch(plain(typed.replace("\u2019", "'")).rstrip(".!?")):
        return True
    first = plain(typed).partition(" ")[0]
    if first.rstrip("?") not in ASKING:
        return False
    named_freely = question.form == KEY and not (question.unit or question.choices)
    return typed.rstrip().endswith("?") or not (named_freely or any(map(str.isdigit, typed)))
