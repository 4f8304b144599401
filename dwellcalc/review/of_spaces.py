"""The breaker spaces of the panel: what is taken, what removed loads leave free, and what the circuits of the schedule need."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from collections.abc import Mapping as NamedBy
from dataclasses import dataclass

from dwellcalc.decide.panel_schedule import poles_of
from dwellcalc.decide.review_plan import ReviewPlan
from dwellcalc.home.glossary_names import LOADS, PANELS
from dwellcalc.placed import Listing, Mapping, Node, Text, as_several, as_text, key, place_of, text_at
from dwellcalc.problems import Problems, message
from dwellcalc.review.finding import CODE, ERROR, POLICY, QUESTION, REMARK, Finding
from dwellcalc.review.labels import listed, spelled_out
from dwellcalc.review.looked import Looked
from dwellcalc.review.phrases import Phrases
from dwellcalc.review.schedule_reader import SLASHED_IN
from dwellcalc.review.submittal import Submittal

FREED_SPACES = message(
    "freed_spaces", '"{text}" says no number of breaker spaces', "a number, or breakers such as `[A/C 30/2, furnace 15/1]`"
)

SPACES, TAKEN, FREED, NEW = "spaces", "spaces_said_taken", "freed", "new"
AFTER = "after"  # taken with the new circuits
CLAUSES = re.compile(r"[.;\n](?=\s|$)|\n")
USED = (  # how a clause says so many breaker spaces are taken: 24 used, 24 of 30 spaces used, 24/30 used, uses 24
    r"(?<![\w./#-])(?P<number>\d{{1,2}})\s*(?:(?:of|/|out of)\s*(?P<all>\d{{1,2}})\s*)?(?:(?:breaker\s+)?(?:spaces?|poles?|slots?|circuits?))?\s*"
    r"(?:(?:are|is|being|will be|currently|now|already)\s+)*(?:{words})\b(?P<after>[\s,(]*(?:{after})\b)?"
)
ALL = re.compile(  # 30 space, 30-space panel, panel has 30 spaces
    r"(?<![\w./#-])(?P<number>\d{1,2})[\s-]*(?:space\b|spaces\s+(?:in\s+)?(?:the\s+)?panel)"
    r"|\bpanel\w*(?:[\s,]+(?!\d{1,2}\s*-?\s*(?:breaker\s+)?spaces?\b)[\w/-]+){0,5}[\s:,-]+(?P<of_panel>\d{1,2})[\s-]*(?:breaker\s+)?spaces?\b"
    r"(?!\s*(?:are\s+|is\s+)?(?:left|free|freed|open|available|spare|remain\w*|needed))",
    re.IGNORECASE,
)
NUMBER = re.compile(r"\s*(?P<number>\d{1,2})\s*(?:breaker\s+)?(?:spaces?|poles?)?\s*", re.IGNORECASE)


@dataclass(frozen=True)
class SpaceCount:
    """Breaker spaces: those of the panel, those that are needed, those that become free, and how all are counted, in print."""

    spaces: float
    needed: float
    freed: float
    told: str


def on_spaces(submittal: Submittal) -> Iterator[Finding]:
    """The comment, where the circuits fill the only panel of which a number of spaces is told, or need more."""
    plan, found = submittal.instructions.review, spaces_counted(submittal)
    if plan is None or not plan.panels or found is None:
        return
    gone = [str(each.row.label) for each in submittal.later if each.removed]
    if found.needed >= found.spaces and gone and not found.freed:
        text = f"{found.told}. What is removed may leave some free, and the submittal does not say which: {listed(gone)}."
        yield Finding(
            SPACES, QUESTION, POLICY, SPACES, "Breaker spaces", text, send="the breakers that become free, with their poles"
        )
        return
    section = submittal.rules.section(str(submittal.rules.methods[plan.panels].source.cite))
    if found.needed > found.spaces:
        text = f"{found.told}. That holds only where tandem breakers are listed for its spaces."
        send = "the panel's label, which says where tandem breakers may stand, or another panel"
        yield Finding(SPACES, ERROR, CODE, SPACES, "Breaker spaces", text, section, send=send)
    elif found.needed == found.spaces:
        text = (
            f"{found.told}. None is left: a further circuit would need another panel, or tandem breakers that are listed for it."
        )
        yield Finding(SPACES, REMARK, POLICY, SPACES, "Breaker spaces", text, section)


def spaces_counted(submittal: Submittal) -> SpaceCount | None:
    """The breaker spaces, where one panel with a number of them is told; by the schedule, or by what is taken, freed and new."""
    spaces, taken = (_of_panel(submittal, name) or submittal.spaces_by_notes.get(name) for name in (SPACES, TAKEN))
    after = submittal.spaces_by_notes.get(AFTER)
    if spaces is not None and after is not None:
        return SpaceCount(spaces, after, 0.0, f"{after:,g} of {spaces:,g} are said to be taken after the work")
    circuits = [each for each in submittal.schedule if not each.is_empty and not each.removed]
    names = submittal.supply.facts.collections[LOADS].names
    planned = {names[position] for position in submittal.supply.planned}
    of_new_work = all(each.loads and set(each.loads) <= planned for each in circuits)
    poles = [each.poles or (_poles_by_loads(submittal, each.loads) if taken and of_new_work else None) for each in circuits]
    if spaces is None or None in poles:
        return None
    of_schedule = sum((number or 0.0) * each.quantity for number, each in zip(poles, circuits, strict=True))
    if not taken or not of_new_work:
        needed = of_schedule
        told = f"The circuits of the schedule take {needed:,g} breaker spaces; the panel has {spaces:,g}"
        return SpaceCount(spaces, needed, 0.0, told) if circuits and not (taken and of_new_work) else None
    new = of_schedule if circuits else _by_the_loads(submittal, NEW)
    freed = _freed(submittal)
    needed = taken - freed + new
    by_removed = f", {freed:,g} {'is' if freed == 1 else 'are'} freed by what is removed" if freed else ""
    told = (
        f"{taken:,g} breaker spaces are taken before the work{by_removed} and {new:,g} are taken by new circuits: "
        f"{needed:,g} of {spaces:,g}"
    )
    return SpaceCount(spaces, needed, freed, told)


def _poles_by_loads(submittal: Submittal, loads: Iterable[str]) -> float | None:
    """The poles of a circuit whose breaker is given without them, by the connection of its loads; nothing where that gives none."""
    evaluation = Looked(submittal.rules, submittal.asked).evaluation()
    names = submittal.asked.facts.collections[LOADS].names
    found = [poles_of(evaluation, submittal.instructions, names.index(each)) for each in loads if each in names]
    return max((float(each) for each in found if each.isdigit()), default=None)


def _freed(submittal: Submittal) -> float:
    """The spaces that what is removed leaves free: as the submittal says, by its schedule, by its notes, or by the panel's circuits."""
    if submittal.freed is not None:
        return submittal.freed
    removed = sum((each.poles or 0.0) * each.quantity for each in submittal.schedule if each.removed)
    return removed or submittal.freed_by_notes or _by_the_loads(submittal, FREED)


