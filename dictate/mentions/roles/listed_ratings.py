"""Stretches of words that repeat what is printed: lists on a plate, and charts whose words follow a colon.

    "R134A, 6.5 ounces on the tag, 115 volts 60 cycle, 4.2 amps."        the tag has all of it
    "charge 2.2 kilograms according to the plate, 400 volts, 9.5 amps"
    "the sticker inside has a chart: at seventy air the freeze is eleven to thirteen minutes"

Beside a plate the items that are nothing but a number, a unit and words of a plate are on it as well; the
first item that says more ends the list. The words are in cues.toml, [span.listed].
"""

from __future__ import annotations

from functools import cache
from itertools import pairwise

from dictate.mentions.narration import Narration
from dictate.mentions.spoken_numbers import Number, numbers_by_start
from dictate.mentions.unit_words import unit_phrases
from dictate.vocabulary.load import table

_VOLTS = frozenset({100, 110, 115, 120, 127, 200, 208, 220, 230, 240, 277, 380, 400, 415, 440, 460, 480, 575})
_QUANTITIES = frozenset({"voltage", "current", "frequency", "power", "mass", "pressure"})


@cache
def _words(name: str) -> frozenset[str]:
    return frozenset(table("cues")["span"]["listed"][name])


@cache
def _of_sheets(name: str) -> frozenset[str]:
    return frozenset(table("cues")["span"]["sheet"][name])


def listed(narration: Narration, first: int, last: int) -> list[tuple[int, int, str, frozenset[str]]]:
    """Return (start, end, role, quantities) of the stretches of one sentence, no quantities for all."""
    words = narration.lowers
    said = set(words[first:last])
    out: list[tuple[int, int, str, frozenset[str]]] = []
    if ":" in said and said & _words("charts"):
        out += _chart(words, first, last)
    if said & _words("plates") and "," in said:
        out += _plate(narration, first, last)
    return out


def _chart(words: list[str], first: int, last: int) -> list[tuple[int, int, str, frozenset[str]]]:
    """Return what a chart says behind its colon, up to where the speaker comes back to what he found."""
    colon = next(
        (
            k
            for k in range(first, last)
            if words[k] == ":"
            and _words("charts") & set(words[max(first, k - 4) : k])
            and not (words[k - 1] == "table" and words[k - 2] in _of_sheets("compounds"))
        ),
        None,
    )
    if colon is None or {"my", "i", "i'd", "i've", "same", "we"} & set(words[first:colon]):
        return []
    end = next((k for k in range(colon + 1, last) if words[k] in _words("stops")), last)
    return [(colon + 1, end, "target", frozenset())]


def _plate(narration: Narration, first: int, last: int) -> list[tuple[int, int, str, frozenset[str]]]:
    """Return the items of a list beside the one that names the plate, as far as they say nothing else."""
    words = narration.lowers
    cuts = [first - 1, *(k for k in range(first, last) if words[k] in {",", ":", ";"}), last]
    items = [(a + 1, b) for a, b in pairwise(cuts)]
    named = next((n for n, (a, b) in enumerate(items) if _words("plates") & set(words[a:b])), None)
    if named is None:
        return []
    numbers = numbers_by_start(narration)
    a, b = items[named]
    reads = _plate_reads(words, a, b)
    if not any(x in numbers for x in range(a, b)) and words[b : b + 1] != [":"] and not reads:
        return []
    if _words("found") & set(words[a:b]) and not reads:
        return []
    end = named
    while end + 1 < len(items) and (
        _plain(narration, numbers, *items[end + 1]) or _of_a_part(narration, numbers, *items[end + 1])
    ):
        end += 1
    volts = any(
        n.value in _VOLTS for k in range(items[named][0], items[end][1]) if (n := numbers.get(k)) is not None
    )
    counted = sum(1 for k in range(items[named][1], items[end][1]) if k in numbers)
    whole = end == len(items) - 1 and bool(_words("machine") & set(words[first:a]))
    if end == named or not (volts or whole) or counted < 1:
        return []
    return [(items[named + 1][0], items[end][1], "rated", _QUANTITIES)]


def _plate_reads(words: list[str], a: int, b: int) -> bool:
    """Tell whether the plate itself is what reads: "data plate on the door jamb reads 404A"."""
    named = next((k for k in range(a, b) if words[k] in _words("plates")), None)
    if named is None or named - a > 3:
        return False
    reads = next((k for k in range(named, b) if words[k] in {"reads", "read"}), None)
    return reads is not None and not {"i", "it", "meter"} & set(words[a:reads])


def _plain(narration: Narration, numbers: dict[int, Number], a: int, b: int) -> bool:
    """Tell whether an item is made of numbers, units and words of a plate alone."""
    units = unit_phrases(narration)
    k, seen = a, False
    while b > a and narration.lowers[b - 1] == ".":
        b -= 1
    while k < b:
        number = numbers.get(k)
        if number is not None and number.end <= b:
            unit = units.get(number.end)
            if unit is not None and unit.key == "volt" and number.value not in _VOLTS:
                return False  # "117 volts" was read
            k, seen = number.end, True
        elif (unit := units.get(k)) is not None and unit.end <= b and (seen or unit.end in numbers):
            k = unit.end  # "9.6 amps", "amps 6.8"
        elif narration.lowers[k] in _words("printed"):
            k += 1
        else:
            return False
    return b > a


def _of_a_part(narration: Narration, numbers: dict[int, Number], a: int, b: int) -> bool:
    """Tell whether an item gives a part its amps: "compressor 18.6 RLA", "condenser fan 1.9"."""
    from dictate.mentions.labels import find_components

    named = next((c for c in find_components(narration) if c.start == a and c.end < b), None)
    return named is not None and named.end in numbers and _plain(narration, numbers, named.end, b)


__all__ = ["listed"]
