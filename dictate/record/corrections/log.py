"""The log as a file: read, added to, held while one answer is saved; and which of its entries count."""

from __future__ import annotations

import contextlib
import hashlib
import os
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import IO

from dictate.errors import RecordError
from dictate.record.file import writing
from dictate.record.visit import Correction

FILE = "corrections.jsonl"


def log_path(record_file: Path) -> Path:
    """Return where the log of a record lies: beside `record.json`, or in the folder that holds it."""
    folder = record_file if record_file.is_dir() else record_file.parent
    return folder / FILE


def load(path: Path) -> list[Correction]:
    """Read a log; [] when there is none. Raises RecordError.

    A last line that a power loss cut off never counted and is left out.
    """
    from pydantic import ValidationError

    try:
        data = path.read_bytes()
    except FileNotFoundError:
        return []
    except OSError as error:
        raise RecordError(f"{path} cannot be read: {error}.", "Check its permissions.") from None
    lines = data.split(b"\n")
    entries = []
    for number, line in enumerate(lines, start=1):
        if not line.strip():
            continue
        try:
            entries.append(Correction.model_validate_json(line))
        except ValidationError as error:
            if number == len(lines):
                break
            first = error.errors()[0]
            raise RecordError(
                f"{path}, line {number} is no entry of the log: {first['msg']}.",
                "Put the file back from a backup; the record itself is untouched.",
            ) from None
    return entries


def append(path: Path, entry: Correction) -> None:
    """Add one entry at the end of the log and see it onto the disk. Raises OutputError."""
    with writing(path.parent):
        data = entry.model_dump_json(exclude_defaults=True).encode() + b"\n"
        with path.open("ab+") as file:
            file.seek(0, os.SEEK_END)
            size = file.tell()
            if size:
                file.seek(size - 1)
                if file.read(1) != b"\n":
                    # The power went while the last entry was written: it never counted, and goes.
                    file.seek(0)
                    kept = file.read().rfind(b"\n") + 1
                    file.truncate(kept)
            file.write(data)
            file.flush()
            os.fsync(file.fileno())


@contextlib.contextmanager
def locked(path: Path) -> Iterator[None]:
    """Hold the log for one save, so that two programs cannot both pass the test of what was shown."""
    with writing(path.parent), path.with_name(f".{path.name}.lock").open("a+b") as file:
        _lock(file)
        yield


def _lock(file: IO[bytes]) -> None:
    """Wait for the lock of an open file; closing the file gives it back."""
    if os.name == "nt":  # pragma: no cover - the other system
        import msvcrt

        file.seek(0)
        msvcrt.locking(file.fileno(), msvcrt.LK_LOCK, 1)  # type: ignore[attr-defined]
    else:
        import fcntl

        fcntl.flock(file.fileno(), fcntl.LOCK_EX)


def state_hash(base_fingerprint: str, path: Path) -> str:
    """Return the hash of a record together with its log as both stand now: what a save must name."""
    try:
        log = path.read_bytes()
    except FileNotFoundError:
        log = b""
    return hashlib.sha256(base_fingerprint.encode() + b"\n" + log).hexdigest()


def next_id(log: Sequence[Correction]) -> str:
    """Return the id of the next entry: x1, x2 and so on."""
    return f"x{len(log) + 1}"


def active(log: Sequence[Correction]) -> list[Correction]:
    """Return the entries that count: neither taken back nor a taking back."""
    gone: set[str] = set()
    for entry in reversed(log):
        if entry.action == "withdraw" and entry.id not in gone:
            gone.add(entry.target)
    return [e for e in log if e.id not in gone and e.action != "withdraw"]
