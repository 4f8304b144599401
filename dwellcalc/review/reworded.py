"""Comments of the review that the reviewer puts in words of his own: their figures and their effect stay."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from dwellcalc.placed import Mapping, Node, Text, as_list, as_text, key, place_of
from dwellcalc.problems import Problems, message, nearest_name
from dwellcalc.review.finding import QUESTION, Finding
from dwellcalc.review.own_comments import ended
from dwellcalc.review.schedule_reader import SCHEDULE_KEY
from dwellcalc.review.struck import meant

REWORD_LACKS = message(
    "reword_lacks",
    "what is reworded lacks {what}",
    "the title of the comment as the letter prints it, and the words for it: "
    "`reword: [{{comment: Ratings not given, text: Please send the nameplates}}]`",
)

SENTENCE = re.compile(r"(?<=[.;?])\s+(?=[A-Z\"])")
AMOUNT = re.compile(r"\d[\d,.]*\s*(?:k?VA|k?W|A)\b")
NEEDED, TITLE = ("comment", "text"), "title"
KEYS = (*NEEDED, TITLE)


@dataclass(frozen=True)
class ToReword:
    """The reviewer's words for a comment: its title, or how it begins, the text, and a new title or nothing."""

    title: Text
    text: str
    new_title: str


def to_reword(node: Node | None, problems: Problems) -> list[ToReword]:
    """The entries under the key for what is reworded; what is wrong is noted."""
    found = []
    for each in as_list(node, "reword", problems) if node is not None else ():
        entry = each if isinstance(each, Mapping) else Mapping()
        for name in entry:
            if name not in KEYS:
                near = nearest_name(name, KEYS)
                problems.add(SCHEDULE_KEY, name.place, key=name, what="what is reworded", known=", ".join(KEYS), nearest=near)
        texts = {name: as_text(entry[key(name)], name, problems) for name in KEYS if name in entry}
        lacking = [name for name in NEEDED if name not in texts or not texts[name].strip()]
        if lacking:
            problems.add(REWORD_LACKS, place_of(each), what=" and ".join(f"`{name}`" for name in lacking))
        else:
            found.append(ToReword(texts["comment"], ended(texts["text"]), str(texts.get(TITLE, "")).strip()))
    return found


def reword(findings: Sequence[Finding], entries: Iterable[ToReword], labels: Iterable[str] = ()) -> list[Finding]:
    """The comments, those that the reviewer puts in other words with these, and with the words of the review beside them.

    Args:
        findings: the comments of the review.
        entries: what the reviewer rewords.
        labels: of the rows of loads, whose numbers are no figures of a comment.

    Raises:
        InputError: an entry means no comment, or begins several.
    """
    own = {each.id: entry for entry in entries for each in meant(entry.title, findings)}
    labels = sorted(map(str, labels), key=len, reverse=True)
    return [_in_own_words(each, own[each.id], labels) if each.id in own else each for each in findings]


def _in_own_words(finding: Finding, entry: ToReword, labels: Sequence[str]) -> Finding:
    said = " ".join([*finding.causes, finding.text, f"Please send {finding.send}." if finding.send else ""]).strip()
    heading = entry.new_title or finding.heading
    stays = finding.stays or (_with_amounts(finding.text, labels) if finding.severity == QUESTION or not finding.figures else "")
    return replace(finding, text=entry.text, heading=heading, send="", causes=[], equal=[], reworded_from=said, stays=stays)


def _with_amounts(text: str, labels: Sequence[str]) -> str:
    """The sentences of a comment that tell an amount of load: what it would come to is kept beside other words."""
    kept = []
    for sentence in SENTENCE.split(text):
        rest = sentence
        for each in labels:
            rest = rest.replace(each, "")
        if AMOUNT.search(rest):
            kept.append(sentence)
    return " ".join(kept)
