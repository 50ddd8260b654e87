"""The net of doubts: wrong-looking values get a reason, plain ones get none, and nothing is changed."""

from __future__ import annotations

import time
from collections.abc import Iterator
from types import SimpleNamespace

import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given, settings
from hypothesis import strategies as st

from dictate.mentions import doubts, find
from dictate.mentions.narration import Narration, segments_of
from dictate.mentions.plausible import usual
from dictate.record.mentions import LabourMention, Mentions
from dictate.record.visit import At, Movement, Reading
from dictate.vocabulary.load import table
from tests.narrations.labels import all_of


def _where(narration: Narration, words: str) -> At:
    """Return the place of some words of a narration of one segment."""
    wanted = [w.strip(".,?;") for w in words.split()]
    said = [w.text.strip(".,?;") for w in narration.segments[0].words]
    for i in range(len(said)):
        if said[i : i + len(wanted)] == wanted:
            return At(clip="c1", segment=0, first_word=i, last_word=i + len(wanted) - 1)
    raise AssertionError(f"{words!r} is not in the text")


def _doubted(text: str, *taken: tuple[str, dict[str, object]], units: str = "us") -> list[Reading]:
    """Put readings on the words of a text, run the net, and return them: the readers play no part in it."""
    narration = Narration.from_text(text)
    mentions = Mentions(units=units)
    for words, fields in taken:
        full: dict[str, object] = {
            "unit_assumed": True,
            "at": _where(narration, words),
            "heard": words,
            **fields,
        }
        mentions.readings.append(Reading.model_validate(full))
    doubts.doubt(narration, mentions)
    return mentions.readings


V = {"quantity": "voltage", "unit": "V"}
A = {"quantity": "current", "unit": "A"}
OHM = {"quantity": "resistance", "unit": "ohm"}
F = {"quantity": "temperature", "unit": "degF"}
C = {"quantity": "temperature", "unit": "degC"}
PSI = {"quantity": "pressure", "unit": "psi"}
BAR = {"quantity": "pressure", "unit": "bar"}
UF = {"quantity": "capacitance", "unit": "uF"}
MIN = {"quantity": "duration", "unit": "min"}

