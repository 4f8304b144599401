"""What the commands do that compare: read the homes and the rule sets, call the package, print."""

from __future__ import annotations

import datetime
import json
from pathlib import Path

from dwellcalc.cli.printing import print_blocks, print_json
from dwellcalc.cli.progress_line import progress_line
from dwellcalc.compare.compare import compare_editions, compare_homes, compare_interpretations, compare_methods
from dwellcalc.compare.document import EDITIONS, INTERPRETATIONS, METHODS, Comparison
from dwellcalc.decide.amendments import amended_for
from dwellcalc.decide.edition import rules_for
from dwellcalc.decide.instructions import read_instructions
from dwellcalc.home import Home, home_from_node
from dwellcalc.language.rule_set import RuleSet, load_rules
from dwellcalc.placed import Mapping, Text, key
from dwellcalc.problems import fail, message
from dwellcalc.progress import Progress
from dwellcalc.reading import read_file
from dwellcalc.report.comparison import comparison_pages

WHAT = (EDITIONS, METHODS, INTERPRETATIONS)
NOT_WITH = message("compare_not_with", "`{option}` does not go with {what}", "{instead}")
LEFT_ASIDE = "local amendments are left aside here ({names})"
ONE_EDITION = message(
    "compare_one_edition", "there is nothing to compare: only one edition, {known}", "`--editions` names two or more"
)


def compare_home(name: str, other: str, *, what: str, edition: str, editions: list[str], rules: Path | None, form: str) -> int:
    """``dwellcalc compare``: a comparison of a home, or of two; the exit code is 0."""
    _check_options(what, edition, editions, other)
    date = datetime.date.today().isoformat()
    with progress_line() as progress:
        progress("reading the rules and the home")
        node = read_file(name)
        if other:
            found = _two_homes((name, node), (other, read_file(other)), edition, rules, date)
        elif what in ("", EDITIONS):
            found = _editions((name, node), editions, rules, date, progress)
        else:
            rule_set = rules_for(_code(node), edition, rules)
            home = home_from_node(node, rule_set.glossary, Path(name).parent)
            used = amended_for(home, rule_set, beside=Path(name).parent, folder=rules)
            if what == METHODS:
                found = compare_methods(home, used, date=date)
            else:
                found = compare_interpretations(home, used, date=date, progress=progress)
    if form == "json":
        print_json(json.loads(found.json()))
    else:
        print_blocks(comparison_pages(found), form)
    return 0


def _check_options(what: str, edition: str, editions: list[str], other: str) -> None:
    if other and what:
        fail(NOT_WITH, option="--what", what="two homes", instead="two homes are compared by line")
    if editions and (other or what not in ("", EDITIONS)):
        instead = "`--edition` names the one under which to compare"
        fail(NOT_WITH, option="--editions", what="two homes" if other else f"`--what {what}`", instead=instead)
    if edition and not other and what in ("", EDITIONS):
        fail(NOT_WITH, option="--edition", what=f"`--what {EDITIONS}`", instead="`--editions` names those to go through")


def _editions(file: tuple[str, Mapping], editions: list[str], folder: Path | None, date: str, progress: Progress) -> Comparison:
    """The home under the editions that are named, or all that are offered, oldest first."""
    name, node = file
    own = rules_for(_code(node), "", folder)
    offered = editions or list(read_instructions(own).offered)
    several = []
    for number, each in enumerate(offered, start=1):
        progress(f"reading the rules, edition {number} of {len(offered)}")
        several.append(own if each == own.id else rules_for(None, each, folder))
    several = several if editions else sorted(several, key=lambda each: len(each.chain))
    if len(several) < 2:
        fail(ONE_EDITION, known=several[0].title)
    base = next((each for each in several if each.id == own.id), several[-1])
    home = home_from_node(node, base.glossary, Path(name).parent)
    found = compare_editions(home, several, base, date=date, progress=progress)
    if home.amendments:
        found.held.append(f"{LEFT_ASIDE.format(names=', '.join(home.amendments))}: `assess` takes them into account")
    return found


def _two_homes(one: tuple[str, Mapping], other: tuple[str, Mapping], edition: str, folder: Path | None, date: str) -> Comparison:
    rules = rules_for(_code(one[1]), edition, folder)
    first, second = (home_from_node(node, rules.glossary, Path(name).parent) for name, node in (one, other))
    alike = (list(first.amendments), first.dates) == (list(second.amendments), second.dates)
    used = amended_for(first, rules, beside=Path(one[0]).parent, folder=folder) if alike else rules
    found = compare_homes(first, second, used, date=date)
    if not alike:
        names = dict.fromkeys([*first.amendments, *second.amendments])
        found.held.append(f"{LEFT_ASIDE.format(names=', '.join(names))}: they are not the same for both homes")
    for home, told in zip((first, second), found.homes, strict=True):
        found.held += _names_another(home, told["title"], rules, folder)
    return found


def _names_another(home: Home, title: str, rules: RuleSet, folder: Path | None) -> list[str]:
    """That a home names another edition than the one that both are compared under."""
    named = rules if home.code is None else rules_for(home.code, "", folder)
    return [] if named.id == rules.id else [f"{title} names {named.title}; both are calculated under {rules.title}"]


def _code(node: Mapping) -> Text | None:
    code = node.get(key("code"))
    return code if isinstance(code, Text) else None


def diff_rules(first: str, second: str, *, rules: Path | None, form: str) -> int:
    """``dwellcalc rules diff``: what one edition changes against another; the exit code is 0."""
    from dwellcalc.report.rule_diff import rule_diff_pages

    print_blocks(rule_diff_pages(load_rules(first, rules), load_rules(second, rules)), form)
    return 0
