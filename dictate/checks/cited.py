"""Numbers and readings as findings write them: "1.8 ohm", "common-run 1.8 ohm (0:42)"."""

from __future__ import annotations

from dictate.record.base import At
from dictate.record.visit import Reading


def show(value: float, unit: str) -> str:
    """Write a number with its unit as a person would: "1.8 ohm", "240 V", "-12 °F"."""
    names = {"degF": "°F", "degC": "°C", "delta_degF": "°F", "delta_degC": "K", "uF": "µF", "psi": "psi"}
    text = f"{value:.0f}" if abs(value) >= 1000 else f"{value:.3g}"
    gap = "" if unit == "%" else " "
    return f"{text}{gap}{names.get(unit, unit)}"


def clock(at: At) -> str:
    """Return where in the sound it was said: "0:42", "c2 0:42"; empty for a typed transcript.

    The first clip goes without its name, since most visits are one recording.
    """
    if at.start_s is None:
        return ""
    minutes, seconds = divmod(int(at.start_s), 60)
    clip = f"{at.clip} " if at.clip not in (None, "c1") else ""
    return f"{clip}{minutes}:{seconds:02d}"


def cite(reading: Reading, name: str | None = None) -> str:
    """Name a reading with its number and the time it was said: `common-run 1.8 ohm (0:42)`."""
    what = name or reading.point or reading.quantity.replace("_", " ")
    if reading.state == "open":
        number = "open"
    elif reading.value is None:
        number = "no number"
    else:
        about = {"<": "below ", "<=": "at most ", ">": "above ", ">=": "at least ", "~": "about "}
        number = about.get(reading.relation, "") + show(reading.value, reading.unit)
    when = clock(reading.at)
    return f"{what} {number}" + (f" ({when})" if when else "")


def cite_full(reading: Reading) -> str:
    """Name a reading as `cite` does, with the part in front: `compressor common-run 1.8 ohm (0:42)`."""
    part = " ".join(p for p in (reading.component, reading.which) if p)
    return f"{part} {cite(reading)}" if part else cite(reading)
