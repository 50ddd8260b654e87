"""What a meter said without a number ("nothing", "open", "dead"), by all the words around it.

There is no end of ways to say that a meter showed nothing, and to say it of other things: "nothing across the
coil", "nothing wrong with the coil". The text encoder judges each word that may be such a state. One that no
rule took is taken where it is nearly certain, with a reason to look at it; one that a rule took and that it
hears as other talk gets a reason.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import cast

from dictate.mentions.by_all_words.words_taken import taken_tokens, tokens_at
from dictate.mentions.narration import Narration
from dictate.mentions.second_opinion import NO_STATE, Told, told_of_words
from dictate.mentions.word_lists import word_list
from dictate.record import visit as record
from dictate.record.mentions import Mentions
from dictate.record.visit import Reading
from dictate.units import UCUM

STATE_NOT_TAKEN = "no rule took this for what a meter showed: it is taken because of all the words around it"
OTHER_TALK = "the words around it do not sound like what a meter showed"
_SURE, _OTHER_TALK = 0.9, 0.9
"""The shares from which a state is taken, and from which one that was taken is asked about."""
_CERTAIN = 0.95
"""The share from which a state that a rule took is no longer asked about."""
_PLACED = 0.5
"""The share from which the component and the point of a state are told."""
_UNITS = {"open": "ohm", "voltage": "V", "current": "A"}
_BESIDE = 5
"""Words on either side of a state in which a nought may say it again."""
_NEAR = 7
"""Words on either side of a state in which it may be said of how many."""
_BREAKS = frozenset({".", "?", "!", ";", ":"})


def with_states(narration: Narration, mentions: Mentions) -> list[Reading]:
    """Return the readings with the states that only all the words tell, in the order of the words."""
    heads = told_of_words(narration)
    states = heads.get("state", {})
    if not states:
        return mentions.readings
    taken = taken_tokens(narration, mentions) | narration.found.get("told twice", set())
    added: list[Reading] = []
    for place, own in states.items():
        if own.best in _UNITS and own.share >= _SURE and taken.isdisjoint(range(*place)):
            if own.best != "open" and _nought_taken(narration, place, taken):
                continue
            where = [_name(heads[head][place]) for head in ("component", "point")]
            added += [
                _reading(narration, place, own.best, *where) for _ in range(_how_many(narration, place))
            ]
            taken.update(range(*place))
    if not added:
        return mentions.readings
    return sorted([*mentions.readings, *added], key=lambda r: (r.at.segment or 0, r.at.first_word or 0))


def _nought_taken(narration: Narration, place: tuple[int, int], taken: set[int]) -> bool:
    """Tell whether the number says it once more beside it: "no volts, zero", "zero, not a volt"."""
    words = narration.lowers
    between = word_list("told_twice_flat") | word_list("told_twice_on_meter") | {"volts", "amps"}
    said = word_list("told_twice_nought")
    for step, at in ((1, place[1]), (-1, place[0] - 1)):
        if step < 0 and words[place[1] : place[1] + 1] and words[place[1]] in _BREAKS | {","}:
            said = said | {"nothing", "none", "dead"}
        parted = False
        for k in range(at, at + _BESIDE * step, step):
            word = words[k] if 0 <= k < len(words) else "."
            if word in said:
                return parted and k in taken
            if word not in between:
                break
            parted = parted or word in {",", "-"}
    return False


def doubt_states(narration: Narration, readings: Sequence[Reading]) -> None:
    """Give the states that sound like other talk a reason to look at them."""
    states = told_of_words(narration).get("state", {})
    for reading in readings:
        if reading.role != "measured" or reading.value:
            continue
        said = set(tokens_at(narration, reading.at))
        own = [read for place, read in states.items() if not said.isdisjoint(range(*place))]
        if own and all(x.of(NO_STATE) > _OTHER_TALK for x in own):
            reading.review.append(OTHER_TALK)
            reading.confidence = min(reading.confidence, 0.5)


def is_state(narration: Narration, reading: Reading, start: int, end: int, least: float = _CERTAIN) -> bool:
    """Tell whether the words [start, end) of a reading without a number are what it says, nearly for certain.

    Other evidence on it is about numbers, and says little of "nothing" or "open". `least` is the share of the
    encoder that is asked for.
    """
    wanted = "open" if reading.state == "open" else reading.quantity
    if reading.value or _UNITS.get(wanted) != reading.unit:
        return False
    states = told_of_words(narration).get("state", {})
    own = [read for place, read in states.items() if start < place[1] and place[0] < end]
    return len(own) == 1 and own[0].of(wanted) >= least


def _name(read: Told) -> str | None:
    return (read.best or None) if read.share >= _PLACED else None


def _reading(
    narration: Narration, place: tuple[int, int], state: str, component: str | None, point: str | None
) -> Reading:
    heard = narration.probability(*place)
    unit = _UNITS[state]
    is_open = state == "open"
    return Reading(
        quantity="resistance" if is_open else cast(record.Quantity, state),
        value=None if is_open else 0.0,
        unit=cast(record.Unit, unit),
        ucum=UCUM.get(unit),
        state="open" if is_open else "value",
        unit_assumed=True,
        component=component,
        point=point,
        at=narration.at(*place),
        heard=narration.heard(*place),
        confidence=min(0.5, 1.0 if heard is None else heard),
        review=[STATE_NOT_TAKEN],
    )


def _how_many(narration: Narration, place: tuple[int, int]) -> int:
    """Return of how many things a state was said: "nothing on all three", "neither, nothing"."""
    words = narration.lowers
    behind, before = words[place[1] : place[1] + _NEAR], words[max(0, place[0] - _NEAR) : place[0]][::-1]
    for row in (words[place[0] : place[1]], behind, before):
        for i, word in enumerate(row):
            if word in _BREAKS:
                break
            if word in word_list("states_both"):
                return 2
            if word in {"three", "3"} and {"all", "any", "the", "each", "of"} & {*row[max(0, i - 2) : i + 2]}:
                return 3
    return 1


__all__ = ["OTHER_TALK", "STATE_NOT_TAKEN", "doubt_states", "is_state", "with_states"]
