"""Heating elements of a machine that boils or heats water: they are no defrost heaters.

"Three elements in that pot. ... So I hung two elements, brand new, | twelve even apiece": most elements that
are told of are those of a defrost; no defrost is spoken of anywhere in such a visit.
"""

from __future__ import annotations

from collections.abc import Sequence

from dictate.mentions.narration import Narration
from dictate.mentions.second_opinion import MEASURED
from dictate.mentions.word_lists import word_list
from dictate.record.visit import Reading

_DEFROST, _PLAIN = "defrost heater", "heater"
_BOILS = frozenset(("steam", "pot", "kettle", "boiler", "proofer", "prover"))
_NAMES = frozenset(("element", "elements"))


def settle_elements(narration: Narration, readings: Sequence[Reading]) -> None:
    """Call elements of a machine that heats water plain heaters, in place."""
    words = set(narration.lowers)
    if _NAMES.isdisjoint(words) or any(w.startswith("defrost") for w in words):
        return
    if word_list("elements_of_water").isdisjoint(words):
        return
    coiled = not {"heater", "heaters", "coil", "evaporator"}.isdisjoint(words)
    if coiled and _BOILS.isdisjoint(words):
        return  # a coil may have elements of its own; those of a pot are told with neither
    for r in readings:
        if r.component == _DEFROST and r.role == MEASURED:
            r.component = _PLAIN


__all__ = ["settle_elements"]
