"""Answers as people give them: with a doubt, with what is beside the answer, undecided, as a share of something said before."""

from __future__ import annotations

import re
from collections.abc import Sequence

from dwellcalc.glossary import YES
from dwellcalc.home.names import plain, says_unknown
from dwellcalc.home.ratings import OF_DEVICE

from .answers import Answer, Answers
from .label_words import LabelWords
from .not_knowing import not_known
from .phrases import among, choices_by_words
from .questions import AREA, KEY, LOAD, NONE, PLANNED, SKIP, Question
from .said import TOLD
from .sentences import NOT_KNOWN, WORDS
from .short_words import says_none
from .starter import Starter
from .taken import choice_named, none_known

DOUBTED = re.compile(r"[\s,;-]*\b(?:(?:but )?i )?(?:think|guess|believe|suppose|reckon)\b(?: so)?[\s.!?]*$", re.IGNORECASE)
DOUBTED_BEFORE = re.compile(
    r"^(?:well,? )?i (?:think|guess|believe|suppose|reckon)(?: that| it is| it's| it)?,?\s+", re.IGNORECASE
)
NOT_SURE_OF_ANY = (
    *("not that i know of", "not that we know of", "none that i know of", "nothing that i know of", "not to my knowledge"),
    *(
        "not that i saw",
        "not that i can see",
        "i don't think so",
        "don't think so",
        "i do not think so",
        "do not think so",
        "not as far as i know",
        "not that i am aware of",
        "not that i'm aware of",
    ),
)
ON_FLOORS = re.compile(
    r"[\s,]+(?P<rest>(?:on|over|in|across|with|spread over)\s+(?:all\s+)?\w+\s+(?:floors?|stor(?:e?y|e?ys|ies)|levels?))\b\.?",
    re.IGNORECASE,
)
OR = re.compile(r"\s+or\s+", re.IGNORECASE)
HALF = re.compile(r"\bhalf\b", re.IGNORECASE)
CLAUSES = re.compile(r"\s*[,;]\s*")
HOW_ATTACHED = frozenset(
    (
        "plug",
        "plugged",
        "in",
        "or",
        "wired",
        "hardwired",
        "hard",
        "receptacle",
        "outlet",
        "a",
        "an",
        "the",
        "with",
        "either",
        "on",
    )
)
WITH_SPACES = re.compile(
    r"(?P<rating>\d+(?:\s*A)?(?:, told)?),\s*(?P<beside>\d+ (?:breaker )?(?:spaces?|poles?|circuits?)\b.*)", re.IGNORECASE
)
LENGTH = re.compile(r"(?:about |around )?\d+\s*(?:ft|feet|foot|m|meters?|metres?)\b\D*", re.IGNORECASE)  # of its run
OF_COMPRESSOR = re.compile(r"\b(?:MCA|RLA|min(?:imum)? circuit amp\w*)\b", re.IGNORECASE)
LARGEST_DEVICE = re.compile(  # not of `max breaker` and the like, which are read as they stand
    r"(?<!max )(?<!max\. )(?<!maximum )(?<!circuit )(?<!or )(?:\bmax\.?|\b(?:on an? )?breaker:?)\s+(\d{2,3})(?:\s*A(?:mps?)?)?(?![\w.])(?!\s*(?:k?W|V))",
    re.IGNORECASE,
)
DOUBLE_SWITCH = re.compile(
    r"\bdouble[\s-]+(?=(?:pole[\s-]+)?(?:switch|breaker|handle|throw)\b)", re.IGNORECASE
)  # has two handles and one rating
NOT_IN_IT = re.compile(
    r"[\s,]+(?:(?:the|our|without|without the|not counting the|excluding the)\s+)?(?:basement|cellar|attic|garage|porch|deck)\s+(?:(?:is|are|was)\s+)?"
    r"not\s+(?:in|included|counted|part)\b[^,;.]*\.?",
    re.IGNORECASE,
)
PLUGGED = re.compile(
    r"(?:it |they |that )?(?:plugs?|plugged)(?: in| into)?(?: (?:an?|the|its|own))*(?: (?:ordinary|normal|regular|wall|standard|own))*(?: (?:outlet|receptacle|wall))?s?",
    re.IGNORECASE,
)
ON_BREAKER = re.compile(r",?\s+on an?\s+(\d{2,3})\s*-?(?:A|amp)?\s*breaker\b", re.IGNORECASE)
SAME, OTHER_HALF = "same", "other half"
UNDECIDED = "{told}, undecided"
FILE_NAME = re.compile(r"\.\w{2,5}\b")
NO_FILE = re.compile(r"\b(?:don'?t|do not|not|no|none|nothing|how|haven'?t|can'?t|cannot|never|without)\b", re.IGNORECASE)
BETWEEN = re.compile(r",\s+")
IN_ONE_BRACKET = re.compile(r"\(([^()]*)\)")
LABEL_OF_DEVICE = re.compile(r"\bmax|\bmin|\bM[CO]", re.IGNORECASE)  # words of a label, that are read with the rating
NUMBERS = re.compile(r"\d[\d,]*(?:\.\d+)?")


