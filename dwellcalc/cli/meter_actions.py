"""``dwellcalc meter``: a file of readings judged by itself, or for a home."""

from __future__ import annotations

import datetime
import json
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path

from dwellcalc.cli.printing import print_blocks, print_json
from dwellcalc.cli.progress_line import progress_line
from dwellcalc.decide.amendments import amended_for
from dwellcalc.decide.assess import version
from dwellcalc.decide.choices import chosen
from dwellcalc.decide.document import FORMAT
from dwellcalc.decide.edition import rules_for
from dwellcalc.decide.instructions import read_instructions
from dwellcalc.decide.record import judged
from dwellcalc.decide.record_document import NOT_USABLE
from dwellcalc.decide.recorded import with_record
from dwellcalc.decide.supply import SupplyAssessor
from dwellcalc.decide.unknowns import at_largest
from dwellcalc.evaluate.sheet import as_json
from dwellcalc.glossary import Glossary
from dwellcalc.home import Home, home_from_node, home_from_text
from dwellcalc.home.meters import Meter
from dwellcalc.home.supplies import SERVICE
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.placed import Text, key, text_at
from dwellcalc.problems import InputError, Problems, Source, fail, message
from dwellcalc.reading import read_file
from dwellcalc.report.record_pages import meter_pages

METER = "meter:"
ALONE = message(
    "meter_alone",
    "what a file does not tell is said in a home file, and none was named",
    "name one with `--home`: `home:`, `service:`, `dwelling units:`, and under `meter:` what was asked",
)
NO_RECORDS = message("meter_no_records", "the rules of {edition} judge no record of a meter")


def judge_meter(file: str, home: str, edition: str, *, rules: Path | None, form: str) -> int:
    """Judge a file of readings; 0 where it may stand for the existing load, 1 where it may not."""
    today = datetime.date.today().isoformat()
    with progress_line() as progress:
        progress("reading the rules")
        rule_set, read = _home_of(file, home, edition, rules)
        instructions = read_instructions(rule_set)
        if instructions.record is None:
            fail(NO_RECORDS, edition=rule_set.title)
        progress(f"reading {file}")
        with _telling_of_home(alone=not home):
            made, recorded = with_record(read, rule_set, instructions, read.date or today)
        assert recorded is not None
        progress("judging the record")
        supply = next(each for each in made.supplies if each.id == recorded.supply)
        choices = chosen(rule_set, read.interpretations, Problems())
        largest = at_largest(SupplyAssessor(rule_set, instructions, supply, choices))
        found = judged(SupplyAssessor(rule_set, instructions, largest, choices), recorded, instructions.record)
    if form == "json":
        document = {
            "format": FORMAT,
            "engine_version": version(),
            "rule_set": {"id": rule_set.id, "digest": rule_set.digest},
            "date": read.date or today,
            "record": as_json(found),
        }
        print_json({**document, "cautions": list(instructions.cautions)})
    else:
        print_blocks(meter_pages(found, rule_set.title, instructions.cautions, alone=not home), form)
    return 1 if found.verdict == NOT_USABLE else 0


@contextmanager
def _telling_of_home(*, alone: bool) -> Iterator[None]:
    """Say how the command takes a home file, where it was given none and the file must be told how to be read."""
    try:
        yield
    except InputError as error:
        problems = Problems()
        if alone and any(METER in problem.hint for problem in error.problems):
            problems.add(ALONE)
        raise InputError([*error.problems, *problems.found]) from None


def _home_of(file: str, home: str, edition: str, folder: Path | None) -> tuple[RuleSet, Home]:
    """The home that a file is judged for; without one, a dwelling of which nothing else is known."""
    if not home:
        rules = rules_for(None, edition, folder)
        return rules, replace(_unknown_dwelling(file, rules.glossary), meter=_meter(file))
    node = read_file(home)
    code = node.get(key("code"))
    rules = rules_for(code if isinstance(code, Text) else None, edition, folder)
    read = home_from_node(node, rules.glossary, Path(home).parent)
    meter = _meter(file) if read.meter is None else replace(read.meter, file=text_at(file, read.meter.file))
    return amended_for(read, rules, beside=Path(home).parent, folder=folder), replace(read, meter=meter, folder=Path())


def _meter(file: str) -> Meter:
    named = Text(file)
    named.source, named.line, named.column = Source("the command", file), 1, 1
    return Meter(named, SERVICE, {}, 0.0, {}, {}, (), None)


def _unknown_dwelling(file: str, glossary: Glossary) -> Home:
    system = next(iter(glossary.systems))
    text = f"home: {json.dumps(file)}\nservice: {{system: {json.dumps(system)}}}\ndwelling_units: [{{areas: [{{}}]}}]\n"
    return home_from_text(text, file, glossary)
