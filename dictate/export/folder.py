"""The output folder of a visit: record.json, transcript.vtt, record.html, summary.txt."""

from __future__ import annotations

import os
import shutil
from pathlib import Path

from dictate.errors import OutputError
from dictate.export.page import page
from dictate.export.summary import summary
from dictate.export.vtt import vtt
from dictate.record.file import to_json, write_atomically, writing
from dictate.record.visit import Record


def prepare(folder: Path) -> None:
    """Make the folder and see that it can be written, before an hour of listening. Raises OutputError."""
    with writing(folder):
        folder.mkdir(parents=True, exist_ok=True)
        probe = folder / f".probe-{os.getpid()}"
        try:
            probe.write_bytes(b"probe")
        finally:
            probe.unlink(missing_ok=True)
    if shutil.disk_usage(folder).free < 1_000_000:
        raise OutputError(f"{folder}: less than 1 MB of disk is free.", "Free some space and run it again.")


def write_folder(record: Record, folder: Path) -> None:
    """Write the visit's files, each whole or not at all; the record itself comes last."""
    files = {
        "transcript.vtt": vtt(record),
        "record.html": page(record),
        "summary.txt": summary(record),
        "record.json": to_json(record),
    }
    with writing(folder):
        for name, text in files.items():
            write_atomically(folder / name, text.encode("utf-8"))
