"""What the sheet says of planned loads as a whole: settings, combinations, order of installation, alternatives."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from math import inf

from dwellcalc.decide.decision import (
    AlternativeResult,
    Combination,
    Decision,
    LargerSetting,
    LaterResult,
    OrderResult,
    SettingResult,
    SettingsResult,
    SupplyAt,
)
from dwellcalc.decide.document import DOES_NOT_FIT, FITS, NOTHING, OPEN, Assessment
from dwellcalc.report.later_pages import later_rows
from dwellcalc.report.outcome_later import AT_MOST, CALLED, NOT_SHOWN
from dwellcalc.report.tables import Block, Listing, Paragraph, Table
from dwellcalc.report.unknowns import OTHER_METHODS, at_largest
from dwellcalc.report.wording import and_verdict, listed, lowered

FRACTION = "Where a load that fits is a fraction of an ampere over the capacity, that is under one half and is dropped."
ONE_SUFFICES = "One method that may be used suffices: where the verdict is that it fits, the others need not fit too."
WAITS = "cannot be calculated until its rating is known"
EDGE = 2  # how many settings of a free range are shown on each side of the one that is counted


def decision_rows(found: Assessment) -> list[list[str]]:
    """For each load that can be set, what to install and what one setting more would take."""
    rows = []
    for load in found.decision.settings:
        rows.append([f"Setting of {load.load}", _counted(load)])
        more = _one_more(load)
        if more:
            several = len(found.decision.settings) > 1
            rows.append([f"One setting more of {load.load}" if several else "One setting more", more])
    later = [[f"With {_those(each, found)}, later, not counted above", _with_later(each)] for each in found.decision.later]
    return [*rows, *later, *later_rows(found)]


def _those(later: LaterResult, found: Assessment) -> str:
    """The loads that come later, or that they are all of them."""
    return "all of these" if _all_of_several(later, found.decision) else ", ".join(later.loads)


def _all_of_several(later: LaterResult, decision: Decision) -> bool:
    """Whether these are all that comes later, of which a part was told before."""
    return len(decision.later) > 1 and later is decision.later[-1]


def _with_later(later: LaterResult) -> str:
    """What a supply, or each of several, must carry then, with the verdict."""
    several = len(later.supplies) > 1
    most = AT_MOST if later.at_largest else ""
    at = listed(
        [f"{load} set to {setting:g} A" if later.loads[1:] else f"set to {setting:g} A" for load, setting in later.set_to.items()]
    )
    at = f", {at}" if at else ""
    told = [
        WAITS
        if each.amperes is None
        else f"{_amperes(each.amperes)}{at}{most}, {(later.whatever or NOT_SHOWN) if most and each.verdict == DOES_NOT_FIT else each.verdict}"
        for each in later.supplies
    ]
    return "; ".join(f"{at.title.lower()} {text}" if several else text for at, text in zip(later.supplies, told, strict=True))


def decision_table(found: Assessment) -> list[Block]:
    """The same as a table of its own, for a home with several supplies."""
    rows = decision_rows(found)
    return [Table("What can be set", ["", ""], rows, ["left", "left"])] if rows else []


def _counted(load: SettingsResult) -> str:
    row = next(each for each in load.settings if each.counted)
    circuit = f"; {_circuit(row)}" if row.circuit is not None else ""
    if load.largest_that_fits is None:
        if load.settings[0].verdict in (DOES_NOT_FIT, OPEN):
            return _none(load)
        called = "as wanted" if load.counted == load.wanted else "at the largest"
        return f"counted {called}, {load.counted:g} A{circuit}"
    return f"{load.counted:g} A{load.against_wanted()}{circuit}"


def _none(load: SettingsResult) -> str:
    """What is said of a load of which no setting fits with all that is planned."""
    fits = "none fits" if load.settings[0].verdict == DOES_NOT_FIT else "none is shown to fit"
    alone = next((each for each in load.settings if each.setting == load.largest_alone), None)
    if alone is None:
        return f"{fits}; counted at {load.counted:g} A"
    circuit = f"; {_circuit(alone)}" if alone.circuit is not None else ""
    return f"{fits} with all that is planned, counted at {load.counted:g} A; without the rest of it {alone.setting:g} A{circuit}"


def _circuit(row: SettingResult) -> str:
    """The device of a setting's circuit, and its conductors."""
    assert row.circuit is not None
    return f"breaker {row.circuit.breaker}, {row.circuit.conductors_in_short()}"


def _one_more(load: SettingsResult) -> str:
    if load.largest_that_fits is None:
        return ""
    larger = [each for each in load.settings if each.setting > load.counted]
    return _takes(larger[0]) if larger else ""


