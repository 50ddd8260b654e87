"""The record as it is put together: ids, machines, stages, tests, times."""

from __future__ import annotations

from datetime import datetime

import pytest

from dictate.mentions import find
from dictate.mentions.narration import segments_of
from dictate.record.transcript import Segment, Word
from dictate.record.visit import Clip, Problem, Record
from dictate.units import UCUM
from dictate.writeup import compose

REPAIR = """Two door reach-in freezer, model RF-49, serial 20871, four oh four A, box was thirty four.
Common to run one point one ohms. Unplugged it. Recovered one pound four ounces.
Brazed in the new compressor with nitrogen flowing, new drier.
Pressure test with nitrogen, one hundred fifty psi, after twenty minutes still one hundred fifty psi. Bubbled it, no leaks.
Pulled a vacuum to nine hundred microns, valved off, rose to two thousand microns. Pulled it again, three hundred eighty microns, valved off, fifteen minutes later four hundred twenty microns.
Weighed in one pound five ounces. Plugged it in. Suction fourteen psi, head two twenty eight psi, compressor six point two amps. Box is at twelve degrees.
Nine fifteen to one forty five."""


def record(text: str, **clip: object) -> Record:
    clips = [Clip(id="c1", file="a.txt", sha256="ab" * 32, **clip)]  # type: ignore[arg-type]
    segments = list(segments_of(text.splitlines(), "c1"))
    return compose(find(segments), clips, segments, ())


def test_ids_are_stable_and_in_the_order_of_speech() -> None:
    one, two = record(REPAIR), record(REPAIR)
    assert one == two
    for prefix, items in (
        ("r", one.readings),
        ("s", one.steps),
        ("m", one.refrigerant),
        ("p", one.parts),
        ("t", one.tests),
    ):
        assert [i.id for i in items] == [f"{prefix}{n}" for n in range(1, len(items) + 1)]  # type: ignore[attr-defined]
    places = [(s.at.segment, s.at.first_word) for s in one.steps]
    assert places == sorted(places)


def test_visit_id_comes_from_the_clips() -> None:
    other = Clip(id="c1", file="a.txt", sha256="cd" * 32)
    segments = list(segments_of(["Killed the power."], "c1"))
    first = compose(find(segments), [Clip(id="c1", file="x.txt", sha256="ab" * 32)], segments, ()).visit.id
    renamed = compose(find(segments), [Clip(id="c1", file="y.txt", sha256="ab" * 32)], segments, ()).visit.id
    second = compose(find(segments), [other], segments, ()).visit.id
    assert first == renamed != second


def test_machine_and_refrigerant_are_carried() -> None:
    r = record(REPAIR)
    (machine,) = r.equipment
    assert (machine.type, machine.model, machine.serial, machine.refrigerant) == (
        "reach-in freezer",
        "RF-49",
        "20871",
        "R-404A",
    )
    assert {x.equipment for x in (*r.readings, *r.steps, *r.refrigerant, *r.parts)} == {machine.id}
    assert [(m.direction, m.refrigerant) for m in r.refrigerant] == [
        ("recovered", "R-404A"),
        ("charged", "R-404A"),
    ]


def test_stage_by_the_order_of_the_repair() -> None:
    r = record(REPAIR)
    stages = {(x.quantity, x.value): x.stage for x in r.readings}
    assert stages["temperature", 34.0] == "as_found"
    assert stages["resistance", 1.1] == "as_found"
    assert stages["current", 6.2] == "as_left"
    assert stages["temperature", 12.0] == "as_left"
    assert stages["vacuum", 380.0] is None


def test_evacuation_attempts_and_pressure_test() -> None:
    r = record(REPAIR)
    pressure = next(t for t in r.tests if t.kind == "pressure_test")
    assert pressure.start is not None and pressure.end is not None
    assert (pressure.start.value, pressure.end.value, pressure.minutes, pressure.gas) == (
        150.0,
        150.0,
        20.0,
        "nitrogen",
    )
    first, second = [t for t in r.tests if t.kind == "evacuation"]
    assert first.reached is not None and second.reached is not None and second.end is not None
    assert (first.reached.value, first.result) == (900.0, "failed")
    assert (second.attempt, second.reached.value, second.end.value, second.minutes) == (2, 380.0, 420.0, 15.0)


