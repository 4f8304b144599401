"""A headless browser for tests: pages measured in frames of several widths, without a change to the pages themselves.

A page is loaded into a frame of its own (`srcdoc`), where its scripts, if it had any, could not run by its own policy; the
script that measures stands in the page around.
"""

from __future__ import annotations

import html
import json
import re
import shutil
import subprocess
from pathlib import Path

import pytest

CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
needs_browser = pytest.mark.skipif(CHROMIUM is None, reason="no chromium on this machine")
needs_poppler = pytest.mark.skipif(shutil.which("pdftotext") is None, reason="no pdftotext on this machine")
SIDE = 14 / 25.4 * 72 + 0.3  # margin of a sheet of paper at its right and foot [pt], and a little
FLAGS = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--disable-extensions",
)
OWN_REQUESTS = re.compile(r"https?://[a-z0-9.]*\b(?:google|googleapis|gstatic)\.com/")  # of the browser itself, whatever it shows
MEASURE = """
function texts(page) {
  const found = [], walker = page.createTreeWalker(page.body, NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) {
    const node = walker.currentNode, holder = node.parentElement;
    if (!node.textContent.trim() || !holder.checkVisibility({contentVisibilityAuto: true, visibilityProperty: true})) continue;
    const range = page.createRange();
    range.selectNodeContents(node);
    for (const box of range.getClientRects())
      if (box.width > 1 && box.height > 1 && box.right > 0) found.push({text: node.textContent.trim().slice(0, 60), holder, box});
  }
  return found;
}
function measure(frame) {
  const page = frame.contentDocument, wide = page.documentElement.clientWidth, told = [];
  if (page.documentElement.scrollWidth > wide + 1) told.push("wider than the window: " + page.documentElement.scrollWidth + " of " + wide);
  const every = texts(page).sort((one, other) => one.box.top - other.box.top);
  every.forEach((one, at) => {
    if (one.box.right > wide + 1 || one.box.left < -1) told.push("cut: " + one.text);
    for (let next = at + 1; next < every.length && every[next].box.top < one.box.bottom; next++) {
      const other = every[next];
      const across = Math.min(one.box.right, other.box.right) - Math.max(one.box.left, other.box.left);
      const down = Math.min(one.box.bottom, other.box.bottom) - Math.max(one.box.top, other.box.top);
      if (across > 2 && down > Math.min(one.box.height, other.box.height) * 0.35 && one.holder !== other.holder)
        told.push("over one another: " + one.text + " | " + other.text);
    }
  });
  return {name: frame.title, texts: every.length, told: told.slice(0, 20)};
}
window.addEventListener("load", () => setTimeout(() => {
  const frames = [...document.querySelectorAll("iframe")];
  const closed = frames.map(measure);
  frames.forEach(each => each.contentDocument.querySelectorAll("details").forEach(fold => { fold.open = true; }));
  const opened = frames.map(measure);
  const made = document.createElement("pre");
  made.id = "measured";
  made.textContent = JSON.stringify({closed, opened});
  document.body.append(made);
}, 300));
"""


def run_browser(folder: Path, *arguments: str) -> str:
    """Run the browser with a profile of its own; what it printed."""
    assert CHROMIUM is not None
    command = [CHROMIUM, *FLAGS, f"--user-data-dir={folder / 'profile'}", *arguments]
    return subprocess.run(command, capture_output=True, text=True, check=True, timeout=120).stdout


def measured(pages: dict[str, str], widths: tuple[int, ...], folder: Path) -> dict[str, list[dict[str, object]]]:
    """Every page at every width: what of its texts is cut or lies over another, with all folds closed and open."""
    frames = [
        f'<iframe title="{html.escape(name)} at {width}" style="width:{width}px;height:800px;border:0" srcdoc="{html.escape(page)}"></iframe>'
        for name, page in pages.items()
        for width in widths
    ]
    file = folder / "frames.html"
    file.write_text(f"<!DOCTYPE html><meta charset=utf-8><body>{''.join(frames)}<script>{MEASURE}</script>", encoding="utf-8")
    said = run_browser(folder, "--virtual-time-budget=20000", "--dump-dom", f"file://{file}")
    found = re.search(r'<pre id="measured">(.*?)</pre>', said, re.S)
    assert found, said[-400:]
    made: dict[str, list[dict[str, object]]] = json.loads(html.unescape(found[1]))
    return made


def printed(page: str, size: str, folder: Path) -> list[str]:
    """The text of each sheet of paper of a size, as a page prints."""
    file, made = folder / f"{size}.html", folder / f"{size}.pdf"
    file.write_text(page.replace("</head>", f"<style>@page {{ size: {size}; }}</style></head>"), encoding="utf-8")
    run_browser(folder, "--no-pdf-header-footer", f"--print-to-pdf={made}", f"file://{file}")
    text = subprocess.run(["pdftotext", "-layout", str(made), "-"], capture_output=True, text=True, check=True).stdout
    return text.split("\f")[:-1]


def over_the_edge(page: str, size: str, folder: Path) -> list[str]:
    """The words that end beyond the width of the text, or so near to it that paper shows them shaved, with their sheets."""
    printed(page, size, folder)
    boxes = subprocess.run(
        ["pdftotext", "-bbox", str(folder / f"{size}.pdf"), "-"], capture_output=True, text=True, check=True
    ).stdout
    found = []
    for number, sheet in enumerate(boxes.split("<page ")[1:], 1):
        wide, high = (float(each) for each in re.findall(r'(?:width|height)="([\d.]+)"', sheet)[:2])
        for right, foot, word in re.findall(r'xMax="([\d.]+)" yMax="([\d.]+)">([^<]*)<', sheet):
            if float(right) > wide - SIDE and float(foot) < high - SIDE:
                found.append(f"sheet {number}: {word}")
    return found


def requests_of(page: Path, folder: Path) -> set[str]:
    """The addresses that a page asks for, beside its own file."""
    log = folder / "net.json"
    run_browser(folder, f"--log-net-log={log}", "--virtual-time-budget=3000", "--dump-dom", f"file://{page}")
    told = log.read_text(encoding="utf-8")
    found = set(re.findall(r'"url":"((?:https?|ftp|wss?|file)://[^"]*)"', told)) - {f"file://{page}"}
    return {each for each in found if not OWN_REQUESTS.match(each)}
