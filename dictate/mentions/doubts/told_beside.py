"""Where the words right beside a value say what it is, so that a person is asked only on strong evidence.

    only_evidence(case, reason)   a reason of the readers that is no reason by itself for this value
    surely_a_state(case)          its word ("open", "dead") is what a meter showed, nearly for certain
    named_beside(case)            the name of its thing stands right in front of it: "cans are at | nineteen"

What was taken because of all the words around it was taken by the encoder alone. Where that is nearly certain
its value is weighed like those of the rules; below that it is asked about whatever else is said of it.
"""

from __future__ import annotations

from dictate.mentions.by_all_words.not_taken import NOT_TAKEN
from dictate.mentions.by_all_words.states import OTHER_TALK, STATE_NOT_TAKEN, is_state
from dictate.mentions.doubts.judges import judged
from dictate.mentions.doubts.talk import STOPS, Case
from dictate.mentions.doubts.trust_evidence import of_its_unit, soft_kind
from dictate.mentions.values.dead_told import is_proof_of_dead
from dictate.mentions.word_lists import word_list

_NUMBER_SURE, _STATE_SURE = 0.985, 0.99
"""The shares of the encoder from which a number and a state that only it took are weighed.

Chosen on narrations that it had not seen.
"""
_LINKS = frozenset(
    {"is", "'s", "are", "was", "were", "at", "=", "reads", "read", "reading", "shows", "showing", "gives",
     "me", "draws", "pulls", "sits", "sitting"}
)  # fmt: skip
"""What may stand between the name of a thing and its value; where the unit was said a mark as well."""
_BEHIND = frozenset(
    {",", ";", ":", ".", "?", "!", "and", "at", "on", "in", "while", "when", "with", "after", "now"}
)
"""What a bare value ends at; a noun behind it may be what it counts."""
_BARE = frozenset({"temperature", "voltage", "resistance", "capacitance"})
"""What the name alone tells of a bare value: no amps, for "fan two point five four" may tell which fan."""
_OF_BOTH = frozenset({"suction", "discharge", "liquid"})
"""Where pressures and temperatures are read alike."""
_TIMES = frozenset({"hour", "hours", "minute", "minutes"})
_ITS_QUANTITY, _NOW = 0.5, 0.8
"""The shares of its quantity and of a value of now that a bare value needs of the encoder."""
_FAR = 5
_ROW = 8
"""Words between the values of a row that one meter showed."""


def only_evidence(case: Case, reason: str) -> bool:
    """Tell whether a reason of the readers only counts as evidence for this value."""
    if reason == NOT_TAKEN:
        return _nearly_certain(case)
    if reason == STATE_NOT_TAKEN:
        return _plain_state(case) or _of_the_next_place(case)
    if reason == OTHER_TALK:
        return _proved_dead(case) or _of_the_next_place(case)
    return soft_kind(reason) is not None


def surely_a_state(case: Case) -> bool:
    """Tell whether a value without a number is what a meter showed, so that nothing else need bear it out."""
    if case.number is not None:
        return False
    if _of_the_next_place(case):
        return True
    return _proved_dead(case) or is_state(case.talk.n, case.reading, case.start, case.end)


def _nearly_certain(case: Case) -> bool:
    """Tell whether the encoder is nearly certain of a number that ends here, as "seven K nine" does not."""
    said = judged(case.talk.n).get(case.number.start) if case.number is not None else None
    if said is None or said[1] is None or case.talk.number_at.get(case.end) is not None:
        return False
    return of_its_unit(said[1], case) >= _NUMBER_SURE


def _plain_state(case: Case) -> bool:
    """Tell whether the encoder is nearly certain of a state, and its word is no answer, no end of a number.

    "To earth, no" may be said of volts or of ohms; volts that are told dead twice may be of the same legs.
    """
    words, before = case.talk.words, case.previous
    if case.reading.quantity == "current" or words[case.start : case.end] in (["no"], ["no", "."]):
        return False
    if case.talk.number_at.get(case.start - 1) is not None:
        return False
    again = case.reading.state == "value" and before is not None and before.low == case.low
    if again and before is not None and (before.reading.quantity, before.reading.value) == ("voltage", 0):
        return False
    return is_state(case.talk.n, case.reading, case.start, case.end, _STATE_SURE)


def _of_the_next_place(case: Case) -> bool:
    """Tell whether a state goes on a row of one meter: "primary, two eleven. Secondary, | dead".

    The name of the next place stands right in front of it, and its clause ends behind it.
    """
    before, words, at = case.previous, case.talk.words, case.start
    if case.number is not None or before is None or not 0 < at - before.end <= _ROW:
        return False
    if before.reading.role != "measured" or before.reading.quantity != case.reading.quantity:
        return False
    if words[case.end : case.end + 1] and words[case.end] not in STOPS | {","}:
        return False
    links = _LINKS | {",", ":"}
    while at > before.end and words[at - 1] in links:
        at -= 1
    if at == case.start or at <= before.end + 1:
        return False
    placed = any(x.end == at for x in case.talk.points_from(max(0, at - 6), at))
    return placed or (case.reading.state == "open" and words[at - 1] in word_list("earths"))


def _proved_dead(case: Case) -> bool:
    r = case.reading
    dead = r.quantity == "voltage" and r.value == 0 and case.number is None
    return dead and is_proof_of_dead(case.talk.words, case.start, case.end)


def named_beside(case: Case) -> bool:
    """Tell whether a measured value follows right on the name of what it was read at.

    The value of something else may end in a row of what is printed or wanted ("rated fifteen, fan one point
    two"), and a unit that goes on ("seven K nine") has not ended it.
    """
    r, talk, number = case.reading, case.talk, case.number
    if r.quantity == "duration" and _whole_time(case):
        return True
    if number is None or r.value is None or r.state != "value" or case.shared:
        return False
    if talk.number_at.get(case.end) is not None or not _name_in_front(case):
        return False
    before = case.previous
    if before is not None and before.low == case.low and before.reading.role != "measured":
        return False
    if "wrong" in talk.words[case.end : case.end + 10]:
        return False
    if not case.bare:
        return True
    if r.quantity not in _BARE or r.point in _OF_BOTH:
        return False
    if talk.words[case.end : case.end + 1] and talk.words[case.end] not in _BEHIND:
        return False
    seen = judged(talk.n).get(number.start)
    encoder = seen[1] if seen is not None else None
    return (
        encoder is not None and encoder.measured.get(r.quantity, 0.0) >= _ITS_QUANTITY and encoder.now >= _NOW
    )


def _whole_time(case: Case) -> bool:
    """Tell whether a time was told in two units, as nothing else is: "an hour and ten", "a minute fifty"."""
    words = case.talk.words
    told = [i for i in range(case.start, case.end - 1) if words[i] in _TIMES]
    return (
        not case.bare
        and bool(told)
        and any(words[i] not in _TIMES | {"and"} for i in range(told[0], case.end))
    )


def _name_in_front(case: Case) -> bool:
    """Tell whether the name of a thing ends right in front of a value, but for words that link the two."""
    words, at = case.talk.words, case.start
    links = _LINKS if case.bare else _LINKS | {",", ":"}
    while at > case.low and case.start - at < _FAR and words[at - 1] in links:
        at -= 1
    if at == case.low and at and words[at - 1] in STOPS:
        return False
    first = max(0, at - 8)
    return (
        any(x.end == at for x in case.talk.labels_from(first, at))
        or any(x.end == at for x in case.talk.components_from(first, at))
        or any(x.end == at for x in case.talk.points_from(first, at))
    )


__all__ = ["named_beside", "only_evidence", "surely_a_state"]
