"""Headings of lists of work that was left undone or is still to come, in any wording.

"What is planned and has not been done: ..."  "Declined by the owner: ..."  "What I ain't done. Charge, ..."
A heading has a core that denies or puts off (scopes.toml, [headings]); what else stands in it are small words
and who it concerns. Where a core of each stands in it the work is planned.
"""

from __future__ import annotations

from dictate.mentions.patterns import AMBIGUOUS
from dictate.mentions.tense.talk import Talk
from dictate.mentions.tense.vocabulary import BE, OURS, Status, flat
from dictate.vocabulary.load import word_set

WITHIN, ALONE = 16, 14
"""Words before the colon of a heading, and of one that is a sentence of its own, at most."""
STRANGE = 2
"""Other words in front of a colon at most: "when the crane 's free:"."""
_KINDS: tuple[Status, ...] = ("planned", "not_done")


def heading(talk: Talk, start: int, end: int) -> tuple[int, Status] | None:
    """Return the word behind a heading that opens the sentence [start, end), and what it says of its list."""
    for j in range(start + 1, min(end, start + WITHIN)):
        word = talk.words[j]
        if word in (":", "-"):
            status = _says(talk, start, j, strange=STRANGE)
            return (j + 1, status) if status is not None and j + 1 < end else None
        named = talk.words[start] in flat("headings", "opens") and j > start + 1
        if word in (",", "is", "'s", "are", "was") and named and _core_ends(talk, start, j):
            if word != "," and talk.words[j + 1] in flat("announced", "done_behind"):
                return None
            status = _says(talk, start, j, strange=0)
            if status == "not_done" or (status is not None and word == ","):
                return j + 1, status
    return None


def of_done_work(talk: Talk, start: int, end: int) -> bool:
    """Tell whether a heading says that its work is done: "Scheduled work done: ...", "As planned: ..."."""
    colon = next((j for j in range(start + 1, min(end, start + WITHIN)) if talk.words[j] == ":"), None)
    return colon is not None and _was_done(talk, start, colon, list(range(start, colon)))


def heads_the_next(talk: Talk, start: int, end: int) -> Status | None:
    """Return what a sentence that is all heading says of the sentences below it ("What I ain't done.")."""
    if not 2 <= end - start <= ALONE:
        return None
    last = end - 1 if talk.words[end - 1] in (".", ":", "!") else end
    if talk.words[start] not in flat("headings", "opens") | flat("headings", "opens_alone"):
        return None
    return _says(talk, start, last, strange=0)


def below_undone(talk: Talk, start: int, end: int) -> bool:
    """Tell whether a sentence below such a heading only names work ("Leak check.", "Drier, he has none.")."""
    return not any(
        talk.words[k] in OURS
        or talk.words[k] in flat("headings", "ends_below")
        or (talk.kind(k) == "past" and talk.words[k] not in AMBIGUOUS)
        or (talk.words[k] in BE and talk.words[k + 1 : k + 2] != ("not",))
        for k in range(start, end)
    )


def stands_now(talk: Talk, start: int, end: int) -> bool:
    """Tell whether a sentence tells how things stand, and orders nothing: "Port's capped.", "Caps tight."."""
    if talk.kind(start) == "base" and talk.words[start] not in AMBIGUOUS:
        return False
    for k in range(start + 1, end):
        told = talk.kind(k) == "past" and talk.words[k] not in word_set("plan_pasts")
        if told and talk.words[k - 1] in ("'s", "is", "are", "was", "were", "been", "has", "have"):
            return talk.words[k - 2] not in ("when", "once", "till", "until")
    return end - start <= 7 and talk.words[end - 2] in flat("headings", "ends_below")


def is_a_time(talk: Talk, start: int, end: int) -> bool:
    """Tell whether a sentence names a time to come and nothing else ("Next week.")."""
    for path in (("lists", "plan_days"), ("announced", "times_to_come"), ("lists", "plan_tails")):
        n = talk.begins_with(start, *path, end=end)
        if n and start + n >= end - 1:
            return True
    return False


def _says(talk: Talk, start: int, stop: int, *, strange: int) -> Status | None:
    """Return what the words [start, stop) say of a list, if they are a heading and no more."""
    covered: set[int] = set()
    found: Status | None = None
    for status in _KINDS:
        for k in range(start, stop):
            n = talk.begins_with(k, "headings", status, end=stop)
            if n:
                covered.update(range(k, k + n))
                found = found or status
    if found is None:
        return None
    rest = [k for k in range(start, stop) if k not in covered]
    if found == "planned" and _was_done(talk, start, stop, rest):
        return None
    others = [k for k in rest if talk.words[k] not in flat("headings", "small_words")]
    if any(talk.kind(k) == "past" and talk.words[k] not in AMBIGUOUS for k in others):
        return None
    return found if len(others) <= strange else None


def _was_done(talk: Talk, start: int, stop: int, rest: list[int]) -> bool:
    """Tell whether a heading says that it came as planned: "as planned:", "scheduled work done:"."""
    if talk.words[start] in ("as", "like"):
        return True
    denied = any(w in flat("headings", "denies") for w in talk.words[start:stop])
    return not denied and any(talk.words[k] in flat("lists", "finished") for k in rest)


def _core_ends(talk: Talk, start: int, j: int) -> bool:
    return any(talk.ends_with(j - 1, "headings", status, start=start) for status in _KINDS) or any(
        talk.words[j - 1] in ("today", "yet", "here", "me", "time", "visit", "trip")
        and talk.ends_with(j - 2, "headings", status, start=start)
        for status in _KINDS
    )
