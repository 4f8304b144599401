"""What is typed as an answer, as it is taken: words and numbers of choices, what is not known, what is none."""

from __future__ import annotations

import re

from dwellcalc.home.names import UNKNOWN, Names, plain, says_unknown
from dwellcalc.problems import fail, message

from .answers import HOME, Answer, Answers, chosen, parts_of
from .loads import KIND_AND_RATING
from .not_knowing import not_known
from .phrases import (
    IN_BRACKETS,
    INSTEAD,
    JOINS,
    ONE_AND_OTHER,
    REPLACED,
    WORDS,
    among,
    choices_by_words,
    first_and_second,
    of_their_own,
    passed_words,
    without,
)
from .questions import ANY_LOADS, ANY_PLANNED, AREA, DETAIL, EVIDENCE, KEY, LOAD, NONE, SKIP, YES_NO, Question
from .said import DOUBT, GUESS
from .sentences import only_planned
from .short_words import says_none
from .starter import Starter

ABSENT = (
    *("no", "nope", "nah", "0", "nothing", "no one", "there is none", "not there", "not any", "never", "it isn't"),
    *("it is not", "they aren't", "not at all", "never had one", "no such thing", "not here", "don't have one", "dont have one"),
)
THERE = ("yes", "y", "there is one", "there is")  # of what has a name or a day, that must be told
ASIDE = re.compile(
    r",?\s+(?:that|as far as|so far as) (?:i|we|he|she|they|(?:the|my|our) \w+)(?:'m| am| are| is)? "
    r"(?:knows?|knew|aware|can tell|can see|remembers?)(?: of)?[.!]?$",
    re.IGNORECASE,
)
NOT = "not"
OTHER_ONE = ("the other", "second one", "a second")  # of two, which is no other thing
SIZE_ALONE = re.compile(r"\d[\d.,/]*[\s-]*[A-Za-z]+(?:\s+(?:at\s+)?\d+\s*V(?:olts?)?)?")  # such as `3 tons` of what is planned
BETWEEN_WORDS = re.compile(r"[\s,;]+")
THOUSANDS = re.compile(r"(?<=\d),(?=\d{3}\b)")
PLACES = ("in", "at", "near", "under", "behind", "beside", "from", "to", "next", "which", "that", "but")
PLANNED_LATER = message(
    "start_planned_later",
    '"{text}" sounds planned, and this is of what is there today',
    "type only what is there today; what is planned is asked at the end",
)
NO_CHOICE = message("start_no_choice", '"{text}" is none of the choices', "type one of the words, or its number: {known}")
ONE_CHOICE = message(
    "start_one_choice", "only one of the choices can be taken here", "type one of the words, or its number: {known}"
)
MUST_SAY = message("start_must_say", "this must be said", "{how}")
NOT_NONE = message("start_not_none", "`none` cannot be said here", "{how}")
NO_RATING = message(
    "start_no_rating",
    '"{text}" is no kind of load with a rating',
    'write the kind, a colon and the rating, such as "{text}: ... kW", or "{text}: unknown"',
)


def taken(typed: str, question: Question, answers: Answers, unit: int = HOME) -> Answer:
    """The answer that was typed; nothing typed takes what Enter takes.

    Raises:
        InputError: it is none of the choices, or nothing where something must be said.
    """
    text = without_aside(" ".join(typed.split()))
    shown = choice_as_shown(text, question)
    if shown:
        return Answer(shown)
    assumed = not text
    text, doubted = without_doubt(text, question)
    text = text or answers.enter(question)
    if not_known(text):
        assumed, text = True, answers.unknown(question) or answers.enter(question)
    left_out = not question.choices and answers.enter(question) == SKIP and plain(text) != "0"
    if plain(text) in ABSENT and (question.may_be_none or NONE in question.choices or left_out):
        text = NONE
    within = f" {' '.join(BETWEEN_WORDS.split(plain(text)))} "
    if any(f" {plain(each)} " in within for each in question.none_within):
        text = NONE
    if plain(text) in map(plain, question.none_also) or says_none(text, question, answers.starter.words):
        text = NONE
    if not answers.work.drawn and not question.of_what_comes and only_planned(text, question, answers.starter.words):
        text = NONE
    if plain(text) in THERE and question.yes_means:
        text = answers.yes(question, unit) or (NONE if assumed else text)
    bounded = question.form == AREA and not says_unknown(answers.unknown(question) or UNKNOWN)
    if plain(text) in THERE and (question.form == LOAD or bounded):
        return Answer(answers.unknown(question), assumed=True, there=True)
    if not text or (plain(text) in THERE and (question.form == AREA or (question.may_be_none and not question.unit))):
        fail(MUST_SAY, how=question.how(typed=True))
    text = question.stands_for.get(plain(text), text)
    if question.choices:
        return Answer(_chosen(text, question, answers.starter), assumed or doubted)
    if plain(text) == NONE:
        if not question.may_be_none and answers.enter(question) == SKIP:
            return Answer(SKIP, assumed)
        if not question.may_be_none:
            fail(NOT_NONE, how=question.how(typed=True))
        return Answer(NONE, assumed)
    if question.form in (ANY_LOADS, ANY_PLANNED):
        for _, part in parts_of(text):
            if not KIND_AND_RATING.fullmatch(part):
                fail(NO_RATING, text=part)
    return Answer(text, assumed or doubted)


