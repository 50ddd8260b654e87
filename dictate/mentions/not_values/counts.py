"""Numbers that count something, and sizes of several numbers."""

from __future__ import annotations

from collections.abc import Sequence

from dictate.mentions.how_many import placed_count
from dictate.mentions.labels import find_components, find_points, labels_by_end, labels_by_start
from dictate.mentions.narration import Narration, Token
from dictate.mentions.not_values.sure_times import dotted_time
from dictate.mentions.quantities.side_of_zero import below_zero
from dictate.mentions.spoken_numbers import Number, find_numbers, numbers_by_end, numbers_by_start
from dictate.mentions.unit_words import unit_phrases
from dictate.mentions.word_lists import word_list

_CUTS_WITHIN = 8
"""Words around where a control cuts out in which it is told where it cuts in."""
_CLOSES = frozenset((".", ",", ";", "and", "then"))
_PRESENTS = word_list("not_values_presents")


def not_at_zero(tokens: Sequence[Token], start: int) -> bool:
    """Tell whether a needle was said not to be at its nought: "the needle was never on zero"."""
    before = [t.lower for t in tokens[max(0, start - 4) : start]]
    return before[-1:] in (["on"], ["at"]) and any(w in {"never", "not"} or w.endswith("n't") for w in before)


def measured_after_all(narration: Narration, number: Number) -> bool:
    """Tell whether a number in front of "of" is a value: "six of superheat"."""
    tokens = narration.tokens
    if number.places:
        return True
    led = labels_by_end(narration).get(number.start)
    if led is not None and not led.label.weak:
        return True
    if tokens[number.end].lower == "of":
        ahead = {t.lower for t in tokens[number.end + 1 : number.end + 4]}
        if ahead & {"rated", "plate", "nameplate"}:
            return True  # "pulled 41 of the rated 46"
        if ahead & (word_list("readings_spreads") | {"nitrogen", "nitro"}):
            return True  # "thirty six of pickup", "three hundred of dry nitrogen"
        behind = (labels_by_start(narration).get(number.end + k) for k in (1, 2))
        return any(label is not None and label.label.quantity for label in behind)
    return False


def small_word(narration: Narration, number: Number) -> bool:
    """Tell whether a small whole number is a count or a pronoun: nothing in front of it presents a value."""
    if number.places or number.negative or not number.value.is_integer() or not 1 <= number.value <= 4:
        return False
    if number.end - number.start != 1:
        return False
    if below_zero(narration.lowers, number.end) is not None:
        return False  # "Four below when I left."
    if _cut_at(narration.lowers, number):
        return False
    there = [t.lower for t in narration.tokens[max(0, number.start - 3) : number.start]]
    if there[-2:] in (["there", "are"], ["there", "'s"], ["there", "is"], ["there", "were"]):
        return True
    if there[-1:] == ["between"] or ("between" in there[:-1] and there[-1:] == ["and"]):
        return False
    tokens = narration.tokens
    before = tokens[number.start - 1].lower if number.start else "."
    after = tokens[number.end].lower if number.end < len(tokens) else "."
    if after in {"flat", "even"} and before in {",", "and", "uh", "um"}:
        row = [n for n in find_numbers(narration) if number.start - 7 <= n.end < number.start]
        if row and row[-1].places and 0.5 <= row[-1].value / number.value <= 2:
            return False  # "point nine, point nine, one flat"
    at = number.start - (before in {"at", "is", "was", "'s", "to", "on"})
    reached = at
    while (
        at < number.start
        and reached
        and tokens[reached - 1].lower in {"down", "up", "back", "is", "'s", "was", "now"}
    ):
        reached -= 1
    led = labels_by_end(narration).get(reached)
    cold = led is not None and led.label.default == "temperature"
    if cold and at < number.start and after in word_list("not_values_small_word_3"):
        return False  # "boxes at 4 after half an hour"
    if after in _CLOSES and any(
        p.end == at and p.kind in {"winding", "ground"} for p in find_points(narration)
    ):
        return False  # "common to start four": ohms of a winding
    named = labels_by_end(narration).get(number.start)
    pointed = named is not None and named.start and named.end - named.start == 1
    if named is not None and pointed and tokens[number.start].lower == "one":
        kind = tokens[named.start - 1].lower
        if kind in {"the", "this", "that", "a"}:
            return True  # "it's the cellar cooler, the split one"
    if named is not None:
        return tokens[number.start].lower == "one" and after not in {".", ",", "even", "and", "flat", "?"}
    if tokens[number.start].lower == "one":
        return not (
            before in _PRESENTS - {"and", "or", "of", ",", "on", "to", "from"}
            and after in word_list("not_values_small_word_2")
        )
    if any(c.end == number.start for c in find_components(narration)):
        return False
    return before not in _PRESENTS or after not in word_list("not_values_small_word")


def _cut_at(words: Sequence[str], number: Number) -> bool:
    """Tell whether a number is where a control cuts out: "cut in four and a half, cut out | two"."""
    cuts = word_list("settings_cuts")
    led = [
        w for w in words[max(0, number.start - _CUTS_WITHIN) : number.start] if w not in {"at", "'s", "is"}
    ]
    if not (" ".join(led[-2:]) in cuts or (led[-1:] and led[-1] in cuts)):
        return False
    told = [*led[:-2], *words[number.end : number.end + _CUTS_WITHIN]]
    twice = any(" ".join(told[k : k + 2]) in cuts or told[k] in cuts for k in range(len(told)))
    return twice or words[number.end : number.end + 1] in ([], ["."], [","], [";"], ["?"])


def counted_by_place(narration: Narration, number: Number) -> bool:
    """Tell whether a number counts things by where they are: "the outside two are 1.1 each"."""
    words, at = narration.lowers, number.start
    if words[at - 2 : at - 1] != ["the"] or number.end - at != 1 or number.value > 12:
        return False
    return placed_count(words, at - 2) is not None


def counts_noun(narration: Narration, number: Number) -> bool:
    """Tell whether a number at the start of a sentence counts the noun behind it: "Eight hole cabinet"."""
    tokens = narration.tokens
    start, end = number.start, number.end
    before = tokens[start - 1].lower if start else "."
    if before not in {".", "?", "!"} or number.places or not 1 <= number.value <= 24 or end >= len(tokens):
        return False
    after = tokens[end].lower
    if after == "of" and measured_after_all(narration, number):
        return False
    if end in labels_by_start(narration) or end in unit_phrases(narration):
        return False
    return after.isalpha() and after not in word_list("not_values_counts_noun")


def size_of_several(narration: Narration, number: Number) -> bool:
    """Tell whether "16 by 25 by 1" is a size: numbers on both sides of the word."""
    words, by = narration.lowers, {"by", "x", "×"}
    beside = []
    if number.end < len(words) and words[number.end] in by:
        beside.append(numbers_by_start(narration).get(number.end + 1))
    if number.start > 1 and words[number.start - 1] in by:
        beside.append(numbers_by_end(narration).get(number.start - 1))
    return any(n is not None and not dotted_time(narration, n) for n in beside)
