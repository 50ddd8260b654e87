"""Plain words that name a component and are often said of something else: a heat pump, the cap of a port."""

from __future__ import annotations

from collections.abc import Sequence

from dictate.mentions.narration import Narration
from dictate.mentions.spoken_numbers import numbers_by_start
from dictate.mentions.word_lists import word_list

_LOW_VOLTS = 60
OFTEN_OTHER = frozenset(
    {
        "pump", "capacitor", "temperature sensor", "blower motor", "battery", "contactor", "power supply",
        "boiler", "compressor",
    }
)  # fmt: skip
"""Components whose plain words are often said of something else."""


def is_other_thing(narration: Narration, name: str, start: int, end: int) -> bool:
    """Tell whether a plain word is another thing: a heat pump, the cap of a port, the technician's probe."""
    words = narration.lowers
    led = words[start - 1] if start else "."
    roomed = words[end : end + 1] in (["room"], ["house"], ["shed"])
    if roomed or name in {"boiler", "compressor"}:
        return roomed  # "the panel in the boiler room"
    if name == "pump":
        verb = end - start == 1 and words[end : end + 1] == ["down"]  # "it pumps down to seven pounds"
        return led in {"heat", "hp"} or verb
    if name == "contactor":  # "engine starter", "hard starter"
        return words[start].startswith("starter") and led in word_list("labels_other_starters")
    if name == "power supply" and words[start] in {"brick", "bricks"}:
        return not _makes_low_volts(words, start, end)
    if name == "power supply":
        plain = words[start:end] == ["power", "supply"]
        return plain and not _gives_low_volts(narration, end) and not _is_converter(narration)
    if name == "battery":  # "my meter battery was flat", "the battery in the clamp"
        near = [w for w in words[end : end + 4] if w not in {"in", "of", "on", "the", "my", "for", "was"}]
        owned = word_list("labels_tools_with_batteries")
        return led in owned or bool(owned & set(near[:1]))
    if name == "blower motor":
        tool = {"brush", "brushed", "vacuum", "cordless", "leaf", "rag", "compressed"} & set(
            words[max(0, start - 4) : start]
        )
        return words[end - 1] == "blower" and bool(tool)
    if (
        name == "temperature sensor"
        and led in {"a", "one", "the"}
        and words[end : end + 1] in (["to"], ["on"])
    ):
        puts = {"put", "touched", "held", "stuck", "laid"} & set(words[max(0, start - 3) : start])
        if puts:
            return True  # "put a probe to the sheath": a lead of the meter
    if name == "temperature sensor":
        return words[start] in {"probe", "probes"} and led in word_list("labels_own_probes")
    if words[start] not in {"cap", "caps"} or end - start > 1:
        return False
    if word_list("labels_capacitor_talk") & set(words[max(0, start - 8) : end + 8]):
        return False
    behind = set(words[end : end + 5])
    at = end + (words[end : end + 1] == ["back"])
    ends = words[at + 1 : at + 2] in ([], ["."], [","], ["and"], ["tight"], ["snug"], ["again"], ["hand"])
    put = words[at : at + 1] in (["snugged"], ["snug"], ["tight"]) or (words[at : at + 1] == ["on"] and ends)
    return put or bool(word_list("labels_capped") & (behind | set(words[max(0, start - 2) : start])))


def _makes_low_volts(words: Sequence[str], start: int, end: int) -> bool:
    """Tell whether a "brick" is one that feeds something: no coil that is "a brick of ice", no wall."""
    led, behind = words[max(0, start - 3) : start], words[end : end + 1]
    if (
        behind == ["of"]
        or {"like", "as"} & set(led)
        or {"ice", "wall", "solid", "frozen"} & set(words[end : end + 3])
    ):
        return False
    return not word_list("brick_talk").isdisjoint(words)


def _gives_low_volts(narration: Narration, end: int) -> bool:
    """Tell whether what a "power supply" gives is told right behind it, and is less than any mains."""
    at = end
    while (
        at - end < 3 and narration.lowers[at : at + 1] and narration.lowers[at] in word_list("supply_gives")
    ):
        at += 1
    number = numbers_by_start(narration).get(at)
    return number is not None and at > end and 3 <= number.value <= _LOW_VOLTS


def _is_converter(narration: Narration) -> bool:
    """Tell whether the visit's "power supply" is a part that makes low volts, and not the mains."""
    known: bool | None = narration.found.get("power supply is a part")
    if known is None:
        words = narration.lowers
        fitted = any(
            words[i : i + 2] == ["power", "supply"]
            and word_list("labels_fitted").intersection(words[max(0, i - 3) : i])
            for i in range(len(words) - 1)
        )
        known = fitted or not word_list("labels_converter_talk").isdisjoint(words)
        narration.found["power supply is a part"] = known
    return known


__all__ = ["OFTEN_OTHER", "is_other_thing"]
