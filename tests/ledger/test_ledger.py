"""Nothing lost, nothing done twice: the store, the scanner and the workers under faults."""

import os
import random
import shutil
import signal
import sqlite3
import subprocess
import sys
import time
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from dictate.errors import OutputError, RecordError, UsageError
from dictate.ledger import find_visit, retention, scan, search, store
from dictate.ledger.doctor import examine
from dictate.ledger.store import Ledger
from dictate.ledger.watch import Reaper, Watcher
from dictate.ledger.work import Heard, do_clip, enter, gather, stored, write_up
from dictate.record.visit import Equipment, Movement, PlateValue, Record, Visit
from dictate.settings import Settings, Watching
from tests.ledger.fakes import Fake, wav

ROOT = Path(__file__).parents[2]


def settings(**rules) -> Settings:
    return Settings(watch=Watching(**{"poll_seconds": 0.05, **rules}))


def watcher(
    tmp_path: Path, workers: int = 1, fake: Fake | None = None, said: list[str] | None = None, **rules
) -> Watcher:
    (tmp_path / "in").mkdir(exist_ok=True)
    say = said.append if said is not None else lambda _: None
    return Watcher(tmp_path / "in", tmp_path / "ledger", settings(**rules), fake or Fake(), workers, say)


def states(tmp_path: Path) -> dict[str, int]:
    with Ledger(tmp_path / "ledger") as ledger:
        return {k: v for k, v in ledger.count().items() if v}


def take_all(made: Watcher) -> int:
    """Look until every file has come to rest."""
    return sum(made.look() for _ in range(3))


def heard_names(log: Path) -> list[str]:
    return log.read_text(encoding="utf-8").split() if log.exists() else []


def do_here(made: Watcher) -> None:
    """Do the waiting clips in this process, then write the visits up."""
    while (clip := made.ledger.claim("here:1")) is not None:
        do_clip(made.ledger, clip, "here:1", made.make())
    for visit in made.ledger.ready_visits():
        write_up(made.ledger, visit, made.settings)


# -- the whole way ------------------------------------------------------------------------------------


def test_a_folder_of_recordings_becomes_visits(tmp_path: Path) -> None:
    log = tmp_path / "log"
    for n in range(6):
        wav(tmp_path / "in" / f"visit{n // 3}" / f"{n}.wav", n)
    made = watcher(tmp_path, workers=2, fake=Fake(str(log)))
    made.run(once=True)
    assert states(tmp_path) == {"done": 6}
    assert sorted(heard_names(log)) == [f"{n}.wav" for n in range(6)]
    with Ledger(tmp_path / "ledger") as ledger:
        rows = ledger.visits()
        assert {r["key"] for r in rows} == {"folder:visit0", "folder:visit1"}
        record = find_visit(rows[0]["id"], tmp_path / "ledger")
    assert [c.id for c in record.clips] == ["c1", "c2", "c3"]
    assert {s.clip for s in record.transcript} == {"c1", "c2", "c3"}
    assert all((tmp_path / "in" / "visit0" / f"{n}.wav").exists() for n in range(3))


def test_a_second_run_does_nothing_again(tmp_path: Path) -> None:
    log = tmp_path / "log"
    wav(tmp_path / "in" / "a.wav", 1)
    for _ in range(2):
        watcher(tmp_path, fake=Fake(str(log))).run(once=True)
    assert heard_names(log) == ["a.wav"]


def test_the_ledger_may_not_lie_in_the_watched_folder(tmp_path: Path) -> None:
    (tmp_path / "in").mkdir()
    with pytest.raises(UsageError):
        Watcher(tmp_path / "in", tmp_path / "in" / "ledger", settings(), Fake())


# -- which file is ready ------------------------------------------------------------------------------


def test_a_growing_file_waits(tmp_path: Path) -> None:
    whole = wav(tmp_path / "whole.wav", 1, seconds=2).read_bytes()
    made = watcher(tmp_path)
    target = tmp_path / "in" / "a.wav"
    for part in (100, 5000, 9000):
        target.write_bytes(whole[:part])
        assert made.look() == 0
    # It rests now, but its header promises more than is there.
    assert [made.look() for _ in range(4)] == [0, 0, 0, 0]
    target.write_bytes(whole)
    assert take_all(made) == 1