def _takes(row: SettingResult) -> str:
    """What a setting would take that is not counted."""
    short = [each for each in row.supplies if each.verdict == DOES_NOT_FIT]
    if row.verdict == FITS or not short:
        return f"{row.setting:g} A {row.verdict}" + (f"; {_circuit(row)}" if row.circuit is not None else "")
    shown = [f"{each.title.lower()} {_amperes(each.amperes)}{_rating(each)}" for each in short]
    return f"{row.setting:g} A does not fit; it would take {'; '.join(shown)}"


def _rating(at: SupplyAt) -> str:
    return "" if at.minimum_rating is None else f", a rating of {_amperes(at.minimum_rating, 0)}"


def decision_blocks(found: Assessment) -> list[Block]:
    """The tables of settings, combinations and alternatives, and the order of installation."""
    decision = found.decision
    sections = {sheet.title: sheet.cite for supply in found.supplies for sheet in supply.methods}
    blocks = [block for load in decision.settings for block in _settings(load, sections, several=len(found.supplies) > 1)]
    if decision.combinations:
        blocks.append(_combinations(decision))
    if decision.order is not None:
        blocks += _order(decision.order)
    if decision.alternatives:
        blocks.append(_alternatives(decision.alternatives))
    for each in decision.later:
        of = ", with all of it" if _all_of_several(each, decision) else ""
        of = f"later, not counted above{of}"
        several = len(found.supplies) > 1
        blocks += [block for load in each.of_settings for block in _settings(load, sections, several=several, of=of)]
        if each.alternatives:
            called = CALLED.format(loads=", ".join(each.loads))
            blocks.append(_alternatives(each.alternatives, f"{called}, each line by itself"))
    blocks += [Paragraph(FRACTION)] if _drops_a_fraction(found) else []
    worst = at_largest(*found.supplies)
    return [replace(each, title=f"{each.title}{worst}") if isinstance(each, Table) else each for each in blocks]


def _drops_a_fraction(found: Assessment) -> bool:
    """Whether an alternative fits with a fraction of an ampere over what its supply may carry."""
    larger = [each for load in found.decision.settings for each in load.larger]
    every = [*found.decision.alternatives, *(each for one in larger for each in one.alternatives)]
    every += [each for one in found.decision.later for each in one.alternatives]
    capacity = {each.title: each.sizing.capacity for each in found.supplies if each.sizing is not None}
    over = (
        (each.amperes or 0) - (capacity.get(each.supply) or inf) for each in every if each.verdict == FITS and not each.larger
    )
    return any(0 < each < 1 for each in over)


def _settings(load: SettingsResult, sections: Mapping[str, str], *, several: bool, of: str = "") -> list[Block]:
    """The settings of a load: a row for each, or for each with each supply that carries the load; ``of`` says when it comes."""
    compared = any(supply.verdict != NOTHING for each in load.settings for supply in each.supplies)
    methods = list(dict.fromkeys(each.title for row in load.settings for each in row.methods if each.title not in _bases(row)))
    rows = [_row(each, at, several, compared, methods) for each in shown_settings(load) for at in range(len(each.supplies))]
    circuits = [each.circuit for each in load.settings if each.circuit is not None]
    columns = ["Breaker", *circuits[0].in_short] if circuits else []
    supply, figures = ["Supply"] if several else [], ["Margin", "Verdict"] if compared else ["Which is counted"]
    head = ["Setting", *columns, *supply, "Load", *figures, *(sections.get(each, each) for each in methods)]
    aligned = ["right", *("right" for _ in columns), *("left" for _ in supply), "right", "right" if compared else "left"]
    title = f"Settings of {load.load}{', ' if of else ''}{of}" + (
        ", every whole ampere; those at the edges are shown" if load.free else ""
    )
    limits = dict.fromkeys(limit for row in load.settings for limit in row.limited_by.items() if limit[1])
    shown = "; ".join(f"{name}, by the {element[:1].lower()}{element[1:]}" for name, element in limits)
    blocks: list[Block] = [Table(title, head, rows, aligned)]
    blocks += [Paragraph(f"{'; '.join(f'{sections.get(each, each)}: {lowered(each)}' for each in methods)}.")] if methods else []
    blocks += [Paragraph(ONE_SUFFICES)] if any(_by_one_alone(each) for each in load.settings) else []
    blocks += [Paragraph(OTHER_METHODS)] if methods and of else []
    blocks += [Paragraph(f"What limits: {shown}.")] if limits else []
    return blocks + [_larger(load.load, each) for each in load.larger]


def _by_one_alone(setting: SettingResult) -> bool:
    """Whether a setting fits by the method that is taken, and not by another."""
    return setting.verdict == FITS and any(each.verdict == DOES_NOT_FIT for each in setting.methods)


