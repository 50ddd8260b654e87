"""Where a plan ends within its sentence: where the talk returns to what was done, or to how things stand.

"Next trip it's a new coil, today I put a pound in."  "I'd have to braze it. He agreed, so I recovered ..."
"""

from __future__ import annotations

from dictate.mentions.patterns import AMBIGUOUS
from dictate.mentions.tense.talk import Talk
from dictate.mentions.tense.vocabulary import OURS, flat
from dictate.vocabulary.load import word_set

_BREAKS = frozenset({",", "and", ":", ";", "-", "then"})
_ENDS = frozenset({"but", ";", "though", "although", "however", "because", "cause"})
_SUBJECTS = frozenset({"i", "we", "he", "she", "it", "they", "that", "which"})
_TELL_AT_ONCE = frozenset({"i've", "we've"})
_STANDS = frozenset({"is", "'s", "are", "isn't", "was", "were", "wasn't"})


def end_of_plan(talk: Talk, head: int, end: int) -> int:
    """Return where a plan that begins at word `head` ends in the sentence that ends at `end`."""
    if head not in talk.plan_ends:
        talk.plan_ends[head] = _find(talk, head, end)
    return talk.plan_ends[head]


def _find(talk: Talk, head: int, end: int) -> int:
    words = talk.words
    named = head > 0 and words[head - 1] in word_set("opens_named_plan")
    chunk = head
    for j in range(head, end):
        word = words[j]
        first = j == head or words[j - 1] in _BREAKS or words[j - 1] in ("so", "until", "till")
        if j > head and words[j - 1] in _BREAKS:
            chunk = j
        if word in _ENDS:
            return j
        if j == head and words[j - 1 : j] == (":",) and _has_its_object(talk, j):
            return j  # "Next: washed the condenser": told in order, and no plan
        if word == "so" and not talk.begins_with(j + 1, "announced", "purpose", end=end):
            if words[j + 1 : j + 2] not in (("i'll",), ("we'll",)):
                return j
        elif first and (
            _somebody_did(talk, j, end, opens=chunk == head)
            or (j > head and talk.begins_with(j, "announced", "own_now", end=end))
        ):
            return j
        elif word in _STANDS and chunk > head and _stands_so(talk, chunk, j):
            return chunk
        elif talk.kind(j) == "past" and word not in AMBIGUOUS and word not in word_set("plan_pasts"):
            g = talk.before(j, head)
            if g < head or words[g] in _BREAKS:
                if not named and j > head:
                    return j
            elif talk.ends_with(g, "lists", "others", start=head):
                return chunk
            elif words[g] not in ("i", "we"):
                named = True  # "new coil brazed in": what will have been done to it
    return end


def _has_its_object(talk: Talk, j: int) -> bool:
    """Tell whether a past form at word j has its object behind it: somebody did it."""
    past = talk.kind(j) == "past" and talk.words[j] not in AMBIGUOUS
    return past and talk.words[j + 1 : j + 2] != () and talk.words[j + 1] in word_set("articles")


def _somebody_did(talk: Talk, j: int, end: int, *, opens: bool) -> bool:
    """Tell whether a clause at word j tells what somebody did: "I recovered", "it held", "we've done"."""
    word = talk.words[j]
    if word in _TELL_AT_ONCE:
        return talk.words[j + 1 : j + 3] not in (("got", "to"), ("to",))
    if word in ("i'm", "we're"):
        if opens and talk.kind(j + 1) == "ing":
            return False  # "tomorrow I'm locking it out"
        return talk.words[j + 1 : j + 2] not in (("going",), ("gonna",), ("coming",), ("back",), ("to",))
    if word not in _SUBJECTS:
        return False
    k = j + 1
    while k < end and talk.words[k] in flat("adverbs"):
        k += 1
    if k >= end:
        return False
    if talk.words[k] in AMBIGUOUS and word in OURS and talk.words[j - 1] == "then":
        return False  # "gas out first, then I cut the bend"
    if talk.words[k] in AMBIGUOUS:
        return word in OURS or word in ("it", "she", "that")
    return talk.kind(k) == "past" or talk.words[k] in ("was", "were", "had", "did")


def _stands_so(talk: Talk, chunk: int, j: int) -> bool:
    """Tell whether "is" at word j tells how things stand now: "..., disconnect's back in"."""
    if any(w in flat("announced", "subordinates") for w in talk.words[chunk:j]):
        return False
    if any(w in flat("announced", "sure_nouns") for w in talk.words[j + 1 : j + 4]):
        return False  # "back Monday, here's the plan"
    behind = talk.words[j + 1] if j + 1 < len(talk.words) else "."
    if talk.words[j] != "'s":
        return True
    return behind in flat("announced", "stands_so") or talk.kind(j + 1) in ("past", "ing")
