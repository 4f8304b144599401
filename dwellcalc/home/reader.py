"""Reading a home file: strict YAML, the models made from the glossary, then facts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from dwellcalc.facts import Facts
from dwellcalc.glossary import Glossary
from dwellcalc.placed import Listing, Mapping, Text, key, text_at
from dwellcalc.problems import InputError, Problems
from dwellcalc.reading import read_file, read_text

from .asked import Asked, asked_of
from .context import Context
from .errors import Translation, in_order
from .filling import PLANNED, Filled, fill
from .glossary_names import FROM_SYSTEM, LOADS, PANELS, SOURCES, UNITS
from .keys import with_known_keys
from .marks import refuse_marks
from .meters import Meter, measured_by, meter_of, say_record
from .models import models_for
from .supplies import Supply, supplies_of

NO_FOLDER = Path()


@dataclass
class Home:
    """A home that was read.

    Attributes:
        title: what the home is called.
        code: the code that it names, not checked here.
        amendments: the local amendments that it names, not checked here.
        dates: the dates of the project by what they are of, year-month-day.
        interpretations: the options that it chooses, not checked here.
        confirmed_by: who confirmed edition and amendments.
        date: the date of the calculation, year-month-day, or an empty string.
        absent: what is said to be absent - kinds of load or of area, sources - each with the evidence for that, which may be empty.
        facts: the facts of its service.
        planned: the positions of the planned loads.
        replaced: (planned load, load that it takes the place of), by name.
        settings: for each load that can be set, by position, its settings as they are listed.
        wanted: the setting of those that is wanted, by position.
        free: the positions of the loads of which every whole ampere of a range is a setting.
        priorities: for each planned load that has one, by position, which goes first: the smaller number.
        supplies: the service first, then the feeders in the order of the file.
        meter: the record of its meter that it names, or nothing.
        folder: where the home file stands, so that files that it names are found.
        written: the text of the whole file, where it was read from one.
        later: the loads that come later and are not counted, each with those that it takes the place of then, by name.
        later_settings: for each of them that can be set, by position, its settings.
        method: the method that its sheet is asked for by, not checked here, or nothing.
        not_electric: what is there and burns gas or the like, in the words of the file.
        remarks: what who makes the sheet remarks, of which nothing is checked.
        considered: the ratings of a new service among which one is to be chosen [A].
    """

    title: str
    code: Text | None
    amendments: Sequence[str]
    dates: dict[str, Text]
    interpretations: dict[Text, Text]
    confirmed_by: str
    date: str
    absent: dict[str, str]
    facts: Facts
    planned: list[int]
    replaced: list[tuple[str, str]]
    settings: dict[int, list[float]]
    free: list[int]
    priorities: dict[int, float]
    supplies: list[Supply]
    meter: Meter | None = None
    folder: Path = NO_FOLDER
    written: str = field(default="", repr=False)
    later: dict[str, list[str]] = field(default_factory=dict)
    later_settings: dict[int, list[float]] = field(default_factory=dict)
    method: Asked | None = None
    not_electric: list[str] = field(default_factory=list)
    remarks: list[str] = field(default_factory=list)
    wanted: dict[int, float] = field(default_factory=dict)
    considered: list[float] = field(default_factory=list)


def read_home(path: Path | str, glossary: Glossary) -> Home:
    """Read a home file.

    Raises:
        InputError: with everything that is wrong in it.
    """
    return whole_home(read_file(path), glossary, Path(path).parent)


def home_from_text(text: str, name: str, glossary: Glossary) -> Home:
    """Read the text of a home file; ``name`` stands in messages.

    Raises:
        InputError: with everything that is wrong in it.
    """
    return whole_home(read_text(text, name), glossary)


def whole_home(node: Mapping, glossary: Glossary, folder: Path = NO_FOLDER) -> Home:
    """A home from the nodes of a whole file, whose text it keeps.

    Raises:
        InputError: with everything that is wrong in it.
    """
    return replace(home_from_node(node, glossary, folder), written=node.place.source.text)


def home_from_node(node: Mapping, glossary: Glossary, folder: Path = NO_FOLDER) -> Home:
    """A home from nodes that were read already, such as those of a published example.

    Args:
        node: the whole file.
        glossary: the names that may stand in it.
        folder: where files that it names are found.

    Raises:
        InputError: with everything that is wrong in it.
    """
    models = models_for(glossary)
    problems = Problems()
    refuse_marks(node, problems)
    problems.raise_if_any()
    root = with_known_keys(node, problems)
    model: Any = None
    try:
        model = models.home.model_validate(
            root, context=Context(models.vocabulary, _names(root, PANELS), _loads(root), other_kinds=_sources(root))
        )
    except ValidationError as error:
        Translation(root, models.keys, problems, glossary.other_keys, {FROM_SYSTEM: tuple(glossary.systems)}).translate(error)
    if problems.found:
        raise InputError(in_order(problems))
    filled = fill(model, Facts.empty(glossary))
    filled.facts.method = str(model.method.section) if model.method is not None else ""
    home = _home(model, filled, supplies_of(model, filled), folder)
    if home.meter is not None:
        for supply in measured_by(home.meter, home.supplies):
            say_record(model, supply.facts)
    return home


def _names(node: Mapping, listed_under: str) -> list[Text]:
    """The names in a list, which what stands before it may use."""
    names = [each.get(key("name")) for each in _entries(node, listed_under)]
    return [name for name in names if isinstance(name, Text)]


def _entries(node: Mapping, listed_under: str) -> list[Mapping]:
    listed = node.get(key(listed_under))
    return [each for each in listed if isinstance(each, Mapping)] if isinstance(listed, Listing) else []


def _loads(root: Mapping) -> list[Text]:
    """The names of all loads, which a load that stands before them may name."""
    of_units = [name for unit in _entries(root, UNITS) for name in _names(unit, LOADS)]
    return [*of_units, *_names(root, LOADS), *_names(root, PLANNED)]


def _sources(root: Mapping) -> dict[str, Text]:
    """That there are sources, which stand behind what is said to be absent."""
    listed = root.get(key(SOURCES))
    return {SOURCES: text_at(SOURCES, listed)} if isinstance(listed, Listing) and listed else {}


def _home(model: Any, filled: Filled, supplies: list[Supply], folder: Path) -> Home:
    return Home(
        title=str(model.home),
        code=model.code,
        amendments=list(model.amendments),
        dates={name: day for name, day in vars(model.dates).items() if day is not None} if model.dates is not None else {},
        interpretations=model.interpretations or {},
        confirmed_by=str(model.confirmed_by or ""),
        date=str(model.date or ""),
        absent={each.name: each.evidence for each in model.none_of},
        facts=filled.facts,
        planned=filled.planned,
        replaced=filled.replaced,
        settings=filled.settings,
        free=filled.free,
        priorities=filled.priorities,
        supplies=supplies,
        meter=meter_of(model, {feeder.name: supply.id for feeder, supply in zip(model.feeders, supplies[1:], strict=True)}),
        folder=folder,
        later=filled.later,
        later_settings=filled.later_settings,
        method=asked_of(model),
        not_electric=[str(each) for each in model.not_electric],
        remarks=[str(each) for each in model.remarks or ()],
        wanted=filled.wanted,
        considered=[each.value for each in model.service.ratings_considered],
    )
