"""What a user meets at a terminal: pages of help, characters, widths, colour, progress, pipes."""

from __future__ import annotations

import argparse
import contextlib
import fcntl
import io
import json
import os
import pty
import re
import shlex
import struct
import subprocess
import sys
import termios
import time
from collections.abc import Iterator, Sequence
from pathlib import Path

import pytest
from assessments import DEMO, DEMOS, demo_assessed
from commands import Run
from examples import ROOT
from samples import first_of

from dwellcalc.cli import printing, terminal
from dwellcalc.cli.characters import TYPED, make_writable, shown, typed
from dwellcalc.cli.command import parser
from dwellcalc.cli.emphasis import emphasised
from dwellcalc.cli.progress_line import progress_line
from dwellcalc.evaluate.check import check_folder
from dwellcalc.report.sheet_pages import sheet_pages
from dwellcalc.report.tables import Block, Paragraph, Table, as_text
from dwellcalc.review.catalogue import check_catalogue

COMMAND = [sys.executable, "-m", "dwellcalc"]
WIDTHS = (60, 80, 110, 200)
HOME = str(ROOT / "worked_examples" / "demo" / "small_gas_heated_house.yaml")
SLOW = "dwellcalc rules check"  # proves every edition, which takes minutes


def environment(**more: str) -> dict[str, str]:
    """The variables of a process of its own, without what would change what it prints."""
    kept = {name: value for name, value in os.environ.items() if name not in ("NO_COLOR", "COLUMNS", "TERM", "PYTHONIOENCODING")}
    return {**kept, "PYTHONPATH": str(ROOT), **more}


# --- pages of help


def parsers(of: argparse.ArgumentParser) -> Iterator[argparse.ArgumentParser]:
    """A parser and those of its commands."""
    yield of
    for action in of._actions:
        if isinstance(action, argparse._SubParsersAction):
            for each in action.choices.values():
                yield from parsers(each)


PAGES = {each.prog: each for each in parsers(parser())}


def examples_of(page: str) -> list[str]:
    """The command lines that a page of help shows."""
    shown = page.partition("\nexamples:\n")[2].partition("\n\n")[0].replace("\\\n", " ")
    return [" ".join(line.split()) for line in shown.splitlines()]


