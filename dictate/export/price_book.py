"""The shop's price book: a CSV file whose header is `code,name,said,unit,price,type`.

`code` is the shop's item code, `name` what the bill prints, `said` other names separated by `|`, `unit` a
UNECE Recommendation 20 code (EA, LH, LBR, ONZ, KGM, GRM, E54, LS), `price` a decimal number in the shop's
currency for one unit, `type` one of labour, part, refrigerant, material, fee. Only `code`, `name` and `price`
must be there. A price is never guessed: what the book does not hold stays without a price.
"""

from __future__ import annotations

import csv
import difflib
import re
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from functools import cache
from pathlib import Path

from dictate.errors import RecordError

REQUIRED = ("code", "name", "price")
KNOWN = (*REQUIRED, "said", "unit", "type")
SURE = 0.90
"""A name match at or above this score counts; between this and UNSURE it is offered and flagged."""
UNSURE = 0.72


@dataclass(frozen=True)
class Item:
    """One entry of the price book."""

    code: str
    name: str
    price: Decimal
    unit: str = ""
    type: str = ""
    said: tuple[str, ...] = ()


@dataclass(frozen=True)
class Match:
    """An item found for a name, how well it fits (0 to 1), and whether that is sure."""

    item: Item
    score: float
    sure: bool


class PriceBook:
    """The items, found by code or by name."""

    def __init__(self, items: list[Item]) -> None:
        self.items = items
        self._by_code = {_key(i.code): i for i in items}
        self._by_name: dict[str, Item] = {}
        for item in items:
            for name in (item.name, *item.said):
                self._by_name.setdefault(_key(name), item)
        self.by_name = cache(self._find_name)

    def by_code(self, code: str | None) -> Match | None:
        """Return the item with this code, whatever its case, spaces and dashes."""
        found = self._by_code.get(_key(code)) if code else None
        return Match(found, 1.0, True) if found else None

    def _find_name(self, name: str) -> Match | None:
        key = _key(name)
        if key in self._by_name:
            return Match(self._by_name[key], 1.0, True)
        close = difflib.get_close_matches(key, list(self._by_name), n=1, cutoff=UNSURE)
        if not close:
            return None
        score = difflib.SequenceMatcher(None, key, close[0]).ratio()
        return Match(self._by_name[close[0]], round(score, 2), score >= SURE)


def _key(text: str) -> str:
    return re.sub(r"[^a-z0-9]+", "", text.lower())


def read(path: Path) -> PriceBook:
    """Read a price book. Raises RecordError that names the line."""
    try:
        with path.open(encoding="utf-8-sig", newline="") as file:
            rows = csv.DictReader(file, strict=True)
            header = [h.strip().lower() for h in rows.fieldnames or []]
            missing = [h for h in REQUIRED if h not in header]
            unknown = [h for h in header if h not in KNOWN]
            if missing or unknown:
                wrong = f"lacks {', '.join(missing)}" if missing else f"has unknown {', '.join(unknown)}"
                raise RecordError(f"{path}: the header {wrong}.", f"It must be: {','.join(KNOWN)}.")
            rows.fieldnames = header
            return PriceBook([_item(row, path, rows.line_num) for row in rows])
    except (OSError, UnicodeDecodeError, csv.Error) as error:
        raise RecordError(f"{path} cannot be read: {error}.", "Save it as CSV in UTF-8.") from None


def _item(row: dict[str, str | None], path: Path, line: int) -> Item:
    cells = {k: (v or "").strip() for k, v in row.items() if isinstance(v, str | None) and k is not None}
    if None in row:
        raise RecordError(
            f"{path} line {line}: more cells than the header.", "Quote cells that hold a comma."
        )
    try:
        price = Decimal(cells["price"])
    except InvalidOperation:
        raise RecordError(
            f"{path} line {line}: price {cells['price']!r} is not a number.", "Write it like 12.50."
        ) from None
    if not price.is_finite() or price < 0:
        raise RecordError(f"{path} line {line}: price {price} is not usable.", "Write it like 12.50.")
    if not cells["code"] or not cells["name"]:
        raise RecordError(f"{path} line {line}: code and name must be filled.", "Fill them in.")
    said = tuple(s.strip() for s in cells.get("said", "").split("|") if s.strip())
    return Item(cells["code"], cells["name"], price, cells.get("unit", ""), cells.get("type", ""), said)
