"""Questions on what is no mistake of the calculation and may be one of its table: a breaker taken for a rating, a load that is nowhere."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from dwellcalc.evaluate import printed
from dwellcalc.home.glossary_names import LOADS, VOLTAGE
from dwellcalc.home.ratings import OF_DEVICE
from dwellcalc.review.breakers import TOO_SMALL, Breaker
from dwellcalc.review.finding import POLICY, QUESTION, Finding
from dwellcalc.review.label_figures import CURRENT, without_device
from dwellcalc.review.labels import listed
from dwellcalc.review.phrases import Phrases
from dwellcalc.review.submittal import Submittal

PLAUSIBLE = "plausible"
RATING, BASIS, BY_CURRENT = "marked_amperes", "basis", "amperes"


def on_plausible(submittal: Submittal, breakers: Iterable[Breaker]) -> Iterator[Finding]:
    """A question for the loads whose rating is the size of their breaker, and for each load that is expected and nowhere."""
    rated = rated_as_breakers(submittal)
    if rated:
        yield _as_breakers(rated, submittal, [each for each in breakers if each.load in rated and each.verdict == TOO_SMALL])
    yield from _nowhere(submittal)


def rated_as_breakers(submittal: Submittal) -> dict[str, str]:
    """The loads whose rating, in amperes, is the size of their breaker and is not shown, each with that current in print.

    It may be either: a comment on the breaker would rest on a rating that nobody gives.
    """
    loads = submittal.supply.facts.collections[LOADS]
    kind = submittal.rules.glossary.collections[LOADS].fields[RATING].kind
    alone = {each.loads[0]: each.breaker for each in submittal.schedule if len(each.loads) == 1}
    found = {}
    for name, value, basis in zip(loads.names, loads.fields[RATING], loads.fields[BASIS], strict=True):
        is_shown = submittal.shown is None or name in submittal.shown or bool(_evidence(submittal, name))
        if isinstance(value, float) and basis == BY_CURRENT and alone.get(name) == value and not is_shown:
            found[name] = printed.value(value, kind, submittal.rules.glossary)
    return found | {name: current for name in submittal.load_rows if (current := _of_device(submittal, name))}


def _evidence(submittal: Submittal, name: str) -> str:
    row = submittal.load_rows.get(name)
    return str(row.evidence or "") if row is not None else ""


def _as_breakers(rated: dict[str, str], submittal: Submittal, small: Sequence[Breaker]) -> Finding:
    several = len(rated) > 1
    told = ", ".join(f"{listed([submittal.in_full(name)])} ({current})" for name, current in rated.items())
    text = f"The rating given is the size of the breaker, and a breaker is no rating of the load: {told}."
    for each in small:
        text += f" If {rated[each.load]} is the nameplate of {each.load}, its circuit needs {each.least} or more."
    return Finding(
        f"{PLAUSIBLE}: breaker",
        QUESTION,
        POLICY,
        PLAUSIBLE,
        "Ratings that may be those of breakers" if several else "A rating that may be that of a breaker",
        text,
        send="the nameplates, with their amperes or watts" if several else "the nameplate, with its amperes or watts",
    )


def _of_device(submittal: Submittal, name: str) -> str:
    """The current of a device in the label of a load whose figure is that current times the voltage of the supply; else empty."""
    row = submittal.load_rows[name]
    label = without_device(row.label)
    current = CURRENT.search(OF_DEVICE.sub("", label)) if OF_DEVICE.search(label) else None
    volts = submittal.supply.facts.objects["supply"].get(VOLTAGE)
    connected = submittal.supply.facts.collections[LOADS].fields["volt_amperes"]
    names = submittal.supply.facts.collections[LOADS].names
    load = connected[names.index(name)] if name in names else None
    if row.nameplate is not None or current is None or not isinstance(volts, float) or not isinstance(load, float):
        return ""
    return current[0].strip() if load == float(current[1]) * volts else ""


def _nowhere(submittal: Submittal) -> Iterator[Finding]:
    """A question for each load that most dwellings have and that neither the table nor a note names."""
    plan = submittal.instructions.review
    if plan is None or not submittal.load_rows or submittal.stated:
        return
    rows = (*submittal.load_rows.values(), *submittal.unmatched, *(each.row for each in submittal.later), *submittal.blank)
    texts = [*map(str, submittal.notes), *(each.label for each in submittal.matched), *(each.label for each in submittal.scope)]
    texts += [*(f"{each.label} {each.note or ''}" for each in rows), *(each.label for each in submittal.schedule)]
    texts += [each.name for each in submittal.open_loads]
    for name, (title, send, *words) in plan.expected.items():
        phrases = Phrases(words)
        if not any(map(phrases.are_in, texts)):
            text = "Neither the table nor a note names one, so none is counted."
            yield Finding(f"{PLAUSIBLE}: {name}", QUESTION, POLICY, PLAUSIBLE, title, text, send=send)
