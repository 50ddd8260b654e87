"""The walk in a terminal, the list of visits, the pictures and the sound."""

from __future__ import annotations

from pathlib import Path

import httpx
import pytest
from click.testing import CliRunner

from dictate.cli.review import command
from dictate.errors import RecordError
from dictate.export.digest import digest
from dictate.ledger.store import Ledger
from dictate.ledger.work import enter
from dictate.pipeline import current
from dictate.record.base import At
from dictate.record.visit import Amount, Reading, Step
from dictate.review import pictures, sound
from dictate.review.answers import Reply
from dictate.review.desk import Desk
from dictate.review.shelf import Shelf, shelf_of
from dictate.review.view import src
from tests.review.build import folder, freezer, hostile
from tests.review.build import sound as write_sound
from tests.review.conftest import serving


def test_the_terminal_walks_through_the_questions(tmp_path: Path) -> None:
    place = folder(tmp_path / "v", freezer(), with_sound=False)
    keys = "4.4 ohm\n1\nplenty\nWF-20, serial A100\n\n\n\n\nd\nq\n"
    done = CliRunner().invoke(command, [str(place), "--terminal", "--by", "A. Sample"], input=keys)
    assert done.exit_code == 0, done.output
    assert 'heard: "four point three ohms"' in done.output
    assert "Not saved" in done.output and "Caution:" in done.output
    record = current(place)
    assert next(r for r in record.readings if r.id == "r2").value == 4.4
    assert record.refrigerant[0].unit == "lb"
    assert record.equipment[0].serial == "A100"
    assert {c.by for c in record.corrections} == {"A. Sample"}


def test_the_terminal_prints_no_steering_characters(tmp_path: Path) -> None:
    record = hostile()
    record.readings[1].heard = "four\x1b[2J point\x07 three"
    place = folder(tmp_path / "v", record, with_sound=False)
    done = CliRunner().invoke(command, [str(place), "--terminal", "--by", "A"], input="q\n")
    assert "\x1b" not in done.output and "\x07" not in done.output and "‮" not in done.output


