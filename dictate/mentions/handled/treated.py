"""Cleanings told by what a part was given, or by what it was put into.

"Coil face got the foaming cleaner and a rinse."  "The filter had a wash under the tap."
"The nozzles were closed with lime, I put everything in the acid."
"""

from __future__ import annotations

from dictate.mentions.handled.doing import Handled
from dictate.mentions.handled.talk import Talk
from dictate.mentions.handled.vocabulary import part_words
from dictate.mentions.whose.things import Thing
from dictate.vocabulary.load import word_set

_SMALL = ("the", "a", "an", "some", "its", "their", "good", "quick", "proper", "full", "foaming", "thorough")
_FACES = ("face", "faces", "fins", "side", "both", "all", "too", "also", "has", "have", "and", "itself")
_BACK = 4
"""Sentences back in which the part that was put into a bath was told of."""


def treated(talk: Talk) -> list[Handled]:
    """Return the cleanings that these frames tell, where none was read of the same part."""
    out: list[Handled] = []
    covered = [(h.start, h.end) for h in talk.out]
    cleaned = {t.start for h in talk.out if h.action == "cleaned" for t in h.things}
    for i, word in enumerate(talk.words):
        if word in ("got", "gets", "had"):
            made = _given(talk, i)
        elif word in ("in", "into") and i:
            made = _bathed(talk, i)
        else:
            continue
        if made is None or any(a <= i < b for a, b in covered):
            continue
        if made.things[0].start not in cleaned and made.things[0].name in part_words("cleanable"):
            out.append(made)
            cleaned.add(made.things[0].start)
    return out


def _given(talk: Talk, i: int) -> Handled | None:
    """Read "coil face got the foaming cleaner", "filter had a wash": word i is "got"."""
    start, end = talk.scopes.sentence(i)
    k = i + 1
    while k < end and talk.words[k] in _SMALL:
        k += 1
    if k == i + 1 or k >= end or talk.words[k] not in word_set("treatments"):
        return None
    if talk.words[k + 1 : k + 2] != () and talk.thing_from(k + 1) is not None:
        return None  # "got a brush motor"
    j = i - 1
    while j > start and talk.words[j] in _FACES:
        j -= 1
    thing = talk.thing_over(j)
    if thing is None or thing.modifier or talk.scopes.verb(i) != "done":
        return None
    return Handled("cleaned", "done", [thing], thing.start, k + 1, None, False)


def _bathed(talk: Talk, i: int) -> Handled | None:
    """Read "put everything in the acid", "left them in descaler": word i is "in"."""
    start, end = talk.scopes.sentence(i)
    if not any(w in word_set("cleaning_baths") for w in talk.words[i + 1 : min(end, i + 4)]):
        return None
    if talk.words[i - 1] not in word_set("bathed_pronouns"):
        return None
    verb = next((k for k in range(i - 1, max(start, i - 4) - 1, -1) if talk.scopes.kind(k) == "past"), None)
    plain = next(
        (k for k in range(i - 1, max(start, i - 4) - 1, -1) if talk.words[k] in ("put", "drop", "soak")), None
    )
    verb = verb if verb is not None else plain
    if verb is None or talk.scopes.verb(verb) != "done":
        return None
    thing = _told_before(talk, verb)
    return Handled("cleaned", "done", [thing], verb, i + 1, verb, False) if thing is not None else None


def _told_before(talk: Talk, verb: int) -> Thing | None:
    """Return the part told of last that can lie in a bath."""
    here = talk.w.sentence_of[verb]
    for thing in reversed(talk.things):
        if thing.start >= verb or thing.modifier:
            continue
        if here - talk.w.sentence_of[thing.start] > _BACK:
            return None
        if thing.name in part_words("cleanable") and not thing.name.endswith(("motor", "pump", "coil")):
            return thing
    return None
