"""Parts that were to be handled and were not, and parts that only changed places.

"Went to change the filter drier and it's the wrong size." "Swapped the two probes over, the fault follows."
"""

from __future__ import annotations

from dictate.mentions.handled.as_it_was import is_as_it_was
from dictate.mentions.handled.doing import Handled
from dictate.mentions.handled.talk import Talk
from dictate.mentions.tense.attempts import in_vain, phrase_of
from dictate.vocabulary.load import word_set

NOTHING = "parts that came to nothing"
"""Kept with the narration: the words [start, end) of what was dropped here."""

_BEFORE = 10
"""Words at most between an attempt and its part: "went to change the filter drier"."""
_BEHIND = 5
"""Words behind a part within which it is said that it changed places."""


def without_vain(talk: Talk, doings: list[Handled]) -> list[Handled]:
    """Return the doings without those that came to nothing, and keep the words of these."""
    dropped = [
        h for h in doings if _came_to_nothing(talk, h) or _only_exchanged(talk, h) or is_as_it_was(talk, h)
    ]
    talk.w.narration.found[NOTHING] = [(h.start, h.end) for h in dropped]
    return [h for h in doings if h not in dropped]


def _came_to_nothing(talk: Talk, h: Handled) -> bool:
    """Tell whether a doing was an attempt, and what came in between follows in its sentence."""
    if h.status != "done":
        return False
    start, end = talk.w.sentences[talk.w.sentence_of[h.start]]
    for i in range(max(start, h.start - _BEFORE), h.start + 1):
        size = phrase_of("attempts", talk.words, i, end)
        if size and in_vain(talk.words[i + size + 1 : end]):
            return True
    return False


def _only_exchanged(talk: Talk, h: Handled) -> bool:
    """Tell whether parts that are there changed places: "swapped the two capacitors around", "the leads"."""
    if h.action != "replaced" or h.status != "done" or h.new:
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