@pytest.mark.parametrize("args", [["nowhere/v"], ["--terminal"]])
def test_a_visit_that_is_not_there_is_one_clear_error(
    args: list[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("DICTATE_LEDGER", str(tmp_path / "none"))
    done = CliRunner().invoke(command, [*args, "--by", "A"])
    assert isinstance(done.exception, RecordError)


def _in_ledger(place: Path) -> Path:
    with Ledger(place) as ledger:
        for n, name in enumerate(("v-one", "v-two", "v-three")):
            record = freezer()
            record.visit.id, record.visit.date = name, f"2026-03-0{n + 1}"
            if n == 2:
                record.checks, record.readings, record.refrigerant = [], [], []
            if n == 1:
                record.steps.append(Step(id="s90", step="part_replaced", status="planned", equipment="e1"))
            visit = folder(place / "visits" / name, record, with_sound=False)
            with ledger.change() as db:
                db.execute("INSERT INTO visit (key, stale) VALUES (?, 0)", (f"key-{name}",))
            enter(ledger, f"key-{name}", visit, record)
    return place


def test_the_ledgers_visits_are_listed_open_and_return_ones_apart(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    place = _in_ledger(tmp_path / "ledger")
    with (
        serving(shelf_of(str(place), "A. Sample")) as running,
        httpx.Client(base_url=running.base, cookies=running.cookies) as client,
    ):
        opened, back, every = (client.get(f"/?show={show}").text for show in ("open", "return", "all"))
        assert "v-one" in opened and "v-two" in opened and "v-three" not in opened
        assert "v-two" in back and "v-one" not in back
        assert "v-three" in every
        assert client.get("/v/v-two/").status_code == 200
        # An answer reaches the ledger, so that its list is right at once.
        desk = running.shelf.desk("v-one")
        assert desk is not None
        before = {r.slug: r.open for r in running.shelf.rows()}
        desk.save(Reply("confirm", "r2"), desk.now().hash)
        after = {r.slug: r.open for r in running.shelf.rows()}
        assert after["v-one"] == before["v-one"] - 1
    monkeypatch.setenv("DICTATE_LEDGER", str(place))
    assert shelf_of(None, "A").only() is not None
    assert shelf_of("v-two", "A").only() == "v-two"


def test_a_folder_of_visits_is_a_list(tmp_path: Path) -> None:
    for name in ("v-a", "v-b"):
        folder(tmp_path / name, freezer(), with_sound=False)
    (tmp_path / "v-c").mkdir()
    (tmp_path / "v-c" / "record.json").write_text("{}", encoding="utf-8")
    rows = {r.slug: r for r in shelf_of(str(tmp_path), "A").rows()}
    assert rows["v-a"].open > 0 and rows["v-a"].blocking == 2
    assert "not a valid record" in (rows["v-c"].broken or "")
    with pytest.raises(RecordError):
        shelf_of(str(tmp_path / "v-a" / "sound"), "A")


def test_names_of_folders_never_become_paths(tmp_path: Path) -> None:
    odd = folder(tmp_path / "a b%2f..'<x>", freezer(), with_sound=False)
    shelf = Shelf("A", [odd])
    slug = shelf.only()
    assert slug is not None and slug.startswith("v-") and slug.isascii()
    assert shelf.desk("../etc") is None


def test_the_vacuum_curve_says_what_it_shows() -> None:
    record = freezer()
    record.readings.append(
        Reading(id="r9", equipment="e1", quantity="vacuum", value=620, unit="micron", at=At())
    )
    record.readings.append(
        Reading(id="r10", equipment="e1", quantity="vacuum", value=400, unit="micron", role="target")
    )
    test = record.tests[0]
    test.readings, test.end, test.minutes, test.result = (
        ["r3", "r9"],
        Amount(value=620, unit="micron"),
        10,
        "failed",
    )
    figure = pictures.vacuums(record, digest(record).machines[0])[0]
    assert figure.words[0] == "Deepest 480 micron; at most 400 is asked for."
    assert "480 to 620 micron after 10 minutes" in figure.words[1]
    assert "target 400" in figure.svg and "hold, 10 min" in figure.svg and "style=" not in figure.svg


def test_before_and_after_take_the_same_thing_measured_twice() -> None:
    shown = pictures.shifts(digest(freezer()).machines[0])
    assert [(s.what, s.found.value, s.left.value) for s in shown] == [("suction pressure", 9, 15)]


def test_the_timeline_follows_the_sound_and_escapes_words() -> None:
    record = hostile()
    record.refrigerant[1].refrigerant = "<script>"
    marks = pictures.marks(digest(record))
    assert [m.at.start_s for m in marks] == sorted(m.at.start_s or 0 for m in marks)
    drawn = pictures.timeline(record, marks)
    assert drawn is not None and "<script>" not in drawn and drawn.count("<circle") == len(marks)
    record.clips[0].duration_s = None
    assert pictures.timeline(record, marks) is None


def test_spans_are_media_fragments() -> None:
    # W3C Media Fragments URI 1.0 (basic), 4.2.1: t=start,end in seconds.
    assert src(At(clip="c1", start_s=312.4, end_s=319.8)) == "sound/c1.wav#t=312.4,319.8"
    assert src(At(clip="c1")) == ""


def test_peaks_are_measured_once(tmp_path: Path) -> None:
    write_sound(tmp_path / "sound" / "c1.wav", 20)
    first = sound.peaks(tmp_path, "c1")
    assert len(first) == 400 and max(first) == 100
    # A beep in the first third of every second: the rest is quiet.
    assert sum(p > 90 for p in first) == pytest.approx(400 / 3, rel=0.25)
    (tmp_path / "sound" / "c1.wav").unlink()
    write_sound(tmp_path / "sound" / "c1.wav", 1)
    assert sound.peaks(tmp_path, "c1") == first
    (tmp_path / "sound" / "c2.wav").write_bytes(b"not a wave file")
    assert sound.peaks(tmp_path, "c2") == [] and sound.peaks(tmp_path, "../c2") == []


def test_a_full_disk_or_a_locked_folder_is_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    desk = Desk(folder(tmp_path / "v", freezer(), with_sound=False), "A")
    shown = desk.now().hash
    import errno

    from dictate.errors import OutputError

    def full(*_: object, **__: object) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr("os.fsync", full)
    with pytest.raises(OutputError, match="cannot be written"):
        desk.save(Reply("confirm", "r2"), shown)
