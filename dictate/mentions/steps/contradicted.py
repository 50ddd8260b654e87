"""Steps that the words of their own sentence deny: what was tried in vain, and what they say is not so.

    contradicted(words, found) -> the steps that remain

"Went to recover it and the cylinder's full", "tried to isolate it, the handle's broken": an attempt, and
behind it what came in between. "Caps are missing on both ports", "panel back on, power's still off": phrases
that cannot stand in the sentence of that step (steps_contradicted.toml). Volts that were read are no proof
that a circuit is dead: "each leg to ground, one twenty".
"""

from __future__ import annotations

from dictate.mentions.patterns import Words
from dictate.mentions.spoken_numbers import numbers_by_start
from dictate.mentions.steps.found import Found
from dictate.mentions.tense.attempts import in_vain, phrase_of

_LIVE = 20
"""The least number that is a voltage; what is below counts legs."""
_NEXT = 5
"""Words at most of a sentence behind that only gives what the meter showed: "... voltage. One nineteen"."""
_ATTEMPT = 4
"""Words at most between an attempt and its work: "went to go and change the"."""


def contradicted(words: Words, found: list[Found]) -> list[Found]:
    """Return the steps without those that their own sentence denies."""

    def denied(f: Found) -> bool:
        if f.status != "done":
            return _no_such_step(words, f)
        return _denied(words, f) or _no_test(words, f, found)

    return [f for f in found if not denied(f)]


def _no_such_step(words: Words, f: Found) -> bool:
    """Tell whether what was not done is another thing: "new gasket's in the truck, forgot to put it on"."""
    return _said(words, f"never_{f.code}", *words.sentences[words.sentence_of[f.start]])


def _no_test(words: Words, f: Found, found: list[Found]) -> bool:
    """Tell whether a test is denied in its own sentence or the next, and nothing there tells of a test.

    "Put fifty kPa of nitrogen in. That's no pressure test, just a holding charge."
    """
    if f.code != "pressure_tested":
        return False
    here = words.sentence_of[f.start]
    denied = any(
        g.code == f.code and g.status == "not_done" and 0 <= words.sentence_of[g.start] - here <= 1
        for g in found
    )
    return denied and not _said(words, "unless_pressure_tested", *words.sentences[here])


def _denied(words: Words, f: Found) -> bool:
    if f.code == "absence_of_voltage_verified" and _live(words, f):
        return True
    start, end = words.sentences[words.sentence_of[f.start]]
    if _said(words, f"not_{f.code}", start, end) and not _said(words, f"unless_{f.code}", start, end):
        return True
    return _tried_in_vain(words, f, start, end)


def _said(words: Words, name: str, start: int, end: int) -> bool:
    """Tell whether a phrase of a list stands in the words [start, end)."""
    return any(phrase_of(name, words.words, i, end) for i in range(start, end))


def _tried_in_vain(words: Words, f: Found, start: int, end: int) -> bool:
    """Tell whether a step is what an attempt was for, and what came in between follows in its sentence."""
    row = words.words
    for i in range(start, min(end, f.end)):
        size = phrase_of("attempts", row, i, end)
        if not size or not (f.start <= i or f.start - i - size <= _ATTEMPT):
            continue
        if in_vain(row[i + size + 1 : end]):
            return True
    return False


def _live(words: Words, f: Found) -> bool:
    """Tell whether volts are told in the sentence of a dead test, and nothing that says dead."""
    number = words.sentence_of[f.start]
    start, end = words.sentences[number]
    if number + 1 < len(words.sentences):
        following = words.sentences[number + 1]
        end = following[1] if following[1] - following[0] <= _NEXT else end
    numbers = numbers_by_start(words.narration)
    row, tokens = words.words, words.tokens
    exact = [
        i for i in range(start, end - 2) if row[i : i + 2] == ("dead", "on") and tokens[i + 2] in numbers
    ]
    if exact and row[start:end].count("dead") == len(exact):
        return True  # "dead on thirty-four" is how exact it is
    if _said(words, "says_dead", start, end):
        return False
    told = (numbers.get(words.tokens[i]) for i in range(start, end))
    return any(x is not None and x.value >= _LIVE and not x.pronoun for x in told)
