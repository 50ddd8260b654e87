"""US or metric: which units a visit is spoken in, and the unit of a bare number.

Weighed are the units that belong to one system (psi, ounces, Fahrenheit; bar, kilograms, Celsius), words of
one system's trade, and the sizes of numbers (unit_systems.toml). Nothing said either way means US, as an
assumption.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from typing import Any

from dictate.mentions.narration import Narration
from dictate.mentions.not_values import identity_spans
from dictate.mentions.quantities import Quantity, find_quantities
from dictate.mentions.spoken_numbers import find_numbers
from dictate.mentions.unit_words import unit_phrases, unit_words
from dictate.mentions.units_system.system import UnitSystem
from dictate.record.visit import UnitSystem as Name
from dictate.vocabulary.load import table


def unit_system(narration: Narration) -> UnitSystem:
    """Infer the unit system of a visit: the units said in it, its words, and the sizes of its bare numbers.

    One misheard unit must not turn a whole visit, and a visit without a single unit of one system can still
    tell where it was by its mains and its temperatures. Degrees and gauges are weighed apart: half the world
    reads Celsius beside gauges in psi, and a cabinet that shows Celsius stands in a US laboratory as well.
    """
    data = table("unit_systems")
    names = {t for start, end in identity_spans(narration) for t in range(start, end)}
    first = float(data["us_first"])
    degrees, gauges = {"us": first, "metric": 0.0}, {"us": 0.0, "metric": 0.0}
    others = {"us": 0.0, "metric": 0.0}
    cold: dict[str, int] = {}
    exact = False
    scales = {"us": False, "metric": False}
    sized: dict[int, Quantity] = {}
    pressures: set[str | None] = set()
    for q in find_quantities(narration):
        if q.kind == "price" or q.start in names or (q.word in _SCALES and abs(q.value) > _HOTTEST):
            continue  # "serial 7720 C"
        sized[q.numbers[0].start] = q
        exact = exact or q.word in _SCALES
        pressures.add(q.unit)
        for system in others:
            weight = data["units"][system].get(q.word, 0)
            scales[system] = scales[system] or q.word == _SCALE[system]
            if q.word in _SCALES and q.value < 0:
                cold[system] = cold.get(system, 0) + bool(weight)
            elif q.word in _SCALES or q.word == "kelvin":
                degrees[system] += weight
            elif q.word in _GAUGES or _pounds_of_a_gauge(narration, q):
                gauges[system] += weight
            else:
                others[system] += weight
    for word, unit in _told_alone(narration, sized, names):
        pressures.add(unit)
        for system in others:
            gauges[system] += data["units"][system].get(word, 0)
    spoken = set(narration.lowers)
    words = {"us": 0.0, "metric": data["hundred_and"] if _hundred_and(narration) else 0.0}
    for system, each, said in _words():
        words[system] += each * len(spoken & said)
    for system in others:
        others[system] += min(data["words_most"][system], words[system])
    sizes, levels, sized_gauges = _by_size(narration, sized, names)
    of_gauges = {"us": first + gauges["us"], "metric": gauges["metric"]}
    for system in others:
        # What is below zero says little of the scale of the room: ultra-low cabinets show Celsius everywhere.
        # A bare "head 245" says as little of the scale as "head 245 psi" does.
        told = others[system] + sizes[system]
        of_sides = gauges[system] + sized_gauges[system]
        degrees[system] += told + levels[system] + min(data["gauges_most"][system], of_sides)
        told += sized_gauges[system]
        degrees[system] += min(
            data["cold_most"], data["units"][system].get(_SCALE[system], 0) * cold.get(system, 0)
        )
        of_gauges[system] += (
            min(data["others_most"], told) if any(gauges.values()) else told + levels[system] / 2
        )
    name: Name = "metric" if degrees["metric"] > degrees["us"] else "us"
    pressure: Name = name
    if of_gauges["metric"] != of_gauges["us"]:
        pressure = "metric" if of_gauges["metric"] > of_gauges["us"] else "us"
    bare = {s: degrees[s] - min(levels[s], degrees[s]) for s in degrees}
    return UnitSystem(
        name,
        not exact,
        pressure,
        _below_zero(narration, name, cold),
        told=bare["metric"] - bare["us"],
        mixed=all(scales.values()),
        kilopascals="kPa" in pressures and "bar" not in pressures,
    )


def _pounds_of_a_gauge(narration: Narration, q: Quantity) -> bool:
    """Tell whether pounds are a pressure: "suction 12 pounds" says as little of the scale as psi does."""
    if q.word != "pound":
        return False
    before = narration.lowers[max(0, q.start - _BESIDE) : q.start]
    if "." in before:
        before = before[len(before) - before[::-1].index(".") :]
    return not _SIDES.isdisjoint(before)


def _told_alone(
    narration: Narration, sized: dict[int, Quantity], names: set[int]
) -> Iterator[tuple[str, str]]:
    """Yield the units of gauges that were told of all of them at once: "pressures in bar", "all kilopascals".

    Behind a number it is that number's own, and "the bar" is a place.
    """
    inside = {t for q in sized.values() for t in range(q.start, q.end)} | names
    words = narration.lowers
    leads = frozenset(table("unit_systems")["told_alone"])
    for start, phrase in unit_phrases(narration).items():
        if phrase.key not in _OF_ALL or start in inside or not start or words[start - 1] not in leads:
            continue
        yield phrase.key, unit_words()[phrase.key].means[0][0]


def _below_zero(narration: Narration, name: Name, cold: dict[str, int]) -> Name | None:
    """Return the system of what is shown below zero, where it is not the visit's own.

    Told by values below zero that were said with their scale, or by words: "the readout is in Celsius".
    """
    if cold and max(cold, key=lambda s: cold[s]) != name:
        other: Name = "metric" if name == "us" else "us"
        return other if cold.get(name, 0) == 0 else None
    words = narration.lowers
    displays = frozenset(table("unit_systems")["displays"])
    for scale, system in (("celsius", "metric"), ("centigrade", "metric"), ("fahrenheit", "us")):
        if system == name or scale not in words:
            continue
        for i, word in enumerate(words):
            if word == scale and not displays.isdisjoint(words[max(0, i - 5) : i + 4]):
                return system  # type: ignore[return-value]
    return None


_PRESSURES = frozenset(("head", "suction", "discharge"))
_SIDES = frozenset(("head", "suction"))
_SCALES = frozenset(("celsius", "fahrenheit"))
_SCALE = {"us": "fahrenheit", "metric": "celsius"}
_GAUGES = frozenset(
    ("psi", "psia", "bar", "kilopascal", "megapascal", "millibar", "pascal", "inch_mercury", "micron")
)
_OF_ALL = frozenset(("psi", "bar", "kilopascal"))
_HOTTEST = 400
"""No temperature of the trade is above it, on either scale."""
_BESIDE = 4


@cache
def _words() -> tuple[tuple[str, float, frozenset[str]], ...]:
    rows = table("unit_systems")["words"]
    return tuple((row["system"], float(row["each"]), frozenset(row["said"])) for row in rows)


def _hundred_and(narration: Narration) -> bool:
    """Tell whether a number was said with an "and" behind its hundreds, as outside of America."""
    words = narration.lowers
    return any(
        n.end - n.start >= 4 and words[n.start + 1 : n.start + 3] == ["hundred", "and"]
        for n in find_numbers(narration)
    )


@cache
def _sizes() -> tuple[dict[str, Any], ...]:
    return tuple(
        {
            **row,
            "near": frozenset(row.get("near", ())),
            "not_near": frozenset(row.get("not_near", ())),
            "all": frozenset(row.get("all", ())),
        }
        for row in table("unit_systems")["size"]
    )


@cache
def _sizes_by_word() -> tuple[dict[str, list[int]], list[int]]:
    """Return which sizes ask for a word near the number, by the word, and which ask for none."""
    by_word: dict[str, list[int]] = {}
    always = []
    for i, row in enumerate(_sizes()):
        for word in row["near"]:
            by_word.setdefault(word, []).append(i)
        if not row["near"]:
            always.append(i)
    return by_word, always


def _sizes_near(near: set[str]) -> list[dict[str, Any]]:
    """Return the sizes that can speak beside these words, in their order."""
    by_word, always = _sizes_by_word()
    asked = {i for word in near if word in by_word for i in by_word[word]}
    return [_sizes()[i] for i in (sorted(asked.union(always)) if asked else always)]


def _by_size(
    narration: Narration, sized: dict[int, Quantity], names: set[int]
) -> tuple[dict[str, float], dict[str, float], dict[str, float]]:
    """Return what the sizes of the numbers speak for: mains, temperatures, and pressures."""
    found = {"us": 0.0, "metric": 0.0}
    levels, gauges = dict(found), dict(found)
    tokens = narration.tokens
    for number in find_numbers(narration):
        if number.start in names:
            continue
        said = sized.get(number.start)
        if said is not None and said.word not in {"degree", "volt"}:
            continue
        before = [t.lower for t in tokens[max(0, number.start - _BESIDE) : number.start]]
        if "." in before:
            before = before[len(before) - before[::-1].index(".") :]
        near = set(before)
        behind = tokens[number.end].lower if number.end < len(tokens) else "."
        first = not before or before[-1] in {",", ";", ":", "?", "!"}
        if behind == "," and first and number.end + 1 < len(tokens):
            behind = tokens[number.end + 1].lower  # "Fifty-eight, return air."
        if first or behind in _PRESSURES:
            near.add(behind)  # "Two fifty-one head, twenty-five suction"
        value = -abs(number.value) if near & {"minus", "negative"} else number.value
        for row in _sizes_near(near):
            if (row.get("unit") == "volt") != (said is not None and said.word == "volt"):
                continue
            if row["near"] and not row["not_near"].isdisjoint(near):
                continue
            degrees = said is not None and said.word == "degree"
            if degrees and not row.get("degrees"):
                continue  # "discharge 62 degrees" is no head pressure
            if row["all"] and row["all"].isdisjoint(near) and not degrees:
                continue
            if row["low"] <= value < row["high"] and (not row.get("decimals") or number.places):
                into = levels if row.get("degrees") else gauges if row["near"] & _SIDES else found
                for system in into:
                    into[system] += row.get(system, 0)
    most = table("unit_systems")["most"]
    return (
        {system: min(most, amount) for system, amount in found.items()},
        {system: min(most, amount) for system, amount in levels.items()},
        {system: min(most, amount) for system, amount in gauges.items()},
    )
