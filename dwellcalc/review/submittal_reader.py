"""Reading a submittal: its edition and method, then the home that it describes, then its claims."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from dwellcalc.decide.amendments import amended
from dwellcalc.decide.choices import chosen
from dwellcalc.decide.edition import rules_for
from dwellcalc.decide.instructions import Instructions, read_instructions
from dwellcalc.decide.recorded import with_record
from dwellcalc.decide.typical import with_typical
from dwellcalc.home import Home, Supply, home_from_node
from dwellcalc.home.glossary_names import LOADS, PANELS, UNITS
from dwellcalc.home.models import models_for
from dwellcalc.home.supply_filling import NEW_WORK
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.language.words import SUBMITTAL_TITLES as TITLES
from dwellcalc.placed import Mapping, Node, Text, as_list, as_mapping, as_several, as_text, key, text_at
from dwellcalc.problems import InputError, Problems, fail, message, nearest_name
from dwellcalc.reading import read_file
from dwellcalc.review.areas import AREA_FIELD
from dwellcalc.review.claim_reader import ClaimReader
from dwellcalc.review.claims import rounded_throughout
from dwellcalc.review.conductor_text import with_conductors
from dwellcalc.review.counts import confirm_counts
from dwellcalc.review.described import Described, ToldBeside
from dwellcalc.review.described_home import UNIT_NAME, Describer
from dwellcalc.review.full_names import full_names
from dwellcalc.review.keyed import evidence_in, given_in, refuse_unknown
from dwellcalc.review.labels import LINE, Labels, in_print, kind_in
from dwellcalc.review.later import SaidLater
from dwellcalc.review.looked import kind_of
from dwellcalc.review.method_names import method_named
from dwellcalc.review.method_taken import SUBMITTAL_LACKS, method_taken
from dwellcalc.review.of_evidence import NAMEPLATES
from dwellcalc.review.of_spaces import FREED, SPACES, say_freed, with_panel
from dwellcalc.review.open_ratings import OpenRatings
from dwellcalc.review.own_comments import own_comments
from dwellcalc.review.ranges import Ranges, at_point
from dwellcalc.review.reworded import to_reword
from dwellcalc.review.row_filling import RowFilling
from dwellcalc.review.row_headings import under_headings
from dwellcalc.review.row_paths import by_rows
from dwellcalc.review.row_status import PLANNED, RowStatus
from dwellcalc.review.rows import Row, read_rows
from dwellcalc.review.rows_beside import by_rows_beside
from dwellcalc.review.rows_told import matched, not_counted, rows_told
from dwellcalc.review.schedule_reader import ScheduleReader
from dwellcalc.review.selections import is_asked_about, leave_out_repeats
from dwellcalc.review.shown import ShownRatings
from dwellcalc.review.stated import stated_in
from dwellcalc.review.struck import to_strike
from dwellcalc.review.submittal import Scheduled, Submittal
from dwellcalc.review.sum_of_steps import result_of

SUBMITTAL_NO_SUPPLY = message("submittal_no_supply", 'the home has no supply "{name}"', "supplies: {known}")
SUBMITTAL_NO_REVIEW = message("submittal_no_review", "the rules of {edition} do not say how submittals are reviewed")
SUBMITTAL_NO_CLAIM = message(
    "submittal_no_claim", "the submittal claims nothing", "rows with `claimed`, or `total`, or `amperes`"
)

PARTIES = ("applicant", "permit", "reviewer", "site", "owner")  # whom the letter names
TABLES = ("rows", "claims", "evidence", "panel_schedule", "scope", "given", "notes", FREED)
OF_PAPERS = ("edition", "method", "supply", "home", *TABLES)
OWN = (*OF_PAPERS, "comments", "struck", "reword", *PARTIES)
BESIDE = ("code", "amendments", SPACES, AREA_FIELD)  # keys that may stand beside those of a home file
OF_RECORDS = ("source", "use", "also", "wrong", "doubts", "second_home", "claims_of_difference")  # of a published example
SERVICE = "service"
FIGURES = ("total", "amperes", "minimum_rating", "fits")


def read_submittal(path: Path | str, *, date: str, edition: str = "", rules: Path | None = None) -> Submittal:
    """Read a submittal.

    Args:
        path: the file; tables and homes that it names stand beside it.
        date: the date of the review, year-month-day.
        edition: the edition, instead of the one that it names.
        rules: a folder of rules, or the package's own.

    Raises:
        InputError: with everything that is wrong in it, as far as one thing does not hide another.
    """
    return submittal_of(read_file(path), Path(path).parent, date=date, edition=edition, folder=rules)


def submittal_of(node: Mapping, beside: Path, *, date: str, edition: str = "", folder: Path | None = None) -> Submittal:
    """A submittal from nodes that were read already.

    Raises:
        InputError: as of `read_submittal`.
    """
    return _SubmittalReader(node, beside, date).read(edition, folder)


class _SubmittalReader:
    def __init__(self, node: Mapping, beside: Path, date: str) -> None:
        self.node = Mapping((text_at("_".join(name.replace("-", " ").split()), name), each) for name, each in node.items())
        self.node.place = node.place
        self.beside = beside
        self.date = date
        self.problems = Problems()

    def read(self, edition: str, folder: Path | None) -> Submittal:
        title = next((self.node[key(name)] for name in TITLES if name in self.node), None)
        if not isinstance(title, Text):
            fail(SUBMITTAL_LACKS, self.node.place, key=TITLES[0], hint="what it is called, such as `submittal: Service change`")
        rules = self.rules(edition, folder)
        instructions = read_instructions(rules)
        if instructions.review is None:
            fail(SUBMITTAL_NO_REVIEW, title.place, edition=rules.id)
        if SERVICE in self.node:
            self.node[key(SERVICE)] = with_conductors(self.node[key(SERVICE)], instructions.review, rules.glossary)
        named = self.optional("method")
        is_new = self.optional("work") == NEW_WORK
        method = method_named(named, rules, instructions, is_new=is_new) if named is not None else ""
        labels = self.labels(rules, method, instructions)
        others = (*BESIDE, *OF_RECORDS, *rules.glossary.collections[UNITS].fields, *models_for(rules.glossary).keys[()])
        refuse_unknown(self.node, (*TITLES, *OWN, *FIGURES), others, self.problems)
        rows = read_rows(self.node[key("rows")], self.beside, self.problems) if "rows" in self.node else []
        rows = under_headings(rows, instructions.review, is_new=is_new)
        self.problems.raise_if_any()
        notes, scope = [*self.texts("notes")], [*self.texts("scope")]
        describer = Describer(rules, labels, instructions.review, self.problems, ToldBeside(notes, scope))
        filling = RowFilling(rules, instructions.review, describer, self.node.get(key(SERVICE)))
        status = RowStatus(instructions.review, labels, scope)
        rows = status.told(map(filling.filled, rows), is_new=is_new)
        rows = by_rows_beside(rows, describer, result_of(rules, method, instructions))
        opened = OpenRatings(rules, instructions.review, describer, status)
        rows, loads = opened.apart(rows, [*notes, *scope] if "home" not in self.node else ())
        described, home, taken = self.home(rows, title, describer)
        home, _ = with_record(home, rules, instructions, home.date or self.date)
        choices = chosen(rules, home.interpretations, self.problems)
        self.problems.raise_if_any()
        home = with_typical(home, rules)
        ranges = Ranges(self.supply(home), loads)
        claimed = {name: row.claimed for name, row in described.loads.items()}
        home = at_point(home, rules, instructions, choices, method, claimed)
        supply = self.supply(home)
        if not method:
            method = method_taken(self.node, rules, instructions, supply, choices)
            labels = self.labels(rules, method, instructions)
            described.match_lines_again(labels)
        if "home" in self.node:
            described.match_by_home(labels, {str(kind) for kind in supply.facts.collections[LOADS].fields["kind"]})
        given = given_in(self.node, rules, self.problems)
        is_named = bool(edition) or "edition" in self.node or "code" in self.node
        made = Submittal(title, rules, instructions, method, named is not None, is_named, home, supply, [], given, choices)
        made.taken, made.method_said = taken, str(named or "")
        if method != instructions.sizing.method:  # which takes all that is given itself
            made.stated = stated_in(given, described, rules, method, supply.facts)
        made.comments = own_comments(self.node.get(key("comments")), self.problems)
        made.to_reword = to_reword(self.node.get(key("reword")), self.problems)
        made.to_strike = to_strike(self.node.get(key("struck")), self.problems)
        say_freed(made, self.node.get(key(FREED)), notes, self.problems)
        fields = rules.glossary.collections[UNITS].fields
        made.counts_said = frozenset({*described.counts, *(str(name) for name in self.node if name in fields)})
        made.later, made.later_notes = described.later, {each: kind_in(each, labels) for each in describer.said_later.notes}
        said = ((row.label, describer.said_reasons.of_row(row)) for row in rows)
        made.reasons = {str(label): each for label, each in said if each is not None}
        again = Describer(rules, labels, instructions.review, Problems(), ToldBeside(notes, scope))
        made.with_later = self.with_later(rows, title, again)
        made.ranges = self.with_open(ranges, rows, title, made, describer) if ranges.are_there else None
        made.parties = {name: str(found) for name in PARTIES if (found := self.optional(name)) is not None}
        self.fill(made, described, rows, labels)
        made.matched += [*filling.matched(), *status.matched(), *opened.matched(made.open_loads)]
        self.problems.raise_if_any()
        return made

    def fill(self, made: Submittal, described: Described, rows: list[Row], labels: Labels) -> None:
        """Add the claims, and what the submittal shows beside them."""
        made.load_rows, made.not_shown = dict(described.loads), list(described.not_shown)
        made.unmatched, made.steps = list(described.unmatched), list(described.steps)
        made.full_names = full_names(described.matches, made.rules)
        made.before_steps = next((rows[at - 1] for at, row in enumerate(rows) if at and row in made.steps), None)
        made.open_kinds = {row.label: told for row in made.unmatched if (told := in_print(labels.may_be(row.label), made.rules))}
        made.nearest = {str(row.label): labels.nearest(row.label) for row in made.unmatched}
        made.no_loads = {row.label: why for row in made.unmatched if (why := labels.no_load(row.label))}
        plan = made.instructions.review
        assert plan is not None
        reader = ClaimReader(made, labels, self.problems)
        reader.of_rows(rows, described)
        leave_out_repeats(made, rows, plan)
        for entry in self.listed("claims"):
            reader.of_entry(entry)
        for name in FIGURES:
            if name in self.node:
                reader.of_figure(name, as_text(self.node[key(name)], name, self.problems))
        reader.drop_blanks()
        kinds = {claim.at: kind_of(made.rules, claim) for claim in made.claims}
        made.claims = rounded_throughout(made.claims, kinds, plan.rounded_at_most)
        if not made.claims and not made.unsure and not made.own_sums and not self.problems.found:
            fail(SUBMITTAL_NO_CLAIM, self.node.place)
        lines = {claim.place: claim.line for claim in made.claims}
        not_placed = {*made.own_sums, *(each.label for each in made.unsure)}
        for row, match in described.matches:
            if row.label in not_placed:
                continue
            line = lines.get(str(row.claimed.place)) if row.claimed is not None and match.what == LINE else None
            made.matched.append(matched(made.rules, row.label, replace(match, name=line or match.name)))
        made.matched = rows_told(made, described)
        made.blank = [row for row in described.blank if is_asked_about(row, plan, labels)]
        made.evidence = evidence_in(
            self.node, {NAMEPLATES, *made.stated, *made.rules.methods[plan.method].results}, self.problems
        )
        aside = (str(row.label) for row in made.unmatched)
        schedule = ScheduleReader(made.rules, made.supply.facts, self.problems, plan, aside, described.beside)
        phrases = SaidLater(plan.not_now, (), labels)
        circuits = (schedule.circuit(entry) for entry in self.listed("panel_schedule"))
        made.schedule = [_said(each, phrases) for each in circuits if each is not None]
        made.scope = [_said(schedule.meant(each, "scope"), phrases) for each in self.texts("scope")]
        evidence = self.node.get(key("evidence"))
        said = evidence.get(key(NAMEPLATES)) if isinstance(evidence, Mapping) else None
        made.shown = ShownRatings(plan, schedule).of(
            said if isinstance(said, Text) else None, self.texts("notes"), made.load_rows
        )
        confirm_counts(made)
        made.matched += [*schedule.matched, *not_counted(made)]

    # pieces

    def optional(self, name: str) -> Text | None:
        found = self.node.get(key(name))
        return None if found is None else as_text(found, name, self.problems)

    def listed(self, name: str) -> Iterator[Mapping]:
        for each in as_list(self.node[key(name)], name, self.problems) if name in self.node else ():
            yield as_mapping(each, f"an entry of {name}", self.problems)

    def texts(self, name: str) -> Iterator[Text]:
        for each in as_several(self.node[key(name)], name, self.problems) if name in self.node else ():
            yield as_text(each, f"an entry of {name}", self.problems)

    def rules(self, edition: str, folder: Path | None) -> RuleSet:
        code = self.node.get(key("edition"), self.node.get(key("code")))
        rules = rules_for(code if isinstance(code, Text) else None, edition, folder)
        named = self.node.get(key("amendments"))
        names = [str(each) for each in as_several(named, "amendments", self.problems)] if named is not None else []
        return amended(rules, names, {}, beside=self.beside, folder=folder) if names else rules

    def labels(self, rules: RuleSet, method: str, instructions: Instructions) -> Labels:
        """The names that labels may go by: of the method, of sizing, and of methods that the claims name."""
        lines = [str(each.get(key("line"), "")) for each in self.listed("claims")]
        claimed = [line.partition(".")[0] for line in lines if line.partition(".")[0] in rules.methods]
        methods = [method] if method else [*instructions.sizes_new, *instructions.methods]
        plan = instructions.review
        words = (plan.unmeaning, plan.left_out) if plan is not None else ()
        return Labels(rules, dict.fromkeys([*methods, instructions.sizing.method, *claimed]), *words)

    def with_later(self, rows: list[Row], title: Text, describer: Describer) -> Supply | None:
        """The supply with the loads that are said to come later and have a nameplate; nothing where it cannot be read."""
        described = describer.described(rows, all_of_them=True)
        if "home" in self.node or not any(each.row.nameplate is not None and not each.counted for each in described.later):
            return None
        try:
            return self.supply(self.described_home(described, title, describer)[0])
        except InputError:
            return None

    def with_open(self, ranges: Ranges, rows: list[Row], title: Text, made: Submittal, describer: Describer) -> Ranges:
        """What is open, with the home that holds the loads without a rating too, where it can be read."""
        again = Describer(made.rules, describer.labels, describer.plan, Problems())
        try:
            ranges.whole = self.home([*rows, *(each.row for each in ranges.loads)], title, again)[1]
            ranges.whole = with_typical(ranges.whole, made.rules)
        except InputError:
            return ranges
        ranges.supply = self.supply(ranges.whole)
        ranges.leave_out_what_counts_nothing(made.asked, made.rules)
        ranges.largest = at_point(ranges.whole, made.rules, made.instructions, made.choices, made.method, {})
        return ranges

    def described_home(self, described: Described, title: Text, describer: Describer) -> tuple[Home, list[str]]:
        """The home that rows describe, and what was taken where nothing is said."""
        skipped = (*TITLES, *OWN, *OF_RECORDS, *FIGURES)
        said = Mapping((name, each) for name, each in self.node.items() if name not in skipped)
        said.place = self.node.place
        if SPACES in said and PANELS not in said:
            said = with_panel(said)
        node, taken = describer.home(described, said, title, describer.problems)
        describer.problems.raise_if_any()
        try:
            return home_from_node(as_mapping(node, "home", describer.problems), describer.glossary, self.beside), taken
        except InputError as error:
            cells = {name: "claimed" if row.nameplate is None else "nameplate" for name, row in described.loads.items()}
            raise by_rows(error, UNIT_NAME, (UNITS, LOADS, PLANNED), cells) from None

    def home(self, rows: list[Row], title: Text, describer: Describer) -> tuple[Described, Home, list[str]]:
        """The home: as it is given, or as the rows describe it."""
        described = describer.described(rows)
        labels = (each.get(key("label")) for each in self.listed("panel_schedule"))
        circuits = [each for each in labels if isinstance(each, Text)]
        described.marked = describer.markings.of_loads(circuits, described.loads, described.kinds)
        given: Node | None = self.node.get(key("home"))
        if isinstance(given, Text):
            given = read_file(self.beside / given)
        if given is None:
            home, taken = self.described_home(described, title, describer)
            return described, home, taken
        described.loads, described.not_shown = {}, []
        return described, home_from_node(as_mapping(given, "home", self.problems), describer.glossary, self.beside), []

    def supply(self, home: Home) -> Supply:
        """The supply that the submittal is about: the service where it does not say."""
        named = self.optional("supply")
        if named is None:
            return home.supplies[0]
        known = {name.casefold(): each for each in home.supplies for name in (each.id, each.title)}
        if named.casefold() not in known:
            names = ", ".join(each.title for each in home.supplies)
            fail(SUBMITTAL_NO_SUPPLY, named.place, name=named, known=names, nearest=nearest_name(named, known))
        return known[named.casefold()]


def _said(found: Scheduled, phrases: SaidLater) -> Scheduled:
    """A circuit or an entry of the scope, marked where its label says that it comes later or is of others."""
    return replace(found, later=phrases.says(found.label))
