"""Places that a name shortly before or behind a value tells, and differences that add up.

    told_behind(found, words)

Ohms of "the coil sensor" are of the coil, a temperature "out of the closest register" is of the supply air,
pressures at which a pump-down "cuts out" and "cuts back in" are the low pressure switch's, and volts that are
"lost" are a difference where the two values before them say so by their own difference.
"""

from __future__ import annotations

from collections.abc import Sequence

from dictate.mentions.whose.taken import Found, Taken
from dictate.mentions.word_lists import word_list

_ENDS = frozenset((".", "?", "!", ";"))
_SENSOR_REACH = 45
_SENSORS = frozenset(
    ("sensor", "sensors", "probe", "probes", "thermistor", "thermistors", "bulb", "ntc", "rtd")
)
_OF_A_SENSOR = {
    "coil": "coil", "evap": "coil", "evaporator": "coil", "defrost": "coil", "fin": "coil",
    "box": "box", "room": "box", "cabinet": "box", "case": "box", "space": "box",
    "return": "return", "supply": "supply", "suction": "suction", "liquid": "liquid",
    "discharge": "discharge",
    "outdoor": "ambient", "ambient": "ambient", "outside": "ambient",
}  # fmt: skip
_OUTLETS = frozenset(
    (
        "register",
        "registers",
        "vent",
        "vents",
        "grille",
        "grilles",
        "grill",
        "diffuser",
        "diffusers",
        "louver",
    )
)
_UNPLACED = frozenset((None, "ambient", "outlet", "inlet", "condenser air out"))
_MUCH = 5.0
"""Volts that are more than contacts lose and still pull anything in."""
_CONTACTS = frozenset(("contactor", "contacts", "points", "poles", "pole"))
_LOST = frozenset(("lose", "losing", "lost", "loses", "dropping", "drops", "drop", "dropped"))


def told_behind(found: Found, words: Sequence[str]) -> None:
    """Set the points, parts and differences that names around values tell, in place."""
    known = set(words)
    sensors, outlets = bool(_SENSORS & known), bool(_OUTLETS & known)
    pumped = "down" in known and bool({"pump", "pumps", "pumped", "pumpdown"} & known)
    lost = bool(_LOST & known) or "difference" in known
    if not (sensors or outlets or pumped or lost):
        return
    for i, t in enumerate(found.readings):
        r = t.reading
        if sensors and r.quantity == "resistance" and r.component == "temperature sensor":
            r.point = _sensor(t, words) or r.point
        elif outlets and r.quantity == "temperature" and r.point in _UNPLACED:
            r.point = _outlet(t, words, _next(found, i)) or r.point
        elif pumped and r.quantity == "pressure" and r.component is None and _cuts(t, words):
            r.component, r.point = "low pressure switch", r.point or "suction"
        elif lost and r.quantity in {"voltage", "pressure"} and not r.derived and i >= 2:
            r.derived = _is_lost(t, found.readings[i - 2 : i], words)
        if lost and r.quantity == "voltage" and (r.value or _MUCH) < _MUCH:
            _over_contacts(t, found.readings[max(0, i - 3) : i], words)


def _lead(t: Taken, words: Sequence[str], size: int) -> list[str]:
    """Return the words in front of a value in its sentence."""
    lead = list(words[max(0, t.start - size) : t.start])
    return lead[max((i for i, w in enumerate(lead) if w in _ENDS), default=-1) + 1 :]


def _sensor(t: Taken, words: Sequence[str]) -> str | None:
    """Return the place of the sensor that was named last: "I pulled the coil sensor ... 21.4"."""
    for k in range(t.start - 1, max(0, t.start - _SENSOR_REACH), -1):
        if words[k] in _SENSORS or (words[k] == "one" and t.start - k <= 5 and words[k - 1] in _OF_A_SENSOR):
            for j in (k - 1, k - 2):  # "coil sensor", "return air sensor"
                if words[j] in _OF_A_SENSOR:
                    return _OF_A_SENSOR[words[j]]
                if words[j] == "air" and words[j - 1] not in _OF_A_SENSOR:
                    return "box"
                if words[j] not in {"air", "temp", "temperature", "line"}:
                    break
    return None


def _next(found: Found, i: int) -> int:
    """Return the word at which the value behind the i-th one begins."""
    return min(
        (x.start for x in found.readings[i + 1 : i + 4] if x.start > found.readings[i].start), default=10**9
    )


def _outlet(t: Taken, words: Sequence[str], until: int) -> str | None:
    """Return supply, or return, for what was read at a register, a vent or a grille."""
    behind: list[str] = []
    for w in words[t.end : min(t.end + 8, until)]:
        if w in _ENDS or w == ",":
            break
        behind.append(w)
    lead = _lead(t, words, 6)
    if "," in lead:
        lead = lead[len(lead) - lead[::-1].index(",") :]
    for said in (behind, lead):
        if _OUTLETS & set(said):
            return "return" if "return" in said else "supply"
    return None


def _cuts(t: Taken, words: Sequence[str]) -> bool:
    """Tell whether a pump-down is switched at a pressure: "pumps down to seven and cuts back in at 22"."""
    lead = _lead(t, words, 14)
    said = " ".join(lead[-5:])
    at = lead[-1:] == ["at"] and any(
        x in said
        for x in (
            "cuts in",
            "cut in",
            "cuts back in",
            "cuts out",
            "cut out",
            "back in",
            "kicks off",
            "back on",
        )
    )
    near = words[max(0, t.start - 25) : t.start]
    pumped = {"pump", "pumps", "pumped", "pumping", "pumpdown"} & set(near)
    return at and bool(pumped) and not word_list("told_parts_high") & set(near)


def _over_contacts(t: Taken, before: Sequence[Taken], words: Sequence[str]) -> None:
    """Read a few volts lost over contacts as a difference at the contactor, and those told of it again.

    "Contactor points are burnt. Put the disconnect back in and I'm dropping 1.8 volts across L1" is of the
    contactor; "new contactor, now it's 0.1 on both" goes on with that.
    """
    r = t.reading
    if (_LOST | {"difference"}) & set(_lead(t, words, 5)):
        r.derived = r.derived or r.component == "contactor"
        near = words[max(0, t.start - 40) : t.start]
        of_another = {"wire", "wires", "cable", "wiring", "start", "starts"} & set(words[t.end : t.end + 6])
        loose = r.component in {"disconnect switch", "compressor", None} and not of_another
        if loose and _CONTACTS & set(near):
            r.component, r.which, r.derived = "contactor", None, True
    elif r.component == "contactor" and not r.derived:
        r.derived = any(x.reading.derived and x.reading.component == "contactor" for x in before)


def _is_lost(t: Taken, before: Sequence[Taken], words: Sequence[str]) -> bool:
    """Tell whether volts or a pressure told as lost are the difference of the two before them."""
    r = t.reading
    said = {*_lead(t, words, 5), *words[t.end : t.end + 1]}
    if not _LOST & said or r.value is None:
        return False
    one, two = (x.reading for x in before)
    if {one.quantity, two.quantity} != {r.quantity} or one.value is None or two.value is None:
        return False
    if {one.unit, two.unit} != {r.unit}:
        return False
    off = abs(abs(one.value - two.value) - r.value)
    return off <= max(0.05, 0.005 * max(one.value, two.value))


__all__ = ["told_behind"]