def _by_the_loads(submittal: Submittal, result: str) -> float:
    """A number of spaces as it follows from the loads and from the circuits that are listed in the panel."""
    plan = submittal.instructions.review
    line = None if plan is None or not plan.panels else submittal.rules.methods[plan.panels].results.get(result)
    value = None if line is None else Looked(submittal.rules, submittal.asked).evaluation().line(line)
    return value if isinstance(value, float) else 0.0


def say_freed(made: Submittal, node: Node | None, notes: Iterable[Text], problems: Problems) -> None:
    """Add to a submittal what its key for them, and its notes, say of the breaker spaces that removed loads leave free."""
    plan = made.instructions.review
    assert plan is not None
    made.notes = list(map(str, notes))
    made.freed, by_key = _by_the_key(node, problems)
    made.freed_by_notes, by_notes = _by_the_notes(notes, plan)
    made.texts_of_freed = [*by_key, *by_notes]
    made.spaces_by_notes = _counted_in_notes(notes, plan)


def _by_the_key(node: Node | None, problems: Problems) -> tuple[float | None, list[Text]]:
    """The breaker spaces under the key for those that removed loads leave free, and how it says them.

    A number, or breakers with their poles; nothing without such a key.
    """
    if node is None:
        return None, []
    texts = [as_text(each, FREED, problems) for each in as_several(node, FREED, problems)]
    found = [_spaces_in(each) for each in texts]
    for each, number in zip(texts, found, strict=True):
        if number is None:
            problems.add(FREED_SPACES, each.place, text=each)
    return sum(each or 0.0 for each in found), texts


