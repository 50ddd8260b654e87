"""Which coil was cleaned, where only "the coil" is said: `coil_told(talk, handled)`.

The words around speak of the warm side ("head came down", "lint", "on the roof") or of the cold one ("ice",
"honeycomb", "discharge air"); each counts by how near it stands.
"""

from __future__ import annotations

from dataclasses import replace

from dictate.mentions.handled.doing import Handled
from dictate.mentions.handled.talk import Talk
from dictate.vocabulary.load import word_set

_BACK, _ON, _HALF = 90, 30, 12
"""Words looked at before and behind the coil, and after how many a word counts half."""


def coil_told(talk: Talk, h: Handled) -> None:
    """Name the coil of a cleaning that only says "the coil", where the words around tell which."""
    for k, thing in enumerate(h.things):
        if thing.generic and thing.name == "coil" and (name := _side(talk, h.start, h.end)) is not None:
            h.things[k] = replace(thing, name=name, part=name, generic=False)


def _side(talk: Talk, start: int, end: int) -> str | None:
    weights = {"condenser coil": 0.0, "evaporator coil": 0.0}
    cold, warm = word_set("cold_coil_signs"), word_set("warm_coil_signs")
    for k in range(max(0, start - _BACK), min(len(talk.words), end + _ON)):
        word = talk.words[k]
        if k and talk.words[k - 1 : k + 1] in (("crank", "case"), ("of", "split"), ("degree", "split")):
            continue  # a heater of the compressor, a difference of temperatures
        side = "evaporator coil" if word in cold else "condenser coil" if word in warm else None
        if side is not None:
            apart = start - k if k < start else max(0, k - end)
            named = 2 if word.startswith(("condens", "evap")) else 1
            weights[side] += named / (1 + apart / _HALF)
    best = max(weights, key=weights.__getitem__)
    return best if weights[best] > 0 else None