@pytest.mark.parametrize("name", PAGES)
def test_a_page_of_help_is_whole(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """A sentence, examples and exit codes; every option is explained; a command's examples are its own."""
    monkeypatch.setenv("COLUMNS", "110")
    page = PAGES[name].format_help()
    assert re.search(r"\n\n[A-Z][^\n]*(\n[^\n]+)?\.\n\n", page), "a sentence says what the command does"
    examples = examples_of(page)
    assert 2 <= len(examples) <= 3
    assert any(example.startswith(name) for example in examples)
    assert all(example.startswith("dwellcalc ") for example in examples)
    codes = re.findall(r"(?m)^  (\d)  \S", page.partition("\nexit code:\n")[2])
    assert codes == sorted(codes)
    assert {"0", "2"} <= set(codes) <= {"0", "1", "2", "3"}
    for action in PAGES[name]._actions:
        assert action.help or isinstance(action, argparse._SubParsersAction), action.dest


@pytest.mark.parametrize("name", PAGES)
def test_options_stand_in_the_same_order_on_every_page(name: str) -> None:
    """What is asked first, then the form of what is printed, then other rules."""
    order = ["--help", "--edition", "--amendment", "--method", "--full", "--letter", "--format", "--rules"]
    named = [option for action in PAGES[name]._actions for option in action.option_strings if option in order]
    assert named == sorted(named, key=order.index)


@pytest.mark.parametrize("name", PAGES)
def test_an_example_is_the_same_at_every_width(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    shown = []
    for width in WIDTHS:
        monkeypatch.setenv("COLUMNS", str(width))
        page = PAGES[name].format_help()
        assert max(map(len, page.splitlines())) <= min(width, 110)
        shown.append(examples_of(page))
    assert all(each == shown[0] for each in shown)


def own_examples() -> dict[str, list[str]]:
    """The examples of each page in the order in which they stand, without those of a page above that stand on another too."""
    shown = {name: examples_of(page.format_help()) for name, page in PAGES.items()}
    below = {name: {each for other in shown if other.startswith(f"{name} ") for each in shown[other]} for name in shown}
    return {name: [each for each in examples if each not in below[name]] for name, examples in shown.items()}


@pytest.fixture
def checkout(tmp_path: Path) -> Path:
    """A folder that looks like a checkout, into which examples may write."""
    for name in ("worked_examples", "rules"):
        (tmp_path / name).symlink_to(ROOT / name)
    return tmp_path


def run_example(example: str, folder: Path) -> None:
    line = example.replace("dwellcalc", f"{shlex.quote(sys.executable)} -m dwellcalc", 1)
    done = subprocess.run(line, shell=True, cwd=folder, env=environment(), capture_output=True, text=True, check=False)
    assert done.returncode in (0, 1, 3), f"{example}: {done.returncode}\n{done.stderr}"
    assert done.stderr == ""
    assert done.stdout or " > " in example


@pytest.mark.parametrize("name", first_of(PAGES, ["dwellcalc assess", "dwellcalc start", "dwellcalc schema"], pytest.mark.slow))
def test_the_first_example_of_a_page_runs(name: str, checkout: Path) -> None:
    for example in own_examples()[name][:1]:
        if not example.startswith(SLOW):
            run_example(example, checkout)


@pytest.mark.long
@pytest.mark.parametrize("name", PAGES)
def test_the_examples_of_a_page_run(name: str, checkout: Path) -> None:
    for example in own_examples()[name]:
        run_example(example, checkout)


# --- characters

TITLE = "Müllerstraße 4 – Łódź, Übungs“haus” 北, 38 °C × ½ → ≠"
ENCODINGS = {
    "utf-8": TITLE,
    "cp1252": "Müllerstraße 4 – Lódz, Übungs“haus” ?, 38 °C × ½ -> <>",
    "latin-1": 'Müllerstraße 4 - Lódz, Übungs"haus" ?, 38 °C × ½ -> <>',
    "cp437": 'Müllerstraße 4 - Lódz, Übungs"haus" ?, 38 °C x ½ -> <>',
    "ascii": 'Mullerstrasse 4 - Lodz, Ubungs"haus" ?, 38 degC x 1/2 -> <>',
}


@pytest.fixture
def titled(tmp_path: Path) -> Path:
    """A home whose title has characters that few encodings have."""
    text = (ROOT / "worked_examples" / "demo" / "small_gas_heated_house.yaml").read_text(encoding="utf-8")
    path = tmp_path / "home.yaml"
    path.write_text(re.sub(r"(?m)^home: .*$", f"home: {json.dumps(TITLE, ensure_ascii=False)}", text), encoding="utf-8")
    return path


def run_command(*arguments: str, **more: str) -> tuple[int, bytes, bytes]:
    """The command in a process of its own: exit code, and the bytes of stdout and stderr."""
    done = subprocess.run([*COMMAND, *arguments], env=environment(**more), capture_output=True, check=False)
    return done.returncode, done.stdout, done.stderr


@pytest.mark.slow
@pytest.mark.parametrize("encoding", first_of(ENCODINGS, ["utf-8", "ascii", "cp437"]))
def test_names_stay_recognisable_where_the_encoding_lacks_characters(titled: Path, encoding: str) -> None:
    """Fully in UTF-8; else by what one would type; the heading's rule is as long as what is printed."""
    code, out, err = run_command("assess", str(titled), PYTHONIOENCODING=encoding)
    head, rule = out.decode(encoding).splitlines()[:2]
    assert (code, err) == (0, b"")
    assert head == ENCODINGS[encoding]
    assert rule == "=" * len(head)


@pytest.mark.slow
@pytest.mark.parametrize("encoding", first_of(ENCODINGS, ["ascii"]))
def test_data_loses_nothing_whatever_the_encoding(titled: Path, encoding: str) -> None:
    code, out, _ = run_command("assess", str(titled), "--format", "json", PYTHONIOENCODING=encoding)
    assert code == 0
    assert json.loads(out.decode(encoding))["home"]["title"] == TITLE


def test_an_error_names_a_file_as_well_as_the_encoding_allows(tmp_path: Path) -> None:
    code, out, err = run_command("assess", str(tmp_path / "Gärtnerhaus №4.yaml"), PYTHONIOENCODING="ascii")
    assert (code, out) == (2, b"")
    assert b"Gartnerhaus No4.yaml" in err


@pytest.mark.parametrize(
    ("character", "plain"),
    [
        ("é", "e"),
        ("ﬁ", "fi"),
        ("²", "2"),
        ("…", "..."),
        ("\u00a0", " "),
        ("\u0308", ""),
        ("≮", "?"),
        ("≠", "<>"),
        ("北", "?"),
        ("\udc80", "?"),
    ],
)
def test_what_stands_for_a_character(character: str, plain: str) -> None:
    assert typed(character) == plain


def test_what_stands_for_characters_can_be_written_everywhere() -> None:
    assert all(text.isascii() for text in TYPED.values())
    every = [chr(number) for number in range(0xA0, 0x3000)]
    assert all(typed(character).isascii() for character in every)


@pytest.mark.parametrize("encoding", ["utf-8", "ascii", "cp437", "cp1252", "latin-1"])
def test_a_stream_writes_every_text_that_there_is(encoding: str) -> None:
    stream = io.TextIOWrapper(io.BytesIO(), encoding=encoding)
    make_writable(stream)
    stream.write("".join(chr(number) for number in range(0x20, 0x3100)) + "\udc80\udfff")
    stream.flush()


def test_a_name_cannot_steer_the_terminal() -> None:
    """An escape, a bell, a line of its own, or the other writing direction in a name is shown and not done."""
    stream = io.TextIOWrapper(io.BytesIO(), encoding="utf-8")
    assert shown("a\x1b[31mred\x07\r\x85\u202etxet", stream) == "a?[31mred????txet"
    assert shown("Müller\u00adhaus, שלום, 北\n\t2", stream) == "Müller\u00adhaus, שלום, 北\n\t2"


# --- widths


def assert_within(blocks: Sequence[Block]) -> None:
    """At every width no line is longer, and running text not longer than it reads well."""
    for width in WIDTHS:
        for line in as_text(blocks, width).splitlines():
            assert len(line) <= width, f"{len(line)} columns at {width}: {line}"
    running = [block for block in blocks if not isinstance(block, Table)]
    assert all(len(line) <= 110 for line in as_text(running, 200).splitlines())


@pytest.mark.slow
@pytest.mark.parametrize("full", [False, True])
@pytest.mark.parametrize("name", first_of(DEMOS, ["duplex", "house_half_read", "existing_house_with_sauna"]))
def test_no_line_of_a_sheet_is_longer_than_the_terminal_is_wide(name: str, full: bool) -> None:
    assert_within(sheet_pages(demo_assessed(name), full=full))


SUBMITTALS = ROOT / "worked_examples" / "submittals"
RECORD = DEMO / "house_with_meter_record"
COMMANDS = {
    "explain": ("explain", str(DEMO / "duplex.yaml"), "12"),
    "editions": ("compare", HOME, "--editions", "nec/2020", "nec/2023"),
    "methods": ("compare", str(DEMO / "duplex.yaml"), "--what", "methods"),
    "interpretations": ("compare", HOME, "--what", "interpretations"),
    "homes": ("compare", HOME, str(DEMO / "vacant_older_house.yaml")),
    "meter": ("meter", f"{RECORD}.csv.gz", "--home", f"{RECORD}.yaml"),
    "review": ("review", str(SUBMITTALS / "service_change.yaml")),
    "review of a new house": ("review", str(SUBMITTALS / "new_house.yaml")),
    "letter": ("review", str(SUBMITTALS / "new_house.yaml"), "--letter"),
    "show": ("rules", "show", "nec/2026"),
    "diff": ("rules", "diff", "nec/2014", "nec/2026"),
    "mistakes": ("rules", "mistakes", "nec/2023"),
    "amendments": ("rules", "amendments"),
}


@pytest.mark.parametrize("name", first_of(COMMANDS, ["explain", "methods"]))
def test_no_line_of_a_command_is_longer_than_the_terminal_is_wide(name: str, run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    printed: list[Sequence[Block]] = []
    monkeypatch.setattr(printing, "as_text", lambda blocks, width: printed.append(blocks) or "")
    assert run(*COMMANDS[name])[0] in (0, 1, 3)
    assert printed
    for blocks in printed:
        assert_within(blocks)


@pytest.mark.slow
def test_no_line_of_a_verification_is_longer_than_the_terminal_is_wide(
    run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    document = json.loads(run("assess", HOME, "--format", "json")[1])
    for line in document["supplies"][0]["methods"][0]["lines"]:
        if isinstance(line.get("value"), float):
            line["value"] += 1
    sheet = tmp_path / "sheet.json"
    sheet.write_text(json.dumps(document), encoding="utf-8")
    printed: list[Sequence[Block]] = []
    monkeypatch.setattr(printing, "as_text", lambda blocks, width: printed.append(blocks) or "")
    assert run("verify", str(sheet))[0] == 1
    assert any(isinstance(block, Table) for block in printed[0])
    assert_within(printed[0])


def test_a_table_that_is_too_wide_goes_on_below() -> None:
    """Every cell stands once, those that tell rows apart again in each part; a word without a gap breaks at last."""
    head = ["Setting", *(f"Column{number}" for number in range(1, 9)), "Supply"]
    rows = [
        [f"{at} A" if at % 2 == 0 else "", *(f"cell{at // 2}{number}xx" for number in range(1, 9)), f"S{at}"] for at in range(4)
    ]
    text = as_text([Table("Settings", head, rows)], 60)
    assert max(map(len, text.splitlines())) <= 60
    parts = text.strip().split("\n\n")
    assert parts[0].startswith("Settings\nSetting  ")
    assert len(parts) == 2
    assert parts[0].startswith("Settings\nSetting  Column1  ")
    assert re.match(r"Setting  Supply  Column\d", parts[1])
    for row in rows:
        assert all(text.count(cell) == 2 for cell in row[1:-1])  # in two rows each
        assert text.count(row[-1]) == 1
    digest = "a1" * 40
    assert "".join(as_text([Paragraph(digest)], 60).split()) == digest


@pytest.mark.parametrize(("columns", "expected"), [(40, 60), (60, 60), (80, 80), (200, 200)])
def test_a_page_is_as_wide_as_the_terminal(columns: int, expected: int) -> None:
    _, out, _ = at_terminal("rules", "amendments", columns=columns)
    longest = max(map(len, MARKS.sub("", out).splitlines()))
    assert min(expected - 25, 110) < longest <= expected


# --- colour

MARKS = re.compile(r"\x1b\[[\d;]*m")


def at_terminal(*arguments: str, columns: int = 110, errors: bool = True, **more: str) -> tuple[int, str, str]:
    """The command at a terminal: exit code, what the terminal shows, and stderr where it is no terminal."""
    own, theirs = pty.openpty()
    fcntl.ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", 50, columns, 0, 0))
    stderr = theirs if errors else subprocess.PIPE
    variables = environment(**{"TERM": "xterm", **more})
    with subprocess.Popen([*COMMAND, *arguments], stdin=theirs, stdout=theirs, stderr=stderr, env=variables) as process:
        os.close(theirs)
        written = b""
        while True:
            try:
                piece = os.read(own, 65536)
            except OSError:  # the last one who wrote to it has ended
                break
            if not piece:
                break
            written += piece
        said = process.stderr.read().decode() if process.stderr is not None else ""
    os.close(own)
    return process.returncode, written.decode().replace("\r\n", "\n"), said


def piped(*arguments: str) -> str:
    return run_command(*arguments)[1].decode()


@pytest.mark.slow
@pytest.mark.parametrize("name", first_of(["duplex", "vacant_older_house", "older_house_with_solar"], ["older_house_with_solar"]))
def test_colour_adds_nothing_to_the_text(name: str) -> None:
    path = str(ROOT / "worked_examples" / "demo" / f"{name}.yaml")
    code, out, _ = at_terminal("assess", path, errors=False)
    assert MARKS.search(out)
    plain = MARKS.sub("", out)
    assert plain.splitlines() == piped("assess", path).splitlines()
    assert code in (0, 1, 3)


@pytest.mark.slow
def test_what_stands_out_at_a_terminal(tmp_path: Path) -> None:
    """Headings and the verdict in bold; what does not fit in red; every mark is closed on its own line."""
    text = Path(HOME).read_text(encoding="utf-8")
    assert "rating: 60 A" in text
    home = tmp_path / "home.yaml"
    home.write_text(text.replace("rating: 60 A", "rating: 30 A", 1), encoding="utf-8")
    code, out, _ = at_terminal("assess", str(home), errors=False)
    assert code == 1
    lines = out.splitlines()
    assert lines[0].startswith("\x1b[1m")
    assert "\x1b[1mThe answer\x1b[0m" in lines
    (verdict,) = [line for line in lines if line.startswith("\x1b[1;31m")]
    assert re.fullmatch(r"\x1b\[1;31mDoes not fit\x1b\[0m\x1b\[1m, by the method .*\x1b\[0m", verdict)
    for line in lines:
        marks = MARKS.findall(line)
        assert all(mark == "\x1b[0m" for mark in marks[1::2])
        assert len(marks) % 2 == 0


def test_what_is_open_stands_out() -> None:
    blocks = [
        Paragraph("Open, by the method x."),
        Paragraph("Open questions remain."),
        Table("", ["Verdict", "Note"], [["open", "an open question"], ["Open, on condition", "open  to all"]]),
    ]
    first, second, *rows = emphasised(blocks, 80).strip().split("\n\n")
    assert first.startswith("\x1b[1;33mOpen\x1b[0m")
    assert second == "Open questions remain."
    body = rows[0].splitlines()[2:]
    assert body[0].startswith("\x1b[33mopen\x1b[0m")
    assert "an open question" in body[0]
    assert body[1].startswith("\x1b[33mOpen\x1b[0m, on condition")


@pytest.mark.slow
@pytest.mark.parametrize(
    ("variables", "marked"),
    [
        ({}, True),
        ({"NO_COLOR": "1"}, False),
        ({"NO_COLOR": "0"}, False),
        ({"NO_COLOR": ""}, True),
        ({"TERM": "dumb"}, False),
        ({"TERM": ""}, False),
    ],
)
def test_where_colour_is_used(variables: dict[str, str], marked: bool) -> None:
    _, out, _ = at_terminal("rules", "amendments", **variables)
    assert bool(MARKS.search(out)) == marked


@pytest.mark.parametrize(
    ("variables", "expected"),
    [
        ({}, False),
        ({"WT_SESSION": "4f"}, True),
        ({"ANSICON": "80x25"}, True),
        ({"TERM": "xterm"}, True),
        ({"TERM": "dumb", "WT_SESSION": "4f"}, False),
    ],
)
def test_windows_without_a_sign_of_it_stays_plain(
    monkeypatch: pytest.MonkeyPatch, variables: dict[str, str], expected: bool
) -> None:
    class Shown(io.StringIO):
        def isatty(self) -> bool:
            return True

    for name in ("TERM", "NO_COLOR", "WT_SESSION", "ANSICON"):
        monkeypatch.delenv(name, raising=False)
    for name, value in variables.items():
        monkeypatch.setenv(name, value)
    monkeypatch.setattr(terminal.os, "name", "nt")
    assert terminal.takes_colour(Shown()) == expected
    assert not terminal.takes_colour(io.StringIO())


@pytest.mark.slow
def test_nothing_but_text_is_printed_where_no_terminal_is() -> None:
    for arguments in (("assess", HOME), ("assess", "nowhere.yaml"), ("--help",)):
        _, out, err = run_command(*arguments, TERM="xterm")
        assert b"\x1b" not in out + err


def test_of_an_error_its_first_line_stands_out() -> None:
    code, out, _ = at_terminal("assess", "nowhere.yaml")
    assert code == 2
    head, hint = out.rpartition("\r")[2].splitlines()  # what was told on the way is before it
    assert head == '\x1b[31mthe file "nowhere.yaml" cannot be read: No such file or directory\x1b[0m'
    assert hint == "  hint: check the path and its rights"


@pytest.mark.slow
def test_markdown_and_data_have_no_marks_even_at_a_terminal() -> None:
    for form in ("markdown", "json"):
        assert "\x1b" not in at_terminal("assess", HOME, "--format", form)[1]


# --- pipes, full disks and closed streams
LONG = ("rules", "diff", "nec/2014", "nec/2026")  # more than a pipe holds, so that writing fails
BUFFERED = ("", "1")  # whether each write goes out at once


def through_the_shell(line: str, **more: str) -> subprocess.CompletedProcess[str]:
    command = " ".join(map(shlex.quote, COMMAND))
    made = line.replace("COMMAND", command)
    return subprocess.run(["bash", "-c", made], env=environment(**more), capture_output=True, text=True, check=False)


@pytest.mark.slow
@pytest.mark.parametrize("unbuffered", BUFFERED)
@pytest.mark.parametrize("arguments", first_of([("assess", HOME), LONG, ("--help",)], [("assess", HOME), ("--help",)]))
def test_a_reader_that_goes_away_ends_the_command_quietly(arguments: tuple[str, ...], unbuffered: str) -> None:
    line = f"COMMAND {shlex.join(arguments)} | head -1; exit ${{PIPESTATUS[0]}}"
    done = through_the_shell(line, PYTHONUNBUFFERED=unbuffered)
    assert (done.returncode, done.stderr) == (0, "")
    assert len(done.stdout.splitlines()) == 1


@pytest.mark.slow
@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no device that is always full")
@pytest.mark.parametrize("unbuffered", BUFFERED)
@pytest.mark.parametrize(
    "arguments", first_of([("assess", HOME), LONG, ("assess", HOME, "--format", "json")], [("assess", HOME)])
)
def test_a_full_disk_is_told(arguments: tuple[str, ...], unbuffered: str) -> None:
    done = through_the_shell(f"COMMAND {shlex.join(arguments)} > /dev/full", PYTHONUNBUFFERED=unbuffered)
    assert done.returncode == 2
    assert done.stderr == "the output cannot be written: No space left on device\n"


@pytest.mark.slow
@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no device that is always full")
def test_where_nothing_can_be_said_the_exit_code_still_says_it() -> None:
    assert through_the_shell("COMMAND assess nowhere.yaml 2> /dev/full").returncode == 2
    for closed in (">&-", "2>&-", ">&- 2>&-"):
        done = through_the_shell(f"COMMAND assess {shlex.quote(HOME)} {closed}")
        assert (done.returncode, done.stderr) == (0, "")


# --- progress


def screen_of(written: str) -> list[str]:
    """What a terminal shows in the end: a return goes back to the start of a line, and what follows overwrites it."""
    shown_lines = []
    for line in MARKS.sub("", written).split("\n"):
        cells: list[str] = []
        for piece in line.split("\r"):
            cells[: len(piece)] = piece
        shown_lines.append("".join(cells).rstrip())
    return shown_lines


SUBMITTAL = str(SUBMITTALS / "service_change.yaml")
TOLD = {
    ("review", SUBMITTAL): "looking for what went wrong, ",
    ("assess", f"{RECORD}.yaml"): "reading the record of the meter",
    ("compare", HOME, "--editions", "nec/2020", "nec/2023"): "NEC 2020 to NEC 2023, set of changes 2 of",
    ("compare", HOME, "--what", "interpretations"): "question ",
    ("meter", f"{RECORD}.csv.gz", "--home", f"{RECORD}.yaml"): "judging the record",
    ("rules", "show", "nec/2026"): "reading the rules of nec/2026",
}
TOLD_AT_ONCE = first_of(TOLD, [("assess", f"{RECORD}.yaml")])


@pytest.mark.slow
@pytest.mark.parametrize("arguments", TOLD_AT_ONCE)
def test_what_takes_long_tells_what_it_does_and_leaves_no_trace(arguments: tuple[str, ...]) -> None:
    """On one line that is rewritten and erased; the page below it is what a pipe gets."""
    _, written, _ = at_terminal(*arguments)
    told = [piece.rstrip() for piece in written.split("\r") if piece.rstrip().endswith(" ...")]
    assert any(TOLD[arguments] in each for each in told)
    assert "\n" not in written[: written.rindex(" ...")]
    assert screen_of(written) == [line.rstrip() for line in piped(*arguments).split("\n")]


@pytest.mark.slow
@pytest.mark.parametrize("arguments", TOLD_AT_ONCE)
def test_nothing_is_told_where_stderr_is_no_terminal(arguments: tuple[str, ...]) -> None:
    _, written, said = at_terminal(*arguments, errors=False)
    assert said == ""
    assert "\r" not in written
    assert " ...\n" not in written


@pytest.mark.slow
def test_an_error_stands_on_a_line_of_its_own(tmp_path: Path) -> None:
    """The record is a text that can be read for longer than nothing is told, and then cannot be."""
    record = tmp_path / "record.csv"
    rows = "".join(f"2025-{1 + at // 20000:02d}-01 00:00,{at}\n" for at in range(200000))
    record.write_text(f"start,kWh\n{rows}", encoding="utf-8")
    code, written, _ = at_terminal("meter", str(record))
    assert code == 2
    assert screen_of(written)[0].startswith(str(record))


class Terminal(io.StringIO):
    encoding = "utf-8"

    def isatty(self) -> bool:
        return True


def test_nothing_is_told_of_what_is_quick(monkeypatch: pytest.MonkeyPatch) -> None:
    seen = Terminal()
    monkeypatch.setattr(sys, "stderr", seen)
    with progress_line() as tell:
        tell("a stage")
    assert seen.getvalue() == ""


def test_the_line_is_no_longer_than_the_terminal_is_wide(monkeypatch: pytest.MonkeyPatch) -> None:
    seen = Terminal()
    monkeypatch.setattr(sys, "stderr", seen)
    monkeypatch.setattr("dwellcalc.cli.progress_line.PATIENCE", 0.01)
    monkeypatch.setenv("COLUMNS", "40")
    with contextlib.suppress(KeyError), progress_line() as tell:
        tell("early")
        while not seen.getvalue():
            time.sleep(0.01)
        tell("x" * 100 + "\x1b[31m")
        tell("short")
        raise KeyError
    assert max(map(len, seen.getvalue().split("\r"))) == 39
    assert screen_of(seen.getvalue()) == [""]
    assert [each.strip() for each in seen.getvalue().split("\r") if each.strip()] == ["early ...", "x" * 35 + " ...", "short ..."]


def test_checking_rules_tells_every_edition_and_mistake() -> None:
    told: list[str] = []
    base = ROOT / "tests" / "bad" / "base"
    check_folder(base, told.append)
    check_catalogue(base, told.append)
    editions = [each for each in told if each.startswith("checking editions") and "amendment" not in each]
    assert editions == ["checking editions", "checking editions, 1 of 2", "checking editions, 2 of 2"]


@pytest.mark.slow
def test_checking_rules_in_several_processes_finds_the_same() -> None:
    base = ROOT / "tests" / "bad" / "base"
    assert check_folder(base, workers=2) == check_folder(base)