def _by_the_notes(notes: Iterable[Text], plan: ReviewPlan) -> tuple[float, list[str]]:
    """The poles of the breakers of which notes say that they are freed, and the clauses that say so."""
    says = Phrases(plan.freed)
    clauses = [clause for note in notes for clause in CLAUSES.split(note) if says.are_in(clause) and SLASHED_IN.search(clause)]
    return sum(float(match["poles"]) for clause in clauses for match in SLASHED_IN.finditer(clause)), clauses


def _counted_in_notes(notes: Iterable[Text], plan: ReviewPlan) -> dict[str, float]:
    """The breaker spaces of the panel, and those that are taken, as notes say them; what two notes say differently is not taken."""
    words, after = ("|".join(map(re.escape, sorted(each, key=len, reverse=True))) for each in (plan.used_spaces, plan.after_work))
    used = re.compile(USED.format(words=words or "(?!)", after=after or "(?!)"), re.IGNORECASE)
    found: dict[str, set[float]] = {SPACES: set(), TAKEN: set(), AFTER: set()}
    for match in (match for note in notes for match in used.finditer(note)):
        found[AFTER if match["after"] else TAKEN].add(float(match["number"]))
        found[SPACES] |= {float(match["all"])} if match["all"] else set()
    for note in notes:
        found[SPACES] |= {float(match["number"] or match["of_panel"]) for match in ALL.finditer(used.sub("", note))}
    return {name: values.pop() for name, values in found.items() if len(values) == 1}


@dataclass(frozen=True)
class SaidFreed:
    """What a submittal says of the breakers that removed loads leave free: all of them by a number, or the words of some."""

    all_of_them: bool
    words: frozenset[str]
    abbreviations: NamedBy[str, str]

    def is_said(self, label: str) -> bool:
        """Whether it says it of the load of a row."""
        return self.all_of_them or bool(self.words & set(spelled_out(label, self.abbreviations)))


def said_of_freed(submittal: Submittal) -> SaidFreed:
    """What a submittal says of the breakers that removed loads leave free."""
    short = submittal.rules.glossary.abbreviations
    texts = [*submittal.texts_of_freed, *(str(each.label) for each in submittal.schedule if each.removed)]
    plan = submittal.instructions.review
    no_words = (
        {word for each in (*plan.removed, *plan.freed, *plan.unmeaning) for word in spelled_out(each, short)} if plan else set()
    )
    words = {word for each in texts for word in spelled_out(each, short) if len(word) > 1} - no_words
    return SaidFreed(any(map(NUMBER.fullmatch, submittal.texts_of_freed)), frozenset(words), short)


def _spaces_in(text: Text) -> float | None:
    number = NUMBER.fullmatch(text)
    if number is not None:
        return float(number["number"])
    poles = [float(match["poles"]) for match in SLASHED_IN.finditer(text)]
    return sum(poles) if poles else None


def with_panel(said: Mapping) -> Mapping:
    """The words of a home file with a panel in place of its breaker spaces alone."""
    spaces = said[key(SPACES)]
    panel = Mapping({text_at("name", said): text_at("panel", said), text_at(SPACES, said): spaces})
    listing = Listing([panel])
    panel.place = listing.place = place_of(spaces)
    found = Mapping({**{name: each for name, each in said.items() if name != SPACES}, text_at(PANELS, said): listing})
    found.place = said.place
    return found


def _of_panel(submittal: Submittal, name: str) -> float | None:
    """A number of the only panel of the home."""
    panels = submittal.supply.facts.collections.get(PANELS)
    known = panels.fields[name] if panels is not None and name in panels.fields else []
    return known[0] if len(known) == 1 and isinstance(known[0], float) else None
