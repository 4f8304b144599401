"""What a new user is told of the likeliest first mistakes, word for word; and what is taken although it is spelled otherwise."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from dwellcalc.home import home_from_text, read_home
from dwellcalc.language.rule_set import read_glossary
from dwellcalc.problems import InputError

HOME = """home: 5 Elm Road
work: existing
service:
  system: 120/240 V single-phase 3-wire
  rating: 200 A
dwelling units:
  - name: house
    areas:
      - {name: rooms, kind: living, area: 1850 ft2}
    small appliance circuits: 2
    laundry circuits: 1
    loads:
      - {name: range, kind: range, rating: 11.5 kW}
      - {name: dryer, kind: clothes dryer, rating: 5 kW}
"""
UNIT = "dwelling_units > house"
LOAD = f"{UNIT} > loads > range"
FORMS = (
    '"... VA"; "... W"; "... A at ... V"; "MCA ... A at ... V"; "RLA ... A + fan ... A at ... V"; "... hp at ... V"; '
    '"setting ... A"; "control setting ... A"'
)
SYSTEMS = "120/240 V single-phase 3-wire, 208Y/120 V single-phase 3-wire, 208Y/120 V three-phase 4-wire"
NOT_OF_A_LOAD = "if only the breaker was seen"


OWN_KEY = "the largest fuse or breaker has a key of its own, `maximum overcurrent device`"


def changed(old: str, new: str) -> str:
    """The home with one piece otherwise."""
    assert HOME.count(old) == 1, old
    return HOME.replace(old, new)


def told(text: str) -> list[tuple[int, str, str]]:
    """For each problem its line, what is wrong, and the hint."""
    with pytest.raises(InputError) as caught:
        home_from_text(text, "home.yaml", read_glossary())
    return [(each.place.line if each.place else 0, each.text, each.hint) for each in caught.value.problems]


def of_service(text: str) -> str:
    return changed("  rating: 200 A\n", text)


WRONG: dict[str, tuple[str, int, str, str]] = {
    "a line that begins too far in": (
        of_service("   rating: 200 A\n"),
        5,
        "this line begins further in than the one above it, and does not belong to it",
        "begin it in the same column",
    ),
    "a line that does not begin far enough in": (
        of_service("rating: 200 A\n"),
        5,
        "rating: this key does not stand here",
        "it stands in `service` or `feeders` or `loads` or `planned`; the keys of something begin two blanks further in than it does",
    ),
    "a tab": (
        of_service("\trating: 200 A\n"),
        5,
        "a tab stands here, and only blanks may indent a line",
        "put two blanks in place of each tab",
    ),
    "no colon": (
        of_service("  rating 200 A\n"),
        5,
        '"rating 200 A" lacks its colon, or the blank after it',
        'write "rating: 200 A"',
    ),
    "no blank after the colon": (
        of_service("  rating:200 A\n"),
        5,
        '"rating:200 A" lacks its colon, or the blank after it',
        'write "rating: 200 A"',
    ),
    "no blank after the dash": (
        changed("      - {name: range", "      -{name: range"),
        13,
        "after the dash a blank is missing",
        'write "- " before what follows',
    ),
    "a brace that is not closed": (
        changed("11.5 kW}", "11.5 kW"),
        13,
        "what opens here is not closed",
        "write } where it ends; a comma stands between two entries",
    ),
    "a quote that is not closed": (
        changed("11.5 kW}", '"11.5 kW}'),
        13,
        "what opens here is not closed",
        'write " where it ends; a comma stands between two entries',
    ),
    "a colon in a text": (
        changed("5 Elm Road", "5 Elm Road: the house"),
        1,
        "the text here holds a colon with a blank after it, as a key does",
        'put the text in quotes: home: "5 Elm Road: the house"',
    ),
    "no value": (
        changed("11.5 kW", ""),
        13,
        'the key "rating" has no value',
        "write the value after the colon; inside braces a comma ends a text, so quote a text that holds one",
    ),
    "a decimal comma inside braces": (
        changed("11.5 kW", "11,5 kW"),
        13,
        'inside braces the comma in "11,5 kW" ends the text',
        'write "11.5 kW", with a point before decimals, or quote it',
    ),
    "a decimal comma in a line of its own": (
        f"{HOME}      - name: oven\n        kind: oven\n        rating: 4,8 kW\n",
        17,
        f'{UNIT} > loads > oven > rating: "4,8 kW" has a comma before its decimals',
        'write "4.8 kW"',
    ),
    "a thousand with a comma inside braces": (
        changed("1850 ft2", "1,850 ft2"),
        9,
        'inside braces the comma in "1,850 ft2" ends the text',
        'write "1850 ft2", with a point before decimals, or quote it',
    ),
    "a unit without its number": (
        changed("11.5 kW", "kW"),
        13,
        f'{LOAD} > rating: "kW" lacks its number',
        "write the number before it; `unknown` where it is not known",
    ),
    "a breaker in place of a nameplate": (
        changed("11.5 kW", "60A"),
        13,
        f'{LOAD} > rating: "60A" alone is not a rating',
        'write "60A at ... V" if the nameplate says so; a breaker does not tell the rating of what is on it - '
        f"{NOT_OF_A_LOAD}, write `typical`, bounds such as ... kW to ... kW, or `unknown`",
    ),
    "the same in words": (
        changed("11.5 kW", "50 amp"),
        13,
        f'{LOAD} > rating: "50 amp" alone is not a rating',
        'write "50 amp at ... V" if the nameplate says so; a breaker does not tell the rating of what is on it - '
        f"{NOT_OF_A_LOAD}, write `typical`, bounds such as ... kW to ... kW, or `unknown`",
    ),
    "a breaker by name": (
        changed("11.5 kW", "50 amp breaker"),
        13,
        f'{LOAD} > rating: "50 amp breaker" is not a rating of the load but of what protects it',
        f"write what the nameplate says, such as ... kW or ... A at ... V; {NOT_OF_A_LOAD}, `typical`, bounds, or `unknown`",
    ),
    "the label of a unit without its voltage": (
        changed("11.5 kW", "MCA 22.6"),
        13,
        f'{LOAD} > rating: "MCA 22.6" is not a rating as it stands',
        f'write "MCA 22.6 A at ... V"; {OWN_KEY}',
    ),
    "the label of a unit as it stands": (
        changed("11.5 kW", "'MCA: 22.6A, MAX FUSE 35A'"),
        13,
        f'{LOAD} > rating: "MCA: 22.6A, MAX FUSE 35A" is not a rating as it stands',
        f'write "MCA 22.6 A at ... V"; {OWN_KEY}',
    ),
    "a rating without its unit": (
        changed("11.5 kW", "11.5"),
        13,
        f'{LOAD} > rating: "11.5" lacks its unit',
        f"a rating is written as {FORMS}",
    ),
    "a voltage alone": (
        changed("11.5 kW", "240V"),
        13,
        f'{LOAD} > rating: "240V" is not a rating',
        f"a rating is written as {FORMS}",
    ),
    "horsepower alone": (
        changed("11.5 kW", "1/2 hp"),
        13,
        f'{LOAD} > rating: "1/2 hp" alone is not a rating',
        'write "1/2 hp at ... V"',
    ),
    "tons": (
        changed("11.5 kW", "3 ton"),
        13,
        f'{LOAD} > rating: there is no unit "ton"',
        "the units are A, V, VA, W, hp, kVA, kW",
    ),
    "a rating of zero": (
        changed("11.5 kW", "0 kW"),
        13,
        f'{LOAD} > rating: "0 kW" is not more than zero, so it is no rating',
        "a load that is not there is named by kind under `none of`; write `unknown` where it is not known",
    ),
    "an area without its unit": (
        changed("1850 ft2", "1850"),
        9,
        f'{UNIT} > areas > rooms > area: "1850" lacks its unit',
        'write "1850 ft2"',
    ),
    "amperes without their unit": (
        of_service("  rating: 200\n"),
        5,
        'service > rating: "200" lacks its unit',
        'write "200 A"',
    ),
    "a kind that is spelled almost so": (
        changed("kind: range", "kind: raneg"),
        13,
        f'{LOAD} > kind: there is no kind of load "raneg"',
        'did you mean "range"?',
    ),
    "a kind that may be several": (
        changed("kind: range", "kind: furnace"),
        13,
        f'{LOAD} > kind: "furnace" may be several kinds of load',
        "write which one: electric furnace (central electric furnace or boiler); gas furnace (blower of a furnace or air handler)",
    ),
    "a gas appliance": (
        changed("kind: range", "kind: gas stove"),
        13,
        f'{LOAD} > kind: "gas stove" is no load of its own: it burns gas',
        "enter only what is electrical in it, or leave it out; what burns gas may stand under `not electric`",
    ),
    "lights": (
        changed("kind: range", "kind: lights"),
        13,
        f'{LOAD} > kind: "lights" is no load of its own: lighting and general receptacles are counted by the floor area',
        "enter only what is electrical in it, or leave it out; what burns gas may stand under `not electric`",
    ),
    "loads outside of the dwelling unit": (
        HOME.replace("    loads:", "loads:")
        .replace("      - {name: range", "  - {name: range")
        .replace("      - {name: d", "  - {name: d"),
        12,
        "loads: a home with one dwelling unit has no house loads",
        "put the loads into the dwelling unit",
    ),
    "loads in the service": (
        of_service("  rating: 200 A\n  loads:\n    - {name: hob, kind: range, rating: 3 kW}\n"),
        6,
        "service > loads: this key does not stand here",
        "it stands in `dwelling units` or the first column; the keys of something begin two blanks further in than it does",
    ),
    "no service": (
        changed("service:\n  system: 120/240 V single-phase 3-wire\n  rating: 200 A\n", ""),
        1,
        "service: this is missing",
        "what feeds the home from the utility; its keys are system, conductors, disconnects, ratings considered, state, whole dwelling, rating, "
        "main stands, main overcurrent device, bus, center fed, meter, cord, terminals, rod electrode, concrete encased electrode, "
        "water pipe electrode, evidence",
    ),
    "a service in one word": (
        changed("service:\n  system: 120/240 V single-phase 3-wire\n  rating: 200 A\n", "service: 200 A\n"),
        3,
        "service: this must be keys with values, not a single text",
        "its keys stand below it, two blanks further in, or in braces: system, conductors, disconnects, ratings considered, state, whole dwelling, "
        "rating, main stands, main overcurrent device, bus, center fed, meter, cord, terminals, rod electrode, concrete encased electrode, "
        "water pipe electrode, evidence",
    ),
    "no system": (
        changed("  system: 120/240 V single-phase 3-wire\n", ""),
        4,
        "service > system: this is missing",
        f"one of: {SYSTEMS}",
    ),
    "a system by its voltage": (
        changed("120/240 V single-phase 3-wire", "240V"),
        4,
        'service > system: there is no supply system "240V"',
        f"one of: {SYSTEMS}",
    ),
    "two loads of one name": (
        changed("name: dryer", "name: range"),
        14,
        f'{LOAD} > name: another load is called "range" already',
        "each load has a name of its own",
    ),
    "a key that is misspelt": (
        changed("rating: 11.5 kW", "ratting: 11.5 kW"),
        13,
        f"{LOAD} > ratting: there is no such key here",
        'did you mean "rating"?',
    ),
    "another word for a key": (
        changed("rating: 11.5 kW", "amps: 11.5 kW"),
        13,
        f"{LOAD} > amps: there is no such key here",
        'did you mean "rating"?',
    ),
    "the main breaker": (
        of_service("  main breaker: 200 A\n"),
        5,
        "service > main_breaker: there is no such key here",
        'did you mean "rating"?',
    ),
    "a key that stands twice": (
        of_service("  rating: 200 A\n  rating: 150 A\n"),
        6,
        'the key "rating" stands twice',
        "each key once; take one of them out",
    ),
    "absent, and there": (
        f"{HOME}none of: [range]\n",
        15,
        'none_of > range: "range" is said to be absent, and "range" is of that kind',
        "take it out of `none of`, or take out what is there",
    ),
    "a list in one word": (
        f"{HOME}none of: hot tub\n",
        15,
        "none_of: this must be a list, not a single text",
        "write it in brackets: [hot tub]",
    ),
    "two homes in one file": (
        f"{HOME}---\n{HOME}",
        15,
        "one file holds one document",
        'what follows "---" goes into a file of its own; else take that line out',
    ),
    "a word that is none of them": (
        changed("work: existing", "work: remodel"),
        2,
        'work: "remodel" is not a word that may stand here',
        "one of: new, existing, addition",
    ),
    "a number in letters": (
        changed("rating: 11.5 kW", "rating: 11.5 kW, quantity: two"),
        13,
        f'{LOAD} > quantity: "two" is not a whole number',
        "write it in digits",
    ),
    "a load that is not there replaced": (
        f"{HOME}planned:\n  - {{name: hob, kind: range, rating: 8 kW, replaces: stove}}\n",
        16,
        'planned > hob > replaces: there is no load "stove" in the home',
        "its loads are range, dryer",
    ),
    "something not filled in": (
        changed("11.5 kW", "<such as 11.5 kW>"),
        13,
        '"<such as 11.5 kW>" is still to be filled in',
        "write the value in its place, or take out what there is not",
    ),
    "no file of one home but prose": (
        "Our house has a range and a dryer.\n",
        1,
        "the file must be keys with values, not a single text",
        "as `key: value`, with a blank after the colon",
    ),
}


@pytest.mark.parametrize("name", WRONG)
def test_what_a_new_user_is_told(name: str) -> None:
    text, line, said, hint = WRONG[name]
    assert (line, said, hint) in told(text)


@pytest.mark.parametrize("name", WRONG)
def test_nothing_else_is_told_of_it(name: str) -> None:
    """What a mistake brings with it is not told as a mistake of its own."""
    assert len(told(WRONG[name][0])) == 1


def not_there(folder: Path) -> Path:
    (folder / "home.yaml").write_text(HOME, encoding="utf-8")
    return folder / "hom.yaml"


def document(folder: Path) -> Path:
    (folder / "home.docx").write_bytes(b"PK\x03\x04\x14\x00\xff\xfe")
    return folder / "home.docx"


def drawing(folder: Path) -> Path:
    (folder / "plans.pdf").write_bytes(b"%PDF-1.7\n\xe2\xe3\xcf\xd3\n")
    return folder / "plans.pdf"


def letter(folder: Path) -> Path:
    (folder / "home.txt").write_text("Dear inspector,\n\nour house has a range of 11.5 kW.\n", encoding="utf-8")
    return folder / "home.txt"


@pytest.mark.parametrize(
    ("made", "said"),
    [
        (not_there, 'the file "hom.yaml" cannot be read: No such file or directory\n  hint: did you mean "home.yaml"?'),
        (
            document,
            'the file "home.docx" is not text in UTF-8\n  hint: it must be plain text (UTF-8), not a PDF or a document of a word processor',
        ),
        (
            drawing,
            'the file "plans.pdf" is not text in UTF-8\n  hint: it must be plain text (UTF-8), not a PDF or a document of a word processor',
        ),
        (
            letter,
            "home.txt:1:1: the file must be keys with values, not a single text\n    1 | Dear inspector,\n      | ^^^^^^^^^^^^^^^\n  hint: as `key: value`, with a blank after the colon",
        ),
    ],
    ids=lambda each: getattr(each, "__name__", ""),
)
def test_what_is_told_of_a_file(made: Callable[[Path], Path], said: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    name = made(tmp_path).name
    monkeypatch.chdir(tmp_path)
    with pytest.raises(InputError) as caught:
        read_home(name, read_glossary())
    assert str(caught.value) == said


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("200 A", "200 amps"),
        ("200 A", "200 Amp"),
        ("200 A", "200A"),
        ("200 A", '"200 A"'),
        ("11.5 kW", "“11.5 kW”"),
        ("11.5 kW", "11.5 Kw"),
        ("11.5 kW", "11500 watts"),
        ("11.5 kW", "11.5 kilowatts"),
        ("11.5 kW", "48A 240V"),
        ("11.5 kW", "48 a @ 240v"),
        ("11.5 kW", "48 amps at 240 volts"),
        ("11.5 kW", "8-12 kW"),
        ("1850 ft2", "1850 sq ft"),
        ("1850 ft2", "1850 Sq. Ft."),
        ("1850 ft2", "1850 square feet"),
        ("1850 ft2", "1850sqft"),
        ("1850 ft2", '"1,850 sf"'),
        ("1850 ft2", "172 sq m"),
        ("1850 ft2", "172 m²"),
        ("kind: range", "kind: electric stove"),
        ("kind: range", "kind: EV charger"),
        ("kind: range", "kind: level 2 charger"),
        ("kind: range", "kind: AC"),
        ("kind: range", "kind: A/C"),
        ("kind: range", "kind: hot water tank"),
        ("kind: range", "kind: gas furnace"),
        ("kind: range", "kind: heatpump"),
        ("kind: range", "kind: Hot-Tub"),
        ("120/240 V single-phase 3-wire", "120/240V, single phase, 3 wire"),
        ("small appliance circuits", "small_appliance_circuits"),
    ],
)
def test_what_is_taken_although_it_is_spelled_otherwise(old: str, new: str) -> None:
    assert home_from_text(changed(old, new), "home.yaml", read_glossary()).title == "5 Elm Road"
