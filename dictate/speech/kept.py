"""Keep what was decoded, so that a killed run resumes and a second run of the same sound costs seconds.

One SQLite file in the user's cache: the key is the sound of one piece plus everything that its answer depends
on (weights, settings, versions, grammar). The oldest answers go when the file grows too large. It holds words
that were spoken on the job; `forget()` removes it. A cache that cannot be read or written is never an
error: it only costs the time.
"""

from __future__ import annotations

import contextlib
import hashlib
import json
import sqlite3
import time
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import platformdirs

from dictate.record.transcript import Alternative, Doubt, Word
from dictate.speech.engine import Heard, Piece

MOST = 64 << 20
"""Bytes of answers that are kept: some hundred hours of speech."""

_FORMAT = "1"


def default_file() -> Path:
    """Return the place of the cache."""
    return Path(platformdirs.user_cache_dir("dictate", appauthor=False)) / "heard.sqlite3"


def forget(file: Path | None = None) -> None:
    """Remove everything that was kept."""
    path = file or default_file()
    for name in (path, path.with_name(path.name + "-wal"), path.with_name(path.name + "-shm")):
        name.unlink(missing_ok=True)


class Kept:
    """The answers kept in one file; use it as a context manager."""

    def __init__(self, file: Path | None = None, *, most: int = MOST) -> None:
        self.file = file or default_file()
        self.most = most
        self._base: sqlite3.Connection | None = None
        self._added = 0

    def __enter__(self) -> Kept:
        with contextlib.suppress(sqlite3.Error, OSError):
            self._open()
        return self

    def _open(self) -> None:
        self.file.parent.mkdir(parents=True, exist_ok=True)
        # The words of a customer's job are nobody else's business on a shared machine.
        self.file.touch(mode=0o600, exist_ok=True)
        base = sqlite3.connect(self.file, timeout=10, isolation_level=None)
        try:
            base.execute("PRAGMA journal_mode=WAL")
            base.execute("PRAGMA synchronous=NORMAL")
            base.execute("CREATE TABLE IF NOT EXISTS heard (key TEXT PRIMARY KEY, used REAL, answer TEXT)")
        except sqlite3.DatabaseError as error:
            base.close()
            if "not a database" not in str(error) and "malformed" not in str(error):
                raise
            forget(self.file)  # a broken cache is of no use to anybody
            base = sqlite3.connect(self.file, timeout=10, isolation_level=None)
            base.execute("CREATE TABLE IF NOT EXISTS heard (key TEXT PRIMARY KEY, used REAL, answer TEXT)")
        self._base = base

    def __exit__(self, *_: object) -> None:
        if self._base is not None:
            with contextlib.suppress(sqlite3.Error):
                if self._added:
                    self._trim()
                self._base.close()
            self._base = None

    def get(self, key: str) -> Heard | None:
        """Return the kept answer, or None."""
        if self._base is None:
            return None
        try:
            row = self._base.execute("SELECT answer FROM heard WHERE key = ?", (key,)).fetchone()
            if row is None:
                return None
            self._base.execute("UPDATE heard SET used = ? WHERE key = ?", (time.time(), key))
            return _loaded(json.loads(row[0]))
        except (sqlite3.Error, ValueError, KeyError, TypeError):
            return None

    def put(self, key: str, heard: Heard) -> None:
        """Keep an answer; it is on disk when this returns."""
        if self._base is None:
            return
        with contextlib.suppress(sqlite3.Error):
            self._base.execute(
                "INSERT OR REPLACE INTO heard VALUES (?, ?, ?)", (key, time.time(), json.dumps(_plain(heard)))
            )
            self._added += 1

    def _trim(self) -> None:
        """Drop the answers that were used longest ago until the rest fits."""
        assert self._base is not None
        total = self._base.execute("SELECT COALESCE(SUM(LENGTH(answer)), 0) FROM heard").fetchone()[0]
        if total <= self.most:
            return
        for key, length in self._base.execute(
            "SELECT key, LENGTH(answer) FROM heard ORDER BY used"
        ).fetchall():
            self._base.execute("DELETE FROM heard WHERE key = ?", (key,))
            total -= length
            if total <= self.most * 0.8:
                break
        self._base.execute("VACUUM")


def key_of(piece: Piece, settings: Mapping[str, str]) -> str:
    """Return the key of a piece: its sound and everything that the answer depends on."""
    digest = hashlib.sha256(piece.samples.tobytes())
    digest.update(f"{piece.speech_s}".encode())
    digest.update(json.dumps([_FORMAT, dict(sorted(settings.items()))]).encode())
    return digest.hexdigest()


def _plain(heard: Heard) -> dict[str, Any]:
    return {
        "text": heard.text,
        "words": [w.model_dump(exclude_none=True) for w in heard.words],
        "alternatives": [a.model_dump(exclude_none=True) for a in heard.alternatives],
        "doubts": [d.model_dump(exclude_none=True) for d in heard.doubts],
        "score": heard.score,
        "no_speech": heard.no_speech,
        "source": heard.source,
    }


def _loaded(table: dict[str, Any]) -> Heard:
    return Heard(
        text=table["text"],
        words=[Word(**w) for w in table["words"]],
        alternatives=[Alternative(**a) for a in table["alternatives"]],
        doubts=[Doubt(**d) for d in table["doubts"]],
        score=table["score"],
        no_speech=table["no_speech"],
        source=table["source"],
    )
