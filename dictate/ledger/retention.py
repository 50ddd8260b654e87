"""Delete sound after some days when the shop asks for it; records, words and hashes are always kept."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path

from dictate.ledger.store import DONE, Ledger, now


def due(ledger: Ledger, days: int, today: datetime | None = None) -> list[tuple[str, Path]]:
    """Return (hash, path) of the done clips whose visit was written more than `days` ago."""
    limit = ((today or datetime.now(UTC)) - timedelta(days=days)).isoformat(timespec="seconds")
    rows = ledger.db.execute(
        "SELECT c.sha256, c.path FROM clip c JOIN visit v ON v.key = c.visit WHERE c.state = ? "
        "AND v.stale = 0 AND v.made_at < ? AND c.sound_deleted_at IS NULL ORDER BY c.path",
        (DONE, limit),
    )
    return [(r["sha256"], Path(r["path"])) for r in rows]


def delete_sound(ledger: Ledger, days: int, today: datetime | None = None) -> list[Path]:
    """Delete the sound that is due: the recordings and the review copies. Returns what was deleted.

    A recording whose bytes are no longer those that were heard is left alone.
    """
    from dictate.speech.recording import sha256 as hash_of

    deleted = []
    for digest, path in due(ledger, days, today):
        if path.is_file():
            if hash_of(path) != digest:
                continue
            path.unlink()
            deleted.append(path)
        with ledger.change() as db:
            db.execute("UPDATE clip SET sound_deleted_at = ? WHERE sha256 = ?", (now(), digest))
    return deleted