@pytest.mark.parametrize(
    "name", [".a.wav", "~a.wav", "a.wav.part", "a.tmp", "a.crdownload", "notes.docx", "._a.wav"]
)
def test_temporary_and_other_names_are_left_alone(tmp_path: Path, name: str) -> None:
    made = watcher(tmp_path)
    shutil.copy(wav(tmp_path / "x.wav", 1), tmp_path / "in" / name)
    assert take_all(made) == 0


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="only Linux tells who writes a file")
def test_a_file_that_is_still_open_for_writing_waits(tmp_path: Path) -> None:
    path = wav(tmp_path / "a.wav", 1)
    with path.open("ab"):
        assert scan.being_written(path)
    assert not scan.being_written(path)


def test_a_file_that_stays_incomplete_is_taken_in_and_says_so(tmp_path: Path, monkeypatch) -> None:
    monkeypatch.setattr(scan, "PATIENCE", 4)
    made = watcher(tmp_path)
    (tmp_path / "in" / "a.m4a").write_bytes(b"no recording at all")
    assert sum(made.look() for _ in range(7)) == 1


@pytest.mark.parametrize(
    ("rule", "names", "visits"),
    [
        ("folder", ["a/1.wav", "a/2.wav", "b/1.wav", "3.wav"], 3),
        ("prefix", ["a_1.wav", "a_2.wav", "b_1.wav"], 2),
        ("each", ["a/1.wav", "a/2.wav"], 2),
    ],
)
def test_grouping(tmp_path: Path, rule: str, names: list[str], visits: int) -> None:
    made = watcher(tmp_path, group=rule)
    for n, name in enumerate(names):
        wav(tmp_path / "in" / name, n)
    take_all(made)
    assert len({c.visit for c in made.ledger.clips()}) == visits


def test_grouping_by_a_gap_in_time(tmp_path: Path) -> None:
    made = watcher(tmp_path, group="gap", gap_minutes=30)
    begin = datetime(2026, 3, 4, 9, 0, tzinfo=UTC).timestamp()
    for n, minutes in enumerate((0, 20, 45, 300)):
        path = wav(tmp_path / "in" / f"{n}.wav", n)
        os.utime(path, (begin + minutes * 60, begin + minutes * 60))
    take_all(made)
    groups = [c.visit for c in sorted(made.ledger.clips(), key=lambda c: c.path.name)]
    assert groups[0] == groups[1] == groups[2] != groups[3]


def test_a_clip_can_be_put_into_another_visit(tmp_path: Path) -> None:
    made = watcher(tmp_path)
    for n in range(2):
        wav(tmp_path / "in" / f"v{n}" / "a.wav", n)
    take_all(made)
    do_here(made)
    clip = made.ledger.clips("folder:v1")[0]
    made.ledger.move(clip.sha256, "folder:v0")
    do_here(made)
    assert len(gather(made.ledger, "folder:v0").clips) == 2
    row = next(r for r in made.ledger.visits() if r["key"] == "folder:v0")
    assert row["revision"] == 2
    with pytest.raises(RecordError):
        made.ledger.move("nothing", "folder:v0")


# -- the same file again ------------------------------------------------------------------------------


def test_dropped_twice_is_one_clip(tmp_path: Path) -> None:
    made = watcher(tmp_path)
    path = wav(tmp_path / "in" / "a.wav", 1)
    shutil.copy(path, tmp_path / "in" / "copy.wav")
    assert take_all(made) == 1


def test_renamed_is_the_same_clip(tmp_path: Path) -> None:
    made = watcher(tmp_path)
    path = wav(tmp_path / "in" / "a.wav", 1)
    take_all(made)
    do_here(made)
    path.rename(tmp_path / "in" / "b.wav")
    assert take_all(made) == 0
    assert made.ledger.clips()[0].path.name == "b.wav"
    assert made.ledger.count()["done"] == 1


