"""Load and save records: canonical for hashing, readable on disk, never half-written."""

from __future__ import annotations

import contextlib
import errno
import hashlib
import json
import os
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from dictate.errors import OutputError, RecordError
from dictate.record.visit import Record


def to_json(record: Record) -> str:
    """Return the record as indented JSON, keys in the order of the contract."""
    return json.dumps(record.model_dump(mode="json", by_alias=True), ensure_ascii=False, indent=1) + "\n"


def fingerprint(record: Record) -> str:
    """Return the sha256 of the record's canonical form (RFC 8785), as hex."""
    import rfc8785

    data: Any = record.model_dump(mode="json", by_alias=True)
    return hashlib.sha256(rfc8785.dumps(data)).hexdigest()


def load(path: Path) -> Record:
    """Read a record from a `record.json` or from the folder that holds one. Raises RecordError."""
    from pydantic import ValidationError

    file = path / "record.json" if path.is_dir() else path
    try:
        text = file.read_text(encoding="utf-8")
    except FileNotFoundError:
        raise RecordError(
            f"no record at {path}.", "Name an output folder of 'dictate note', or a record.json."
        ) from None
    except (OSError, UnicodeDecodeError) as error:
        raise RecordError(f"{file} cannot be read: {error}.", "Check the path and its permissions.") from None
    try:
        return Record.model_validate_json(text)
    except ValidationError as error:
        first = error.errors()[0]
        where = ".".join(str(part) for part in first["loc"]) or "the file"
        raise RecordError(
            f"{file} is not a valid record: {where}: {first['msg']}.", "Make it again with 'dictate note'."
        ) from None


@contextlib.contextmanager
def writing(folder: Path) -> Iterator[None]:
    """Turn the system's errors on writing into one clear OutputError."""
    try:
        yield
    except OSError as error:
        if error.errno == errno.ENOSPC:
            advice = "The disk is full: free some space and run it again; nothing half-written was left."
        else:
            advice = "Name another place with --out, or mend its permissions."
        reason = error.strerror or str(error)
        raise OutputError(f"{folder} cannot be written: {reason}.", advice) from None


def write_atomically(path: Path, data: bytes) -> None:
    """Write a file so that it is there whole or not at all: temp file, sync, rename."""
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(prefix=f".{path.name}.", dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        umask = os.umask(0)
        os.umask(umask)
        Path(name).chmod(0o666 & ~umask)
        Path(name).replace(path)
    except BaseException:
        with contextlib.suppress(OSError):
            Path(name).unlink()
        raise
