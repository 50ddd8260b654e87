"""The parts named before a verb: in the passive, or in front of their clause."""

from __future__ import annotations

from dictate.mentions.handled.referents import part_meant
from dictate.mentions.handled.talk import Talk
from dictate.mentions.handled.vocabulary import BE, DETERMINERS, flat_adverbs, part_words
from dictate.mentions.patterns import NUMBER_WORDS
from dictate.mentions.whose.things import Thing
from dictate.vocabulary.load import word_set


def is_passive(talk: Talk, verb: int, start: int) -> bool:
    """Tell whether a form of "be" stands before the verb."""
    g = talk.scopes.skip_back(verb - 1, start)
    return g >= start and talk.words[g] in word_set("passive_be")


def subjects_before(talk: Talk, verb: int, start: int) -> tuple[list[Thing], int, bool]:
    """Return the things before a passive or a bare participle ("contactor and relay replaced")."""
    k = verb - 1
    if k - 1 >= start and talk.words[k] in ("have", "had", "'ve") and talk.words[k - 1] in ("i", "we"):
        k -= 2  # "the filter I have cleaned"
    while k >= start and (talk.words[k] in BE or talk.scopes.words[k] in word_set("before_participle")):
        k -= 1
    if k > start and talk.words[k] == "," and talk.words[k + 1] in ("both", "all"):
        k -= 1
    if k > start + 2 and talk.words[k] == ",":
        opening = next((t for t in talk.things if start <= t.start < k), None)
        numbered = opening is not None and talk.words[opening.end] in ("part", "number")
        opens = opening is not None and opening.start - start < 3
        if opening is not None and numbered and opens and "," not in talk.words[opening.end : k]:
            k = opening.end - 1  # "drier part number O eighty-three, sweated in"
    if (
        k - 2 > start
        and talk.words[k] in ("left", "right", "top", "bottom", "back", "front")
        and talk.words[k - 2 : k] in (("on", "the"), ("at", "the"))
    ):
        k -= 3  # "the gasket on the left was replaced"
    if k - 1 > start and talk.words[k] in ("both", "all") and talk.words[k - 1] == ",":
        k -= 2  # "the compressor and the drier, both swapped"
    if k > start and talk.words[k - 1 : k + 1] == ("the", "same"):
        meant = part_meant(talk, k - 1, "replaced")  # "it was faulty and the same was replaced"
        if meant is not None:
            return [meant], k - 1, True
    things: list[Thing] = []
    first = verb
    new = False
    gap = 0
    while k >= start:
        if things == [] and k - 2 >= start and talk.words[k - 1] == "number" and talk.thing_over(k - 2):
            k -= 2  # "fan number three changed"
        thing = talk.thing_over(k)
        if thing is None and not things and talk.words[k] in word_set("part_of_part"):
            break  # "the compressor cover I have removed"
        if thing is not None and thing.end == k + 1:
            j = thing.start - 1
            if (
                j >= start and talk.words[j] in ("of", "on", "for", "from", "to", "at", "across", "with")
            ) or (
                j - 1 >= start
                and talk.words[j] in DETERMINERS
                and talk.words[j - 1] in ("of", "on", "for", "from", "to", "at", "across", "with", "in")
            ):
                previous = talk.thing_over(j - 1 if talk.words[j] not in DETERMINERS else j - 2)
                if previous is None:
                    break
                k = previous.end - 1
                continue
            things.insert(0, thing)
            first = thing.start
            k = j
            while k >= start and (
                talk.words[k] in DETERMINERS
                or talk.words[k] in part_words("plain_new")
                or talk.words[k] in NUMBER_WORDS
                or talk.words[k].isdigit()
                or talk.words[k] in ("old", "dirty", "bad", "main", "whole", "entire")
            ):
                if talk.words[k] in ("new", "replacement", "spare"):
                    new = True
                first = k
                k -= 1
            if k >= start and talk.words[k] in ("and", ",", "plus"):
                numbered = (
                    k - 3 >= start and talk.words[k - 2] == "number"
                )  # "fan number three and the probe"
                previous = talk.thing_over(k - 3 if numbered else k - 1)
                if previous is not None and not is_object(talk, previous, start):
                    k -= 3 if numbered else 1
                    continue
            break
        if things:
            break
        gap += 1
        if (
            gap > 2
            or talk.words[k] in (",", ";", ".", "and", "i", "we", "then", "but")
            or talk.scopes.kind(k) in ("past", "third")
        ):
            break
        k -= 1
    return things, first, new


def is_object(talk: Talk, thing: Thing, start: int) -> bool:
    """Tell whether a verb before the thing takes it ("remade the flare, new drier brazed in")."""
    k = thing.start - 1
    while k >= start and (
        talk.words[k] in DETERMINERS
        or talk.words[k] in NUMBER_WORDS
        or talk.words[k].isdigit()
        or talk.words[k] in part_words("plain_new")
        or talk.words[k] in ("eighth", "eighths", "inch", "quarter", "old")
    ):
        k -= 1
    return k >= start and talk.scopes.kind(k) == "past" and talk.words[k] not in BE


_SPEAKER = ("i", "we", "i'll", "we'll", "i'd", "we'd", "i've", "we've")


def part_in_front(talk: Talk, verb: int, start: int) -> Thing | None:
    """Return the part that stands before its own clause ("the contactor I will swap in the spring")."""
    k = verb - 1
    while k > start and talk.words[k] not in _SPEAKER and verb - k < 5:
        if not (talk.words[k] in word_set("before_fronted_verb") or talk.words[k] in flat_adverbs()):
            return None
        k -= 1
    if k <= start or talk.words[k] not in _SPEAKER:
        return None
    j = k - 1
    while j > start and (
        talk.words[j] in NUMBER_WORDS or talk.words[j].isdigit() or talk.words[j] in word_set("circuit_words")
    ):
        j -= 1
    thing = talk.thing_over(j)
    if thing is None or thing.end != j + 1 or thing.name in part_words("no_part"):
        return None
    first = thing.start
    while first > start and talk.words[first - 1] in DETERMINERS:
        first -= 1
    return thing if first == start or talk.words[first - 1] in (",", "and", "but", ";") else None


def has_no_object(talk: Talk, k: int, end: int) -> bool:
    """Tell whether no object stands at word k: the sentence ends there, or goes on with a small word."""
    return k >= end or talk.words[k] in word_set("after_named_work") or talk.words[k] in ("with", "today")
