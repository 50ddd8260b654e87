"""Words of correction that were said in another sense: "check that the lid shuts", "it won't start again".

The same words put a value right, order a man, or tell what a machine did. What stands directly in front of
them and behind them tells the senses apart; where it does not, they are taken for a correction, since a value
that was taken back and is kept is worse than a reason too many.
"""

from __future__ import annotations

from bisect import bisect_left
from functools import cache
from typing import Any

from dictate.mentions.corrections.asides import said_aside
from dictate.mentions.corrections.correction_words import CUTS, STOPS
from dictate.mentions.labels import find_labels
from dictate.mentions.narration import Narration
from dictate.mentions.spoken_numbers import find_numbers
from dictate.mentions.unit_words import unit_phrases, unit_words
from dictate.mentions.word_lists import word_list
from dictate.vocabulary.load import table


@cache
def _senses() -> dict[str, list[tuple[frozenset[str], ...]]]:
    """Return, for each first word of a cue, what takes its sense away: (cue, before, behind, clause)."""
    out: dict[str, list[tuple[frozenset[str], ...]]] = {}
    entries: list[dict[str, Any]] = table("corrections")["sense"]["other"]
    for entry in entries:
        for cue in entry["cues"]:
            said = cue.split()
            rule = (frozenset({cue}), *(frozenset(entry.get(k, ())) for k in ("before", "behind", "clause")))
            out.setdefault(said[0], []).append(rule)
    return out


def other_sense(narration: Narration, start: int, end: int) -> bool:
    """Tell whether the words of a cue at the tokens [start, end) were said in another sense.

    >>> other_sense(Narration.from_text("Check that the lid shuts"), 0, 2)
    True
    """
    words = narration.lowers
    if said_aside(narration, start, end):
        return True
    said = " ".join(words[start:end]).replace(" 's", "'s")
    before, behind = words[start - 1 : start], words[end : end + 1]
    for cue, front, back, clause in _senses().get(words[start], ()):
        if said not in cue:
            continue
        counted = behind and behind[0] in {"a", "an", "one"} and _next_number(narration, end) == end
        if (before and before[0] in front) or (behind and behind[0] in back and not counted):
            return True  # "make that one work", but "make that one thirty five", "make that a hundred"
        if clause:
            a = start
            while a > 0 and words[a - 1] not in CUTS:
                a -= 1
            if clause & set(words[a:start]):
                return True
    if said in {"sorry", "i'm sorry"} and behind == ["i"]:
        verb = words[end + 1 : end + 2]
        return bool(verb) and verb[0] not in table("corrections")["sense"]["sorry_i"]  # "sorry I dropped it"
    if said in {"wait", "weight"} and _next_number(narration, end) == end:
        return _counts_time(narration, end)  # "a half turn open, wait ten minutes, eleven"
    if said == "i mean":
        return _explains(narration, end)
    if said in _pauses() and _pauses_only(narration, start, end):
        return True
    return said in table("corrections")["pauses"]["said"] and _before_its_value(narration, start)


def _counts_time(narration: Narration, at: int) -> bool:
    """Tell whether the number at a token is how long somebody waits."""
    x = next((x for x in find_numbers(narration) if x.start == at), None)
    phrase = unit_phrases(narration).get(x.end) if x is not None else None
    return phrase is not None and unit_words()[phrase.key].id in {"minute", "hour", "second"}


@cache
def _pauses() -> frozenset[str]:
    return frozenset(table("corrections")["sense"]["pauses"])


def _explains(narration: Narration, end: int) -> bool:
    """Tell whether "I mean" opens a sentence of its own: "I mean it was forty degrees colder"."""
    words = narration.lowers
    subjects = table("corrections")["sense"]["subjects"]
    if not words[end : end + 1] or words[end] not in subjects:
        return False
    first = _next_number(narration, end)
    copula = {"is", "was", "'s", "it", "it's", "that", "that's", "the", ",", "on", "at", "more", "like"}
    stop = next((k for k in range(end, len(words)) if words[k] in STOPS), len(words))
    if first is None or first >= stop:
        # "I mean it's cold": nothing is put right, unless a thing is named anew
        return words[end] in {"it", "it's", "that", "that's", "they", "they're", "you", "he", "she", "there"}
    return first - end > 2 and not set(words[end:first]) <= copula and words[end] != "the"


def _pauses_only(narration: Narration, start: int, end: int) -> bool:
    """Tell whether "hang on" only stops the talk: nothing that could be a repair follows for a while."""
    words = narration.lowers
    if words[end : end + 1] not in ([","], ["."]) or (start and words[start - 1] not in STOPS):
        return False
    stops = [k for k in range(end, min(len(words), end + 60)) if words[k] in STOPS]
    until = stops[0] if words[end] == "," and stops else (stops[1] if len(stops) > 1 else len(words))
    first = _next_number(narration, end)
    people = set(table("corrections")["sense"]["people"])
    return bool(people & set(words[end:until])) and (first is None or first >= until)


def _before_its_value(narration: Narration, start: int) -> bool:
    """Tell whether words of waiting stand between a name and its number: "36, and the head, hang on, 241".

    The name opens its own piece of the sentence, and the number before has a name of its own.
    """
    words, labels = narration.lowers, find_labels(narration)
    at = start - (words[start - 1 : start] == [","])
    for said in table("corrections")["pauses"]["said"]:
        front = at - len(said.split())
        if " ".join(words[max(0, front) : at]) == said:
            at = front - (words[front - 1 : front] == [","])
            break
    name = next((x for x in labels if x.end == at), None)
    if name is None:
        return False
    i = name.start
    while i > 0 and words[i - 1] in word_list("roles_determiners"):
        i -= 1
    if i == 0 or words[i - 1] not in STOPS | {",", "and", "but", "then"}:
        return False
    starts = _starts(narration)
    k = bisect_left(starts, name.start)
    if k == 0 or any(name.start <= n < start for n in starts[k : k + 1]):
        return False
    return any(starts[k - 1] - 6 <= x.end <= starts[k - 1] for x in labels if x is not name)


def _next_number(narration: Narration, at: int) -> int | None:
    starts = _starts(narration)
    k = bisect_left(starts, at)
    return starts[k] if k < len(starts) else None


def _starts(narration: Narration) -> list[int]:
    starts: list[int] | None = narration.found.get("plain number starts")
    if starts is None:
        starts = [x.start for x in find_numbers(narration) if not x.pronoun]
        narration.found["plain number starts"] = starts
    return starts


__all__ = ["other_sense"]
