"""Answers change the record, the checks run again, and what was there first stays."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from dictate.errors import RecordError
from dictate.export.blockers import blockers
from dictate.pipeline import current
from dictate.record import corrections
from dictate.record.visit import Correction, Movement, Problem, Reading, Record
from dictate.review.answers import NotUnderstoodError, Reply, read_value
from dictate.review.desk import Desk, MovedOnError, Saved
from dictate.review.questions import questions
from tests.review.build import folder, freezer, two_machines


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    return Desk(folder(tmp_path / "v-quay", freezer(), with_sound=False), "A. Sample")


def answer(desk: Desk, action: str, key: str = "", **more: str) -> Saved:
    return desk.save(Reply(action, key, **more), desk.now().hash)


def key(desk: Desk, rule: str) -> str:
    return next(q.key for q in desk.now().questions if q.rule == rule)


def reading(record: Record, id: str) -> Reading:
    return next(r for r in record.readings if r.id == id)


def rules(desk: Desk) -> set[str | None]:
    return {q.rule for q in desk.now().questions}


def test_confirming_removes_the_reasons_and_keeps_the_value(desk: Desk) -> None:
    answer(desk, "confirm", "r2")
    after = reading(current(desk.folder), "r2")
    assert (after.value, after.review, after.heard) == (4.3, [], "four point three ohms")


def test_choosing_takes_the_other_value(desk: Desk) -> None:
    answer(desk, "choose", "m1", choice="0")
    moved = current(desk.folder).refrigerant[0]
    assert (moved.value, moved.unit, moved.review) == (2.375, "lb", [])


def test_a_typed_value_replaces_and_remembers(desk: Desk) -> None:
    saved = answer(desk, "type", "m1", text="two pounds six")
    record = current(desk.folder)
    assert (record.refrigerant[0].value, record.refrigerant[0].unit) == (2.375, "lb")
    assert saved.entry.text == "two pounds six"
    assert "2.6 oz" in (saved.entry.before or "")
    answer(desk, "type", target="r1", text="about 8.5")
    changed = reading(current(desk.folder), "r1")
    assert (changed.value, changed.relation, changed.unit) == (8.5, "~", "psi")
    assert changed.candidates[0].value == 9


def test_the_first_record_and_the_words_are_never_touched(desk: Desk) -> None:
    before = desk.file.read_bytes()
    answer(desk, "confirm", "r2")
    answer(desk, "type", "m1", text="2 lb 6 oz")
    answer(desk, "waive", key(desk, "purge.not-stated"), reason="nobody can tell any more")
    assert desk.file.read_bytes() == before
    record = current(desk.folder)
    assert record.visit.revision == 4
    assert [s.text for s in record.transcript] == [s.text for s in freezer().transcript]
    assert [c.by for c in record.corrections] == ["A. Sample"] * 3
    Record.model_validate(json.loads(record.model_dump_json(by_alias=True)))


def test_the_log_only_grows(desk: Desk) -> None:
    seen = b""
    for reply in (("confirm", "r2"), ("choose", "m1")):
        answer(desk, *reply, choice="0")
        now = desk.log.read_bytes()
        assert now.startswith(seen) and len(now) > len(seen)
        seen = now
    answer(desk, "take_back", target="x1")
    assert desk.log.read_bytes().startswith(seen)
    assert reading(current(desk.folder), "r2").review


def test_a_save_that_saw_another_record_is_refused(desk: Desk) -> None:
    shown = desk.now().hash
    answer(desk, "confirm", "r2")
    size = desk.log.stat().st_size
    with pytest.raises(MovedOnError, match="changed elsewhere"):
        desk.save(Reply("confirm", "m1"), shown)
    assert desk.log.stat().st_size == size
    other = Desk(desk.folder, "B. Other")
    other.save(Reply("confirm", "m1"), other.now().hash)
    assert not desk.now().record.refrigerant[0].review


def test_a_step_that_was_done_closes_its_gap(desk: Desk) -> None:
    assert "purge.not-stated" in rules(desk)
    answer(desk, "done", key(desk, "purge.not-stated"))
    assert "purge.not-stated" not in rules(desk)
    steps = [s.step for s in current(desk.folder).steps]
    assert steps.index("nitrogen_purged") < steps.index("evacuated")


def test_not_done_is_not_the_same_as_not_said(desk: Desk) -> None:
    answer(desk, "not_done", key(desk, "purge.not-stated"))
    record = current(desk.folder)
    check = next(c for c in record.checks if c.rule == "purge.not-stated")
    assert check.outcome == "problem"
    assert [s.status for s in record.steps if s.step == "nitrogen_purged"] == ["not_done"]


def test_a_waived_question_stays_in_view_and_blocks_nothing(desk: Desk) -> None:
    answer(desk, "waive", key(desk, "purge.not-stated"), reason="nobody can tell any more")
    assert "purge.not-stated" not in rules(desk)
    check = next(c for c in current(desk.folder).checks if c.rule == "purge.not-stated")
    assert check.outcome == "missing" and not check.blocking
    assert "nobody can tell any more (A. Sample" in (check.waived or "")
    for name in ("summary.txt", "record.html"):
        assert "nobody can tell any more" in (desk.folder / name).read_text(encoding="utf-8")


def test_a_waiver_without_a_reason_is_refused(desk: Desk) -> None:
    with pytest.raises(NotUnderstoodError, match="reason"):
        answer(desk, "waive", key(desk, "purge.not-stated"))


def test_a_finding_whose_numbers_changed_is_asked_again(desk: Desk) -> None:
    answer(desk, "type", target="r3", text="900 microns")
    deep = next(q for q in desk.now().questions if q.rule == "evacuation.too-shallow")
    answer(desk, "so", deep.key)
    assert "evacuation.too-shallow" not in rules(desk)
    answer(desk, "type", target="r3", text="1100 microns")
    assert "evacuation.too-shallow" in rules(desk)
    answer(desk, "type", target="r3", text="300 microns")
    assert "evacuation.too-shallow" not in rules(desk)
    test = current(desk.folder).tests[0]
    assert test.reached is not None and test.reached.value == 300


def test_everything_answered_lets_the_export_go(desk: Desk) -> None:
    assert blockers(current(desk.folder))
    answer(desk, "confirm", "r2")
    answer(desk, "choose", "m1", choice="0")
    for question in desk.now().questions:
        answer(desk, "waive", question.key, reason="not noted on the job")
    assert blockers(current(desk.folder)) == []
    assert desk.now().questions == []


def test_a_struck_reading_counts_no_more(desk: Desk) -> None:
    answer(desk, "strike", "r2")
    record = current(desk.folder)
    assert reading(record, "r2").role == "retracted"
    assert "r2" not in {q.key for q in questions(record)}


def test_fields_of_the_machine_close_its_question(desk: Desk) -> None:
    assert "equipment.identity-not-stated" in rules(desk)
    desk.save(Reply("fields", target="e1", fields={"model": "WF-20", "serial": "A100"}), desk.now().hash)
    assert "equipment.identity-not-stated" not in rules(desk)
    desk.save(Reply("fields", target="visit", fields={"customer": "Harbour Kitchen"}), desk.now().hash)
    assert current(desk.folder).visit.customer == "Harbour Kitchen"
    with pytest.raises(NotUnderstoodError, match="not a date"):
        desk.save(Reply("fields", target="visit", fields={"date": "soon"}), desk.now().hash)


def test_the_customer_can_see_it_off(desk: Desk) -> None:
    answer(desk, "acknowledge", text="R. Client")
    seen = current(desk.folder).acknowledgement
    assert seen is not None and seen.name == "R. Client" and seen.revision == 1


def test_which_machine_is_a_question_like_any_other(tmp_path: Path) -> None:
    desk = Desk(folder(tmp_path / "v", two_machines(), with_sound=False), "A. Sample")
    asked = [q for q in desk.now().questions if q.kind == "which machine"]
    assert [c.value for c in asked[0].choices] == ["e1", "e2"]
    while asked:
        answer(desk, "machine", asked[0].key, choice="e2")
        asked = [q for q in desk.now().questions if q.kind == "which machine"]
    record = current(desk.folder)
    assert {r.equipment for r in record.readings[3:]} == {"e2"}
    with pytest.raises(NotUnderstoodError):
        desk.save(Reply("machine", target="r1", choice="e9"), desk.now().hash)


def test_a_cut_off_last_line_never_counted(desk: Desk) -> None:
    answer(desk, "confirm", "r2")
    with desk.log.open("ab") as file:
        file.write(b'{"id":"x2","made_at":"2026')
    assert len(corrections.load(desk.log)) == 1
    answer(desk, "confirm", "m1")
    assert [c.id for c in corrections.load(desk.log)] == ["x1", "x2"]


def test_a_damaged_log_is_one_clear_error(desk: Desk) -> None:
    answer(desk, "confirm", "r2")
    desk.log.write_bytes(b"not json\n" + desk.log.read_bytes())
    with pytest.raises(RecordError, match=r"line 1 is no entry"):
        current(desk.folder)


def test_an_answer_follows_its_words_when_the_record_is_made_anew(desk: Desk) -> None:
    answer(desk, "type", "r2", text="4.4 ohm")
    answer(desk, "confirm", "m1")
    again = freezer()
    again.readings[1].id, again.readings[0].id = "r1", "r2"
    again.refrigerant = again.refrigerant[1:]
    folder(desk.folder, again, with_sound=False)
    record = current(desk.folder)
    assert reading(record, "r1").value == 4.4 and reading(record, "r2").value == 9
    assert "answer x2 of A. Sample" in record.problems[0].error
    lost = next(q for q in desk.now().questions if q.kind == "failed input")
    answer(desk, "take_back", lost.key)
    assert current(desk.folder).problems == []


OHM = Reading(quantity="resistance", unit="ohm", value=4.3)
PSI = Reading(quantity="pressure", unit="psi", value=20, reference="gauge")
SPLIT = Reading(quantity="temperature_difference", unit="delta_degF", value=12)
MOVED = Movement(direction="recovered", value=2.6, unit="oz")


@pytest.mark.parametrize(
    ("text", "item", "value", "unit"),
    [
        ("4.3 ohm", OHM, 4.3, "ohm"),
        ("4.3", OHM, 4.3, "ohm"),
        ("four point three ohms", OHM, 4.3, "ohm"),
        ("two pounds six", MOVED, 2.375, "lb"),
        ("2 lb 6 oz", MOVED, 2.375, "lb"),
        ("1.2 kg", MOVED, 1.2, "kg"),
        ("22", PSI, 22, "psi"),
        ("10 inches", PSI, 10, "inHg"),
        ("1.5 bar", PSI, 1.5, "bar"),
        ("14 degrees", SPLIT, 14, "delta_degF"),
        ("-4", SPLIT, -4, "delta_degF"),
    ],
)
def test_typed_values_are_read(text: str, item: Reading | Movement, value: float, unit: str) -> None:
    fields = read_value(text, item)
    assert (fields["value"], fields["unit"]) == (value, unit)


@pytest.mark.parametrize("text", ["", "plenty", "4.3 psi", "4 or 5 ohms", "six eight", "4.3 ohm 5", "OL psi"])
def test_typed_values_that_cannot_be_read_are_refused(text: str) -> None:
    with pytest.raises(NotUnderstoodError):
        read_value(text, OHM)


def test_open_is_a_value_of_a_resistance_only() -> None:
    assert read_value("OL", OHM) == {"state": "open", "value": None}
    with pytest.raises(NotUnderstoodError):
        read_value("open", PSI)


def test_a_withdrawn_withdrawal_counts_again() -> None:
    log = [
        Correction(id="x1", made_at="t", by="a", target="r1", action="confirm"),
        Correction(id="x2", made_at="t", by="a", target="x1", action="withdraw"),
        Correction(id="x3", made_at="t", by="a", target="x2", action="withdraw"),
    ]
    assert [e.id for e in corrections.active(log[:2])] == []
    assert [e.id for e in corrections.active(log)] == ["x1"]


def test_an_input_that_failed_can_be_set_aside_with_a_reason(tmp_path: Path) -> None:
    record = freezer()
    record.problems = [Problem(file="second.m4a", error="the file is cut off", advice="Copy it again.")]
    desk = Desk(folder(tmp_path / "v", record, with_sound=False), "A. Sample")
    assert any("second.m4a" in line for line in blockers(current(desk.folder)))
    question = next(q for q in desk.now().questions if q.kind == "failed input")
    answer(desk, "waive", question.key, reason="not noted on the job")
    after = current(desk.folder)
    assert not any("second.m4a" in line for line in blockers(after))
    assert "second.m4a" in (desk.folder / "summary.txt").read_text(encoding="utf-8")
    assert (
        after.problems[0].waived == f"not noted on the job (A. Sample, {after.corrections[0].made_at[:10]})"
    )


def test_every_kind_of_doubt_can_be_confirmed(tmp_path: Path) -> None:
    record = freezer()
    for item in (record.steps[0], record.parts[0], record.tests[0], record.equipment[0]):
        item.review = ["unsure"]
    assert record.labour is not None
    record.labour.review = ["two starts were said"]
    desk = Desk(folder(tmp_path / "v", record, with_sound=False), "A. Sample")
    for target in ("s1", "p1", "t1", "e1", "labour"):
        answer(desk, "confirm", target)
    assert {q.key for q in desk.now().questions if q.kind == "doubtful value"} == {"r2", "m1"}
