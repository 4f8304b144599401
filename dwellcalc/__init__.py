"""Calculation of residential electrical services from declarative rules.

The public interface is what the command itself uses: ``load_rules``, ``read_home``, ``amended_for``, ``assess``. They are imported when
they are first asked for, so that ``import dwellcalc`` is quick.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from dwellcalc.decide.amendments import amended_for
    from dwellcalc.decide.assess import assess
    from dwellcalc.decide.document import Assessment
    from dwellcalc.home import Home, read_home
    from dwellcalc.language.rule_set import RuleSet, load_rules
    from dwellcalc.problems import InputError

__all__ = ["Assessment", "Home", "InputError", "RuleSet", "amended_for", "assess", "load_rules", "read_home"]

_PLACES = {
    "Assessment": "dwellcalc.decide.document",
    "Home": "dwellcalc.home",
    "InputError": "dwellcalc.problems",
    "RuleSet": "dwellcalc.language.rule_set",
    "amended_for": "dwellcalc.decide.amendments",
    "assess": "dwellcalc.decide.assess",
    "load_rules": "dwellcalc.language.rule_set",
    "read_home": "dwellcalc.home",
}


def __getattr__(name: str) -> Any:
    if name not in _PLACES:
        raise AttributeError(name)
    return getattr(import_module(_PLACES[name]), name)
