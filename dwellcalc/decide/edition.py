"""Which edition a home is assessed under: the one that is asked for, that the home names, or the default."""

from __future__ import annotations

from pathlib import Path

from dwellcalc.evaluate.check import check_edition
from dwellcalc.language.rule_set import RuleSet, editions_in, installed_folder, load_rules
from dwellcalc.placed import Text
from dwellcalc.problems import InputError, Place, fail, message, nearest_name

NOT_OFFERED = message("edition_not_offered", 'the edition "{edition}" is not offered yet', "offered: {known}")
NO_SUCH_EDITION = message("home_no_edition", 'there is no edition "{edition}"', "offered: {known}")


def rules_for(code: Text | None, wanted: str, folder: Path | None) -> RuleSet:
    """The rule set of an edition.

    Args:
        code: what the home file names, if it does.
        wanted: what is asked for instead, or empty.
        folder: a folder of rules, or the package's own.

    Raises:
        InputError: there is no such edition, it is not offered, its rules do not load, or rules from outside the package
            cannot be proved.
    """
    known = editions_in(folder or installed_folder())
    place = code.place if code is not None and not wanted else None
    edition = _spelled(wanted or str(code or ""), known) or _default(known, folder)
    if known and edition not in known:
        offered = _offered(load_rules(known[-1], folder))
        near = nearest_name(edition, offered)
        fail(NO_SUCH_EDITION, place, edition=edition, known=", ".join(offered), nearest=near)
    rules = load_rules(edition, folder)
    _check_offered(rules, place)
    if folder is not None:  # rules from outside the package are proved; its own are proved before they are shipped
        found = check_edition(edition, folder)
        if found:
            raise InputError(found)
    return rules


def _spelled(edition: str, known: list[str]) -> str:
    """An edition as people write it: ``NEC 2023`` is ``nec/2023``."""
    spelled = "/".join(edition.casefold().replace("/", " ").split())
    return spelled if spelled in known else edition


def _default(known: list[str], folder: Path | None) -> str:
    if not known:
        return ""
    newest = load_rules(known[-1], folder)
    return str(newest.assessment.get("default", newest.id))  # type: ignore[call-overload]


def _offered(rules: RuleSet) -> list[str]:
    return [str(each) for each in rules.assessment.get("offered", [])]  # type: ignore[call-overload]


def _check_offered(rules: RuleSet, place: Place | None) -> None:
    offered = _offered(rules)
    if rules.id not in offered:
        fail(NOT_OFFERED, place, edition=rules.id, known=", ".join(offered))
