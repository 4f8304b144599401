"""The settings of a planned load: what a supply must carry with each, against its capacity."""

from __future__ import annotations

from dwellcalc.decide.decision import SettingResult, SettingsResult, SupplyAt
from dwellcalc.decide.document import NOTHING
from dwellcalc.report.decision_pages import shown_settings
from dwellcalc.report.pictures.bars import Bar, Limit, Row, bars
from dwellcalc.report.pictures.picture import Picture
from dwellcalc.report.pictures.printed import amperes
from dwellcalc.report.tables import Table
from dwellcalc.report.wording import lowered

NONE = float(0)
COUNTED = "counted"
At = tuple[SettingResult, SupplyAt]


def settings_picture(load: SettingsResult, supply_id: str, capacity: float | None) -> Picture | None:
    """What a supply must carry with each setting of a load; of a free range, with those that tables show.

    Args:
        load: the load with its settings.
        supply_id: the id of the supply.
        capacity: of the supply [A], or nothing.

    Returns:
        The picture; nothing where the supply does not carry the load, or no setting has a figure.
    """
    shown = [(each, at) for each in shown_settings(load) for at in each.supplies if at.supply == supply_id]
    if all(at.amperes is None for _, at in shown):
        return None
    limits = [] if capacity is None else [Limit(capacity, f"Capacity {amperes(capacity)}")]
    supply = shown[0][1].title
    title = f"{supply}: the load with each setting of {load.load}"
    drawing = bars([_row(each, at) for each, at in shown], limits)
    return Picture(title, _says(load, shown, capacity), drawing.finished(), _numbers(title, shown, capacity))


def _row(setting: SettingResult, at: SupplyAt) -> Row:
    label = ", ".join([f"Set to {setting.setting:g} A", *_words(setting, at)])
    if at.amperes is None:
        return Row(label, notes=["cannot be calculated"])
    return Row(label, amperes(at.amperes), bar=Bar(NONE, at.amperes, "taken" if setting.counted else "part"))


def _words(setting: SettingResult, at: SupplyAt) -> list[str]:
    verdict = [] if at.verdict == NOTHING else [at.verdict]
    return [*verdict, *([COUNTED] if setting.counted else [])]


def _says(load: SettingsResult, shown: list[At], capacity: float | None) -> str:
    against = "" if capacity is None else f", capacity {amperes(capacity)}"
    largest = load.largest_that_fits
    everywhere = " in all supplies that carry it" if len(shown[0][0].supplies) > 1 else ""
    best = f"none fits{everywhere}" if largest is None else f"the largest that fits{everywhere} is {largest:g} A"
    best = best if any(at.verdict != NOTHING for _, at in shown) else "there is no rating to compare with"
    counted = [f"{each.setting:g} A is counted: {amperes(at.amperes)}" for each, at in shown if each.counted]
    first, last = shown[0], shown[-1]
    ends = [f"{each.setting:g} A gives {amperes(at.amperes)}" for each, at in (first, last)]
    ends = ends if first is not last else ends[:1]
    return f"{shown[0][1].title} with {load.load}: {'; '.join([*ends, *counted, best])}{against}."


def _numbers(title: str, shown: list[At], capacity: float | None) -> Table:
    rows = [
        [f"{each.setting:g} A", amperes(at.amperes), amperes(at.margin), "; ".join(_words(each, at)), lowered(at.by)]
        for each, at in shown
    ]
    if capacity is not None:
        rows.append(["Capacity", amperes(capacity), "", "", ""])
    return Table(title, ["Setting", "Load", "Margin", "Verdict", "By"], rows, ["right", "right", "right", "left", "left"])
