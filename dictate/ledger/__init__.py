"""The drop folder, the ledger of visits, and the workers."""

from __future__ import annotations

import os
from pathlib import Path
from typing import TYPE_CHECKING

from dictate.errors import RecordError

if TYPE_CHECKING:
    from dictate.record.visit import Record


def default_folder() -> Path:
    """Return where the ledger lies unless another place is named: DICTATE_LEDGER, else the user's data."""
    named = os.environ.get("DICTATE_LEDGER")
    if named:
        return Path(named)
    from platformdirs import user_data_path

    return user_data_path("dictate") / "ledger"


def find_visit(visit: str, folder: Path | None = None) -> Record:
    """Return the record of a visit by its id (or the start of it). Raises RecordError."""
    from dictate.pipeline import current

    return current(visit_folder(visit, folder))


def visit_folder(visit: str, folder: Path | None = None) -> Path:
    """Return a visit's folder by its id (or the start of it). Raises RecordError."""
    from dictate.ledger.store import FILE, Ledger

    place = folder or default_folder()
    if (place / FILE).exists():
        with Ledger(place) as ledger:
            rows = ledger.db.execute(
                "SELECT DISTINCT folder FROM visit WHERE id LIKE ? || '%' AND folder IS NOT NULL", (visit,)
            ).fetchall()
        if len(rows) == 1:
            return Path(rows[0]["folder"])
        if rows:
            raise RecordError(f"{len(rows)} visits begin with {visit!r}.", "Give more of the id.")
    raise RecordError(
        f"no visit {visit!r}: neither a folder, a record.json, nor in the ledger at {place}.",
        "See 'dictate visits', or name the folder that 'dictate note --out' wrote.",
    )
