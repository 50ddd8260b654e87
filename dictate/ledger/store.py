"""The ledger: one SQLite file that knows every clip, visit, record and export.

Nothing may be lost and nothing done twice, so every change is one transaction, the file runs in write-ahead
mode, and a clip that is being worked on carries a *beat*: a counter that its worker raises while it lives. A
worker that died stops beating, and another takes the clip over once it has watched the same beat for a whole
lease by its own monotonic clock. No wall clock is compared, so a clock that is set back breaks nothing.

A clip is known by the sha256 of its bytes: dropped twice or renamed, it is the same clip. Results lie in the
ledger's folder as files named by that hash, written whole before the row says `done`.
"""

from __future__ import annotations

import contextlib
import os
import shutil
import socket
import sqlite3
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from dictate.errors import OutputError, RecordError

VERSION = 1
FILE = "ledger.sqlite3"
BUSY_SECONDS = 30.0
WAITING, RUNNING, DONE, FAILED, ISOLATED = "waiting", "running", "done", "failed", "isolated"
"""`failed` means that the input is at fault; `isolated` that it took a worker down too often."""

_SCHEMA = """
CREATE TABLE clip (
    sha256    TEXT PRIMARY KEY,
    path      TEXT NOT NULL,
    size      INTEGER NOT NULL,
    mtime_ns  INTEGER NOT NULL,
    visit     TEXT NOT NULL,
    position  TEXT NOT NULL,
    state     TEXT NOT NULL,
    tries     INTEGER NOT NULL DEFAULT 0,
    beat      INTEGER NOT NULL DEFAULT 0,
    owner     TEXT,
    error     TEXT,
    advice    TEXT,
    added_at  TEXT NOT NULL,
    done_at   TEXT,
    sound_deleted_at TEXT
);
CREATE INDEX clip_state ON clip (state, added_at);
CREATE INDEX clip_visit ON clip (visit);
CREATE TABLE seen (
    path      TEXT PRIMARY KEY,
    sha256    TEXT NOT NULL,
    size      INTEGER NOT NULL,
    mtime_ns  INTEGER NOT NULL
);
CREATE TABLE visit (
    key       TEXT PRIMARY KEY,
    id        TEXT,
    folder    TEXT,
    revision  INTEGER,
    sha256    TEXT,
    date      TEXT,
    site      TEXT,
    customer  TEXT,
    technician TEXT,
    open      INTEGER,
    return_visit INTEGER NOT NULL DEFAULT 0,
    made_at   TEXT,
    stale     INTEGER NOT NULL DEFAULT 0
);
CREATE INDEX visit_id ON visit (id);
CREATE TABLE machine (
    visit TEXT NOT NULL, id TEXT NOT NULL, name TEXT, type TEXT, model TEXT, serial TEXT, refrigerant TEXT,
    full_charge_g REAL, PRIMARY KEY (visit, id)
);
CREATE TABLE movement (
    visit TEXT NOT NULL, id TEXT NOT NULL, machine TEXT, direction TEXT NOT NULL, refrigerant TEXT,
    grams REAL, PRIMARY KEY (visit, id)
);
CREATE TABLE export (
    visit TEXT NOT NULL, revision INTEGER NOT NULL, format TEXT NOT NULL, path TEXT NOT NULL, sha256 TEXT,
    at TEXT NOT NULL
);
"""

# One entry per version step: statements that lead from version n to n + 1.
_MIGRATIONS: dict[int, str] = {}


@dataclass(frozen=True)
class Clip:
    """A clip as the ledger knows it."""

    sha256: str
    path: Path
    visit: str
    state: str
    tries: int
    error: str | None
    advice: str | None


def now() -> str:
    """Return the time as RFC 3339 in UTC, for people to read; nothing is decided by it."""
    return datetime.now(UTC).isoformat(timespec="seconds")


def worker_name() -> str:
    """Return this process's name in the ledger: host and process id."""
    return f"{socket.gethostname()}:{os.getpid()}"


class _Connection(sqlite3.Connection):
    """A connection whose errors are the program's own: one clear line each."""

    def execute(self, *args: Any) -> sqlite3.Cursor:
        try:
            return super().execute(*args)
        except sqlite3.IntegrityError:
            raise
        except sqlite3.Error as error:
            raise _unusable(error) from None


