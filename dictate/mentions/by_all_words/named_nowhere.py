"""A motor that nobody named, where the talk names one fan only: its amps and ohms are that one's.

"Supply fan's on a drive ... At 60 hertz it's 31.2 amps" sounds of a compressor, for most amps are one's; but
no compressor is spoken of anywhere in the visit, and the meter has been on that fan all along.
"""

from __future__ import annotations

from collections.abc import Sequence

from dictate.mentions.by_all_words.words_taken import tokens_at
from dictate.mentions.labels import find_components
from dictate.mentions.narration import Narration
from dictate.mentions.patterns import words_of
from dictate.mentions.second_opinion import MEASURED
from dictate.mentions.whose.taken import MOTORS
from dictate.mentions.whose.things import things_of
from dictate.record.visit import Reading

_ANY = frozenset(("motor", "fan motor", "pump"))
"""Names that may be any motor's."""
_FANS = frozenset(("condenser fan motor", "evaporator fan motor", "blower motor"))
_SIDES = frozenset(("condenser", "cond", "outdoor", "outside", "evaporator", "evap", "indoor", "inside"))
_PAIRS = frozenset(("L1-L2", "L2-L3", "L1-L3"))
_CONTACTS = frozenset(("coil", "coils", "contactor", "contactors", "pole", "poles", "contacts"))
_LEAD = 16  # words in front of a value in which windings are named
_OF_A_DRIVE = 0.5  # amps; less is a signal's
_ALIKE = 1.5
"""How many times what a fan was read to draw its amps may be later on."""


def settle_named_nowhere(narration: Narration, readings: Sequence[Reading]) -> None:
    """Give what was read on a motor that is never named to the only fan that is, in place."""
    names = {c.name for c in find_components(narration) if c.name in MOTORS} - _ANY
    if len(names) != 1 or not names <= _FANS:
        return
    (one,) = names
    things = {t.name for t in things_of(words_of(narration))}
    driven = "frequency" in {r.quantity for r in readings if r.role == MEASURED}
    drawn: list[float] = []
    for r in readings:
        if r.role != MEASURED or r.quantity not in {"current", "resistance"}:
            continue
        if r.component not in things and (
            (r.component in _FANS and not _side_said(narration, r))
            or (r.component == "compressor" and _a_fans(r, drawn, driven=driven))
        ):
            r.component = one
        if r.component == one and r.quantity == "current" and r.value:
            drawn.append(r.value)


def settle_windings(narration: Narration, readings: Sequence[Reading]) -> None:
    """Give ohms of windings that were taken for a contactor's to the motor read before, in place.

    A contactor has one coil, and nothing between its legs: "that pole's gone. ... Windings on six, OL, OL".
    """
    motor: str | None = None
    words = narration.lowers
    for r in readings:
        if r.component in MOTORS and r.quantity in {"current", "resistance"}:
            motor = r.component
        if r.component != "contactor" or r.quantity != "resistance" or motor is None or r.role != MEASURED:
            continue
        start = next(tokens_at(narration, r.at), 0)
        lead = words[max(0, start - _LEAD) : start]
        lead = lead[max((i for i, w in enumerate(lead) if w in {".", "?", "!"}), default=-1) + 1 :]
        if {"winding", "windings"} & set(lead) or (r.point in _PAIRS and not _CONTACTS & set(lead)):
            r.component, r.which = motor, None


def _side_said(narration: Narration, r: Reading) -> bool:
    """Tell whether words right before a value tell which fan: "the condenser one 7.8"."""
    start = next(tokens_at(narration, r.at), 0)
    return not _SIDES.isdisjoint(narration.lowers[max(0, start - 6) : start + 4])


def _a_fans(r: Reading, drawn: Sequence[float], *, driven: bool) -> bool:
    """Tell whether amps are a fan's: about what it drew before, or of one that runs on a drive."""
    if r.quantity != "current" or not r.value:
        return False
    return any(1 / _ALIKE <= r.value / x <= _ALIKE for x in drawn) or (driven and r.value >= _OF_A_DRIVE)


__all__ = ["settle_named_nowhere", "settle_windings"]
