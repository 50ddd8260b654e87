"""One visit on the desk: how it stands now, and saving one answer at a time.

A save names the hash of what was shown. It is compared while the log is locked, so of two tabs, or a tab and
a terminal, only one can answer the same state; the other is told that the record moved on.
"""

from __future__ import annotations

import contextlib
import threading
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from dictate.errors import DictateError, RecordError, UsageError
from dictate.pipeline import corrected
from dictate.record import corrections
from dictate.record.file import fingerprint, load, write_atomically, writing
from dictate.record.visit import Correction, Record
from dictate.review.answers import Reply, entry_for, names_machine, next_clip, settle_place, taken
from dictate.review.questions import Question, questions

if TYPE_CHECKING:
    from dictate.record.transcript import Segment
    from dictate.record.visit import Clip


class MovedOnError(UsageError):
    """The record changed since it was shown."""


@dataclass(frozen=True)
class State:
    """A visit as it stands: the record as first made, as it stands, its hash, and its open questions."""

    base: Record
    record: Record
    hash: str
    questions: list[Question]
    stamp: tuple[int, ...]

    @property
    def blocking(self) -> int:
        """Return how many open questions stop an export."""
        return sum(q.blocking for q in self.questions)


@dataclass(frozen=True)
class Saved:
    """What a save did, for the person: the entry, and how many questions are open before and after."""

    entry: Correction
    closed: list[Question]
    opened: list[Question]
    left: int

    def words(self) -> str:
        """Say it in a line."""
        text = f"Saved: {self.entry.after or self.entry.note or self.entry.action}."
        if self.opened:
            text += f" New: {self.opened[0].ask or self.opened[0].text}"
        return f"{text} {self.left} open." if self.left else f"{text} Nothing is open."


class Desk:
    """A visit's folder, and who sits before it."""

    def __init__(self, path: Path, by: str) -> None:
        self.folder = path if path.is_dir() else path.parent
        if path.is_file() and path.name != "record.json":
            raise RecordError(
                f"{path} cannot be reviewed.", "Name the folder that 'dictate note --out' wrote."
            )
        self.by = by
        self.file = self.folder / "record.json"
        self.log = corrections.log_path(self.folder)
        self._lock = threading.RLock()
        self._state: State | None = None
        self._base: tuple[tuple[int, ...], Record, str] | None = None

    def now(self) -> State:
        """Return how the visit stands; worked out again only when a file changed. Raises RecordError."""
        with self._lock:
            stamp = (*_stamp(self.file), *_stamp(self.log))
            if self._state is None or self._state.stamp != stamp:
                self._state = self._read(stamp)
            return self._state

    def _read(self, stamp: tuple[int, ...]) -> State:
        base_stamp = _stamp(self.file)
        if self._base is None or self._base[0] != base_stamp:
            base = load(self.folder)
            self._base = (base_stamp, base, fingerprint(base))
        _, base, mark = self._base
        log = corrections.load(self.log)
        record = corrected(base, log) if log else base
        return State(base, record, corrections.state_hash(mark, self.log), questions(record), stamp)

    def save(self, reply: Reply, shown: str) -> Saved:
        """Write one answer down. Raises NotUnderstoodError, MovedOnError, OutputError."""
        with self._lock, corrections.locked(self.log):
            before = self._fresh(shown)
            log = corrections.load(self.log)
            entry = entry_for(
                before.record,
                before.base,
                reply,
                self.by,
                corrections.next_id(log),
                _now(),
                lambda tried: corrected(before.base, [*log, tried]),
            )
            return self._add(before, entry)

    def say(self, clip: Clip, segments: Sequence[Segment]) -> Correction:
        """Write a spoken answer down, whatever was shown; its `after` says what was taken from it."""
        with self._lock, corrections.locked(self.log):
            before = self.now()
            log = corrections.load(self.log)
            id = next_clip(before.record)
            entry = Correction(
                id=corrections.next_id(log), made_at=_now(), by=self.by, target="", action="answer",
                text=" ".join(s.text for s in segments), clip=clip.model_copy(update={"id": id}),
                segments=[s.model_copy(update={"clip": id}) for s in segments],
            )  # fmt: skip
            if names_machine(entry.segments):
                entry.fields = {"names_machine": 1.0}

            def attempt(tried: Correction) -> Record:
                return corrected(before.base, [*log, tried])

            entry = settle_place(before.record, before.base, entry, attempt)
            took = taken(attempt(entry), entry)
            entry.after = "; ".join(took) or "no new value and no new step was read from the words"
            return self._add(before, entry).entry

    def _fresh(self, shown: str) -> State:
        state = self.now()
        # The page sends the first half of the hash, which is as good against chance and lighter.
        if shown not in (state.hash, state.hash[:32]):
            raise MovedOnError(
                "the record was changed elsewhere since this was shown; nothing was saved.",
                "Look at it as it stands now, and answer again.",
            )
        return state

    def _add(self, before: State, entry: Correction) -> Saved:
        from dictate.record.file import fingerprint as hash_of

        entry.base = self._base[2] if self._base is not None else hash_of(before.base)
        entry.shown = before.hash
        corrections.append(self.log, entry)
        after = self.now()
        self._write_papers(after.record)
        known, left = {_same(q) for q in before.questions}, {_same(q) for q in after.questions}
        return Saved(
            entry,
            [q for q in before.questions if _same(q) not in left],
            [q for q in after.questions if _same(q) not in known],
            len(after.questions),
        )

    def _write_papers(self, record: Record) -> None:
        """Bring the printed page, the summary and the ledger up to date; `record.json` stays as made."""
        from dictate.export.page import page
        from dictate.export.summary import summary
        from dictate.export.vtt import vtt

        with writing(self.folder):
            for name, text in (
                ("record.html", page(record)),
                ("summary.txt", summary(record)),
                ("transcript.vtt", vtt(record)),
            ):
                write_atomically(self.folder / name, text.encode("utf-8"))
        # The answer is safe in the log already; a ledger that cannot be opened now is mended by its doctor.
        with contextlib.suppress(DictateError):
            _enter(self.folder, record)


def _same(question: Question) -> tuple[str, ...]:
    """Return what makes it the same question to a person, whatever evidence it rests on."""
    if question.rule in (None, "input"):
        return (question.key,)
    return (question.rule or "", question.equipment or "", question.kind)


def _enter(folder: Path, record: Record) -> None:
    """Tell the ledger that holds this visit's folder, if one does."""
    from dictate.ledger.store import FILE, Ledger
    from dictate.ledger.work import enter

    place = folder.resolve().parent.parent
    if folder.resolve().parent.name != "visits" or not (place / FILE).is_file():
        return
    with Ledger(place) as ledger:
        rows = ledger.db.execute("SELECT key, folder FROM visit WHERE folder IS NOT NULL").fetchall()
        for row in rows:
            if Path(row["folder"]).resolve() == folder.resolve():
                enter(ledger, row["key"], Path(row["folder"]), record)


def _stamp(path: Path) -> tuple[int, ...]:
    try:
        stat = path.stat()
    except OSError:
        return (0, 0, 0)
    return (stat.st_mtime_ns, stat.st_size, stat.st_ino)


def _now() -> str:
    return datetime.now(UTC).isoformat(timespec="seconds")
