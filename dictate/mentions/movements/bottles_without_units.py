"""Gas of several bottles told by bare numbers.

    "Plate is forty-four pounds. Put in twenty-five from the one jug and nineteen from the other."

The unit is that of the charge on the plate, which they do not go beyond together; each has the question.
"""

from __future__ import annotations

from dictate.mentions.movements.mass import Mass
from dictate.mentions.movements.no_readings import keep_number
from dictate.mentions.movements.surroundings import other_visit, vessel_in
from dictate.mentions.movements.talk import Talk
from dictate.mentions.movements.triggers_before import trigger_status
from dictate.mentions.movements.unsaid_units import bare
from dictate.mentions.patterns import Hit
from dictate.mentions.spoken_numbers import Number
from dictate.vocabulary.load import word_set

_MOVED = ("recovered", "charged")
_LED = 5
"""Words behind a number in which its bottle is told."""
_FULL = 1.1
"""What went in is at most so many times the charge of the machine."""


def with_bottles_without_units(talk: Talk, amounts: list[Mass]) -> list[Mass]:
    """Add the bare numbers of one sentence that each tell what one of several bottles gave or took."""
    plates = [a for a in amounts if a.kind == "rated" and a.unit in ("lb", "kg")]
    if not plates:
        return amounts
    out = list(amounts)
    for s0, s1 in talk.w.sentences:
        if not vessel_in(talk.words[s0:s1]) or any(s0 <= a.start < s1 for a in amounts):
            continue
        hit = _work_in(talk, s0, s1)
        if hit is None or other_visit(talk, hit.start):
            continue
        numbers = [n for n in talk.numbers_in(hit.end, s1) if not n.pronoun and n.value > 0]
        plate = next((p for p in reversed(plates) if p.end <= s0), plates[0])
        if len(numbers) < 2 or not all(_of_a_bottle(talk, n, s1) for n in numbers):
            continue
        if sum(n.value for n in numbers) > _FULL * plate.value:
            continue
        why = f"the unit was not said; {plate.unit} is taken from the plate"
        for n in numbers:
            start, end = talk.w.word_of_token(n.start), talk.w.word_of_token(n.end)
            keep_number(talk, start, end)
            out.append(Mass(bare(n), start, end, n.value, plate.unit, hit.label, "done", hit.start, [why]))
    return sorted(out, key=lambda a: a.start)


def _work_in(talk: Talk, s0: int, s1: int) -> Hit | None:
    """Return the one verb of moving in a sentence that tells of something done."""
    hits = [h for h in talk.hits_in(s0, s1) if h.verb is not None and h.label in _MOVED]
    ways = {h.label for h in hits}
    if len(ways) != 1 or trigger_status(talk, hits[0]) != "done":
        return None
    first = hits[0].start
    end = min(h.end for h in hits if h.start == first)
    return next(h for h in hits if h.start == first and h.end == end)


def _of_a_bottle(talk: Talk, number: Number, s1: int) -> bool:
    """Tell whether a number is followed by the bottle that it came from or went to."""
    end = talk.w.word_of_token(number.end)
    behind = talk.words[end : min(s1, end + _LED)]
    led = behind[:1] in (("off",), ("from",), ("into",), ("in",), ("out",))
    if number.form in ("clock", "ordinal", "counted") or not led:
        return False
    return vessel_in(behind) or not word_set("which_bottle").isdisjoint(behind)


__all__ = ["with_bottles_without_units"]
