"""Electrical points in a narration: named ones, legs and winding pairs."""

from __future__ import annotations

from functools import cache

from dictate.mentions.labels.legs import find_legs, leg_firsts
from dictate.mentions.labels.phase_names import find_phase
from dictate.mentions.labels.point_at import PointAt
from dictate.mentions.labels.windings import winding_firsts, winding_pair
from dictate.mentions.narration import Narration
from dictate.mentions.phrases import Phrases
from dictate.vocabulary.load import table


@cache
def _point_phrases() -> Phrases:
    return Phrases({str(i): e["said"] for i, e in enumerate(table("points")["point"])})


@cache
def _point_firsts() -> frozenset[str]:
    """Return the words that windings, legs and phases begin with: only there a point is looked for."""
    return winding_firsts() | leg_firsts()


def find_points(narration: Narration) -> list[PointAt]:
    """Return the electrical points of the narration: named ones, legs and winding pairs."""
    done: list[PointAt] | None = narration.found.get("points")
    if done is not None:
        return done
    entries = table("points")["point"]
    out: list[PointAt] = []
    taken: set[int] = set()
    i = 0
    n = len(narration.tokens)
    firsts = _point_firsts()
    while i < n:
        if narration.lowers[i] not in firsts:
            i += 1
            continue
        found = find_phase(narration, i) or winding_pair(narration, i) or find_legs(narration, i)
        if found is not None:
            out.append(found)
            if found.kind == "legs":
                narration.found.setdefault("pair_rows", []).append(found.end)
            taken.update(range(found.start, found.end))
            i = found.end
        else:
            i += 1
    for phrase in _point_phrases().find(narration):
        loaded = phrase.start and narration.tokens[phrase.start - 1].lower in {
            "no",
            "under",
            "full",
            "rated",
            "locked",
        }
        if taken.isdisjoint(range(phrase.start, phrase.end)) and not loaded:
            entry = entries[int(phrase.key)]
            out.append(PointAt(phrase.start, phrase.end, entry["name"], "point", frozenset(entry["only"])))
    out.sort(key=lambda p: p.start)
    narration.found["points"] = out
    return out
