"""Write one or many visits in one format. Output names are stable, and the same input gives the same bytes.

Formats with a file for each visit (json, ubl, html, pdf, claim, vtt) write `PATH` itself when PATH has the
format's ending and there is one visit, else `PATH/<visit>-r<revision>.<ending>`. Formats that gather visits
(csv, log) write one file. Records are read one after the other, so memory stays flat.
"""

from __future__ import annotations

import contextlib
import json
import os
import tempfile
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import IO

from dictate.config import Loaded
from dictate.errors import UsageError
from dictate.export import bill, csv_file, papers, refrigerant_log
from dictate.export.blockers import blockers, refuse_if_blocked
from dictate.export.pdf_file import pdf
from dictate.export.price_book import PriceBook
from dictate.export.profile import Profile
from dictate.export.ubl import invoice
from dictate.export.vtt import vtt
from dictate.record.base import At
from dictate.record.file import fingerprint, write_atomically, writing
from dictate.record.visit import ExportMark, Record

FORMATS = ("json", "csv", "ubl", "html", "pdf", "log", "claim", "vtt")
ENDINGS = {"json": ".json", "ubl": ".xml", "html": ".html", "pdf": ".pdf", "claim": ".html", "vtt": ".vtt",
           "csv": ".csv", "log": ".csv"}  # fmt: skip
Completeness = Callable[[Record], list[tuple[str, str, At | None]]]


@dataclass
class Job:
    """What to write, and with which of the shop's facts."""

    format: str
    out: Path
    config: Loaded
    draft: bool = False
    profile: Profile | None = None
    book: PriceBook | None = None
    completeness: Completeness | None = None


def export(records: Callable[[], Iterable[Record]], count: int, job: Job) -> list[Path]:
    """Write the visits and return the files written.

    `records` is called twice: first every visit is asked whether it may go out, so that ExportRefusedError is
    raised before anything is written; then they are written one after the other.
    """
    if job.format not in FORMATS:
        raise UsageError(f"no format {job.format!r}.", f"Choose one of: {', '.join(FORMATS)}.")
    for record in records():
        refuse_if_blocked(record, draft=job.draft)
    with writing(job.out):
        if job.format == "csv":
            return _csv(records(), job)
        if job.format == "log":
            return _log(records(), job)
        return [_one(record, count, job) for record in records()]


def _one(record: Record, count: int, job: Job) -> Path:
    path = _path(record, count, job)
    write_atomically(path, content(record, job))
    return path


def content(record: Record, job: Job) -> bytes:
    """Return one visit in a format that has a file for each visit, as bytes."""
    draft = job.draft and bool(blockers(record))
    if job.format == "json":
        return canonical(record, draft=draft)
    if job.format == "ubl":
        shop = job.config.settings.shop
        made = bill.lines(record, job.config, job.book)
        return invoice(record, made, draft=draft, currency=shop.currency, shop=shop.name).encode()
    if job.format == "vtt":
        text = vtt(record)
        note = "NOTE DRAFT: questions are open\n\n" if draft else ""
        return text.replace("WEBVTT\n\n", f"WEBVTT\n\n{note}", 1).encode()
    if job.format == "claim":
        fields = job.completeness(record) if job.completeness else []
        return papers.claim(record, fields, draft=draft).html().encode()
    page = papers.customer_page(record, draft=draft)
    return pdf(page) if job.format == "pdf" else page.html().encode()


def canonical(record: Record, *, draft: bool) -> bytes:
    """Return the record in canonical form (RFC 8785) with its stamp: the hash is of the form without it."""
    import rfc8785

    bare = record.model_copy(update={"export": None})
    former = record.visit.revision - 1
    mark = ExportMark(
        draft=draft,
        open_questions=blockers(record),
        sha256=fingerprint(bare),
        supersedes=former if former > 0 else None,
    )
    stamped = record.model_copy(update={"export": mark})
    return rfc8785.dumps(json.loads(stamped.model_dump_json(by_alias=True)))


def _path(record: Record, count: int, job: Job) -> Path:
    ending = ENDINGS[job.format]
    if count == 1 and job.out.suffix.lower() == ending and not job.out.is_dir():
        return job.out
    return job.out / f"{record.visit.id}-r{record.visit.revision}{ending}"


def _csv(records: Iterable[Record], job: Job) -> list[Path]:
    profile = job.profile or Profile("lines")
    sheets = csv_file.sheets(profile)
    paths = [job.out] if len(sheets) == 1 and job.out.suffix else [job.out / s.name for s in sheets]
    currency = job.config.settings.shop.currency
    with contextlib.ExitStack() as stack:
        files = [stack.enter_context(_whole(path, profile.encoding)) for path in paths]
        for sheet, file in zip(sheets, files, strict=True):
            file.write(csv_file.heading(profile, sheet))
        for record in records:
            draft = job.draft and bool(blockers(record))
            made = bill.lines(record, job.config, job.book)
            for sheet, file in zip(sheets, files, strict=True):
                file.writelines(csv_file.rows(record, made, profile, sheet, draft=draft, currency=currency))
    beside = []
    for sheet, path in zip(sheets, paths, strict=True):
        about = path.with_name(path.name + "-metadata.json")
        write_atomically(about, csv_file.metadata(profile, sheet, path.name).encode())
        beside.append(about)
    return [*paths, *beside]


def _log(records: Iterable[Record], job: Job) -> list[Path]:
    path = job.out if job.out.suffix else job.out / "refrigerant-log.csv"
    with _whole(path, "utf-8") as file:
        file.write(refrigerant_log.heading())
        for record in records:
            draft = job.draft and bool(blockers(record))
            file.writelines(refrigerant_log.rows(record, draft=draft))
    return [path]


@contextlib.contextmanager
def _whole(path: Path, encoding: str) -> Iterator[IO[str]]:
    """Open a text file that appears under its name only when all of it was written."""
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(prefix=f".{path.name}.", dir=path.parent)
    try:
        with os.fdopen(handle, "w", encoding=encoding, errors="replace", newline="") as file:
            yield file
            file.flush()
            os.fsync(file.fileno())
        Path(name).replace(path)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise
