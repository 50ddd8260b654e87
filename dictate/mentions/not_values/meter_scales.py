"""The ranges of a meter, which are no values: "the clamp on the 200", "the 20 volt scale"."""

from __future__ import annotations

from functools import cache

from dictate.mentions.narration import Narration
from dictate.vocabulary.load import table


@cache
def _words(name: str) -> frozenset[str]:
    return frozenset(table("called_by_number")["scale"][name])


def is_scale(narration: Narration, start: int, end: int, unit: str | None = None) -> bool:
    """Tell whether the tokens [start, end) of a number, or of a number with its unit, are a range of a meter.

    A pressure "in the 60 range" is a value, so a range is led by "on" or "to", and a bare number with no noun
    behind it by a meter as well ("clamp on the 200,").
    """
    words = narration.lowers
    behind = words[end] if end < len(words) else "."
    led = words[max(0, start - 3) : start]
    if led[-1:] in (["the"], ["a"], ["my"], ["its"]):
        led = led[:-1]
        article = True
    else:
        article = False
    if led[-1:] == [] or led[-1] not in _words("leads"):
        return behind in {"scale", "scales"} and (unit is None or unit in _words("units")) and article
    if behind in _words("nouns"):
        return unit is None or unit in _words("units")
    metered = not _words("meters").isdisjoint(words[max(0, start - 6) : start])
    bare = unit is None and led[-1] == "on" and article
    return bare and metered and behind in {".", ",", ";", "with", "so", "and"}


__all__ = ["is_scale"]
