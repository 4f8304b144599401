"""Answers of owners in their own words: what is of another question, what is not known, when something comes."""

from __future__ import annotations

import io

import pytest

from dwellcalc.cli.interview import Interview
from dwellcalc.cli.terminal_talk import Terminal
from dwellcalc.home.starting.answers import Answer, Answers
from dwellcalc.home.starting.question_reader import read_starter
from dwellcalc.home.starting.several import counted
from dwellcalc.home.starting.short_words import is_question
from dwellcalc.home.starting.starter import Starter
from dwellcalc.language.rule_set import read_glossary

GLOSSARY = read_glossary()
LED_TO = {
    "wall_oven": {"cooking": "separate"},
    "circulator": {"heating": "boiler"},
    "air_conditioner": {"cooling": "central"},
    "planned_heat_pump_water_heater": {"planned": "heat pump water heater"},
    "water_heater": {"water_heating": "tank"},
    "range": {"cooking": "range"},
    "strips": {"heating": "heat pump"},
    "heat_pump": {"heating": "heat pump"},
    "heat_pump_replaces": {"planned": "heat pump", "heating": "furnace", "cooling": "central"},
    "charger_attached": {"planned": "charger"},
    "planned_charger": {"planned": "charger"},
    "charger_later": {"planned": "charger"},
    "heat_pump_later": {"planned": "heat pump"},
    "planned_hot_tub": {"planned": "hot tub"},
    "garage_door": {"more": "garage door"},
    "second_charger": {"planned": "two chargers", "planned_charger": "16 A; 24 A; 32 A"},
    "second_charger_later": {"planned": "two chargers"},
    "bus": {"main_breaker": "unknown"},
    "heat_pump_water_heater": {"water_heating": "heat pump"},
    "conductor_material": {"conductor_size": "to be chosen"},
}
OIL_HEATED = {
    "planned": "heat pump",
    "heating": "oil furnace",
    "cooling": "room",
    "blower": "typical",
    "oil_burner": "1 A to 6 A at 120 V",
    "room_air_conditioners": "7.5 A at 115 V",
}


@pytest.fixture(scope="module")
def starter() -> Starter:
    return read_starter(None, GLOSSARY)


def interviewed(question: str, said: str, starter: Starter, work: str = "existing") -> tuple[list[str], dict[str, Answer]]:
    """The keys of the messages that one answer gets, and what is taken of it."""
    answers = Answers(starter, starter.works[work])
    slots = {each.question.id: each.slot for each in answers.steps()}
    answers.given = {slots[name]: Answer(word) for name, word in LED_TO.get(question, {}).items()}
    step = next(each for each in answers.steps() if each.question.id == question)
    talk = Interview(answers, GLOSSARY, Terminal(100), 100, lambda _: None, lambda *_: [], lambda _, text: text)
    problems = talk.take(step, said)
    found = {name: each for (name, _), each in talk.answers.given.items() if name not in LED_TO.get(question, {})}
    return [each.message.key for each in problems or ()], found


@pytest.mark.parametrize(
    ("said", "text"),
    [
        ("two, each 4.5 kW at 240 V, breaker 30 A", "2 x 4.5 kW at 240 V"),
        ("two 4.5 kW, 240 V", "2 x 4.5 kW at 240 V"),
        ("two of them, 4500 W each", "2 x 4500 W"),
        ("4.5 kW, two of them", "2 x 4.5 kW"),
        ("4.5 kW each, two", "2 x 4.5 kW"),
        ("2, 4.5 kW each", "2 x 4.5 kW"),
        ("2 4.5 kW", None),
        ("4500 W two elements", None),
        ("one, 4.5 kW", "4.5 kW"),
    ],
)
def test_equal_loads_are_told_in_words(said: str, text: str | None, starter: Starter) -> None:
    """A number that is lost is a load that is not counted."""
    question = starter.questions["water_heater"]
    found = counted(said, question, starter.words)
    assert found.startswith("2 x ") == (text is not None and text.startswith("2 x "))
    if text is not None:
        assert interviewed("water_heater", said, starter, "new")[1]["water_heater"].text.partition(",")[0] == text


