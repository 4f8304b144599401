"""What keeps a sheet preliminary: what its answer and its readings leave open, and what is to be filled in to clear it."""

from __future__ import annotations

from dwellcalc.decide.choices import BY_HOME
from dwellcalc.decide.document import OPEN, Assessment, InterpretationResult, OptionResult, SupplyResult
from dwellcalc.report.wording import counted


def to_clear(found: Assessment) -> str:
    """What is to be filled in for the sheet to be no longer preliminary, in a sentence; empty where nothing is open."""
    every = [each for supply in found.supplies for each in supply.interpretations]
    readings = dict.fromkeys(each.cite.partition(",")[0] for each in every if each.chosen_by != BY_HOME and _turns(each))
    facts = sum(len(supply.facts_not_verified) for supply in found.supplies)
    parts = [
        *([] if found.home["confirmed_by"] else ["who confirmed the edition"]),
        *([f"how {' and '.join(readings)} is read"] if readings else []),
        *([f"{counted(facts, 'fact')} not verified"] if facts else []),
        *(["what the verdict or its conditions wait for"] if any(answer_opens(each, "") for each in found.supplies) else []),
    ]
    return f"What the maker of this sheet has to settle for it to be final: {'; '.join(parts)}." if parts else ""


def answer_opens(supply: SupplyResult, of: str) -> str:
    """What the answer itself leaves open."""
    if supply.basis is None or supply.verdict == OPEN:
        return f"the verdict{of}"
    return f"the conditions of the answer{of}" if supply.conditions else ""


def readings_open(supply: SupplyResult, of: str) -> str:
    """That the answer turns on readings of the code which nobody chose: its verdict, the conductors, the settings that fit."""
    differ = any(_turns(each) for each in supply.interpretations if each.chosen_by != BY_HOME)
    return f"readings of the code{of}" if differ else ""


def _turns(found: InterpretationResult) -> bool:
    """Whether the verdict, the conductors or the settings that fit turn on a reading."""
    return found.flips or len({(option.verdict, option.conductors, _settings_of(option)) for option in found.options}) > 1


def _settings_of(option: OptionResult) -> tuple[tuple[str, float], ...]:
    return tuple((option.settings or {}).items())
