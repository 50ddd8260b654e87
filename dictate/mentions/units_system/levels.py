"""How likely a bare temperature is at its place on either scale: what is usual in the trade, as densities.

A temperature is likely to be said in the scale on which it is a usual one. The answer is a logarithm of odds,
above zero for Celsius: the density of the value read in Celsius over that of the value read in Fahrenheit.
"""

from __future__ import annotations

from bisect import bisect_left
from functools import cache
from math import exp, log, pi, sqrt
from typing import Any

from dictate.mentions.narration import Narration
from dictate.mentions.whose.taken import DIFFERENCES, Taken
from dictate.vocabulary.load import table

_NEAR = 6
"""Tokens before a value in which a word can tell what is measured."""


@cache
def _rows() -> tuple[tuple[tuple[frozenset[str], ...], tuple[Any, ...]], ...]:
    return tuple(
        (
            tuple(frozenset(row.get(key, ())) for key in ("visit", "near", "points", "components")),
            tuple(tuple(part) for part in row["mix"]),
        )
        for row in table("temperature_levels")["level"]
    )


@cache
def _turning_words() -> frozenset[str]:
    rows = [frozenset(table("temperature_levels")["others"]["visit"])]
    return frozenset().union(*rows, *(row[0][0] for row in _rows()))


@cache
def _differences() -> dict[str, tuple[float, float]]:
    rows = table("temperature_levels")["difference"]
    return {row["quantity"]: (float(row["median"]), float(row["spread"])) for row in rows}


def _turned_by(narration: Narration, token: int) -> str:
    """Return the last word before a token that tells what kind of machine is spoken of, "" for none."""
    words = narration.lowers
    places: list[int] | None = narration.found.get("turning words")
    if places is None:
        places = [i for i, word in enumerate(words) if word in _turning_words()]
        narration.found["turning words"] = places
    k = bisect_left(places, token)
    return words[places[k - 1]] if k else ""


def row_of(taken: Taken, narration: Narration) -> int:
    """Return the number of the row that speaks of a temperature's place."""
    reading, words = taken.reading, narration.lowers
    before = words[max(0, taken.start - _NEAR) : taken.start]
    if "." in before:
        before = before[len(before) - before[::-1].index(".") :]
    place = reading.point or ("none" if reading.component is None else None)
    last: str | None = None
    for i, ((visit, near, points, components), _) in enumerate(_rows()):
        if visit and last is None:
            last = _turned_by(narration, taken.start)
        if visit and last not in visit:
            continue
        if near and near.isdisjoint(before):
            continue
        if points and place not in points:
            continue
        if components and reading.component not in components:
            continue
        return i
    return len(_rows()) - 1


@cache
def _of_temperature(row: int, value: float) -> float:
    data = table("temperature_levels")
    floor = data["floor"] / (data["high"] - data["low"])
    mix = _rows()[row][1]

    def density(fahrenheit: float) -> float:
        usual = sum(w / s * exp(-0.5 * ((fahrenheit - m) / s) ** 2) for w, m, s in mix) / sqrt(2 * pi)
        return float((1 - data["floor"]) * usual + floor)

    return log(1.8 * density(1.8 * value + 32) / density(value))


def speaks_for_celsius(taken: Taken, narration: Narration) -> float:
    """Return the logarithm of the odds that a bare temperature or difference was spoken in Celsius."""
    value, quantity = taken.reading.value, taken.reading.quantity
    if value is None:
        return 0.0
    if quantity in DIFFERENCES:
        median, spread = _differences()[quantity]
        if value <= 0:
            return 0.0
        far, near = log(value / median), log(1.8 * value / median)
        return (far * far - near * near) / (2 * spread * spread)
    return _of_temperature(row_of(taken, narration), value)
