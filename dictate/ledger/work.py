"""The work on one clip and on one visit, whoever does it: a local worker or a machine of a cluster.

A clip becomes a transcript file in the ledger's folder, named by the clip's hash: written to a temporary
file, synced, renamed, and only then marked as done. A worker that comes second finds the file and does
nothing. A visit is written up when none of its clips waits or runs.
"""

from __future__ import annotations

import contextlib
import hashlib
import json
import threading
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from dictate.errors import DictateError, InputError, NoSpeechError, OutputError
from dictate.ledger.store import FAILED, ISOLATED, Clip, Ledger, now
from dictate.record.file import fingerprint, write_atomically, writing
from dictate.record.transcript import Segment
from dictate.record.visit import Clip as RecordClip
from dictate.record.visit import Problem, Record

if TYPE_CHECKING:
    from dictate.settings import Settings

Listen = Callable[[Path], tuple[list[RecordClip], list[Segment], list[Problem]]]
"""Hears one file: (clips, segments, problems), as `dictate.speech.listen` gives them."""

BEAT_SECONDS = 2.0


@dataclass
class Heard:
    """What came of one clip."""

    clips: list[RecordClip]
    segments: list[Segment]
    problems: list[Problem]

    def to_json(self) -> bytes:
        """Return the stored form, the same bytes for the same result on every machine."""
        data = {
            "clips": [c.model_dump(mode="json") for c in self.clips],
            "segments": [s.model_dump(mode="json") for s in self.segments],
            "problems": [p.model_dump(mode="json") for p in self.problems],
        }
        return json.dumps(data, ensure_ascii=False, sort_keys=True, separators=(",", ":")).encode()

    @classmethod
    def from_json(cls, data: bytes) -> Heard:
        """Read the stored form; ValueError when it is damaged."""
        loaded: Any = json.loads(data)
        return cls(
            [RecordClip.model_validate(c) for c in loaded["clips"]],
            [Segment.model_validate(s) for s in loaded["segments"]],
            [Problem.model_validate(p) for p in loaded["problems"]],
        )


def hear(path: Path, listen: Listen) -> Heard:
    """Hear one file. Raises InputError for what cannot be read; a clip without speech is a result."""
    try:
        return Heard(*listen(path))
    except NoSpeechError as error:
        return Heard([], [], [Problem(file=str(path), error=error.what, advice=error.advice)])


def do_clip(ledger: Ledger, clip: Clip, owner: str, listen: Listen) -> str:
    """Hear a claimed clip and put the result away; returns the state it ended in."""
    target = ledger.result_path(clip.sha256)
    if not stored(target):
        try:
            with _beating(ledger.folder, clip.sha256, owner):
                result = hear(clip.path, listen)
        except InputError as error:
            ledger.fail(clip.sha256, owner, error.what, error.advice)
            return FAILED
        try:
            with writing(target.parent):
                write_atomically(target, result.to_json())
        except OutputError:
            # A full disk is not the recording's fault: that try does not count.
            ledger.hand_back(clip.sha256, owner)
            raise
    ledger.finish(clip.sha256, owner)
    return "done"


def stored(path: Path) -> bool:
    """Tell whether a whole result lies at this path; a damaged one is removed so that it is made again."""
    try:
        Heard.from_json(path.read_bytes())
    except FileNotFoundError:
        return False
    except (OSError, ValueError, KeyError, TypeError):
        path.unlink(missing_ok=True)
        return False
    return True


@contextlib.contextmanager
def _beating(folder: Path, sha256: str, owner: str) -> Iterator[None]:
    """Raise the clip's beat from a thread with a connection of its own while the work goes on."""
    stop = threading.Event()

    def beat() -> None:
        with Ledger(folder) as ledger:
            while not stop.wait(BEAT_SECONDS):
                with contextlib.suppress(DictateError):
                    if not ledger.beat(sha256, owner):
                        return

    thread = threading.Thread(target=beat, daemon=True)
    thread.start()
    try:
        yield
    finally:
        stop.set()
        thread.join()