@pytest.mark.parametrize(
    ("said", "later"),
    [
        ("two chargers, sauna later", {"planned_other_later": "later"}),
        ("sauna later", {"planned_other_later": "later"}),
        ("a charger, later a sauna", {"planned_other_later": "later"}),
        ("charger, hot tub later", {"hot_tub_later": "later"}),
        ("heat pump, charger, both later", {"heat_pump_later": "later", "charger_later": "later"}),
        (
            "charger now, sauna and hot tub later",
            {"charger_later": "permit", "hot_tub_later": "later", "planned_other_later": "later"},
        ),
    ],
)
def test_later_is_said_of_its_own_clause(said: str, later: dict[str, str], starter: Starter) -> None:
    found = interviewed("planned", said, starter, "new")[1]
    assert {name: each.text for name, each in found.items() if name.endswith("_later")} == later


@pytest.mark.parametrize(
    ("question", "said", "text", "kept"),
    [
        ("solar", "solar later, size not known", "none", "solar later, size not known"),
        ("solar", "none now; solar later", "none", "none now; solar later"),
        (
            "living_area",
            "3,150 sq ft on two floors (1,700 down, 1,450 up; sheet A-1.2)",
            "3,150 sq ft",
            "(1,700 down, 1,450 up; sheet A-1.2)",
        ),
        ("wall_oven", "double wall oven 8.4 kW, cut sheet", "8.4 kW", ""),
        ("heat_pump", "HP-1 MCA 26.5 MOCP 45, HP-2 MCA 17.1 MOCP 25", "MCA 26.5 A at 240 V", "HP-1"),
        (
            "planned_charger",
            "16, 24, 32, 40, 48 A, 48 A wanted, hardwired, 30 ft from the panel",
            "16 A; 24 A; 32 A; 40 A; 48 A",
            "30 ft",
        ),
    ],
)
def test_what_designers_say_beside_an_answer_is_kept(question: str, said: str, text: str, kept: str, starter: Starter) -> None:
    problems, found = interviewed(question, said, starter, "new")
    assert not problems
    assert found[question].text.startswith(text)
    assert kept in found[question].beside


@pytest.mark.parametrize(
    ("question", "said", "text"),
    [
        ("heating", "oil boiler with a circulator pump and an oil burner, no label found", "oil boiler"),
        ("heating", "oil boiler and oil burner", "oil boiler"),
        ("heating", "gas furnace and an oil furnace", "furnace, oil furnace"),
        ("microwave", "a microwave that stands on the counter", "none"),
        ("microwave", "it stands on the counter, plugged in", "none"),
        ("microwave", "none, it stands on the counter", "none"),
        ("microwave", "1.6 kW, over the counter", "1.6 kW"),
        ("main_breaker", "the big double switch at the top says 100", "100"),
        ("bus", "the label is worn, I read MAINS 1_5 A", "unknown"),
        ("living_area", "tax record says 1,640 sq ft, the basement is not in that", "1,640 sq ft, told"),
        ("air_conditioner", "RLA 16.7, fan 1.2 FLA, 208/230 V", "RLA 16.7 A + fan 1.2 A at 230 V"),
        ("air_conditioner", "MCA 17.8 A 240 V on a 30 A breaker", "MCA 17.8 A 240 V, maximum overcurrent device 30 A"),
        ("air_conditioner", "MCA 17.8 A 240 V, max 30", "MCA 17.8 A 240 V, maximum overcurrent device 30 A"),
        ("planned_heat_pump_water_heater", "MCA 15 A at 240 V, breaker 30", "MCA 15 A at 240 V, maximum overcurrent device 30 A"),
        (
            "planned_heat_pump_water_heater",
            "MCA 15 A at 240 V, breaker 30, it is on the papers",
            "MCA 15 A at 240 V, maximum overcurrent device 30 A, manual",
        ),
        ("water_heating", "electric water heater 4500 W 240 V, to be replaced now by a heat pump water heater", "tank"),
        ("heat_pump_replaces", "none, it is an addition", "none"),
        ("heat_pump_replaces", "nothing, it is an addition", "none"),
        ("meter_file", "usage.csv, 15-minute data, US Mountain time", "usage.csv"),
        ("circulator", "no label found", "0.5 A to 3 A at 120 V"),
        ("system", "house, I suppose", "house"),
    ],
)
def test_what_owners_and_electricians_read_off(question: str, said: str, text: str, starter: Starter) -> None:
    problems, found = interviewed(question, said, starter)
    assert not problems
    assert found[question].text.startswith(text)
    assert found[question].text == text or text not in ("oil boiler", "none", "tank", "usage.csv", "house")


