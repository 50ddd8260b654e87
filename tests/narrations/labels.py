"""Read the labelled narrations: README.md in this folder describes the format."""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any, get_args

from dictate.record import visit

HERE = Path(__file__).parent
SETS = ("develop", "held_out")
QUANTITY_OF_UNIT = {
    "V": "voltage", "A": "current", "ohm": "resistance", "uF": "capacitance", "W": "power", "Hz": "frequency",
    "psi": "pressure", "kPa": "pressure", "bar": "pressure", "mbar": "pressure", "Pa": "pressure",
    "inHg": "pressure", "micron": "vacuum", "degF": "temperature", "degC": "temperature",
    "delta_degF": "temperature_difference", "delta_degC": "temperature_difference", "lb": "mass",
    "oz": "mass", "g": "mass", "kg": "mass", "ft3/h": "flow", "gal/min": "flow", "L/min": "flow", "s": "duration",
    "min": "duration",
    "h": "duration", "in": "length", "ft": "length", "mm": "length", "rpm": "speed", "%": "concentration",
    "ppm": "concentration",
}  # fmt: skip
JOBS = (
    "sealed-system", "electrical", "airflow", "defrost", "controls", "commissioning", "inspection", "water",
    "mixed",
)  # fmt: skip
_TOP = {
    "text", "form", "units", "style", "job", "author", "note", "equipment", "readings", "movements", "steps",
    "parts", "labour", "not_readings", "checks",
}  # fmt: skip
_READING = {
    "heard", "nth", "value", "unit", "state", "quantity", "relation", "role", "stage", "component", "point",
    "reference", "equipment", "unit_assumed", "derived", "doubt", "optional", "note",
}  # fmt: skip
_MOVEMENT = {"heard", "nth", "direction", "refrigerant", "value", "unit", "equipment", "doubt", "optional"}
_STEP = {"step", "status", "component", "equipment", "optional", "heard", "note"}
_PART = {"name", "action", "part_number", "quantity", "equipment", "optional", "heard", "note"}
_EQUIPMENT = {"key", "type", "model", "serial", "refrigerant", "note"}


class LabelError(ValueError):
    """A label file that does not keep to the format."""


@dataclass
class Row:
    """One label: the span of words it was read from (inclusive, counted over the whole text) and its keys."""

    keys: dict[str, Any]
    first: int = -1
    last: int = -1

    def get(self, key: str, default: Any = None) -> Any:
        """Return one key of the label."""
        return self.keys.get(key, default)

    def options(self, key: str) -> list[Any] | None:
        """Return the accepted values of a key; None when the label does not say."""
        if key not in self.keys:
            return None
        value = self.keys[key]
        return (
            [None if v == "" else v for v in value]
            if isinstance(value, list)
            else [value if value != "" else None]
        )


@dataclass
class Labelled:
    """One narration with its labels."""

    name: str
    set: str
    text: str
    keys: dict[str, Any]
    words: list[str]
    readings: list[Row]
    movements: list[Row]
    steps: list[Row]
    parts: list[Row]
    equipment: list[dict[str, Any]]
    not_readings: list[Row]
    labour: dict[str, Any]
    raised: list[str]
    quiet: list[str]
    problems: list[str] = field(default_factory=list)

    @property
    def lines(self) -> list[str]:
        """The paragraphs of the text."""
        return [line for line in self.text.splitlines() if line.split()]


def span(text: str, snippet: str, nth: int | None) -> tuple[int, int]:
    """Return the inclusive span of words (of `text.split()`) that the snippet touches."""
    flat = " ".join(text.split())
    wanted = " ".join(snippet.split())
    # A number must not be found inside a longer one, nor a word inside a longer word.
    pattern = re.compile(r"(?<![A-Za-z0-9])" + re.escape(wanted) + r"(?![A-Za-z0-9])")
    found = [m.span() for m in pattern.finditer(flat)]
    if not found:
        raise LabelError(f"not in the text: {snippet!r}")
    if nth is None and len(found) > 1:
        raise LabelError(f"occurs {len(found)} times: {snippet!r} (lengthen it or give nth)")
    if nth is not None and not 1 <= nth <= len(found):
        raise LabelError(f"has no occurrence {nth}: {snippet!r}")
    start, end = found[(nth or 1) - 1]
    return flat[:start].count(" "), flat[: end - 1].count(" ")


def _one_of(value: Any, allowed: tuple[Any, ...] | set[str], what: str) -> None:
    for v in value if isinstance(value, list) else [value]:
        if v not in allowed:
            raise LabelError(f"{what}: {v!r} is not one of {', '.join(map(str, sorted(allowed)))}")


def _known(row: dict[str, Any], allowed: set[str], what: str) -> None:
    if extra := set(row) - allowed:
        raise LabelError(f"{what} {row}: unknown key {', '.join(sorted(extra))}")