WRONG = [
    # unusual for the part or the place
    ("The cap is a 45 over 5.", "45", {**V, "value": 45, "component": "run capacitor"}),
    ("Supply at the timer is 119 now.", "119", {**F, "value": 119, "point": "supply"}),
    ("The evaporator fan motor at 208 is fine.", "208", {**A, "value": 208, "component": "evaporator fan motor"}),
    ("Harvest was two forty.", "two forty", {**MIN, "value": 240, "point": "harvest"}),
    ("Air at the outlet 29 on the coil.", "29", {**V, "value": 29, "component": "receptacle"}),
    ("Start cap swollen 21 on it.", "21", {**OHM, "value": 21, "component": "start capacitor"}),
    ("Static point nine today.", "point nine", {**PSI, "value": 0.9, "point": "static"}),
    # a head pressure that a running machine with this gas does not have, so it may be in psi
    ("R-410A cassette. High is 410.", "410", {"quantity": "pressure", "unit": "kPa", "value": 410, "point": "discharge"}),
    # another quantity is spoken of
    ("Ohmed the coil at 870 and it's getting 116.", "116", {**OHM, "value": 116, "component": "solenoid valve"}),
    ("Drain heater 420 ohms, 118 across it.", "118", {**OHM, "value": 118, "component": "drain heater"}),
    ("Burner is lit, manifold pressure 3.5 now.", "3.5", {**PSI, "value": 3.5}),
    # names, counts, times
    ("Evaporator fan 2 not turning.", "2", {**A, "value": 2, "component": "evaporator fan motor"}),
    ("The fans, there are four, each loud.", "four", {**A, "value": 4, "component": "fan motor"}),
    ("Blast chiller, 10 tray.", "10", {**C, "value": 10, "point": "ambient"}),
    ("Started 13 20 today.", "13", {**C, "value": 13}),
    ("It was there at ten after nine.", "nine", {**PSI, "value": 9, "point": "suction"}),
    ("3 of 8 not running.", "8", {**F, "value": 8, "point": "box"}),
    ("Head one sixty eight on 134.", "134", {**PSI, "value": 134, "point": "discharge"}),
    ("Box down to 9:30 or so.", "9:30", {**F, "value": 9.5, "point": "box"}),
    # no value of now
    ("Spec is 800 at 70 air.", "70", {**F, "value": 70, "point": "ambient"}),
    ("He had 48 in the box.", "48", {**F, "value": 48, "point": "box"}),
    ("Low pressure switch cuts out at 12.", "12", {**PSI, "value": 12, "component": "low pressure switch"}),
    ("Box was 44 in May.", "44", {**F, "value": 44, "point": "box"}),
    ("Is it 208 or 230?", "208", {**V, "value": 208}),
    ("Gas valve 24 volts.", "24 volts", {**V, "value": 24, "unit_assumed": False, "component": "solenoid valve"}),
    ("It's a 34 degree box.", "34 degree", {**F, "value": 34, "unit_assumed": False, "point": "box"}),
    ("Brought it down 12 degrees.", "12 degrees", {**F, "value": 12, "unit_assumed": False}),
    # corrections and broken numbers
    ("Suction 68, no wait, wrong gauge.", "68", {**PSI, "value": 68, "point": "suction"}),
    ("Amps seven .2 on the compressor.", "seven", {**A, "value": 7, "component": "compressor"}),
    ("Amps 5.to now.", "5.to", {**A, "value": 5, "component": "compressor"}),
    ("Suction 4 5 now.", "4", {**PSI, "value": 4, "point": "suction"}),
    ("They prop it open.", "open", {**OHM, "state": "open", "unit_assumed": False}),
]  # fmt: skip

RIGHT = [
    ("Suction 22.", "22", {**PSI, "value": 22, "point": "suction"}),
    ("Head pressure is 210 and steady.", "210", {**PSI, "value": 210, "point": "discharge"}),
    ("Box is 38 now.", "38", {**F, "value": 38, "point": "box"}),
    ("Contactor line side 208.", "208", {**V, "value": 208, "component": "contactor", "point": "line"}),
    ("Contactor coil gets 24.6 volts.", "24.6 volts", {**V, "value": 24.6, "unit_assumed": False, "component": "contactor"}),
    ("Compressor pulls 6.8 amps.", "6.8 amps", {**A, "value": 6.8, "unit_assumed": False, "component": "compressor"}),
    ("Compressor amps nine.", "nine", {**A, "value": 9, "component": "compressor"}),
    ("Common to run 1.4 ohms.", "1.4 ohms", {**OHM, "value": 1.4, "unit_assumed": False, "component": "compressor"}),
    ("Run cap reads 34.2.", "34.2", {**UF, "value": 34.2, "component": "run capacitor"}),
    ("Battery 12.6 with the engine off.", "12.6", {**V, "value": 12.6, "component": "battery"}),
    ("Overload is open.", "open", {**OHM, "state": "open", "unit_assumed": False, "component": "overload"}),
    ("Box 26, should be minus five.", "26", {**F, "value": 26, "point": "box"}),
]  # fmt: skip


@pytest.mark.parametrize(("text", "words", "fields"), WRONG, ids=[w[0] for w in WRONG])
def test_a_wrong_value_gets_a_reason(text: str, words: str, fields: dict[str, object]) -> None:
    (reading,) = _doubted(text, (words, fields))
    assert reading.review, text


@pytest.mark.parametrize(("text", "words", "fields"), RIGHT, ids=[r[0] for r in RIGHT])
def test_a_plain_value_gets_none(text: str, words: str, fields: dict[str, object]) -> None:
    (reading,) = _doubted(text, (words, fields))
    assert reading.review == []


def test_values_that_belong_together() -> None:
    """A unit carried over a list, differences, twins and neighbours are judged by what stands around them."""
    *_, gap = _doubted(
        "Supply 55, return 74, that's 19.",
        ("55", {**F, "value": 55, "point": "supply"}),
        ("74", {**F, "value": 74, "point": "return"}),
        ("19", {**F, "value": 19, "point": "return"}),
    )
    assert any("difference" in why for why in gap.review)
    _, later = _doubted(
        "Air on was 96 before and 89 after head pressure.",
        ("96", {**F, "value": 96, "point": "ambient"}),
        ("89", {**PSI, "value": 89, "point": "discharge"}),
    )
    assert later.review
    left, _ = _doubted(
        "Motor left 7.2, right 7.6 amps.",
        ("7.2", {**F, "value": 7.2}),
        ("7.6 amps", {**A, "value": 7.6, "unit_assumed": False}),
    )
    assert left.review
    suction, head = _doubted(
        "Suction 36, discharge 16 bar.",
        ("36", {**BAR, "value": 36, "point": "suction"}),
        ("16 bar", {**BAR, "value": 16, "point": "discharge", "unit_assumed": False}),
    )
    assert suction.review and not head.review
    for legs in _doubted(
        "Supply volts line to line 398, 400, 401.",
        *((w, {**V, "value": float(w)}) for w in ("398", "400", "401")),
    ):
        assert not legs.review


def test_celsius_in_a_visit_without_a_unit() -> None:
    """A kitchen at 31 °F freezes; every bare temperature of the visit is in doubt then."""
    for reading in _doubted(
        "The kitchen's 31. Cabinet 9.",
        ("31", {**F, "value": 31, "point": "ambient"}),
        ("9", {**F, "value": 9, "point": "box"}),
    ):
        assert any("Celsius" in why for why in reading.review)


@pytest.mark.parametrize("doubted", [0, 1])
@pytest.mark.parametrize(("quantity", "asked"), [("temperature", True), ("pressure", False)])
def test_both_ends_of_a_range_are_asked_about(doubted: int, quantity: str, asked: bool) -> None:
    def end(which: str, of: str) -> SimpleNamespace:
        reading = SimpleNamespace(quantity=of, role="measured", review=[], confidence=1.0)
        return SimpleNamespace(value=SimpleNamespace(range=which), reading=reading)

    row = [end("low", "temperature"), end("high", quantity)]
    row[doubted].reading.review.append("why")
    doubts._doubt_whole_ranges(row)  # type: ignore[arg-type]
    other = row[1 - doubted].reading
    assert bool(other.review) is asked
    assert (other.confidence < 1) is asked


def test_amps_beside_an_open_one_are_asked_about() -> None:
    said = (
        "Reach-in cooler at the bakery, R-404A, service call for warm product. Power was off when I came, turned it "
        "on. Heater one eighteen point six, heater two eighteen nine, heater three open. Cleaned the condenser coil, it "
        "was full of flour. Told the manager to keep the grille clear. The door gasket is fine and the drain is clear."
    )
    amps = [r for r in find(list(segments_of([said], "c1"))).readings if r.quantity == "current"]
    assert len(amps) == 2
    assert all(any("open" in why for why in r.review) for r in amps)


def test_a_broken_number_offers_the_whole_one() -> None:
    (reading,) = _doubted("Amps seven .2 on it.", ("seven", {**A, "value": 7, "component": "compressor"}))
    assert [c.value for c in reading.candidates] == [pytest.approx(7.2)]


def test_what_was_taken_back_or_is_of_a_plate_is_left_alone() -> None:
    for role in ("retracted", "rated", "target", "earlier", "expected"):
        (reading,) = _doubted("The plate says line voltage 208.", ("208", {**V, "value": 208, "role": role}))
        assert reading.review == []


def test_a_plate_value_of_another_kind_is_asked_about() -> None:
    (reading,) = _doubted("The cap is a 45 over 5.", ("45", {**V, "value": 45, "role": "rated"}))
    assert reading.review