@pytest.mark.parametrize(
    ("main", "said", "bus", "beside"),
    [
        ("250 A", "same as the main", "250 A", ""),
        ("250 A", "the same as the main, 54 spaces", "250 A", "54 spaces"),
        ("200 A, told", "same", "200 A", ""),
        ("unknown", "same as the main", "unknown", "same as the main"),
    ],
)
def test_the_panel_is_rated_as_the_main(
    main: str, said: str, bus: str, beside: str, starter: Starter, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(LED_TO, "feeder_bus", {"main_breaker": main, "main_place": "outside"})
    problems, found = interviewed("feeder_bus", said, starter, "new")
    assert (problems, found["feeder_bus"].text, found["feeder_bus"].beside) == ([], bus, beside)


@pytest.mark.parametrize(
    ("said", "who"),
    [
        ("NEC 2023, confirmed by the plan reviewer, T. Okafor", "the plan reviewer, T. Okafor, for the edition only"),
        ("2020, told me by R. Adeyemi at the counter", "R. Adeyemi at the counter, for the edition only"),
        ("2020, the counter told me so", "the counter, for the edition only"),
        ("2020, confirmed by nobody", None),
        (
            "Mr. Rourke at the counter said 2017 code here, amended a little, ask for the handout",
            "Mr. Rourke at the counter (amended a little, ask for the handout), for the edition only",
        ),
    ],
)
def test_who_confirmed_stands_without_the_words_that_he_did(said: str, who: str | None, starter: Starter) -> None:
    found = interviewed("edition", said, starter)[1].get("confirmed_by")
    assert (found.text if found else None) == who


def test_who_confirmed_is_told_in_a_sentence(starter: Starter) -> None:
    found = interviewed("confirmed_by", "confirmed by R. Adeyemi, city plans examiner", starter)[1]
    assert found["confirmed_by"].text == "R. Adeyemi, city plans examiner"


@pytest.mark.parametrize(
    ("said", "size", "marking"),
    [
        ("2/0 aluminum SE cable, seen at the lugs, 75 C terminals", "2/0, nameplate", "75 C"),
        ("2/0 AL, terminals 60/75 C", "2/0", "75 C"),
        ("4 AWG copper, terminals not marked", "4 AWG", "nothing"),
        ("2/0 aluminum, seen at the lugs", "2/0, nameplate", None),
        ("2 AWG copper, 75 ft to the meter", None, None),
    ],
)
def test_the_marking_of_terminals_is_told_beside_the_conductors(
    said: str, size: str | None, marking: str | None, starter: Starter
) -> None:
    found = interviewed("conductor_size", said, starter)[1]
    assert [found[each].text if each in found else None for each in ("conductor_size", "terminals")] == [size, marking]


@pytest.mark.parametrize(
    ("question", "said"),
    [
        ("pool_pump", "sump pump in the crawl space, 1/3 hp"),
        ("pool_pump", "1/2 hp sump pump"),
        ("water_heating", "ducted heat pump, 2.5 tons"),
        ("water_heating", "heat pump, ducted"),
        ("heating", "heat pump water heater"),
    ],
)
def test_what_another_question_asks_for_is_not_taken_here(question: str, said: str, starter: Starter) -> None:
    assert interviewed(question, said, starter) == (["start_of_another"], {})


@pytest.mark.parametrize(
    "said", ["I did not see a label", "no label that I dare to read", "I have nothing here", "I would not know", "maybe"]
)
@pytest.mark.parametrize("question", ["range", "main_breaker", "living_area", "cooking", "free_spaces"])
def test_who_does_not_know_has_not_said_that_there_is_none(question: str, said: str, starter: Starter) -> None:
    problems, found = interviewed(question, said, starter)
    assert (problems, found[question].assumed, found[question].text == "none") == ([], True, False)


@pytest.mark.parametrize(
    ("question", "text"), [("charger", "none"), ("main_breaker", "unknown"), ("solar", "none"), ("meter_file", "none")]
)
def test_none_that_somebody_knows_of_is_assumed(question: str, text: str, starter: Starter) -> None:
    problems, found = interviewed(question, "none that the customer knows of", starter)
    assert (problems, found[question].text, found[question].assumed) == ([], text, True)


@pytest.mark.parametrize(
    ("said", "taken"),
    [
        ("two EV chargers, the second perhaps next year", {"planned": "two chargers", "second_charger_later": "later"}),
        (
            "two chargers, one now and one later",
            {"planned": "two chargers", "charger_later": "permit", "second_charger_later": "later"},
        ),
        (
            "a hot tub, a charger now and one in two years",
            {"planned": "hot tub, two chargers", "charger_later": "permit", "second_charger_later": "later"},
        ),
        (
            "a hot tub and two EV chargers, the second in two or three years",
            {"planned": "hot tub, two chargers", "second_charger_later": "later"},
        ),
        (
            "charger now, heat pump when the furnace dies",
            {"planned": "charger, heat pump", "charger_later": "permit", "heat_pump_later": "later"},
        ),
        ("maybe later, a hot tub", {"planned": "hot tub", "hot_tub_later": "later"}),
        ("heat pump, 3 tons", {"planned": "heat pump"}),
    ],
)
def test_when_what_is_planned_comes(said: str, taken: dict[str, str], starter: Starter) -> None:
    problems, found = interviewed("planned", said, starter)
    assert (problems, {name: each.text for name, each in found.items()}) == ([], taken)


@pytest.mark.parametrize(
    ("question", "said", "text", "beside"),
    [
        ("pool_pump", "none, but there is a sump pump", "none", "sump pump"),
        ("pool_pump", "1 hp at 240 V, near the well pump", "1 hp at 240 V", "near the well pump"),
        ("water_heating", "heat pump", "heat pump", ""),
        ("heating", "gas furnace, heat pump water heater", "furnace", "heat pump water heater"),
        ("strips", "9.6 kW with the heat pump", "9.6 kW", ""),
        ("charger_later", "in two or three years", "later", "in two or three years"),
        ("heat_pump_later", "when the furnace dies", "later", "when the furnace dies"),
        ("heat_pump_later", "this year", "permit", ""),
        ("heat_pump_replaces", "when the furnace dies", "gas furnace", "when the furnace dies"),
        ("bus", "same as the main", "unknown", "same as the main"),
        ("meter_rating", "no", "skip", ""),
        ("water_heating", "gas, the tank in the garage", "gas", "in the garage"),
        ("water_heating", "gas, electric tank", "gas, tank", ""),
        ("cooking", "double oven in the wall and an induction cooktop", "separate", ""),
        ("more", "a sauna maybe some day, and a garage door", "garage door", "a sauna some day"),
        ("small_appliance_circuits", "two or three", "3", ""),
        ("hot_tub", "never", "none", ""),
        ("pool_pump", "1.5 HP variable speed, 230 volts", "1.5 HP at 230 V", ""),
        ("charger_attached", "the leaflet says plug or wired, I have not decided", "skip", None),
        ("planned_hot_tub", "240 V, 50 A, heater 5.5 kW, pump 2 hp, total 7.9 kW", "7.9 kW", None),
        ("heat_pump", "one is 3 tons and one is 2 tons", "MCA 15 A to 30 A at 240 V; MCA 10 A to 22 A at 240 V", None),
        ("anything_else", "wine cooler: 1.5 A at 120 V", "wine cooler: 1.5 A at 120 V", ""),
        ("anything_else", "second refrigerator in the garage", "refrigerator: 1 A to 8 A at 120 V, not seen", ""),
    ],
)
def test_what_owners_say(
    question: str, said: str, text: str, beside: str | None, starter: Starter, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO("\n\n"))
    problems, found = interviewed(question, said, starter)
    assert (problems, found[question].text) == ([], text)
    assert found[question].beside == beside or (beside is None and found[question].beside)


@pytest.mark.parametrize(
    ("question", "said", "other", "rating"),
    [
        ("water_heating", "electric tank, 4.5 kW", "water_heater", "4.5 kW"),
        ("heating", "heat pump MCA 22 A at 240 V", "heat_pump", "MCA 22 A 240 V"),
        ("conductor_size", "aluminum, to be chosen, 38 ft", "conductor_material", "aluminum"),
    ],
)
def test_what_is_told_along_is_offered_where_it_is_asked(
    question: str, said: str, other: str, rating: str, starter: Starter
) -> None:
    assert interviewed(question, said, starter)[1][other].text == rating


def test_a_figure_beside_a_kind_of_heating_is_not_that_of_its_blower(starter: Starter) -> None:
    assert set(interviewed("heating", "gas furnace, 15 A", starter)[1]) == {"heating"}


def test_a_word_that_is_not_understood_is_explained(starter: Starter) -> None:
    assert is_question("I don't know what strips are", starter.questions["strips"])
    assert not is_question("I don't know", starter.questions["strips"])


@pytest.mark.parametrize(
    ("question", "said", "taken"),
    [
        ("bus", "the label inside is worn, can't read it. The main says 150", "150 A, told"),
        ("bus", "150 on the label", "150 A, nameplate"),
        ("conductor_size", "4/0 aluminum SE cable, 75 C terminals", "4/0"),
        ("conductor_size", "I have not seen them", "not seen"),
    ],
)
def test_nobody_has_seen_what_could_not_be_read(question: str, said: str, taken: str, starter: Starter) -> None:
    problems, found = interviewed(question, said, starter)
    assert (problems, found[question].text) == ([], taken)


@pytest.mark.parametrize(
    ("question", "said", "found"),
    [
        ("free_spaces", "24 spaces, 21 have breakers", {"free_spaces": "24", "spaces_taken": "21"}),
        ("microwave", "over the range, 1600 watts", {"microwave": "1600 W"}),
        ("garage_door", "it plugs in at the ceiling", {"garage_door": "unknown"}),
        ("second_charger", "same as the first", {"second_charger": "16 A; 24 A; 32 A"}),
        ("second_charger_later", "when we buy the second car", {"second_charger_later": "later"}),
        ("disposer", "half a horse", {"disposer": "1/2 hp at 120 V"}),
        ("disposer", "a third of a horse, I think", {"disposer": "1/3 hp at 120 V, told"}),
        ("meter_file", "I only have a paper bill, it says kWh only", {"meter_file": "none"}),
    ],
)
def test_what_is_said_in_passing(question: str, said: str, found: dict[str, str], starter: Starter) -> None:
    problems, answers = interviewed(question, said, starter)
    assert (problems, {name: each.text for name, each in answers.items()}) == ([], found)


def test_a_rating_goes_before_the_place_of_a_load(starter: Starter, monkeypatch: pytest.MonkeyPatch) -> None:
    """1,000 W is asked about, for it may be the cooking power; it is not kept as a remark beside a rating that is not known."""
    monkeypatch.setattr("sys.stdin", io.StringIO("input\n"))
    problems, answers = interviewed("microwave", "over the range, 1000 watts it says on the front", starter)
    assert (problems, answers["microwave"].text) == ([], "1000 W")


def test_that_it_can_be_set_lower_is_thought(starter: Starter, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO("I think so\n"))
    problems, answers = interviewed("planned_charger", "48 A", starter)
    assert (problems, answers["planned_charger"].text) == ([], "16 A; 24 A; 32 A; 40 A; 48 A")


def test_of_what_has_no_question_of_its_own_bounds_are_taken_where_the_rules_have_some(
    starter: Starter, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO("don't know\n"))
    problems, answers = interviewed("anything_else", "wine cooler", starter)
    assert (problems, answers["anything_else"].text) == ([], f"wine cooler: {starter.words.of_kinds['refrigerator']}, not seen")


@pytest.mark.parametrize(
    ("question", "said", "text"),
    [
        ("strips", "AH-1 8 kW, AH-2 5 kW", "8 kW; 5 kW"),
        ("strips", "10 kW downstairs, 5 kW upstairs", "10 kW; 5 kW"),
        ("strips", "upper floor 5 kW, main level 8 kW", "5 kW; 8 kW"),
        ("heat_pump", "HP-1 MCA 18.9 A, HP-2 MCA 14.6 A at 240 V", "MCA 18.9 A at 240 V; MCA 14.6 A at 240 V"),
    ],
)
def test_several_loads_are_told_apart_by_tags_and_places(question: str, said: str, text: str, starter: Starter) -> None:
    problems, answers = interviewed(question, said, starter)
    assert (problems, answers[question].text, answers[question].beside) == ([], text, said)


def test_what_comes_later_in_a_new_house_is_kept_as_that(starter: Starter) -> None:
    problems, answers = interviewed("planned", "two chargers in the garage, dryer later", starter, "new")
    assert (problems, answers["planned"].text, answers["dryer_later"].text) == ([], "two chargers, dryer", "later")
    planned = [each for name, each in starter.questions.items() if name.endswith("_later")]
    assert not [each.id for each in planned if each.works]


@pytest.mark.parametrize(
    ("question", "said", "found"),
    [
        (
            "conductor_size",
            "to be chosen, copper or aluminum not decided",
            {"conductor_size": "to be chosen", "conductor_material": "skip"},
        ),
        ("conductor_material", "copper or aluminum", {"conductor_material": "skip"}),
        ("ratings_from", "cut sheets", {"ratings_from": "manual"}),
        (
            "living_area",
            "2,640 sq ft on two floors (1,480 down, 1,160 up), drawing A-2",
            {"living_area": "2,640 sq ft, drawings"},
        ),
        ("finished_basement", "none, basement is unfinished", {"finished_basement": "none"}),
        ("small_appliance_circuits", "three small-appliance circuits", {"small_appliance_circuits": "3"}),
        (
            "cooking",
            "induction cooktop 7.4 kW, wall oven 4.8 kW, both cut sheets",
            {"cooking": "separate", "wall_oven": "4.8 kW", "cooktop": "7.4 kW"},
        ),
        ("drying", "ventless dryer, 120 V, 1.1 kW", {"drying": "electric", "dryer": "1.1 kW at 120 V"}),
        ("heat_pump_water_heater", "5 kW, 240 V, 30 A breaker", {"heat_pump_water_heater": "5 kW at 240 V"}),
        (
            "heat_pump",
            "HP-1 MCA 18.9, MOCP 30; HP-2 MCA 14.6, MOCP 25",
            {
                "heat_pump": "MCA 18.9 A at 240 V, maximum overcurrent device 30 A; "
                "MCA 14.6 A at 240 V, maximum overcurrent device 25 A"
            },
        ),
    ],
)
def test_what_designers_say_of_a_new_house(question: str, said: str, found: dict[str, str], starter: Starter) -> None:
    problems, answers = interviewed(question, said, starter, "new")
    assert (problems, {name: each.text for name, each in answers.items()}) == ([], found)


@pytest.mark.parametrize(
    ("question", "said", "typed", "text"),
    [
        ("heating", "the oil furnace, it shall be replaced by the heat pump now", "", "oil furnace"),
        ("planned_charger", "20 or 30 amps is enough for me", "breaker", "16 A; 24 A"),
        ("planned_charger", "20 or 30 amps", "what it draws", "20 A; 30 A"),
        ("heat_pump_replaces", "room air conditioner in the bedroom", "", "room air conditioner"),
        (
            "heat_pump_replaces",
            "the oil furnace and the window air conditioner",
            "",
            "oil furnace; room air conditioner; oil burner",
        ),
    ],
)
def test_what_goes_and_what_dealers_name(
    question: str, said: str, typed: str, text: str, starter: Starter, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(LED_TO, "heat_pump_replaces", OIL_HEATED)
    monkeypatch.setattr("sys.stdin", io.StringIO(f"{typed}\n"))
    problems, answers = interviewed(question, said, starter)
    assert (problems, answers[question].text) == ([], text)


@pytest.mark.parametrize("said", ["150 on the handle, outdoor meter-main", "a box outside below the meter with one breaker, 150"])
def test_where_the_main_stands_is_told_with_its_rating(said: str, starter: Starter) -> None:
    problems, answers = interviewed("main_breaker", said, starter)
    assert (problems, answers["main_breaker"].text, answers["main_stands"].text) == ([], "150 A", "outside")


def test_a_second_one_is_a_second_of_the_first(starter: Starter) -> None:
    said = "one EV charger now, a second one later, and a 240 V bathroom wall heater 1500 W"
    problems, answers = interviewed("planned", said, starter)
    found = {name: each.text for name, each in answers.items()}
    assert (problems, found) == (
        [],
        {"planned": "two chargers, other", "charger_later": "permit", "second_charger_later": "later"},
    )


@pytest.mark.parametrize(("typed", "text"), [("whole", "450 sq ft, told"), ("half", "900 sq ft, told")])
def test_half_of_a_basement_is_half_of_it_or_that_half(
    typed: str, text: str, starter: Starter, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO(f"{typed}\n"))
    problems, answers = interviewed("finished_basement", "maybe 900 sq ft, half of it finished", starter)
    assert (problems, answers["finished_basement"].text) == ([], text)
    monkeypatch.setitem(LED_TO, "unfinished_basement", {"finished_basement": "450 sq ft, told"})
    problems, answers = interviewed("unfinished_basement", "the other half of the basement", starter)
    assert (problems, answers["unfinished_basement"].text) == ([], "450 sq ft, told")


@pytest.mark.parametrize(
    ("question", "said", "found"),
    [
        (
            "free_spaces",
            "32 places, I count 26 with breakers, the others have blank plates",
            {"free_spaces": "32", "spaces_taken": "26"},
        ),
        ("free_spaces", "30 places, 25 taken, 5 empty", {"free_spaces": "30", "spaces_taken": "25"}),
        ("free_spaces", "30 slots, 5 open, 25 used", {"free_spaces": "30", "spaces_taken": "25"}),
        ("disposer", "yes there is one, no label to see", {"disposer": "unknown"}),
        ("bus", "125 A MAX", {"bus": "125 A"}),
        ("garage", "attached, one car", {"garage": "200 ft2 to 350 ft2"}),
        ("water_heating", "50 gallons, 4500/4500 W 240 V", {"water_heating": "tank", "water_heater": "4500 W at 240 V"}),
        (
            "cooling",
            "MIN CIRCUIT AMPS 16.5, MAX FUSE 25 A",
            {"cooling": "central", "air_conditioner": "MCA 16.5 A at 240 V, maximum overcurrent device 25 A"},
        ),
        ("anything_else", "none, it is plugged in", {"anything_else": "none"}),
        (
            "planned",
            "a charger in the garage, 48 amp, and a hot tub on the patio next summer, some day an induction stove",
            {"planned": "charger, hot tub, range", "charger_place": "house", "hot_tub_later": "later", "range_later": "later"},
        ),
    ],
)
def test_what_an_owner_finds_on_a_walk(question: str, said: str, found: dict[str, str], starter: Starter) -> None:
    problems, answers = interviewed(question, said, starter)
    assert (problems, {name: each.text for name, each in answers.items()}) == ([], found)
