"""Parts that were to be handled and were not, and parts that only changed places.

"Went to change the filter drier and it's the wrong size." "Swapped the two probes over, the fault follows."
"New gasket's in the truck, forgot to put it on." "I changed the compressor in this thing in 2020."
"""

from __future__ import annotations

from dictate.mentions.handled.as_it_was import is_as_it_was
from dictate.mentions.handled.doing import Handled
from dictate.mentions.handled.talk import Talk
from dictate.mentions.tense.attempts import in_vain, phrase_of
from dictate.mentions.tense.whose_doing import begins_a_year
from dictate.vocabulary.load import word_set

NOTHING = "parts that came to nothing"
"""Kept with the narration: the words [start, end) of what was dropped here."""

_BEFORE = 10
"""Words at most between an attempt and its part: "went to change the filter drier"."""
_BEHIND = 5
"""Words behind a part within which it is said that it changed places."""


def without_vain(talk: Talk, doings: list[Handled]) -> list[Handled]:
    """Return the doings without those that came to nothing, and keep the words of these."""
    looks = (_came_to_nothing, _only_exchanged, _still_on_the_truck, _of_a_year, is_as_it_was)
    dropped = [h for h in doings if h.status == "done" and any(look(talk, h) for look in looks)]
    for h in doings:
        if h.status == "done" and _another_day(talk, h):
            h.status = "planned"
            dropped.append(h)
    to_come = [(k, k + 2) for k in range(len(talk.words) - 2) if _comes_later(talk, k)]
    talk.w.narration.found[NOTHING] = [*((h.start, h.end) for h in dropped), *to_come]
    return [h for h in doings if h not in dropped or h.status == "planned"]


def _came_to_nothing(talk: Talk, h: Handled) -> bool:
    """Tell whether a doing was an attempt, and what came in between follows in its sentence."""
    start, end = talk.w.sentences[talk.w.sentence_of[h.start]]
    for i in range(max(start, h.start - _BEFORE), h.start + 1):
        size = phrase_of("attempts", talk.words, i, end)
        if size and in_vain(talk.words[i + size + 1 : end]):
            return True
    return False


def _only_exchanged(talk: Talk, h: Handled) -> bool:
    """Tell whether parts that are there changed places: "swapped the two capacitors around", "the leads"."""
    if h.action != "replaced" or h.new:
        return False
    start, end = talk.w.sentences[talk.w.sentence_of[h.start]]
    said = talk.words[max(start, h.start - 3) : h.end]
    if word_set("changes_places").isdisjoint(said):
        return False
    last = max([h.end, *(t.end for t in h.things)])
    behind = talk.words[last : min(end, last + _BEHIND)]
    if word_set("of_a_part").intersection(behind[:1]):
        return True  # "swapped the fan motor leads"
    stop = next((k for k, w in enumerate(behind) if w in {",", "and", "with", "for"}), len(behind))
    changed = word_set("places_changed").intersection(behind[:stop])
    several = any(t.plural for t in h.things)
    return bool(changed - {"over"}) or (bool(changed) and several)  # one is "changed over" for a new one


def _still_on_the_truck(talk: Talk, h: Handled) -> bool:
    """Tell whether a new part has not left the truck: "new gasket's in the truck, forgot to put it on"."""
    if h.action not in ("replaced", "installed") or h.verb is not None:
        return False
    last = max([h.end, *(t.end for t in h.things)])
    behind = talk.words[last : last + 4]
    if behind[:1] not in (("'s",), ("is",), ("are",)) or behind[1:2] not in (("in",), ("on",), ("at",)):
        return False
    return not word_set("where_parts_wait").isdisjoint(behind[2:])


def _another_day(talk: Talk, h: Handled) -> bool:
    """Tell whether the new one told of last comes another day: "cut the drier out, new one Monday"."""
    return h.action in ("replaced", "installed") and h.end >= 2 and _comes_later(talk, h.end - 2)


def _comes_later(talk: Talk, k: int) -> bool:
    """Tell whether "new one Monday", "new one when it comes" stands at word k."""
    if talk.words[k : k + 2] != ("new", "one"):
        return False
    behind = talk.words[k + 2 : k + 3]
    return behind == ("when",) or not word_set("days_and_times_to_come").isdisjoint(behind)


def _of_a_year(talk: Talk, h: Handled) -> bool:
    """Tell whether it was done in a year that is named: "I changed the compressor in this thing in 2020"."""
    start, end = talk.w.sentences[talk.w.sentence_of[h.start]]
    if "today" in talk.words[start:end]:
        return False
    return any(
        talk.words[k] in ("in", "since") and begins_a_year(talk.words[k + 1 : min(end, k + 3)])
        for k in range(start, end - 1)
    )