def without_doubt_words(text: str, question: Question) -> str:
    """An answer without the words that it is only thought so; where evidence may be said, with that it was told."""
    rest = DOUBTED.sub("", DOUBTED_BEFORE.sub("", text)).strip(" ,;")
    if (
        question.choices
        or (question.form == KEY and question.meanwhile)
        or not rest
        or rest == text.strip()
        or plain(text) in NOT_SURE_OF_ANY
    ):
        return text
    told = question.says_evidence and re.search(r"\d", rest) and not rest.endswith(f", {TOLD}")
    return f"{rest}, {TOLD}" if told else rest


def as_on_labels(text: str, words: LabelWords) -> str:
    """A text with the breaker of a compressor and the horsepower of a motor as labels have them."""
    return of_motor(with_largest_device(DOUBLE_SWITCH.sub("", text)), words)


def with_largest_device(text: str) -> str:
    """A label of a unit with a compressor whose breaker stands as the largest one, such as `MCA 15 A, breaker 30` or `max 35`."""
    if not OF_COMPRESSOR.search(text):
        return text
    return LARGEST_DEVICE.sub(r"max breaker \1", ON_BREAKER.sub(r", max breaker \1", text))


def of_motor(text: str, words: LabelWords) -> str:
    """A text in which parts of a horsepower stand as numbers, such as `half a horse`."""
    said = "|".join(map(re.escape, sorted(words.fractions, key=len, reverse=True)))
    return re.sub(
        rf"\b({said})(?:\s+of)?(?:\s+an?)?[\s-]+(?:horse(?:power)?s?|hp)\b",
        lambda match: f"{words.fractions[plain(match[1])]} hp",
        text,
        flags=re.IGNORECASE,
    )


def thinks_so(text: str, question: Question, words: LabelWords) -> str:
    """Yes with a doubt, where that is all that was said, such as `I think so`; else an empty text."""
    said = plain(text.replace("\u2019", "'")).strip(" .!")
    return f"{YES}?" if said in words.thinks_so and question.choices else YES if said in words.thinks_so else ""


def told_in_doubt(text: str, typed: str, question: Question, words: LabelWords) -> str:
    """A count as told, where it was typed with a word of doubt; any other text as it is."""
    doubted = text.isdecimal() and text != typed and question.is_plain_fact
    return f"{text}, {TOLD}" if doubted and not set(WORDS.findall(plain(typed))).isdisjoint(words.doubts) else text


def the_same(text: str, question: Question, answers: Answers, unit: int) -> str:
    """What was answered before, as told, where only `same as the main` is said; else an empty text."""
    said = plain(text).removeprefix("the ")
    same = said.partition(" ")[0].strip(" ,.") == SAME or said.startswith(OTHER_HALF)
    before = answers.given.get((question.same_as, unit)) if question.same_as and same else None
    if before is not None and question.form == AREA:
        return before.text if NUMBERS.match(before.text) else ""
    if before is not None and question.settings:
        return before.text
    head, comma, rest = text.partition(",")  # `same as the main, 54 spaces`
    number = NUMBERS.match(before.text) if before is not None and not NUMBERS.search(head) else None
    open_too = before is not None and says_unknown(before.text) and not NUMBERS.search(head)
    told = f", {TOLD}" if question.says_evidence else ""
    return f"{number[0]}{told}{comma}{rest}" if number else f"{NOT_KNOWN}, {text}" if open_too else ""


