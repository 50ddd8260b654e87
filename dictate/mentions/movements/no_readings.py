"""Bare numbers that were taken for amounts of refrigerant are no readings as well: "eight two went in"."""

from __future__ import annotations

from dictate.mentions.movements.mass import Mass
from dictate.mentions.movements.talk import Talk
from dictate.mentions.narration import Narration
from dictate.record.mentions import Mentions

_FOUND = "bare amounts"


def keep_bare_amounts(talk: Talk, moved: list[Mass]) -> None:
    """Remember the numbers that alone tell the pounds and ounces of what was moved."""
    for m in moved:
        if m.q.parts and not m.q.word:
            keep_number(talk, m.start, m.end)


def keep_number(talk: Talk, start: int, end: int) -> None:
    """Remember that the words [start, end) are an amount and nothing else."""
    tokens = range(talk.w.tokens[start], talk.w.tokens[end - 1] + 1)
    talk.narration.found.setdefault(_FOUND, set()).update(tokens)


def leave_out_amounts(narration: Narration, mentions: Mentions) -> None:
    """Take bare values out of the readings whose number is an amount that was moved."""
    places = {(t.segment, t.word) for t in (narration.tokens[k] for k in narration.found.get(_FOUND, ()))}
    if places:
        mentions.readings = [
            r
            for r in mentions.readings
            if not (r.unit_assumed and r.role == "measured" and (r.at.segment, r.at.first_word) in places)
        ]