def choice_as_shown(text: str, question: Question) -> str:
    """The choice of which a text is all that is shown of it, whatever stands in it; empty where it is of none."""
    found = {plain(choice.says): word for word, choice in question.choices.items() if choice.says}
    return found.get(plain(text), "")


def none_known(text: str) -> bool:
    """Whether it is said that there is none as far as somebody knows, such as `none that the owner knows of`."""
    rest = ASIDE.sub("", text)
    return rest != text and plain(rest) in (NONE, "nothing")


def without_aside(text: str) -> str:
    """An answer without what only says on whose knowledge it rests, such as `a gas one as far as I know`."""
    rest = ASIDE.sub("", text)
    return text if plain(rest) == NOT else rest  # `not that I know of` is an answer of its own


def without_doubt(text: str, question: Question) -> tuple[str, bool]:
    """A word of choices without what tells that it is not sure, and whether something does; a rating is taken as it stands.

    Of several choices each clause stands for itself: all of it is doubtful only where every clause is.
    """
    if not question.choices and not (question.form == KEY and question.meanwhile):
        return text, False
    if question.several and "," in text:
        clauses = [_without_doubt(each.strip()) for each in text.split(",") if DOUBT.sub("", f" {each.strip()}").strip()]
        doubts = len(clauses) if len(clauses) == 1 and "," in text else sum(doubted for _, doubted in clauses)
        return ", ".join(each for each, _ in clauses), bool(clauses) and doubts == len(clauses)
    return _without_doubt(text)


def _without_doubt(text: str) -> tuple[str, bool]:
    rest = DOUBT.sub("", GUESS.sub("", text, count=1)).strip() if text else text
    return (rest, True) if rest and rest != text else (text, False)


def _chosen(text: str, question: Question, starter: Starter) -> str:
    """The words of the choices, whether words or numbers were typed; of what is read from several the weakest, which is the last."""
    words = list(question.choices)
    found, _ = choices_in(text, question, starter)
    if NONE in found and len(found) > 1:
        found.remove(NONE)
    meant = question.stands_for.get(", ".join(found), "")
    other = plain(text).replace(meant, " ")
    if meant and not all(each in other for each in found if each != meant):  # `oil, hot water radiators`
        found = [meant]
    if len(found) > 1 and " and " not in text and not re.search(r"\d", text):
        found = [each for each in found if _is_told(each, text, question)] or found
    if len(found) > 1 and question.form == EVIDENCE:
        found = [max(found, key=words.index)]
    if len(found) > 1 and not question.several:
        fail(ONE_CHOICE, known=", ".join(words))
    return ", ".join(found)


def _is_told(word: str, text: str, question: Question) -> bool:
    """Whether a choice stands by itself beside another one: of words such as `tank`, only with what tells which, such as `electric`."""
    needs = question.beside_needs.get(word, ())
    return not needs or not set(needs).isdisjoint(WORDS.findall(plain(text)))


def choices_in(text: str, question: Question, starter: Starter) -> tuple[list[str], list[str]]:
    """The choices that a text names, and what of it says nothing of them.

    Raises:
        InputError: it names none, or something that may be another choice.
    """
    names = _names(question)
    whole = names.find(text)
    if whole:
        return [whole], []
    text = THOUSANDS.sub("", text)  # `2,640 ft2` is not the second choice
    by_what = None if question.of_what_comes else REPLACED.search(text)
    if by_what is not None and by_what.start():
        of_today, more = choices_in(text[: by_what.start()], question, starter)
        return of_today, [*more, by_what[0].strip(" ,;")]
    second = ONE_AND_OTHER.search(text) if question.twice else None
    text = first_and_second(text) if second and any(each in second[0].lower() for each in OTHER_ONE) else text
    rest = IN_BRACKETS.sub(" ", text)
    left = [each.strip() for each in IN_BRACKETS.findall(text)] if rest.strip() else []
    found: list[str] = []
    unknown: list[str] = []
    for part in chosen((rest if rest.strip() else text).replace(";", ",").replace(" and ", ",")):
        word, beside = names.find(part) or _among(part, names, starter, later=question.several and not question.ask_today), ""
        if word is None:
            word, beside = _with_place(part, names, starter)
        if word is None and question.several and _is_denied(part, question, starter):
            left.append(part)
            continue
        every = {} if word else _inside(part, question, starter)
        beside_them = {each: "" for each in found if each not in every} | every
        inside = {each: said for each, said in of_their_own(beside_them, choices_by_words(question)).items() if each in every}
        if every and not inside:
            left.append(part)
            continue
        if inside and set(WORDS.findall(plain(without(part, *inside.values())))) - passed_words(starter.words):
            beside = part
        found += [word] if word else list(inside)
        unknown += [] if word or inside else [part]
        left += [beside] if beside else []
    passed = found and (question.ask_today or not question.several) and not any(map(not_known, unknown))
    for part in unknown:
        nearest = Names((each, each) for each in question.choices).nearest(part)
        if found and question.twice and _tells_more(part, question, starter):
            continue
        if not passed or nearest:
            if question.ask_today and any(each in plain(part).split() for each in starter.words.later):
                fail(PLANNED_LATER, text=part)
            fail(NO_CHOICE, text=part, known=", ".join(question.choices), nearest=nearest)
    if not found:
        fail(NO_CHOICE, text=text, known=", ".join(question.choices))
    alone = [each for each in found if each in question.twice] if second else []
    if len(alone) == 1:  # `a charger now and one in two years`
        found = [question.twice.get(each, each) for each in found]
    return _of_twice(found, question), [*unknown, *left]