def test_replaced_by_a_longer_copy_is_heard_again(tmp_path: Path) -> None:
    made = watcher(tmp_path)
    wav(tmp_path / "in" / "v" / "a.wav", 1)
    take_all(made)
    do_here(made)
    wav(tmp_path / "in" / "v" / "a.wav", 1, seconds=3)
    assert take_all(made) == 1
    do_here(made)
    assert len(made.ledger.clips()) == 1
    assert len(gather(made.ledger, "folder:v").clips) == 1


# -- faults -------------------------------------------------------------------------------------------


def test_a_failed_input_is_named_and_the_others_finish(tmp_path: Path) -> None:
    made = watcher(tmp_path)
    wav(tmp_path / "in" / "v" / "broken.wav", 1)
    wav(tmp_path / "in" / "v" / "good.wav", 2)
    take_all(made)
    do_here(made)
    record = find_visit(made.ledger.visits()[0]["id"], tmp_path / "ledger")
    assert [Path(p.file).name for p in record.problems] == ["broken.wav"]
    assert len(record.clips) == 1
    assert made.ledger.retry() == 1
    assert made.ledger.count()["waiting"] == 1


def test_a_poison_recording_is_isolated_and_the_others_finish(tmp_path: Path) -> None:
    said: list[str] = []
    wav(tmp_path / "in" / "v" / "poison.wav", 1)
    for n in range(3):
        wav(tmp_path / "in" / f"w{n}" / "a.wav", 10 + n)
    watcher(tmp_path, workers=2, said=said, tries=2).run(once=True)
    assert states(tmp_path) == {"done": 3, "isolated": 1}
    assert sum("worker died" in line for line in said) == 2


def test_workers_killed_at_random_points_lose_nothing(tmp_path: Path) -> None:
    log, rng = tmp_path / "log", random.Random(4)
    count = 0

    def drop(clips: int) -> None:
        nonlocal count
        for _ in range(clips):
            wav(tmp_path / "in" / f"v{count}" / "a.wav", count)
            count += 1

    drop(6)
    made = watcher(tmp_path, workers=2, fake=Fake(str(log), seconds=0.05), tries=100)
    kills, end = 0, time.monotonic() + 90
    while time.monotonic() < end:
        made.look()
        made.tend()
        if kills < 10 and made._processes and rng.random() < 0.5:
            victim = rng.choice(made._processes)
            if victim.pid:
                os.kill(victim.pid, signal.SIGKILL)
                kills += 1
                drop(2)  # so that there is work left for the next one
        elif kills < 10 and made.idle() and not made.scanner.waiting():
            drop(2)
        if kills == 10 and made.idle() and not made.scanner.waiting():
            break
        time.sleep(rng.uniform(0.02, 0.2))
    made.close()
    assert kills == 10
    assert states(tmp_path) == {"done": count}
    with Ledger(tmp_path / "ledger") as ledger:
        assert len([v for v in ledger.visits() if v["id"]]) == count
        assert all(stored(ledger.result_path(c.sha256)) for c in ledger.clips())


def test_closing_after_a_waiting_worker_was_killed_does_not_hang(tmp_path: Path) -> None:
    wav(tmp_path / "in" / "a.wav", 1)
    made = watcher(tmp_path, workers=2, poll_seconds=0.3)
    end = time.monotonic() + 30
    while time.monotonic() < end and not (made._processes and states(tmp_path) == {"done": 1}):
        made.look()
        made.tend()
        time.sleep(0.05)
    time.sleep(0.5)  # the worker waits for more
    for process in made._processes:
        os.kill(process.pid, signal.SIGKILL)
    began = time.monotonic()
    made.close()
    assert time.monotonic() - began < 20


WATCH = """
import sys
from pathlib import Path
from dictate.ledger.watch import Watcher
from dictate.settings import Settings, Watching
from tests.ledger.fakes import Fake
if __name__ == "__main__":
    base = Path(sys.argv[1])
    rules = Settings(watch=Watching(poll_seconds=0.05, tries=50))
    Watcher(base / "in", base / "ledger", rules, Fake(str(base / "log"), 0.03), 2).run(once=True)
"""


