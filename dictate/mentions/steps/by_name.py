"""Somebody who will be told, by a name that only its capital tells.

"I'll email Priya. Four hours."  "I'll tell Nick on the way out."  "I'll call Mrs Hill when it's down."

Whom one speaks to while working is no customer ("Nick! Is it off?"), and who is told to do something, or is
called for a part, is not told of the work.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice

from dictate.mentions.patterns import Words
from dictate.mentions.steps.found import Found
from dictate.mentions.steps.phrases import RULED_OUT
from dictate.vocabulary.load import word_set

CODE = "customer_informed"
_MARKS = (".", ",", "!", "?", ";")


def told_by_name(words: Words, found: list[Found]) -> list[Found]:
    """Return the plan to tell somebody of it, where nothing else says who was told."""
    if any(f.code == CODE for f in found):
        return []
    told = (place for place, of_the_work in _tellings(words) if of_the_work)
    return [Found(CODE, "planned", start, end, None) for start, end in islice(told, 1)]


def rule_out_helpers(words: Words) -> None:
    """Note where somebody is told to do something or is spoken to: that is no report of the work."""
    here = [place for place, of_the_work in _tellings(words) if not of_the_work]
    words.narration.found.setdefault(RULED_OUT, {}).setdefault(CODE, []).extend(here)


def _tellings(words: Words) -> Iterator[tuple[tuple[int, int], bool]]:
    """Yield where somebody with a name will be told something, and whether that is of the work."""
    row = words.words
    for i in words.starting(frozenset({"i", "i'll", "we'll"})):
        apart = row[i + 1 : i + 2] == ("will",)
        verb = i + 1 + apart
        if row[i] == "i" and not apart:
            continue
        if row[verb : verb + 1] == () or row[verb] not in word_set("tells_somebody"):
            continue
        name = verb + 1 + (row[verb + 1 : verb + 2] != () and row[verb + 1] in word_set("titles"))
        if not _named(words, name) or _named(words, name + 1):
            continue
        behind = row[name + 1 : name + 2]
        if behind in (("to",), ("for",)) or _spoken_to(words, row[name]):
            yield (i, name + 1), False
            continue
        later = behind != () and behind[0] in word_set("once_it_has_come")
        if row[verb] == "let" and behind != ("know",):
            continue
        if row[verb] == "call" and not later and behind not in ((".",), (",",)):
            continue
        yield (i, name + 1), True


def _named(words: Words, k: int) -> bool:
    """Tell whether a word is written as a name within its sentence."""
    if k >= len(words.words) or k == words.sentences[words.sentence_of[k]][0]:
        return False
    text = words.narration.tokens[words.tokens[k]].text
    return text[:1].isupper() and len(text) > 1 and words.words[k].isalpha()


def _spoken_to(words: Words, name: str) -> bool:
    """Tell whether somebody of this name is spoken to in the visit: "Jim? On!", "hold it, Dee?"."""
    row = (".", *words.words, ".")
    return any(
        row[k - 1] in _MARKS and row[k + 1] in _MARKS for k in range(1, len(row) - 1) if row[k] == name
    )
