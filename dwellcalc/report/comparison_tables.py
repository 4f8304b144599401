"""The tables of a comparison: what each side gives, and a difference by set of changes and line."""

from __future__ import annotations

from fractions import Fraction

from dwellcalc.compare.document import LineShare, MethodDifference, SetShare, SupplyAt, SupplyComparison, Turn
from dwellcalc.report.answer import USE_WORDS
from dwellcalc.report.tables import Block, Listing, Paragraph, Table

SHORT = 16  # letters of a part that may share a line with another
NONE = "-"
VERDICT, BASIS, USE, RESULT = "verdict", "basis", "use", "result"
TURNED = {VERDICT: "Verdict", BASIS: "Method taken", USE: "Use of", RESULT: "Result of"}


def more(amperes: Fraction | float) -> str:
    """A difference in print, with its sign."""
    return f"{float(amperes):+,.2f} A"


def sides_table(found: SupplyComparison) -> list[Block]:
    """What every method gives on each side, what must be carried, and the verdict; then why one may not be used."""
    shown = usable(found)  # the others stand below, with the reason
    methods = {each.method: each.title for side in found.at for each in side.methods if each.method in shown}
    rows = [[title, *(_method(side, name) for side in found.at)] for name, title in methods.items()]
    if any(side.amperes_required != _of_basis(side) for side in found.at):
        rows.append(["To be carried, with what continuous load adds", *(_amperes(side.amperes_required) for side in found.at)])
    rows.append(["Verdict", *(side.verdict for side in found.at)])
    head = ["Method", *(side.under for side in found.at)]
    table = Table("", head, rows, ["left", *("right" for _ in found.at)])
    why = _reasons(found.at)
    return [table, *([Listing(why)] if why else [])]


def _method(side: SupplyAt, name: str) -> str:
    found = next((each for each in side.methods if each.method == name), None)
    if found is None:
        return NONE
    shown = _amperes(found.amperes)
    if found.basis:
        return f"{shown}, taken"
    if found.may_be_used != "yes":
        return f"{shown}, {USE_WORDS[found.may_be_used]}" if found.amperes is not None else USE_WORDS[found.may_be_used]
    return shown if found.amperes is not None else "cannot be calculated"


def _reasons(sides: list[SupplyAt]) -> list[str]:
    """Why a method may not be used or be calculated; on which side, where that differs."""
    found: dict[tuple[str, str], list[str]] = {}
    for side in sides:
        for each in side.methods:
            if each.why:
                title = f"{each.title} may not be used" if each.may_be_used == "no" else each.title
                found.setdefault((title, "; ".join(each.why)), []).append(side.under)
    return [f"{title}{'' if len(under) == len(sides) else _under(under)}: {why}" for (title, why), under in found.items()]


def _under(names: list[str]) -> str:
    return f" ({', '.join(names)})"


def _of_basis(side: SupplyAt) -> float | None:
    return next((each.amperes for each in side.methods if each.basis), None)


def _amperes(found: float | None) -> str:
    return NONE if found is None else f"{found:,.2f} A"


def set_tables(found: MethodDifference) -> list[Block]:
    """The difference of a method by sets of changes, each a table of its lines."""
    if found.amperes is None:
        return [Paragraph(not_compared(found))]
    unchanged = f" {_sets(found.unchanged)} nothing for this home by this method." if found.unchanged else ""
    if not found.sets:
        return [Paragraph(f"{found.title}: no difference.{unchanged}")]
    blocks: list[Block] = [Paragraph(f"{found.title}: {more(found.amperes)}.{unchanged}")]
    return blocks + [_set_table(each) for each in found.sets]


def _sets(number: int) -> str:
    return f"{number} set{'s' if number > 1 else ''} of changes change{'' if number > 1 else 's'}"


def not_compared(found: MethodDifference) -> str:
    """The sentence that a method's difference cannot be told, and why."""
    return f"{found.title}: no difference can be told, because {'; '.join(found.why)}."


def _set_table(found: SetShare) -> Table:
    by = "without" if found.removed else "by"
    return lines_table(
        f"{more(found.amperes)} {by} {_named(found.title, found.document, found.cites)}", found.lines, "before", "after"
    )


def _named(title: str, document: str, cites: list[str]) -> str:
    """A set of changes by its title, its edition or amendment, and the sections that it rests on."""
    return f'"{title}", {document}{_under(cites) if cites else ""}'


def lines_table(title: str, lines: list[LineShare], first: str, second: str) -> Table:
    """Lines with their part of a difference and both values; under each what differs, deeper with more dashes."""
    what = "Line, and what differs under it" if any(line.because for line in lines) else "Line"
    rows = []
    for line in lines:
        rows.append([more(line.amperes), line.title, line.cite, line.was, line.now])
        rows += [
            ["", f"{'- ' * (each.depth + 1)}{each.what}", each.cite, _broken(each.was), _broken(each.now)]
            for each in line.because
        ]
    return Table(title, ["Amperes", what, "Section", first, second], rows, ["right", "left", "left", "right", "right"])


def turn_text(found: Turn) -> str:
    """What changes its word, in a sentence."""
    what = f"{TURNED[found.what]} {found.method}".strip()
    was, now = ((USE_WORDS.get(word, word) if found.what == USE else word) or "none" for word in (found.was, found.now))
    because = f": {'; '.join(found.because)}" if found.because else ""
    return f"{what}: {was}, then {now}, {'without' if found.removed else 'by'} {_named(found.title, found.document, found.cites)}{because}"


def usable(found: SupplyComparison) -> set[str]:
    """The methods that may be used on some side."""
    return {each.method for side in found.at for each in side.methods if each.may_be_used != "no"}


def _broken(text: str) -> str:
    """A text of several parts, such as tiers, with each on a line of its own, so that it leaves the other columns their room."""
    parts = text.split(", ")
    return ",\n".join(parts) if max(map(len, parts)) > SHORT and len(parts) > 1 else text