def test_the_watcher_killed_again_and_again_loses_nothing(tmp_path: Path) -> None:
    for n in range(20):
        wav(tmp_path / "in" / f"v{n % 5}" / f"{n}.wav", n)
    script = tmp_path / "watch.py"
    script.write_text(WATCH)
    env = {**os.environ, "PYTHONPATH": str(ROOT)}
    for seconds in (1.2, 1.6, 2.0):
        process = subprocess.Popen([sys.executable, str(script), str(tmp_path)], env=env, cwd=ROOT)
        time.sleep(seconds)
        process.kill()
        process.wait()
    subprocess.run([sys.executable, str(script), str(tmp_path)], env=env, cwd=ROOT, check=True, timeout=120)
    assert states(tmp_path) == {"done": 20}
    with Ledger(tmp_path / "ledger") as ledger:
        assert len([v for v in ledger.visits() if v["id"] and not v["stale"]]) == 5


def test_a_silent_worker_loses_its_clip_after_a_lease(tmp_path: Path) -> None:
    made = watcher(tmp_path)
    wav(tmp_path / "in" / "a.wav", 1)
    take_all(made)
    clip = made.ledger.claim("elsewhere:1")
    assert clip is not None
    reaper = Reaper(made.ledger, tries=3, lease_s=0.2)
    assert reaper.look() == []
    time.sleep(0.15)
    made.ledger.beat(clip.sha256, "elsewhere:1")
    assert reaper.look() == []  # it beats: it lives
    time.sleep(0.25)
    assert reaper.look() == [clip.sha256]
    assert made.ledger.beat(clip.sha256, "elsewhere:1") is False


def test_a_clock_that_is_set_back_changes_nothing(tmp_path: Path, monkeypatch) -> None:
    made = watcher(tmp_path)
    wav(tmp_path / "in" / "a" / "1.wav", 1)
    take_all(made)
    past = (datetime.now(UTC) - timedelta(days=4000)).isoformat()
    monkeypatch.setattr(store, "now", lambda: past)
    wav(tmp_path / "in" / "b" / "1.wav", 2)
    take_all(made)
    clip = made.ledger.claim("here:1")
    assert clip is not None
    assert Reaper(made.ledger, 3).look() == []
    made.ledger.hand_back(clip.sha256, "here:1")
    do_here(made)
    assert made.ledger.count()["done"] == 2


def test_a_full_disk_loses_nothing(tmp_path: Path, monkeypatch) -> None:
    import errno

    made = watcher(tmp_path)
    wav(tmp_path / "in" / "a.wav", 1)
    take_all(made)
    clip = made.ledger.claim("here:1")
    assert clip is not None
    real = os.fsync

    def full(_: int) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OutputError, match="disk is full"):
        do_clip(made.ledger, clip, "here:1", Fake().hear)
    monkeypatch.setattr(os, "fsync", real)
    again = made.ledger.claim("here:1")
    assert again is not None
    assert again.tries == 0
    made.ledger.hand_back(again.sha256, "here:1")
    assert not list((tmp_path / "ledger" / "results").rglob("*.json*"))
    do_here(made)
    assert made.ledger.count()["done"] == 1


def test_a_folder_that_goes_and_comes_back(tmp_path: Path) -> None:
    said: list[str] = []
    made = watcher(tmp_path, said=said)
    wav(tmp_path / "in" / "a.wav", 1)
    (tmp_path / "in").rename(tmp_path / "away")
    assert made.look() == 0
    assert "not there" in said[-1]
    (tmp_path / "away").rename(tmp_path / "in")
    assert take_all(made) == 1


def test_a_folder_that_cannot_be_written_is_one_clear_error() -> None:
    with pytest.raises((OutputError, RecordError)) as error:
        Ledger(Path("/proc/no-such-place"))
    assert "\n" not in str(error.value)


