"""Typed values, read by the number grammar of speech: "4.3 ohm", "two pounds six", "about 38", "OL".

    read_value(text, item) -> {field: value}

What can be read in more than one way, or holds more than one number, is refused in words that say how to
write it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from dictate.record.visit import Movement, Reading
from dictate.review.answers.reply import NotUnderstoodError

if TYPE_CHECKING:
    from dictate.mentions.narration import Narration


_UNITS: dict[str, tuple[str, ...]] = {
    "pressure": ("psi", "kPa", "bar", "mbar", "Pa", "inHg"),
    "vacuum": ("micron", "mbar", "Pa"),
    "temperature": ("degF", "degC"),
    "mass": ("lb", "oz", "g", "kg"),
    "flow": ("ft3/h", "gal/min", "L/min"),
    "duration": ("s", "min", "h"),
    "length": ("in", "ft", "mm"),
    "concentration": ("%", "ppm"),
}
_DIFFERENCES = {"degF": "delta_degF", "degC": "delta_degC"}
_OPEN = frozenset({"open", "ol", "o.l.", "o l", "over limit", "infinite", "infinity", "no continuity"})
_RELATIONS = (
    ("at least ", ">="), ("at most ", "<="), ("more than ", ">"), ("less than ", "<"), ("about ", "~"),
    ("around ", "~"), ("over ", ">"), ("above ", ">"), ("below ", "<"), ("under ", "<"),
)  # fmt: skip


def read_value(text: str, item: Any) -> dict[str, str | float | None]:
    """Read a typed value for a reading or a movement; returns its fields. Raises NotUnderstoodError.

    "4.3 ohm", "two pounds six", "about 38", "OL"; without a unit the item's own counts.
    """
    if not text:
        raise NotUnderstoodError("no value was typed.", "Type it like 4.3 ohm or two pounds six.")
    low = text.lower().strip(" .")
    if isinstance(item, Reading) and low in _OPEN:
        if item.quantity != "resistance":
            raise NotUnderstoodError("only a resistance can be open.", "Type the value with its unit.")
        return {"state": "open", "value": None}
    relation = "="
    for words, sign in _RELATIONS:
        if low.startswith(words):
            relation, low = sign, low[len(words) :]
            text = text.strip()[len(words) :]
            break
    value, unit = _value_and_unit(text, item)
    fields: dict[str, str | float | None] = {"value": value, "unit": unit}
    if isinstance(item, Reading):
        fields |= {"relation": relation, "state": "value"}
        if item.quantity == "pressure" and item.reference in ("gauge", "vacuum_depth", None):
            fields["reference"] = "vacuum_depth" if unit == "inHg" else "gauge"
    elif relation != "=":
        raise NotUnderstoodError("an amount of refrigerant needs a plain number.", "Type it like 2 lb 6 oz.")
    elif name := _refrigerant_in(text):
        fields["refrigerant"] = name
    return fields


def _value_and_unit(text: str, item: Any) -> tuple[float, str]:
    from dictate.mentions.narration import Narration
    from dictate.mentions.quantities import find_quantities

    narration = Narration.from_text(text)
    found = [q for q in find_quantities(narration) if q.kind == "reading"]
    wanted = "mass" if isinstance(item, Movement) else item.quantity
    allowed = _UNITS.get(wanted, (item.unit,))
    if not found:
        return one_number(text, narration), item.unit or _no_unit(wanted)
    if len(found) > 1:
        raise NotUnderstoodError(f"{text!r} holds more than one value.", "Type one value.")
    q = found[0]
    for unit, _ in q.means:
        real = _DIFFERENCES.get(unit, unit) if str(item.unit).startswith("delta_") else unit
        if real == item.unit or (real in allowed and item.unit not in [m for m, _ in q.means]):
            if q.reasons and not (wanted == "mass" and len(q.parts) == 2):
                raise NotUnderstoodError(
                    f"{text!r} can be read in more than one way: {'; '.join(q.reasons)}.",
                    "Write it in digits.",
                )
            _nothing_else(narration, q.start, q.end, text)
            return q.in_unit(unit), real
    raise NotUnderstoodError(
        f"{text!r} has a unit that does not fit: {wanted.replace('_', ' ')} is asked for.",
        f"Use one of: {', '.join(str(u) for u in allowed)}.",
    )


def _no_unit(wanted: str) -> str:
    raise NotUnderstoodError(f"the unit of the {wanted} is missing.", "Type it like 2 lb 6 oz.")


def _nothing_else(narration: Narration, start: int, end: int, text: str) -> None:
    """Refuse a typed value that has another number beside it."""
    from dictate.mentions.refrigerants.named import find_refrigerants
    from dictate.mentions.spoken_numbers import find_numbers

    names = {t for r in find_refrigerants(narration) for t in range(r.start, r.end)}
    beside = [
        n
        for n in find_numbers(narration)
        if not (start <= n.start < end) and n.start not in names and not n.pronoun
    ]
    if beside:
        raise NotUnderstoodError(f"{text!r} holds more than one number.", "Type one value with its unit.")


def one_number(text: str, narration: Narration | None = None) -> float:
    """Return the only number of a text. Raises NotUnderstoodError."""
    from dictate.mentions.narration import Narration
    from dictate.mentions.spoken_numbers import find_numbers

    narration = narration or Narration.from_text(text)
    numbers = find_numbers(narration)
    if not numbers:
        raise NotUnderstoodError(f"no number was found in {text!r}.", "Type it like 4.3 ohm or 620.")
    if len(numbers) > 1 or numbers[0].alternatives or numbers[0].form in ("two_digits", "clock", "ordinal"):
        raise NotUnderstoodError(f"{text!r} can be read in more than one way.", "Write it in digits.")
    return numbers[0].value


def _refrigerant_in(text: str) -> str | None:
    from dictate.mentions.narration import Narration
    from dictate.mentions.refrigerants.named import find_refrigerants

    names = find_refrigerants(Narration.from_text(text))
    return names[0].name if len(names) == 1 and not names[0].reasons else None


def refrigerant_name(text: str) -> str:
    """Return the name of the only refrigerant of a text ("404a"). Raises NotUnderstoodError."""
    name = _refrigerant_in(text)
    if name is None:
        raise NotUnderstoodError(f"{text!r} is no refrigerant that is known here.", "Write it like R-404A.")
    return name
