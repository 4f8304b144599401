"""What an assessment says of planned loads as a whole: settings, combinations, order of installation, alternatives.

Part of the document; every figure is of a whole home, with one entry for each of its supplies.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from dwellcalc.decide.circuit_results import CircuitResult
from dwellcalc.language.words import VERDICTS

_, _, OPEN, _ = VERDICTS


@dataclass(slots=True)
class SupplyAt:
    """What one supply must carry [A] under a change, what is left of its capacity [A], the verdict and the method's title.

    ``minimum_rating`` and ``offered_rating`` [A] are those of a new supply for that load, where the
    method may size one.
    """

    supply: str
    title: str
    amperes: float | None
    margin: float | None
    verdict: str
    by: str
    minimum_rating: float | None
    offered_rating: float | None


@dataclass(slots=True)
class MethodAt:
    """What a supply must carry [A] by one of the methods that may be used, and the verdict."""

    supply: str
    method: str
    title: str
    amperes: float
    verdict: str


@dataclass(slots=True)
class SettingResult:
    """One setting of a load [A], all else as it is counted.

    Attributes:
        setting: the setting [A].
        verdict: that of the supplies that carry the load, together.
        limited_by: for those of them that it does not fit, by title, the element that limits it.
        counted: whether the sheet is calculated with it.
        supplies: what each supply that carries the load must carry.
        methods: the same by each method that may be used.
        circuit: its branch circuit, where that is sized, whatever breaker a panel lists for it.
        listed_suits: whether the breaker that a panel lists suits it; yes where none is listed.
    """

    setting: float
    verdict: str
    limited_by: dict[str, str]
    counted: bool
    supplies: list[SupplyAt]
    methods: list[MethodAt]
    circuit: CircuitResult | None
    listed_suits: bool = True


@dataclass(slots=True)
class AlternativeResult:
    """Something else that could be done.

    Attributes:
        title: what kind of alternative it is.
        what: what is done, with its figures.
        verdict: that of all supplies together.
        supply: the title of the supply that its figures are of.
        amperes: what that supply must carry then [A].
        brings: how much less that is [A].
        by: the title of the method.
        needs: the evidence that it needs.
        cite: the sections that it rests on.
        larger: what else must be larger.
        of_rating: the loads of which nothing but the rating is smaller.
        left_out: the planned loads that are left out.
        capacity: that of the supply then [A], where it is another one, or has other conductors.
    """

    title: str
    what: str
    verdict: str
    supply: str
    amperes: float | None
    brings: float | None
    by: str
    needs: str
    cite: str
    larger: list[str] = field(default_factory=list)
    of_rating: list[str] = field(default_factory=list)
    left_out: list[str] = field(default_factory=list)
    capacity: float | None = None


@dataclass(slots=True)
class LargerSetting:
    """A setting [A] that does not fit as things are, with what would let it fit, each by itself."""

    setting: float
    alternatives: list[AlternativeResult]


@dataclass(slots=True)
class SettingsResult:
    """A load that can be set: its settings in rising order, the one counted [A], the largest that fits [A], if one does.

    ``largest_alone`` [A] is the largest that fits without the other planned loads, where none fits with them; ``free`` says
    that every whole ampere of a range is a setting. ``larger`` are the next setting and the largest, where these do not fit.
    """

    load: str
    counted: float
    largest_that_fits: float | None
    largest_alone: float | None
    free: bool
    settings: list[SettingResult]
    larger: list[LargerSetting] = field(default_factory=list)
    wanted: float | None = None  # the setting that is wanted [A]

    def against_wanted(self) -> str:
        """How the counted setting stands to the wanted one, in words; empty where none is wanted or nothing is compared."""
        if self.wanted is None or self.largest_that_fits is None:
            return ""
        if self.counted != self.wanted:
            is_open = any(each.setting == self.wanted and each.verdict == OPEN for each in self.settings)
            return f" ({self.wanted:g} A is wanted {'and is open' if is_open else 'and does not fit'})"
        more = f" ({self.largest_that_fits:g} A would fit too)" if self.largest_that_fits > self.wanted else ""
        return f" as wanted{more}"


@dataclass(slots=True)
class Combination:
    """Settings of several loads [A] that fit together, and that no other fitting combination exceeds in all."""

    settings: dict[str, float]
    taken: bool
    supplies: list[SupplyAt]


@dataclass(slots=True)
class Step:
    """A planned load, or several that come as one, installed after those before it: the verdict, and what each supply must carry then."""

    load: str
    verdict: str
    supplies: list[SupplyAt]
    loads: list[str] = field(default_factory=list)


@dataclass(slots=True)
class OrderResult:
    """The order of installation, where the verdict depends on what is installed.

    Attributes:
        steps: the planned loads in the order of their priorities, one after the other.
        works: an order in which it fits at every step, where that order differs; empty where there is none.
        together: the largest sets of planned loads that fit, where not all of them do.
        at_smallest: whether each load that can be set is at its smallest setting here, since no larger ones fit together.
        settings: for each of those sets the largest settings that then fit [A], by load.
    """

    steps: list[Step]
    works: list[str]
    together: list[list[str]]
    at_smallest: bool
    settings: list[dict[str, float]] = field(default_factory=list)


@dataclass(slots=True)
class LaterResult:
    """What each supply must carry with loads that come later and are not counted, and the verdict of all supplies together.

    ``alternatives`` are those with which it fits with these loads counted, where it does not. ``at_largest`` says that a rating of one
    of these loads is known only between bounds, and that all of it is at the largest. ``of_settings`` are of those that can be set,
    each with all else as it is counted then; the figures above are with the settings counted there, the largest that fit. ``gone``
    are the loads that are not counted then, by the load that takes their place. ``whatever`` is the verdict for all that the inputs
    may be, and ``turns`` are the readings of these loads up to which it fits where that is open; ``other_methods`` those by which it fits,
    or with more, where a record is the basis. ``combinations`` are the settings of these loads and of what is planned with which it
    fits, where with those that are counted it does not.
    """

    loads: list[str]
    verdict: str
    supplies: list[SupplyAt]
    alternatives: list[AlternativeResult] = field(default_factory=list)
    at_largest: bool = False
    of_settings: list[SettingsResult] = field(default_factory=list)
    gone: dict[str, list[str]] = field(default_factory=dict)
    whatever: str = ""
    turns: list[Turn] = field(default_factory=list)
    other_methods: list[ByOtherMethod] = field(default_factory=list)
    combinations: list[Combination] = field(default_factory=list)

    @property
    def set_to(self) -> dict[str, float]:
        """The settings that it is told of [A], by load."""
        return {each.load: each.counted for each in self.of_settings}


@dataclass(slots=True)
class RestsOn:
    """On what it rests that something fits.

    Attributes:
        unseen: what nobody has seen and, were it as told here, would not let it fit.
        readings: the sections of which another reading does not let it fit.
        short: what falls short whatever the load is.
    """

    unseen: list[str] = field(default_factory=list)
    readings: list[str] = field(default_factory=list)
    short: list[str] = field(default_factory=list)


@dataclass(slots=True)
class InstalledResult:
    """The verdict of all supplies together with only some of what is planned, none of it where no load is named.

    ``settings`` [A], by load, are the largest with which it fits whatever unknown inputs are, or the smallest where none do;
    ``by_itself`` says that it is one load, or several that come as one. ``amperes`` is what the first supply must carry then, with
    what is not known at its largest [A]; ``rests_on`` is told where it fits by itself.
    """

    loads: list[str]
    verdict: str
    settings: dict[str, float]
    by_itself: bool = False
    amperes: float | None = None
    rests_on: RestsOn | None = None


@dataclass(slots=True)
class ByOtherMethod:
    """A method that may be used as well, and by which it fits where by the metered maximum it does not, or with less.

    Attributes:
        method: its name.
        title: its title.
        section: the section that it rests on.
        asked_as: what it is asked for by, on the command line and in the home file.
        settings: the largest settings that fit by it [A], by load.
        supply: what the supply of the record must carry by it with those.
        comes_first: whether it is that of the record, which another one that was asked for stands in place of.
        rests_on: on what it rests that it fits by it; not told of that of the record.
    """

    method: str
    title: str
    section: str
    asked_as: str
    settings: dict[str, float]
    supply: SupplyAt
    comes_first: bool = False
    rests_on: RestsOn | None = None


@dataclass(slots=True)
class Turn:
    """Readings of appliances that are not known at which the verdict turns, whatever all other inputs are.

    Attributes:
        settings: the settings that it is told of [A], by load; those that are counted where empty.
        readings: the readings in print, by load.
        verdict: that it fits where none of them is over its reading, or does not where the one is at it or over it.
        beyond: whether the reading is more than was taken, so that it is only no longer shown to fit.
    """

    settings: dict[str, float]
    readings: dict[str, str]
    verdict: str
    beyond: bool = False


@dataclass(slots=True)
class Decision:
    """All of it; ``later`` is of each load that comes later by itself, then of all of them; ``installed`` of none, each and some of what is planned."""

    settings: list[SettingsResult] = field(default_factory=list)
    combinations: list[Combination] = field(default_factory=list)
    order: OrderResult | None = None
    alternatives: list[AlternativeResult] = field(default_factory=list)
    later: list[LaterResult] = field(default_factory=list)
    installed: list[InstalledResult] = field(default_factory=list)
    other_methods: list[ByOtherMethod] = field(default_factory=list)
    turns: list[Turn] = field(default_factory=list)