def test_a_locked_ledger_is_one_clear_error(tmp_path: Path, monkeypatch) -> None:
    monkeypatch.setattr(store, "BUSY_SECONDS", 0.1)
    with Ledger(tmp_path) as ledger:
        other = sqlite3.connect(tmp_path / store.FILE)
        other.execute("BEGIN EXCLUSIVE")
        with pytest.raises(RecordError, match="held by another"):
            ledger.claim("here:1")
        other.rollback()
        assert ledger.claim("here:1") is None


def test_a_truncated_ledger_is_one_clear_error(tmp_path: Path) -> None:
    with Ledger(tmp_path) as ledger:
        ledger.backup(tmp_path / "copy.sqlite3")
    file = tmp_path / store.FILE
    for beside in tmp_path.glob(f"{store.FILE}-*"):
        beside.unlink()
    file.write_bytes(file.read_bytes()[:5000])
    with pytest.raises(RecordError, match=r"cannot be used.*dictate backup"), Ledger(tmp_path) as ledger:
        ledger.visits()
        ledger.count()
        ledger.claim("here:1")
    shutil.copy(tmp_path / "copy.sqlite3", file)
    with Ledger(tmp_path) as ledger:
        assert ledger.visits() == []


def test_a_newer_ledger_is_refused_untouched(tmp_path: Path) -> None:
    with Ledger(tmp_path) as ledger:
        ledger.db.execute(f"PRAGMA user_version = {store.VERSION + 1}")
    with pytest.raises(RecordError, match="newer program"):
        Ledger(tmp_path)


def test_an_older_ledger_is_copied_and_brought_forward(tmp_path: Path, monkeypatch) -> None:
    with Ledger(tmp_path) as ledger:
        ledger.add(tmp_path / "a.wav", "0" * 64, 1, 1, "v", "p")
    monkeypatch.setattr(store, "VERSION", store.VERSION + 1)
    monkeypatch.setattr(store, "_MIGRATIONS", {store.VERSION - 1: "ALTER TABLE clip ADD COLUMN note TEXT"})
    with Ledger(tmp_path) as ledger:
        assert ledger.db.execute("SELECT note FROM clip").fetchall()[0]["note"] is None
    copies = list(tmp_path.glob("ledger-before-version-*.sqlite3"))
    assert len(copies) == 1
    assert sqlite3.connect(copies[0]).execute("SELECT count(*) FROM clip").fetchone() == (1,)


def test_backup_while_in_use(tmp_path: Path) -> None:
    with Ledger(tmp_path / "l") as ledger:
        ledger.add(tmp_path / "a.wav", "0" * 64, 1, 1, "v", "p")
        with ledger.change() as db:
            db.execute("UPDATE clip SET tries = 1")
            with Ledger(tmp_path / "l") as other:
                other.backup(tmp_path / "copy" / "b.sqlite3")
    assert sqlite3.connect(tmp_path / "copy" / "b.sqlite3").execute("SELECT tries FROM clip").fetchone() == (
        0,
    )


# -- mending, forgetting, asking ----------------------------------------------------------------------


def test_doctor_finds_and_mends_a_lost_result(tmp_path: Path) -> None:
    made = watcher(tmp_path)
    wav(tmp_path / "in" / "a.wav", 1)
    take_all(made)
    do_here(made)
    clip = made.ledger.clips()[0]
    made.ledger.result_path(clip.sha256).write_text("{")
    (tmp_path / "ledger" / "results" / "stray.json").write_text("x")
    wrong = {f.name for f in examine(tmp_path / "ledger") if not f.ok}
    assert {"result", "orphans"} <= wrong
    list(examine(tmp_path / "ledger", mend=True))
    do_here(made)
    assert {f.name for f in examine(tmp_path / "ledger") if not f.ok} <= {"model", "free space"}


def test_doctor_notices_a_record_changed_by_hand(tmp_path: Path) -> None:
    made = watcher(tmp_path)
    wav(tmp_path / "in" / "a.wav", 1)
    take_all(made)
    do_here(made)
    path = Path(made.ledger.visits()[0]["folder"]) / "record.json"
    path.write_text(path.read_text().replace("twenty two", "twenty nine"))
    assert any(f.name == "record" and not f.ok for f in examine(tmp_path / "ledger"))


