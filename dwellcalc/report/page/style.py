"""The style of a page, from the file that holds it."""

from __future__ import annotations

from importlib.resources import files

FOOT = "FOOT"  # stands in the style for what is printed at the foot of each sheet of paper


def style(foot: str, drawing: str) -> str:
    """The style of a page, without a request to anywhere.

    Args:
        foot: what stands at the foot of each sheet of paper, beside its number.
        drawing: the style of the pictures.
    """
    said = foot.replace("\\", "\\\\").replace('"', '\\"').replace("<", "\\3c ").replace("\n", " ")
    return f"{files(__package__).joinpath('page.css').read_text(encoding='utf-8').replace(FOOT, said)}\n{drawing}"
