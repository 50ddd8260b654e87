"""Unit words of units.toml in a narration."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from dictate.mentions.narration import Narration
from dictate.mentions.phrases import Phrase, Phrases
from dictate.vocabulary.load import table


@dataclass(frozen=True, slots=True)
class UnitWord:
    """One entry of units.toml."""

    id: str
    means: tuple[tuple[str, float], ...]
    kind: str
    prefix: bool
    joins: tuple[str, float] | None
    decimals_behind: bool = False


@cache
def unit_words() -> dict[str, UnitWord]:
    """Return the entries of units.toml by id."""
    out = {}
    for entry in table("units")["unit"]:
        joins = entry.get("joins")
        out[entry["id"]] = UnitWord(
            entry["id"],
            tuple((u, float(f)) for u, f in entry["means"]),
            entry.get("kind", "reading"),
            entry.get("prefix", False),
            (joins[0], float(joins[1])) if joins else None,
            entry.get("decimals_behind", False),
        )
    return out


@cache
def _matcher() -> Phrases:
    return Phrases({e["id"]: e["said"] for e in table("units")["unit"]})


def unit_phrases(narration: Narration) -> dict[int, Phrase]:
    """Return the longest unit phrase that starts at each token, whether a number stands before it or not."""
    done: dict[int, Phrase] | None = narration.found.get("unit_phrases")
    if done is None:
        done = {}
        for phrase in _matcher().all(narration):
            done.setdefault(phrase.start, phrase)  # the longest comes first
        narration.found["unit_phrases"] = done
    return done
