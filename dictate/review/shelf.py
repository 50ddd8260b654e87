"""The visits that a review looks at: one, those of a folder, or those of the ledger."""

from __future__ import annotations

import hashlib
import re
from dataclasses import dataclass
from pathlib import Path

from dictate.errors import DictateError, RecordError
from dictate.review.desk import Desk

_PLAIN = re.compile(r"[A-Za-z0-9][A-Za-z0-9_-]{0,79}")


@dataclass
class Row:
    """A visit in the list."""

    slug: str
    date: str | None
    place: str
    machines: str
    open: int
    blocking: int | None
    return_visit: bool
    planned: str = ""
    broken: str | None = None


class Shelf:
    """The visits by the name that stands in their address; nothing else can be asked for."""

    def __init__(self, by: str, paths: list[Path] | None = None, ledger: Path | None = None) -> None:
        self.by = by
        self.ledger = ledger
        self.paths: dict[str, Path] = {}
        self._desks: dict[str, Desk] = {}
        for path in paths or []:
            self._put(path)

    def _put(self, path: Path) -> str:
        folder = path if path.is_dir() else path.parent
        name = folder.resolve().name
        slug = name if _PLAIN.fullmatch(name) else "v-" + hashlib.sha256(name.encode()).hexdigest()[:12]
        if self.paths.get(slug, path) != path:
            slug = "v-" + hashlib.sha256(str(folder.resolve()).encode()).hexdigest()[:12]
        self.paths[slug] = path
        return slug

    def only(self) -> str | None:
        """Return the visit's name when there is just one, and no ledger."""
        return next(iter(self.paths)) if len(self.paths) == 1 and self.ledger is None else None

    def desk(self, slug: str) -> Desk | None:
        """Return a visit by its name, or null."""
        if slug not in self._desks:
            if slug not in self.paths and self.ledger is not None:
                self.rows()
            path = self.paths.get(slug)
            if path is None:
                return None
            self._desks[slug] = Desk(path, self.by)
        return self._desks[slug]

    def rows(self) -> list[Row]:
        """Return the visits: those with open questions and return visits first, newest first."""
        found = self._from_ledger() if self.ledger is not None else self._from_folders()
        found.sort(key=lambda r: r.date or "", reverse=True)
        found.sort(key=lambda r: not (r.open or r.return_visit or r.broken))
        return found

    def _from_ledger(self) -> list[Row]:
        from dictate.ledger import search
        from dictate.ledger.store import Ledger

        if self.ledger is None:
            return []
        with Ledger(self.ledger) as ledger:
            rows = search.visits(ledger, search.Wanted())
        out = []
        for row in rows:
            if not row["folder"]:
                continue
            slug = self._put(Path(row["folder"]))
            place = row["site"] or row["customer"] or row["key"]
            back = bool(row["return_visit"])
            out.append(Row(slug, row["date"], place, row["machines"] or "", row["open"] or 0, None, back))
        return out

    def _from_folders(self) -> list[Row]:
        from dictate.export import wording

        out = []
        for slug, path in self.paths.items():
            try:
                desk = self.desk(slug)
                if desk is None:
                    continue
                state = desk.now()
            except DictateError as error:
                out.append(Row(slug, None, path.name, "", 0, None, False, broken=str(error)))
                continue
            visit = state.record.visit
            machines = ", ".join(e.name or e.type or e.id for e in state.record.equipment)
            planned = [wording.STEP_WORDS[s.step] for s in state.record.steps if s.status == "planned"]
            out.append(
                Row(
                    slug,
                    visit.date,
                    visit.site or visit.customer or visit.id,
                    machines,
                    len(state.questions),
                    state.blocking,
                    bool(planned),
                    ", ".join(dict.fromkeys(planned)),
                )
            )
        return out


def shelf_of(named: str | None, by: str) -> Shelf:
    """Return the visits that a name means: a visit, a folder of visits, an id of the ledger, or nothing.

    Nothing means the latest visit of the ledger. Raises RecordError when there is none.
    """
    if named is None:
        return Shelf(by, [_latest()])
    path = Path(named)
    if path.is_file() or (path / "record.json").is_file():
        return Shelf(by, [path])
    if path.is_dir():
        from dictate.ledger.store import FILE

        if (path / FILE).is_file():
            return Shelf(by, ledger=path)
        visits = sorted(p.parent for p in path.glob("*/record.json"))
        if not visits:
            raise RecordError(f"no visit in {path}.", "Name a folder that 'dictate note --out' wrote.")
        return Shelf(by, visits)
    from dictate.ledger import visit_folder

    return Shelf(by, [visit_folder(named)])


def _latest() -> Path:
    from dictate.ledger import default_folder
    from dictate.ledger.store import FILE, Ledger

    place = default_folder()
    if (place / FILE).is_file():
        with Ledger(place) as ledger:
            rows = ledger.db.execute(
                "SELECT folder FROM visit WHERE folder IS NOT NULL ORDER BY made_at DESC, rowid DESC LIMIT 1"
            ).fetchall()
        if rows:
            return Path(rows[0]["folder"])
    raise RecordError(
        f"no visit was named and the ledger at {place} has none.",
        "Name the folder that 'dictate note --out' wrote.",
    )
