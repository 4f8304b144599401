"""The package's own rules and questions, which do not change, loaded once for all tests; those of other folders are read each time."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cache
from pathlib import Path

import pytest
from examples import rules_of

from dwellcalc.glossary import Glossary
from dwellcalc.home.starting.question_reader import read_starter
from dwellcalc.home.starting.starter import Starter
from dwellcalc.language.rule_set import RuleSet, load_rules

RULES = (
    "dwellcalc.decide.edition.load_rules",
    "dwellcalc.cli.actions.load_rules",
    "dwellcalc.cli.compare_actions.load_rules",
)
QUESTIONS = ("dwellcalc.cli.start_actions.read_starter", "dwellcalc.review.label_figures.read_starter")


@cache
def _own_questions() -> Starter:
    return read_starter(None, rules_of("nec/2023").glossary)


def _questions(folder: Path | None, glossary: Glossary) -> Starter:
    return _own_questions() if folder is None else read_starter(folder, glossary)


def _rules(edition: str, folder: Path | None = None, amendments: Sequence[Path] = ()) -> RuleSet:
    return rules_of(edition) if folder is None and not amendments else load_rules(edition, folder, amendments)


@pytest.fixture(autouse=True, scope="session")
def own_rules_loaded_once() -> Iterator[None]:
    with pytest.MonkeyPatch.context() as patch:
        for loader in RULES:
            patch.setattr(loader, _rules)
        for reader in QUESTIONS:
            patch.setattr(reader, _questions)
        yield