def none_in_doubt(text: str, question: Question, answers: Answers) -> Answer | None:
    """That there is none, as far as somebody knows, which is assumed; nothing otherwise."""
    said = plain(text.replace("\u2019", "'")).strip(" .!")
    if said in NOT_SURE_OF_ANY or none_known(text):
        may = (question.may_be_none and not question.none_sets) or NONE in question.choices
        return Answer(NONE if may else answers.unknown(question) or answers.enter(question), assumed=True)
    no_file = question.form == KEY and question.none_told and not FILE_NAME.search(text) and NO_FILE.search(said) is not None
    told_none = says_none(text, question, answers.starter.words) or plain(text) in (NONE, "no")
    return Answer(NONE, assumed=True) if no_file and not told_none else None


def without_beside(text: str, question: Question) -> tuple[str, str]:
    """An answer without what is told beside it: on how many floors an area is, or how a charger may be attached; and that."""
    clauses = CLAUSES.split(text.strip())
    spaces = WITH_SPACES.fullmatch(text.strip()) if question.same_as and question.form == KEY else None
    if spaces is not None:
        return spaces["rating"], spaces["beside"]
    if question.form == AREA and (beside := _beside_area(text)):
        for each in beside:
            text = text.replace(each, " ", 1)
        return re.sub(r"\s+(?=,|$)", "", " ".join(text.split())), " ".join(each.strip(" ,") for each in beside)
    if question.form == AREA and clauses[1:] and plain(clauses[0]) == NONE and not re.search(r"\d", text):
        return NONE, ", ".join(clauses[1:])
    if question.form in (LOAD, PLANNED) and not question.settings and (device := _device(clauses, question)):
        return ", ".join(each for each in clauses if each != device), device
    attached = [each for each in clauses[1:] if _is_attachment(each, question) or LENGTH.fullmatch(each)]
    if not question.settings or not attached:
        return text, ""
    told = ", ".join(attached)
    rest = [each for each in clauses if each not in attached]
    rest = [each for at, each in enumerate(rest) if not at or not not_known(each)]  # of how it is attached, that is
    return ", ".join(rest), UNDECIDED.format(told=told) if OR.search(told) else told


def _beside_area(text: str) -> list[str]:
    """What of an area tells on how many floors it is, and in brackets its parts, as it stands there."""
    floors, parts, behind, left_out = ON_FLOORS.search(text), _parts_of_area(text), _parts_behind(text), NOT_IN_IT.search(text)
    return [
        *([floors[0]] if floors else []),
        *([left_out[0]] if left_out else []),
        *([f"({parts})"] if parts else []),
        *(f", {each}" for each in behind),
    ]


def _parts_of_area(text: str) -> str:
    """What stands in brackets behind an area and gives its parts, which add up to it; else an empty text."""
    match = IN_ONE_BRACKET.search(text)
    before = NUMBERS.findall(text[: match.start()]) if match is not None else []
    if match is None or len(before) != 1:
        return ""
    parts = [
        float(each.replace(",", "")) for each in NUMBERS.findall(match[1].partition(";")[0])
    ]  # (1,700 down, 1,450 up; sheet A-2)
    return match[1] if len(parts) > 1 and sum(parts) == float(before[0].replace(",", "")) else ""


def _parts_behind(text: str) -> list[str]:
    """The clauses behind an area that give its parts, which add up to it, such as `1240 down, 1000 up`."""
    first, *rest = BETWEEN.split(text.strip())
    whole, parts = NUMBERS.findall(first), [each for each in rest if NUMBERS.match(each)]
    numbers = [float(NUMBERS.findall(each)[0].replace(",", "")) for each in parts]
    return parts if len(parts) > 1 and len(whole) == 1 and sum(numbers) == float(whole[0].replace(",", "")) else []


