"""Parts told of as new beside another: "the relay came with it so that's new too"."""

from __future__ import annotations

from dictate.mentions.handled.doing import Handled, handled_parts
from dictate.mentions.handled.talk import Talk
from dictate.mentions.handled.vocabulary import BE, DETERMINERS
from dictate.mentions.narration import Narration
from dictate.mentions.patterns import words_of
from dictate.mentions.whose.things import Thing
from dictate.vocabulary.load import word_set

REACH = 3
"""Sentences behind a replacement in which another part can be "new too"."""


def came_with(talk: Talk) -> list[Handled]:
    """Read "start relay and overload came with the compressor so they're new too"."""
    done = [h for h in talk.out if h.action in ("replaced", "installed") and h.status == "done"]
    out: list[Handled] = []
    covered = {t.start for h in talk.out for t in h.things}
    out += all_new(talk, covered)
    covered |= {t.start for h in out for t in h.things}
    for i, word in enumerate(talk.words):
        if word != "new" or not says_new_too(talk, i):
            continue
        start, _ = talk.scopes.sentence(i)
        here = talk.w.sentence_of[i]
        its = talk.words[i - 2 : i] if talk.words[i - 1] in ("'s", "is") else ()
        if its and its[0] in ("that", "it") and (made := that_is_new(talk, i, start)) is not None:
            if not any(t.start in covered for t in made.things):
                out.append(made)
            continue
        also = talk.words[i - 1] == "also" and talk.words[i - 2] in ("'s", "is", "are")
        now = talk.words[i + 1 : i + 2] == ("now",) or talk.words[i + 1 : i + 3] == ("as", "of")
        if not (also or now) and not any(
            h.start < i and here - talk.w.sentence_of[h.start] <= REACH for h in done
        ):
            continue
        if not talk.scopes.ours(i) or talk.scopes.conditional(i) or talk.scopes.framed(i):
            continue
        things = [t for t in handled_parts(told_of(talk, i, start)) if t.start not in covered]
        if things:
            out.append(Handled("replaced", "done", things, things[0].start, i + 1, None, True))
    return out


def all_new(talk: Talk, covered: set[int]) -> list[Handled]:
    """Read "eight filters, twenty by twenty, all new": the part that the sentence opens with."""
    out: list[Handled] = []
    for i, word in enumerate(talk.words):
        if word != "new":
            continue
        if talk.words[i - 1] not in ("all", "both"):
            out += (
                _row_new(talk, i, covered) if talk.words[i - 1] == "," else _whole_set_new(talk, i, covered)
            )
            continue
        behind = talk.words[i + 1] if i + 1 < len(talk.words) else "."
        start, _ = talk.scopes.sentence(i)
        if talk.words[i - 2] not in (",", "they're", "are", "'re", "now") or behind not in (
            ".",
            ",",
            "now",
            "and",
        ):
            continue
        if talk.scopes.noun(i, i + 1) != "done":
            continue
        told = [t for t in talk.things if start <= t.start < i and t.start not in covered and not t.modifier]
        things = handled_parts(told[:1])
        if things and things[0].plural:
            out.append(Handled("replaced", "done", things, things[0].start, i + 1, None, True))
    return out


def _whole_set_new(talk: Talk, i: int, covered: set[int]) -> list[Handled]:
    """Read "all three fuses new": a whole set with "new" behind it."""
    thing = talk.thing_over(i - 1) if i else None
    if thing is None or thing.end != i or thing.start in covered:
        return []
    if not thing.plural:
        return _called_new_at_once(talk, thing, i)
    behind = talk.words[i + 1] if i + 1 < len(talk.words) else "."
    before = talk.words[max(0, thing.start - 2) : thing.start]
    if behind not in (".", ",", "now", "and", ";") or not any(w in ("all", "both") for w in before):
        return []
    things = handled_parts([thing])
    if not things or talk.scopes.noun(i, i + 1) != "done":
        return []
    return [Handled("replaced", "done", things, thing.start, i + 1, None, True)]


