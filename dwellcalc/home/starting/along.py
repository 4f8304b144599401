"""What is typed along with an answer: the questions that it answers too, with their words."""

from __future__ import annotations

from dataclasses import replace

from dwellcalc.glossary import Glossary

from .answers import Answers, Step
from .completed import Completion
from .plausible import Plausible
from .questions import AREA, KEY, Question
from .said import TOLD, said_of
from .spoken import along_rest, counts_told, told_along, words_told

Told = tuple[str, list[tuple[Step, str]]]


def told_with(step: Step, typed: str, answers: Answers, glossary: Glossary) -> Told:
    """An answer without what was typed along with it, and the questions that this answers, with their words."""
    work = answers.work.word
    every = answers.starter.questions.values()
    others = [each for each in every if each.along == step.question.id and (not each.works or work in each.works)]
    alone = _one(step, typed, others, answers, glossary)
    if alone is not None:
        return alone
    text, amounts = told_along(typed, [each for each in others if not (each.only_along or each.choices)], answers.starter.words)
    asked = {each.question.id for each in answers.steps() if each.unit == step.unit}  # those of this kind of work
    text, chosen = words_told(text, [each for each in others if each.choices and each.id in asked and not each.by_rating])
    along = amounts | chosen
    rests = said_of(text, answers.starter, glossary).evidence or TOLD  # of areas told in one sentence all rest on the same
    made = {each.id: f"{along[each.id]}, {rests}" if each.form == AREA else along[each.id] for each in others if each.id in along}
    return text, [(replace(step, question=each), made[each.id]) for each in others if each.id in made]


def told_in_rest(step: Step, rest: str, answers: Answers, told: list[tuple[Step, str]]) -> list[tuple[Step, str]]:
    """The choices of questions of a key that what stands beside an answer names and nothing told before."""
    every = answers.starter.questions.values()
    others = [each for each in every if each.along == step.question.id and each.choices and each.form == KEY] if rest else []
    found = words_told(f"- {rest}", others)[1]
    known = {each.question.id for each, _ in told}
    return [(replace(step, question=each), found[each.id]) for each in others if each.id in found and each.id not in known]


def _one(step: Step, typed: str, others: list[Question], answers: Answers, glossary: Glossary) -> Told | None:
    """An answer that is a rating, has another one after its comma, or two counts; nothing where it is none of these."""
    for other in others:
        completion = Completion(other, answers, glossary)
        rating = (
            completion.of(typed) if other.by_rating and any(map(str.isalpha, typed)) else None
        )  # a number alone is of a choice
        if rating and Plausible(other, answers, glossary).rating(completion.said(rating.text)):
            return other.by_rating, [(replace(step, question=other), rating.text)]
    for other in others if "," in typed else ():
        told = along_rest(typed, other, answers)
        if told:
            return typed.partition(",")[0], [(replace(step, question=other), told)]
    for other in others:
        counts = counts_told(typed, step.question, other) if other.only_along else None
        if counts:
            return counts[0], [(replace(step, question=other), counts[1])]
    return None