def _larger(load: str, found: LargerSetting) -> Block:
    """What would let a load be set to more."""
    title = f"What would let {load} be set to {found.setting:g} A, each line by itself"
    if not found.alternatives:
        return Paragraph(f"Nothing that is tried here by itself lets {load} be set to {found.setting:g} A.")
    return _alternatives(found.alternatives, title)


def _bases(setting: SettingResult) -> set[str]:
    return {each.by for each in setting.supplies}


def _row(setting: SettingResult, at: int, several: bool, compared: bool, methods: Sequence[str]) -> list[str]:
    supply = setting.supplies[at]
    others = {
        each.title: f"{_amperes(each.amperes)}{and_verdict(each.verdict)}"
        for each in setting.methods
        if each.supply == supply.supply
    }
    circuit = [] if setting.circuit is None else [setting.circuit.breaker, *setting.circuit.in_short.values()]
    counted = "counted" if setting.counted and at == 0 else ""
    verdict = f"{supply.verdict}; counted" if counted else supply.verdict
    return [
        *(text if at == 0 else "" for text in (f"{setting.setting:g} A", *circuit)),
        *([supply.title] if several else []),
        _amperes(supply.amperes),
        *([_amperes(supply.margin), verdict] if compared else [counted]),
        *(others.get(title, "") for title in methods),
    ]


def shown_settings(load: SettingsResult) -> list[SettingResult]:
    """All listed settings; of a free range the ends and those about the one that is counted."""
    if not load.free:
        return load.settings
    at = next(place for place, each in enumerate(load.settings) if each.setting == load.counted)
    ends = {0, len(load.settings) - 1}
    places = (
        ends if load.largest_that_fits is None else {*ends, *range(max(0, at - EDGE), min(len(load.settings), at + EDGE + 1))}
    )
    return [load.settings[place] for place in sorted(places)]


def _lines(supplies: Sequence[SupplyAt], several: bool, shown: object) -> str:
    assert callable(shown)
    return "\n".join(f"{each.title}: {shown(each)}" if several else shown(each) for each in supplies)


def _amperes(value: float | None, decimals: int = 2) -> str:
    return "-" if value is None else f"{value:,.{decimals}f} A"


def _combinations(decision: Decision) -> Table:
    loads = [load.load for load in decision.settings]
    rows = [
        [*(f"{one.settings[load]:g} A" for load in loads), _loads(one), "counted" if one.taken else ""]
        for one in decision.combinations
    ]
    title = "Settings that fit together, and that no other fitting combination exceeds in all"
    return Table(title, [*loads, "Load", "Which is counted"], rows, ["right"] * len(loads))


def _loads(one: Combination) -> str:
    several = len(one.supplies) > 1
    return "\n".join(f"{each.title}: {_amperes(each.amperes)}" if several else _amperes(each.amperes) for each in one.supplies)


def _order(order: OrderResult) -> list[Block]:
    rows = []
    for step in order.steps:
        several = len(step.supplies) > 1
        rows.append([step.load, _lines(step.supplies, several, lambda at: _amperes(at.amperes)), step.verdict])
    title = "Installed one after the other" + (", each at its smallest setting" if order.at_smallest else "")
    blocks: list[Block] = [Table(title, ["Then", "Load", "Verdict"], rows, ["left", "right"])]
    if order.works:
        blocks.append(Paragraph(f"Fits at every step in this order: {', '.join(order.works)}."))
    elif not order.together:
        blocks.append(Paragraph("In this order it fits at every step; in another order it may not."))
    if order.together:
        shown = [
            ", ".join(f"{load} set to {settings[load]:g} A" if load in settings else load for load in chosen)
            for chosen, settings in zip(order.together, order.settings, strict=True)
        ]
        title = "Not all that is planned fits together. What does, each line by itself, with the largest settings that then fit:"
        blocks += [Paragraph(title), Listing(shown)]
    return blocks


def _alternatives(alternatives: Sequence[AlternativeResult], called: str = "What else could be done") -> Table:
    """A row for each kind of alternative and verdict, with a line for each of its kind."""
    rows = []
    for title, verdict in dict.fromkeys((each.title, each.verdict) for each in alternatives):
        alike = [each for each in alternatives if (each.title, each.verdict) == (title, verdict)]
        first = alike[0]
        needs = f"{first.needs} ({first.cite})" if first.cite else first.needs
        rows.append([title, "\n".join(_alternative(each) for each in alike), verdict, needs])
    head = ["Alternative", f"What, and the load then of {alternatives[0].supply.lower()}", "Verdict", "What it needs"]
    return Table(called, head, rows)


def _alternative(found: AlternativeResult) -> str:
    brings = f", {_amperes(found.brings)} less" if found.brings else ""
    larger = f"; larger too: {', '.join(found.larger)}" if found.larger else ""
    return f"{found.what}: {_amperes(found.amperes)}{brings}{larger}"
