"""Typed and spoken answers are read and checked as speech is."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

from dictate.cli.note import command as note
from dictate.pipeline import current, read
from dictate.record.visit import Clip
from dictate.review.answers import NotUnderstoodError, Reply, login
from dictate.review.desk import Desk, Saved
from tests.review.build import folder, segments

ONE = [
    "Walk-in freezer, R-404A.",
    "Low suction, nine psi.",
    "Pulled the disconnect and checked it dead with the meter.",
    "Recovered the charge.",
    "Brazed in a new filter drier.",
    "Pulled a vacuum down to 480 microns.",
    "Charged 18 pounds.",
    "Put the power back on, running now, suction is fifteen psi.",
]
TWO = [
    "Walk-in freezer, R-404A.",
    "Brazed in a new drier with nitrogen flowing.",
    "Pulled a vacuum to 450 microns. Charged five pounds two ounces.",
    "Then the ice machine.",
    "Replaced the run capacitor on the condenser fan motor, power off and discharged.",
    "Fan runs at one point two amps now.",
]


def desk_of(tmp_path: Path, texts: list[str]) -> Desk:
    clip = Clip(id="c1", file="freezer.m4a", sha256="ab" * 32, duration_s=4.0 * len(texts))
    return Desk(folder(tmp_path / "v", read([clip], segments(texts)), with_sound=False), "A. Sample")


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    return desk_of(tmp_path, ONE)


def answer(desk: Desk, rule: str | None, text: str) -> Saved:
    state = desk.now()
    key = next(q.key for q in state.questions if q.rule == rule) if rule else ""
    return desk.save(Reply("type", key, text=text), state.hash)


@pytest.mark.parametrize("text", ["two pounds six", "2 lb 6 oz", "Recovered two pounds six ounces."])
def test_a_short_answer_closes_a_gap(desk: Desk, text: str) -> None:
    saved = answer(desk, "recovery.amount-not-stated", text)
    assert "recovery.amount-not-stated" in [q.rule for q in saved.closed]
    moved = [m for m in current(desk.folder).refrigerant if m.direction == "recovered"]
    assert [(m.value, m.unit, m.equipment) for m in moved] == [(2.375, "lb", "e1")]


@pytest.mark.parametrize(
    "text",
    [
        "620 after ten minutes",
        "hold test was six twenty after ten minutes",
        "Valved it off, 620 microns after 10 minutes",
    ],
)
def test_a_hold_joins_its_evacuation(desk: Desk, text: str) -> None:
    saved = answer(desk, "evacuation.hold-not-stated", text)
    assert "evacuation.hold-not-stated" in [q.rule for q in saved.closed]
    tests = [t for t in current(desk.folder).tests if t.kind == "evacuation"]
    assert len(tests) == 1
    assert tests[0].reached is not None and tests[0].reached.value == 480
    assert tests[0].end is not None and tests[0].end.value == 620 and tests[0].minutes == 10


def test_model_and_serial(desk: Desk) -> None:
    answer(desk, "equipment.identity-not-stated", "WF-20, serial A100")
    machine = current(desk.folder).equipment[0]
    assert (machine.model, machine.serial) == ("WF-20", "A100")


@pytest.mark.parametrize(
    ("text", "status"), [("yes", "done"), ("No.", "not_done"), ("nitrogen was flowing", "done")]
)
def test_yes_and_no_are_about_the_step(desk: Desk, text: str, status: str) -> None:
    answer(desk, "purge.not-stated", text)
    assert [s.status for s in current(desk.folder).steps if s.step == "nitrogen_purged"] == [status]


def test_an_answer_about_one_test_is_not_taken_for_another(desk: Desk) -> None:
    answer(desk, "pressure-test.not-stated", "150 psi with nitrogen for twenty minutes and it held")
    record = current(desk.folder)
    steps = [s.step for s in record.steps]
    assert "pressure_tested" in steps and "vacuum_held" not in steps
    # The test stands before the charge, where the question arose: no rule may say that it came too late.
    assert not [c for c in record.checks if c.rule == "pressure-test.after-charge" and c.outcome == "problem"]


def test_what_was_there_keeps_its_id_value_and_place(desk: Desk) -> None:
    before = desk.now().record
    answer(desk, "recovery.amount-not-stated", "two pounds six")
    answer(desk, "evacuation.hold-not-stated", "620 after ten minutes")
    after = current(desk.folder)
    for reading in before.readings:
        same = next(r for r in after.readings if r.id == reading.id)
        assert same.model_dump(exclude={"at", "stage"}) == reading.model_dump(exclude={"at", "stage"})
        assert after.transcript[same.at.segment or 0].text == before.transcript[reading.at.segment or 0].text
    said = [s.text for s in after.transcript if s.clip == "c1"]
    assert said == ONE
    ids = [i.id for kind in (after.readings, after.steps, after.refrigerant) for i in kind]
    assert len(ids) == len(set(ids))
    known = {r.id for r in after.readings}
    assert all(set(t.readings) <= known for t in after.tests)


def test_taking_an_answer_back_restores_the_record(desk: Desk) -> None:
    before = desk.now().record
    answer(desk, "evacuation.hold-not-stated", "620 after ten minutes")
    desk.save(Reply("take_back", target="x1"), desk.now().hash)
    after = current(desk.folder)
    for name in ("transcript", "clips", "readings", "steps", "tests", "refrigerant", "equipment", "checks"):
        assert getattr(after, name) == getattr(before, name), name


def test_words_that_say_nothing_are_refused(desk: Desk) -> None:
    for rule in (None, "recovery.amount-not-stated"):
        with pytest.raises(NotUnderstoodError, match="no value and no step"):
            answer(desk, rule, "tra la la")
    assert not desk.log.exists()


def test_a_doubtful_answer_is_a_question_again(desk: Desk) -> None:
    saved = answer(desk, None, "Recovered 2 pounds for ounces.")
    assert saved.entry.action == "answer"
    assert any(r.review for r in current(desk.folder).readings) or any(
        m.review for m in current(desk.folder).refrigerant
    )


def test_a_spoken_answer_finds_its_machine_and_question(tmp_path: Path) -> None:
    desk = desk_of(tmp_path, TWO)
    clip = Clip(id="c1", file="answer.m4a", sha256="cd" * 32, duration_s=4.0)
    entry = desk.say(clip, segments(["Hold test was six twenty after ten minutes."]))
    record = current(desk.folder)
    assert entry.rule == "evacuation.hold-not-stated" and entry.clip is not None and entry.clip.id == "a1"
    new = next(r for r in record.readings if r.quantity == "vacuum" and r.value == 620)
    assert new.equipment == record.equipment[0].id and new.at.clip == "a1" and new.at.start_s is not None
    assert "evacuation.hold-not-stated" not in {q.rule for q in desk.now().questions}


def test_an_answer_that_two_machines_could_own_asks_which(tmp_path: Path) -> None:
    desk = desk_of(tmp_path, TWO)
    answer(desk, None, "Voltage at the contactor was two thirty eight.")
    record = current(desk.folder)
    assert next(r for r in record.readings if r.value == 238).equipment is None
    asked = [q for q in desk.now().questions if q.kind == "which machine"]
    assert asked
    desk.save(Reply("machine", asked[0].key, choice="e2"), desk.now().hash)
    assert next(r for r in current(desk.folder).readings if r.value == 238).equipment == "e2"


def test_an_answer_given_for_a_machine_belongs_to_it(tmp_path: Path) -> None:
    desk = desk_of(tmp_path, TWO)
    desk.save(Reply("type", text="Suction is twenty psi.", equipment="e1"), desk.now().hash)
    assert next(r for r in current(desk.folder).readings if r.value == 20).equipment == "e1"


def test_note_adds_an_answer_to_a_visit(desk: Desk, tmp_path: Path) -> None:
    heard = tmp_path / "answer.txt"
    heard.write_text("Recovered two pounds six ounces.\n", encoding="utf-8")
    done = CliRunner().invoke(note, ["--add-to", str(desk.folder), "--by", "B. Other", "-q", str(heard)])
    assert done.exit_code == 0, done.output
    record = current(desk.folder)
    assert [c.by for c in record.corrections] == ["B. Other"]
    assert any(m.value == 2.375 for m in record.refrigerant)
    assert "2.375 lb" in (desk.folder / "summary.txt").read_text(encoding="utf-8")


def test_a_name_is_needed_and_short() -> None:
    assert login("  A.   Sample ") == "A. Sample"
    assert login(None)
    with pytest.raises(Exception, match="longer than 80"):
        login("x" * 81)
