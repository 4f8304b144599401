"""Which amendments a calculation takes into account: those that a home or the command names, in the version of the home's date."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from dwellcalc.evaluate.check import check_amended
from dwellcalc.home import Home
from dwellcalc.language.amendments import Amendment, amendments_in, read_amendment
from dwellcalc.language.rule_files import rule_files
from dwellcalc.language.rule_set import RuleSet, load_rules
from dwellcalc.placed import Text, spaced
from dwellcalc.problems import InputError, Place, Problems, message, nearest_name

NO_AMENDMENT = message("no_amendment", 'there is no amendment "{name}"', "amendments: {known}; a file of your own as ./NAME.yaml")
NO_AMENDMENT_FILE = message(
    "no_amendment_file", 'there is no file "{name}"', "a file of an amendment is named from the folder of the home file"
)
AMENDMENT_AMBIGUOUS = message("amendment_ambiguous", 'several amendments are meant by "{name}"', "write one of: {known}")
AMENDMENT_TWICE = message("amendment_twice", 'the amendment "{name}" is named twice')
AMENDMENT_EDITION = message(
    "amendment_other_edition",
    'the amendment "{name}" is not for {edition}',
    "it exists for {editions}; name that edition, or leave the amendment out",
)
AMENDMENT_NEEDS_DATE = message(
    "amendment_needs_date",
    'whether the amendment "{name}" applies is decided by the date of {fixed_by}, which is missing',
    "write `dates: {{{key}: year-month-day}}` in the home file; in force: {days}",
)
AMENDMENT_NOT_IN_FORCE = message(
    "amendment_not_in_force",
    'the amendment "{name}" is not in force on {day}, the date of {fixed_by}',
    "in force: {days}",
)
AMENDMENT_VERSIONS = message(
    "amendment_versions", 'there are several versions of the amendment "{name}"', "write one of: {known}"
)

NONE = "none"


@dataclass
class _Named:
    """A name as it was given, with its place where it stands in a home file."""

    name: str
    place: Place | None

    @property
    def path(self) -> str:
        return "_".join(self.name.strip().casefold().split()).strip("/")

    @property
    def is_file(self) -> bool:
        return self.name.endswith(".yaml") or self.name.startswith((".", "/"))


def amended(
    rules: RuleSet,
    names: Sequence[str],
    dates: Mapping[str, str] | None,
    *,
    beside: Path | None = None,
    folder: Path | None = None,
) -> RuleSet:
    """A rule set as some amendments change it; the rules without them stay with it as ``unamended``.

    Args:
        rules: the edition without amendments.
        names: amendments: a jurisdiction such as ``denver`` or ``us/co/denver``, an amendment or one of its versions such as
            ``denver/vehicle_charging/2025``, or a file such as ``./our_county.yaml``.
        dates: the dates of the project by what they are of; nothing where no project is at hand, so that a version is named.
        beside: the folder that files of one's own are named from.
        folder: a folder of rules, or the package's own.

    Raises:
        InputError: a name means none or several, a date is missing or is outside of what is in force, the edition is
            another, or the base does not hold what an amendment changes.
    """
    wanted = [_Named(str(name), name.place if isinstance(name, Text) else None) for name in names]
    if not wanted:
        return rules
    chooser = _Chooser(rules, dates, beside or Path(), folder)
    chosen = [amendment for each in wanted for amendment in chooser.named(each)]
    chooser.problems.raise_if_any()
    paths = [each.path for each in chosen]
    made = load_rules(rules.id, folder, paths)
    if folder is not None or any(each.outside for each in chosen):  # those of the package are proved before they are shipped
        found = check_amended(rules.id, folder, paths, proved=True)
        if found:
            raise InputError(found)
    return replace(made, unamended=rules)


def amended_for(home: Home, rules: RuleSet, *, beside: Path | None = None, folder: Path | None = None) -> RuleSet:
    """A rule set as the amendments that a home names change it.

    Raises:
        InputError: as ``amended`` does.
    """
    return amended(rules, home.amendments, home.dates, beside=beside, folder=folder)


class _Chooser:
    """Finds amendments by name, and their versions by date; problems are collected."""

    def __init__(self, rules: RuleSet, dates: Mapping[str, str] | None, beside: Path, folder: Path | None) -> None:
        self.rules = rules
        self.dates = dates
        self.beside = beside
        self.files = rule_files(folder)
        self.known = amendments_in(self.files.folder)
        self.problems = Problems()
        self.seen: set[str] = set()

    def named(self, wanted: _Named) -> list[Amendment]:
        """The amendments that a name means, each in one version."""
        if wanted.is_file and not (self.beside / wanted.name).is_file():
            self.problems.add(NO_AMENDMENT_FILE, wanted.place, name=wanted.name)
            return []
        groups = [[self.beside / wanted.name]] if wanted.is_file else self.versions(wanted)
        found = []
        for paths in groups:
            versions = [read_amendment(self.files, path) for path in paths]
            self.files.problems.raise_if_any()
            one = self.version(wanted, versions)
            if one is not None and one.name in self.seen:
                self.problems.add(AMENDMENT_TWICE, wanted.place, name=one.name)
            elif one is not None:
                self.seen.add(one.name)
                found.append(one)
        return found

    def versions(self, wanted: _Named) -> list[list[Path]]:
        """The versions of each amendment that a name means: of a jurisdiction, of one amendment, or one version alone."""
        for depth in range(2, -1, -1):
            heads = {name: name.rsplit("/", depth)[0] for name in self.known}
            meant = sorted({head for head in heads.values() if f"/{head}".endswith(f"/{wanted.path}")})
            if len(meant) > 1 and wanted.path not in meant:
                self.problems.add(AMENDMENT_AMBIGUOUS, wanted.place, name=wanted.name, known=", ".join(meant))
                return []
            if meant:
                head = wanted.path if wanted.path in meant else meant[0]
                groups: dict[str, list[Path]] = {}
                for name in (each for each, of in heads.items() if of == head):
                    groups.setdefault(name.rpartition("/")[0], []).append(self.known[name])
                return list(groups.values())
        names = sorted({each for name in self.known for each in _shown(name)})
        near = nearest_name(wanted.path, [*names, *(name.rpartition("/")[2] for name in names)])
        whole = ", ".join(sorted({name.rpartition("/")[0] for name in self.known}))
        self.problems.add(NO_AMENDMENT, wanted.place, name=wanted.name, known=whole or NONE, nearest=near)
        return []

    def version(self, wanted: _Named, versions: list[Amendment]) -> Amendment | None:
        """The version for the edition and the date."""
        title = versions[0].title
        fitting = [each for each in versions if self.rules.id in each.amends]
        if not fitting:
            editions = ", ".join(dict.fromkeys(str(edition) for each in versions for edition in each.amends))
            self.problems.add(
                AMENDMENT_EDITION, wanted.place, name=title, edition=self.rules.title, editions=editions or "no edition"
            )
            return None
        if self.dates is None:
            return self.only(wanted, fitting)
        for each in fitting:
            if each.dated and each.fixed_by not in self.dates:
                of, days = spaced(each.fixed_by), _days(versions)
                self.problems.add(AMENDMENT_NEEDS_DATE, wanted.place, name=title, fixed_by=of, key=of, days=days)
                return None
        in_force = [each for each in fitting if not each.dated or each.in_force(self.dates[each.fixed_by])]
        if not in_force:
            of, days = fitting[0].fixed_by, _days(versions)
            self.problems.add(
                AMENDMENT_NOT_IN_FORCE, wanted.place, name=title, fixed_by=spaced(of), day=self.dates[of], days=days
            )
            return None
        return self.only(wanted, in_force)

    def only(self, wanted: _Named, versions: list[Amendment]) -> Amendment | None:
        """The one version that is left."""
        if len(versions) > 1:
            known = ", ".join(each.id for each in versions)
            self.problems.add(AMENDMENT_VERSIONS, wanted.place, name=versions[0].name, known=known)
            return None
        return versions[0]


def _shown(name: str) -> tuple[str, str]:
    """The jurisdiction of an amendment, and the amendment without its version."""
    return name.rsplit("/", 2)[0], name.rpartition("/")[0]


def _days(versions: Sequence[Amendment]) -> str:
    """When each version is in force, and for which editions."""
    return "; ".join(f"{each.version} {each.days()} ({', '.join(each.amends)})" for each in versions)
