"""Bill lines as CSV (RFC 4180: CRLF, quoted) with CSVW metadata (W3C) beside it.

Speech reaches these cells, so a text that a spreadsheet would run as a formula gets a leading apostrophe
(OWASP ASVS 5.0, 1.2.10).
"""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date
from decimal import ROUND_HALF_UP, Decimal
from typing import Any

from dictate.export import bill
from dictate.export.profile import NUMBERS, Column, Profile
from dictate.record.base import At
from dictate.record.visit import Record

# Characters that make text read in another order than it is stored; letters of any script stay.
OVERRIDES = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r", "\n")
_UNIT_NAMES = {code: unit for unit, code in bill.UNIT_CODES.items()}


@dataclass
class Sheet:
    """One CSV file being written: its columns and its name."""

    name: str
    columns: tuple[Column, ...]


def sheets(profile: Profile) -> list[Sheet]:
    """Return the files that a profile makes."""
    if profile.layout == "one-file":
        return [Sheet("lines.csv", profile.columns)]
    return [Sheet("header.csv", profile.header_columns()), Sheet("lines.csv", profile.line_columns())]


def heading(profile: Profile, sheet: Sheet) -> str:
    """Return the heading row."""
    return _row(profile, [c.name for c in sheet.columns])


def rows(
    record: Record, made: list[bill.Line], profile: Profile, sheet: Sheet, *, draft: bool, currency: str
) -> Iterator[str]:
    """Yield the rows of one visit for one of the profile's files."""
    visit = _visit(record, made, profile, draft=draft, currency=currency)
    if sheet.name == "header.csv":
        yield _row(profile, [_cell(c, visit, profile) for c in sheet.columns])
        return
    for line in made:
        values = {**visit, **_line(line, profile, record)}
        yield _row(profile, [_cell(c, values, profile) for c in sheet.columns])


def _row(profile: Profile, cells: Iterable[str]) -> str:
    out = io.StringIO()
    writer = csv.writer(
        out, delimiter=profile.delimiter, lineterminator="\r\n", quoting=csv.QUOTE_MINIMAL, doublequote=True
    )
    writer.writerow(list(cells))
    return out.getvalue()


def _visit(
    record: Record, made: list[bill.Line], profile: Profile, *, draft: bool, currency: str
) -> dict[str, Any]:
    visit = record.visit
    return {
        "visit.id": visit.id,
        "visit.revision": Decimal(visit.revision),
        "visit.supersedes": Decimal(visit.revision - 1) if visit.revision > 1 else None,
        "visit.date": _date(visit.date, profile),
        "visit.customer": visit.customer,
        "visit.site": visit.site,
        "visit.technician": visit.technician,
        "visit.certificate": visit.certificate,
        "visit.currency": currency,
        "visit.total": bill.total(made),
        "visit.draft": "DRAFT" if draft else "",
    }


def _line(line: bill.Line, profile: Profile, record: Record) -> dict[str, Any]:
    quantity, unit = line.quantity, line.unit
    wanted = bill.UNIT_CODES.get(profile.weight_unit)
    if wanted and line.unit in _UNIT_NAMES and line.unit != wanted:
        quantity, unit = bill.weight_in(line.quantity, line.unit, wanted), wanted
    price = line.price
    if price is not None and unit != line.unit:
        # The price stays per the unit it was made for; the amount is what counts.
        price = None
    return {
        "line.number": Decimal(line.number),
        "line.type": line.type,
        "line.code": line.code,
        "line.description": line.description,
        "line.quantity": quantity,
        "line.unit": unit,
        "line.price": price,
        "line.amount": line.amount,
        "line.billable": "yes" if line.billable else "no",
        "line.warranty": {None: None, True: "yes", False: "no"}[line.warranty],
        "line.equipment": line.equipment,
        "line.minutes_said": line.minutes_said,
        "line.rounding": line.rounding,
        "line.place": "; ".join(fragment(record, at) for at in line.at if at.clip),
        "line.heard": line.heard,
        "line.review": "; ".join(line.review),
        "line.source": line.source,
    }


def fragment(record: Record, at: At) -> str:
    """Return the place in the sound as a media fragment (W3C): `visit.m4a#t=312.40,319.80`."""
    name = next((c.file for c in record.clips if c.id == at.clip), at.clip or "")
    if at.start_s is None:
        return name
    end = f",{at.end_s:.2f}" if at.end_s is not None else ""
    return f"{name}#t={at.start_s:.2f}{end}"


def _date(text: str | None, profile: Profile) -> str | None:
    if text is None:
        return None
    try:
        return date.fromisoformat(text).strftime(profile.date_format)
    except ValueError:
        return text


def _cell(column: Column, values: dict[str, Any], profile: Profile) -> str:
    value = column.value if column.source is None else values.get(column.source)
    if value is None:
        return ""
    if isinstance(value, Decimal):
        if column.decimals is not None:
            value = value.quantize(Decimal(1).scaleb(-column.decimals), ROUND_HALF_UP)
        return f"{value:f}".replace(".", profile.decimal_mark)
    return safe(str(value))


def safe(text: str) -> str:
    """Return a text cell that no spreadsheet runs, and that holds no control characters but line ends."""
    clean = "".join(c for c in text if (c in "\n\t" or ord(c) >= 32) and c not in OVERRIDES)
    return "'" + clean if clean.startswith(FORMULA_STARTS) else clean


def metadata(profile: Profile, sheet: Sheet, url: str) -> str:
    """Return the CSVW metadata of one file as JSON text."""
    columns = []
    for column in sheet.columns:
        entry: dict[str, Any] = {"titles": column.name, "name": _name(column.name)}
        if column.source in NUMBERS:
            entry["datatype"] = (
                "decimal"
                if profile.decimal_mark == "."
                else {"base": "decimal", "format": {"decimalChar": ",", "groupChar": " "}}
            )
        else:
            entry["datatype"] = "string"
        columns.append(entry)
    data = {
        "@context": "http://www.w3.org/ns/csvw",
        "url": url,
        "dialect": {
            "delimiter": profile.delimiter,
            "encoding": profile.encoding.removesuffix("-sig"),
            "header": True,
            "lineTerminators": ["\r\n"],
        },
        "tableSchema": {"columns": columns},
    }
    return json.dumps(data, indent=1, ensure_ascii=False) + "\n"


def _name(heading: str) -> str:
    return "".join(c if c.isalnum() else "_" for c in heading.lower())