def _moved(text: str, words: str, value: float, unit: str, plate: float | None = None) -> Movement:
    narration = Narration.from_text(text)
    movement = Movement.model_validate(
        {"direction": "charged", "value": value, "unit": unit, "at": _where(narration, words), "heard": words}
    )
    mentions = Mentions(movements=[movement])
    if plate is not None:
        mentions.readings.append(Reading(quantity="mass", unit="lb", value=plate, role="rated"))
    doubts.doubt(narration, mentions)
    return movement


def test_amounts_of_refrigerant() -> None:
    assert _moved("Charged 3 pounds by weight.", "3 pounds", 3, "lb").review == []
    assert _moved("Charged 3 pounds by weight.", "3 pounds", 3, "lb", plate=3).review == []
    assert _moved("Charged 30 pounds.", "30 pounds", 30, "lb", plate=3).review
    assert _moved("Charged 400 pounds.", "400 pounds", 400, "lb").review
    assert _moved("Might need 3 pounds.", "3 pounds", 3, "lb").review
    assert _moved("Charged 3 pounds, scratch that.", "3 pounds", 3, "lb").review
    damaged = _moved("Charged 2.6 ounces of R4. A4A.", "2.6 ounces", 2.6, "oz")
    assert [c.value for c in damaged.candidates] == [pytest.approx(2.375)]  # 2 lb 6 oz, 16 oz to the pound


def test_working_times_that_do_not_fit() -> None:
    narration = Narration.from_text("In at 11, out at 9.")
    labour = [LabourMention("start", "11:00", None, At(), ""), LabourMention("end", "09:00", None, At(), "")]
    doubts.doubt(narration, Mentions(labour=labour))
    assert all(item.review for item in labour)
    labour = [LabourMention("start", "09:00", None, At(), ""), LabourMention("end", "11:00", None, At(), "")]
    doubts.doubt(narration, Mentions(labour=labour))
    assert not any(item.review for item in labour)


# -- the vocabulary


def _kelvin(fahrenheit: float) -> float:
    return (fahrenheit - 32) / 1.8 + 273.15


_FLUIDS = {
    "R-134a": "R134a", "R-404A": "R404A", "R-410A": "R410A", "R-22": "R22", "R-290": "R290", "R-32": "R32",
    "R-507A": "R507A", "R-407C": "R407C", "R-1234yf": "R1234yf", "R-600a": "IsoButane", "R-12": "R12",
}  # fmt: skip


@pytest.mark.parametrize("name", sorted(_FLUIDS))
def test_saturation_pressures_agree_with_coolprop(name: str) -> None:
    """Bell et al., Ind. Eng. Chem. Res. 2014, 53, 2498 (CoolProp): bubble pressure less one atmosphere."""
    data = table("plausible")["saturation"]
    for fahrenheit, said in zip(data["degF"], data["gauge"][name], strict=True):
        pascal = PropsSI("P", "T", _kelvin(fahrenheit), "Q", 0, _FLUIDS[name])
        assert said == pytest.approx(pascal / 6894.757 - 14.696, abs=max(1.0, 0.02 * said)), fahrenheit


def test_bands_are_well_formed() -> None:
    names = {e["name"] for e in table("components")["component"]}
    for band in table("plausible")["band"]:
        assert all(low <= high for low, high in band["bands"]), band
        assert band["tag"] in {"published", "common practice", "from memory"}
        assert band["tag"] != "published" or band["source"]
        # A misspelt component would silence its band; the generic and the compound names are allowed.
        unknown = [n for n in band.get("component", ()) if n not in names]
        assert len(unknown) <= len(band.get("component", ())) // 2, unknown
    # ANSI C84.1-2020, table 1, nominal system voltages; IEC 60038:2009, table 1.
    general = table("plausible")["band"][0]
    for volts in (24, 120, 208, 230, 240, 277, 400, 480, 600):
        assert any(low <= volts <= high for low, high in general["bands"]), volts


# -- on whole narrations


