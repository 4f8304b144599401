"""What is planned by itself, in the first sentences: whether it fits, and on what that rests."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence

from dwellcalc.decide.decision import InstalledResult, RestsOn
from dwellcalc.decide.document import DOES_NOT_FIT, FITS
from dwellcalc.report.wording import listed, lowered, set_to_words


def alone_told(alone: Sequence[InstalledResult], told: Collection[str]) -> Iterator[str]:
    """Each load by itself; then on what it rests that one fits.

    Args:
        alone: the results of each by itself.
        told: what falls short whatever is planned, which is told with the verdict.
    """
    if alone:
        yield f"Each by itself: {'; '.join(f'{installed_named(each)}: {each.verdict}{_amperes(each)}' for each in alone)}."
    for each in alone:
        conditions = list(_conditions(each, told))
        if conditions:
            yield f"That {installed_named(each)} fits by itself hangs on this: {'; '.join(conditions)}."


def installed_named(found: InstalledResult) -> str:
    """Some of what is planned, with its settings."""
    least = "" if found.verdict == FITS or not found.settings else ", its smallest"
    return f"{listed([set_to_words(name, found.settings) for name in found.loads])}{least}"


def _amperes(found: InstalledResult) -> str:
    shown = found.amperes is not None and found.verdict in (FITS, DOES_NOT_FIT)
    return f" ({found.amperes:,.2f} A)" if shown else ""


def does_not_fit_if(found: RestsOn | None) -> Iterator[str]:
    """What would not let it fit though all is as it is counted, in clauses."""
    if found is None:
        return
    for each in found.unseen:
        meaning, _, word = each.partition(": ")
        yield f"if the {meaning}, which nobody has seen, is {word}, it does not"
    cites = list(dict.fromkeys(each.partition(",")[0] for each in found.readings))
    if cites:
        yield f"by another reading of {listed(cites, 'or')} it does not"


def _conditions(found: InstalledResult, told: Collection[str]) -> Iterator[str]:
    """What would not let it fit, in clauses; then what falls short and was not told."""
    yield from does_not_fit_if(found.rests_on)
    for text in found.rests_on.short if found.rests_on is not None else ():
        if text not in told:
            yield lowered(text.partition(";")[0].rstrip("."))
