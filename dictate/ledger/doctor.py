"""Look over the ledger and the machine, say what is wrong and how to mend it, and mend it when asked."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from dictate.errors import DictateError
from dictate.ledger.store import DONE, FILE, WAITING, Ledger
from dictate.ledger.work import stored

LOW_SPACE = 1_000_000_000
"""Bytes; an hour of review copies needs a tenth of this."""


@dataclass(frozen=True)
class Finding:
    """One thing looked at: whether it is in order, and what to do when it is not."""

    name: str
    ok: bool
    says: str
    advice: str = ""


def examine(folder: Path, *, mend: bool = False) -> Iterator[Finding]:
    """Yield a finding for everything that was looked at. With `mend`, lost results are made again."""
    yield from _ledger(folder, mend)
    yield _model()
    yield _browser()


def _ledger(folder: Path, mend: bool) -> Iterator[Finding]:
    if not (folder / FILE).exists():
        yield Finding("ledger", True, f"none at {folder} yet")
        return
    try:
        with Ledger(folder) as ledger:
            yield _integrity(ledger)
            yield from _results(ledger, mend)
            yield from _records(ledger, mend)
            yield _orphans(ledger, mend)
            yield from _failed(ledger)
            free = ledger.free_bytes()
            advice = "Free some space, or set retention.delete_sound_after_days."
            yield Finding("free space", free > LOW_SPACE, f"{free / 1e9:.1f} GB free", advice)
    except DictateError as error:
        yield Finding("ledger", False, error.what, error.advice)


def _integrity(ledger: Ledger) -> Finding:
    says = str(ledger.db.execute("PRAGMA integrity_check").fetchone()[0])
    return Finding("ledger file", says == "ok", says, "Put back the last copy of 'dictate backup'.")


def _results(ledger: Ledger, mend: bool) -> Iterator[Finding]:
    for clip in ledger.clips():
        if clip.state != DONE or stored(ledger.result_path(clip.sha256)):
            continue
        if mend and clip.path.exists():
            with ledger.change() as db:
                db.execute("UPDATE clip SET state = ?, tries = 0 WHERE sha256 = ?", (WAITING, clip.sha256))
            yield Finding("result", True, f"{clip.path.name}: was gone, put back in the queue")
        else:
            there = "" if clip.path.exists() else " and its sound is gone too"
            advice = "Run 'dictate doctor --mend'." if clip.path.exists() else f"Put {clip.path} back."
            yield Finding("result", False, f"{clip.path.name}: its transcript is gone{there}", advice)


def _records(ledger: Ledger, mend: bool) -> Iterator[Finding]:
    from dictate.record.file import fingerprint, load

    for row in ledger.visits():
        if row["id"] is None or row["stale"]:
            continue
        try:
            good = fingerprint(load(Path(row["folder"]))) == row["sha256"]
            says = "its record.json was changed outside the program"
        except DictateError as error:
            good, says = False, error.what
        if good:
            continue
        if mend:
            with ledger.change() as db:
                db.execute("UPDATE visit SET stale = 1 WHERE key = ?", (row["key"],))
            yield Finding("record", True, f"{row['id']}: {says}; will be written again")
        else:
            yield Finding("record", False, f"{row['id']}: {says}", "Run 'dictate doctor --mend'.")


def _orphans(ledger: Ledger, mend: bool) -> Finding:
    known = {ledger.result_path(c.sha256) for c in ledger.clips()}
    left = [p for p in (ledger.folder / "results").rglob("*") if p.is_file() and p not in known]
    if mend:
        for path in left:
            path.unlink()
    says = f"{len(left)} files belong to no clip" + (", removed" if mend and left else "")
    return Finding("orphans", not left or mend, says, "Run 'dictate doctor --mend' to remove them.")


def _failed(ledger: Ledger) -> Iterator[Finding]:
    for clip in ledger.clips():
        if clip.error:
            yield Finding(
                clip.state, False, f"{clip.path.name}: {clip.error}", clip.advice or "dictate retry"
            )


def _model() -> Finding:
    from dictate.speech import models

    try:
        found = models.find(None)
    except DictateError as error:
        return Finding("model", False, error.what, error.advice)
    return Finding("model", True, f"{found.id} is here and its hashes are right")


def _browser() -> Finding:
    names = ("chromium", "chromium-browser", "google-chrome", "firefox", "msedge", "safari")
    found = next((n for n in names if shutil.which(n)), None)
    says = f"{found} is here" if found else "none found on the path"
    return Finding("browser", True, says + "; 'dictate review --terminal' needs none")
