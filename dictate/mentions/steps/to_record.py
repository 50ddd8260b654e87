"""A step in the form of the record."""

from __future__ import annotations

from typing import cast

from dictate.mentions.narration import Narration
from dictate.mentions.patterns import Words
from dictate.mentions.steps.found import BY_PART, TAKES_BACK, Found
from dictate.mentions.tense import ENDING_LOST, Scopes
from dictate.record.visit import Step, StepCode

NARROWED = "what was done was said anew right behind it, with less"


def step_of(narration: Narration, words: Words, f: Found, scopes: Scopes) -> Step:
    """Return the record's step."""
    last = end_with_gas(words, f) if f.code == "pressure_tested" else f.end
    start, end = words.span(f.start, last)
    return Step(
        step=cast(StepCode, f.code),
        status=f.status,
        component=f.component,
        at=narration.at(start, end),
        heard=narration.heard(start, end),
        review=[
            *([ENDING_LOST] if f.status == "done" and scopes.ending_lost(f.start) else []),
            *([NARROWED] if is_narrowed(words, f) else []),
            *([f.why] if f.why else []),
        ],
    )


def is_narrowed(words: Words, f: Found) -> bool:
    """Tell whether a list of parts is cut down behind it: "motor and capacitor, no, capacitor only"."""
    if f.code not in BY_PART or f.status != "done":
        return False
    _, stop = words.sentences[words.sentence_of[f.end - 1]]
    behind = words.words[f.end : min(stop, f.end + 14)]
    cue = next((k for k, w in enumerate(behind) if w in TAKES_BACK), None)
    return cue is not None and bool({"only", "just"} & set(behind[cue : cue + 7]))


def end_with_gas(words: Words, f: Found) -> int:
    """Return the end of a pressure test's words with the gas, when it is named right behind them."""
    _, stop = words.sentences[words.sentence_of[f.start]]
    for k in range(f.end, min(stop, f.end + 8)):
        if words.words[k] in ("nitrogen", "n2", "ofn"):
            return k + 1
    return f.end
