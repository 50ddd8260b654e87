"""Bill lines: what a visit puts on the invoice, each line with the second of sound that it came from.

Money and billed quantities are decimals, never floats. Prices come from the shop's price book only; a line
without one has none. Refrigerant that went in and refrigerant that came out are lines of their own and are
never netted; recovered refrigerant is not billable unless the price book has an item for it.
Tax, invoice number and due date belong to the billing system.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import ROUND_CEILING, ROUND_HALF_UP, Decimal
from typing import Literal

from dictate.config import Loaded
from dictate.export.price_book import Match, PriceBook
from dictate.record.base import At
from dictate.record.visit import Movement, Part, Record

Type = Literal["labour", "part", "refrigerant", "material", "fee"]

# UNECE Recommendation 20 codes for the record's mass units, and for what is billed.
UNIT_CODES = {"lb": "LBR", "oz": "ONZ", "kg": "KGM", "g": "GRM"}
HOUR, EACH, TRIP = "LH", "EA", "E54"
CENT = Decimal("0.01")
BILLED_ACTIONS = ("replaced", "installed")


@dataclass
class Line:
    """One line of the bill. `quantity`, `price` and `amount` are decimals; a price may be unknown."""

    number: int
    type: Type
    description: str
    quantity: Decimal
    unit: str
    code: str | None = None
    price: Decimal | None = None
    amount: Decimal | None = None
    billable: bool = True
    warranty: bool | None = None
    equipment: str | None = None
    minutes_said: Decimal | None = None
    rounding: str | None = None
    source: str = ""
    at: list[At] = field(default_factory=list)
    heard: str = ""
    review: list[str] = field(default_factory=list)


def lines(record: Record, config: Loaded, book: PriceBook | None = None) -> list[Line]:
    """Return the bill lines of a visit: labour, trip, parts, refrigerant, in this order."""
    made = [*_labour(record, config), *_parts(record), *_refrigerant(record)]
    for number, line in enumerate(made, start=1):
        line.number = number
        _price(line, book)
    return made


def total(made: list[Line]) -> Decimal:
    """Return the sum of the known amounts of the billable lines, to the cent."""
    return sum((x.amount for x in made if x.billable and x.amount is not None), Decimal(0)).quantize(CENT)


def decimal(value: float) -> Decimal:
    """Return the decimal that a person would write for this number (2.375, not 2.37499999999)."""
    return Decimal(repr(round(value, 6))).normalize() + Decimal(0)


def billed_hours(minutes: Decimal, step: int, rounding: str, minimum: int) -> Decimal:
    """Return hours as billed: minutes in steps, rounded up or to the nearest step, at least the minimum."""
    minutes = max(minutes, Decimal(minimum))
    if rounding != "none":
        mode = ROUND_CEILING if rounding == "up" else ROUND_HALF_UP
        minutes = (minutes / step).to_integral_value(mode) * step
    return (minutes / 60).quantize(Decimal("0.0001"), ROUND_HALF_UP).normalize() + Decimal(0)


def _labour(record: Record, config: Loaded) -> list[Line]:
    labour = record.labour
    if labour is None:
        return []
    rules = config.settings.labour
    made = []
    for hours, kind, text in ((labour.hours, "labour", "Labour"), (labour.travel_hours, "fee", "Travel")):
        if hours is None:
            continue
        minutes = decimal(hours * 60)
        span = f", {labour.start} to {labour.end}" if kind == "labour" and labour.start and labour.end else ""
        rule = f"{rules.rounding}, steps of {rules.step_minutes} min, at least {rules.minimum_minutes} min"
        made.append(
            Line(
                0,
                "labour" if kind == "labour" else "fee",
                text + span,
                billed_hours(minutes, rules.step_minutes, rules.rounding, rules.minimum_minutes),
                HOUR,
                minutes_said=minutes,
                rounding=rule,
                source="labour",
                at=list(labour.at),
                heard=" … ".join(labour.heard),
                review=list(labour.review),
            )
        )
    return made


def _parts(record: Record) -> list[Line]:
    return [_part(record, part) for part in record.parts if part.action in BILLED_ACTIONS]


def _part(record: Record, part: Part) -> Line:
    text = ", ".join(x for x in (part.name, part.rating, part.part_number) if x)
    review = list(part.review)
    quantity = decimal(part.quantity) if part.quantity is not None else Decimal(1)
    if part.quantity is None:
        review.append("quantity not stated: one assumed")
    return Line(
        0,
        "part",
        text,
        quantity,
        EACH,
        code=part.part_number,
        equipment=_machine(record, part.equipment),
        source=part.id,
        at=[part.at],
        heard=part.heard,
        review=review,
    )


def _refrigerant(record: Record) -> list[Line]:
    made = []
    for item in record.refrigerant:
        if item.value is None or item.unit is None:
            continue
        made.append(_movement(record, item, item.value, item.unit))
    return made


def _movement(record: Record, item: Movement, value: float, unit: str) -> Line:
    name = item.refrigerant or "refrigerant, type not stated"
    charged = item.direction == "charged"
    return Line(
        0,
        "refrigerant",
        f"{name} {'charged' if charged else 'recovered'}",
        decimal(value),
        UNIT_CODES[unit],
        billable=charged,
        equipment=_machine(record, item.equipment),
        source=item.id,
        at=[item.at],
        heard=item.heard,
        review=list(item.review),
    )


def _machine(record: Record, id: str | None) -> str | None:
    machine = next((e for e in record.equipment if e.id == id), None)
    if machine is None:
        return None
    return " ".join(x for x in (machine.name or machine.type or machine.id, machine.serial) if x)


def _price(line: Line, book: PriceBook | None) -> None:
    if book is None:
        line.code = None if line.type != "part" else line.code
        return
    match = (book.by_code(line.code) if line.type == "part" else None) or _by_name(line, book)
    if match is None:
        line.code = None
        if line.billable:
            line.review.append("not in the price book: no code and no price")
        return
    line.code = match.item.code
    if not match.sure:
        line.review.append(f"price book item {match.item.name!r} fits only {match.score:.0%}: confirm it")
        return
    line.billable = True
    if match.item.unit and match.item.unit != line.unit and not _in_unit(line, match.item.unit):
        line.review.append(f"the price is per {match.item.unit}, the quantity is in {line.unit}: no amount")
        return
    line.price = match.item.price
    line.amount = (line.quantity * line.price).quantize(CENT, ROUND_HALF_UP)


def _by_name(line: Line, book: PriceBook) -> Match | None:
    names = [line.description]
    if line.type == "part":
        names.append(line.description.split(",")[0])
    if line.type == "refrigerant":
        name, _, direction = line.description.rpartition(" ")
        names.append(name if direction == "charged" else f"{name} recovery")
    if line.type in ("labour", "fee"):
        names.append(line.description.split(",")[0])
    found = [m for m in (book.by_name(n) for n in names) if m is not None]
    return max(found, key=lambda m: m.score, default=None)


# Exact by the international definition of the avoirdupois pound (0.45359237 kg).
_GRAMS = {
    "GRM": Decimal(1),
    "KGM": Decimal(1000),
    "LBR": Decimal("453.59237"),
    "ONZ": Decimal("28.349523125"),
}


def _in_unit(line: Line, unit: str) -> bool:
    """Bring a weight into the unit of its price; false when the two are not both weights."""
    if unit not in _GRAMS or line.unit not in _GRAMS:
        return False
    line.quantity = weight_in(line.quantity, line.unit, unit)
    line.unit = unit
    return True


def weight_in(quantity: Decimal, unit: str, to: str) -> Decimal:
    """Bring a weight from one Recommendation 20 code into another, to a ten-thousandth of the unit."""
    converted = quantity * _GRAMS[unit] / _GRAMS[to]
    return converted.quantize(Decimal("0.0001"), ROUND_HALF_UP).normalize() + Decimal(0)