def test_sound_is_deleted_when_due_and_the_record_stays(tmp_path: Path) -> None:
    made = watcher(tmp_path)
    path = wav(tmp_path / "in" / "a.wav", 1)
    changed = wav(tmp_path / "in" / "b.wav", 2)
    take_all(made)
    do_here(made)
    changed.write_bytes(b"something else")
    assert retention.delete_sound(made.ledger, 30) == []
    later = datetime.now(UTC) + timedelta(days=31)
    assert retention.delete_sound(made.ledger, 30, later) == [path.resolve()]
    assert changed.exists()
    assert find_visit(made.ledger.visits()[0]["id"], tmp_path / "ledger").clips[0].sha256
    assert take_all(made) == 0 or made.ledger.count()["done"] >= 1


def visit(id: str, day: str, grams: float, direction: str = "charged", **more) -> Record:
    return Record(
        visit=Visit(id=id, date=day, customer="Harbour Kitchen"),
        equipment=[Equipment(id="e1", name="walk-in", serial="A100", refrigerant="R-404A",
                             plate=[PlateValue(quantity="mass", value=40, unit="lb")])],
        refrigerant=[Movement(id="m1", equipment="e1", direction=direction, refrigerant="R-404A", value=grams, unit="lb")],
        **more,
    )  # fmt: skip


def entered(ledger: Ledger, record: Record) -> None:
    with ledger.change() as db:
        db.execute("INSERT INTO visit (key) VALUES (?)", (record.visit.id,))
    enter(ledger, record.visit.id, ledger.folder, record)


def test_search_and_totals(tmp_path: Path) -> None:
    with Ledger(tmp_path) as ledger:
        entered(ledger, visit("v-1", "2026-03-01", 2.0, "recovered"))
        entered(ledger, visit("v-2", "2026-05-01", 3.5))
        assert [v["id"] for v in search.visits(ledger, search.Wanted(machine="A100"))] == ["v-2", "v-1"]
        assert [v["id"] for v in search.visits(ledger, search.Wanted(since="2026-04-01"))] == ["v-2"]
        assert search.visits(ledger, search.Wanted(refrigerant="R-22")) == []
        assert search.visits(ledger, search.Wanted(words="x' OR 1=1 --")) == []
        with pytest.raises(RecordError):
            search.visits(ledger, search.Wanted(since="yesterday"))
        rows = {(t["refrigerant"], t["direction"]): t["grams"] for t in search.totals(ledger)}
    # 1 lb = 453.59237 g (international avoirdupois pound).
    assert rows[("R-404A", "charged")] == pytest.approx(3.5 * 453.59237)
    assert rows[("R-404A", "recovered")] == pytest.approx(2 * 453.59237)


def test_leak_rate_by_the_annualising_formula(tmp_path: Path) -> None:
    # 40 CFR 84.102 "leak rate", annualising method: 6 lb of 40 lb after 92 days = 59.5 %.
    with Ledger(tmp_path) as ledger:
        entered(ledger, visit("v-1", "2026-02-01", 1.0))
        entered(ledger, visit("v-2", "2026-05-04", 6.0))
        (rate,) = search.leak_rates(ledger)
    assert rate.days == 92
    assert rate.percent == pytest.approx(59.5, abs=0.05)


def test_the_first_calculation_takes_a_year(tmp_path: Path) -> None:
    # 40 CFR 84.106(b): the first calculation after 2026-01-01 takes 365 days: 6 / 40 = 15.0 %.
    with Ledger(tmp_path) as ledger:
        entered(ledger, visit("v-2", "2026-05-04", 6.0))
        (rate,) = search.leak_rates(ledger)
    assert rate.first_calculation
    assert rate.percent == pytest.approx(15.0)


def test_a_damaged_result_is_not_taken_for_one(tmp_path: Path) -> None:
    path = tmp_path / "x.json"
    path.write_bytes(Heard([], [], []).to_json()[:-3])
    assert not stored(path)
    assert not path.exists()


def test_visit_not_found_says_what_to_do(tmp_path: Path) -> None:
    with pytest.raises(RecordError, match="dictate visits"):
        find_visit("v-none", tmp_path)