def test_units_carry_their_ucum_code() -> None:
    # UCUM, unified code for units of measure: [psi], [degF], A, Ohm and um[Hg] for the micron of mercury.
    for reading in record(REPAIR).readings:
        assert reading.ucum == UCUM[reading.unit]


def test_labour_from_clock_times() -> None:
    labour = record(REPAIR).labour
    assert labour is not None
    assert (labour.start, labour.end, labour.hours) == ("09:15", "13:45", 4.5)


def test_clock_times_from_the_recording() -> None:
    words = [
        Word(text=w, start_s=60.0 + n, end_s=60.5 + n) for n, w in enumerate(["Killed", "the", "power."])
    ]
    segment = Segment(clip="c1", start_s=60.0, end_s=63.0, text="Killed the power.", words=words)
    clip = Clip(id="c1", file="a.wav", sha256="ab" * 32, recorded_at="2026-11-25T13:05:00+01:00")
    r = compose(find([segment]), [clip], [segment], ())
    assert r.visit.date == "2026-11-25"
    (step,) = r.steps
    # RFC 3339: an instant with its offset, a minute after the recording began.
    assert step.at.said_at is not None
    said = datetime.fromisoformat(step.at.said_at)
    assert (said - datetime.fromisoformat("2026-11-25T13:05:00+01:00")).total_seconds() == 60


def test_several_machines_keep_what_was_said_of_them() -> None:
    text = """First the walk-in cooler. Box is thirty eight degrees. Cleaned the condenser.
Then the ice machine. Replaced the water filter. Freeze was fourteen minutes."""
    r = record(text)
    cooler, ice = r.equipment
    assert [(s.step, s.equipment) for s in r.steps] == [("cleaned", cooler.id), ("part_replaced", ice.id)]
    assert [p.equipment for p in r.parts] == [cooler.id, ice.id]
    assert {x.equipment for x in r.readings if x.quantity == "temperature"} == {cooler.id}


def test_what_is_said_before_any_of_several_machines_belongs_to_none() -> None:
    text = """Ambient is ninety two degrees.
First the walk-in cooler. Box is thirty eight degrees.
Second the walk-in freezer. Box is zero degrees."""
    r = record(text)
    assert [x.equipment for x in r.readings] == [None, "e1", "e2"]


def test_the_same_machine_named_again_is_one() -> None:
    text = """Walk-in cooler, box is forty degrees.
Ice machine, freeze was fourteen minutes.
Back on the walk-in cooler, box is thirty seven degrees now."""
    r = record(text)
    assert len(r.equipment) == 2
    assert [x.equipment for x in r.readings] == ["e1", "e2", "e1"]


def test_what_is_found_where_nothing_was_repaired_is_as_found() -> None:
    r = record("Walk-in cooler, just an inspection. Box is thirty eight degrees. Suction is forty psi.")
    assert {x.stage for x in r.readings} == {"as_found"}


def test_readings_of_a_running_machine_after_the_repair_are_a_run_check() -> None:
    text = "Replaced the condenser fan motor. Power back on. Suction is forty psi, head is two hundred psi, compressor six amps."
    assert "run_checked" in [s.step for s in record(text).steps]
    assert "run_checked" not in [
        s.step for s in record("Cleaned the condenser. Suction was forty psi.").steps
    ]


def test_problems_and_transcript_are_kept() -> None:
    segments = list(segments_of(["Killed the power."], "c1"))
    problem = Problem(file="b.m4a", error="holds no sound")
    r = compose(find(segments), [Clip(id="c1", file="a.txt", sha256="ab" * 32)], segments, [problem])
    assert r.problems == [problem]
    assert [s.text for s in r.transcript] == ["Killed the power."]


def test_a_record_without_anything_said_is_empty_and_valid() -> None:
    r = record("Hello there, nothing to report.")
    assert Record.model_validate_json(r.model_dump_json(by_alias=True)) == r
    assert (r.readings, r.steps, r.refrigerant, r.parts, r.labour, r.complaint) == (
        [],
        [],
        [],
        [],
        None,
        None,
    )


@pytest.mark.parametrize(
    "text", ["", ".", "uh", "? ! .", "model", "serial number", "recovered", "part number", "from to"]
)
def test_scraps_do_not_crash(text: str) -> None:
    record(text or " ")
