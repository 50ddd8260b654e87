"""Parts that somebody wants left, and those whose exchange waits for a better day.

"The contactor the owner told us to skip."  "Oil filter's due but that's daylight work."
"I wanted to change it, I had none, so in the autumn."
"""

from __future__ import annotations

from dictate.mentions.handled.doing import Handled, handled_parts
from dictate.mentions.handled.referents import part_meant
from dictate.mentions.handled.talk import Talk
from dictate.mentions.handled.vocabulary import DETERMINERS
from dictate.mentions.whose.things import Thing
from dictate.vocabulary.load import word_set

_NEAR, _BEHIND = 6, 18
"""Words between a part and who wants it left; between a wish to change it and the day it waits for."""


def left_for(talk: Talk) -> list[Handled]:
    """Return the parts that were left because of somebody's word, and those that wait."""
    out: list[Handled] = []
    covered = {(t.name, h.status) for h in talk.out for t in h.things}
    for i, word in enumerate(talk.words):
        made: Handled | None = None
        if word in word_set("leaves_it"):
            made = _told_to_leave(talk, i)
        elif word == "want" and talk.words[i - 1] in ("don't", "doesn't", "not", "didn't"):
            made = _unwanted(talk, i)
        elif word == "due":
            made = _due_and_waits(talk, i)
        elif word in ("i'll", "we'll") or (word == "will" and talk.words[i - 1] in ("i", "we")):
            made = _will_do(talk, i)
        elif word in ("to", "have"):
            made = _wanted_but_waits(talk, i)
        if made is not None and not any((t.name, made.status) in covered for t in made.things):
            out.append(made)
            covered |= {(t.name, made.status) for t in made.things}
    return out


def _opens(talk: Talk, thing: Thing, start: int) -> bool:
    """Tell whether a part stands first in its clause, behind no more than an article."""
    j = thing.start
    while j > start and (
        talk.words[j - 1] in DETERMINERS or talk.words[j - 1] in word_set("before_part_in_place")
    ):
        j -= 1
    return j == start or talk.words[j - 1] in (",", ";", ":", "and", "but")


def _part(thing: Thing) -> bool:
    return not thing.modifier and not thing.generic and bool(handled_parts([thing]))


def _told_to_leave(talk: Talk, i: int) -> Handled | None:
    """Read "the contactor the owner told us to skip", "the gasket she wants left": word i is "skip"."""
    start, end = talk.scopes.sentence(i)
    if i + 1 < end and talk.words[i + 1] not in word_set("behind_leaving_it"):
        return None
    thing = next((t for t in talk.things if start <= t.start and t.end < i), None)
    if thing is None or not _part(thing) or not _opens(talk, thing, start):
        return None
    told = talk.words[thing.end : i]
    if len(told) > _NEAR + 2 or any(w in (",", "and", "but", ";", "is", "'s", "was") for w in told):
        return None
    if word_set("has_a_say").isdisjoint(told) or any(w in ("not", "never", "i", "we") for w in told):
        return None
    return Handled("replaced", "not_done", [thing], thing.start, i + 1, None, True)


def _unwanted(talk: Talk, i: int) -> Handled | None:
    """Read "door closer, she don't want it till after the season": word i is "want"."""
    start, end = talk.scopes.sentence(i)
    thing = next((t for t in talk.things if start <= t.start and t.end < i), None)
    if thing is None or not _part(thing) or not _opens(talk, thing, start):
        return None
    between, behind = talk.words[thing.end : i], talk.words[i + 1 : end]
    if between[:1] != (",",) or len(between) > _NEAR or "," in between[1:]:
        return None
    if any(w in ("i", "we", "it", "you") for w in between) or behind[:1] not in (
        ("it",),
        ("that",),
        ("one",),
    ):
        return None
    if behind[1:2] and behind[1] not in word_set("behind_what_is_unwanted"):
        return None
    return Handled("replaced", "not_done", [thing], thing.start, i + 2, None, True)


def _due_and_waits(talk: Talk, i: int) -> Handled | None:
    """Read "the water filter is due, but that is a job for the next service": word i is "due"."""
    start, end = talk.scopes.sentence(i)
    named = [t for t in talk.things if start <= t.start and t.end < i and _part(t)]
    if not named or i - named[-1].end > _NEAR or not _opens(talk, named[-1], start):
        return None
    between = talk.words[named[-1].end : i]
    behind = talk.words[i + 1 : end]
    if any(w in ("not", "never", "isn't", "ain't", "wasn't", ",") for w in between):
        return None
    if any(w in ("did", "done", "changed", "replaced", "today") for w in behind):
        return None
    waits = any(w in ("that", "that's", "it", "it's", "i'll", "we'll") for w in behind[:4])
    if not waits or word_set("puts_off_work").isdisjoint(behind):
        return None
    return Handled("replaced", "planned", named[-1:], named[-1].start, i + 1, None, True)


def _will_do(talk: Talk, i: int) -> Handled | None:
    """Read "the fan motor I'll do in the spring when the box is empty": word i is "I'll"."""
    start, end = talk.scopes.sentence(i)
    first = i - (talk.words[i] == "will")
    thing = talk.thing_over(first - 1) if first > start else None
    if thing is None or thing.end != first or not _part(thing) or not _opens(talk, thing, start):
        return None
    verb, row = talk.words[i + 1 : i + 2], talk.words[i + 2 : min(end, i + 9)]
    if not verb or verb[0] not in word_set("changes_a_part") or word_set("puts_off_work").isdisjoint(row):
        return None
    if thing.name in word_set("washed_parts"):
        return None  # "the condenser I'll do in the spring": washed
    return Handled("replaced", "planned", [thing], thing.start, i + 2, None, True)


def _wanted_but_waits(talk: Talk, i: int) -> Handled | None:
    """Read "I wanted to change it, I had none, so in the autumn": word i is "to"."""
    start, _end = talk.scopes.sentence(i)
    before, verb = talk.words[i - 1 : i], talk.words[i + 1 : i + 2]
    if not verb or verb[0] not in word_set("changes_a_part") or i - 1 < start:
        return None
    wanted = before[0] in ("wanted", "meant", "planned", "hoped", "intended", "going", "was", "were")
    if not (wanted or (talk.words[i] == "have" and before[0] in ("would", "i'd", "we'd", "'d"))):
        return None
    if any(w in word_set("own_people") for w in talk.words[max(start, i - 4) : i]):
        return None
    number = talk.w.sentence_of[i]
    last = talk.w.sentences[min(len(talk.w.sentences) - 1, number + 1)][1]
    row = talk.words[i + 2 : min(last, i + 2 + _BEHIND)]
    if word_set("had_it_not").isdisjoint(row) or any(w in ("anyway", "today", "did") for w in row):
        return None
    if word_set("puts_off_work").isdisjoint(row):
        return None
    if verb[0].endswith("ed") and talk.words[i] != "have":
        return None
    thing = talk.thing_from(i + 2) or talk.thing_from(i + 3)
    pronoun = thing is None
    if thing is None and row[:1] in (("it",), ("that",), ("them",), ("him",), ("her",)):
        thing = part_meant(talk, i + 1, "replaced")
    if thing is None or not handled_parts([thing]) or thing.modifier:
        return None
    return Handled("replaced", "planned", [thing], i - 1, i + 3, None, True, pronoun=pronoun)
