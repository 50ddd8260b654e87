"""Export profiles: which columns a CSV file has, in which order, and how they are written.

The format stands on top of `profiles/lines.toml`. `read` returns a checked profile; a wrong one is an error
that names the line of the file.
"""

from __future__ import annotations

import codecs
import re
import tomllib
from dataclasses import dataclass, field
from datetime import date
from importlib import resources
from pathlib import Path
from typing import Any

from dictate.errors import RecordError

VISIT_FIELDS = (
    "id", "revision", "supersedes", "date", "customer", "site", "technician", "certificate", "currency",
    "total", "draft",
)  # fmt: skip
LINE_FIELDS = (
    "number", "type", "code", "description", "quantity", "unit", "price", "amount", "billable", "warranty",
    "equipment", "minutes_said", "rounding", "place", "heard", "review", "source",
)  # fmt: skip
NUMBERS = {
    "visit.revision", "visit.supersedes", "visit.total", "line.number", "line.quantity", "line.price",
    "line.amount", "line.minutes_said",
}  # fmt: skip
SOURCES = tuple(f"visit.{f}" for f in VISIT_FIELDS) + tuple(f"line.{f}" for f in LINE_FIELDS)
LAYOUTS = ("one-file", "header-and-lines")
WEIGHTS = ("as said", "lb", "oz", "kg", "g")
KEYS = {"name", "layout", "delimiter", "encoding", "decimal_mark", "date_format", "weight_unit", "column"}
COLUMN_KEYS = {"name", "from", "value", "decimals"}


@dataclass(frozen=True)
class Column:
    """One column: its heading, and a source field or a fixed text."""

    name: str
    source: str | None = None
    value: str | None = None
    decimals: int | None = None


@dataclass(frozen=True)
class Profile:
    """A checked profile."""

    name: str
    layout: str = "one-file"
    delimiter: str = ","
    encoding: str = "utf-8"
    decimal_mark: str = "."
    date_format: str = "%Y-%m-%d"
    weight_unit: str = "as said"
    columns: tuple[Column, ...] = field(default_factory=tuple)

    def header_columns(self) -> tuple[Column, ...]:
        """Return the columns of the header file: what belongs to the visit."""
        return tuple(c for c in self.columns if c.source is None or c.source.startswith("visit."))

    def line_columns(self) -> tuple[Column, ...]:
        """Return the columns of the lines file: the visit's id and revision, and what belongs to a line."""
        keys = ("visit.id", "visit.revision", "visit.draft")
        return tuple(c for c in self.columns if c.source in keys or (c.source or "").startswith("line."))


def built_in() -> list[str]:
    """Return the names of the profiles that come along."""
    folder = resources.files("dictate.export") / "profiles"
    return sorted(f.name.removesuffix(".toml") for f in folder.iterdir() if f.name.endswith(".toml"))


def read(name: str) -> Profile:
    """Return a profile by its built-in name or by the path of its file. Raises RecordError with the line."""
    if name in built_in():
        file = resources.files("dictate.export") / "profiles" / f"{name}.toml"
        return parse(file.read_text(encoding="utf-8"), name)
    path = Path(name)
    try:
        return parse(path.read_text(encoding="utf-8"), str(path))
    except FileNotFoundError:
        known = ", ".join(built_in())
        raise RecordError(f"no export profile {name}.", f"Name a file, or one of: {known}.") from None
    except (OSError, UnicodeDecodeError) as error:
        raise RecordError(f"{path} cannot be read: {error}.", "Save it as UTF-8.") from None


def parse(text: str, where: str) -> Profile:
    """Check the text of a profile and return it."""
    wrong = errors(text, where)
    if wrong:
        raise RecordError(wrong[0], "See 'dictate export --check-profile FILE'.")
    data = tomllib.loads(text)
    columns = tuple(
        Column(c["name"], c.get("from"), c.get("value"), c.get("decimals")) for c in data.pop("column")
    )
    return Profile(**{**data, "name": data.get("name", where), "columns": columns})


def errors(text: str, where: str) -> list[str]:
    """Return every error of a profile, each with the line of the file it stands in."""
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        return [f"{where}: {error}"]
    found: list[str] = []

    def wrong(line: int, what: str) -> None:
        found.append(f"{where} line {line}: {what}")

    for key in data:
        if key not in KEYS:
            wrong(_line(text, key), f"unknown key {key!r}; known are {', '.join(sorted(KEYS))}")
    _check_options(data, text, wrong)
    columns = data.get("column")
    if not isinstance(columns, list) or not columns:
        wrong(1, "there is no [[column]]")
        return found
    starts = [n for n, row in enumerate(text.splitlines(), 1) if re.match(r"\s*\[\[\s*column\s*\]\]", row)]
    names: set[str] = set()
    for number, column in enumerate(columns):
        line = starts[number] if number < len(starts) else 1
        _check_column(column, line, names, wrong)
    return found


def _check_options(data: dict[str, Any], text: str, wrong: Any) -> None:
    def option(key: str, allowed: tuple[str, ...]) -> None:
        if key in data and data[key] not in allowed:
            wrong(_line(text, key), f"{key} must be one of {', '.join(map(repr, allowed))}")

    option("layout", LAYOUTS)
    option("weight_unit", WEIGHTS)
    option("decimal_mark", (".", ","))
    delimiter = data.get("delimiter", ",")
    if not isinstance(delimiter, str) or len(delimiter) != 1 or delimiter in '"\r\n':
        wrong(_line(text, "delimiter"), "delimiter must be one character other than a quote or a line end")
    elif delimiter == data.get("decimal_mark", "."):
        wrong(_line(text, "delimiter"), "delimiter and decimal_mark are the same")
    try:
        codecs.lookup(str(data.get("encoding", "utf-8")))
    except (LookupError, ValueError):
        wrong(_line(text, "encoding"), f"unknown encoding {data['encoding']!r}")
    try:
        date(2026, 1, 31).strftime(data.get("date_format", "%Y-%m-%d"))
    except (TypeError, ValueError):
        wrong(_line(text, "date_format"), "date_format is not a strftime pattern")


def _check_column(column: Any, line: int, names: set[str], wrong: Any) -> None:
    if not isinstance(column, dict):
        wrong(line, "a column is written as [[column]] with its keys below")
        return
    for key in column:
        if key not in COLUMN_KEYS:
            wrong(line, f"unknown key {key!r} in this column; known are {', '.join(sorted(COLUMN_KEYS))}")
    name = column.get("name")
    if not isinstance(name, str) or not name:
        wrong(line, "this column has no name")
    elif name in names:
        wrong(line, f"a second column {name!r}")
    else:
        names.add(name)
    if ("from" in column) == ("value" in column):
        wrong(line, "a column has either from or value")
    elif "value" in column and not isinstance(column["value"], str):
        wrong(line, "value must be a text in quotes")
    elif "from" in column and column["from"] not in SOURCES:
        wrong(line, f"unknown source field {column['from']!r}; known are {', '.join(SOURCES)}")
    decimals = column.get("decimals")
    if decimals is not None and (not isinstance(decimals, int) or not 0 <= decimals <= 6):
        wrong(line, "decimals must be a whole number from 0 to 6")
    elif decimals is not None and column.get("from") not in NUMBERS:
        wrong(line, "decimals needs a column that holds a number")


def _line(text: str, key: str) -> int:
    for number, row in enumerate(text.splitlines(), 1):
        if re.match(rf"\s*{re.escape(key)}\s*=", row):
            return number
    return 1
