"""Exchanges told while the hands work: the old one comes off, a new one goes on, and no verb says of what.

"Old one's out. There. New one. Screws."  "One screw, him off. Other one on."
"Off she comes. ... New one. Nut."

Both halves have to be told, close together. What is only off is no exchange (it may go back on), nor is a
new one alone (it may be wanted), unless it goes in where hands are at work ("new one in, same make"). The
part is the one that the gestures name, or else the one under test: told to have failed, or the last one
spoken of that was neither cleared nor taken off by itself on the way.

    under_test     the part that the gestures are about
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from dictate.mentions.handled.doing import Handled
from dictate.mentions.handled.new_ones import put_off
from dictate.mentions.handled.put_in import put_in
from dictate.mentions.handled.referents import part_meant
from dictate.mentions.handled.talk import Talk
from dictate.mentions.handled.under_test import condemned, exactly, under_test
from dictate.mentions.handled.vocabulary import part_words
from dictate.mentions.patterns import Matcher, compile_pattern
from dictate.mentions.whose.things import Thing
from dictate.vocabulary.load import table, word_set

REACH = 45
"""Words between the old one that came off and the new one that goes on."""

WHY = "told by gestures: which part it was is taken from what was spoken of before"
_MARKS = (".", ",", ";", "!", "?", ":", "-")


@cache
def _gestures() -> Matcher:
    """Return the matcher of parts.toml's [gestures]; its labels are "off" and "on"."""
    return Matcher(
        compile_pattern(label, line) for label, lines in table("parts")["gestures"].items() for line in lines
    )


def by_gesture(talk: Talk) -> list[Handled]:
    """Return the exchanges of which both halves were told by gestures."""
    if word_set("gestures_of_new").isdisjoint(talk.words):
        return []
    out: list[Handled] = []
    off: tuple[int, int, Thing | None] | None = None
    since = 0
    covered = [(h.start, h.end) for h in talk.out if h.action in ("replaced", "installed")]
    for start, end, label, thing in sorted([*_said(talk), *_parts_off(talk)], key=lambda g: (g[0], -g[1])):
        if start < since or not _stands_alone(talk, start, end, label):
            continue
        if label == "off":
            off, since = (start, end, thing), end
            continue
        if any(a <= start < b for a, b in covered):
            continue
        if off is None or start - off[1] > REACH:
            made = _put_in_alone(talk, start, end)
        else:
            made = _exchange(talk, off, start, end)
        if made is not None:
            out.append(made)
            off, since = None, end
    return out


def _said(talk: Talk) -> Iterator[tuple[int, int, str, Thing | None]]:
    """Yield the gestures of the vocabulary."""
    for hit in _gestures().hits(talk.w):
        yield hit.start, hit.end, hit.label, None


def _parts_off(talk: Talk) -> Iterator[tuple[int, int, str, Thing | None]]:
    """Yield the parts that are named as they come off ("motor off")."""
    never = part_words("bits_of_a_repair") | part_words("no_part") | part_words("turned_on_the_way")
    words = talk.words
    for thing in talk.things:
        if thing.modifier or thing.name in never:
            continue
        last = thing.end + (words[thing.end : thing.end + 1] in (("'s",), ("is",)))
        if words[last : last + 2] in (("in", "the"), ("into", "the"), ("in", "my")):
            last += 2  # "motor in the bucket"
            gone = word_set("scrap_bins")
        else:
            gone = word_set("off_words")
        if words[last : last + 1] and words[last] in gone:
            old = words[thing.start - 1] in ("old", "auld")
            yield thing.start - old, last + 1, "off", thing


def _stands_alone(talk: Talk, first: int, last: int, label: str) -> bool:
    """Tell whether a gesture is a thought of its own, with no more before it than "and", "that's"."""
    start, end = talk.scopes.sentence(first)
    k = first - 1
    while k >= start and talk.words[k] in word_set("before_a_gesture"):
        k -= 1
    if k >= start and talk.words[k] not in _MARKS:
        return False
    if (
        label == "on"
        and talk.words[last - 1] in ("on", "in")
        and last + 1 < end
        and talk.words[last + 1] in ("'s", "is")
    ):
        return talk.words[last] in ("it", "she", "he", "that")  # "new one's on it's all flares": run together
    behind = word_set("behind_the_old_one" if label == "off" else "behind_the_new_one")
    return last >= end or talk.words[last] in behind or (label == "on" and talk.words[last][0].isdigit())


def _put_in_alone(talk: Talk, first: int, last: int) -> Handled | None:
    """Return the exchange that "new one in" tells by itself, of a part spoken of long before."""
    if talk.words[first] in ("swap", "swapped"):
        thing = under_test(talk, first, last)
        return (
            _exchange(talk, (first, first, thing), first, last) if thing and condemned(talk, thing) else None
        )
    if talk.words[first] != "new" or talk.words[last - 1] not in ("one", "pair", "set"):
        return None
    if talk.words[last : last + 1] not in (("in",), ("on",)):
        return None
    if talk.words[last + 1 : last + 2] not in (("!",), (".",), (",",), (";",), ("-",)):
        return None  # "new one in the van"
    at_work = word_set("words_of_the_hands") | word_set("hands_are_in_it")
    if at_work.isdisjoint(talk.words[max(0, first - REACH) : last + 15]):
        return None
    if part_meant(talk, first, "replaced") is not None:
        return None  # named right before: read without gestures
    return _exchange(talk, (first, first, None), first, last)


def _exchange(talk: Talk, off: tuple[int, int, Thing | None], first: int, last: int) -> Handled | None:
    """Return the exchange that two gestures tell, unless the new one is still to come."""
    words = talk.words
    _, end = talk.scopes.sentence(first)
    number = talk.w.sentence_of[first]
    stop = talk.w.sentences[min(len(talk.w.sentences) - 1, number + 1)][1]
    before = range(max(off[1], talk.scopes.sentence(first)[0]), first)
    if any(talk.scopes.kind(k) in ("past", "base") for k in before):
        return None  # "chop the flare off, new one": of what this sentence speaks of
    if put_off(talk, first, min(stop, last + 8)) or words[end - 1] == "?":
        return None
    if any(
        words[k] in word_set("no_gesture")
        and not (words[k] == "no" and words[k + 1] in word_set("not_needed_for_it"))
        for k in range(first, min(stop, last + 6))
    ):
        return None
    if "back" in words[off[1] : end]:
        return None  # "him off, cleaned him, back on. New one some day"
    if talk.scopes.noun(first, last) != "done":
        return None
    about = words[max(0, off[0] - 15) : last + 15]
    if words[first] in ("other", "another") and word_set("words_of_the_hands").isdisjoint(about):
        return None  # "that's him off. Other one on": of two that run by turns
    thing = off[2] or under_test(talk, off[0], last)
    if thing is None:
        return None
    made = put_in(talk, [exactly(talk, thing)], off[0], last, pronoun=True)
    named = any(t.start == thing.start and t.name == thing.name for t in talk.things)
    if made is not None and (not named or (off[2] is None and not condemned(talk, thing))):
        made.why = WHY
    return made
