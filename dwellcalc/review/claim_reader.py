"""The claims of a submittal: of its rows, its list of claims, and the figures that stand by themselves."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from dwellcalc.language.tree import CheckedLine
from dwellcalc.placed import Mapping, Text, as_text, key, spaced, text_at
from dwellcalc.problems import Problems, message, nearest_name
from dwellcalc.review.carried import carried
from dwellcalc.review.claims import Claim, quantity_in, read_value
from dwellcalc.review.described import Described
from dwellcalc.review.labels import LINE, Labels, Match
from dwellcalc.review.looked import Looked, line_of
from dwellcalc.review.own_sums import OwnSums
from dwellcalc.review.refused import Refused
from dwellcalc.review.row_lines import lines_of_load
from dwellcalc.review.rows import Row
from dwellcalc.review.rows_together import together
from dwellcalc.review.stated import volts_of
from dwellcalc.review.steps import Steps
from dwellcalc.review.submittal import Submittal, Unsure
from dwellcalc.review.sum_places import SumPlaces

CLAIM_KEY = message("claim_key", 'there is no key "{key}" in a claim', "one of: {known}")
CLAIM_LACKS = message("claim_lacks", 'the claim lacks "{key}"', "a claim has a line or a label, and a value")
CLAIM_NO_LINE = message("claim_no_line", 'there is no line "{name}"', "such as `{example}`, or a label that the submittal uses")
CLAIM_NO_LABEL = message("claim_no_label", 'nothing is known that is called "{name}"', "name the line: `line: METHOD.LINE`")

KEYS = ("line", "label", "item", "value", "rounded_to", "section")
ITSELF = "named by the reviewer"

SHOWN = {"fits": "Said to fit"}  # what a figure that stands by itself is called, where its key is no name


class ClaimReader:
    """Reads claims into a submittal.

    Args:
        made: the submittal, whose home was read.
        labels: the names that labels may go by.
        problems: where what is wrong is noted.
    """

    def __init__(self, made: Submittal, labels: Labels, problems: Problems) -> None:
        self.made = made
        self.labels = labels
        self.problems = problems
        self.places = SumPlaces(Looked(made.rules, made.asked))
        self.sums = OwnSums()
        assert made.instructions.review is not None
        self.steps = Steps(made.instructions.review, made.rules.glossary)

    def of_rows(self, rows: list[Row], described: Described) -> None:
        """The claims of the rows, in their order."""
        matches = {id(row): match for row, match in described.matches}  # of a load at a line, the line
        names = {id(row): name for name, row in described.loads.items()}
        steps = {id(row) for row in described.steps}
        has_figures = any(row.claimed is not None for row in described.loads.values())
        of_rows: list[tuple[Row, Claim | None]] = []
        for row in rows:
            match = matches.get(id(row))
            made = None
            claimed = row.claimed
            if claimed is None and has_figures and id(row) in names:
                claimed = text_at("0", row.label)  # left blank beside others that have a figure
            if match is not None and claimed is not None:
                if match.what == LINE and id(row) in names:
                    made = self.of_load(row, claimed, names[id(row)], _how(match), first=self.lines_of(match))
                elif match.what == LINE:
                    made = self.of_lines(row, claimed, self.lines_of(match), _how(match))
                else:
                    made = self.of_share(row, claimed, names.get(id(row)) or self.listed_load(match.name), _how(match))
            of_rows.append((row, made if made is None else replace(made, blank=row.claimed is None)))
        of_areas = {label for label, *_ in described.areas}
        areas = {id(row) for row in rows if row.label in of_areas}
        self.place_all(together(of_rows, areas), steps)

    def place_all(self, of_rows: list[tuple[Row, Claim | None]], steps: set[int]) -> None:
        """Place the claims of rows among the lines that they may be for, in the order of the page, and add them."""
        above: list[Claim] = []
        made_of = [made for _, made in of_rows if made is not None]
        apart = carried(made_of, {each.load for each in made_of if each.blank}, self.places.looked)
        for position, (row, made) in enumerate(of_rows):
            claim, is_sum = None if made is not None and made.blank and made.load in apart else made, False
            if claim is not None:
                is_sum = self.places.is_sum(claim, above)
                claim = self.sums.told(claim, is_sum=is_sum)
            if claim is not None and position + 1 < len(of_rows) and id(of_rows[position + 1][0]) in steps:
                claim = self.places.before_steps(claim, above)
            elif claim is not None and claim.adds_up and not steps:
                claim = self.places.without_steps(claim, above)
            if claim is not None and claim.unsure and self.steps.share(row) is not None:
                claim = self.places.at_share(claim, above, self.steps.amount_of_share(row), self.steps.share(row))
            if claim is not None and row.match is None:
                behind = position > 0 and id(of_rows[position - 1][0]) in steps
                claim = self.places.after_steps(claim, above, behind_steps=behind)
            if claim is not None and claim.unsure:
                after = [each for _, each in of_rows[position + 1 :] if each is not None]
                if self.places.are_made_of_last(after, claim) and not self.places.is_told(claim, above):
                    claim = self.places.at_the_end(claim, above)
                if claim.unsure:
                    claim = self.placed(row.label, claim, above, [each for each in after if not each.unsure])
            if claim is not None:
                above.append(claim)
            figure = self.figure_of(row)
            if figure is not None:
                self.sums.add(figure, is_sum=is_sum, is_step=id(row) in steps)
        self.made.claims += above

    def placed(self, label: Text, claim: Claim, above: list[Claim], after: list[Claim]) -> Claim | None:
        """A claim whose label may be of several lines, at its line; nothing where none is sure, which is noted."""
        found, told = self.places.place(claim, above, after)
        if found is not None and (told or not claim.adds_up):
            also = tuple(each for each in claim.places if each != found)
            return replace(claim, line=found[0], item=found[1], also=also, unsure=False)
        if claim.adds_up:
            self.made.own_sums.append(label)
        else:
            self.made.unsure.append(Unsure(label, claim, dict(self.places.following(claim, above))))
        return None

    def figure_of(self, row: Row) -> float | None:
        """The claimed figure of a row [VA], or nothing where it is none."""
        kind = self.made.rules.methods[self.made.method].results[self.made.instructions.total].kind
        return None if row.claimed is None or kind is None else quantity_in(row.claimed, kind, self.made.rules.glossary)

    def listed_load(self, kind: str) -> str:
        """The only load of a kind in a home that is given, or empty."""
        facts = self.made.supply.facts
        loads = facts.collections["loads"]
        found = [name for name, each in zip(loads.names, loads.fields["kind"], strict=True) if each == kind]
        return found[0] if len(found) == 1 else ""

    def of_share(self, row: Row, claimed: Text, name: str, how: str) -> Claim | None:
        """The claim of a load; of one that is printed as a share of another figure that one, unless a line has the share.

        A load of which the method takes no share is claimed to be what is taken of it.
        """
        made = self.of_load(row, claimed, name, how)
        if made is None or row.share_of is None or made.met_by(self.places.looked.values([made]).get(made.at)):
            return made
        if self.places.looked.is_passed_on(made.at):
            return made
        return self.of_load(row, row.share_of, name, how)

    def of_load(
        self, row: Row, claimed: Text, name: str, how: str, first: Sequence[tuple[CheckedLine, str]] = ()
    ) -> Claim | None:
        """The claim of a row of a load: for a line of the method that stands for that load alone, or one that is named."""
        evaluation = self.places.looked.evaluation()
        lines = lines_of_load(self.made.rules, self.made.method, evaluation, name) if name else []
        if first:
            own = [each for each in first if each in lines]
            lines = [*own, *(each for each in lines if each not in own)] if own else list(first)
            made = self.of_lines(row, claimed, lines, how, row_of_load=bool(own), named=bool(own))
            return None if made is None else replace(made, load=name if own else "")
        if lines and self.counts_nothing(name, claimed):
            self.made.counting_nothing.append(row.label)
        elif lines:
            made = self.of_lines(row, claimed, lines, how, row_of_load=True)
            return None if made is None else replace(made, load=name)
        elif not name:
            self.made.unmatched.append(row)
        return None

    def counts_nothing(self, name: str, claimed: Text) -> bool:
        """Whether a load is claimed to be nothing, and the calculation is the same without it, such as the smaller of two."""
        line = self.made.rules.methods[self.made.method].results[self.made.instructions.total]
        kind = line.kind
        is_zero = kind is not None and quantity_in(claimed, kind, self.made.rules.glossary) == 0
        return is_zero and Looked(self.made.rules, self.made.asked).same_without(name)

    def of_lines(
        self,
        row: Row,
        claimed: Text,
        lines: list[tuple[CheckedLine, str]],
        how: str,
        *,
        row_of_load: bool = False,
        named: bool = False,
        rounded_to: Text | None = None,
    ) -> Claim | None:
        """The claim of a row that may stand for one of several lines.

        A load is at the first whose value is the claimed one, else at the one that decides the result; of a label that may
        mean several lines it is not sure yet.
        """
        lines = [each for each in lines if self.places.reads(claimed, each[0])] or lines  # a load before the same in amperes
        lines = self.without_currents(row.label, claimed, lines) if row_of_load else lines
        places = tuple((line.id, item) for line, item in lines)
        made = self.claim(row.label, *places[0], claimed, section=row.section, rounded_to=rounded_to, how=how, row=row_of_load)
        if made is None:
            return None
        of_one_kind = tuple(place for place, (line, _) in zip(places, lines, strict=True) if line.kind == lines[0][0].kind)
        made = replace(made, also=of_one_kind[1:])
        return self.at_load(made, named=named) if row_of_load else replace(made, unsure=len(of_one_kind) > 1)

    def without_currents(self, label: Text, claimed: Text, lines: list[tuple[CheckedLine, str]]) -> list[tuple[CheckedLine, str]]:
        """The lines of a load in another unit than amperes, where there are such and the figure is that of none in amperes."""
        looked = self.places.looked
        loads = [each for each in lines if not looked.is_current(each[0])]
        currents = (self.claim(label, line.id, item, claimed) for line, item in lines if loads and looked.is_current(line))
        met = any(each is not None and each.met_by(looked.values([each]).get(each.at)) for each in currents)
        return lines if met or not loads else loads

    def at_load(self, claim: Claim, *, named: bool) -> Claim:
        """The claim of a load at its line, the first if the reviewer named it, with the lines that hold the same of it."""
        looked = self.places.looked
        values = looked.values([claim])
        found = claim.at if named else claim.place_in(values)
        alike = [each for each in claim.places if isinstance(values[each], float) and values[each] == values[found]]
        found = found if named else next((each for each in alike if looked.decides(each)), found)
        also = tuple(each for each in claim.places if each != found)
        apart = tuple(each for each in alike if each != found and not self.places.related(each, found))
        return replace(claim, line=found[0], item=found[1], also=also, alike=apart)

    def of_entry(self, node: Mapping) -> None:
        """A claim of the list."""
        unknown = [name for name in node if name not in KEYS]
        for name in unknown:
            self.problems.add(CLAIM_KEY, name.place, key=name, known=", ".join(KEYS), nearest=nearest_name(name, KEYS))
        if unknown:
            return
        texts = {name: as_text(node[key(name)], name, self.problems) for name in KEYS if name in node}
        if "value" not in texts or not {"line", "label"} & set(texts):
            self.problems.add(CLAIM_LACKS, node.place, key="value" if "value" not in texts else "line")
            return
        if "line" in texts:
            self.of_named_line(texts)
            return
        match = self.labels.find(texts["label"], LINE)
        if match is None or match.what != LINE:
            near = self.labels.nearest(texts["label"])
            self.problems.add(CLAIM_NO_LABEL, texts["label"].place, name=texts["label"], nearest=near)
            return
        row = Row(texts["label"], claimed=texts["value"], section=texts.get("section"))
        made = self.of_lines(row, texts["value"], self.lines_of(match), _how(match), rounded_to=texts.get("rounded_to"))
        if made is not None and made.unsure:
            made = self.placed(row.label, made, self.made.claims, [])
        self.add(made)

    def of_named_line(self, texts: dict[str, Text]) -> None:
        """A claim of the list that names its line."""
        name = texts["line"]
        rounded_to, section = texts.get("rounded_to"), texts.get("section")
        for each in (str(name), f"{self.made.method}.{name}"):
            if line_of(self.made.rules, each) is not None:
                label, item = texts.get("label", name), str(texts.get("item", ""))
                self.add(self.claim(label, each, item, texts["value"], section=section, rounded_to=rounded_to, how=ITSELF))
                return
        method = self.made.rules.methods.get(name.partition(".")[0], self.made.rules.methods.get(self.made.method))
        lines = list(method.lines.values()) if method is not None else []
        near = nearest_name(name, [each for line in lines for each in (line.name, line.id)])
        self.problems.add(CLAIM_NO_LINE, name.place, name=name, example=lines[-1].id if lines else "", nearest=near)

    def lines_of(self, match: Match) -> list[tuple[CheckedLine, str]]:
        """The lines that a label may mean, each without an item."""
        return [(line, "") for name in (match.name, *match.also) if (line := line_of(self.made.rules, name)) is not None]

    def drop_blanks(self) -> None:
        """Leave the loads without a figure out of the claims where the total counts them all the same."""
        method = self.made.rules.methods.get(self.made.method)
        result = None if method is None else method.results.get(self.made.instructions.total)
        if result is None:
            return
        totals = [each for each in self.made.claims if each.line == result.id]
        computed = self.places.looked.values(totals)
        if any(each.met_by(computed[each.at]) for each in totals):
            self.made.claims = [each for each in self.made.claims if not each.blank]

    def of_figure(self, name: str, text: Text) -> None:
        """A figure that stands by itself: the total, the amperes, the rating, the outcome."""
        instructions, rules = self.made.instructions, self.made.rules
        of_method = {"total": instructions.total, "amperes": instructions.amperes}
        if name in of_method and self.made.method:
            line = rules.methods[self.made.method].results[of_method[name]]
        else:
            line = rules.methods[instructions.sizing.method].results[instructions.sizing.results[name]]
        label = Text(SHOWN.get(name, spaced(name).capitalize()))
        label.source, label.line, label.column = text.source, text.line, text.column
        made = self.claim(label, line.id, "", text, how=ITSELF)
        if made is not None and line.method == self.made.method:
            made = self.sums.told(made, is_sum=self.places.is_sum(made, self.made.claims))
        self.add(made)

    # one claim

    def add(self, claim: Claim | None) -> None:
        """Add a claim, if its value could be read."""
        if claim is not None:
            self.made.claims.append(claim)

    def claim(
        self,
        label: Text,
        line: str,
        item: str,
        text: Text,
        *,
        section: Text | None = None,
        rounded_to: Text | None = None,
        how: str = "",
        row: bool = False,
    ) -> Claim | None:
        """A claim for a line, or nothing where its value cannot be read."""
        checked = line_of(self.made.rules, line)
        assert checked is not None
        try:
            value, step = read_value(text, checked, self.made.rules.glossary, rounded_to, volts_of(self.made.supply.facts))
        except Refused as refused:
            refused.note(self.problems)
            return None
        return Claim(str(label), line, item, str(text), value, step, str(section or ""), how, row, str(text.place))


def _how(match: Match) -> str:
    return f'"{match.by}" {match.how}'
