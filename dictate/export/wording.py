"""How values, places and times are written for a person to read."""

from __future__ import annotations

from dictate.record.base import At
from dictate.record.visit import Candidate, Check, Movement, PlateValue, Reading

UNIT_WORDS = {
    "ohm": "ohm", "uF": "µF", "degF": "°F", "degC": "°C", "delta_degF": "°F", "delta_degC": "°C",
    "micron": "micron", "inHg": "inHg", "ft3/h": "ft³/h",
}  # fmt: skip

RELATION_WORDS = {"=": "", "<": "below ", "<=": "at most ", ">": "over ", ">=": "at least ", "~": "about "}

ROLE_WORDS = {
    "measured": "measured", "target": "should be", "rated": "on the plate", "earlier": "on a former visit",
    "expected": "expected", "retracted": "taken back",
}  # fmt: skip

OUTCOME_WORDS = {
    "ok": "in order", "problem": "does not add up", "missing": "not said", "unsure": "cannot be told",
    "not_applicable": "does not apply",
}  # fmt: skip

STEP_WORDS = {
    "power_isolated": "power isolated",
    "absence_of_voltage_verified": "absence of voltage verified",
    "capacitor_discharged": "capacitor discharged",
    "refrigerant_recovered": "refrigerant recovered",
    "brazed": "brazed",
    "nitrogen_purged": "nitrogen flowed while brazing",
    "nitrogen_swept": "swept with nitrogen before opening",
    "filter_drier_replaced": "filter drier replaced",
    "part_replaced": "part replaced",
    "pressure_tested": "pressure tested",
    "leak_checked": "leak checked",
    "evacuated": "evacuated",
    "vacuum_held": "vacuum hold tested",
    "charged": "charged",
    "ports_capped": "ports capped",
    "power_restored": "power restored",
    "run_checked": "run checked",
    "cleaned": "cleaned",
    "adjusted": "adjusted",
    "customer_informed": "customer informed",
}


def number(value: float) -> str:
    """Write a number without needless digits: 38.0 is 38, 0.125 stays, 12000000 is 12 000 000."""
    text = f"{value:.4f}".rstrip("0").rstrip(".")
    whole, point, rest = text.partition(".")
    sign, digits = ("-", whole[1:]) if whole.startswith("-") else ("", whole)
    if len(digits) > 4:
        digits = f"{int(digits):,}".replace(",", " ")
    return sign + digits + point + rest


def amount(value: float | None, unit: str | None) -> str:
    """Write a value with its unit; pounds with a part are repeated as pounds and ounces."""
    if value is None:
        return "amount not stated"
    if unit is None:
        return number(value)
    text = f"{number(value)} {UNIT_WORDS.get(unit, unit)}"
    if unit == "lb" and value % 1:
        text += f" ({int(value)} lb {number(round((value % 1) * 16, 2))} oz)"
    return text


def clock(seconds: float | None) -> str:
    """Write a place in the sound as m:ss, or nothing."""
    if seconds is None:
        return ""
    return f"{int(seconds) // 60}:{int(seconds) % 60:02d}"


def place(at: At) -> str:
    """Write where something was said: the clip and the minute, and the clock time where known."""
    parts = [at.clip or "", clock(at.start_s)]
    text = " ".join(p for p in parts if p)
    return f"{text} ({at.said_at})" if at.said_at else text


def what(reading: Reading) -> str:
    """Name what was measured: 'compressor common-run resistance'."""
    names = [reading.component, reading.which, reading.point, reading.quantity.replace("_", " ")]
    text = " ".join(n for n in names if n)
    return {"temperature difference": "temperature difference"}.get(text, text)


def value(reading: Reading) -> str:
    """Write a reading's value as it counts: state, relation, unit, gauge or absolute."""
    if reading.state == "open":
        return "open"
    text = RELATION_WORDS[reading.relation] + amount(reading.value, reading.unit)
    if reading.reference == "absolute":
        text += " abs"
    if reading.reference == "vacuum_depth":
        text += " of vacuum"
    if reading.unit_assumed:
        text += " (unit not said)"
    return text


def candidate(option: Candidate) -> str:
    """Write another value that the words may mean."""
    text = amount(option.value, option.unit) if option.value is not None else option.heard
    return f"{text} ({option.why})" if option.why else text


def movement(item: Movement) -> str:
    """Write a refrigerant movement without its direction."""
    return f"{amount(item.value, item.unit)} {item.refrigerant or 'refrigerant not stated'}"


def plate(item: PlateValue) -> str:
    """Write a plate value."""
    name = item.name or " ".join(n for n in (item.component, item.quantity.replace("_", " ")) if n)
    return f"{name} {amount(item.value, item.unit)}"


def is_open(check: Check) -> bool:
    """Tell whether a check asks something of a person."""
    asks = check.outcome in ("problem", "missing", "unsure")
    return asks and check.waived is None and not check.resolved