def choice_named(text: str, question: Question, starter: Starter) -> str | None:
    """The one choice that a text names, or nothing."""
    names = _names(question)
    return names.find(text) or _among(text, names, starter)


def _names(question: Question) -> Names[str]:
    words = list(question.choices)
    also = [(other, word) for word, choice in question.choices.items() for other in choice.also]
    written = [
        (choice.writes, word) for word, choice in question.choices.items() if choice.writes and choice.writes not in YES_NO
    ]
    return Names([*((word, word) for word in words), *((str(at), word) for at, word in enumerate(words, 1)), *also, *written])


def _of_twice(found: list[str], question: Question) -> list[str]:
    """Choices, each once; one that was named twice as that which stands for two, where there is one."""
    return list(dict.fromkeys(question.twice.get(each, each) if found.count(each) > 1 else each for each in found))


def _tells_more(text: str, question: Question, starter: Starter) -> bool:
    """Whether a part of an answer tells only what is asked of a choice after it, such as `one now, one in two years`, or `hardwired`."""
    words = starter.words
    known = {
        *words.fillers,
        *words.later,
        *words.times,
        *words.numbers,
        *words.places,
        *words.ordinals,
        *words.whens,
        *words.ends,
    }
    if SIZE_ALONE.fullmatch(text.strip()) or set(map(plain, known)).issuperset(plain(text).split()):
        return True
    asked = [each for each in starter.questions.values() if question.id in each.when and each.form == DETAIL]
    return any(_names(each).find(text) for each in asked if each.choices)


def _with_place(text: str, names: Names[str], starter: Starter) -> tuple[str | None, str]:
    """The choice before a word of place, such as `electric dryer in the hall`, and the rest; nothing where it is no choice."""
    words = text.split()
    at = next((at for at, each in enumerate(words) if at and plain(each) in PLACES), 0)
    if any(
        names.find(each) for each in words[at:] if at and len(each) > 1 and not each.isdigit()
    ):  # `gas stove but electric oven`
        return None, ""
    before = " ".join(words[:at])
    found = (names.find(before) or _among(before, names, starter)) if at else None
    return found, " ".join(words[at:]) if found else ""


def _is_denied(text: str, question: Question, starter: Starter) -> bool:
    """Whether a part of an answer only denies what may be chosen, such as `no heat pump` beside what there is."""
    said = plain(text).split()
    every = choices_by_words(question)
    return said[0] in starter.words.denies and bool(among(" ".join(said[1:]), every))


def _inside(text: str, question: Question, starter: Starter) -> dict[str, str]:
    """The choices that stand in a part of an answer among other words; nothing where it denies something, or says one or another."""
    words = set(WORDS.findall(plain(text)))
    every = choices_by_words(question)
    found = among(INSTEAD.sub("", text), every)
    doubtful = "or" in words or not words.isdisjoint((*starter.words.denies, *starter.words.later))
    joined = question.several and JOINS.search(text) is not None
    return found if found and not doubtful and (len(found) == 1 or joined) else {}


def _among(text: str, names: Names[str], starter: Starter, *, later: bool = False) -> str | None:
    """The choice that a text names among words that change nothing, such as `gas furnace with a fan`; nothing where it names two, or none.

    Of what is planned, words that tell that it comes later change nothing either, since that is asked.
    """
    words = plain(text).split()
    fillers = set(map(plain, (*starter.words.fillers, *(starter.words.later if later else ()))))
    found = set()
    for length in range(len(words), 0, -1):
        for at in range(len(words) - length + 1):
            rest = [*words[:at], *words[at + length :]]
            meant = names.find(" ".join(words[at : at + length])) if fillers.issuperset(rest) else None
            found |= {meant} if meant else set()
    return found.pop() if len(found) == 1 else None
