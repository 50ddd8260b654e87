"""What stands around a number, as several of these finders ask for it."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from dictate.mentions.labels import find_labels, find_points
from dictate.mentions.narration import Narration, Token
from dictate.vocabulary.load import table


@cache
def excluding(key: str) -> frozenset[str]:
    """Return a list of words of the group "exclude" of cues.toml."""
    return frozenset(table("cues")["exclude"][key])


def label_before(narration: Narration, start: int) -> bool:
    """Tell whether the word before is the end of a label ("suction line 41", "box temp at the case 38")."""
    ends: set[int] | None = narration.found.get("ends of labels")
    if ends is None:
        ends = {label.end for label in find_labels(narration)}
        ends |= {point.end for point in find_points(narration) if point.kind != "leg"}
        narration.found["ends of labels"] = ends
    return start in ends


def denies_a_value(narration: Narration, start: int) -> bool:
    """Tell whether the "no" before a number takes back the value before it: "84 ohms, no 480"."""
    from dictate.mentions.spoken_numbers import find_numbers
    from dictate.mentions.unit_words import unit_phrases

    words = narration.lowers
    if start < 4 or words[start - 2] != ",":
        return False
    units = unit_phrases(narration)
    for n in find_numbers(narration):
        if n.end > start:
            return False
        unit = units.get(n.end)
        if not n.pronoun and start - 2 in {n.end, unit.end if unit is not None else n.end}:
            return True
    return False


def sentence_around(tokens: Sequence[Token], at: int) -> tuple[int, int]:
    """Return the tokens between the full stops around a token."""
    first = at
    while first > 0 and at - first < 40 and tokens[first - 1].lower not in {".", "?", "!"}:
        first -= 1
    last = at
    while last < len(tokens) and last - at < 40 and tokens[last].lower not in {".", "?", "!"}:
        last += 1
    return first, last
