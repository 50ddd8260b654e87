"""Whether pounds are a pressure by what stands around them: water, pumps, strainers and sides of the machine.

    told_as_pressure(words, first, start, end, last) -> bool

As in "water in's forty-eight pounds", "two pounds across", "34 pounds with the valve open", "suction while
freezing was 21 pounds", "nitrogen to three pounds". A word for gas that is moved or weighed speaks against.
"""

from __future__ import annotations

from collections.abc import Sequence

from dictate.mentions.word_lists import phrase_at, word_list

_BREAKS = frozenset((",", ".", ";", "?", "!", "and", "so", "but", "then"))
_GOES_ON = frozenset(("now", "on", "at", "with", "when", "while"))
_INLETS = frozenset(("in", "inlet", "incoming", "entering", "supply", "at"))
_LINKS = frozenset(("is", "'s", "was", "at", "about", "around", "to", "reads", "are", "it's", "a", "of"))


def told_as_pressure(words: Sequence[str], first: int, start: int, end: int, last: int) -> bool:
    """Tell whether the pounds at the words [start, end) of the sentence [first, last) are a pressure."""
    begin = start
    while begin > first and words[begin - 1] not in _BREAKS:
        begin -= 1
    clause = list(words[begin:start])
    behind = list(words[end : min(last, end + 6)])
    moved = word_list("pressure_talk_moved")
    if not moved.isdisjoint(clause) or (behind and behind[0] in moved):
        return False
    if phrase_at("pressure_talk_behind", behind, 0) or _gone_in_a_filter(behind):
        return True
    if behind[:1] and behind[0] not in _BREAKS | _GOES_ON:
        return False
    lead = [w for w in clause if w not in _LINKS]
    if any(phrase_at("pressure_talk_heads", clause, i) for i in range(min(3, len(clause)))):
        return len(clause) <= 8
    if lead and lead[-1] in word_list("pressure_talk_pushes"):
        return True
    if words[start - 1 : start] == ["to"] and not {"nitrogen", "n2"}.isdisjoint(clause):
        return True  # "broke it with nitrogen to three pounds"
    sentence = list(words[first:start])
    if not moved.isdisjoint(sentence):
        return False
    return not lead and _of_water(sentence)


def _gone_in_a_filter(behind: list[str]) -> bool:
    """Read "19 pounds | gone in the strainer", "six pounds | lost across the drier"."""
    if behind[:1] not in (["gone"], ["lost"], ["dropped"], ["difference"]):
        return False
    return behind[1:2] in (["in"], ["across"], ["over"], ["through"])


def _of_water(sentence: list[str]) -> bool:
    """Read "water fifty-eight degrees, | forty pounds", "pump four point one amps, | forty-eight pounds"."""
    if word_list("pressure_talk_water").isdisjoint(sentence[-14:]) and "pump" not in sentence[-9:]:
        return False
    if "pump" in sentence[-9:]:
        return bool({"amps", "amp"} & set(sentence[-4:])) and not {"vacuum", "recovery"} & set(sentence)
    said = set(sentence)
    return not {"slab", "ice", "batch"} & said and bool(_INLETS & said)


__all__ = ["told_as_pressure"]
