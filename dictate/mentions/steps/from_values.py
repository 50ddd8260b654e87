"""Steps that only a value tells of: an amount that went in, a vacuum that was read, no volts after the lock.

"Gave it a pound and a half" says that it was charged, and "two ninety microns" that a vacuum was pulled, in
whatever words. A value whose role is doubtful gives its reason to the step.
"""

from __future__ import annotations

from collections.abc import Iterable

from dictate.mentions.narration import Narration
from dictate.mentions.patterns import Words, words_of
from dictate.mentions.tense import scopes_of
from dictate.record.base import At
from dictate.record.mentions import Mentions
from dictate.record.visit import Movement, Reading, Step, StepCode
from dictate.units import convert
from dictate.vocabulary.load import word_set

VACUUM_SIGNS = ("vac", "evac", "pump", "valved", "microns", "torr", "blank")
REACH = 40
"""How many words behind an isolation a reading of no volts still is its proof."""
DEEPEST_START = 20_000.0
"""Micron: what stands above it was no vacuum yet."""
_MOVED: dict[str, StepCode] = {"charged": "charged", "recovered": "refrigerant_recovered"}


def add_steps_of_values(narration: Narration, mentions: Mentions) -> None:
    """Add the steps that movements and readings tell of and no words of the work told."""
    words = words_of(narration)
    places = _Places(narration, words)
    added = [
        *_of_movements(places, mentions),
        *_of_vacuums(places, mentions),
        *_of_no_volts(places, mentions),
    ]
    if added:
        mentions.steps.extend(added)
        mentions.steps.sort(key=lambda s: places.first(s.at))


class _Places:
    """Where the things of the record stand among the words."""

    def __init__(self, narration: Narration, words: Words) -> None:
        self.words = words
        self.scopes = scopes_of(words)
        self._tokens: dict[tuple[int, int], int] = {}
        for token in narration.tokens:
            self._tokens.setdefault((token.segment, token.word), token.index)

    def first(self, at: At) -> int:
        """Return the word at which a thing begins."""
        token = self._tokens.get((at.segment or 0, at.first_word or 0), 0)
        return self.words.word_of_token(token)

    def sentence(self, i: int) -> int:
        """Return the number of the sentence of word i."""
        return self.words.sentence_of[min(i, len(self.words.words) - 1)]


def _step(code: StepCode, at: At, heard: str, review: Iterable[str]) -> Step:
    return Step(step=code, status="done", at=at.model_copy(), heard=heard, review=list(review))


def _said(mentions: Mentions, code: str, status: str = "done") -> list[Step]:
    return [s for s in mentions.steps if s.step == code and s.status == status]


def _of_movements(places: _Places, mentions: Mentions) -> list[Step]:
    """Return a charge or a recovery for an amount moved, where none was told at all."""
    out = []
    for direction, code in _MOVED.items():
        if _said(mentions, code):
            continue
        moved: list[Movement] = [m for m in mentions.movements if m.direction == direction and m.value]
        first = next((m for m in moved if _may_be_done(places, m.at)), None)
        if first is not None:
            out.append(_step(code, first.at, first.heard, first.review))
    return out


def _may_be_done(places: _Places, at: At) -> bool:
    """Tell whether nothing around a value says that it is a plan, a condition or somebody else's."""
    i = places.first(at)
    talk = places.scopes
    start, end = talk.sentence(i)
    around = places.words.words[start:end]
    if any(w in word_set("other_fills") for w in around):
        return False
    return not talk.advised(i) and talk.noun(i, i + 1) == "done"


def _of_vacuums(places: _Places, mentions: Mentions) -> list[Step]:
    """Return an evacuation for a vacuum that was read, where none was told."""
    if any(s.step == "evacuated" for s in mentions.steps):
        return []
    if not any(w.startswith(VACUUM_SIGNS) for w in places.words.words):
        return []
    for r in mentions.readings:
        if r.quantity != "vacuum" or r.role != "measured" or r.value is None or r.state != "value":
            continue
        if convert(r.value, r.unit, "micron") > DEEPEST_START or r.unit_assumed or not _may_be_done(places, r.at):
            continue
        return [_step("evacuated", r.at, r.heard, r.review)]
    return []


def _of_no_volts(places: _Places, mentions: Mentions) -> list[Step]:
    """Return the proof that it was dead where no volts were read soon after the power was isolated."""
    if any(s.step == "absence_of_voltage_verified" for s in mentions.steps):
        return []
    for off in _said(mentions, "power_isolated"):
        start = places.first(off.at)
        for r in mentions.readings:
            if not _is_no_volts(r):
                continue
            i = places.first(r.at)
            if not start < i <= start + REACH or places.sentence(i) - places.sentence(start) > 2:
                continue
            between = places.words.words[start:i]
            if any(w in word_set("power_comes_back") for w in between) or not _may_be_done(places, r.at):
                continue
            return [_step("absence_of_voltage_verified", r.at, r.heard, r.review)]
    return []


def _is_no_volts(r: Reading) -> bool:
    return r.quantity == "voltage" and r.role == "measured" and r.value == 0