def that_is_new(talk: Talk, i: int, start: int) -> Handled | None:
    """Read "the pole faces of the contactor were burnt, so that's new as well"."""
    if not any(w in ("so", "and") for w in talk.words[max(start, i - 4) : i]):
        return None
    told = [t for t in talk.things if start <= t.start < i and not t.modifier]
    things = handled_parts(told[:1])
    if not things or things[0].generic:
        return None
    return Handled("replaced", "done", things, things[0].start, i + 1, None, True)


def says_new_too(talk: Talk, i: int) -> bool:
    """Tell whether word i is the "new" of "is new too", "are also new", "came with it so it's new"."""
    k = i - 1
    if talk.words[k] in ("also", "all", "both"):
        k -= 1
    if talk.words[k] not in BE and talk.words[k] not in ("'re", "'s", "they're", "that's"):
        return False
    behind = talk.words[i + 1] if i + 1 < len(talk.words) else "."
    if behind in word_set("new_like_the_rest") or talk.words[i - 1] == "also":
        return True
    start, _ = talk.scopes.sentence(i)
    said = talk.words[start:i]
    return behind in (".", ",", "and") and any(
        said[j] in ("came", "come", "comes") and said[j + 1 : j + 2] in (("with",), ("in",), ("as",))
        for j in range(len(said))
    )


def told_of(talk: Talk, i: int, start: int) -> list[Thing]:
    """Return the parts that are called new at word i: those right before, or those of "... came with it"."""
    said = talk.words[start:i]
    came = next((start + j for j, w in enumerate(said) if w in ("came", "come", "comes")), None)
    k = i - 1
    while k > start and (talk.words[k] in BE or talk.words[k] in ("also", "all", "both", "'s", "'re")):
        k -= 1
    last = talk.thing_over(k)
    if last is None:
        if came is None or talk.words[k] not in word_set("pronouns") | {
            "they're",
            "that's",
            "that",
            "they",
            "it",
        }:
            return []
        k = came - 1
        last = talk.thing_over(k)
        if last is None:
            return []
    things = [last]
    k = last.start - 1
    while k >= start and (talk.words[k] in DETERMINERS or talk.words[k] in ("and", ",", "plus", "both")):
        k -= 1
        other = talk.thing_over(k)
        if other is not None and talk.words[other.end] in ("and", ",", "plus"):
            things.insert(0, other)
            k = other.start - 1
    return things


def comes_with(narration: Narration, i: int, thing: str) -> bool:
    """Tell whether the thing at word i only comes with another one."""
    if thing not in ("o-ring", "gasket", "seal"):
        return False
    words = words_of(narration)
    start, _ = words.sentences[words.sentence_of[i]]
    row = words.words[max(start, i - 8) : i + 1]
    return "with" in row[-4:] and (thing == "o-ring" or "caps" in row or "cap" in row)


def _called_new_at_once(talk: Talk, thing: Thing, i: int) -> list[Handled]:
    """Read "left heater new, right heater original": a part that a sentence opens with, and "new"."""
    start, end = talk.scopes.sentence(i)
    if i + 1 < end and talk.words[i + 1] not in (",", ".", ";"):
        return []
    if any(w not in word_set("before_part_in_place") for w in talk.words[start : thing.start]):
        return []
    things = handled_parts([thing])
    if not things or thing.generic or talk.scopes.noun(i, i + 1) != "done":
        return []
    return [Handled("replaced", "done", things, thing.start, i + 1, None, True)]


def _row_new(talk: Talk, i: int, covered: set[int]) -> list[Handled]:
    """Read "both evaporator motors and all three blades, new": a row of parts that a sentence opens with."""
    start, end = talk.scopes.sentence(i)
    if i + 1 < end and talk.words[i + 1] != ".":
        return []
    things = [t for t in talk.things if start <= t.start < i and not t.modifier]
    if len(things) < 2 or any(t.start in covered for t in things) or things[-1].end != i - 1:
        return []
    if any(
        talk.scopes.kind(k) in ("past", "third", "base") and talk.thing_over(k) is None
        for k in range(start, i)
    ):
        return []
    things = handled_parts(things)
    if not things or talk.scopes.noun(i, i + 1) != "done":
        return []
    return [Handled("replaced", "done", things, things[0].start, i + 1, None, True)]
