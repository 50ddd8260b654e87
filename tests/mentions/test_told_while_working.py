"""Values told in bursts while the hands work (invented talk; no outside source)."""

from __future__ import annotations

import pytest

from dictate.mentions import find
from dictate.mentions.narration import segments_of


def _read(said: str) -> list[tuple[float | None, str | None, str, str]]:
    return [(r.value, r.unit, r.quantity, r.role) for r in find(list(segments_of([said], "c1"))).readings]


@pytest.mark.parametrize(
    ("said", "both"),
    [
        ("Compressor amps. This leg, eight four. Other one, eight six.", [8.4, 8.6]),
        ("Suction's fifty-one. Half a turn. Wait. Suction's forty-six.", [51.0, 46.0]),
    ],
)
def test_what_is_read_next_takes_nothing_back(said: str, both: list[float]) -> None:
    assert [value for value, _, _, role in _read(said) if role == "measured" and value in both] == both


@pytest.mark.parametrize(
    ("said", "left"),
    [
        ("Suction's fifty-one. No wait, forty-six.", 46.0),
        ("Compressor amps, eight four. Wrong leg. Eight six.", 8.6),
        ("It rose to 480 microns in 10 minutes, no, 460.", 460.0),
        ("It held 150 psi for 30 minutes, no, 160.", 160.0),
    ],
)
def test_what_is_taken_back_stays_so(said: str, left: float) -> None:
    assert [value for value, _, _, role in _read(said) if role == "measured"][-1] == left


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("Low side's one eighteen. Suction line fifty-two, eleven over.", (11, "superheat")),
        ("Head two forty. Liquid ninety-one, eight under.", (8, "subcooling")),
    ],
)
def test_over_and_under_are_superheat_and_subcooling(said: str, told: tuple[float, str]) -> None:
    assert told in [(value, quantity) for value, _, quantity, _ in _read(said)]


def test_over_the_box_is_no_superheat() -> None:
    assert "superheat" not in {q for _, _, q, _ in _read("Box thirty-eight, two over what they want.")}


def test_a_capacitor_of_two_digits_has_its_point() -> None:
    said = (
        "Amps, this leg nine four. And the fan up front, one point nine, slow getting going. Two thirty-five at the "
        "box. Kill the switch. Dead. Bleed the can. Four point two, meant to be seven and a half. Old one's off. "
        "New one reads seven four. Screws."
    )
    values = [value for value, unit, _, role in _read(said) if unit == "uF" and role == "measured"]
    assert values == [4.2, 7.4]


def test_what_was_put_right_is_the_value_of_its_size() -> None:
    told = _read("It held 150 psi for 30 minutes, no, 160.")
    assert [(value, unit) for value, unit, _, role in told if role == "retracted"] == [(150, "psi")]


@pytest.mark.parametrize(
    ("said", "want"),
    [
        ("Head 14.2 bar... 13.1... settles 12.8. Compressor 21 amps.", (12.8, "bar", "pressure")),
        ("Suction 12 psi, 15, settles 14. Alternator 14.1 volts.", (14, "psi", "pressure")),
        ("Box at 41 degrees, 39, levels off at 37. Caps on.", (37, "degF", "temperature")),
        ("Compressor fourteen amps... fifteen and a half, hang on, settling, fifteen two.", (15.2, "A", "current")),
        ("Compressor fourteen amps... fifteen and a half, hang on, settling, fifteen two.", (15.5, "A", "current")),
        # its unit stands in front of it
        ("Suction 14 psi. RPM 1450 low, 2200 high.", (1450, "rpm", "speed")),
        ("Suction 14 psi. RPM 1450 low, 2200 high.", (2200, "rpm", "speed")),
    ],
)  # fmt: skip
def test_what_a_gauge_settles_at_goes_on(said: str, want: tuple[float, str, str]) -> None:
    assert (*want, "measured") in _read(said)


@pytest.mark.parametrize(
    ("said", "taken"),
    [
        # too far off, and something else that settles
        ("Head 220 psi, settles 14 on the clamp.", 14),
        ("Head 220 psi. The argument settled 210 dollars.", 210),
    ],
)
def test_what_settles_at_something_else_does_not(said: str, taken: float) -> None:
    assert (taken, "psi", "pressure", "measured") not in _read(said)


def test_a_correction_is_still_one_where_nothing_settles() -> None:
    assert (15.5, "A", "current", "retracted") in _read(
        "Compressor fifteen and a half amps, hang on, fifteen two."
    )


@pytest.mark.parametrize(
    ("said", "zeros"),
    [
        ("Recovery on. Suction's past zero, eight inches.", 0),
        ("Recovery on. Suction went through zero, eight inches.", 0),
        ("Recovery on. Suction's at zero psi.", 1),
    ],
)
def test_a_zero_that_a_needle_passes_is_no_value(said: str, zeros: int) -> None:
    assert len([1 for value, _, _, _ in _read(said) if value == 0]) == zeros


@pytest.mark.parametrize(
    ("said", "of_b"),
    [
        ("Circuit A suction 8.9 bar... 9.0. B, 3.8, 3.5, and it cuts out.", [3.8, 3.5]),
        ("Circuit one suction 62 psi. Circuit two's 48. Caps on.", [48]),
        ("Circuit A suction 8.9 bar. Room's 27 degrees. Found the nut. B is 8.4 now.", [8.4]),
        # a row of something else, and what is far from it
        ("Circuit A suction 8.9 bar. Breaker B, 32 amps.", []),
        ("Circuit A suction 8.9 bar. B, 215 minutes and it's down.", []),
        ("Circuit A suction 8.9 bar. Board B is 24 volts.", []),
        ("Circuit A suction 8.9 bar. B, 90.", []),
    ],
)
def test_the_next_circuit_is_told_by_its_letter(said: str, of_b: list[float]) -> None:
    found = find(list(segments_of([said], "c1"))).readings
    assert [r.value for r in found if r.point == "suction" and r.value not in (8.9, 9.0, 62)] == of_b


@pytest.mark.parametrize(
    ("said", "unit"),
    [
        ("Box is at 6 degrees Celsius. Two wires off the board, meter on them. 38.6 K.", "ohm"),
        ("Box is at 6 degrees Celsius. Connector off, probes in. 12.4 K.", "ohm"),
        ("Box is at 6 degrees Celsius. Meter away. 8.6 K.", "delta_degC"),
        ("Box is at 6 degrees Celsius. Wires are fine. 8.6 K.", "delta_degC"),
    ],
)
def test_k_is_of_ohms_where_a_meter_is_on_wires(said: str, unit: str) -> None:
    assert [u for _, u, _, _ in _read(said) if u != "degC"] == [unit]


@pytest.mark.parametrize(
    ("said", "places"),
    [
        ("Rack suction is ten psi. Oil pump thirty-one, crankcase nine. So twenty-two net.", {"oil", "crankcase"}),
        ("Rack suction is ten psi. Crankcase nine. Net is twenty-two. Water pump fifteen.", {"crankcase"}),
        ("Rack suction is ten psi. Crankcase nine. Fan's on.", set()),
    ],
)  # fmt: skip
def test_oil_and_crankcase_whose_net_is_told_behind(said: str, places: set[str]) -> None:
    found = find(list(segments_of([said], "c1"))).readings
    assert {r.point for r in found if r.value in (31, 9, 15)} & {"oil", "crankcase"} == places
