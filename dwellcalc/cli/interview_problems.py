"""How a problem of an answer is told in an interview."""

from __future__ import annotations

from dwellcalc.home import messages
from dwellcalc.problems import Problem

PATH_ENDS = ": "
WRITTEN = "It is written here as {forms}; `don't know` where it cannot be read"
OF_FORM = (messages.RATING, messages.RATING_NO_UNIT)


def told(problem: Problem, forms: str = "") -> str:
    """A problem of an answer, without the path in the file, which the question tells already; ``forms`` are those of its rating."""
    text = problem.text
    path = problem.words.get("path", "")
    if path and text.startswith(path + PATH_ENDS):
        text = text.removeprefix(path + PATH_ENDS)
    text = f"{text[:1].upper()}{text[1:]}"
    hint = WRITTEN.format(forms=forms) if forms and problem.message in OF_FORM else problem.hint
    return f"{text}. {hint[:1].upper()}{hint[1:]}" if hint else text
