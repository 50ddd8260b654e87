"""New parts set apart from what stayed or went, and parts told to be the fault.

"So the top bearing is new, the bottom one I left."  "So that's off and there's a new one on."
"The stat was the trouble. ... Put a new one in": the stat, whatever was named since.
"A good one of the same type from my van. I put the good one."  "Fan two has a new motor."
"""

from __future__ import annotations

from bisect import bisect_left
from itertools import pairwise

from dictate.mentions.handled.doing import Handled, handled_parts
from dictate.mentions.handled.objects import objects_behind
from dictate.mentions.handled.put_in import put_in
from dictate.mentions.handled.referents import part_meant
from dictate.mentions.handled.talk import Talk
from dictate.mentions.handled.vocabulary import part_words
from dictate.mentions.whose.things import Thing
from dictate.vocabulary.load import word_set

_IS = ("is", "are", "'s")
_NONE_THERE = (("wasn't", "one"), ("was", "none"), ("weren't", "any"), ("had", "none"), ("never", "one"))
_STOPS = (".", ",", ";", "and", "now", "but")


def set_apart(talk: Talk) -> list[Handled]:
    """Return the parts that are told of as new beside others, where no verb of handling told it."""
    out: list[Handled] = []
    covered = {t.start for h in talk.out for t in h.things}
    for i, word in enumerate(talk.words):
        made = None
        if word == "new":
            made = _is_new(talk, i) or _there_is(talk, i) or _has_a_new(talk, i)
        elif word in ("put", "putted", "placed") and talk.words[i + 1 : i + 2] == ("the",):
            made = _put_the_good_one(talk, i)
        elif word == "one" and talk.words[i - 1] in ("that", "this"):
            made = _that_one_in(talk, i)
        elif word in ("one", "none") and talk.words[i - 1] in ("wasn't", "was", "had", "never"):
            made = _where_none_was(talk, i)
        if made is None or any(t.start in covered for t in made.things if t.start >= made.start):
            continue
        if not any(h.start <= i < h.end and h.action == made.action for h in talk.out):
            out.append(made)
            covered |= {t.start for t in made.things}
    return out


def _is_new(talk: Talk, i: int) -> Handled | None:
    """Read "so the top bearing is new, the bottom one I left", "the seal is new, old one was weeping"."""
    start, end = talk.scopes.sentence(i)
    if talk.words[i - 1] not in _IS or (i + 1 < end and talk.words[i + 1] not in _STOPS):
        return None
    thing = talk.thing_over(i - 2) if i - 2 >= start else None
    if thing is None or thing.modifier or thing.end != i - 1:
        return None
    told = talk.words[i + 1 : end]
    so = "so" in talk.words[max(start, thing.start - 4) : thing.start]
    old = any(told[k] in ("old", "bottom", "top", "other", "others", "rest") for k in range(len(told)))
    if not (so or old) or any(w in word_set("times_gone") for w in told):
        return None
    return put_in(talk, [thing], thing.start, i + 1)


def _there_is(talk: Talk, i: int) -> Handled | None:
    """Read "the closer had lost its oil, so that's off and there's a new one on"."""
    _, end = talk.scopes.sentence(i)
    if talk.words[i - 3 : i] != ("there", "'s", "a") or talk.words[i + 1 : i + 2] != ("one",):
        return None
    if talk.words[i + 2 : i + 3] not in (("on",), ("in",), ("fitted",)):
        return None
    if i + 3 < end and talk.words[i + 3] not in (*_STOPS, "there", "it", "its", "instead"):
        return None
    thing = part_meant(talk, i, "replaced")
    return put_in(talk, [thing], i - 3, i + 3, pronoun=True) if thing is not None else None


def _has_a_new(talk: Talk, i: int) -> Handled | None:
    """Read "fan number two has a new motor" of a sentence that opens with what has it."""
    start, end = talk.scopes.sentence(i)
    if talk.words[i - 2 : i] not in (
        ("has", "a"),
        ("have", "a"),
        ("has", "two"),
        ("have", "two"),
        ("has", "its"),
    ):
        return None
    k = bisect_left(talk.starts, start)
    if k >= len(talk.things) or not start <= talk.things[k].start <= start + 2 or talk.things[k].start >= i:
        return None
    if any(
        w in word_set("times_gone") or w in ("should", "if", "customer", "they", "who")
        for w in talk.words[start:end]
    ):
        return None
    things, _, last, _, _ = objects_behind(talk, i, end, "replaced")
    things = handled_parts(things)
    if not things or talk.words[last : last + 1] not in ((".",), (",",), ("and",), ("now",), ()):
        return None
    return put_in(talk, things, i, last)


def _put_the_good_one(talk: Talk, i: int) -> Handled | None:
    """Read "a good one from my van. I put the good one"."""
    _, end = talk.scopes.sentence(i)
    if talk.words[i + 2 : i + 3] not in (("good",), ("new",), ("spare",)) or talk.words[i + 3 : i + 4] != (
        "one",
    ):
        return None
    if i + 4 < end and talk.words[i + 4] not in (*_STOPS, "in", "on", "there"):
        return None
    if talk.scopes.verb(i) != "done":
        return None
    thing = part_meant(talk, i, "replaced")
    return put_in(talk, [thing], i, i + 4, pronoun=True) if thing is not None else None


def _that_one_in(talk: Talk, i: int) -> Handled | None:
    """Read "the strainer was a solder type, so that one I have brazed in"."""
    start, end = talk.scopes.sentence(i)
    row = [
        w
        for w in talk.words[i + 1 : min(end, i + 6)]
        if w not in ("have", "'ve", "i've", "i", "we", "had", "also")
    ]
    if row[:2] not in (
        ["brazed", "in"],
        ["soldered", "in"],
        ["welded", "in"],
        ["fitted", "new"],
        ["put", "new"],
    ):
        return None
    told = [t for t in talk.things if start <= t.start < i and not t.modifier]
    things = [t for t in handled_parts(told[-1:]) if t.name not in part_words("no_part")]
    return put_in(talk, things, i, i + 4, pronoun=True) if things else None


__all__ = ["set_apart"]


def none_was_there(talk: Talk, thing: Thing) -> bool:
    """Tell whether the part was put where there was none ("a fuse is added in line", "there wasn't one")."""
    _, end = talk.scopes.sentence(thing.start)
    told = talk.words[thing.end : min(end, thing.end + 14)]
    beside = (*talk.words[max(0, thing.start - 4) : thing.start], *told[:4])
    none = any(pair in _NONE_THERE for pair in pairwise(told)) or "never had one" in " ".join(told)
    return none or "added" in beside or "adding" in beside


def _where_none_was(talk: Talk, i: int) -> Handled | None:
    """Read "three amp fuse on the secondary now, there wasn't one": word i is "one" or "none"."""
    start, _ = talk.scopes.sentence(i)
    thing = next((t for t in talk.things if start <= t.start <= start + 4), None)
    if thing is None or thing.modifier or thing.start >= i or not none_was_there(talk, thing):
        return None
    comma = next((k for k in range(thing.end, i) if talk.words[k] == ","), None)
    if comma is None or not any(w in ("now", "in", "fitted", "added") for w in talk.words[thing.end : comma]):
        return None
    scopes = talk.scopes
    if not scopes.ours(thing.start) or scopes.conditional(thing.start) or scopes.framed(thing.start):
        return None
    return Handled("installed", "done", [thing], thing.start, comma, None, True)