def _device(clauses: Sequence[str], question: Question) -> str:
    """The one clause of what protects a load or what it plugs into, beside others that give its rating; an empty text where there is none."""
    of_device = [each for each in clauses if OF_DEVICE.search(each) and not LABEL_OF_DEVICE.search(each)]
    of_device += [] if question.plugs else [each for each in clauses if PLUGGED.fullmatch(each)]
    others = [
        each
        for each in clauses
        if each not in of_device and re.search(r"\d\s*(?:k?W|k?VA|A|amps?|hp|watts?)\b", each, re.IGNORECASE)
    ]
    return of_device[0] if len(of_device) == 1 and others else ""


def _is_attachment(clause: str, question: Question) -> bool:
    rest = plain(clause)
    for each in question.keeps:
        rest = rest.replace(plain(each), " ").replace(plain(each).partition(" ")[2], " ")
    words = rest.split()
    return bool(question.keeps) and bool(words) and HOW_ATTACHED.issuperset(words)


def undecided(text: str, question: Question, starter: Starter) -> str:
    """What is kept of an answer that names several choices with `or`, where one may be left out; else an empty text."""
    clauses = [each for each in CLAUSES.split(text.strip()) if each and not not_known(each)]
    parts = OR.split(re.sub(r"^either\s+", "", ", ".join(clauses), flags=re.IGNORECASE))
    if SKIP not in question.choices or not parts[1:]:
        return ""
    every = choices_by_words(question)
    inside = [among(part, every) for part in parts]
    found = [
        choice_named(part, question, starter) or (next(iter(each)) if len(each) == 1 else "")
        for part, each in zip(parts, inside, strict=True)
    ]
    return UNDECIDED.format(told=text.strip()) if all(found) and len(set(found)) > 1 else ""


def half_of(text: str) -> str:
    """Half of the first amount of a text."""
    match = NUMBERS.search(text)
    return text if match is None else f"{text[: match.start()]}{float(match[0].replace(',', '')) / 2:g}{text[match.end() :]}"


def share_of(text: str, typed: str, most: float, largest: float) -> str:
    """Bounds that are held to no more than what was said before, or to half of that where half was said.

    Args:
        text: the bounds, as the question has them.
        typed: what was typed.
        most: the largest that it can be, in any unit.
        largest: the high end of the bounds, in the same.
    """
    parts = text.split(" to ")
    if len(parts) != 2 or largest <= 0:
        return text
    numbers = [float(NUMBERS.search(part)[0].replace(",", "")) for part in parts]  # type: ignore[index]
    parted = most / 2 if HALF.search(typed) else most  # no basement is larger than all that is lived in
    high = numbers[1] * min(1, parted / largest)
    low = min(numbers[0] / 2 if HALF.search(typed) else numbers[0], high)
    made = [NUMBERS.sub(f"{each:.0f}", part, count=1) for each, part in zip((low, high), parts, strict=True)]
    return " to ".join(made)


def size_clause(text: str, words: LabelWords) -> tuple[str, str]:
    """The clause of a size such as tons, without a doubt, and the other words; the text and nothing where no clause has one."""
    units = {size.split()[1] for size in words.sizes}
    clauses = [each for each in CLAUSES.split(text.strip()) if each]
    sized = [
        each
        for each in clauses
        if re.search(r"\d", each) and any(re.search(rf"(?<![a-z]){unit}s?\b", each, re.IGNORECASE) for unit in units)
    ]
    rest = [each for each in clauses if each not in sized]
    if len(sized) != 1 or any(re.search(r"\d", each) for each in rest):
        return text, ""
    alone = DOUBTED.sub(
        "",
        re.sub(
            r"^(?:(?:it is|it's|i think|probably|about|around|maybe|perhaps|roughly|some|approximately)\s+)+",
            "",
            sized[0],
            flags=re.IGNORECASE,
        ),
    )
    return alone.strip(), "" if alone.strip() == text.strip() else text.strip().removesuffix(f", {TOLD}")