def gather(ledger: Ledger, visit: str) -> Heard:
    """Put the results of a visit's clips together, numbered in their order; what failed is a problem."""
    together = Heard([], [], [])
    for clip in ledger.clips(visit):
        if clip.state in (FAILED, ISOLATED):
            together.problems.append(
                Problem(file=str(clip.path), error=clip.error or "it failed", advice=clip.advice or "")
            )
            continue
        try:
            heard = Heard.from_json(ledger.result_path(clip.sha256).read_bytes())
        except (OSError, ValueError, KeyError, TypeError):
            together.problems.append(
                Problem(
                    file=str(clip.path), error="its result is gone", advice="Run 'dictate doctor --mend'."
                )
            )
            continue
        names = {}
        for item in heard.clips:
            names[item.id] = f"c{len(together.clips) + 1}"
            together.clips.append(item.model_copy(update={"id": names[item.id]}))
        together.segments += [s.model_copy(update={"clip": names[s.clip]}) for s in heard.segments]
        together.problems += heard.problems
    return together


def write_up(ledger: Ledger, visit: str, settings: Settings | None = None) -> Record:
    """Make a visit's record from its clips, write its folder, and enter it in the ledger."""
    from dictate.export.folder import write_folder
    from dictate.pipeline import current, read

    heard = gather(ledger, visit)
    record = read(heard.clips, heard.segments, heard.problems, settings=settings)
    # The ledger's visit keeps its id when a clip joins it later; the first clip alone must not name it.
    record.visit.id = "v-" + hashlib.sha256(visit.encode()).hexdigest()[:12]
    row = ledger.db.execute("SELECT folder, revision, sha256 FROM visit WHERE key = ?", (visit,)).fetchone()
    folder = ledger.folder / "visits" / record.visit.id
    if row["revision"] is not None:
        former = record.model_copy(deep=True)
        former.visit.revision = int(row["revision"])
        same = fingerprint(former) == row["sha256"]
        record.visit.revision = int(row["revision"]) + (0 if same else 1)
    write_folder(record, folder)
    # What people answered before a clip joined the visit stays answered.
    enter(ledger, visit, folder, current(folder))
    return record


def enter(ledger: Ledger, visit: str, folder: Path, record: Record) -> None:
    """Enter a record in the ledger: what searches and totals ask for."""
    from dictate.export.wording import is_open
    from dictate.units import convert

    asked = sum(is_open(c) for c in record.checks)
    asked += sum(bool(r.review) for r in record.readings) + sum(bool(m.review) for m in record.refrigerant)
    come_back = any(s.status == "planned" for s in record.steps)
    about = record.visit
    with ledger.change() as db:
        db.execute(
            "UPDATE visit SET id = ?, folder = ?, revision = ?, sha256 = ?, date = ?, site = ?, "
            "customer = ?, technician = ?, open = ?, return_visit = ?, made_at = ?, stale = 0 WHERE key = ?",
            (
                about.id, str(folder), about.revision, fingerprint(record), about.date, about.site,
                about.customer, about.technician, asked, int(come_back), now(), visit,
            ),
        )  # fmt: skip
        db.execute("DELETE FROM machine WHERE visit = ?", (about.id,))
        db.execute("DELETE FROM movement WHERE visit = ?", (about.id,))
        for machine in record.equipment:
            charge = next((p for p in machine.plate if p.quantity == "mass"), None)
            grams = convert(charge.value, charge.unit, "g") if charge else None
            db.execute(
                "INSERT INTO machine VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
                (about.id, machine.id, machine.name, machine.type, machine.model, machine.serial,
                 machine.refrigerant, grams),
            )  # fmt: skip
        for item in record.refrigerant:
            known = item.value is not None and item.unit is not None
            moved = convert(item.value or 0.0, item.unit or "g", "g") if known else None
            db.execute(
                "INSERT INTO movement VALUES (?, ?, ?, ?, ?, ?)",
                (about.id, item.id, item.equipment, item.direction, item.refrigerant, moved),
            )
