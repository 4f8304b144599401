"""Comments that the reviewer writes: they stand in the letter after those of the review."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from dwellcalc.placed import Mapping, Node, Text, as_list, as_mapping, as_text, place_of
from dwellcalc.problems import Problems, message, nearest_name
from dwellcalc.review.finding import CODE, ERROR, QUESTION, REMARK, Finding
from dwellcalc.review.schedule_reader import SCHEDULE_KEY

COMMENT_LACKS = message("comment_lacks", "this comment has no text", "what is to be said, such as `text: Send the nameplate`")

COMMENT_KIND = message("comment_kind", '"{kind}" is no kind of comment', "one of: {known}")

KEYS = ("title", "text", "section", "kind")
REVIEWER = "reviewer"  # what such a finding is about
UNTITLED = "Further comment"
KINDS = {"correction": ERROR, "question": QUESTION, "note": REMARK}  # what a comment may be said to be, with its severity
ENDS = (".", "?", "!")


def own_comments(node: Node | None, problems: Problems) -> list[Finding]:
    """The comments under the key for them, a list of texts or of keys with values; what is wrong is noted."""
    return [] if node is None else list(_read(as_list(node, "comments", problems), problems))


def _read(entries: Iterable[Node], problems: Problems) -> Iterator[Finding]:
    for each in entries:
        if isinstance(each, Text) and each.strip():
            yield _comment("", each, "", "")
        elif isinstance(each, Mapping):
            told = {name: as_text(value, name, problems) for name, value in _known(each, problems).items()}
            kind = told.get("kind")
            if kind is not None and kind.casefold() not in KINDS:
                problems.add(COMMENT_KIND, kind.place, kind=kind, known=", ".join(KINDS), nearest=nearest_name(kind, KINDS))
            elif told.get("text") or told.get("title"):
                yield _comment(*(str(told.get(name, "")) for name in KEYS))
            else:
                problems.add(COMMENT_LACKS, place_of(each))
        else:
            problems.add(COMMENT_LACKS, place_of(each))


def _known(entry: Mapping, problems: Problems) -> dict[str, Node]:
    """The entries of a comment under known keys; others are noted."""
    for name in as_mapping(entry, "a comment", problems):
        if name not in KEYS:
            near = nearest_name(name, KEYS)
            problems.add(SCHEDULE_KEY, name.place, key=name, what="a comment", known=", ".join(KEYS), nearest=near)
    return {str(name): value for name, value in entry.items() if name in KEYS}


def _comment(title: str, text: str, section: str, kind: str) -> Finding:
    """A comment as a finding; a text that is not ended gets its stop. Without a kind it is a remark that is told to be the reviewer's."""
    text = text.strip()
    name, severity = f"of the reviewer: {title or text}", KINDS.get(kind.casefold(), REMARK)
    return Finding(
        name, severity, CODE, REVIEWER, title.strip() or UNTITLED, ended(text), section.strip(), weight=kind.casefold()
    )


def ended(text: str) -> str:
    """A text with the stop at its end."""
    text = text.strip()
    return text if not text or text.endswith(ENDS) else f"{text}."


def with_own(findings: Iterable[Finding], own: Iterable[Finding]) -> list[Finding]:
    """Comments of the review with those of the reviewer: corrections behind its corrections, all others behind all."""
    ordered, own = list(findings), list(own)
    last = max((at for at, each in enumerate(ordered, 1) if each.severity == ERROR), default=0)
    corrections = [each for each in own if each.severity == ERROR]
    return [*ordered[:last], *corrections, *ordered[last:], *(each for each in own if each.severity != ERROR)]