def _unusable(error: sqlite3.Error) -> RecordError:
    if "locked" in str(error) or "busy" in str(error):
        return RecordError(
            f"the ledger is held by another program: {error}.",
            "Close what holds it and run this again; nothing was lost.",
        )
    return RecordError(
        f"the ledger cannot be used: {error}.",
        "Put back the last copy of 'dictate backup', or move the ledger away to start a new one.",
    )


class Ledger:
    """An open ledger. Safe to open from many processes; each opens its own."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        try:
            folder.mkdir(parents=True, exist_ok=True)
            self.db = sqlite3.connect(
                folder / FILE, timeout=BUSY_SECONDS, isolation_level=None, factory=_Connection
            )
            self.db.row_factory = sqlite3.Row
            self.db.execute("PRAGMA journal_mode = WAL")
            self.db.execute("PRAGMA synchronous = FULL")
            self._migrate()
        except sqlite3.Error as error:
            raise _unusable(error) from None
        except OSError as error:
            raise OutputError(
                f"the ledger folder {folder} cannot be used: {error.strerror or error}.",
                "Mend its permissions, or name another with --ledger.",
            ) from None

    def close(self) -> None:
        """Close the file."""
        self.db.close()

    def __enter__(self) -> Ledger:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    @contextlib.contextmanager
    def change(self) -> Iterator[sqlite3.Connection]:
        """Run one writing transaction: all of it happens, or nothing."""
        self.db.execute("BEGIN IMMEDIATE")
        try:
            yield self.db
        except BaseException:
            self.db.execute("ROLLBACK")
            raise
        self.db.execute("COMMIT")

    def _migrate(self) -> None:
        version = int(self.db.execute("PRAGMA user_version").fetchone()[0])
        if version > VERSION:
            raise RecordError(
                f"the ledger {self.folder / FILE} is of version {version}; this program knows {VERSION}.",
                "Install the newer program again.",
            )
        if version == VERSION:
            return
        if version == 0:
            with self.change() as db:
                if int(db.execute("PRAGMA user_version").fetchone()[0]) == 0:
                    for statement in _SCHEMA.split(";"):
                        db.execute(statement)
                    db.execute(f"PRAGMA user_version = {VERSION}")
            return
        self.backup(self.folder / f"ledger-before-version-{VERSION}.sqlite3")
        for step in range(version, VERSION):
            with self.change() as db:
                for statement in _MIGRATIONS[step].split(";"):
                    db.execute(statement)
                db.execute(f"PRAGMA user_version = {step + 1}")

    def backup(self, to: Path) -> Path:
        """Copy the ledger to a file while it is in use; the copy appears whole or not at all."""
        part = to.with_name(f".{to.name}.part")
        try:
            to.parent.mkdir(parents=True, exist_ok=True)
            part.unlink(missing_ok=True)
            with contextlib.closing(sqlite3.connect(part)) as copy:
                self.db.backup(copy)
            part.replace(to)
        except (OSError, sqlite3.Error) as error:
            part.unlink(missing_ok=True)
            raise OutputError(f"{to} cannot be written: {error}.", "Name another file.") from None
        return to

    # -- what was dropped -------------------------------------------------------------------------------

    def known(self, path: Path, size: int, mtime_ns: int) -> bool:
        """Tell whether this very file (path, size, time of change) was taken in before."""
        row = self.db.execute("SELECT size, mtime_ns FROM seen WHERE path = ?", (str(path),)).fetchone()
        return row is not None and (row["size"], row["mtime_ns"]) == (size, mtime_ns)

    def add(self, path: Path, sha256: str, size: int, mtime_ns: int, visit: str, position: str) -> bool:
        """Take a file in; returns whether it is a clip that the ledger did not know.

        The same bytes under another name are the same clip. A path whose bytes changed (a longer copy
        arrived) brings a new clip into the visit, and the former one leaves it.
        """
        with self.change() as db:
            former = db.execute("SELECT sha256 FROM seen WHERE path = ?", (str(path),)).fetchone()
            db.execute(
                "INSERT INTO seen (path, sha256, size, mtime_ns) VALUES (?, ?, ?, ?) "
                "ON CONFLICT (path) DO UPDATE SET sha256 = excluded.sha256, size = excluded.size, "
                "mtime_ns = excluded.mtime_ns",
                (str(path), sha256, size, mtime_ns),
            )
            if former is not None and former["sha256"] != sha256:
                others = db.execute("SELECT 1 FROM seen WHERE sha256 = ?", (former["sha256"],)).fetchone()
                if others is None:
                    db.execute("DELETE FROM clip WHERE sha256 = ?", (former["sha256"],))
            inserted = db.execute(
                "INSERT INTO clip (sha256, path, size, mtime_ns, visit, position, state, added_at) "
                "VALUES (?, ?, ?, ?, ?, ?, ?, ?) ON CONFLICT (sha256) DO NOTHING",
                (sha256, str(path), size, mtime_ns, visit, position, WAITING, now()),
            ).rowcount
            if inserted:
                db.execute(
                    "INSERT INTO visit (key, stale) VALUES (?, 1) ON CONFLICT (key) DO UPDATE SET stale = 1",
                    (visit,),
                )
            elif not Path(self._path(db, sha256)).exists():
                # The file was renamed or moved: the clip follows it.
                db.execute("UPDATE clip SET path = ? WHERE sha256 = ?", (str(path), sha256))
        return bool(inserted)

    def _path(self, db: sqlite3.Connection, sha256: str) -> str:
        return str(db.execute("SELECT path FROM clip WHERE sha256 = ?", (sha256,)).fetchone()["path"])

    def move(self, sha256: str, visit: str) -> None:
        """Put a clip into another visit; both visits are written up again."""
        with self.change() as db:
            row = db.execute("SELECT visit FROM clip WHERE sha256 = ?", (sha256,)).fetchone()
            if row is None:
                raise RecordError(f"no clip {sha256} in the ledger.", "See 'dictate status'.")
            db.execute("UPDATE clip SET visit = ? WHERE sha256 = ?", (visit, sha256))
            for key in (row["visit"], visit):
                db.execute(
                    "INSERT INTO visit (key, stale) VALUES (?, 1) ON CONFLICT (key) DO UPDATE SET stale = 1",
                    (key,),
                )

    # -- work -------------------------------------------------------------------------------------------

    def claim(self, owner: str) -> Clip | None:
        """Take the oldest waiting clip for this worker, or return null when none waits."""
        with self.change() as db:
            row = db.execute(
                "SELECT * FROM clip WHERE state = ? ORDER BY added_at, position LIMIT 1", (WAITING,)
            ).fetchone()
            if row is None:
                return None
            db.execute(
                "UPDATE clip SET state = ?, owner = ?, tries = tries + 1, beat = beat + 1 WHERE sha256 = ?",
                (RUNNING, owner, row["sha256"]),
            )
        return _clip(row)

    def beat(self, sha256: str, owner: str) -> bool:
        """Say that the work goes on; false when the clip was taken over by another worker."""
        with self.change() as db:
            changed = db.execute(
                "UPDATE clip SET beat = beat + 1 WHERE sha256 = ? AND owner = ? AND state = ?",
                (sha256, owner, RUNNING),
            ).rowcount
        return bool(changed)

    def running(self) -> dict[str, tuple[str, int]]:
        """Return the running clips with their owner and beat."""
        rows = self.db.execute("SELECT sha256, owner, beat FROM clip WHERE state = ?", (RUNNING,))
        return {r["sha256"]: (r["owner"] or "", r["beat"]) for r in rows}

    def release(self, sha256: str, beat: int, tries_allowed: int) -> str | None:
        """Take a clip from a worker that stopped beating at `beat`; returns its new state, or null."""
        with self.change() as db:
            row = db.execute(
                "SELECT tries FROM clip WHERE sha256 = ? AND state = ? AND beat = ?", (sha256, RUNNING, beat)
            ).fetchone()
            if row is None:
                return None
            if row["tries"] >= tries_allowed:
                state, error = ISOLATED, f"it took the worker down {row['tries']} times"
                advice = "Play the file to see whether it is sound; then 'dictate retry'."
            else:
                state, error, advice = WAITING, None, None
            db.execute(
                "UPDATE clip SET state = ?, owner = NULL, error = ?, advice = ? WHERE sha256 = ?",
                (state, error, advice, sha256),
            )
            if state == ISOLATED:
                self._stale(db, sha256)
        return state

    def hand_back(self, sha256: str, owner: str) -> None:
        """Give a clip back unfinished on an orderly stop; that try does not count."""
        with self.change() as db:
            db.execute(
                "UPDATE clip SET state = ?, owner = NULL, tries = max(0, tries - 1) "
                "WHERE sha256 = ? AND owner = ? AND state = ?",
                (WAITING, sha256, owner, RUNNING),
            )

    def finish(self, sha256: str, owner: str) -> bool:
        """Mark a clip as done; its result file is already there. False when it was taken over meanwhile."""
        with self.change() as db:
            changed = db.execute(
                "UPDATE clip SET state = ?, owner = NULL, error = NULL, advice = NULL, done_at = ? "
                "WHERE sha256 = ? AND (owner = ? OR state = ?)",
                (DONE, now(), sha256, owner, WAITING),
            ).rowcount
            if changed:
                self._stale(db, sha256)
        return bool(changed)

    def fail(self, sha256: str, owner: str, error: str, advice: str) -> None:
        """Mark a clip as failed, with why and what to do next; the visit is written up without it."""
        with self.change() as db:
            db.execute(
                "UPDATE clip SET state = ?, owner = NULL, error = ?, advice = ? "
                "WHERE sha256 = ? AND owner = ?",
                (FAILED, error, advice, sha256, owner),
            )
            self._stale(db, sha256)

    def _stale(self, db: sqlite3.Connection, sha256: str) -> None:
        db.execute(
            "UPDATE visit SET stale = 1 WHERE key = (SELECT visit FROM clip WHERE sha256 = ?)", (sha256,)
        )

    def retry(self, keys: Iterable[str] = ()) -> int:
        """Put failed and isolated clips (all, or those whose hash or path fits) back; returns how many."""
        wanted = list(keys)
        count = 0
        with self.change() as db:
            rows = db.execute("SELECT * FROM clip WHERE state IN (?, ?)", (FAILED, ISOLATED)).fetchall()
            for row in rows:
                if wanted and not any(row["sha256"].startswith(k) or row["path"].endswith(k) for k in wanted):
                    continue
                db.execute(
                    "UPDATE clip SET state = ?, tries = 0, error = NULL, advice = NULL WHERE sha256 = ?",
                    (WAITING, row["sha256"]),
                )
                self._stale(db, row["sha256"])
                count += 1
        return count

    # -- visits -----------------------------------------------------------------------------------------

    def clips(self, visit: str | None = None) -> list[Clip]:
        """Return the clips of a visit in their order, or all."""
        where, given = ("WHERE visit = ?", (visit,)) if visit is not None else ("", ())
        rows = self.db.execute(f"SELECT * FROM clip {where} ORDER BY visit, position, sha256", given)
        return [_clip(r) for r in rows]

    def ready_visits(self) -> list[str]:
        """Return the visits that need writing up and have no clip waiting or running."""
        rows = self.db.execute(
            "SELECT key FROM visit v WHERE stale = 1 AND NOT EXISTS "
            "(SELECT 1 FROM clip WHERE visit = v.key AND state IN (?, ?)) "
            "AND EXISTS (SELECT 1 FROM clip WHERE visit = v.key)",
            (WAITING, RUNNING),
        )
        return [r["key"] for r in rows]

    def visits(self) -> list[dict[str, Any]]:
        """Return all visits as plain rows, newest first."""
        return [dict(r) for r in self.db.execute("SELECT * FROM visit ORDER BY date DESC, key")]

    def count(self) -> dict[str, int]:
        """Return how many clips are in each state."""
        found = dict.fromkeys((WAITING, RUNNING, DONE, FAILED, ISOLATED), 0)
        found.update(self.db.execute("SELECT state, count(*) FROM clip GROUP BY state").fetchall())
        return found

    def result_path(self, sha256: str) -> Path:
        """Return where the transcript of a clip lies."""
        return self.folder / "results" / sha256[:2] / f"{sha256}.json"

    def free_bytes(self) -> int:
        """Return the free space where the ledger lies."""
        return shutil.disk_usage(self.folder).free


def _clip(row: sqlite3.Row) -> Clip:
    return Clip(
        row["sha256"],
        Path(row["path"]),
        row["visit"],
        row["state"],
        row["tries"],
        row["error"],
        row["advice"],
    )
