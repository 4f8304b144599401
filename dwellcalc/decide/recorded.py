"""The record that a home names: read, measured, and its figures put among the facts of the supplies that it is of."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date

from dwellcalc.decide.choices import chosen
from dwellcalc.decide.instructions import Instructions
from dwellcalc.decide.record_plan import RecordPlan
from dwellcalc.evaluate.traced import Evaluation, plan_of
from dwellcalc.facts import Facts, Origin
from dwellcalc.home import Home
from dwellcalc.home.meters import RECORD, Meter, measured_by
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.meter.bill_sums import bill_remarks
from dwellcalc.meter.cleaned import cleaned
from dwellcalc.meter.clocks import Clocks
from dwellcalc.meter.figures import Bill, Change, Figures, Stated, Terms
from dwellcalc.meter.measures import figures_of
from dwellcalc.meter.order_remarks import order_remarks
from dwellcalc.meter.profile import Profile, profile_of
from dwellcalc.meter.read import read_record
from dwellcalc.meter.record import Readings, Said, seconds_of
from dwellcalc.meter.serving import serving
from dwellcalc.problems import Problems


@dataclass
class Recorded:
    """A record that was read.

    Attributes:
        supply: the id of the supply that it is of.
        meter: what the home says of it.
        readings: the file.
        profile: the last year of the channel that serves.
        figures: what was measured in that.
        remarks: what was noticed on the way.
        taken: which channel serves, and by which clock its days are counted, in words.
    """

    supply: str
    meter: Meter
    readings: Readings
    profile: Profile
    figures: Figures
    remarks: list[str]
    taken: list[str]

    @property
    def clocks(self) -> Clocks:
        """By which clock its times are told."""
        return Clocks(self.profile, self.readings.stamps)


def with_record(home: Home, rules: RuleSet, instructions: Instructions, today: str) -> tuple[Home, Recorded | None]:
    """The home with the figures of its record among its facts; itself where it names none.

    Args:
        home: the home.
        rules: the rule set, whose terms the figures are taken by.
        instructions: what its assessment file says.
        today: the date of the assessment, year-month-day.

    Raises:
        InputError: the file cannot be read, or must be told how to be read.
    """
    plan = instructions.record
    if home.meter is None or plan is None:
        return home, None
    facts = next(supply.facts for supply in home.supplies if supply.id == home.meter.on)
    recorded = _recorded(home, home.meter, _terms(plan, rules, facts, chosen(rules, home.interpretations, Problems())), today)
    measured = {each.id for each in measured_by(home.meter, home.supplies)}
    supplies = [
        replace(each, facts=_filled(each.facts, home.meter, recorded.figures)) if each.id in measured else each
        for each in home.supplies
    ]
    return replace(home, facts=supplies[0].facts, supplies=supplies), recorded


def said_of(meter: Meter) -> Said:
    """How the file is to be read, as far as the home says it."""
    texts: Mapping[str, str] = {name: str(text) for name, text in meter.read_by.items()}
    places = {name: text.place for name, text in meter.read_by.items()}
    flags = {word: str(meaning) for word, meaning in meter.flags.items()}
    columns = {name: str(heading) for name, heading in meter.columns.items()}
    return Said(**texts, interval=seconds_of(meter.interval), flags=flags, columns=columns, places=places)


def _terms(plan: RecordPlan, rules: RuleSet, facts: Facts, choices: Mapping[str, str]) -> Terms:
    evaluation = Evaluation(plan_of(rules), facts, choices)
    results = rules.methods[plan.method].results
    return Terms(**{name: evaluation.line(results[result]) for name, result in plan.measured_by.items()})


def _recorded(home: Home, meter: Meter, terms: Terms, today: str) -> Recorded:
    said = said_of(meter)
    readings = read_record(home.folder / str(meter.file), said, home.facts.glossary.interval_columns, str(meter.file))
    channel, dropped = cleaned(serving(readings, said))
    profile = profile_of(channel, readings.zone)
    bills = [Bill(date.fromisoformat(each.first), date.fromisoformat(each.last), each.energy) for each in meter.bills]
    changes = (
        None
        if meter.changes is None
        else [Change(date.fromisoformat(each.day), str(each.what), each.adds) for each in meter.changes]
    )
    figures = figures_of(readings, profile, channel, Stated(bills, changes), terms, date.fromisoformat(today))
    taken = [f"the channel {channel.meter or 'without a name'}, {channel.direction}", f"days by the clock of {readings.zone.key}"]
    remarks = [*bill_remarks(bills, profile, terms), *readings.remarks, *order_remarks(dropped, readings.zone)]
    return Recorded(meter.on, meter, readings, profile, figures, remarks, taken)


def _filled(facts: Facts, meter: Meter, figures: Figures) -> Facts:
    origin = Origin(str(meter.file), meter.file.place)
    known = {name: value for name, value in figures.values.items() if name in facts.objects[RECORD]}
    origins = {**facts.origins, **{(RECORD, -1, name): origin for name in known}}
    return replace(facts, objects={**facts.objects, RECORD: {**facts.objects[RECORD], **known}}, origins=origins)
