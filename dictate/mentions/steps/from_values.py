"""Steps that only a value tells of: an amount that went in, a vacuum that was read, no volts after the lock.

"Gave it a pound and a half" says that it was charged, and "two ninety microns" that a vacuum was pulled, in
whatever words. A value whose role is doubtful gives its reason to the step.
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

from dictate.mentions.narration import Narration
from dictate.mentions.patterns import Words, words_of
from dictate.mentions.standing_tests import find_standing
from dictate.mentions.tense import scopes_of
from dictate.mentions.told_outright import is_moved_told_outright
from dictate.record.base import At
from dictate.record.mentions import Mentions
from dictate.record.visit import Movement, Reading, Step, StepCode
from dictate.units import convert
from dictate.vocabulary.load import word_set

SURE_VACUUM_SIGNS = ("vacuum", "evac", "pump", "valved", "microns", "torr", "blank", "isolated")
VACUUM_SIGNS = ("vac", "evac", "pump", "valved", "microns", "torr", "blank")
REACH = 40
"""How many words behind an isolation a reading of no volts still is its proof."""
SENTENCES = 4
"""How many sentences; those who work while they talk say it in short ones."""
NITROGEN = ("nitrogen", "ofn", "n2", "nitro")
LOWEST_TEST = 70.0
"""Psi: nitrogen below it only flows."""
HOLDS_BELOW = 1000.0
"""Micron: a vacuum that rises above it did not hold."""
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
        *_of_held_vacuums(places, mentions),
        *_of_standing(narration, places, mentions),
        *_of_tested_pressures(places, mentions),
        *_of_no_volts(places, mentions),
    ]
    if added:
        mentions.steps.extend(added)
        mentions.steps.sort(key=lambda s: places.first(s.at))


class _Places:
    """Where the things of the record stand among the words."""

    def __init__(self, narration: Narration, words: Words) -> None:
        self.words = words
        self._narration = narration
        self.scopes = scopes_of(words)
        self._tokens: dict[tuple[int, int], int] = {}
        for token in narration.tokens:
            self._tokens.setdefault((token.segment, token.word), token.index)

    def first(self, at: At) -> int:
        """Return the word at which a thing begins."""
        token = self._tokens.get((at.segment or 0, at.first_word or 0), 0)
        return self.words.word_of_token(token)

    def moved_outright(self, at: At) -> bool:
        """Tell whether the words say outright that an amount moved: "plate says 28 ounces, she got 28"."""
        token = self._tokens.get((at.segment or 0, at.first_word or 0), 0)
        return is_moved_told_outright(self._narration, token)

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
        first = next(
            (
                m
                for m in moved
                if (_may_be_done(places, m.at) or places.moved_outright(m.at))
                and not _of_ice(places, m.at)
                and not any("planned or wanted" in why for why in m.review)
            ),
            None,
        )
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


def _of_ice(places: _Places, at: At) -> bool:
    """Tell whether the amount is what an ice machine made."""
    start, end = places.scopes.sentence(places.first(at))
    signs = ("ice", "slab", "cubes", "harvest", "caught", "fell")
    return any(w in signs for w in places.words.words[start:end])


def _of_vacuums(places: _Places, mentions: Mentions) -> list[Step]:
    """Return an evacuation for a vacuum that was read, where none was told."""
    if any(s.step == "evacuated" for s in mentions.steps):
        return []
    for r in mentions.readings:
        if r.quantity != "vacuum" or r.role != "measured" or r.value is None or r.state != "value":
            continue
        if convert(r.value, r.unit, "micron") > DEEPEST_START or not _may_be_done(places, r.at):
            continue
        pulled = _pulled_to(places, r.at)  # "pulled to 480 in 50 minutes" needs no other sign
        if not pulled and not _near(places, r.at, SURE_VACUUM_SIGNS if r.unit_assumed else VACUUM_SIGNS):
            continue
        return [_step("evacuated", r.at, r.heard, r.review)]
    return []


def _pulled_to(places: _Places, at: At) -> bool:
    i = places.first(at)
    front = places.words.words[max(0, i - 5) : i]
    return "to" in front and any(w in ("pulled", "pulling") for w in front)


def _near(places: _Places, at: At, beginnings: tuple[str, ...], reach: int = 2) -> bool:
    """Tell whether a word with one of the beginnings is said in the sentences around a value."""
    words = places.words
    number = places.sentence(places.first(at))
    start = words.sentences[max(0, number - reach)][0]
    end = words.sentences[min(len(words.sentences) - 1, number + reach)][1]
    return any(w.startswith(beginnings) for w in words.words[start:end])


def _of_held_vacuums(places: _Places, mentions: Mentions) -> list[Step]:
    """Return the hold of a vacuum that was read again later with the pump shut off."""
    if any(s.step == "vacuum_held" for s in mentions.steps):
        return []
    pulled = [
        r
        for r in mentions.readings
        if r.quantity == "vacuum" and r.role == "measured" and r.value is not None and r.state == "value"
    ]
    row = places.words.words
    for first, later in pairwise(pulled):
        a, b = places.first(first.at), places.first(later.at)
        low, high = (convert(r.value or 0.0, r.unit, "micron") for r in (first, later))
        if not a < b <= a + REACH or not low <= high <= HOLDS_BELOW:
            continue
        told = row[max(0, a - 12) : b + 10]
        if not any(w in word_set("shut_from_pump") for w in told):
            continue
        if not any(w in ("minutes", "minute", "hour", "min", "later", "hours") for w in told):
            continue
        if _may_be_done(places, later.at):
            return [_step("vacuum_held", later.at, later.heard, later.review)]
    return []


def _of_standing(narration: Narration, places: _Places, mentions: Mentions) -> list[Step]:
    """Return a pressure test for a pressure that was left to stand, told without a word of gas or of a test.

    Watching such a pressure is no run of the machine.
    """
    standing = find_standing(narration)
    if not standing:
        return []
    of = places.words.word_of_token
    spans = [(of(s.start), of(s.end), s.told) for s in standing]
    mentions.steps = [
        s for s in mentions.steps
        if s.step != "run_checked" or not any(a <= places.first(s.at) < b for a, b, _ in spans)
    ]  # fmt: skip
    if any(s.step == "pressure_tested" for s in mentions.steps):
        return []
    for r in mentions.readings:
        if r.quantity != "pressure" or r.role != "measured" or r.value is None:
            continue
        i = places.first(r.at)
        if any(a <= i < b and (told or _may_be_done(places, r.at)) for a, b, told in spans):
            return [_step("pressure_tested", r.at, r.heard, r.review)]
    return []


def _of_tested_pressures(places: _Places, mentions: Mentions) -> list[Step]:
    """Return a pressure test for a pressure of nitrogen that stood, where none was told."""
    if any(s.step == "pressure_tested" for s in mentions.steps):
        return []
    row = places.words.words
    for r in mentions.readings:
        if (
            r.quantity != "pressure"
            or r.role != "measured"
            or r.value is None
            or r.reference == "vacuum_depth"
        ):
            continue
        if convert(r.value, r.unit, "psi") < LOWEST_TEST or not _near(places, r.at, NITROGEN, 1):
            continue
        i = places.first(r.at)
        start, end = places.words.sentences[places.sentence(i)]
        after = row[i : min(len(row), i + 30)]
        if any(w in word_set("refrigerant_side_words") for w in row[max(start, i - 5) : min(end, i + 6)]):
            continue
        if not any(w in word_set("test_stands") for w in after):
            continue
        if _may_be_done(places, r.at):
            return [_step("pressure_tested", r.at, r.heard, r.review)]
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
            if not start < i <= start + REACH or places.sentence(i) - places.sentence(start) > SENTENCES:
                continue
            if _power_came_back(places.words.words, start, i) or not _may_be_done(places, r.at):
                continue
            return [_step("absence_of_voltage_verified", r.at, r.heard, r.review)]
    return []


def _power_came_back(row: tuple[str, ...], start: int, i: int) -> bool:
    """Tell whether power is told to be on again before word i; "my lock on it", "tag on" is none."""
    return any(
        row[k] in word_set("power_comes_back")
        and not (row[k] == "on" and (row[k - 1] in word_set("locks_and_tags") or row[k + 1] == "it"))
        for k in range(start, i)
    )


def _is_no_volts(r: Reading) -> bool:
    return r.quantity == "voltage" and r.role == "measured" and r.value == 0