def _reading(text: str, row: dict[str, Any], keys: set[str]) -> Row:
    _known(row, _READING, "reading")
    if "heard" not in row or "unit" not in row:
        raise LabelError(f"reading {row}: needs heard and unit")
    _one_of(row["unit"], get_args(visit.Unit), f"unit of {row['heard']!r}")
    row.setdefault("state", "value")
    _one_of(row["state"], get_args(visit.State), "state")
    if (row["state"] == "open") == ("value" in row):
        raise LabelError(f"reading {row['heard']!r}: a value, or state = open")
    row.setdefault("quantity", QUANTITY_OF_UNIT[row["unit"]])
    _one_of(row["quantity"], get_args(visit.Quantity), f"quantity of {row['heard']!r}")
    row.setdefault("relation", "=")
    _one_of(row["relation"], get_args(visit.Relation), f"relation of {row['heard']!r}")
    row.setdefault("role", "measured")
    _one_of(row["role"], get_args(visit.Role), f"role of {row['heard']!r}")
    if "stage" in row:
        _one_of(row["stage"], get_args(visit.Stage), f"stage of {row['heard']!r}")
    if "reference" in row:
        _one_of(row["reference"], get_args(visit.Reference), f"reference of {row['heard']!r}")
    if "equipment" in row:
        _one_of(row["equipment"], keys, f"equipment of {row['heard']!r}")
    return Row(row, *span(text, row["heard"], row.get("nth")))


def read(path: Path) -> Labelled:
    """Read one file; LabelError says what is wrong with it, all findings in one message."""
    data = tomllib.loads(path.read_text(encoding="utf-8"))
    problems: list[str] = []

    def collect(make: Any, rows: list[Any]) -> list[Row]:
        out = []
        for row in rows:
            try:
                out.append(make(row))
            except LabelError as error:
                problems.append(str(error))
        return out

    text = str(data.get("text", "")).strip()
    equipment = data.get("equipment", [])
    keys = {e.get("key", "") for e in equipment}

    def head(_: Any) -> Row:
        _known(data, _TOP, "top level")
        _one_of(data.get("form"), ("words", "recogniser"), "form")
        _one_of(data.get("units"), ("us", "metric"), "units")
        _one_of(data.get("style"), ("terse", "chatty"), "style")
        _one_of(data.get("job"), JOBS, "job")
        for e in equipment:
            _known(e, _EQUIPMENT, "equipment")
        return Row({})

    def movement(row: dict[str, Any]) -> Row:
        _known(row, _MOVEMENT, "movement")
        _one_of(row.get("direction"), ("recovered", "charged"), "direction")
        _one_of(row.get("unit"), ("lb", "oz", "g", "kg"), "unit of a movement")
        if not isinstance(row.get("value"), int | float):
            raise LabelError(f"movement {row}: needs a value")
        return Row(row, *span(text, row["heard"], row.get("nth")))

    def step(row: dict[str, Any]) -> Row:
        _known(row, _STEP, "step")
        _one_of(row.get("step"), get_args(visit.StepCode), "step")
        row.setdefault("status", "done")
        _one_of(row["status"], get_args(visit.StepStatus), "status")
        return Row(row)

    def part(row: dict[str, Any]) -> Row:
        _known(row, _PART, "part")
        _one_of(row.get("action"), get_args(visit.PartAction), "action")
        if "name" not in row:
            raise LabelError(f"part {row}: needs a name")
        return Row(row)

    def no_reading(row: Any) -> Row:
        snippet, nth = (row, None) if isinstance(row, str) else (row["heard"], row.get("nth"))
        return Row({"heard": snippet}, *span(text, snippet, nth))

    collect(head, [None])
    checks = data.get("checks", {})
    if set(checks) - {"raised", "quiet"}:
        problems.append("checks: only raised and quiet")
    made = Labelled(
        name=path.stem,
        set=path.parent.name,
        text=text,
        keys=data,
        words=text.split(),
        readings=collect(lambda row: _reading(text, row, keys), data.get("readings", [])),
        movements=collect(movement, data.get("movements", [])),
        steps=collect(step, data.get("steps", [])),
        parts=collect(part, data.get("parts", [])),
        equipment=equipment,
        not_readings=collect(no_reading, data.get("not_readings", [])),
        labour=data.get("labour", {}),
        raised=checks.get("raised", []),
        quiet=checks.get("quiet", []),
    )
    for rule in [*made.raised, *made.quiet]:
        if not re.fullmatch(r"[a-z-]+\.[a-z-]+(@\w+)?", rule):
            problems.append(f"checks: {rule!r} is no rule id")
    if both := set(made.raised) & set(made.quiet):
        problems.append(f"checks: raised and quiet at once: {', '.join(sorted(both))}")
    if problems:
        raise LabelError(f"{path.parent.name}/{path.name}: " + "; ".join(problems))
    return made


@cache
def _read(path: Path) -> Labelled:
    return read(path)


def all_of(which: str) -> list[Labelled]:
    """Return the narrations of one set, by name."""
    return [_read(path) for path in sorted((HERE / which).glob("*.toml"))]
