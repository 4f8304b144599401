"""The claims of a submittal: of its rows, its list of claims, and the figures that stand by themselves."""

from __future__ import annotations

from dataclasses import replace

from dwellcalc.evaluate.gathering import Value
from dwellcalc.evaluate.traced import Evaluation, plan_of
from dwellcalc.language.tree import CheckedLine
from dwellcalc.placed import Mapping, Text, as_text, key, spaced
from dwellcalc.problems import Problems, message, nearest_name
from dwellcalc.review.claims import Claim, read_value
from dwellcalc.review.described_home import Described
from dwellcalc.review.labels import KIND, LINE, Labels
from dwellcalc.review.looked import line_of
from dwellcalc.review.refused import Refused
from dwellcalc.review.row_lines import lines_of_load
from dwellcalc.review.rows import Row
from dwellcalc.review.submittal import Submittal

CLAIM_KEY = message("claim_key", 'there is no key "{key}" in a claim', "one of: {known}")
CLAIM_LACKS = message("claim_lacks", 'the claim lacks "{key}"', "a claim has a line or a label, and a value")
CLAIM_NO_LINE = message("claim_no_line", 'there is no line "{name}"', "such as `{example}`, or a label that the submittal uses")
CLAIM_NO_LABEL = message("claim_no_label", 'nothing is known that is called "{name}"', "name the line: `line: METHOD.LINE`")

KEYS = ("line", "label", "item", "value", "rounded_to", "section")
ITSELF = "named by the reviewer"


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

    def of_rows(self, rows: list[Row], described: Described) -> None:
        """The claims of the rows, in their order."""
        matches = {id(row): match for row, match in described.matches}
        names = {id(row): name for name, row in described.loads.items()}
        for row in rows:
            match = matches.get(id(row))
            if match is None or row.claimed is None:
                continue
            how = f'"{match.by}" {match.how}'
            if match.what == LINE:
                self.add(self.claim(row.label, match.name, "", row.claimed, section=row.section, how=how))
            elif id(row) in names:
                self.of_load(row, row.claimed, names[id(row)], how)
            elif match.what == KIND:
                self.of_load(row, row.claimed, self.listed_load(match.name), how)

    def listed_load(self, kind: str) -> str:
        """The only load of a kind in a home that is given, or empty."""
        facts = self.made.supply.facts
        loads = facts.collections["loads"]
        found = [name for name, each in zip(loads.names, loads.fields["kind"], strict=True) if each == kind]
        return found[0] if len(found) == 1 else ""

    def of_load(self, row: Row, claimed: Text, name: str, how: str) -> None:
        """The claim of a row of a load: for the line of the method that stands for that load alone."""
        evaluation = Evaluation(plan_of(self.made.rules), self.made.supply.facts, self.made.choices)
        lines = lines_of_load(self.made.rules, self.made.method, evaluation, name) if name and self.made.method else []
        if not lines:
            return
        places = tuple((line.id, item) for line, item in lines)
        made = self.claim(row.label, *places[0], claimed, section=row.section, how=how, row=True)
        if made is None:
            return
        values = {place: self.value_at(evaluation, *each) for place, each in zip(places, lines, strict=True)}
        made = replace(made, also=places)
        line, item = made.place_in(values)
        self.made.claims.append(replace(made, line=line, item=item, also=tuple(each for each in places if each != (line, item))))

    def value_at(self, evaluation: Evaluation, line: CheckedLine, item: str) -> Value:
        """The value of a line for an item."""
        place = 0 if not item else self.made.supply.facts.collections[line.level].names.index(item)
        return evaluation.value(line.position, place)

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
        line, how = self.line_meant(texts)
        if line:
            label = texts.get("label", texts.get("line", texts["value"]))
            item, value = str(texts.get("item", "")), texts["value"]
            rounded_to, section = texts.get("rounded_to"), texts.get("section")
            self.add(self.claim(label, line, item, value, section=section, rounded_to=rounded_to, how=how))

    def line_meant(self, texts: dict[str, Text]) -> tuple[str, str]:
        """The line that an entry names, or that its label means, and how it was found."""
        if "line" in texts:
            name = texts["line"]
            for each in (str(name), f"{self.made.method}.{name}"):
                if line_of(self.made.rules, each) is not None:
                    return each, ITSELF
            method = self.made.rules.methods.get(name.partition(".")[0], self.made.rules.methods.get(self.made.method))
            lines = list(method.lines.values()) if method is not None else []
            near = nearest_name(name, [each for line in lines for each in (line.name, line.id)])
            self.problems.add(CLAIM_NO_LINE, name.place, name=name, example=lines[-1].id if lines else "", nearest=near)
            return "", ""
        match = self.labels.find(texts["label"], LINE)
        if match is None or match.what != LINE:
            near = self.labels.nearest(texts["label"])
            self.problems.add(CLAIM_NO_LABEL, texts["label"].place, name=texts["label"], nearest=near)
            return "", ""
        return match.name, f'"{match.by}" {match.how}'

    def of_figure(self, name: str, text: Text) -> None:
        """A figure that stands by itself: the total, the amperes, the rating, the outcome."""
        instructions, rules = self.made.instructions, self.made.rules
        of_method = {"total": instructions.total, "amperes": instructions.amperes}
        if name in of_method and self.made.method:
            line = rules.methods[self.made.method].results[of_method[name]]
        else:
            role = "minimum_rating" if name == "service_rating" else name
            line = rules.methods[instructions.sizing.method].results[instructions.sizing.results[role]]
        label = Text(spaced(name).capitalize())
        label.source, label.line, label.column = text.source, text.line, text.column
        self.add(self.claim(label, line.id, "", text, how=ITSELF))

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
            value, step = read_value(text, checked, self.made.rules.glossary, rounded_to)
        except Refused as refused:
            refused.note(self.problems)
            return None
        return Claim(str(label), line, item, str(text), value, step, str(section or ""), how, row, str(text.place))
