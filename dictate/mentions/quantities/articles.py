"""Amounts said with an article: "a pound and a half", "half a pound", "three quarters of a pound"."""

from __future__ import annotations

from collections.abc import Sequence

from dictate.mentions.narration import Narration
from dictate.mentions.quantities.quantity import Quantity
from dictate.mentions.quantities.unit_behind import after_fillers, unit_behind
from dictate.mentions.spoken_numbers import Number
from dictate.mentions.unit_words import unit_phrases, unit_words
from dictate.mentions.word_lists import word_list


def _led(narration: Narration, start: int, end: int) -> bool:
    """Tell whether an article stands before a unit; "the" only before more: "in the hour and ten"."""
    words = narration.lowers
    if words[start - 1] in {"a", "an"}:
        return True
    return words[start - 1 : start + 1] == ["the", "hour"] and words[end : end + 1] == ["and"]


def article_quantities(narration: Narration, numbers: Sequence[Number]) -> list[Quantity]:
    """Find "a pound and a half", "half a pound", "a pound six ounces", "three quarters of a pound"."""
    tokens = narration.tokens
    units = unit_words()
    by_start = {n.start: (k, n) for k, n in enumerate(numbers)}
    inside = {t for n in numbers for t in range(n.start, n.end)}
    out: list[Quantity] = []
    for start, phrase in unit_phrases(narration).items():
        if start == 0 or phrase.key not in word_list("quantities_article_quantities"):
            continue
        if (start - 1) in inside or not _led(narration, start, phrase.end):
            continue
        unit = units[phrase.key]
        begin, value, used = start - 1, 1.0, []
        k = start - 2
        if k >= 0 and tokens[k].lower == "of":
            k -= 1
        lead = next((n for n in numbers if n.end == k + 1 and n.form == "fraction" and n.value < 1), None)
        end = phrase.end
        parts: tuple[float, ...] = ()
        if lead is not None:
            begin, value, used = lead.start, lead.value, [lead]
        else:
            if tokens[start].lower.endswith("s") and phrase.end - start == 1:
                continue
            i = after_fillers(narration, phrase.end)
            if i < len(tokens) and tokens[i].lower == "and":
                i += 1
            if i < len(tokens) and tokens[i].lower in {"a", "an"} and (i + 1) in by_start:
                i += 1
            found = by_start.get(i)
            if found is None and i in inside:
                found = next(((q, n) for q, n in enumerate(numbers) if n.start <= i < n.end), None)
            if found is not None:
                _, n = found
                following = unit_behind(narration, n.end, n)
                if (
                    n.form == "fraction"
                    and n.value < 1
                    and (following is None or following.key == phrase.key)
                ):
                    value, used, end = 1 + n.value, [n], n.end
                elif (
                    unit.joins
                    and following is not None
                    and following.key == unit.joins[0]
                    and n.value < unit.joins[1]
                ):
                    value, used, end = 1 + n.value / unit.joins[1], [n], following.end
                    parts = (1.0, n.value)
            if not used:
                # "50 cents a pound", "per pound", "a second": a rate or an article, unless a mass is meant
                before = tokens[start - 2].lower if start > 1 else ""
                if phrase.key not in word_list("quantities_article_alone") or before in {
                    "feet",
                    "foot",
                    "gallons",
                    "miles",
                    "times",
                    "dollars",
                    "bucks",
                }:
                    continue
        if not used:
            used = [Number(begin, begin + 1, 1.0)]
        out.append(Quantity(begin, end, value, phrase.key, unit.kind, unit.means, tuple(used), parts))
    return out