def _texts() -> Iterator[str]:
    for labelled in all_of("develop"):
        yield "\n".join(labelled.lines)


def test_it_takes_little_time() -> None:
    """Well under 10 ms for a visit, without what the readers have found already."""
    spent = []
    for text in list(_texts())[::10]:
        segments = list(segments_of(text.splitlines(), "c1"))
        mentions = find(segments)
        narration = Narration(segments)
        doubts.doubt(narration, mentions)  # fills the shared findings of the narration
        start = time.process_time()
        doubts.doubt(narration, mentions)
        spent.append(time.process_time() - start)
    assert sum(spent) / len(spent) < 0.01


def test_reasons_are_not_repeated_and_no_value_changes() -> None:
    for text in list(_texts())[:12]:
        segments = list(segments_of(text.splitlines(), "c1"))
        mentions = find(segments)
        before = [(r.value, r.unit, r.role, r.component, r.point) for r in mentions.readings]
        doubts.doubt(Narration(segments), mentions)
        after = [(r.value, r.unit, r.role, r.component, r.point) for r in mentions.readings]
        assert before == after
        assert all(len(r.review) == len(set(r.review)) for r in mentions.readings)


_WORDS = ["suction", "22", "head", "two", "oh", "eight", "volts", ".", ",", "fan", "nine", ":", "no wait", "9:15", ".5",
          "cap", "reads", "£2", "R4. A4A", "to", "65", "open", "?", "point", "and", "ohms", "at", "before", "after", "of"]  # fmt: skip


@settings(max_examples=60, deadline=None)
@given(st.lists(st.sampled_from(_WORDS), max_size=25))
def test_it_never_crashes(words: list[str]) -> None:
    find(list(segments_of([" ".join(words)], "c1")))


def test_a_nought_without_a_unit_is_doubted_as_amps_and_not_with_one() -> None:
    bare = find(
        list(
            segments_of(
                ["Amps 3.1. Supply measured 471. Between the control and the motor it's 0 on all three."],
                "c1",
            )
        )
    )
    zeros = [r for r in bare.readings if r.value == 0]
    assert zeros
    assert all(r.quantity == "voltage" or r.review for r in zeros)
    said = find(list(segments_of(["Compressor draws 0 amps."], "c1")))
    assert [r.review for r in said.readings if r.value == 0] == [[]]


def test_a_name_right_behind_the_value_is_seen() -> None:
    found = find(list(segments_of(["Superheat 12 subcool 10, 18 degree split."], "c1")))
    last = found.readings[-1]
    assert last.value == 18
    assert last.quantity == "temperature_difference" or last.review


def test_cycles_of_a_machine_are_no_frequency() -> None:
    found = find(list(segments_of(["Ran two cycles, freeze 16 minutes."], "c1")))
    assert "frequency" not in {r.quantity for r in found.readings}


def test_an_amount_that_a_later_sentence_takes_back_is_doubted() -> None:
    text = "Recovered nine ounces of 290. Was five point three on the tag. No sorry nine grams, it was nearly empty."
    found = find(list(segments_of([text], "c1")))
    (out,) = [m for m in found.movements if m.direction == "recovered"]
    assert (out.value, out.unit) == (9, "g") or out.review


def test_two_ends_of_a_thing_of_two_kinds_are_asked_about() -> None:
    psi = {"quantity": "pressure", "unit": "psi", "value": 58, "point": "inlet"}
    degrees = {**F, "value": 31, "point": "outlet"}
    _, reading = _doubted("Water filter inlet 58 psi outlet 31.", ("58 psi", psi), ("31", degrees))
    assert reading.review == ["its twin has another unit (psi)"]


def test_a_contactor_carries_what_the_compressor_draws() -> None:
    # Common practice: contacts of 25 to 90 A are usual, a control transformer or a fan takes a few amps.
    assert usual("current", "contactor", None, 40.0, "A")
    assert not usual("current", "transformer", None, 40.0, "A")
    assert not usual("current", "evaporator fan motor", None, 40.0, "A")
